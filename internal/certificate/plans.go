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

// boxCandidate is Step 2(c) on both of exactly two jobs, the rest on the better
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
// correction so that the year lands. The correction takes the place of the Step
// 2(b) worksheet's amount: the replay of the paydays finds what several jobs
// withhold too little, without the table. Where the certificates on file land
// already, they stay. Where too much would be withheld, other income is not
// entered to be made up for in Step 3. Where the paychecks can carry no whole
// dollar more and a little is missing, the entries are tried without those of the
// form, which may leave a dollar more room.
func (pr *projection) tunedCandidate(f formEntries) *candidate {
	if d := pr.keepCandidate(func(household.Certificate) bool { return true }); d != nil {
		return d
	}
	d := pr.newCandidate(pr.withEntries(f)).fit()
	if len(d.certs) > 0 && d.gap().IsNegative() && d.certs[0].OtherIncome.IsPositive() {
		d.certs[0].OtherIncome = money.Zero
		d.replay(0)
		d.before = money.Sum(d.withheld...)
	}
	d.correct(pr.bestPaidFirst())
	if d.gap().IsPositive() {
		bare := pr.newCandidate(pr.blanks())
		if bare.correct(pr.bestPaidFirst()); !bare.gap().IsPositive() {
			return bare
		}
	}
	return d
}

// privateCandidate is the status and Step 4(c), nothing else: what is withheld too
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

// evenCandidate is the tuned plan with the correction shared by the two earners'
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
			d.raiseBy(i, share.DividedBy(s.paydays).DollarDown(), share)
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

// keepCandidate is the certificates on file, where they may stay and land: current
// ones with the right status, none exempt, each as wanted. Otherwise nil.
func (pr *projection) keepCandidate(wanted func(household.Certificate) bool) *candidate {
	if len(pr.payers) == 0 {
		return nil
	}
	certs := make([]household.Certificate, len(pr.payers))
	for i, s := range pr.payers {
		c := s.job.Certificate
		if c == nil || c.Edition != household.Current || c.Exempt || c.Status != pr.status() || !wanted(*c) {
			return nil
		}
		certs[i] = *c
	}
	if d := pr.newCandidate(certs); d.landed(0) {
		return d
	}
	return nil
}

// fit takes off what no paycheck can carry: first of the extra amount, no more than is
// needed, then other income, whose tax the correction finds instead.
func (d *candidate) fit() *candidate {
	for i, s := range d.pr.payers {
		c := &d.certs[i]
		if c.Extra.IsZero() && c.OtherIncome.IsZero() {
			continue
		}
		if s.year.WellWithin(s.year.Regular(c)) {
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

// carriers are the payers on whose certificate one entry could do everything:
// those who need a new one anyway, and the best-paid.
func (pr *projection) carriers() []int {
	var need []int
	for i, s := range pr.payers {
		if i == 0 || s.annual.IsPositive() && !pr.mayStay(s.openJob, s.job.Certificate) {
			need = append(need, i)
		}
	}
	return need
}

// extraCandidates are Step 4(c) alone, on the plain status or on what is on file,
// at each payer that could carry it; what one cannot take goes to the next. No
// paycheck shrinks by more than is livable.
func (pr *projection) extraCandidates() []*candidate {
	var all []*candidate
	certs, _ := pr.standingCerts()
	try := func(i int, c household.Certificate) {
		d := &candidate{pr: pr, certs: slices.Clone(certs), livable: true}
		d.certs[i] = pr.onTodaysForm(c)
		d.start()
		if over := d.gap().Neg(); over.IsPositive() {
			d.lessExtra(i, over)
		} else {
			d.makeUp(append([]int{i}, pr.bestPaidFirst()...))
		}
		d.roundExtras()
		all = append(all, d)
	}
	for _, i := range pr.carriers() {
		if plain := pr.blank(); !certs[i].Same(&plain) {
			try(i, plain)
		}
		try(i, certs[i])
	}
	return all
}

// simpleCandidates are some or all of the form's Steps 3 to 4(b), at each payer
// that could carry them, the others as they are.
func (pr *projection) simpleCandidates(f formEntries) []*candidate {
	steps := []struct {
		into   func(*household.Certificate) *money.Amount
		amount money.Amount
	}{
		{func(c *household.Certificate) *money.Amount { return &c.Credits }, f.L3},
		{func(c *household.Certificate) *money.Amount { return &c.Deductions }, f.L4b},
		{func(c *household.Certificate) *money.Amount { return &c.OtherIncome }, f.L4a},
	}
	steps = slices.DeleteFunc(steps, func(s struct {
		into   func(*household.Certificate) *money.Amount
		amount money.Amount
	},
	) bool {
		return s.amount.IsZero()
	})
	var all []*candidate
	certs, _ := pr.standingCerts()
	for _, i := range pr.carriers() {
		for some := 1; some < 1<<len(steps); some++ {
			d := &candidate{pr: pr, certs: slices.Clone(certs)}
			d.certs[i] = pr.blank()
			for k, s := range steps {
				if some&(1<<k) != 0 {
					*s.into(&d.certs[i]) = s.amount
				}
			}
			d.start()
			all = append(all, d)
		}
	}
	return all
}
