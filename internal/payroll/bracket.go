package payroll

import (
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// wageBracket is the wage bracket method: the tax is read from a table by the
// row in which the wages fall. The printed tables hold, rounded to the dollar,
// the percentage method's tax on the middle of each row, so they are figured
// here the same way. Not ok above the wages where the tables end: there the
// percentage method is used.
//
// Publication 15-T, section 2, Worksheet 2 (certificates of 2020 or later), and
// section 3, Worksheet 3 (before 2020; the line numbers are from memory). The
// table for allowances is printed up to ten; our reading of more is the same
// construction.
func (w *paper) wageBracket() (withheld money.Amount, ok bool) {
	wages := w.wages()
	adjusted := wages
	if !w.old() {
		adjusted = wages.Add(w.c.OtherIncome.Sub(w.c.Deductions).DividedBy(w.periods)).OrZero()
	}
	bracket := w.y.Payroll.WageBracket
	middle, ok := bracket.Rows.Of(w.p.Frequency).Middle(adjusted)
	if !ok || adjusted.Times(w.periods).More(bracket.UpTo) {
		w.s.Say(words.T("note.bracket.beyond"))
		return money.Zero, false
	}
	tentative := w.yearlyTax(middle.Times(w.periods)).DividedBy(w.periods).ToDollar()
	credits := money.Zero
	if !w.old() {
		credits = w.c.Credits
	}
	left := tentative.Sub(credits.DividedBy(w.periods)).OrZero()
	withheld = w.o.rounded(left.Add(w.c.Extra))
	if w.s != nil {
		w.writeBracket(wages, adjusted, tentative, credits, left, withheld)
	}
	return withheld, true
}

// yearlyTax is the tax of the table on wages put on a yearly basis, before
// credits, with nothing on the certificate but the status, the box and the
// allowances.
func (w *paper) yearlyTax(annual money.Amount) money.Amount {
	switch {
	case w.old():
		annual = annual.Sub(w.y.Payroll.Allowance.Times(w.c.Allowances))
	case !w.box():
		annual = annual.Sub(w.y.Payroll.Line1g.Of(w.c.Status))
	}
	annual = annual.OrZero()
	row := w.row(annual)
	return row.Tentative.Add(annual.Sub(row.AtLeast).At(row.Rate))
}

// writeBracket puts Worksheet 2 on the sheet, or 3 for a certificate of before
// 2020, which has no lines between the wages and the table but the allowances.
func (w *paper) writeBracket(wages, adjusted, tentative, credits, left, withheld money.Amount) {
	using := worksheet.Using
	w.form = "Worksheet 2"
	if w.old() {
		w.form = "Worksheet 3"
	}
	w.writePay("pay", wages)
	looked := "payroll.1a"
	if w.old() {
		w.count("1j", "allowances", w.c.Allowances, "certificate.allowances")
	} else {
		w.line("1c", "other_income", w.c.OtherIncome, worksheet.How{}, "certificate.other_income")
		w.line("1d", "other_income_paycheck", w.c.OtherIncome.DividedBy(w.periods), using("%v ÷ %d", w.c.OtherIncome, w.periods), "payroll.1c", "payroll.1b")
		w.line("1e", "pay_and_other", wages.Add(w.c.OtherIncome.DividedBy(w.periods)), worksheet.How{}, "payroll.1a", "payroll.1d")
		w.line("1f", "deductions", w.c.Deductions, worksheet.How{}, "certificate.deductions")
		w.line("1g", "deductions_paycheck", w.c.Deductions.DividedBy(w.periods), using("%v ÷ %d", w.c.Deductions, w.periods), "payroll.1f", "payroll.1b")
		w.line("1h", "adjusted", adjusted, worksheet.How{}, "payroll.1e", "payroll.1g")
		looked = "payroll.1h"
	}
	from, to, _ := w.y.Payroll.WageBracket.Rows.Of(w.p.Frequency).Row(adjusted)
	w.line("2a", "from_bracket", tentative, worksheet.Worded(words.T("how.bracket_row", "from", from, "to", to)), looked)
	w.writeCredits(tentative.Times(w.periods), credits, left, "payroll.2a")
	w.writeExtra(left, withheld)
}
