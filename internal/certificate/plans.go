package certificate

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// formCandidate is the paper method: the best-paid job carries what the form asks
// for, with Step 4(c) from the Step 2(b) worksheet; the other jobs have the
// status alone (Form W-4, Steps 3 to 4(b): on one certificate only).
func (pr *projection) formCandidate(f formEntries) *candidate {
	certs := pr.withEntries(f)
	if len(certs) > 0 {
		certs[0].Extra = f.Extra
	}
	return pr.newCandidate(certs).fit()
}

// withEntries are certificates on which the best-paid job carries Steps 3, 4(a)
// and 4(b) as the form asks for them.
func (pr *projection) withEntries(f formEntries) []household.Certificate {
	certs := pr.blanks()
	if len(certs) > 0 {
		certs[0].Credits, certs[0].OtherIncome, certs[0].Deductions = f.L3, f.L4a, f.L4b
	}
	return certs
}

// boxDraft is Step 2(c) on both of exactly two jobs, the rest on the better
// paid; nil where there are not two, or one is a pension, whose form has no
// box.
func (pr *projection) boxCandidate(f formEntries) *candidate {
	if len(pr.payers) != 2 || pr.payers[0].pension() || pr.payers[1].pension() {
		return nil
	}
	certs := pr.withEntries(f)
	for i := range certs {
		certs[i].MultipleJobs = true
	}
	return pr.newCandidate(certs).fit()
}

// tunedCandidate is what the form asks for on the best-paid job, then one
// correction so that the year lands. The correction stands in the place of the
// Step 2(b) worksheet's amount: the replay of the paydays finds what several
// jobs withhold too little, without the table. Where the certificates on file
// land already, they stay. Where the paychecks can carry no whole dollar more
// and a little is missing, the entries are tried without those of the form,
// which may leave a dollar more room.
func (pr *projection) tunedCandidate(f formEntries) *candidate {
	if d := pr.keepCandidate(func(household.Certificate) bool { return true }); d != nil {
		return d
	}
	d := pr.newCandidate(pr.withEntries(f)).fit()
	d.correct(pr.bestPaidFirst())
	if d.gap().IsPositive() {
		bare := pr.newCandidate(pr.blanks())
		if bare.correct(pr.bestPaidFirst()); !bare.gap().IsPositive() {
			return bare
		}
	}
	return d
}

// privateDraft is the status and Step 4(c), nothing else: what is withheld too
// little is made up on the best-paid job. With no other entry, nothing can
// lower the withholding.
func (pr *projection) privateCandidate() *candidate {
	if d := pr.keepCandidate(tellsNothing); d != nil {
		return d
	}
	d := pr.newCandidate(pr.blanks())
	d.makeUp(pr.bestPaidFirst())
	return d
}

// tellsNothing reports a certificate with the status and an extra amount only.
func tellsNothing(c household.Certificate) bool {
	return !c.MultipleJobs && c.Credits.IsZero() && c.OtherIncome.IsZero() && c.Deductions.IsZero()
}

// evenDraft is the tuned plan with the correction shared by the two earners'
// best-paid jobs in proportion to their pay; nil where two do not earn.
func (pr *projection) evenCandidate(f formEntries) *candidate {
	shared := pr.onePayerEach()
	if len(shared) < 2 {
		return nil
	}
	if d := pr.keepCandidate(func(household.Certificate) bool { return true }); d != nil {
		return d
	}
	d := pr.newCandidate(pr.withEntries(f)).fit()
	if d.landed(shared[0]) {
		return d
	}
	gap, pay := d.gap(), pr.payers[shared[0]].annual.Add(pr.payers[shared[1]].annual)
	for _, i := range shared {
		s := pr.payers[i]
		share := gap.Abs().At(s.annual.Over(pay))
		if gap.IsPositive() {
			d.addExtra(i, share.DividedBy(s.paydays).DollarDown(), share)
		} else {
			d.lower(i, share)
		}
	}
	d.correct(append(shared, pr.bestPaidFirst()...))
	return d
}

// onePayerEach is the best-paid payer of each earner who has one with pay.
func (pr *projection) onePayerEach() []int {
	var found []int
	var earners []household.Earner
	for i, s := range pr.payers {
		if s.annual.IsPositive() && !slices.Contains(earners, s.job.Earner) {
			found, earners = append(found, i), append(earners, s.job.Earner)
		}
	}
	return found
}

// bestPaidFirst are all payers, in the order in which they take a correction.
func (pr *projection) bestPaidFirst() []int {
	order := make([]int, len(pr.payers))
	for i := range order {
		order[i] = i
	}
	return order
}

// keepDraft is the certificates on file, where they may stay and land: current
// ones with the right status, none exempt, each as wanted. Otherwise nil.
func (pr *projection) keepCandidate(wanted func(household.Certificate) bool) *candidate {
	if len(pr.payers) == 0 {
		return nil
	}
	certs := make([]household.Certificate, len(pr.payers))
	for i, s := range pr.payers {
		c := s.job.Certificate
		if !pr.mayStay(c) || !wanted(*c) {
			return nil
		}
		certs[i] = *c
	}
	if d := pr.newCandidate(certs); d.landed(0) {
		return d
	}
	return nil
}

// mayStay reports whether a certificate on file may stay: a current one with
// the right status that claims no exemption.
func (pr *projection) mayStay(c *household.Certificate) bool {
	return c != nil && c.Edition == household.Current && !c.Exempt && c.Status == pr.status()
}

// fit takes back what no paycheck can carry: first the extra amount, as far as
// needed, then other income, whose tax the correction finds instead.
func (d *candidate) fit() *candidate {
	for i, s := range d.pr.payers {
		c := &d.certs[i]
		if c.Extra.IsZero() && c.OtherIncome.IsZero() {
			continue
		}
		if s.year.WellWithin(s.ordinary(c, d.pr.y)) {
			continue
		}
		if short := d.leastTakeHome(i); short.IsNegative() {
			c.Extra = c.Extra.Add(short).DollarDown().OrZero()
			if d.leastTakeHome(i).IsNegative() {
				c.OtherIncome = money.Zero
			}
			d.replay(i)
			d.before = money.Sum(d.withheld...)
		}
	}
	return d
}
