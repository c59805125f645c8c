package certificate

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// deductions is Step 4(b) from the form's Deductions Worksheet: five lines
// until 2025, the long worksheet from 2026.
func (f *formFiller) deductions() {
	if x := f.y.Extended; x != nil {
		f.L4b = f.longWorksheet(x)
	} else {
		f.L4b = f.shortWorksheet()
	}
	f.line("4b", "Step 4(b)", f.L4b, worksheet.How{}, "deductions")
}

// dw puts a line of the Deductions Worksheet on the sheet.
func (f *formFiller) dw(line string, amount money.Amount, how worksheet.How, from ...string) money.Amount {
	return f.line("dw."+line, "Deductions Worksheet line "+line, amount, how, from...)
}

// shortDW puts a line of the worksheet of 2025 and before on the sheet, whose
// numbers mean other amounts.
func (f *formFiller) shortDW(line string, amount money.Amount, how worksheet.How, from ...string) money.Amount {
	return f.named(words.T("line.form.short_dw."+line), "dw."+line, "Deductions Worksheet line "+line, amount, how, from...)
}

// shortWorksheet is the worksheet of Form W-4 (2025) and before: itemized
// deductions above the standard deduction, and adjustments.
//
// Form W-4 (2025), Step 4(b), Deductions Worksheet, lines 1 to 5.
func (f *formFiller) shortWorksheet() money.Amount {
	d, status := f.pr.h.Deductions, f.pr.h.Status
	medical, localTax := f.medical(), money.Min(d.StateLocalTaxes, f.y.StateLocalCap.Of(status)).ToDollar()
	mortgage := f.pr.ret.MortgageInterest.Add(d.MortgageInsurance).ToDollar()
	gifts, other := d.CharityCash.Add(d.CharityOther).ToDollar(), f.otherItemized()
	l1 := f.shortDW("1", money.Sum(medical, localTax, mortgage, gifts, other),
		f.how("form_itemized", "medical", medical, "taxes", localTax, "mortgage", mortgage, "gifts", gifts, "other", other), "deductions")
	l2 := f.shortDW("2", f.y.StandardDeduction.Of(status), worksheet.How{}, "filing_status")
	l3 := f.shortDW("3", l1.Sub(l2).OrZero(), f.how("not_below_zero", "income", l1, "less", l2), "form.dw.1", "form.dw.2")
	l4 := f.shortDW("4", f.pr.ret.Adjustments.ToDollar(), worksheet.How{}, "tax.adjustments")
	return f.shortDW("5", l3.Add(l4), worksheet.Using("%v + %v", l3, l4), "form.dw.3", "form.dw.4")
}

// otherItemized is the other itemized deductions with gambling losses, within
// the limits of the law: the worksheet leaves them to its reader.
func (f *formFiller) otherItemized() money.Amount {
	return f.pr.h.Deductions.OtherItemized.Add(f.pr.ret.GamblingLosses).ToDollar()
}

// medical is the worksheet's medical expenses above its share of total income.
func (f *formFiller) medical() money.Amount {
	return f.pr.h.Deductions.Medical.Sub(f.pr.ret.TotalIncome.At(f.y.MedicalFloor)).OrZero().ToDollar()
}

// longWorksheet is the worksheet of Form W-4 (2026). Its tests of total income
// are all or nothing, standing in for the law's phase-outs.
//
// Form W-4 (2026), Step 4(b), Deductions Worksheet, lines 1a to 15.
func (f *formFiller) longWorksheet(x *tables.ExtendedDeductions) money.Amount {
	l2 := f.workAndCar(x)
	l4 := f.seniors(x)
	l5 := f.dw("5", f.pr.ret.Adjustments.ToDollar(), worksheet.How{}, "tax.adjustments")
	l7 := f.itemized(x)
	l14 := f.aboveStandard(x, l4, l7)
	return f.dw("15", money.Sum(l2, l4, l5, l14),
		worksheet.Using("%v + %v + %v + %v", l2, l4, l5, l14), "form.dw.2", "form.dw.4", "form.dw.5", "form.dw.14")
}

// below is the amount where total income is below a limit, else nothing.
func (f *formFiller) below(limit tables.Amounts, amount money.Amount) money.Amount {
	if f.pr.ret.TotalIncome.Less(limit.Of(f.pr.h.Status)) {
		return amount.ToDollar()
	}
	return money.Zero
}

// workAndCar is lines 1a to 2.
func (f *formFiller) workAndCar(x *tables.ExtendedDeductions) money.Amount {
	h, status := f.pr.h, f.pr.h.Status
	tips, overtime := money.Zero, money.Zero
	for _, i := range h.CountedJobs() {
		tips = tips.Add(h.Jobs[i].QualifiedTips)
		overtime = overtime.Add(h.Jobs[i].QualifiedOvertime)
	}
	capped := func(line string, limit, most tables.Amounts, amount money.Amount, from string) money.Amount {
		return f.dw(line, f.below(limit, money.Min(amount, most.Of(status))),
			f.how("capped_below", "most", most.Of(status), "income", limit.Of(status)), from, "tax.total_income")
	}
	l1a := capped("1a", x.TipsIncomeBelow, x.TipsCap, tips, "jobs.qualified_tips")
	l1b := capped("1b", x.OvertimeIncomeBelow, x.OvertimeCap, overtime, "jobs.qualified_overtime")
	l1c := capped("1c", x.CarLoanIncomeBelow, x.CarLoanCap, h.Deductions.CarLoanInterest, "deductions.car_loan_interest")
	return f.dw("2", money.Sum(l1a, l1b, l1c),
		worksheet.Using("%v + %v + %v", l1a, l1b, l1c), "form.dw.1a", "form.dw.1b", "form.dw.1c")
}

// seniors is lines 3a to 4.
func (f *formFiller) seniors(x *tables.ExtendedDeductions) money.Amount {
	h := f.pr.h
	each := func(p household.Person) money.Amount {
		if p.BirthDate.IsZero() || p.BirthDate.BirthdayAge(h.TaxYear) < x.SeniorFrom || !p.HasSSN() {
			return money.Zero
		}
		return f.below(x.SeniorIncomeBelow, x.SeniorEach)
	}
	spouse := money.Zero
	if h.Joint() && h.Spouse != nil {
		spouse = each(*h.Spouse)
	}
	how := f.how("form_senior", "each", x.SeniorEach, "age", x.SeniorFrom, "income", x.SeniorIncomeBelow.Of(h.Status))
	l3a := f.dw("3a", each(h.Self), how, "self.birth_date", "tax.total_income")
	l3b := f.dw("3b", spouse, how, "spouse.birth_date", "tax.total_income")
	return f.dw("4", l3a.Add(l3b), worksheet.Using("%v + %v", l3a, l3b), "form.dw.3a", "form.dw.3b")
}

// itemized is lines 6a to 7.
func (f *formFiller) itemized(x *tables.ExtendedDeductions) money.Amount {
	d, status, income := f.pr.h.Deductions, f.pr.h.Status, f.pr.ret.TotalIncome
	localCap := f.y.StateLocalCap.Of(status)
	l6a := f.dw("6a", f.medical(), f.how("less_share", "amount", d.Medical, "share", f.y.MedicalFloor), "deductions.medical", "tax.total_income")
	l6b := f.dw("6b", f.below(x.StateLocalBelow, money.Min(d.StateLocalTaxes, localCap)),
		f.how("capped_below", "most", localCap, "income", x.StateLocalBelow.Of(status)), "deductions.state_local_taxes", "tax.total_income")
	l6c := f.dw("6c", f.pr.ret.MortgageInterest.Add(d.MortgageInsurance).ToDollar(), worksheet.How{}, "deductions.mortgage_interest", "deductions.mortgage_insurance")
	gifts := d.CharityCash.Add(d.CharityOther)
	l6d := f.dw("6d", gifts.Sub(income.At(x.GiftFloor)).OrZero().ToDollar(),
		f.how("less_share", "amount", gifts, "share", x.GiftFloor), "deductions.charity_cash", "deductions.charity_other", "tax.total_income")
	l6e := f.dw("6e", f.otherItemized(), worksheet.How{}, "deductions.other_itemized")
	return f.dw("7", money.Sum(l6a, l6b, l6c, l6d, l6e),
		worksheet.Using("%v + %v + %v + %v + %v", l6a, l6b, l6c, l6d, l6e), "form.dw.6a", "form.dw.6b", "form.dw.6c", "form.dw.6d", "form.dw.6e")
}

// aboveStandard is lines 8a to 14: what itemizing adds to the standard
// deduction, or the gifts that need no itemizing.
func (f *formFiller) aboveStandard(x *tables.ExtendedDeductions, l4, l7 money.Amount) money.Amount {
	status := f.pr.h.Status
	l8a := f.dw("8a", f.pr.ret.TotalIncome.ToDollar(), worksheet.How{}, "tax.total_income")
	l8b, l10 := money.Zero, money.Zero
	if l4.More(l8a) {
		f.dw("8b", l8b, f.how("senior_above_income"), "form.dw.8a", "form.dw.4")
	} else {
		l8b = f.dw("8b", l8a.Sub(l4), worksheet.Using("%v − %v", l8a, l4), "form.dw.8a", "form.dw.4")
		l9 := f.dw("9", x.LimitOver.Of(status), worksheet.How{}, "filing_status")
		l10 = l7
		if !l9.More(l8b) {
			l10 = l7.At(x.LimitShare).ToDollar()
		}
	}
	f.dw("10", l10, f.how("form_limit", "itemized", l7, "share", x.LimitShare), "form.dw.7", "form.dw.8b", "form.dw.9")
	l11 := f.dw("11", f.y.StandardDeduction.Of(status), worksheet.How{}, "filing_status")
	most := x.GiftCap.Of(status)
	l12 := f.dw("12", money.Min(f.pr.h.Deductions.CharityCash, most).ToDollar(), f.how("capped", "most", most), "deductions.charity_cash")
	l13 := f.dw("13", l11.Add(l12), worksheet.Using("%v + %v", l11, l12), "form.dw.11", "form.dw.12")
	l14, how := l12, f.how("gifts_alone")
	if l10.More(l13) {
		l14, how = l10.Sub(l11), worksheet.Using("%v − %v", l10, l11)
	}
	return f.dw("14", l14, how, "form.dw.10", "form.dw.11", "form.dw.12", "form.dw.13")
}
