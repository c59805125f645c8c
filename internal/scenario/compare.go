// Package scenario is two states of a household side by side: what if pay went
// up, a child were born, a spouse stopped working; and what then changes in the
// year and on the certificates. It computes no figure itself.
//
// Start at Compare.
package scenario

import (
	"slices"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/money"
)

// Comparison is two results side by side: two states of a household, or the
// same with and without what may happen.
type Comparison struct {
	TaxYear   int           `json:"tax_year"`            // of A
	Projected bool          `json:"projected,omitempty"` // the tables of A or of B are
	A         Summary       `json:"a"`
	B         Summary       `json:"b"`
	Change    Summary       `json:"change"`  // from A to B
	Entries   []EntryChange `json:"entries"` // of the recommended certificates, where they differ
	January   []EntryChange `json:"january"` // of January's certificates, where they differ
	// NextYear is the year after, on January's certificates; nil where one of the
	// two has no job that runs into it.
	NextYear *NextYear `json:"next_year,omitempty"`
}

// NextYear is the year after the one compared.
type NextYear struct {
	TaxYear int     `json:"tax_year"`
	A       Summary `json:"a"`
	B       Summary `json:"b"`
	Change  Summary `json:"change"` // from A to B
}

// Summary is a result in a few figures, dollars for the year.
type Summary struct {
	TotalTax          money.Amount `json:"total_tax"`
	RefundableCredits money.Amount `json:"refundable_credits"`
	AsFiled           money.Amount `json:"as_filed_balance"`    // if the certificates on file stay
	Recommended       money.Amount `json:"recommended_balance"` // on the recommended certificates
	EstimatedPayment  money.Amount `json:"estimated_payment"`
}

// to is the change from one summary to another.
func (s Summary) to(b Summary) Summary {
	return Summary{
		TotalTax:          b.TotalTax.Sub(s.TotalTax),
		RefundableCredits: b.RefundableCredits.Sub(s.RefundableCredits),
		AsFiled:           b.AsFiled.Sub(s.AsFiled),
		Recommended:       b.Recommended.Sub(s.Recommended),
		EstimatedPayment:  b.EstimatedPayment.Sub(s.EstimatedPayment),
	}
}

// EntryChange is an entry of a recommended certificate that differs. A job that
// only one result has shows zero in the other.
type EntryChange struct {
	Job  string       `json:"job"`
	Line string       `json:"line"` // "3a" to "4c", or "withholding" for an ordinary paycheck
	A    money.Amount `json:"a"`
	B    money.Amount `json:"b"`
}

// Compare is two results side by side. Jobs are the same when their
// names are.
func Compare(a, b certificate.Result) Comparison {
	c := Comparison{
		TaxYear: a.TaxYear, Projected: a.Projected() || b.Projected(), A: summary(a), B: summary(b),
		Entries: changes(a.Recommended, b.Recommended), January: changes(january(a), january(b)),
	}
	c.Change = c.A.to(c.B)
	x, inA := nextSummary(a)
	if y, inB := nextSummary(b); inA && inB && a.January.TaxYear == b.January.TaxYear {
		c.NextYear = &NextYear{TaxYear: a.January.TaxYear, A: x, B: y, Change: x.to(y)}
	}
	return c
}

// january is the plan of January's certificates; an empty one where no job runs
// into next year.
func january(r certificate.Result) certificate.Plan {
	if r.January == nil {
		return certificate.Plan{}
	}
	return r.January.Plan
}

// changes are the entries in which two plans differ, job by job.
func changes(a, b certificate.Plan) []EntryChange {
	var names []string
	for _, p := range []certificate.Plan{a, b} {
		for _, jc := range p.Certificates {
			if !slices.Contains(names, jc.Name) {
				names = append(names, jc.Name)
			}
		}
	}
	all := []EntryChange{}
	for _, name := range names {
		x, y := figures(ofJob(a, name)), figures(ofJob(b, name))
		for i := range x {
			if !x[i].Amount.Equal(y[i].Amount) {
				all = append(all, EntryChange{Job: name, Line: x[i].Line, A: x[i].Amount, B: y[i].Amount})
			}
		}
	}
	return all
}

func summary(r certificate.Result) Summary {
	return Summary{
		TotalTax:          r.Return.TotalTax,
		RefundableCredits: r.Return.RefundableCredits,
		AsFiled:           r.AsFiled.Balance,
		Recommended:       r.Recommended.Balance,
		EstimatedPayment:  r.Estimated.Amount,
	}
}

// nextSummary is the year after in the same figures; false where no job runs into
// it. What is to be paid directly is what is paid so this year, again.
func nextSummary(r certificate.Result) (Summary, bool) {
	balance, ok := r.JanuaryAsFiled()
	if !ok {
		return Summary{}, false
	}
	return Summary{
		TotalTax:          r.January.Return.TotalTax,
		RefundableCredits: r.January.Return.RefundableCredits,
		AsFiled:           balance,
		Recommended:       r.January.Balance,
		EstimatedPayment:  r.January.EstimatedTax,
	}, true
}

// ofJob is the plan's certificate for a job of that name; an empty one where it
// has none.
func ofJob(p certificate.Plan, name string) certificate.JobCertificate {
	for _, c := range p.Certificates {
		if c.Name == name {
			return c
		}
	}
	return certificate.JobCertificate{Name: name, Lines: certificate.EmptyLines()}
}

// figures are the certificate's lines, and what an ordinary paycheck withholds.
func figures(c certificate.JobCertificate) []certificate.Entry {
	return append(c.Lines.All(), certificate.Entry{Line: "withholding", Amount: c.Withholding})
}
