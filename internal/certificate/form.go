package certificate

import (
	"sort"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// formEntries is what the form asks for, on paper: the entries that its steps and
// worksheets give. Amounts are whole dollars a year, Extra a paycheck.
type formEntries struct {
	Children, Others int          // Step 3, who is counted
	L3a, L3b         money.Amount // Step 3(a) and (b)
	OtherCredits     money.Amount // added in Step 3
	L3               money.Amount // Step 3
	L4a              money.Amount // Step 4(a)
	L4b              money.Amount // Step 4(b), from its worksheet
	Extra            money.Amount // Step 4(c), from the Step 2(b) worksheet
}

// fillForm does what the form asks for, step by step, each line on the sheet,
// which may be nil. From then on the projection knows the credits that certificates
// may claim.
func (pr *projection) fillForm(s *worksheet.Sheet) formEntries {
	f := formFiller{pr: pr, y: &pr.y.Form, s: s}
	f.multipleJobs()
	f.credits()
	f.otherIncome()
	f.deductions()
	pr.credits = f.L3
	return f.formEntries
}

// formFiller is the form being filled in.
type formFiller struct {
	formEntries
	pr *projection
	y  *tables.Form
	s  *worksheet.Sheet
}

// line puts a line of the form on the sheet. A rounded amount is what a person
// writes: the form is in whole dollars.
func (f *formFiller) line(id, official string, amount money.Amount, how worksheet.How, from ...string) money.Amount {
	return f.named(words.Text{}, id, official, amount, how, from...)
}

// named is line with a name of its own in place of that of the ID.
func (f *formFiller) named(name words.Text, id, official string, amount money.Amount, how worksheet.How, from ...string) money.Amount {
	if f.s == nil {
		return amount
	}
	return f.s.Add(worksheet.Line{
		ID: "form." + id, Form: "Form W-4 " + official, Name: name, Amount: amount,
		How: how, From: from, Source: f.y.Source,
	})
}

// how is arithmetic that needs words, by its code in the section how; nothing
// where no trace is kept.
func (f *formFiller) how(code string, namesAndValues ...any) worksheet.How {
	if f.s == nil {
		return worksheet.How{}
	}
	return worksheet.Worded(words.T("how."+code, namesAndValues...))
}

// leaveOut writes down what the form's worksheets leave out.
func (f *formFiller) leaveOut(code string, t words.Text) {
	if f.s != nil {
		f.s.Record(worksheet.Note{Code: code, Text: t})
	}
}

// credits is Step 3: the children under 17, the other dependents and the other
// credits that come off the tax, where total income is not above the step's
// limit. The other credits are the nonrefundable ones that the return shows.
//
// Form W-4, Step 3.
func (f *formFiller) credits() {
	for _, d := range tax.Standings(f.pr.h, f.pr.y) {
		switch {
		case d.ChildCredit:
			f.Children++
		case d.OtherCredit:
			f.Others++
		}
	}
	r, limit := f.pr.ret, f.y.Step3Up.Of(f.pr.h.Status)
	f.OtherCredits = r.NonrefundableCredits.Sub(r.ChildTaxCredit).OrZero().ToDollar()
	if r.TotalIncome.More(limit) && (f.Children+f.Others > 0 || f.OtherCredits.IsPositive()) {
		f.leaveOut("form.step3_income", words.T("certificate.note.step3_income", "income", r.TotalIncome, "limit", limit))
		f.Children, f.Others, f.OtherCredits = 0, 0, money.Zero
	}
	f.L3a = f.y.PerChild.Times(f.Children)
	f.L3b = f.y.PerOther.Times(f.Others)
	f.line("3a", "Step 3(a)", f.L3a, worksheet.Using("%d × %v", f.Children, f.y.PerChild), "dependents")
	f.line("3b", "Step 3(b)", f.L3b, worksheet.Using("%d × %v", f.Others, f.y.PerOther), "dependents")
	f.L3 = f.line("3", "Step 3", money.Sum(f.L3a, f.L3b, f.OtherCredits),
		f.how("form_credits", "children", f.L3a, "others", f.L3b, "credits", f.OtherCredits), "form.3a", "form.3b", "tax.nonrefundable_credits")
}

// otherIncome is Step 4(a): total income that is neither a job's pay nor
// self-employment, such as interest, dividends and retirement income. A net
// loss leaves the line empty.
//
// Form W-4, Step 4(a).
func (f *formFiller) otherIncome() {
	jobs, business := money.Zero, money.Zero
	for _, p := range f.pr.pay {
		jobs = jobs.Add(p.TaxableWages)
	}
	for _, e := range f.pr.h.Earners() {
		business = business.Add(f.pr.h.Income.SelfEmployment.Of(e))
	}
	total := f.pr.ret.TotalIncome
	f.L4a = f.line("4a", "Step 4(a)", total.Sub(jobs).Sub(business).OrZero().ToDollar(),
		f.how("form_other_income", "total", total, "jobs", jobs, "business", business), "tax.total_income")
	if business.IsPositive() {
		f.leaveOut("form.self_employment", words.T("certificate.note.self_employment"))
	}
}

// multipleJobs is the Step 2(b) worksheet: what the tables lack when several
// jobs are each withheld from as if it were the only one, a paycheck of the
// highest-paying job. With more than three jobs, or more than one above the
// worksheet's limit, the form sends to Publication 505; the worksheet is then
// filled for the three best-paid jobs all the same.
//
// Form W-4, Step 2(b), Multiple Jobs Worksheet, lines 1 to 4.
func (f *formFiller) multipleJobs() {
	jobs := f.pr.payers
	if len(jobs) < 2 {
		return
	}
	f.cautionJobs()
	m := f.y.MultipleJobs.Table(f.pr.status())
	first, second := jobs[0].annual.ToDollar(), jobs[1].annual.ToDollar()
	var year money.Amount
	from := "form.mj.1"
	if len(jobs) == 2 {
		year = f.line("mj.1", "Multiple Jobs Worksheet line 1", cell(m, first, second),
			f.how("two_pays", "higher", first, "lower", second), "jobs")
	} else {
		both, third := first.Add(second), jobs[2].annual.ToDollar()
		l2a := f.line("mj.2a", "Multiple Jobs Worksheet line 2a", cell(m, first, second),
			f.how("two_pays", "higher", first, "lower", second), "jobs")
		l2b := f.line("mj.2b", "Multiple Jobs Worksheet line 2b", cell(m, both, third),
			f.how("two_pays", "higher", both, "lower", third), "jobs")
		year = f.line("mj.2c", "Multiple Jobs Worksheet line 2c", l2a.Add(l2b),
			worksheet.Using("%v + %v", l2a, l2b), "form.mj.2a", "form.mj.2b")
		from = "form.mj.2c"
	}
	n := jobs[0].periods
	f.line("mj.3", "Multiple Jobs Worksheet line 3", money.Dollars(int64(n)), worksheet.How{}, "jobs.pay_frequency")
	f.Extra = f.line("mj.4", "Multiple Jobs Worksheet line 4", year.DividedBy(n).ToDollar(),
		f.how("per_paycheck", "year", year, "paychecks", n), from, "form.mj.3")
}

// cautionJobs notes where the worksheet sends the person elsewhere, and where
// a pension is in it in place of a job.
func (f *formFiller) cautionJobs() {
	above, pension := 0, false
	for _, j := range f.pr.payers {
		if j.annual.More(f.y.MultipleJobs.PayOver) {
			above++
		}
		pension = pension || j.pension()
	}
	if len(f.pr.payers) > 3 || above > 1 {
		f.leaveOut("form.publication_505", words.T("certificate.note.publication_505", "pay", f.y.MultipleJobs.PayOver))
	}
	if pension {
		f.leaveOut("form.pension_as_job", words.T("certificate.note.pension_as_job"))
	}
}

// cell is the amount of a printed Multiple Jobs table, dollars a year: the last
// row that begins at or below the higher pay, the last column that begins at or
// below the lower.
func cell(t *tables.MultipleJobsTable, higher, lower money.Amount) money.Amount {
	row := sort.Search(len(t.Rows), func(i int) bool { return t.Rows[i].From.More(higher) }) - 1
	column := sort.Search(len(t.Lower), func(i int) bool { return t.Lower[i].More(lower) }) - 1
	return t.Rows[max(row, 0)].Cells[max(column, 0)]
}
