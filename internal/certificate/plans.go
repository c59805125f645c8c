package certificate

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// formDraft is the paper method: the best-paid job carries what the form asks
// for, with Step 4(c) from the Step 2(b) worksheet; the other jobs have the
// status alone (Form W-4, Steps 3 to 4(b): on one certificate only).
func (a *ahead) formDraft(f asked) *draft {
	certs := a.withEntries(f)
	if len(certs) > 0 {
		certs[0].Extra = f.Extra
	}
	return a.newDraft(certs).fit()
}

// withEntries are certificates on which the best-paid job carries Steps 3, 4(a)
// and 4(b) as the form asks for them.
func (a *ahead) withEntries(f asked) []household.Certificate {
	certs := a.blanks()
	if len(certs) > 0 {
		certs[0].Credits, certs[0].OtherIncome, certs[0].Deductions = f.L3, f.L4a, f.L4b
	}
	return certs
}

// boxDraft is Step 2(c) on both of exactly two jobs, the rest on the better
// paid; nil where there are not two, or one is a pension, whose form has no
// box.
func (a *ahead) boxDraft(f asked) *draft {
	if len(a.seats) != 2 || a.seats[0].pension() || a.seats[1].pension() {
		return nil
	}
	certs := a.withEntries(f)
	for i := range certs {
		certs[i].MultipleJobs = true
	}
	return a.newDraft(certs).fit()
}

// tunedDraft is what the form asks for on the best-paid job, then one
// correction so that the year lands. The correction stands in the place of the
// Step 2(b) worksheet's amount: the replay of the paydays finds what several
// jobs withhold too little, without the table. Where the certificates on file
// land already, they stay. Where the paychecks can carry no whole dollar more
// and a little is missing, the entries are tried without those of the form,
// which may leave a dollar more room.
func (a *ahead) tunedDraft(f asked) *draft {
	if d := a.keepDraft(func(household.Certificate) bool { return true }); d != nil {
		return d
	}
	d := a.newDraft(a.withEntries(f)).fit()
	d.correct(a.bestPaidFirst())
	if d.gap().IsPositive() {
		bare := a.newDraft(a.blanks())
		if bare.correct(a.bestPaidFirst()); !bare.gap().IsPositive() {
			return bare
		}
	}
	return d
}

// privateDraft is the status and Step 4(c), nothing else: what is withheld too
// little is made up on the best-paid job. With no other entry, nothing can
// lower the withholding.
func (a *ahead) privateDraft() *draft {
	if d := a.keepDraft(tellsNothing); d != nil {
		return d
	}
	d := a.newDraft(a.blanks())
	d.makeUp(a.bestPaidFirst())
	return d
}

// tellsNothing reports a certificate with the status and an extra amount only.
func tellsNothing(c household.Certificate) bool {
	return !c.MultipleJobs && c.Credits.IsZero() && c.OtherIncome.IsZero() && c.Deductions.IsZero()
}

// evenDraft is the tuned plan with the correction shared by the two earners'
// best-paid jobs in proportion to their pay; nil where two do not earn.
func (a *ahead) evenDraft(f asked) *draft {
	shared := a.oneSeatEach()
	if len(shared) < 2 {
		return nil
	}
	if d := a.keepDraft(func(household.Certificate) bool { return true }); d != nil {
		return d
	}
	d := a.newDraft(a.withEntries(f)).fit()
	if d.landed(shared[0]) {
		return d
	}
	gap, pay := d.gap(), a.seats[shared[0]].annual.Add(a.seats[shared[1]].annual)
	for _, i := range shared {
		s := a.seats[i]
		share := gap.Abs().At(s.annual.Over(pay))
		if gap.IsPositive() {
			d.addExtra(i, share.DividedBy(s.paydays).DollarDown(), share)
		} else {
			d.lower(i, share)
		}
	}
	d.correct(append(shared, a.bestPaidFirst()...))
	return d
}

// oneSeatEach is the best-paid seat of each earner who has one with pay.
func (a *ahead) oneSeatEach() []int {
	var found []int
	var earners []household.Earner
	for i, s := range a.seats {
		if s.annual.IsPositive() && !slices.Contains(earners, s.job.Earner) {
			found, earners = append(found, i), append(earners, s.job.Earner)
		}
	}
	return found
}

// bestPaidFirst are all seats, in the order in which they take a correction.
func (a *ahead) bestPaidFirst() []int {
	order := make([]int, len(a.seats))
	for i := range order {
		order[i] = i
	}
	return order
}

// keepDraft is the certificates on file, where they may stay and land: current
// ones with the right status, none exempt, each as wanted. Otherwise nil.
func (a *ahead) keepDraft(wanted func(household.Certificate) bool) *draft {
	if len(a.seats) == 0 {
		return nil
	}
	certs := make([]household.Certificate, len(a.seats))
	for i, s := range a.seats {
		c := s.job.Certificate
		if !a.mayStay(c) || !wanted(*c) {
			return nil
		}
		certs[i] = *c
	}
	if d := a.newDraft(certs); d.landed(0) {
		return d
	}
	return nil
}

// mayStay reports whether a certificate on file may stay: a current one with
// the right status that claims no exemption.
func (a *ahead) mayStay(c *household.Certificate) bool {
	return c != nil && c.Edition == household.Current && !c.Exempt && c.Status == a.status()
}

// fit takes back what no paycheck can carry: first the extra amount, as far as
// needed, then other income, whose tax the correction finds instead.
func (d *draft) fit() *draft {
	for i, s := range d.a.seats {
		c := &d.certs[i]
		if c.Extra.IsZero() && c.OtherIncome.IsZero() {
			continue
		}
		if s.year.WellWithin(s.ordinary(c, d.a.y)) {
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
