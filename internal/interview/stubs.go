package interview

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/paystub"
	"example.com/plumbline/internal/words"
)

// compareStub compares a job's stub with the certificate that payroll is said to
// have. Where another usual one fits to the cent, it asks whether payroll has
// that; one with entries worked out to fit would fit any stub.
func (w *walk) compareStub(g group) {
	onFile := w.get("interview." + g.label + "_on_file")
	if w.chapter == yourStub {
		defer func() { w.say(w.notice("stub_checked", "job", g.name)) }()
	}
	i, ok := w.indexOf(g)
	if !ok || !onFile.is("current", "before_2020", None) || !w.complete() || w.figuresToCome(g) {
		return
	}
	read, has := paystub.Read(w.household(), i, w.y)
	tax, asked := read.FederalTax, w.askedAbout(g)
	switch {
	case !has:
	case read.TaxOfOne:
		w.doubt(g.label+".year_to_date.federal_tax", w.noticeOf(g, "stub_tax_of_one", "job", g.name,
			"shown", tax.Actual, "paychecks", read.Paychecks, "expected", tax.Expected))
	case read.PayIsGross:
		j := w.household().Jobs[i]
		w.doubt(g.label+".year_to_date.taxable_pay", w.noticeOf(g, "stub_pay_is_gross", "job", g.name,
			"shown", j.YearToDate.TaxablePay, "paychecks", read.Paid, "gross", j.OrdinaryPay().Add(j.Pretax.Total())))
	case !read.Unread.IsZero() && len(read.Questions) > 0:
		w.say(w.noticeOf(g, "stub_does_not_add_up", "job", g.name, "what", read.Questions[0]))
	case !read.Unread.IsZero():
		w.say(w.notice("stub_not_judged", "job", g.name, "why", read.Unread))
	case read.Paid > 0:
		w.say(w.noticeOf(g, "stub_fits_fewer", "asked", asked, "job", g.name, "shown", tax.Actual,
			"paychecks", read.Paid, "pay", w.household().Jobs[i].OrdinaryPay(), "paydays", read.Paychecks))
	case tax.Right && tax.Most.More(tax.Expected):
		w.say(w.notice("stub_fits_varied", "asked", asked, "job", g.name, "shown", tax.Actual, "least", tax.Expected, "most", tax.Most))
	case tax.Right:
		w.say(w.notice("stub_agrees", "asked", asked, "job", g.name, "exact", answerOfBool(tax.Exact())))
	default:
		w.stubDiffers(g, read)
	}
}

// figuresToCome reports that a figure of a job's stub or of its pay is still to be
// typed, so that those in the file are not of one day: the older stub's, or pay from
// before a raise. One that is only doubted is there.
func (w *walk) figuresToCome(g group) bool {
	return slices.ContainsFunc(w.steps, func(s step) bool {
		if s.about.label != g.label {
			return false
		}
		return s.missing() || s.stale || s.again && !w.doubted[s.id] && isPay(s.wording.Key)
	})
}

// isPay reports a question from whose answer ordinary pay follows.
func isPay(key string) bool {
	switch key {
	case "jobs[].taxable_pay", "jobs[].gross_pay", "interview.job.pay_known", "interview.job.salary", "interview.job.hourly", "interview.job.hours":
		return true
	}
	return strings.HasPrefix(key, "jobs[].pretax.") || key == "interview.job.pretax"
}

// askedAbout is yes where the person came to have the stub checked, so that a
// verdict answers them.
func (w *walk) askedAbout(g group) string { return answerOfBool(w.cameWithStub(g)) }

// stubDiffers says that a stub does not show what the certificate on file asks
// for, unless pay that was not the same on each payday can be the reason.
func (w *walk) stubDiffers(g group, read paystub.Stub) {
	fits, asked, tax := w.fits(g), w.askedAbout(g), read.FederalTax
	cause := slices.IndexFunc(read.Explanations, func(e paystub.Explanation) bool { return e.Exact })
	switch usual := len(fits) > 0 && fits[0].Kind <= paystub.Allowances; {
	case tax.About:
		w.say(w.notice("stub_about_right", "asked", asked, "job", g.name, "expected", tax.Expected, "shown", tax.Actual, "why", tax.Why))
	case usual:
		w.say(w.notice("stub_fits_another", "asked", asked, "job", g.name, "expected", tax.Expected, "shown", tax.Actual, "what", fits[0].What, "rounded", answerOfBool(fits[0].Rounded)))
		w.guide(g, "fits")
	case tax.FarApart:
		var what words.Text
		if cause >= 0 {
			what = read.Explanations[cause].What
		}
		w.say(w.notice("stub_far_apart", "asked", asked, "job", g.name, "shown", tax.Actual, "least", tax.Expected, "named", answerOfBool(cause >= 0), "what", what))
	case tax.MayBeRight():
		w.say(w.notice("stub_fits_varied", "asked", asked, "job", g.name, "shown", tax.Actual, "least", tax.Expected, "most", tax.Most))
	case cause >= 0:
		w.say(w.notice("stub_explained", "asked", asked, "job", g.name, "expected", tax.Expected, "shown", tax.Actual, "what", read.Explanations[cause].What, "exact", answerOfBool(read.Explanations[cause].Off.IsZero())))
	default:
		w.say(w.notice("stub_disagrees", "asked", asked, "job", g.name, "expected", tax.Expected, "shown", tax.Actual))
	}
}

// indexOf is the place of a job in the list, where its facts are known.
func (w *walk) indexOf(g group) (int, bool) {
	index, _, _ := strings.Cut(strings.TrimPrefix(g.prefix, "jobs["), "]")
	i, err := strconv.Atoi(index)
	return i, err == nil && i < len(w.household().Jobs)
}

// fits are the certificates that withhold just what a job's stub shows. They
// are looked for once for the same figures, since it takes a while.
func (w *walk) fits(g group) []paystub.Fit {
	i, ok := w.indexOf(g)
	if !ok || w.stubOpen(g) {
		return nil
	}
	h := w.household()
	h.Status = w.statusSoFar()
	h.Jobs = slices.Clone(h.Jobs)
	j := &h.Jobs[i]
	if j.YearToDate == nil || j.Frequency == household.FrequencyUnknown || !j.OrdinaryPay().IsPositive() {
		return nil
	}
	j.Certificate, j.EarlierCertificates = nil, nil
	key := fmt.Sprintf("%v %v %+v %+v", h.Status, i, *j, *j.YearToDate)
	fits, known := w.found[key]
	if !known {
		fits = paystub.Fits(h, i, w.y)
		w.found[key] = fits
	}
	return fits
}

// takeFit takes the certificate that fits the stub as what payroll has.
func (s *Session) takeFit(g group) {
	fits := s.walk.fits(g)
	if len(fits) == 0 {
		return
	}
	s.putCertificate(g, fits[0].Certificate)
}

// putCertificate writes a certificate as the one that payroll has now.
func (s *Session) putCertificate(g group, c household.Certificate) {
	for _, key := range s.doc.Keys() {
		if strings.HasPrefix(key, g.prefix+".certificate.") && !strings.HasSuffix(key, ".counts_from") {
			s.doc.Delete(key)
		}
	}
	for field, text := range certificateFields(c) {
		s.set(g.prefix+".certificate."+field, text)
	}
	if c.Edition == household.Before2020 {
		s.set("interview."+g.label+"_on_file", c.Edition.String())
		return
	}
	s.set("interview."+g.label+"_on_file", "current")
	s.set("interview."+g.label+"_lines", linesOf(c))
}
