package tax

import "example.com/plumbline/internal/money"

// incomeParts are the lines of total income. Amounts are dollars for the year.
type incomeParts struct {
	Wages              money.Amount // Form 1040 line 1z
	Interest           money.Amount // taxable; line 2b
	OrdinaryDividends  money.Amount // line 3b
	QualifiedDividends money.Amount // line 3a, within OrdinaryDividends
	Pensions           money.Amount // taxable; lines 4b and 5b
	Benefits           money.Amount // social security benefits before any tax, line 6a
	TaxableBenefits    money.Amount // line 6b
	CapitalGain        money.Amount // line 7: the year's net gain, or the loss as far as it may be deducted (negative)
	NetCapitalGain     money.Amount // IRC 1222(11): net long-term gain over net short-term loss; no dividends; never negative
	SelfEmployment     money.Amount // net profit of all earners; may be negative
	Unemployment       money.Amount
	Other              money.Amount // may be negative
}

// Preferred is the income that the rates for capital gains may reach: net
// capital gain and qualified dividends (IRC 1(h)(11)).
func (p incomeParts) Preferred() money.Amount { return p.NetCapitalGain.Add(p.QualifiedDividends) }

// workParts are one earner's wages and self-employment. Amounts are dollars
// for the year.
type workParts struct {
	Wages               money.Amount // box 1 of the earner's jobs, no pensions
	SocialSecurityWages money.Amount // box 3 of the earner's jobs, as each employer counts them
	MedicareWages       money.Amount // box 5
	SelfEmploymentNet   money.Amount // net profit; may be negative
	NetEarnings         money.Amount // IRC 1402(a); zero where below the least that is taxed
	SelfEmploymentTax   money.Amount // Schedule SE line 12
	HalfDeduction       money.Amount // Schedule SE line 13
	EarnedIncome        money.Amount // wages and net profit, less HalfDeduction; may be negative
}

// totalIncome adds up the year's income.
func (c *computation) totalIncome() {}
