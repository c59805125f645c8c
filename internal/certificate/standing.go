package certificate

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
	"example.com/plumbline/internal/tables"
)

// What payroll has on file: whether it may stay, and what it leaves of a
// paycheck.

// taxedMore is the order of the status boxes by the tax that payroll takes, the
// least first.
func taxedMore(s household.CertificateStatus) int {
	switch s {
	case household.CertificateJoint:
		return 0
	case household.CertificateHeadOfHousehold:
		return 1
	}
	return 2
}

// statusOf is the status by which payroll reads a certificate of either edition.
func statusOf(c *household.Certificate) household.CertificateStatus {
	if c.Edition == household.Before2020 && c.Marital == household.MaritalMarried {
		return household.CertificateJoint
	}
	if c.Edition == household.Before2020 {
		return household.CertificateSingle
	}
	return c.Status
}

// onTodaysForm is a certificate as a new form can say it. One from before 2020
// keeps its status, where that may be kept, and its extra amount. Its allowances
// have no line any more: those that Publication 15-T makes of them are payroll's,
// not the employee's to write.
//
// IRC 3402(f)(5): a certificate is on the form that is prescribed. Publication
// 15-T (2026), "How To Treat 2019 and Earlier Forms W-4 as if They Were 2020 or
// Later Forms W-4", from memory.
func (pr *projection) onTodaysForm(c household.Certificate) household.Certificate {
	if c.Edition != household.Before2020 {
		return c
	}
	status := statusOf(&c)
	if pr.statusMustChange(&c) {
		status = pr.status()
	}
	return household.Certificate{Status: status, Extra: c.Extra}
}

// statusMustChange reports whether a certificate has a status that is taxed less
// than the one of the return. A status that is taxed more may be selected: a
// married person may be withheld from as single.
//
// 26 CFR 31.3402(l)-1(b), (c); Publication 505 (2025), ch. 1, p. 3.
func (pr *projection) statusMustChange(c *household.Certificate) bool {
	return taxedMore(statusOf(c)) < taxedMore(pr.status())
}

// mayStay reports whether a certificate on file at a job may stay for the year: not
// one whose claim to be exempt does not hold, nor one that claims too many
// credits. One whose status must change may finish a year in
// which enough is withheld, as it does on the certificates on file; whether it is
// under a plan that changes others, underpaid says.
//
// IRC 3402(f)(2)(B), (C); Publication 505 (2025), ch. 1, p. 3.
func (pr *projection) mayStay(j openJob, c *household.Certificate) bool {
	switch {
	case c == nil:
		return false
	case c.Exempt && pr.fullYear, pr.claimFails(j, c):
		return false
	case pr.claimsTooMuch(c):
		return false
	case pr.statusMustChange(c):
		return !pr.fullYear && !pr.outlook(pr.asFiledToCome()).Balance.IsNegative()
	}
	return true
}

// claimsTooMuch reports whether a certificate claims credits that are no longer
// expected: in a full year more than there are, in one that is under way where the
// certificates on file are overclaimed.
//
// IRC 3402(f)(2)(B); Publication 505 (2025), ch. 1, p. 3.
func (pr *projection) claimsTooMuch(c *household.Certificate) bool {
	switch {
	case c == nil || !c.Credits.IsPositive():
		return false
	case pr.fullYear:
		return c.Credits.More(pr.credits)
	}
	return pr.overclaimed()
}

// overclaimed reports whether the certificates on file together claim more than
// the credits by the amount of the rule, and too little is withheld. Where the year
// ends near enough, and with the credits that there are too much would come back,
// Step 3 was raised for the rest of this year, and it may stay.
//
// Publication 505 (2025), ch. 1, p. 3, and Worksheet 1-5, line 6, p. 17.
func (pr *projection) overclaimed() bool {
	if pr.claims == nil {
		claimed := money.Zero
		for _, s := range pr.payers {
			if s.job.Certificate != nil {
				claimed = claimed.Add(s.job.Certificate.Credits)
			}
		}
		over := false
		if claimed.Sub(pr.credits).More(pr.y.Payroll.Effective.Changes.CreditsDownBy) {
			balance := pr.outlook(pr.asFiledToCome()).Balance
			raised := pr.band().holds(balance.Sub(pr.goal)) && pr.newCandidate(pr.trueCredits()).balance().Sub(pr.goal).More(pr.band().over)
			over = balance.IsNegative() && !raised
		}
		pr.claims = &over
	}
	return *pr.claims
}

// trueCredits are the certificates on file with no more than the credits that
// there are, the best-paid job first; the plain status where there is none.
func (pr *projection) trueCredits() []household.Certificate {
	certs, left := pr.blanks(), pr.credits
	for i, s := range pr.payers {
		if c := s.job.Certificate; c != nil {
			certs[i] = *c
			certs[i].Credits = money.Min(c.Credits, left)
			left = left.Sub(certs[i].Credits)
		}
	}
	return certs
}

// underpaid reports whether a plan leaves a status on file that must change and
// does not withhold the year's tax: such a status may only finish a year that
// does.
//
// 26 CFR 31.3402(l)-1(c); Publication 505 (2025), ch. 1, p. 3.
func (d *candidate) underpaid() bool {
	if !d.balance().IsNegative() {
		return false
	}
	for i, s := range d.pr.payers {
		if s.job.Certificate.Same(&d.certs[i]) && d.pr.statusMustChange(&d.certs[i]) {
			return true
		}
	}
	return false
}

// taxed reports whether the year has tax to pay: more than the refundable
// credits, as Form W-4 counts it for the claim to be exempt.
func (pr *projection) taxed() bool { return pr.ret.TotalTax.More(pr.ret.RefundableCredits) }

// standingCerts are the certificates on file where they may stay; those that claim
// too many credits with the credits that there are; and the plain status for the
// others. all reports that every one may stay.
func (pr *projection) standingCerts() (certs []household.Certificate, all bool) {
	certs, all = pr.blanks(), true
	for i, s := range pr.payers {
		c := s.job.Certificate
		switch {
		case pr.mayStay(s.openJob, c):
			certs[i] = *c
			continue
		case !pr.fullYear && pr.claimsTooMuch(c) && !pr.statusMustChange(c):
			certs[i] = pr.trueCredits()[i]
		}
		all = false
	}
	return certs, all
}

// mayRaiseCredits reports whether Step 3 may go above the credits to bring down
// what is withheld: only in a year that is under way, and not for someone whom
// the step's income limit leaves no credit.
//
// Publication 505 (2025), Worksheet 1-5, line 6, p. 17; Form W-4, Step 3.
func (pr *projection) mayRaiseCredits() bool {
	return !pr.fullYear && !pr.ret.TotalIncome.More(pr.y.Form.Step3Up.Of(pr.h.Status))
}

// takeHome is what an ordinary paycheck leaves after social security and Medicare
// tax and what comes off before tax, with no income tax withheld. The
// wage base and the additional Medicare tax are left aside: it is the measure of
// a paycheck, not of one payday.
func (j openJob) takeHome(y *tables.Year) money.Amount {
	wages := j.year.Paycheck().Wages
	if j.pension() {
		return wages
	}
	return payroll.StubOf(wages, money.Zero, j.job.Pretax.Retirement, money.Zero, y).TakeHome
}

// mostWithheld is the most that a new certificate may take from an ordinary
// paycheck: what is withheld today, and as much more as is livable or as the
// person allows. An extra amount on file counts toward what is livable: advice
// that has been taken does not ask for another quarter of the rest.
func (pr *projection) mostWithheld(i int) money.Amount {
	s := &pr.payers[i]
	if s.most == nil {
		inForce := s.year.InForce(s.job.Certificate, s.from)
		now := s.year.Regular(inForce)
		before := now
		if inForce != nil && inForce.Extra.IsPositive() {
			bare := *inForce
			bare.Extra = money.Zero
			before = s.year.Regular(&bare)
		}
		most := money.Max(now, before.Add(s.untaxed.Sub(before).At(livableShare).OrZero()))
		if allowed := pr.h.Wish.MostLess; allowed != nil {
			most = now.Add(*allowed)
		}
		s.most = &most
	}
	return *s.most
}

// lowest is the lowest balance that true entries reach: with the credits and
// deductions that there are, and with nothing withheld on any payday that a new
// certificate reaches where Step 3 may be raised so far.
func (pr *projection) lowest(f formEntries) money.Amount {
	if pr.nearest != nil {
		return *pr.nearest
	}
	toCome := pr.fixed
	for i, s := range pr.payers {
		c := pr.blank()
		if i == 0 {
			c.Credits, c.Deductions = f.L3, f.L4b
		}
		if pr.mayRaiseCredits() {
			c.Credits = s.annual.Add(money.Dollars(1_000_000)) // beyond any tax on it
		}
		toCome = toCome.Add(s.withheld(&c, s.from))
	}
	balance := pr.outlook(toCome).Balance
	pr.nearest = &balance
	return balance
}

// aim is what a balance is measured from: the goal, or the lowest that can be
// reached where that is above it.
func (pr *projection) aim(f formEntries) money.Amount { return money.Max(pr.goal, pr.lowest(f)) }

// band is how far from the aim is near enough in the year. Where as little is
// aimed for as no penalty follows on, nothing may be short of it.
func (pr *projection) band() band {
	if pr.near == nil {
		b := bandOf(pr.ret.TotalTax, pr.h.Wish.Within)
		if pr.h.Wish.Aim == household.AimNoPenalty && pr.goal.IsNegative() {
			b.short = money.Zero
		}
		pr.near = &b
	}
	return *pr.near
}
