package certificate

import "example.com/plumbline/internal/money"

// The numbers of the advice. They are judgment and not law: what a careful
// adviser would call near, livable, or worth a form. Each has its reason here,
// and nowhere else does the package hold such a number.
var (
	// A bill of a hundred dollars is paid from a checking account and is far from
	// any penalty; on a larger tax 2% is what a forecast is worth. Above 500 a
	// bill hurts, however large the tax.
	shortBy    = money.Dollars(100)
	shortShare = money.Percent(2)
	shortMost  = money.Dollars(500)

	// A refund hurts nobody, so twice as much may come back before a form is
	// worth it; above 1,000 it is money missed during the year.
	overBy    = money.Dollars(250)
	overShare = money.Percent(4)
	overMost  = money.Dollars(1000)

	// What the full-year certificate may leave of this year, as a multiple of
	// what is near enough otherwise: one form in place of two is worth that.
	lastingTimes = 2

	// The most of an ordinary take-home paycheck that a new certificate may take:
	// rent, food and state tax come out of the rest.
	livableShare = money.Percent(25)

	// The least Step 4(c) that is worth writing, dollars a paycheck.
	leastExtra = money.Dollars(5)

	// The least share of a shortage that a certificate must cover to be worth
	// handing in when the rest has to be paid directly anyway.
	worthwhileShare = money.Percent(50)

	// A form is two trips to payroll where January's must replace it. On the paydays
	// of the last 31 days, December's, it moves little; where no penalty follows, the
	// return settles the year as well. On a single payday it moves one paycheck,
	// which is never worth it.
	briefDays  = 31
	fewPaydays = 1

	// What makes up less of a bill is not worth a line of its own.
	leastCause = money.Dollars(10)

	// Form W-4V takes a month or so to take effect (from memory): in the last two of
	// the year it is advice for the next.
	voluntaryDays = 61

	// How far the year's average paycheck may be from the ordinary one before pay
	// is called irregular, as a share of the ordinary one: more than a usual raise.
	irregularShare = money.Percent(25)
)

// band is how far a balance may be from what is aimed for and be near enough.
type band struct{ short, over money.Amount }

// bandOf is the band for a year's tax; within, where the person said it,
// overrules it on both sides.
func bandOf(tax money.Amount, within *money.Amount) band {
	if within != nil {
		return band{*within, *within}
	}
	return band{
		short: money.Min(money.Max(shortBy, tax.At(shortShare)), shortMost),
		over:  money.Min(money.Max(overBy, tax.At(overShare)), overMost),
	}
}

// times is the band made wider.
func (b band) times(n int) band { return band{b.short.Times(n), b.over.Times(n)} }

// holds reports whether a distance from the aim, positive where too much is
// paid, is within the band.
func (b band) holds(over money.Amount) bool {
	return !over.Less(b.short.Neg()) && !over.More(b.over)
}
