package tax

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/worksheet"
)

// incomeTax is the tax on taxable income before credits: the smaller of the
// tax on all of it and the tax with capital gains and qualified dividends at
// their own rates; of a child, no less than with unearned income at the parents'
// rate, where the answers have the parents' figures.
//
// IRC 1(g), 1(h)(1), 1(j), 3; Form 1040 line 16.
func (c *computation) incomeTax() {
	ordinary := c.tax(c.TaxableIncome)
	tax, how, from := ordinary, c.arithmetic(c.TaxableIncome), []string{"tax.taxable_income"}
	if c.income.Preferred().IsPositive() && c.TaxableIncome.IsPositive() {
		preferential := c.preferentialTax()
		tax = money.Min(preferential, ordinary)
		how = c.how("gains_or_ordinary", "preferential", preferential, "ordinary", ordinary)
		from = append(from, "tax.gains_rates.tax")
	}
	c.TaxedAsParents = c.netUnearned()
	if c.h.Parents != nil && c.parentsRateApplies() {
		own := tax
		if tax = money.Max(c.parentsRate(own), own); tax.More(own) {
			how = c.how("parents_rate_more", "tax", tax, "own", own)
			from = append(from, "tax.parents_rate")
		}
	}
	c.IncomeTax = c.s.Add(worksheet.Line{
		ID:     "tax.income_tax",
		Form:   "Form 1040 line 16",
		Amount: tax,
		How:    how,
		From:   from,
		Source: c.taxSource(c.TaxableIncome),
	})
}

// tax is the tax at the ordinary rates on an amount of taxable income, by the
// return's method.
//
// IRC 1(j) and 3: the rate schedules, and the Tax Table made from them, which
// one whose income is within it must use.
func (c *computation) tax(amount money.Amount) money.Amount {
	if c.byTable(amount) {
		return tableTax(amount, c.y, c.Status)
	}
	return c.y.Schedules.Rates.Of(c.Status).Tax(amount).ToCent()
}

// byTable reports whether the tax on an amount is read from the Tax Table.
func (c *computation) byTable(amount money.Amount) bool {
	return c.m == ByReturn && amount.Less(c.y.TaxTable.Below)
}

// tableTax reads an amount of taxable income in the Tax Table: the tax by the
// schedule on the middle of the amount's row, rounded to the dollar; none above
// the table.
//
// IRC 3(a); Instructions for Form 1040, Tax Table.
func tableTax(amount money.Amount, y *tables.Year, status household.Status) money.Amount {
	middle, _ := y.TaxTable.Rows.Middle(amount)
	return y.Schedules.Rates.Of(status).Tax(middle).ToDollar()
}

// arithmetic shows how the tax on an amount was figured.
func (c *computation) arithmetic(amount money.Amount) worksheet.How {
	if c.s == nil {
		return worksheet.How{}
	}
	if c.byTable(amount) {
		if !amount.IsPositive() {
			return c.how("no_income")
		}
		from, to, _ := c.y.TaxTable.Rows.Row(amount)
		return c.how("table_row", "from", from, "to", to)
	}
	schedule := c.y.Schedules.Rates.Of(c.Status)
	start, rate := money.Zero, schedule[0].Rate
	for _, b := range schedule {
		if !amount.More(b.Over) {
			break
		}
		start, rate = b.Over, b.Rate
	}
	return worksheet.Using("%v + %v × (%v − %v)", schedule.Tax(start), rate, amount, start)
}

// taxSource cites the table or the schedule, as the tax on an amount was
// figured.
func (c *computation) taxSource(amount money.Amount) string {
	if c.byTable(amount) {
		return c.cite("IRC 3(a)", c.y.TaxTable.Citation)
	}
	return c.cite("IRC 1(j)", c.y.Schedules.Citation)
}

// gainsRates divides taxable income among the rates for capital gains. Each
// part is in dollars of taxable income.
type gainsRates struct {
	ordinary money.Amount // at the ordinary rates
	zero     money.Amount // at no tax
	middle   money.Amount
	top      money.Amount
}

// divideGains takes the preferred income off the top of taxable income and
// fills with it, in this order, what the ordinary income leaves of the room
// below the zero rate's limit, then of the middle rate's, and the rest falls to
// the top rate.
//
// IRC 1(h)(1); Qualified Dividends and Capital Gain Tax Worksheet, lines 1 to
// 20.
func (c *computation) divideGains() gainsRates {
	g, income := c.y.CapitalGains, c.TaxableIncome
	var r gainsRates
	r.ordinary = income.Sub(c.income.Preferred()).OrZero()
	preferred := money.Min(income, c.income.Preferred())
	zeroTop := money.Min(income, g.ZeroTop.Of(c.Status))
	r.zero = zeroTop.Sub(r.ordinary).OrZero()
	rest := preferred.Sub(r.zero)
	middleTop := money.Min(income, g.MiddleTop.Of(c.Status))
	r.middle = money.Min(rest, middleTop.Sub(r.ordinary.Add(r.zero)).OrZero())
	r.top = rest.Sub(r.middle)
	return r
}

// preferentialTax is the tax with capital gains and qualified dividends at
// their own rates and the rest at the ordinary ones.
//
// IRC 1(h)(1), 1(h)(11); Qualified Dividends and Capital Gain Tax Worksheet,
// lines 18 to 23.
func (c *computation) preferentialTax() money.Amount {
	g, r := c.y.CapitalGains, c.divideGains()
	source := c.cite("IRC 1(h)", g.Citation)
	c.s.Add(worksheet.Line{
		ID:     "tax.gains_rates.ordinary_income",
		Form:   "Qualified Dividends and Capital Gain Tax Worksheet line 5",
		Amount: r.ordinary,
		How:    c.how("not_below_zero", "income", c.TaxableIncome, "less", c.income.Preferred()),
		From: append([]string{"tax.taxable_income"}, c.from(
			part{"tax.net_capital_gain", c.income.NetCapitalGain}, part{"tax.qualified_dividends", c.income.QualifiedDividends})...),
		Source: source,
	})
	c.s.Add(worksheet.Line{
		ID:     "tax.gains_rates.zero",
		Form:   "Qualified Dividends and Capital Gain Tax Worksheet line 9",
		Amount: r.zero,
		How:    c.how("left_up_to", "top", g.ZeroTop.Of(c.Status)),
		From:   []string{"tax.gains_rates.ordinary_income"},
		Source: source,
	})
	ordinary := c.tax(r.ordinary)
	return c.s.Add(worksheet.Line{
		ID:     "tax.gains_rates.tax",
		Form:   "Qualified Dividends and Capital Gain Tax Worksheet line 23",
		Amount: money.Sum(ordinary, r.middle.At(g.MiddleRate), r.top.At(g.TopRate)).ToCent(),
		How:    worksheet.Using("%v + %v × %v + %v × %v", ordinary, r.middle, g.MiddleRate, r.top, g.TopRate),
		From:   []string{"tax.gains_rates.ordinary_income", "tax.gains_rates.zero"},
		Source: source,
	})
}
