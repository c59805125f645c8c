package interview

import (
	"slices"
	"strconv"
	"strings"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// Finish notes in the file that results were shown, with what they forecast, so
// that a later sitting can compare it with what has happened. Save the document
// afterwards.
func (s *Session) Finish() error {
	r, err := s.Result()
	if err != nil {
		return err
	}
	s.doc.Delete(forecastKey)
	_ = s.doc.Set(finishedKey, s.env.Today.String())
	if s.Blank() {
		return nil
	}
	_ = s.doc.Set(forecastKey+".day", s.env.Today.String())
	_ = s.doc.Set(forecastKey+".balance", r.Recommended.Balance.ToCent().Text())
	for n, c := range r.Recommended.Certificates {
		j, at := r.Household.Jobs[c.Job], forecastOf(n)
		put := func(name, text string) { _ = s.doc.Set(at+"."+name, text) }
		put("job", s.walk.groups["jobs["+strconv.Itoa(c.Job)+"]"])
		if y := j.YearToDate; y != nil {
			put("through", y.Payday.String())
			put("withheld", y.FederalTax.Text())
			put("paid", y.TaxablePay.Text())
		}
		put("pay", j.OrdinaryPay().Text())
		put("before", c.Withholding.Add(c.Change).ToCent().Text())
		put("from", c.FirstPayday.String())
		put("after", c.Withholding.ToCent().Text())
		put("new", yesNo(j.Certificate == nil || *j.Certificate != c.Certificate))
		s.setCertificate(at+".certificate", c.Certificate)
	}
	s.noteAhead(r)
	return nil
}

// certificateFields are the answers that describe a certificate; entries that
// are empty are left out.
func certificateFields(c household.Certificate) map[string]string {
	fields := map[string]string{"filing_status": c.Status.String()}
	if c.Edition == household.Before2020 {
		fields = map[string]string{
			"edition": c.Edition.String(), "marital": c.Marital.String(), "allowances": strconv.Itoa(c.Allowances), "extra": "0",
		}
	}
	for field, a := range map[string]money.Amount{
		"credits": c.Credits, "other_income": c.OtherIncome, "deductions": c.Deductions, "extra": c.Extra,
	} {
		if a.IsPositive() {
			fields[field] = a.Text()
		}
	}
	for field, yes := range map[string]bool{"multiple_jobs": c.MultipleJobs, "exempt": c.Exempt} {
		if yes {
			fields[field] = yesNo(yes)
		}
	}
	return fields
}

// lookBack says what the last sitting forecast for the year.
func (w *walk) lookBack() []notice {
	log := w.log()
	if log.LastForecast == nil || log.WasYear != 0 {
		return nil
	}
	name, balance := "forecast_refund", log.LastForecast.Balance
	if balance.IsNegative() {
		name = "forecast_due"
	}
	return []notice{w.notice(name, "date", w.returned(), "balance", balance.Abs())}
}

// keepEarlier moves the certificate on file to the earlier ones: one without
// entries where payroll had none. Where it counts from the same payday as the new
// one, it is that one, noted before.
func (s *Session) keepEarlier(g group, from household.Date) {
	counts, _ := s.doc.Get(g.prefix + ".certificate.counts_from")
	if from.IsZero() || counts == from.String() {
		return
	}
	at := g.prefix + ".earlier_certificates[" + strconv.Itoa(s.doc.Len(g.prefix+".earlier_certificates")) + "]"
	had := false
	for _, key := range s.doc.Keys() {
		if field, ok := strings.CutPrefix(key, g.prefix+".certificate."); ok {
			value, _ := s.doc.Get(key)
			s.set(at+"."+field, value)
			had = true
		}
	}
	if !had {
		s.set(at+".filing_status", household.CertificateSingle.String())
	}
}

// Met is one job's forecast beside what the newest stub shows: federal income
// tax withheld since January.
type Met struct {
	Job      string // as people read it
	Payday   household.Date
	Forecast money.Amount
	Actual   money.Amount
}

// LookBack compares the last sitting's forecast with the newest stubs; empty in
// a first sitting and where no stub is newer.
func (s *Session) LookBack() []Met {
	var all []Met
	for i := range s.walk.steps {
		at := &s.walk.steps[i]
		if at.wording.Key != "jobs[].year_to_date.federal_tax" {
			continue
		}
		if met, ok := s.walk.met(at.about); ok {
			all = append(all, met)
		}
	}
	return all
}

// met is the forecast for a job beside its newest stub. What was forecast to be
// withheld by its payday is what had been, and an ordinary paycheck's
// withholding for each payday since, before and after the new certificate
// counts; one-time pay is left out.
func (w *walk) met(g group) (Met, bool) {
	j, ok := w.job(g)
	last, foretold := w.lastTime().Of(g.label)
	if !ok || !foretold || j.YearToDate == nil || w.returned().IsZero() || w.stubOpen(g) {
		return Met{}, false
	}
	if !j.YearToDate.Payday.After(last.Through) || last.Through.Year != 0 && last.Through.Year != w.y.Year {
		return Met{}, false
	}
	total := last.Withheld
	days := j.YearPaydays(w.y.Year)
	for _, d := range days.All[j.PaydaysThrough(w.y.Year, last.Through).Covered:days.Covered] {
		if d.Before(last.From) {
			total = total.Add(last.Before)
		} else {
			total = total.Add(last.After)
		}
	}
	return Met{Job: words.Capital(g.name), Payday: j.YearToDate.Payday, Forecast: total, Actual: j.YearToDate.FederalTax}, true
}

// stubOpen reports that a figure of a job's stub is still to be given, so that
// the figures are of two stubs.
func (w *walk) stubOpen(g group) bool {
	return slices.ContainsFunc(stubFields, func(field string) bool {
		i, asked := w.place[g.label+"."+field]
		return asked && w.steps[i].open()
	})
}

// stubFields are the answers that one stub gives, within the job's.
var stubFields = []string{"year_to_date.payday", "year_to_date.taxable_pay", "year_to_date.federal_tax"}

// newerThan is a job as it was in the last sitting, with the stub of then, where
// the person says that the stub in hand is newer.
func (w *walk) newerThan(g group) (household.Job, bool) {
	earlier := w.log().Earlier
	if earlier == nil || earlier.TaxYear != w.y.Year || !w.get("interview."+g.label+"_newer_stub").yes() {
		return household.Job{}, false
	}
	j, ok := w.jobBefore(g)
	return j, ok && j.YearToDate != nil
}

// jobBefore is a job as it was in the last sitting.
func (w *walk) jobBefore(g group) (household.Job, bool) {
	earlier := w.log().Earlier
	if earlier == nil {
		return household.Job{}, false
	}
	return labeled(*earlier, g.label)
}

// labeled is the job of a household that has a label in its answers.
func labeled(h household.Household, label string) (household.Job, bool) {
	nth := make(map[string]int)
	for _, j := range h.Jobs {
		kind := kindOf(j.Kind.String(), j.Earner.String())
		if nth[kind]++; kind+"_"+strconv.Itoa(nth[kind]) == label {
			return j, true
		}
	}
	return household.Job{}, false
}

// payGrew is the pay of the paydays between the last sitting's stub and a newer
// one, a payday each: on average, and as it was then. It reports false where
// there is nothing to compare, or both are alike but for a tenth of a percent.
func (w *walk) payGrew(g group) (average, before money.Amount, differs bool) {
	last, ok := w.newerThan(g)
	j, known := w.job(g)
	before = last.OrdinaryPay()
	if !ok || !known || j.YearToDate == nil || w.stubOpen(g) || !before.IsPositive() {
		return money.Zero, money.Zero, false
	}
	n := j.YearPaydays(w.y.Year).Covered - j.PaydaysThrough(w.y.Year, last.StubPayday()).Covered
	grown := j.YearToDate.TaxablePay.Sub(last.YearToDate.TaxablePay)
	if n <= 0 || !grown.IsPositive() {
		return money.Zero, money.Zero, false
	}
	const share = 1000
	off := grown.Sub(before.Times(n)).Abs()
	return grown.DividedBy(n).ToCent(), before, off.Times(share).More(before.Times(n))
}

// cached is the result for the answers as they are.
type cached struct {
	done   bool
	result certificate.Result
	err    error

	advised string // the plan recommended, whichever was chosen
}
