package payroll

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// Bonus is supplemental wages paid beside regular pay: a bonus, a commission,
// back pay.
type Bonus struct {
	Amount money.Amount
	// Treatment is the employer's choice. FlatRate is open only where income tax
	// was withheld from regular wages this year or last: the caller judges that.
	Treatment household.BonusTreatment
	// Earlier is the supplemental wages that the employer paid this year before.
	Earlier money.Amount
}

// OnBonus is the federal income tax withheld from supplemental wages, beside
// what Withholding takes from the paycheck p: the regular pay of the payroll
// period, with any other bonus of the period that was taxed with it.
//
// At the flat rate the entries of the certificate do not matter, but one who is
// exempt stays exempt. With the paycheck, the tax is that on pay and bonus
// together less that on the pay alone. Either way, what lies above a million of
// supplemental wages in the year is taxed at the highest rate, whatever the
// certificate says.
//
// Publication 15, section 7; Reg. 31.3402(g)-1.
func OnBonus(p Paycheck, b Bonus, c *household.Certificate, y *tables.Year, o Options, s *worksheet.Sheet) money.Amount {
	within, over := b.split(y)
	flat := func(amount money.Amount, r money.Rate, id string) money.Amount {
		tax := o.rounded(amount.At(r))
		if s != nil {
			s.Add(worksheet.Line{
				ID: id, Form: "Publication 15 section 7", Name: words.T("line."+id, "over", y.Payroll.Supplemental.HighOver), Amount: tax,
				How: worksheet.Using("%v × %v", amount, r), From: []string{"one_time_pay"}, Source: y.Payroll.Source,
			})
		}
		return tax
	}
	tax := money.Zero
	switch {
	case b.Treatment == household.FlatRate && p.Kind == household.Wages:
		if c == nil || !c.Exempt {
			tax = flat(within, y.Payroll.Supplemental.Rate, "payroll.bonus.flat")
		}
	case within.IsPositive():
		tax = together(p, within, c, y, o, s)
	}
	if over.IsPositive() {
		tax = tax.Add(flat(over, y.Payroll.Supplemental.HighRate, "payroll.bonus.high"))
	}
	return tax
}

// split parts a bonus at the yearly amount of supplemental wages above which
// the higher rate must be used.
func (b Bonus) split(y *tables.Year) (within, over money.Amount) {
	room := y.Payroll.Supplemental.HighOver.Sub(b.Earlier).OrZero()
	within = money.Min(b.Amount, room).OrZero()
	return within, b.Amount.Sub(within).OrZero()
}

// together is the aggregate method: the tax on pay and bonus as one paycheck,
// less the tax on the pay alone.
func together(p Paycheck, bonus money.Amount, c *household.Certificate, y *tables.Year, o Options, s *worksheet.Sheet) money.Amount {
	both := p
	both.Wages = p.Wages.Add(bonus)
	alone := Withholding(p, c, y, o, nil)
	total := Withholding(both, c, y, o, nil)
	tax := total.Sub(alone).OrZero()
	if s != nil {
		s.Add(worksheet.Line{
			ID: "payroll.bonus.together", Form: "Publication 15 section 7", Amount: tax,
			How: worksheet.Worded(words.T("how.supplemental", "both_tax", total, "both", both.Wages, "alone", alone, "wages", p.Wages)), From: []string{"one_time_pay", "taxable_pay"}, Source: y.Payroll.Source,
		})
	}
	return tax
}
