package paystub

import (
	"fmt"
	"slices"
	"strings"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// cause is a usual reason why a paycheck is not withheld from as expected.
type cause struct {
	code, what, ask string
	allowed         bool
	as              supposition
}

const mostAllowances = 10 // on a certificate of before 2020, as many as are tried

// nearEnough is how far a cause that does not give the stub's figure may be
// from it and still be named, dollars a paycheck.
var nearEnough = money.Dollars(1)

// explain are the causes that make about what the stub shows, most exact first;
// among equally exact ones the more usual first. A single cause is looked for
// first, then one together with the employer's choice of rounding or method.
func (r *stubReader) explain(believed supposition) []Explanation {
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
		if e.Exact || e.Off.Less(money.Min(nearEnough.Times(r.n), off)) {
			found = append(found, e)
		}
	}
	return found
}

// distinct keeps the first explanation of each code and figure, so that ten
// allowances that come to nothing are named once.
func distinct(all []Explanation) []Explanation {
	kept := []Explanation{}
	for _, e := range all {
		if !slices.ContainsFunc(kept, func(k Explanation) bool { return k.Code == e.Code && k.Figure.Equal(e.Figure) }) {
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
		if c.as.options.WholeDollars || c.as.options.WageBracket {
			continue
		}
		dollars, bracket := c, c
		dollars.as.options.WholeDollars, bracket.as.options.WageBracket = true, true
		dollars.what += ", and payroll rounds to the dollar"
		bracket.what += ", and payroll uses the wage bracket method"
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
	return append(all, otherFrequencies(believed)...)
}

// employersChoice is what Publication 15-T leaves to the employer.
func (r *stubReader) employersChoice(b supposition) []cause {
	whole, bracket := b, b
	whole.options.WholeDollars, bracket.options.WageBracket = true, true
	return []cause{
		{code: "whole_dollars", what: "Payroll rounds the tax to the dollar, as it may", allowed: true, as: whole},
		{code: "wage_bracket", what: "Payroll uses the wage bracket method, as it may", allowed: true, as: bracket},
	}
}

// oneTimePay is a bonus in the paycheck taxed the other way, or one that the
// answers do not name: what the paycheck has beyond ordinary pay.
func (r *stubReader) oneTimePay(b supposition) []cause {
	if b.oneTime.IsZero() {
		usual := r.job.OrdinaryPay()
		if r.job.LastPaycheck == nil || !usual.IsPositive() || !b.pay.More(usual) {
			return nil
		}
		b.pay, b.oneTime = usual, b.pay.Sub(usual)
		b.treatment = household.FlatRate
		return []cause{{
			code: "bonus_flat", allowed: true, as: b,
			what: fmt.Sprintf("The paycheck has a bonus of %s in it, withheld from at the flat rate, as payroll may", b.oneTime.Grouped()),
		}}
	}
	what, code := "Payroll withheld from the bonus at the flat rate, as it may", "bonus_flat"
	if b.treatment == household.FlatRate {
		what, code, b.treatment = "Payroll withheld from the bonus together with the paycheck, as it may", "bonus_with_paycheck", household.WithPaycheck
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
	return s.all
}

// suspects are certificates other than the one believed to be on file.
type suspects struct {
	b   supposition
	c   household.Certificate // as believed; one without entries where there is none
	all []cause
}

// with adds a cause: the certificate as believed, with a change.
func (s *suspects) with(code, what, ask string, change func(c *household.Certificate)) {
	changed, as := s.c, s.b
	change(&changed)
	as.certificate = &changed
	s.all = append(s.all, cause{code: code, what: what, ask: ask, as: as})
}

func (s *suspects) exemptIgnored() {
	if s.c.Exempt {
		s.with("exempt_ignored", "Payroll no longer goes by your claim to be exempt",
			"Do you still have my claim to be exempt? It has to be made anew each year.",
			func(c *household.Certificate) { *c = household.Certificate{} })
	}
}

func (s *suspects) boxNotChecked() {
	if s.c.MultipleJobs {
		s.with("box_not_checked", "Payroll does not have the Step 2(c) box checked",
			"Do you have the box in Step 2(c) checked for me? My certificate has it.",
			func(c *household.Certificate) { c.MultipleJobs = false })
	}
}

// statuses are the other status boxes; for a certificate of before 2020, newer
// ones with a status and no entries.
func (s *suspects) statuses() {
	for _, status := range []household.CertificateStatus{household.CertificateSingle, household.CertificateJoint, household.CertificateHeadOfHousehold} {
		switch {
		case s.c.Edition == household.Before2020:
			s.with("newer_certificate", "Payroll goes by a certificate of 2020 or later with the filing status "+plainStatus(status)+" and no entries",
				"Do you have a newer certificate of mine than the one with allowances?",
				func(c *household.Certificate) { *c = household.Certificate{Status: status} })
		case status != s.c.Status:
			s.with("status", "Payroll has the filing status "+plainStatus(status),
				"Which filing status do you have for me? My certificate says "+plainStatus(s.c.Status)+".",
				func(c *household.Certificate) { c.Status = status })
		}
	}
}

// entries are Steps 3 to 4(c), each left out.
func (s *suspects) entries() {
	for _, e := range []struct {
		code, step string
		of         func(*household.Certificate) *money.Amount
	}{
		{"step_3_left_out", "Step 3", func(c *household.Certificate) *money.Amount { return &c.Credits }},
		{"step_4a_left_out", "Step 4(a)", func(c *household.Certificate) *money.Amount { return &c.OtherIncome }},
		{"step_4b_left_out", "Step 4(b)", func(c *household.Certificate) *money.Amount { return &c.Deductions }},
		{"step_4c_left_out", "Step 4(c)", func(c *household.Certificate) *money.Amount { return &c.Extra }},
	} {
		if amount := *e.of(&s.c); amount.IsPositive() {
			s.with(e.code, e.step+" of your certificate is left out",
				fmt.Sprintf("Did you enter %s of my certificate, %s?", e.step, amount.Grouped()),
				func(c *household.Certificate) { *e.of(c) = money.Zero })
		}
	}
}

func (s *suspects) boxChecked() {
	if s.c.Edition == household.Current && !s.c.MultipleJobs {
		s.with("box_checked", "Payroll has the Step 2(c) box checked",
			"Do you have the box in Step 2(c) checked for me? My certificate does not have it.",
			func(c *household.Certificate) { c.MultipleJobs = true })
	}
}

// nothing is payroll with less than the certificate says, or without one.
func (s *suspects) nothing() {
	if s.b.certificate != nil {
		if s.c.Edition == household.Current {
			s.with("no_entries", "Payroll has your filing status and none of the entries",
				"Did you enter Steps 2 to 4 of my certificate?",
				func(c *household.Certificate) { *c = household.Certificate{Status: c.Status} })
		}
		none := s.b
		none.certificate = nil
		s.all = append(s.all, cause{
			code: "none_on_file", what: "Payroll has no certificate from you and withholds as from a single person with no entries",
			ask: "Do you have a certificate from me on file?", as: none,
		})
	}
	if !s.c.Exempt {
		s.with("exempt", "Payroll has you as exempt from withholding",
			"Do you have me as exempt from income tax withholding? I made no such claim.",
			func(c *household.Certificate) { c.Exempt = true })
	}
}

// plainStatus is a status box in plain words.
func plainStatus(s household.CertificateStatus) string {
	return strings.ReplaceAll(s.String(), "_", " ")
}

// pretax is pay taken before pre-tax deductions, or the deductions taken twice.
func (r *stubReader) pretax(b supposition) []cause {
	off := r.job.Pretax.Total()
	if !off.IsPositive() {
		return nil
	}
	gross := b
	gross.pay = b.pay.Add(off)
	all := []cause{{
		code: "pretax_left_out", what: "The tax was figured on gross pay, with the pre-tax deductions left out", as: gross,
		ask: fmt.Sprintf("Is the federal income tax figured on my pay after pre-tax deductions of %s?", off.Grouped()),
	}}
	if off.Less(b.pay) {
		twice := b
		twice.pay = b.pay.Sub(off)
		all = append(all, cause{
			code: "pay_is_gross", as: twice,
			what: "The pay given here is gross pay, and payroll figured the tax on what is left after pre-tax deductions",
			ask:  "What were my federal taxable wages on this paycheck?",
		})
	}
	return all
}

// oldCertificates are certificates of before 2020 that may still be in force.
func oldCertificates(b supposition) []cause {
	var all []cause
	for _, m := range []household.Marital{household.MaritalSingle, household.MaritalMarried} {
		for n := 0; n <= mostAllowances; n++ {
			as := b
			as.certificate = &household.Certificate{Edition: household.Before2020, Marital: m, Allowances: n}
			if as.certificate.Same(b.certificate) {
				continue
			}
			all = append(all, cause{
				code: "before_2020", as: as,
				what: fmt.Sprintf("A certificate of before 2020 is in force: %s, %s", m, counted(n, "allowance", "allowances")),
				ask:  "Is an old certificate of mine, with allowances, still in force? Please go by the new one.",
			})
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
				code: "frequency", what: fmt.Sprintf("The tax was figured as if this were %s pay", f), as: as,
				ask: fmt.Sprintf("Is my pay set up as %s? I am paid %s.", f, b.frequency),
			})
		}
	}
	return all
}

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
