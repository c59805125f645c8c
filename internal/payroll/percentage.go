package payroll

import (
	"sort"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// lines1A are the lines of Worksheet 1A by their numbers; lines that a
// certificate does not use stay zero. Lines 2h, 3b and 3c, yearly amounts divided
// by the pay periods, are written on the sheet only: line 4b takes them in one
// division, so that nothing is lost to rounding.
type lines1A struct {
	l1a, l1c           money.Amount
	l1e, l1g, l1h, l1i money.Amount // certificates of 2020 or later
	l1k, l1l           money.Amount // certificates of before 2020
	l2a, l2b, l2c, l2e money.Amount
	l2d                money.Rate
	l2f, l2g, l3a, l4b money.Amount
}

// percentage is the percentage method for automated payroll systems: pay is
// put on a yearly basis, taxed by the annual table, and the tax divided by the
// pay periods. Worksheet 1B, for pensions, has the same lines.
//
// Publication 15-T, section 1, Worksheets 1A and 1B.
func (w *paper) percentage() money.Amount {
	var l lines1A
	l.l1a = w.wages()
	l.l1c = l.l1a.Times(w.periods)
	if w.old() {
		l.l1k = w.y.Payroll.Allowance.Times(w.c.Allowances)
		l.l1l = l.l1c.Sub(l.l1k).OrZero()
		l.l2a = l.l1l
	} else {
		if !w.box() {
			l.l1g = w.y.Payroll.Line1g.Of(w.c.Status)
		}
		l.l1e = l.l1c.Add(w.c.OtherIncome)
		l.l1h = w.c.Deductions.Add(l.l1g)
		l.l1i = l.l1e.Sub(l.l1h).OrZero()
		l.l2a = l.l1i
		l.l3a = w.c.Credits
	}
	row := w.row(l.l2a)
	l.l2b, l.l2c, l.l2d = row.AtLeast, row.Tentative, row.Rate
	l.l2e = l.l2a.Sub(l.l2b)
	l.l2f = l.l2e.At(l.l2d)
	l.l2g = l.l2c.Add(l.l2f)
	afterCredits := l.l2g.Sub(l.l3a).OrZero() // of a year
	l.l4b = w.o.perPaycheck(afterCredits.Add(w.c.Extra.Times(w.periods)), w.periods)
	if w.s != nil {
		w.write(l)
	}
	return l.l4b
}

// row is the row of the annual table that holds an adjusted annual wage.
func (w *paper) row(annual money.Amount) tables.PercentageRow {
	rows := w.y.Percentage(w.status(), w.box())
	next := sort.Search(len(rows), func(i int) bool { return rows[i].AtLeast.More(annual) })
	return rows[max(next-1, 0)]
}

// write puts Worksheet 1A, or 1B for a pension, on the sheet.
func (w *paper) write(l lines1A) {
	using := worksheet.Using
	w.form = w.automated()
	w.writePay("pay", l.l1a)
	w.line("1c", "yearly_pay", l.l1c, using("%v × %d", l.l1a, w.periods), "payroll.1a", "payroll.1b")
	if w.old() {
		w.writeOld(l)
	} else {
		w.writeCurrent(l)
	}
	table := "at_least"
	if w.box() {
		table = "at_least_box"
	}
	w.line("2b", table, l.l2b, worksheet.How{}, "payroll.2a")
	w.line("2c", "tentative", l.l2c, worksheet.How{}, "payroll.2a")
	w.lineOf(worksheet.Percent, "2d", "percentage", money.Dollars(100).At(l.l2d), worksheet.How{}, []string{"payroll.2a"})
	w.line("2e", "excess", l.l2e, using("%v − %v", l.l2a, l.l2b), "payroll.2a", "payroll.2b")
	w.line("2f", "tax_on_excess", l.l2f, using("%v × %v", l.l2e, l.l2d), "payroll.2e", "payroll.2d")
	w.line("2g", "yearly_tax", l.l2g, using("%v + %v", l.l2c, l.l2f), "payroll.2c", "payroll.2f")
	w.line("2h", "tentative_withholding", l.l2g.DividedBy(w.periods), using("%v ÷ %d", l.l2g, w.periods), "payroll.2g", "payroll.1b")
	left := l.l2g.Sub(l.l3a).OrZero().DividedBy(w.periods) // line 3c
	w.writeCredits(l.l2g, l.l3a, left, "payroll.2h")
	w.writeExtra(left, l.l4b)
}

// writePay writes the paycheck's wages and the number of pay periods.
func (w *paper) writePay(label string, wages money.Amount) {
	var how worksheet.How
	if !wages.Equal(w.p.Wages) {
		how = worksheet.Worded(words.T("how.nonresident", "wages", w.p.Wages, "added", wages.Sub(w.p.Wages)))
	}
	w.line("1a", label, wages, how, "taxable_pay")
	w.count("1b", "periods", w.periods, "pay_frequency")
}

func (w *paper) writeCurrent(l lines1A) {
	using := worksheet.Using
	w.line("1d", "other_income", w.c.OtherIncome, worksheet.How{}, "certificate.other_income")
	w.line("1e", "pay_and_other", l.l1e, using("%v + %v", l.l1c, w.c.OtherIncome), "payroll.1c", "payroll.1d")
	w.line("1f", "deductions", w.c.Deductions, worksheet.How{}, "certificate.deductions")
	box := worksheet.Worded(words.T("how.box_checked"))
	if !w.box() {
		box = worksheet.Worded(words.T("how.for_status", "status", w.c.Status.String()))
	}
	w.line("1g", "left_out", l.l1g, box, "certificate.filing_status", "certificate.multiple_jobs")
	w.line("1h", "come_off", l.l1h, using("%v + %v", w.c.Deductions, l.l1g), "payroll.1f", "payroll.1g")
	w.line("1i", "adjusted_annual", l.l1i, worksheet.Worded(words.T("how.not_below_zero", "income", l.l1e, "less", l.l1h)), "payroll.1e", "payroll.1h")
	w.line("2a", "adjusted_annual", l.l2a, worksheet.How{}, "payroll.1i")
}

func (w *paper) writeOld(l lines1A) {
	using := worksheet.Using
	w.count("1j", "allowances", w.c.Allowances, "certificate.allowances")
	w.line("1k", "for_allowances", l.l1k, using("%d × %v", w.c.Allowances, w.y.Payroll.Allowance), "payroll.1j")
	w.line("1l", "adjusted_annual", l.l1l, worksheet.Worded(words.T("how.not_below_zero", "income", l.l1c, "less", l.l1k)), "payroll.1c", "payroll.1k")
	w.line("2a", "adjusted_annual", l.l2a, worksheet.How{}, "payroll.1l")
}

// writeCredits writes Step 3: yearly tax and credits, and what is left a
// paycheck.
func (w *paper) writeCredits(tax, credits, left money.Amount, tentative string) {
	using := worksheet.Using
	var how worksheet.How
	if w.old() {
		how = worksheet.Worded(words.T("how.none_before_2020"))
	}
	w.line("3a", "credits", credits, how, "certificate.credits")
	w.line("3b", "credits_paycheck", credits.DividedBy(w.periods), using("%v ÷ %d", credits, w.periods), "payroll.3a", "payroll.1b")
	w.line("3c", "after_credits", left, worksheet.Worded(words.T("how.after_credits", "tax", tax, "credits", credits, "periods", w.periods)), tentative, "payroll.3b")
}

// writeExtra writes Step 4.
func (w *paper) writeExtra(left, withheld money.Amount) {
	label := "extra"
	if w.old() {
		label = "extra_old"
	}
	to := "cent"
	if w.o.WholeDollars {
		to = "dollar"
	}
	w.line("4a", label, w.c.Extra, worksheet.How{}, "certificate.extra")
	w.line("4b", "withheld", withheld, worksheet.Worded(words.T("how.rounded", "left", left, "extra", w.c.Extra, "to", to)), "payroll.3c", "payroll.4a")
}
