package paystub

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// cause is a usual reason why a paycheck is not withheld from as expected.
type cause struct {
	code      string
	what, ask words.Text
	allowed   bool
	strict    bool // only named where it makes the stub's figure to the cent
	as        supposition
}

const mostAllowances = 10 // on a certificate of before 2020, as many as are tried

// nearEnough is how far a cause that does not give the stub's figure may be
// from it and still be named, dollars a paycheck.
var nearEnough = money.Dollars(1)

// explain are the causes that make about what the stub shows, most exact first;
// among equally exact ones the more usual first. A single cause is looked for
// first, then one together with the employer's choice of rounding or method.
func (r *stubReader) explain(believed supposition) []Explanation {
	if r.inShort {
		if found, ok := r.settled(believed); ok {
			return found
		}
	}
	causes := r.causes(believed)
	off := r.withheld(believed).Sub(r.actual).Abs()
	found := r.exactOf(causes, off)
	if !slices.ContainsFunc(found, func(e Explanation) bool { return e.Exact }) {
		found = append(found, r.exactOf(combined(causes), off)...)
	}
	slices.SortStableFunc(found, func(a, b Explanation) int {
		if a.Exact && b.Exact {
			return 0
		}
		return a.Off.Cmp(b.Off)
	})
	return distinct(found)
}

// exactOf are the causes that come near the stub's figure, nearer than what is
// believed, which is off by so much: a cause that changes nothing explains nothing.
func (r *stubReader) exactOf(causes []cause, off money.Amount) []Explanation {
	var found []Explanation
	for _, c := range causes {
		e := Explanation{Code: c.code, What: c.what, Allowed: c.allowed, Ask: c.ask, Figure: r.withheld(c.as)}
		e.Off, e.Exact = e.Figure.Sub(r.actual).Abs(), r.matches(e.Figure)
		near := e.Exact || e.Off.Less(money.Min(nearEnough.Times(r.n), off))
		if near && (!c.strict || e.Off.IsZero()) {
			found = append(found, e)
		}
	}
	return found
}

// distinct names causes that say the same once, and of certificates with
// allowances that come to no tax at all the first.
func distinct(all []Explanation) []Explanation {
	kept := []Explanation{}
	for _, e := range all {
		same := func(k Explanation) bool {
			return k.Code == e.Code && (k.What.Equal(e.What) || e.Code == "before_2020" && k.Figure.IsZero() && e.Figure.IsZero())
		}
		if !slices.ContainsFunc(kept, same) {
			kept = append(kept, e)
		}
	}
	return kept
}

// combined are the causes together with rounding to the dollar, and with the
// wage bracket method.
func combined(causes []cause) []cause {
	var both []cause
	for _, c := range causes {
		if c.strict || c.as.options.WholeDollars || c.as.options.WageBracket {
			continue
		}
		dollars, bracket := c, c
		dollars.as.options.WholeDollars, bracket.as.options.WageBracket = true, true
		dollars.strict, bracket.strict = true, true
		dollars.what = words.T("stub.and.whole_dollars", "what", c.what)
		bracket.what = words.T("stub.and.wage_bracket", "what", c.what)
		both = append(both, dollars, bracket)
	}
	return both
}

// causes are the usual ones, the most usual first.
func (r *stubReader) causes(believed supposition) []cause {
	all := r.employersChoice(believed)
	all = append(all, r.oneTimePay(believed)...)
	all = append(all, certificateCauses(believed)...)
	all = append(all, r.pretax(believed)...)
	all = append(all, oldCertificates(believed)...)
	all = append(all, otherFrequencies(believed)...)
	all = append(all, r.changedInTheYear(believed)...)
	return append(all, r.otherExtra(believed)...)
}

// employersChoice is what Publication 15-T leaves to the employer. Whole dollars
// have no cents to be off by, so that it is only named where it makes the stub's
// figure to the cent.
func (r *stubReader) employersChoice(b supposition) []cause {
	whole, bracket := b, b
	whole.options.WholeDollars, bracket.options.WageBracket = true, true
	return []cause{
		{code: "whole_dollars", what: words.T("stub.what.whole_dollars"), allowed: true, strict: true, as: whole},
		{code: "wage_bracket", what: words.T("stub.what.wage_bracket"), allowed: true, strict: true, as: bracket},
	}
}

// oneTimePay is a bonus in the paycheck taxed the other way, or one that the
// answers do not name: what the paycheck has beyond ordinary pay.
func (r *stubReader) oneTimePay(b supposition) []cause {
	if b.oneTime.IsZero() {
		usual := r.job.OrdinaryPay()
		if r.paycheck == nil || !usual.IsPositive() || !b.pay.More(usual) {
			return nil
		}
		b.pay, b.oneTime = usual, b.pay.Sub(usual)
		b.treatment = household.FlatRate
		return []cause{{code: "bonus_flat", allowed: true, as: b, what: words.T("stub.what.bonus_inside", "bonus", b.oneTime)}}
	}
	what, code := words.T("stub.what.bonus_flat"), "bonus_flat"
	if b.treatment == household.FlatRate {
		what, code, b.treatment = words.T("stub.what.bonus_with_paycheck"), "bonus_with_paycheck", household.WithPaycheck
	} else {
		b.treatment = household.FlatRate
	}
	return []cause{{code: code, what: what, allowed: true, as: b}}
}

// certificateCauses are what can be different about the certificate on file.
func certificateCauses(b supposition) []cause {
	s := suspects{b: b}
	if b.certificate != nil {
		s.c = *b.certificate
	}
	s.exemptIgnored()
	s.boxNotChecked()
	s.statuses()
	s.entries()
	s.boxChecked()
	s.nothing()
	s.statusesAlone()
	return s.all
}

// suspects are certificates other than the one believed to be on file.
type suspects struct {
	b   supposition
	c   household.Certificate // as believed; one without entries where there is none
	all []cause
}

// with adds a cause: the certificate as believed, with a change.
func (s *suspects) with(code string, what, ask words.Text, change func(c *household.Certificate)) {
	changed, as := s.c, s.b
	change(&changed)
	as.certificate = &changed
	s.all = append(s.all, cause{code: code, what: what, ask: ask, as: as})
}

func (s *suspects) exemptIgnored() {
	if s.c.Exempt {
		s.with("exempt_ignored", words.T("stub.what.exempt_ignored"), words.T("stub.ask.exempt_ignored"),
			func(c *household.Certificate) { *c = household.Certificate{} })
	}
}

func (s *suspects) boxNotChecked() {
	if s.c.MultipleJobs {
		s.with("box_not_checked", words.T("stub.what.box_not_checked"), words.T("stub.ask.box_not_checked"),
			func(c *household.Certificate) { c.MultipleJobs = false })
	}
}

// certificateStatuses are the three status boxes of the form.
var certificateStatuses = []household.CertificateStatus{household.CertificateSingle, household.CertificateJoint, household.CertificateHeadOfHousehold}

// statuses are the other status boxes; for a certificate of before 2020, newer
// ones with a status and no entries.
func (s *suspects) statuses() {
	for _, status := range certificateStatuses {
		switch {
		case s.c.Edition == household.Before2020:
			s.with("newer_certificate", words.T("stub.what.newer_certificate", "status", statusText(status)), words.T("stub.ask.newer_certificate"),
				func(c *household.Certificate) { *c = household.Certificate{Status: status} })
		case status != s.c.Status:
			s.with("status", words.T("stub.what.status", "status", statusText(status)), words.T("stub.ask.status", "status", statusText(s.c.Status)),
				func(c *household.Certificate) { c.Status = status })
		}
	}
}

// statusesAlone are certificates of another status without the entries of the
// one believed to be on file: an earlier one that is still in force.
func (s *suspects) statusesAlone() {
	if s.c.Edition == household.Before2020 {
		return
	}
	for _, status := range certificateStatuses {
		alone := household.Certificate{Status: status}
		other := s.c
		other.Status = status
		if status != s.c.Status && !alone.Same(&other) {
			s.with("earlier_status", words.T("stub.what.earlier_status", "status", statusText(status)), words.T("stub.ask.earlier_status", "status", statusText(status)),
				func(c *household.Certificate) { *c = alone })
		}
	}
}

// entries are Steps 3 to 4(c), each left out; line 6 of an older form.
func (s *suspects) entries() {
	extra := words.T("stub.step.4c")
	if s.c.Edition == household.Before2020 {
		extra = words.T("stub.step.line_6")
	}
	for _, e := range []struct {
		code string
		step words.Text
		of   func(*household.Certificate) *money.Amount
	}{
		{"step_3_left_out", words.T("stub.step.3"), func(c *household.Certificate) *money.Amount { return &c.Credits }},
		{"step_4a_left_out", words.T("stub.step.4a"), func(c *household.Certificate) *money.Amount { return &c.OtherIncome }},
		{"step_4b_left_out", words.T("stub.step.4b"), func(c *household.Certificate) *money.Amount { return &c.Deductions }},
		{"step_4c_left_out", extra, func(c *household.Certificate) *money.Amount { return &c.Extra }},
	} {
		if amount := *e.of(&s.c); amount.IsPositive() {
			s.with(e.code, words.T("stub.what.step_left_out", "step", e.step), words.T("stub.ask.step_left_out", "step", e.step, "amount", amount),
				func(c *household.Certificate) { *e.of(c) = money.Zero })
		}
	}
}

func (s *suspects) boxChecked() {
	if s.c.Edition == household.Current && !s.c.MultipleJobs {
		s.with("box_checked", words.T("stub.what.box_checked"), words.T("stub.ask.box_checked"),
			func(c *household.Certificate) { c.MultipleJobs = true })
	}
}

// nothing is payroll with less than the certificate says, or without one.
func (s *suspects) nothing() {
	if s.b.certificate != nil {
		if s.c.Edition == household.Current {
			s.with("no_entries", words.T("stub.what.no_entries"), words.T("stub.ask.no_entries"),
				func(c *household.Certificate) { *c = household.Certificate{Status: c.Status} })
		}
		none := s.b
		none.certificate = nil
		s.all = append(s.all, cause{code: "none_on_file", what: words.T("stub.what.none_on_file"), ask: words.T("stub.ask.none_on_file"), as: none})
	}
	if !s.c.Exempt {
		s.with("exempt", words.T("stub.what.exempt"), words.T("stub.ask.exempt"), func(c *household.Certificate) { c.Exempt = true })
	}
}

// statusText is a status box in the form's words.
func statusText(s household.CertificateStatus) words.Text {
	return words.T("stub.status." + s.String())
}

// pretax is pay taken before pre-tax deductions or one of them, or either taken
// twice.
func (r *stubReader) pretax(b supposition) []cause {
	off := r.job.Pretax.Total()
	if !off.IsPositive() {
		return nil
	}
	with := func(pay money.Amount) supposition {
		as := b
		as.pay = pay
		return as
	}
	all := []cause{{
		code: "pretax_left_out", what: words.T("stub.what.pretax_left_out"), as: with(b.pay.Add(off)),
		ask: words.T("stub.ask.pretax_left_out", "amount", off),
	}}
	if off.Less(b.pay) {
		all = append(all, cause{code: "pay_is_gross", what: words.T("stub.what.pay_is_gross"), ask: words.T("stub.ask.pay_is_gross", "basis", string(r.basis())), as: with(b.pay.Sub(off))})
	}
	kinds := r.job.Pretax.Kinds()
	if len(kinds) < 2 {
		return all
	}
	for _, k := range kinds {
		kind := words.T("stub.pretax." + k.Name)
		all = append(all, cause{
			code: "pretax_one_taxed", what: words.T("stub.what.pretax_one_taxed", "kind", kind), as: with(b.pay.Add(k.Amount)),
			ask: words.T("stub.ask.pretax_one", "kind", kind, "amount", k.Amount),
		})
		if k.Amount.Less(b.pay) {
			all = append(all, cause{
				code: "pretax_one_twice", what: words.T("stub.what.pretax_one_twice", "kind", kind), as: with(b.pay.Sub(k.Amount)),
				ask: words.T("stub.ask.pretax_one", "kind", kind, "amount", k.Amount),
			})
		}
	}
	return all
}

// oldCertificates are certificates of before 2020 that may still be in force,
// without an amount on line 6, and with the one that makes the stub's figure.
func oldCertificates(b supposition) []cause {
	var all []cause
	for _, c := range oldForms() {
		if c.Same(b.certificate) {
			continue
		}
		as := b
		as.certificate = c
		all = append(all, cause{code: "before_2020", what: words.T("stub.what.before_2020", "form", formText(c)), ask: words.T("stub.ask.before_2020"), as: as})
	}
	return all
}

// oldForms are the certificates with allowances that are tried.
func oldForms() []*household.Certificate {
	var all []*household.Certificate
	for _, m := range []household.Marital{household.MaritalSingle, household.MaritalMarried} {
		for n := 0; n <= mostAllowances; n++ {
			all = append(all, &household.Certificate{Edition: household.Before2020, Marital: m, Allowances: n})
		}
	}
	return all
}

// otherFrequencies are payroll figuring with another number of pay periods.
func otherFrequencies(b supposition) []cause {
	var all []cause
	for _, f := range household.Frequencies() {
		if f != b.frequency {
			as := b
			as.frequency = f
			all = append(all, cause{
				code: "frequency", what: words.T("stub.what.frequency", "frequency", words.T("page.frequency."+f.String())), as: as,
				ask: words.T("stub.ask.frequency", "as", words.T("page.frequency."+f.String()), "is", words.T("page.frequency."+b.frequency.String())),
			})
		}
	}
	return all
}

// changedInTheYear is another certificate on the first paychecks of the year,
// which the answers do not name: the usual ones without entries, each for as
// many paychecks as make the stub's figure.
func (r *stubReader) changedInTheYear(b supposition) []cause {
	if r.paycheck != nil || r.varies || len(b.earlier) > 0 {
		return nil
	}
	var all []cause
	then := r.ofPaycheck(b, b.certificate)
	for _, c := range usualForms() {
		first := r.ofPaycheck(b, c)
		for k := 1; k < r.n; k++ {
			if !first.Times(k).Add(then.Times(r.n-k)).Equal(r.actual) || first.Equal(then) {
				continue
			}
			as := b
			as.earlier = []run{{c, k}}
			all = append(all, cause{
				code: "changed_this_year", strict: true, as: as,
				what: words.T("stub.what.changed_this_year", "paychecks", k, "form", formText(c)),
				ask:  words.T("stub.ask.changed_this_year"),
			})
		}
	}
	return all
}

// earlierForms are the usual certificates that may have counted on the paychecks
// of the first run, whose certificate is not known.
func (r *stubReader) earlierForms(b supposition) []cause {
	var all []cause
	for _, c := range append(usualForms(), oldForms()...) {
		as := b
		if len(b.earlier) == 0 {
			as.certificate = c
		} else {
			as.earlier = append([]run{{c, b.earlier[0].paychecks}}, b.earlier[1:]...)
		}
		all = append(all, cause{code: "earlier_certificate", what: words.T("stub.what.earlier_certificate", "form", formText(c)), as: as})
	}
	return all
}

// usualForms are certificates without entries: each status, with the box for two
// jobs, and exempt.
func usualForms() []*household.Certificate {
	var all []*household.Certificate
	for _, box := range []bool{false, true} {
		for _, status := range certificateStatuses {
			all = append(all, &household.Certificate{Status: status, MultipleJobs: box})
		}
	}
	return append(all, &household.Certificate{Exempt: true})
}

// otherExtra is another amount in Step 4(c), or on line 6 of an older form,
// where whole dollars make the stub's figure to the cent: of the certificate on
// file, and of one with allowances. On pay that varies, which is read by its
// average, whole dollars prove nothing.
func (r *stubReader) otherExtra(b supposition) []cause {
	if len(b.earlier) > 0 || r.n == 0 || r.varies {
		return nil
	}
	var all []cause
	if c := b.certificate; c != nil && !c.Exempt {
		step := words.T("stub.step.4c")
		if c.Edition == household.Before2020 {
			step = words.T("stub.step.line_6")
		}
		if extra, ok := r.extraOn(b, *c); ok && !extra.Equal(c.Extra) && extra.IsPositive() {
			all = append(all, r.withExtra(b, *c, extra, "step_4c_other",
				words.T("stub.what.step_4c_other", "step", step, "amount", extra),
				words.T("stub.ask.step_4c_other", "step", step)))
		}
	}
	const usual = 5 // an old form's extra amount is a round one
	for _, c := range oldForms() {
		if extra, ok := r.extraOn(b, *c); ok && extra.IsPositive() && extra.Equal(extra.DividedBy(usual).ToDollar().Times(usual)) {
			old := *c
			old.Extra = extra
			all = append(all, r.withExtra(b, *c, extra, "before_2020", words.T("stub.what.before_2020", "form", formText(&old)), words.T("stub.ask.before_2020")))
		}
	}
	return all
}

// extraOn is the whole-dollar amount a paycheck that makes a certificate's
// withholding the stub's figure, and whether there is one.
func (r *stubReader) extraOn(b supposition, c household.Certificate) (money.Amount, bool) {
	c.Extra = money.Zero
	short := r.actual.DividedBy(r.n).Sub(r.ofPaycheck(b, &c))
	extra := short.ToDollar()
	return extra, extra.Equal(short)
}

func (r *stubReader) withExtra(b supposition, c household.Certificate, extra money.Amount, code string, what, ask words.Text) cause {
	c.Extra = extra
	b.certificate = &c
	return cause{code: code, strict: true, what: what, ask: ask, as: b}
}

// formText is a certificate in a few words.
func formText(c *household.Certificate) words.Text {
	switch {
	case c == nil:
		return words.T("stub.form.none")
	case c.Exempt:
		return words.T("stub.form.exempt")
	case c.Edition == household.Before2020:
		return words.T("stub.form.old", "marital", c.Marital.String(), "allowances", c.Allowances, "extra", ifPositive(c.Extra, words.T("stub.form.old_extra", "amount", c.Extra)))
	case c.MultipleJobs:
		return words.T("stub.form.with_box", "status", statusText(c.Status))
	}
	return words.T("stub.form.plain", "status", statusText(c.Status))
}

// ifPositive is a text about an amount, where there is one.
func ifPositive(a money.Amount, t words.Text) words.Text {
	if a.IsPositive() {
		return t
	}
	return words.Text{}
}
