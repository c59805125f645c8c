package tax

import (
	"slices"
	"strconv"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/worksheet"
)

// VoluntaryWithholding is what a percentage of benefits withholds in a year,
// dollars, that is withheld in so many of the months in which they are paid:
// each month's part is rounded to the cent. The percentage must be one that Form
// W-4V offers: tables.Voluntary has them.
//
// IRC 3402(p)(1), (2); Form W-4V.
func VoluntaryWithholding(benefits money.Amount, percent, months, paidMonths int) money.Amount {
	if paidMonths <= 0 {
		return money.Zero
	}
	monthly := benefits.DividedBy(paidMonths).At(money.Percent(int64(percent))).ToCent()
	return monthly.Times(min(months, paidMonths))
}

// WithdrawalWithholding is what is withheld from a withdrawal, dollars: the
// percentage asked for on Form W-4R, or else the default. Of one that could be
// rolled over it is never less than the default.
//
// IRC 3405(b)(1), (b)(2), (c)(1); Form W-4R line 2.
func WithdrawalWithholding(w household.Withdrawal, y *tables.Year) money.Amount {
	r := &y.Withdrawals
	percent := r.Nonperiodic
	if w.Kind == household.CouldBeRolledOver {
		percent = r.Rollover
	}
	if asked := w.Percent; asked != nil && (w.Kind == household.Nonperiodic || *asked > percent) {
		percent = *asked
	}
	return w.Amount.At(money.Percent(int64(percent))).ToCent()
}

// benefitsWithheld is what benefits and withdrawals withhold, a payment of
// income tax.
//
// IRC 31(a), 3402(p)(3), 3405(f); Form 1040 lines 25b and 25c.
func (c *computation) benefitsWithheld() {
	pay := &c.h.Payments
	first, last := 1, 12
	if m := c.h.Income.SocialSecurityMonthly; m != nil && c.h.Income.SocialSecurity.IsZero() {
		first, last = m.Months()
	}
	r := &c.y.Voluntary
	social := c.voluntary(pay.SocialSecurity, "social_security", c.h.Benefits(), last-first+1, r.SocialSecurity...)
	unemployment := c.voluntary(pay.Unemployment, "unemployment", c.h.Income.Unemployment, 12, r.Unemployment)
	withdrawals := money.Zero
	for _, w := range pay.Withdrawals {
		withdrawals = withdrawals.Add(WithdrawalWithholding(w, c.y))
	}
	if withdrawals.IsPositive() {
		c.s.Add(worksheet.Line{
			ID:     "tax.withdrawals_withheld",
			Form:   "Form 1040 line 25b",
			Amount: withdrawals,
			How:    c.how("withdrawals", "nonperiodic", c.y.Withdrawals.Nonperiodic, "rollover", c.y.Withdrawals.Rollover),
			From:   []string{"payments.withdrawals"},
			Source: c.cite("IRC 3405(b), (c)", c.y.Withdrawals.Citation),
		})
	}
	c.BenefitsWithheld = money.Sum(social, unemployment, withdrawals)
}

// voluntary is what one kind of benefits withholds.
func (c *computation) voluntary(v *household.Voluntary, kind string, benefits money.Amount, paidMonths int, percents ...int) money.Amount {
	if v == nil || !benefits.IsPositive() {
		return money.Zero
	}
	key := "payments." + kind + "_withholding"
	if !slices.Contains(percents, v.Percent) {
		offered := make([]string, len(percents))
		for i, n := range percents {
			offered[i] = strconv.Itoa(n) + "%"
		}
		c.note("voluntary_percent", "percent", v.Percent, "offered", offered)
		return money.Zero
	}
	months := paidMonths
	if v.Months != nil {
		months = *v.Months
	}
	return c.s.Add(worksheet.Line{
		ID:     "tax." + kind + "_withheld",
		Form:   "Form 1040 line 25b",
		Amount: VoluntaryWithholding(benefits, v.Percent, months, paidMonths),
		How:    c.how("monthly_percent", "percent", v.Percent, "month", benefits.DividedBy(paidMonths), "months", min(months, paidMonths)),
		From:   []string{key},
		Source: c.cite("IRC 3402(p)", c.y.Voluntary.Citation),
	})
}
