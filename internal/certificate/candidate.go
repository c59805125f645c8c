package certificate

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
)

// candidate is a certificate for every payer, with what the paydays to come then
// withhold: a plan in the making. Each change is replayed at once.
type candidate struct {
	pr       *projection
	certs    []household.Certificate // parallel to projection.payers
	withheld []money.Amount          // the same
	added    []correction            // the same: what was added to the form's entries
	before   money.Amount            // what all of it withheld before anything was added
	livable  bool                    // no paycheck may shrink by more than is livable
	next     *januaryYear            // the year for which they are filled in, where that is next year
}

// correction is what a plan adds to a certificate so that the year lands.
type correction struct {
	extra   money.Amount // to Step 4(c), dollars a paycheck
	short   money.Amount // what it makes up, dollars over the remaining paydays
	credits money.Amount // to Step 3, dollars a year
}

// newCandidate is the candidate with these certificates, one for each payer.
func (pr *projection) newCandidate(certs []household.Certificate) *candidate {
	d := &candidate{pr: pr, certs: certs}
	d.start()
	return d
}

// start replays every certificate before anything is added.
func (d *candidate) start() {
	d.withheld, d.added = make([]money.Amount, len(d.certs)), make([]correction, len(d.certs))
	for i := range d.certs {
		d.replay(i)
	}
	d.before = money.Sum(d.withheld...)
}

// blanks are certificates with the status and nothing else, for every payer.
func (pr *projection) blanks() []household.Certificate {
	certs := make([]household.Certificate, len(pr.payers))
	for i := range certs {
		certs[i] = pr.blank()
	}
	return certs
}

func (d *candidate) replay(i int) {
	d.withheld[i] = d.pr.payers[i].withheld(&d.certs[i], d.pr.payers[i].from)
}

// gap is what the candidate withholds too little (positive) or too much.
func (d *candidate) gap() money.Amount { return d.pr.need.Sub(money.Sum(d.withheld...)) }

// landed reports whether what is withheld beyond the need is less than a
// dollar for each payday of one payer: the narrowest landing that whole dollars
// a paycheck allow there.
func (d *candidate) landed(payer int) bool {
	over := d.gap().Neg()
	return !over.IsNegative() && over.Less(money.Dollars(int64(d.pr.payers[payer].paydays)))
}

// correct makes the candidate land by one correction on the first of the payers
// named, in order; what it cannot take goes to the next. A candidate that lands
// already is left as it is, and so are the payers after the one that lands it.
func (d *candidate) correct(order []int) {
	if len(order) == 0 || d.landed(order[0]) {
		return
	}
	for _, i := range order {
		if gap := d.gap(); gap.IsPositive() {
			d.raise(i, gap)
		} else {
			d.lower(i, gap.Neg())
		}
		if d.landed(i) {
			return
		}
	}
}

// makeUp raises the extra amounts of the payers in order, where the candidate
// withholds too little; it lowers nothing.
func (d *candidate) makeUp(order []int) {
	for _, i := range order {
		if !d.gap().IsPositive() {
			return
		}
		d.renew(i)
		if gap := d.gap(); gap.IsPositive() {
			d.raise(i, gap)
		}
	}
}

// renew puts today's form in the place of one from before 2020, before an entry of
// it is changed: the old form can stay on file, but cannot be handed in again.
func (d *candidate) renew(i int) {
	if d.certs[i].Edition != household.Before2020 {
		return
	}
	was := d.withheld[i]
	d.certs[i] = d.pr.onTodaysForm(d.certs[i])
	d.replay(i)
	d.before = d.before.Add(d.withheld[i].Sub(was))
}

// raise adds to a payer's Step 4(c) what makes up the shortfall over its
// remaining paydays, in whole dollars a paycheck, up to what its pay allows.
//
// Where nothing was withheld before, the entry opens the flat rate to a bonus
// (Publication 15, section 7), which then brings in more than the entry alone;
// that much less is asked for.
//
// Publication 505 (2025), Worksheet 1-5, p. 17.
func (d *candidate) raise(i int, shortfall money.Amount) {
	d.raiseBy(i, shortfall.DividedBy(d.pr.payers[i].paydays).DollarUp(), shortfall)
}

// raiseBy is raise with the dollars a paycheck given.
func (d *candidate) raiseBy(i int, extra, shortfall money.Amount) {
	n := d.pr.payers[i].paydays
	d.addExtra(i, extra, shortfall)
	if over := d.gap().Neg().DividedBy(n).DollarDown(); over.IsPositive() {
		d.addExtra(i, money.Min(over, d.added[i].extra).Neg(), money.Zero)
	}
}

// addExtra adds whole dollars a paycheck to a payer's Step 4(c), up to what its
// pay allows, toward a shortfall.
func (d *candidate) addExtra(i int, extra, shortfall money.Amount) {
	if extra.IsPositive() {
		extra = money.Min(extra, d.room(i, extra))
	}
	if extra.IsZero() {
		return
	}
	c := &d.added[i]
	d.certs[i].Extra = d.certs[i].Extra.Add(extra)
	c.extra = c.extra.Add(extra)
	c.short = money.Min(c.short.Add(shortfall), c.extra.Times(d.pr.payers[i].paydays))
	d.replay(i)
}

// lessExtra lowers the Step 4(c) of a certificate on file by what is withheld too
// much, not below nothing.
func (d *candidate) lessExtra(i int, excess money.Amount) {
	less := money.Min(excess.DividedBy(d.pr.payers[i].paydays).DollarDown(), d.certs[i].Extra)
	if less.IsPositive() {
		d.certs[i].Extra = d.certs[i].Extra.Sub(less)
		d.replay(i)
		d.before = money.Sum(d.withheld...)
	}
}

// roundExtras leaves no new Step 4(c) of a few dollars a paycheck: there is none
// where the year ends near enough without it, else the least that is worth
// writing. Where the person says how near is near enough, each dollar counts.
func (d *candidate) roundExtras() {
	if d.pr.h.Wish.Within != nil {
		return
	}
	for i := range d.certs {
		c, at := d.certs[i], &d.certs[i].Extra
		if !petty(c) || c.Same(d.pr.payers[i].job.Certificate) {
			continue
		}
		was := d.added[i]
		*at, d.added[i] = money.Zero, correction{}
		if d.replay(i); d.pr.band().holds(d.gap().Neg()) {
			continue
		}
		*at, d.added[i] = leastExtra, correction{extra: leastExtra, short: was.short}
		if d.replay(i); !d.pr.band().holds(d.gap().Neg()) {
			*at, d.added[i] = money.Zero, correction{}
			d.replay(i)
		}
	}
}

// petty reports an extra amount of a few dollars a paycheck.
func petty(c household.Certificate) bool { return c.Extra.IsPositive() && c.Extra.Less(leastExtra) }

// room is the most whole dollars a paycheck that a payer's Step 4(c) can still
// go up by: what the leanest payday leaves after federal tax, social security
// and Medicare. Payroll takes the last two first, so no certificate can have
// them. Where what is wanted is well within the pay, it is not looked for.
func (d *candidate) room(i int, wanted money.Amount) money.Amount {
	s := d.pr.payers[i]
	if d.livable {
		most := d.pr.mostWithheld(i).Sub(s.year.Regular(&d.certs[i])).DollarDown().OrZero()
		wanted = money.Min(wanted, most)
	}
	if s.year.WellWithin(s.year.Regular(&d.certs[i]).Add(wanted)) {
		return wanted
	}
	return money.Min(wanted, d.leastTakeHome(i).DollarDown()).OrZero()
}

// leastTakeHome is what the leanest payday on which a new certificate counts
// leaves of the ordinary paycheck. One-time pay on the day is no room for an
// entry: the entry stands for every paycheck.
func (d *candidate) leastTakeHome(i int) money.Amount {
	s, c := d.pr.payers[i], &d.certs[i]
	ordinary := s.year.Regular(c)
	least, seen := money.Zero, false
	for _, e := range s.year.Ledger(payroll.OnFile{Now: s.job.Certificate, New: c, From: s.from}) {
		if !e.New || !e.Ordinary {
			continue
		}
		left := e.TakeHome
		if e.OneTime.IsPositive() {
			social := e.SocialSecurity.Add(e.Medicare).At(e.Pay.Over(e.Pay.Add(e.OneTime)))
			left = money.Min(left, e.Pay.Sub(ordinary).Sub(social))
		}
		if !seen || left.Less(least) {
			least, seen = left, true
		}
	}
	return least
}

// lower adds to a payer's Step 3 what brings its withholding down by the excess:
// the excess a remaining payday times the paydays of a whole year, which is how
// payroll spreads Step 3. It then looks for the highest whole dollar that still
// withholds enough, since a paycheck's tax stops at zero and is rounded to the
// cent.
//
// Publication 505 (2025), Worksheet 1-5, line 6, p. 17: for this year only.
func (d *candidate) lower(i int, excess money.Amount) {
	s, base := d.pr.payers[i], d.certs[i].Credits
	if !d.pr.mayRaiseCredits() {
		return
	}
	least := d.withheld[i].Sub(excess) // what the payer must go on withholding
	most := d.creditsToZero(i)
	if !most.More(base) {
		return
	}
	at := func(credits money.Amount) money.Amount {
		d.certs[i].Credits = credits
		d.replay(i)
		return d.withheld[i].Sub(least)
	}
	formula := func(over money.Amount) money.Amount {
		return over.Times(s.periods).DividedBy(s.paydays).DollarDown()
	}
	enough := highest(base, most, money.Min(base.Add(formula(excess)), most), at, formula)
	if at(enough); enough.Equal(most) {
		enough = d.leastToZero(i, base, most)
	}
	d.added[i].credits = d.added[i].credits.Add(enough.Sub(base))
}

// highest is the highest whole-dollar entry from base to most at which what is
// withheld over the need is not negative, as it is not at base. The formula
// turns what is over into dollars of the entry and gives it at once, as long as
// no paycheck's tax reaches zero; where it does not in a few steps, the interval
// is halved.
func highest(base, most, guess money.Amount, over, formula func(money.Amount) money.Amount) money.Amount {
	const steps = 4
	enough, tooMuch := base, most.Add(money.Dollars(1))
	for n := 0; enough.Add(money.Dollars(1)).Less(tooMuch); n++ {
		left := over(guess)
		if left.IsNegative() {
			tooMuch = guess
		} else {
			enough = guess
		}
		next := guess.Add(formula(left))
		if next.Equal(guess) {
			next = guess.Add(money.Dollars(1))
		}
		if n >= steps || !next.More(enough) || !next.Less(tooMuch) {
			next = enough.Add(tooMuch).DividedBy(2).DollarDown()
		}
		guess = next
	}
	return enough
}

// creditsToZero is a whole-dollar Step 3 entry at which a payer's paychecks
// withhold nothing but the extra amount: the tax on the richest one, times the
// pay periods.
func (d *candidate) creditsToZero(i int) money.Amount {
	s := d.pr.payers[i]
	c := d.certs[i]
	c.Credits, c.Extra = money.Zero, money.Zero
	p := s.year.Paycheck()
	for _, o := range s.job.OneTimePay {
		if !o.Payday.Before(s.from) {
			p.Wages = p.Wages.Add(o.Amount)
		}
	}
	return payroll.Withholding(p, &c, d.pr.y, payroll.Options{}, nil).Times(s.periods).DollarUp()
}

// leastToZero is the least Step 3 entry, from base to most, at which a payer
// withholds as little as at most: an entry is never higher than it does any
// good.
func (d *candidate) leastToZero(i int, base, most money.Amount) money.Amount {
	least := d.withheld[i]
	for base.Add(money.Dollars(1)).Less(most) {
		middle := base.Add(most).DividedBy(2).DollarDown()
		d.certs[i].Credits = middle
		d.replay(i)
		if d.withheld[i].More(least) {
			base = middle
		} else {
			most = middle
		}
	}
	d.certs[i].Credits = most
	d.replay(i)
	return most
}
