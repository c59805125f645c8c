package tax

import (
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/worksheet"
)

// premiumCase is Form 8962 for one household income. Amounts are dollars for
// the year, or for the months of coverage where they are fewer.
type premiumCase struct {
	Income       money.Amount // line 3
	PovertyLine  money.Amount // line 4
	Percent      int          // line 5, whole percent of the poverty line
	Share        money.Rate   // line 7
	Contribution money.Amount // line 8a, or line 8b for each month
	Credit       money.Amount // line 24
	Barred       string       // the code of the note that says why there is no credit; empty where there may be one
}

// premiumCredit settles the advance payments of the premium tax credit with the
// credit of the year: what the credit has more is refundable, what the advance
// had more is paid back as a tax, within a cap in the years that have one.
//
// IRC 36B(a), (f)(1), (f)(2); Form 8962 lines 24 to 29.
func (c *computation) premiumCredit() {
	m := c.h.Marketplace
	if m == nil {
		return
	}
	p := c.form8962(c.householdIncome())
	c.traceForm8962(p)
	if !p.Credit.Less(m.Advance) {
		c.netPremiumCredit(p)
		return
	}
	c.repayAdvance(p)
}

// householdIncome is adjusted gross income with tax-exempt interest and the
// part of social security benefits that is not taxed. The income of dependents
// who must file a return is not in the answers and does not count; nor does
// income from abroad.
//
// IRC 36B(d)(2); Form 8962 lines 2a and 3.
func (c *computation) householdIncome() money.Amount { return sumOf(c.householdIncomeParts()).OrZero() }

// householdIncomeParts are the lines that householdIncome adds up.
func (c *computation) householdIncomeParts() []part {
	return []part{
		{"tax.adjusted_gross_income", c.AdjustedGrossIncome},
		{"tax.tax_exempt_interest", c.h.Income.TaxExemptInterest},
		{"tax.benefits", c.income.Benefits},
		{"tax.taxable_benefits", c.income.TaxableBenefits.Neg()},
	}
}

// taxFamily is the number of people by which the poverty line goes: as the
// answers give it, or the people on the return with their dependents.
//
// IRC 36B(d)(1); Form 8962 line 1.
func (c *computation) taxFamily() int {
	if n := c.h.Marketplace.Household; n != nil {
		return *n
	}
	n := len(c.earners())
	for _, s := range c.dependents {
		if s.Counts != NotCounted {
			n++
		}
	}
	return n
}

// form8962 figures the credit on a household income: what the benchmark plan
// costs above a share of that income, no more than the premiums. The
// contribution is rounded to the dollar, for a year and for a month, as the
// form orders. The answers give premiums as sums, so each month of coverage
// counts alike.
//
// IRC 36B(b), (c)(1), (d)(3); Form 8962 lines 1 to 11.
func (c *computation) form8962(income money.Amount) premiumCase {
	const year = 12
	m, r := c.h.Marketplace, &c.y.PremiumCredit
	p := premiumCase{Income: income, PovertyLine: r.PovertyLine.Of(m.Place, c.taxFamily())}
	p.Percent = income.Times(100).Steps(p.PovertyLine)
	p.Share = r.Applicable.Share(p.Percent)
	p.Contribution = income.At(p.Share).ToDollar()
	if p.Barred = c.noPremiumCredit(p); p.Barred != "" {
		return p
	}
	contributed := p.Contribution
	if months := m.CoveredMonths(); months < year {
		p.Contribution = p.Contribution.DividedBy(year).ToDollar()
		contributed = p.Contribution.Times(months)
	}
	p.Credit = money.Min(m.Premiums, m.Benchmark.Sub(contributed).OrZero())
	return p
}

// noPremiumCredit is the code of the reason why nobody on the return has the
// credit; empty where somebody may. Below the poverty line an advance paid on an
// estimate that was higher keeps the credit. The line above which there is no
// credit is compared to the cent.
//
// IRC 36B(c)(1)(A), income; (c)(1)(C), separate returns; (c)(1)(D), those whom
// another can claim; Reg. 1.36B-2(b)(6), income that came out lower.
func (c *computation) noPremiumCredit(p premiumCase) string {
	r := &c.y.PremiumCredit.Income
	switch {
	case claimable(&c.h):
		return "premium_credit_claimed"
	case c.separate():
		return "premium_credit_separate"
	case p.Percent < r.FromPercent && !c.h.Marketplace.Advance.IsPositive():
		return "premium_credit_low_income"
	case r.UpToPercent > 0 && p.Income.Times(100).More(p.PovertyLine.Times(r.UpToPercent)):
		return "premium_credit_high_income"
	}
	return ""
}

// traceForm8962 writes down the credit, and why there is none.
func (c *computation) traceForm8962(p premiumCase) {
	switch p.Barred {
	case "premium_credit_claimed":
		c.note("premium_credit_claimed")
	case "premium_credit_separate":
		c.note("premium_credit_separate")
	case "premium_credit_low_income":
		c.note("premium_credit_low_income", "poverty", p.PovertyLine)
	case "premium_credit_high_income":
		percent := c.y.PremiumCredit.Income.UpToPercent
		c.note("premium_credit_high_income", "most", p.PovertyLine.Times(percent).DividedBy(100), "percent", percent)
	}
	if c.s == nil {
		return
	}
	m, r := c.h.Marketplace, &c.y.PremiumCredit
	parts := c.householdIncomeParts()
	_, how := c.sum(parts...)
	c.s.Add(worksheet.Line{
		ID:     "tax.premium_credit.household_income",
		Form:   "Form 8962 line 3",
		Amount: p.Income,
		How:    how,
		From:   c.from(parts...),
		Source: "IRC 36B(d)(2)",
	})
	c.s.Add(worksheet.Line{
		ID:     "tax.premium_credit.contribution",
		Form:   "Form 8962 line 8",
		Amount: p.Contribution,
		How:    c.how("premium_share", "income", p.Income, "share", p.Share, "percent", p.Percent, "poverty", p.PovertyLine),
		From:   []string{"tax.premium_credit.household_income", "health_marketplace.place"},
		Source: c.cite("IRC 36B(b)(3)(A)", r.Applicable.Citation, r.PovertyLine.Citation),
	})
	how = c.how("none")
	if p.Barred == "" {
		how = c.how("premium", "premiums", m.Premiums, "benchmark", m.Benchmark, "months", m.CoveredMonths())
	}
	c.s.Add(worksheet.Line{
		ID:     "tax.premium_credit",
		Form:   "Form 8962 line 24",
		Amount: p.Credit,
		How:    how,
		From:   []string{"health_marketplace.premiums", "health_marketplace.benchmark", "tax.premium_credit.contribution"},
		Source: c.cite("IRC 36B(b)(2)", r.Income.Citation),
	})
}

// netPremiumCredit is what the credit has more than the advance.
//
// IRC 36B(f)(1); Schedule 3 line 9.
func (c *computation) netPremiumCredit(p premiumCase) {
	c.credits.premium = p.Credit.Sub(c.h.Marketplace.Advance)
	if c.credits.premium.IsZero() {
		return
	}
	c.s.Add(worksheet.Line{
		ID:     "tax.net_premium_credit",
		Form:   "Schedule 3 line 9",
		Amount: c.credits.premium,
		How:    c.how("net_premium", "credit", p.Credit, "advance", c.h.Marketplace.Advance),
		From:   []string{"tax.premium_credit", "health_marketplace.advance"},
		Source: "IRC 36B(f)(1)",
	})
}

// repayAdvance is what the advance had more than the credit, within the cap for
// the percentage of the poverty line and the filing status.
//
// IRC 36B(f)(2); Instructions for Form 8962, Table 5; Schedule 2 line 1a.
func (c *computation) repayAdvance(p premiumCase) {
	advance := c.h.Marketplace.Advance
	excess := advance.Sub(p.Credit)
	l := worksheet.Line{
		ID:     "tax.excess_advance",
		Form:   "Schedule 2 line 1a",
		Amount: excess,
		How:    c.how("excess_advance", "advance", advance, "credit", p.Credit),
		From:   []string{"health_marketplace.advance", "tax.premium_credit"},
		Source: "IRC 36B(f)(2)",
	}
	most, capped := c.y.PremiumCredit.CapBelow(p.Percent, c.Status)
	if c.settled.done {
		most, capped = c.settled.cap, c.settled.capped
	}
	if capped && excess.More(most) {
		l.Amount = most
		l.How = c.how("capped_advance", "advance", advance, "credit", p.Credit, "excess", excess, "most", most)
		l.Source = c.cite("IRC 36B(f)(2)(B)", c.y.PremiumCredit.Repayment.Citation)
	}
	c.ExcessAdvance = c.s.Add(l)
	c.note("premium_advance_repaid", "excess", c.ExcessAdvance)
}
