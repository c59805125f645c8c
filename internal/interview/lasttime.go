package interview

import (
	"maps"
	"slices"
	"strconv"
	"strings"
	"time"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/paystub"
	"example.com/plumbline/internal/yamldoc"
)

// What an earlier sitting advised may have been done since. What this sitting's
// results show is forecastKey; on a return it moves to lastKey, so that "last
// time" is never a minute ago.

// noteAhead notes in the file's forecast what its results advise for the year
// after: January's new certificates, and payments by days that can be in it.
func (s *Session) noteAhead(r certificate.Result) {
	if j := r.January; j != nil && !j.NothingToHandIn() {
		_ = s.doc.Set(forecastKey+".january.tax_year", strconv.Itoa(j.TaxYear))
		n := 0
		for _, c := range j.Certificates {
			if c.Keep {
				continue
			}
			at := forecastKey + ".january.certificates[" + strconv.Itoa(n) + "]"
			_ = s.doc.Set(at+".job", s.walk.groups["jobs["+strconv.Itoa(c.Job)+"]"])
			_ = s.doc.Set(at+".first_payday", c.FirstPayday.String())
			_ = s.doc.Set(at+".withholding_per_paycheck", c.Withholding.ToCent().Text())
			s.setCertificate(at+".certificate", c.Certificate)
			n++
		}
	}
	for i, p := range r.Verdict.PayDirectly.Parts {
		at := forecastKey + ".pay_directly[" + strconv.Itoa(i) + "]"
		_ = s.doc.Set(at+".amount", p.Amount.ToCent().Text())
		_ = s.doc.Set(at+".by", p.Due.String())
	}
}

// advisedAhead notes what the results of the old year's last sitting advised for
// the new one, in a file in which this was not noted then.
func (s *Session) advisedAhead() {
	if !s.doc.Has(forecastKey) || s.doc.Has(forecastKey+".day") {
		return
	}
	if r, err := s.Result(); err == nil {
		s.noteAhead(r)
	}
}

// setCertificate writes a certificate below a key.
func (s *Session) setCertificate(at string, c household.Certificate) {
	fields := certificateFields(c)
	for _, field := range slices.Sorted(maps.Keys(fields)) {
		s.set(at+"."+field, fields[field])
	}
}

// keepForecast makes the forecast of the sitting that is over the last one. Where
// that sitting came to no results, the one before it stays.
func (s *Session) keepForecast() {
	if !s.doc.Has(forecastKey) {
		return
	}
	s.doc.Delete(lastKey)
	copyBelow(s.doc, forecastKey, s.doc, lastKey)
	s.doc.Delete(forecastKey)
}

// copyBelow copies what is below a key of one document to below a key of another.
func copyBelow(from *yamldoc.Document, below string, to *yamldoc.Document, at string) {
	for _, key := range from.Keys() {
		if rest, ok := strings.CutPrefix(key, below+"."); ok {
			text, _ := from.Get(key)
			_ = to.Set(at+"."+rest, text)
		}
	}
}

// TakeUp brings into the answers of a year, before Start, what those of the year
// before have advised for it since they were last worked on: the old year's file can
// be opened again when that of the new year is there already.
func TakeUp(doc, old *yamldoc.Document) {
	h, before := tolerant(doc), tolerant(old)
	f := before.Interview.Forecast
	seen := func(known *household.Forecast) bool { return known != nil && known.Day == f.Day }
	switch {
	case before.TaxYear+1 != h.TaxYear, f == nil, f.Day.Before(h.AsOf), seen(h.Interview.LastForecast), seen(h.Interview.Forecast):
		return
	case len(before.CarryOver(nil).Gone) > 0:
		return // the jobs have other labels here
	}
	writePayments(doc, before.TaxYear, f)
	if onFile(h, f.January) {
		return
	}
	if doc.Has(forecastKey) { // the next return asks about it
		doc.Delete(forecastKey)
		copyBelow(old, forecastKey, doc, forecastKey)
		return
	}
	doc.Delete(lastKey)
	copyBelow(old, forecastKey, doc, lastKey)
	for _, key := range doc.Keys() {
		if name, ok := gateName(key); ok && ofLastTime(name) {
			doc.Delete(key)
		}
	}
}

// onFile reports that each certificate advised for a year is on file in its answers.
func onFile(h household.Household, advised *household.JanuaryForecast) bool {
	return advised == nil || !slices.ContainsFunc(advised.Certificates, func(c household.JanuaryCertificate) bool {
		j, ok := labeled(h, c.Job)
		return !ok || !j.Certificate.Same(&c.Certificate)
	})
}

// ofLastTime reports a question about what an earlier sitting advised, by its name.
func ofLastTime(name string) bool {
	return strings.HasSuffix(name, "_handed_in") || strings.HasSuffix(name, "_handed_in_january")
}

// writePayments notes in the answers of a year what is still to be paid for the
// year before.
func writePayments(doc *yamldoc.Document, was int, f *household.Forecast) {
	doc.Delete(toPayKey)
	for n, p := range f.PaidFrom(household.On(was+1, time.January, 1)) {
		at := toPayKey + ".parts[" + strconv.Itoa(n) + "]"
		_ = doc.Set(toPayKey+".tax_year", strconv.Itoa(was))
		_ = doc.Set(at+".amount", p.Amount.Text())
		_ = doc.Set(at+".by", p.By.String())
	}
}

// tellToPay says what is still to be paid for the year before.
func (w *walk) tellToPay() {
	due := w.log().StillToPay
	if parts := due.From(w.today); len(parts) > 0 {
		w.say(w.notice("still_to_pay", "of", due.TaxYear, "parts", parts))
	}
}

// relabelForecasts has what was forecast for a group's jobs go with them, where the
// job at a place of it is gone and those after it move up.
func (s *Session) relabelForecasts(kind string, gone int) {
	for _, list := range []string{".jobs", ".january.certificates"} {
		for _, of := range []string{forecastKey, lastKey} {
			for n := s.doc.Len(of+list) - 1; n >= 0; n-- {
				at := of + list + "[" + strconv.Itoa(n) + "]"
				label, _ := s.doc.Get(at + ".job")
				place, _ := strings.CutPrefix(label, kind+"_")
				switch k, err := strconv.Atoi(place); {
				case err != nil:
				case k == gone:
					s.doc.Delete(at)
				case k > gone:
					s.set(at+".job", kind+"_"+strconv.Itoa(k-1))
				}
			}
		}
	}
}

// lastTime is what an earlier sitting's results forecast; nil where none did.
func (w *walk) lastTime() *household.Forecast { return w.log().LastForecast }

// offersLastTime reports whether an earlier sitting gave a new certificate for a
// job, which may have been handed in since.
func (w *walk) offersLastTime(g group) bool {
	last, ok := w.lastTime().Of(g.label)
	return ok && last.New && !w.returned().IsZero()
}

// forThisYear is the certificate that an earlier sitting, in the year before,
// advised for a job for this year.
func (w *walk) forThisYear(g group) (household.JanuaryCertificate, bool) {
	last, ok := w.lastTime().ForYear(w.y.Year, g.label)
	return last, ok && !w.returned().IsZero()
}

// askHandedIn asks whether the certificates that an earlier sitting advised for a
// job have been handed in: the one for this year, and, where it was not, the one
// for the rest of the year before or of this one. Yes puts it on file: see
// follow.go.
func (w *walk) askHandedIn(g group) {
	if last, ok := w.forThisYear(g); ok {
		w.tellByStub(g, last)
		if w.guide(g, "handed_in_january").yes() {
			return
		}
	}
	if w.offersLastTime(g) {
		w.guide(g, "handed_in")
	}
}

// tellByStub says that a job's stub tells whether payroll goes by the certificate
// advised for this year, where only one of that and the one before makes its tax.
func (w *walk) tellByStub(g group, last household.JanuaryCertificate) {
	i, ok := w.indexOf(g)
	j, known := w.job(g)
	if !ok || !known || j.YearToDate == nil || w.stubOpen(g) || j.Certificate != nil && j.Certificate.Same(&last.Certificate) {
		return
	}
	byNew, isNew := w.makesStub(i, &last.Certificate)
	byOld, isOld := w.makesStub(i, j.Certificate)
	if isNew != isOld {
		w.say(w.noticeOf(g, "stub_tells", "job", g.name, "year", w.y.Year, "new", answerOfBool(isNew), "shown", j.YearToDate.FederalTax, "by_new", byNew, "by_old", byOld))
	}
}

// makesStub is the tax that a stub would show for the year with a certificate in
// force all year, and whether that is the tax on it, or about that: this year's
// tables may be projected.
func (w *walk) makesStub(job int, c *household.Certificate) (money.Amount, bool) {
	h := w.household()
	h.Jobs = slices.Clone(h.Jobs)
	j := &h.Jobs[job]
	j.Certificate, j.EarlierCertificates = nil, nil
	if so := j.PaySoFar(w.y.Year); so.Paydays == 1 { // the stub's own pay, whatever a usual paycheck is
		j.TaxablePay, j.GrossPay = so.Paid, money.Zero
	}
	if c != nil {
		all := *c
		all.CountsFrom = household.Date{}
		j.Certificate = &all
	}
	read, ok := paystub.Read(h, job, w.y)
	if !ok || !read.Unread.IsZero() {
		return money.Zero, false
	}
	return read.FederalTax.Expected, read.FederalTax.Right || read.FederalTax.About
}

// noteHandedIn does what the answer says of a certificate that was to count from a
// payday on.
func (s *Session) noteHandedIn(g group, said answer, c household.Certificate, from household.Date) {
	if said.yes() {
		s.putOnFile(g, c, from)
	} else {
		s.takeOffFile(g, from)
	}
}

// putOnFile takes a certificate that was handed in as what payroll has since the
// payday from which it was to count; the one before it is kept, to judge earlier
// paydays by.
func (s *Session) putOnFile(g group, c household.Certificate, from household.Date) {
	s.keepEarlier(g, from)
	s.putCertificate(g, c)
	if !from.IsZero() {
		s.set(g.prefix+".certificate.counts_from", from.String())
	}
}

// takeOffFile undoes putOnFile, where the person said yes before and no now: the
// certificate before it is on file again.
func (s *Session) takeOffFile(g group, from household.Date) {
	j, ok := s.walk.job(g)
	last := len(j.EarlierCertificates) - 1
	if !ok || last < 0 || j.Certificate == nil || j.Certificate.CountsFrom != from {
		return
	}
	s.doc.Delete(g.prefix + ".earlier_certificates[" + strconv.Itoa(last) + "]")
	s.doc.Delete(g.prefix + ".certificate.counts_from")
	before := j.EarlierCertificates[last]
	s.putCertificate(g, before)
	if !before.CountsFrom.IsZero() {
		s.set(g.prefix+".certificate.counts_from", before.CountsFrom.String())
	}
}
