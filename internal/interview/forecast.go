package interview

import (
	"strconv"
	"strings"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// forecastKey is where one figure of the forecast stands.
func forecastKey(name string) string { return `interview[` + strconv.Quote(forecastName+name) + `]` }

// Finish notes in the file that results were shown, with what they forecast, so
// that a later sitting can hold it against what has happened. Save the document
// afterwards.
func (s *Session) Finish() error {
	r, err := s.Result()
	if err != nil {
		return err
	}
	for _, key := range s.doc.Keys() {
		if name, ok := interviewName(key); ok && strings.HasPrefix(name, forecastName) {
			s.doc.Delete(key)
		}
	}
	_ = s.doc.Set("interview.finished", s.env.Today.String())
	if s.Blank() {
		return nil
	}
	put := func(name, text string) { _ = s.doc.Set(forecastKey(name), text) }
	put("balance", r.Recommended.Balance.ToCent().Text())
	for _, c := range r.Recommended.Certificates {
		label := s.walk.groups["jobs["+strconv.Itoa(c.Job)+"]"]
		j := r.Household.Jobs[c.Job]
		if y := j.YearToDate; y != nil {
			put(label+".through", y.Payday.String())
			put(label+".withheld", y.FederalTax.Text())
		}
		put(label+".before", c.Withholding.Add(c.Change).ToCent().Text())
		put(label+".from", c.FirstPayday.String())
		put(label+".after", c.Withholding.ToCent().Text())
		put(label+".filing_status", c.Certificate.Status.String())
		put(label+".multiple_jobs", yesNo(c.Certificate.MultipleJobs))
		put(label+".credits", c.Certificate.Credits.Text())
		put(label+".other_income", c.Certificate.OtherIncome.Text())
		put(label+".deductions", c.Certificate.Deductions.Text())
		put(label+".extra", c.Certificate.Extra.Text())
		put(label+".exempt", yesNo(c.Certificate.Exempt))
	}
	return nil
}

// forecast is one figure of the last sitting's forecast.
func (w *walk) forecast(name string) answer {
	text, _ := w.doc.Get(forecastKey(name))
	return answer(text)
}

// lookBack says what the last sitting forecast for the year.
func (w *walk) lookBack() []string {
	balance := w.forecast("balance")
	if !balance.given() || w.doc.Has("interview.was_year") {
		return nil
	}
	name := "forecast_refund"
	if balance.amount().IsNegative() {
		name = "forecast_due"
	}
	return []string{w.notice(name, "date", w.returned().Long(), "balance", dollars(balance.amount().Abs()))}
}

// offersLastTime reports whether the last sitting gave a certificate for a job,
// which may have been handed in since.
func (w *walk) offersLastTime(g group) bool {
	return !w.returned().IsZero() && w.forecast(g.label+".filing_status").given()
}

// putOnFile takes the last sitting's certificate as what payroll has since the
// payday from which it was to count; the one before it is kept, to judge earlier
// paydays by.
func (s *Session) putOnFile(g group) {
	from := s.walk.forecast(g.label + ".from").day()
	s.keepEarlier(g, from)
	for _, key := range s.doc.Keys() {
		if strings.HasPrefix(key, g.prefix+".certificate.") {
			s.doc.Delete(key)
		}
	}
	c := household.Certificate{
		MultipleJobs: s.walk.forecast(g.label + ".multiple_jobs").yes(),
		Exempt:       s.walk.forecast(g.label + ".exempt").yes(),
		Credits:      s.walk.forecast(g.label + ".credits").amount(),
		OtherIncome:  s.walk.forecast(g.label + ".other_income").amount(),
		Deductions:   s.walk.forecast(g.label + ".deductions").amount(),
		Extra:        s.walk.forecast(g.label + ".extra").amount(),
	}
	if !from.IsZero() {
		s.set(g.prefix+".certificate.counts_from", from.String())
	}
	s.set(g.prefix+".certificate.filing_status", string(s.walk.forecast(g.label+".filing_status")))
	for _, line := range []struct {
		field  string
		amount money.Amount
	}{{"credits", c.Credits}, {"other_income", c.OtherIncome}, {"deductions", c.Deductions}, {"extra", c.Extra}} {
		if line.amount.IsPositive() {
			s.set(g.prefix+".certificate."+line.field, line.amount.Text())
		}
	}
	s.set("interview."+g.label+"_on_file", "current")
	s.set("interview."+g.label+"_lines", linesOf(c))
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

// LookBack holds the last sitting's forecast against the newest stubs; empty in
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
// counted; one-time pay is left out.
func (w *walk) met(g group) (Met, bool) {
	j, ok := w.job(g)
	after := w.forecast(g.label + ".after")
	if !ok || j.YearToDate == nil || w.returned().IsZero() || !after.given() {
		return Met{}, false
	}
	through, from := w.forecast(g.label+".through").day(), w.forecast(g.label+".from").day()
	if !j.YearToDate.Payday.After(through) || through.Year != 0 && through.Year != w.y.Year {
		return Met{}, false
	}
	total := w.forecast(g.label + ".withheld").amount()
	days := j.YearPaydays(w.y.Year)
	for _, d := range days.All[j.PaydaysThrough(w.y.Year, through).Covered:days.Covered] {
		if d.Before(from) {
			total = total.Add(w.forecast(g.label + ".before").amount())
		} else {
			total = total.Add(after.amount())
		}
	}
	return Met{Job: upper(g.name), Payday: j.YearToDate.Payday, Forecast: total, Actual: j.YearToDate.FederalTax}, true
}

// cached is the result for the answers as they stand.
type cached struct {
	done   bool
	result certificate.Result
	err    error

	advised string // the plan recommended, whichever was chosen
}
