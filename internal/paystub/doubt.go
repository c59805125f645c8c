package paystub

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
)

// Doubt is something to check on a job's stub before anybody goes by it.
type Doubt struct {
	Job  int // index into Household.Jobs
	What words.Text
}

// Doubts are the Doubts of the stubs of a household, without looking for causes that
// change none.
func Doubts(h household.Household, y *tables.Year) []Doubt {
	var all []Doubt
	for _, i := range h.CountedJobs() {
		if r, ok := newReader(h, i, y); ok {
			r.inShort = true
			all = append(all, r.read().Doubts()...)
		}
	}
	return all
}

// Doubts are what to check on a stub, each in a sentence with the job's name: figures
// that cannot be right together, and federal tax that the certificate in the answers
// does not make and nothing that payroll may do explains. There are none where the
// stub is right or about right, may be right on pay that varied as is likely, or cannot
// be judged.
func (s Stub) Doubts() []Doubt {
	var all []Doubt
	for _, q := range s.Questions {
		all = append(all, Doubt{s.Job, words.T("stub.doubt.question", "job", s.Name, "what", q)})
	}
	if len(all) == 0 && s.taxIsWrong() {
		all = append(all, Doubt{s.Job, words.T("stub.doubt.tax", "job", s.Name, "basis", string(s.Basis),
			"shown", s.FederalTax.Actual, "expected", s.FederalTax.Expected)})
	}
	return all
}

// Cause is what would explain a doubted tax to the cent, in words; zero where
// nothing does.
func (s Stub) Cause() words.Text {
	if s.taxIsWrong() && len(s.Explanations) > 0 && s.Explanations[0].Exact {
		return words.T("stub.doubt.cause", "job", s.Name, "what", s.Explanations[0].What)
	}
	return words.Text{}
}

// taxIsWrong reports federal tax that is far from what it should be, for no reason
// that payroll may have.
func (s Stub) taxIsWrong() bool {
	c := s.FederalTax
	if !s.Unread.IsZero() || c.Right || c.About || len(s.Explanations) > 0 && s.Explanations[0].Allowed {
		return false
	}
	return c.FarApart || !c.MayBeRight()
}

// settled are the explanations that settle whether the tax is wrong without those of
// other certificates: what payroll may do, to the cent; or none, where nothing that
// payroll may do comes near and no pay that varied can bring the tax. It reports false
// where only all of them settle it.
func (r *stubReader) settled(believed supposition) ([]Explanation, bool) {
	off := r.withheld(believed).Sub(r.actual).Abs()
	may := append(r.employersChoice(believed), r.oneTimePay(believed)...)
	found := r.exactOf(may, off)
	exact := slices.DeleteFunc(slices.Clone(found), func(e Explanation) bool { return !e.Exact })
	if len(exact) > 0 {
		return exact, true
	}
	return nil, len(found)+len(r.exactOf(combined(may), off)) == 0 && !r.likely(believed)
}
