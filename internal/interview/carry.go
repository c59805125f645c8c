package interview

import (
	"slices"
	"strconv"
	"strings"

	"example.com/plumbline/internal/household"
)

// carriedOver is the answers moved to the year after, with what the old year's
// return is expected to show; nothing where they cannot be read.
func (s *Session) carriedOver() household.Carried {
	h, err := s.Household()
	if err != nil {
		return household.Carried{}
	}
	var forecast *household.LastYear
	if r, err := s.Result(); err == nil && !s.Blank() {
		tax := r.Return.TotalTax.Sub(r.Return.RefundableCredits).OrZero() // Form 2210 line 8
		forecast = &household.LastYear{TotalTax: &tax, AdjustedGrossIncome: &r.Return.AdjustedGrossIncome}
	}
	return h.CarryOver(forecast)
}

// carry writes the answers of the new year into the file. The year's amounts
// stay as suggestions, to be given again; so does how many jobs there are, where
// one ended. What is known without a question counts without one.
func (s *Session) carry(c household.Carried) {
	for _, key := range c.Drop {
		s.doc.Delete(key)
	}
	for _, a := range c.Set {
		_ = s.doc.Set(a.Key, a.Text)
	}
	slices.Reverse(c.Gone) // from the last, so that indexes stay true
	for _, i := range c.Gone {
		s.forgetJob(i)
	}
	s.settleOnce() // the jobs may have other labels now
	beyond := idList(s.doc, beyondKey)
	for _, a := range c.Set {
		if key := moved(a.Key, c.Gone); s.doc.Has(key) && (strings.HasSuffix(key, ".first_payday") || strings.HasPrefix(key, "last_year.")) {
			beyond[s.id(key)] = true
		}
	}
	setIDList(s.doc, beyondKey, beyond)
	for _, a := range c.Again {
		id := s.id(moved(a.Key, c.Gone))
		if label, ok := strings.CutSuffix(id, ".qualified_overtime"); ok { // it may follow from what was typed
			s.reopen(true, "interview."+label+"_overtime_pay")
		}
		s.reopen(true, id)
	}
}

// moved is a key once the jobs at some indexes are gone.
func moved(key string, gone []int) string {
	index, rest, ok := strings.Cut(strings.TrimPrefix(key, "jobs["), "].")
	i, err := strconv.Atoi(index)
	if !ok || err != nil || !strings.HasPrefix(key, "jobs[") {
		return key
	}
	before := 0
	for _, g := range gone {
		if g < i {
			before++
		}
	}
	return "jobs[" + strconv.Itoa(i-before) + "]." + rest
}

// countOf is the question that asks how many jobs of a group there are.
var countOf = map[string]string{
	"job": "interview.jobs", "spouse_job": "interview.spouse_jobs",
	"pension": "interview.pensions", "spouse_pension": "interview.spouse_pensions",
}

// forgetJob takes the job at an index out of the file. The answers about those
// of its group that come after it move up.
func (s *Session) forgetJob(i int) {
	kind := s.walk.jobKind(i)
	label, live := s.walk.groups["jobs["+strconv.Itoa(i)+"]"]
	s.doc.Delete("jobs[" + strconv.Itoa(i) + "]")
	if !live {
		return
	}
	k, _ := strconv.Atoi(strings.TrimPrefix(label, kind+"_"))
	n, _ := s.doc.Get(countOf[kind])
	count, first := answer(n).whole(), k
	for ; k <= count; k++ {
		from, to := "interview."+kind+"_"+strconv.Itoa(k+1)+"_", "interview."+kind+"_"+strconv.Itoa(k)+"_"
		for _, key := range s.doc.Keys() {
			if strings.HasPrefix(key, to) {
				s.doc.Delete(key)
			}
		}
		for _, key := range s.doc.Keys() {
			if rest, ok := strings.CutPrefix(key, from); ok {
				text, _ := s.doc.Get(key)
				_ = s.doc.Set(to+rest, text)
			}
		}
	}
	s.relabelForecasts(kind, first)
	_ = s.doc.Set(countOf[kind], strconv.Itoa(max(count-1, 0)))
	s.reopen(true, countOf[kind])
}
