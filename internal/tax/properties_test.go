package tax

import (
	"reflect"
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/sample"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
	"example.com/plumbline/taxtables"

	"pgregory.net/rapid"
)

// jobPay is the year of a job that pays wages, with the payroll taxes on them.
func jobPay(y *tables.Year, job int, e household.Earner, wages money.Amount) household.YearPay {
	based := money.Min(wages, y.SocialSecurityTax.WageBase.Amount)
	over := wages.Sub(y.AdditionalMedicare.WithheldOver).OrZero()
	return household.YearPay{
		Job: job, Earner: e, TaxableWages: wages, SocialSecurityWages: based, MedicareWages: wages,
		SocialSecurityTax: based.At(y.SocialSecurityTax.Rate), MedicareTax: wages.At(y.SocialSecurityTax.MedicareRate),
		AdditionalMedicareTax: over.At(y.AdditionalMedicare.Rate),
	}
}

// hundredths are drawn from evenly, which a range of numbers is not.
var hundredths = func() []int {
	all := make([]int, 101)
	for i := range all {
		all[i] = i
	}
	return all
}()

// drawn is an amount up to a most; half of the time none.
func drawn(t *rapid.T, label string, most int) money.Amount {
	if rapid.Bool().Draw(t, label+" none") {
		return money.Zero
	}
	share := rapid.SampledFrom(hundredths).Draw(t, label)
	return money.Dollars(int64(most)).Times(share).DividedBy(100)
}

// drawnHousehold is a household of any kind, and the wages of its other jobs.
func drawnHousehold(t *rapid.T, y *tables.Year) (household.Household, []household.YearPay) {
	flag := func(label string) bool { return rapid.SampledFrom(hundredths).Draw(t, label) < 10 }
	amount := func(label string, most int) money.Amount { return drawn(t, label, most) }
	person := func(label string) household.Person {
		p := household.Person{Blind: flag(label + " blind"), CanBeClaimed: flag(label + " claimed"), FullTimeStudent: flag(label + " student")}
		p.BirthDate = household.On(y.Year-16-rapid.SampledFrom(hundredths).Draw(t, label+" age")*64/100, 6, 15)
		return p
	}
	h := household.Household{
		TaxYear: y.Year, Status: rapid.SampledFrom(household.Statuses()).Draw(t, "status"),
		LivedApart: flag("lived apart"), Self: person("self"),
	}
	if h.Joint() || h.Status == household.MarriedFilingSeparately {
		spouse := person("spouse")
		h.Spouse = &spouse
	}
	for range rapid.IntRange(0, 4).Draw(t, "dependents") {
		months := rapid.IntRange(0, 12).Draw(t, "months")
		h.Dependents = append(h.Dependents, household.Dependent{
			BirthDate:     household.On(y.Year-rapid.SampledFrom(hundredths).Draw(t, "age")*30/100, 5, 5),
			Relationship:  rapid.SampledFrom([]household.Relationship{household.Child, household.Sibling, household.Parent, household.HouseholdMember}).Draw(t, "relationship"),
			MonthsWithYou: &months, FullTimeStudent: flag("student"), Disabled: flag("disabled"),
			GrossIncome: amount("gross income", 9000), CareExpenses: amount("care", 9000),
		})
	}
	h.Jobs = []household.Job{{QualifiedTips: amount("tips", 20000), QualifiedOvertime: amount("overtime", 15000)}, {Earner: household.OfSpouse}}
	gain := func(label string) money.Amount { return amount(label, 60000).Sub(amount(label+" lost", 20000)) }
	h.Income = household.Income{
		Interest: amount("interest", 14000), OrdinaryDividends: amount("dividends", 9000), ShortTermGain: gain("short"), LongTermGain: gain("long"),
		SelfEmployment: household.ByEarner{Self: gain("business"), Spouse: gain("spouse's business")},
		Unemployment:   amount("unemployment", 9000), Retirement: amount("retirement", 30000), SocialSecurity: amount("benefits", 30000),
	}
	h.Income.QualifiedDividends = h.Income.OrdinaryDividends.DividedBy(2)
	h.Adjustments = household.Adjustments{StudentLoanInterest: amount("loan", 4000), IRADeduction: amount("ira", 5000)}
	h.Deductions = household.Deductions{
		StateLocalTaxes: amount("state", 60000), MortgageInterest: amount("mortgage", 30000), Medical: amount("medical", 20000),
		CharityCash: amount("gifts", 20000), CarLoanInterest: amount("car", 5000),
	}
	h.Credits = household.Credits{
		RetirementSaving:   household.ByEarner{Self: amount("saved", 3000)},
		OtherNonrefundable: amount("nonrefundable", 2000), OtherRefundable: amount("refundable", 2000),
	}
	if flag("studies") {
		h.Credits.Education = []household.Student{{Kind: rapid.SampledFrom([]household.EducationCredit{household.AmericanOpportunity, household.LifetimeLearning}).Draw(t, "credit"), Expenses: amount("tuition", 9000)}}
	}
	return h, []household.YearPay{jobPay(y, 1, household.OfSpouse, amount("spouse's wages", 150000))}
}

// drawnWages are wages of every size, a good part of them near where credits
// begin and end.
func drawnWages(t *rapid.T) money.Amount {
	most := rapid.SampledFrom([]int64{30_000, 90_000, 250_000, 900_000}).Draw(t, "most")
	share := rapid.SampledFrom(hundredths).Draw(t, "share")
	more := rapid.Int64Range(0, most).Draw(t, "cents more")
	return money.Dollars(most).Times(share).DividedBy(100).Add(money.Cents(more))
}

// cliff is a place where the law lets a result jump.
type cliff struct {
	name    string
	rare    bool // comes with no threshold of the table, only with a coincidence
	crossed func(h household.Household, y *tables.Year, a, b Return) bool
}

// steps is a cliff at each step begun above a start; full counts only full
// steps.
func steps(full bool, a, b, from, step money.Amount) bool {
	count := func(income money.Amount) int {
		if full {
			return income.Sub(from).OrZero().Steps(step)
		}
		return income.Sub(from).OrZero().StepsBegun(step)
	}
	return count(a) != count(b)
}

func between(a, edge, b money.Amount) bool { return a.More(edge) != b.More(edge) }

// cliffs are all places where a dollar more of wages may change the tax by more
// than the dollar is worth.
var cliffs = []cliff{
	{"IRC 24(b)(1): 50 dollars for a thousand begun", false, func(_ household.Household, y *tables.Year, a, b Return) bool {
		p := y.ChildCredit.PhaseOut
		return steps(false, a.AdjustedGrossIncome, b.AdjustedGrossIncome, p.From.Of(a.Status), p.Step)
	}},
	{"IRC 21(a)(2): a point of the dependent care credit", false, func(_ household.Household, y *tables.Year, a, b Return) bool {
		d := y.DependentCare
		return steps(false, a.AdjustedGrossIncome, b.AdjustedGrossIncome, d.FirstFrom, d.FirstStep) ||
			d.Second != nil && steps(false, a.AdjustedGrossIncome, b.AdjustedGrossIncome, d.Second.From.Of(a.Status), d.Second.Step.Of(a.Status))
	}},
	{"IRC 25B(b): the tiers of the saver's credit", false, func(_ household.Household, y *tables.Year, a, b Return) bool {
		for _, tier := range y.Savers.Tiers {
			if between(a.AdjustedGrossIncome, tier.UpTo.Of(a.Status), b.AdjustedGrossIncome) {
				return true
			}
		}
		return false
	}},
	{"IRC 224(b)(2), 225(b)(2): full thousands of tips and overtime", false, func(_ household.Household, y *tables.Year, a, b Return) bool {
		return steps(true, a.AdjustedGrossIncome, b.AdjustedGrossIncome, y.Tips.PhaseOut.From.Of(a.Status), y.Tips.PhaseOut.Step) ||
			steps(true, a.AdjustedGrossIncome, b.AdjustedGrossIncome, y.Overtime.PhaseOut.From.Of(a.Status), y.Overtime.PhaseOut.Step)
	}},
	{"IRC 163(h)(4)(C)(ii): thousands begun of car loan interest", false, func(_ household.Household, y *tables.Year, a, b Return) bool {
		return steps(false, a.AdjustedGrossIncome, b.AdjustedGrossIncome, y.CarLoan.PhaseOut.From.Of(a.Status), y.CarLoan.PhaseOut.Step)
	}},
	{"no qualified business income deduction above IRC 199A(e)(2)'s threshold, which is not computed", false, func(_ household.Household, y *tables.Year, a, b Return) bool {
		return between(a.TaxableIncome.Add(a.BusinessDeduction), y.BusinessIncome.Threshold.Of(a.Status), b.TaxableIncome.Add(b.BusinessDeduction))
	}},
	{"IRC 199A(i): the least deduction from 1,000 of business income", true, func(_ household.Household, y *tables.Year, a, b Return) bool {
		least := y.BusinessIncome.Least
		return !least.IsZero() && (a.BusinessDeduction.Less(least) != b.BusinessDeduction.Less(least))
	}},
	{"IRC 56(b)(1): itemizing or not changes what the minimum tax adds back", true, func(_ household.Household, _ *tables.Year, a, b Return) bool {
		return a.Itemized != b.Itemized
	}},
}

// jump is how a dollar more of wages changes the tax less refundable credits,
// and the cliffs that it crosses.
func jump(h household.Household, y *tables.Year, a, b Return) (change money.Amount, crossed []string) {
	for _, c := range cliffs {
		if c.crossed(h, y, a, b) {
			crossed = append(crossed, c.name)
		}
	}
	return b.TotalTax.Sub(b.RefundableCredits).Sub(a.TotalTax.Sub(a.RefundableCredits)), crossed
}

// Rates add up: of tax, of four phase-outs, and 1.85 for one of wages where
// benefits are being taxed. Two dollars for one bound their sum.
var rateBound = money.Dollars(2)

// A dollar more of wages, from any wages and in any household, changes the tax
// less refundable credits by no more than rates can, but at the cliffs.
func TestTaxIsContinuous(t *testing.T) {
	years := []*tables.Year{lawOf(t, 2025), lawOf(t, 2026)}
	rapid.Check(t, func(t *rapid.T) {
		y := rapid.SampledFrom(years).Draw(t, "year")
		h, others := drawnHousehold(t, y)
		wages := drawnWages(t)
		at := func(wages money.Amount) Return {
			return Compute(h, append([]household.YearPay{jobPay(y, 0, household.OfSelf, wages)}, others...), y, BySchedule, nil)
		}
		a, b := at(wages), at(wages.Add(money.Dollars(1)))
		if change, crossed := jump(h, y, a, b); len(crossed) == 0 && change.Abs().More(rateBound) {
			t.Fatalf("a dollar more than %v of wages changes the tax by %v:\n%+v\n%+v", wages, change, a, b)
		}
	})
}

// The same where adjusted gross income or taxable income passes a threshold of
// the table, or one step from it. Each cliff is met there, so that none is on the
// list for nothing.
func TestTaxIsContinuousAtThresholds(t *testing.T) {
	met := map[string]bool{}
	half := money.Cents(50)
	for _, year := range sample.Years() {
		y := lawOf(t, year)
		for _, status := range household.Statuses() {
			for _, h := range []household.Household{family(y, status), investor(y, status)} {
				at := func(wages money.Amount) Return {
					return Compute(h, []household.YearPay{jobPay(y, 0, household.OfSelf, wages), jobPay(y, 1, household.OfSpouse, usd("8000"))}, y, BySchedule, nil)
				}
				for _, edge := range thresholds(y) {
					for _, income := range []func(Return) money.Amount{
						func(r Return) money.Amount { return r.AdjustedGrossIncome },
						func(r Return) money.Amount { return r.TaxableIncome.Add(r.BusinessDeduction) },
					} {
						wages := edge
						for range 3 { // deductions move a little with wages
							wages = wages.Add(edge).Sub(income(at(wages)))
						}
						wages = wages.Sub(half)
						if wages.IsNegative() {
							continue
						}
						a, b := at(wages), at(wages.Add(half).Add(half))
						change, crossed := jump(h, y, a, b)
						large := change.Abs().More(rateBound)
						if large && len(crossed) == 0 {
							t.Errorf("%d, %v: a dollar more than %v of wages changes the tax by %v:\n%+v\n%+v", year, status, wages, change, a, b)
						}
						for _, name := range crossed {
							met[name] = met[name] || large
						}
					}
				}
			}
		}
	}
	for _, c := range cliffs {
		if !met[c.name] && !c.rare {
			t.Errorf("nothing jumps at %q", c.name)
		}
	}
}

// thresholds are all amounts of the yearly table that an income can reach.
func thresholds(y *tables.Year) []money.Amount {
	seen := map[string]bool{}
	var all []money.Amount
	for _, f := range y.Figures() {
		a, err := money.Parse(f.Value)
		if err != nil || seen[f.Value] || a.Less(usd("5000")) || a.More(usd("800000")) || f.Group == "payroll" || f.Group == "form_w4" {
			continue
		}
		seen[f.Value] = true
		all = append(all, a)
	}
	return all
}

// family is a household of children, care, tips, overtime, a car loan, study
// and saving.
func family(y *tables.Year, status household.Status) household.Household {
	dependents := children(2)
	dependents[0].CareExpenses = usd("6000")
	return household.Household{
		TaxYear: y.Year, Status: status, Dependents: dependents,
		Jobs:       []household.Job{{QualifiedTips: usd("4000"), QualifiedOvertime: usd("3000")}, {Earner: household.OfSpouse}},
		Deductions: household.Deductions{CarLoanInterest: usd("2500")},
		Credits: household.Credits{
			Education:        []household.Student{{Expenses: usd("4000")}},
			RetirementSaving: household.ByEarner{Self: usd("2000")},
		},
	}
}

// investor is a household of business, gains, benefits and itemized deductions.
func investor(y *tables.Year, status household.Status) household.Household {
	return household.Household{
		TaxYear: y.Year, Status: status,
		Income: household.Income{
			Interest: usd("2000"), OrdinaryDividends: usd("3000"), QualifiedDividends: usd("2500"), LongTermGain: usd("9000"),
			SelfEmployment: household.ByEarner{Self: usd("20000")}, SocialSecurity: usd("18000"),
		},
		Deductions: household.Deductions{StateLocalTaxes: usd("30000"), MortgageInterest: usd("12000"), CharityCash: usd("3000")},
	}
}

// Investment income has one cliff more: the limit of the earned income credit.
//
// IRC 32(i).
func TestInvestmentIncomeCliff(t *testing.T) {
	y := lawOf(t, 2026)
	h := household.Household{Dependents: children(2)}
	pay := []household.YearPay{jobPay(y, 0, household.OfSelf, usd("9000"))}
	at := func(interest money.Amount) Return {
		h.Income.Interest = interest
		return Compute(h, pay, y, BySchedule, nil)
	}
	limit := y.EarnedIncome.InvestmentLimit
	// 40% × 9,000, whole at the limit
	want(t, "at the limit", at(limit).EarnedIncomeCredit, "3600")
	want(t, "a dollar above", at(limit.Add(money.Dollars(1))).EarnedIncomeCredit, "0")
}

// More wages never lower the tax before credits, by either method.
func TestMoreWagesMoreTaxBeforeCredits(t *testing.T) {
	years := []*tables.Year{lawOf(t, 2025), lawOf(t, 2026)}
	rapid.Check(t, func(t *rapid.T) {
		y := rapid.SampledFrom(years).Draw(t, "year")
		h, others := drawnHousehold(t, y)
		// Wages lower the social security part of self-employment tax, and so
		// the deduction for half of it: not the rule that is tested here.
		h.Income.SelfEmployment = household.ByEarner{}
		m := rapid.SampledFrom([]Method{ByReturn, BySchedule}).Draw(t, "method")
		wages, more := drawnWages(t), drawnWages(t)
		at := func(wages money.Amount) Return {
			return Compute(h, append([]household.YearPay{jobPay(y, 0, household.OfSelf, wages)}, others...), y, m, nil)
		}
		a, b := at(wages), at(wages.Add(more))
		before := func(r Return) money.Amount { return r.IncomeTax.Add(r.AlternativeMinimumTax) }
		if before(b).Less(before(a)) {
			t.Fatalf("%v more than %v of wages lower the tax before credits from %v to %v", more, wages, before(a), before(b))
		}
	})
}

// No credit makes the total tax negative, and none is larger than the tax it
// meets; what is written down changes nothing.
func TestCreditsStopAtTheTax(t *testing.T) {
	years := []*tables.Year{lawOf(t, 2025), lawOf(t, 2026)}
	rapid.Check(t, func(t *rapid.T) {
		y := rapid.SampledFrom(years).Draw(t, "year")
		h, others := drawnHousehold(t, y)
		m := rapid.SampledFrom([]Method{ByReturn, BySchedule}).Draw(t, "method")
		pay := append([]household.YearPay{jobPay(y, 0, household.OfSelf, drawnWages(t))}, others...)
		r := Compute(h, pay, y, m, nil)
		others2 := money.Sum(r.SelfEmploymentTax, r.AdditionalMedicareTax, r.NetInvestmentTax)
		switch {
		case r.TotalTax.Less(others2) || r.TotalTax.IsNegative():
			t.Fatalf("total tax %v is less than the taxes that no credit meets, %v", r.TotalTax, others2)
		case r.NonrefundableCredits.More(r.IncomeTax.Add(r.AlternativeMinimumTax)):
			t.Fatalf("credits of %v meet a tax of %v", r.NonrefundableCredits, r.IncomeTax.Add(r.AlternativeMinimumTax))
		case r.ChildTaxCredit.More(r.NonrefundableCredits), r.ChildTaxCredit.IsNegative():
			t.Fatalf("child tax credit %v of %v", r.ChildTaxCredit, r.NonrefundableCredits)
		case r.RefundableCredits.Less(r.EarnedIncomeCredit.Add(r.AdditionalChildTaxCredit)), r.EarnedIncomeCredit.IsNegative(), r.AdditionalChildTaxCredit.IsNegative():
			t.Fatalf("refundable credits %+v", r)
		}
		if traced := Compute(h, pay, y, m, new(worksheet.Sheet)); !reflect.DeepEqual(amounts(traced), amounts(r)) {
			t.Fatalf("with a sheet %+v\nwithout %+v", traced, r)
		}
	})
}

// amounts are a return's amounts as text.
func amounts(r Return) []string {
	var all []string
	v := reflect.ValueOf(r)
	for i := range v.NumField() {
		if a, ok := v.Field(i).Interface().(money.Amount); ok {
			all = append(all, v.Type().Field(i).Name+" "+a.Text())
		}
	}
	return all
}

// Every status reads its own column: with all other columns of the table empty
// the return is the same.
func TestOwnColumn(t *testing.T) {
	for _, year := range sample.Years() {
		for _, status := range household.Statuses() {
			whole := lawOf(t, year)
			own, err := tables.Load(taxtables.Files, year) // not the one that all tests share
			if err != nil {
				t.Fatal(err)
			}
			if n := emptyOthers(reflect.ValueOf(own).Elem(), status.String()); n < 30 {
				t.Fatalf("only %d figures by status found", n)
			}
			for _, wages := range []string{"9000", "28000", "86000", "160000", "410000", "900000"} {
				h := busyHousehold()
				h.Status, h.LivedApart = status, true
				h.Self.CanBeClaimed = false
				h.Dependents = children(2)
				h.Dependents[0].CareExpenses = usd("5000")
				h.Credits = household.Credits{
					Education:        []household.Student{{Expenses: usd("4000")}},
					RetirementSaving: household.ByEarner{Self: usd("1000")},
				}
				pay := []household.YearPay{jobPay(whole, 0, household.OfSelf, usd(wages)), jobPay(whole, 2, household.OfSpouse, usd("12000"))}
				a, b := amounts(Compute(h, pay, whole, BySchedule, nil)), amounts(Compute(h, pay, own, BySchedule, nil))
				if !reflect.DeepEqual(a, b) {
					t.Errorf("%d, %v, %s: the table\n%v\nits own column\n%v", year, status, wages, a, b)
				}
			}
		}
	}
}

// emptyOthers empties the columns of every status but one, and counts the
// figures by status that it found.
func emptyOthers(v reflect.Value, own string) int {
	found := 0
	switch v.Kind() {
	case reflect.Pointer:
		if !v.IsNil() && v.CanSet() {
			found += emptyOthers(v.Elem(), own)
		}
	case reflect.Slice:
		for i := range v.Len() {
			found += emptyOthers(v.Index(i), own)
		}
	case reflect.Struct:
		byStatus := strings.HasPrefix(v.Type().Name(), "ByStatus[")
		if byStatus {
			found++
		}
		for i := range v.NumField() {
			f := v.Field(i)
			tag, _, _ := strings.Cut(v.Type().Field(i).Tag.Get("yaml"), ",")
			switch {
			case !f.CanSet():
			case byStatus && tag != own:
				f.SetZero()
			case !byStatus:
				found += emptyOthers(f, own)
			}
		}
	}
	return found
}

// benchmarkHousehold is a joint return with something of most things.
func benchmarkHousehold() household.Household {
	h := busyHousehold()
	h.TaxYear = 2026
	h.Self.CanBeClaimed = false
	h.Dependents = append(children(3), household.Dependent{Relationship: household.Parent, BirthDate: household.On(1940, 1, 1)})
	h.Dependents[0].CareExpenses = usd("5000")
	h.Credits = household.Credits{
		Education:        []household.Student{{Expenses: usd("4000")}},
		RetirementSaving: household.ByEarner{Self: usd("1000")}, OtherNonrefundable: usd("100"), OtherRefundable: usd("50"),
	}
	return h
}

// BenchmarkCompute is one full return: at most 150 µs.
func BenchmarkCompute(b *testing.B) {
	y := lawOf(b, 2026)
	h, pay := benchmarkHousehold(), busyPay()
	for _, bench := range []struct {
		name  string
		sheet func() *worksheet.Sheet
	}{{"traced", func() *worksheet.Sheet { return new(worksheet.Sheet) }}, {"untraced", func() *worksheet.Sheet { return nil }}} {
		b.Run(bench.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				Compute(h, pay, y, ByReturn, bench.sheet())
			}
		})
	}
}

// Every line of a return names its section, shows its arithmetic, is there once,
// and came from answers and from lines that are on the sheet.
func TestEveryLineIsTraced(t *testing.T) {
	years := []*tables.Year{lawOf(t, 2025), lawOf(t, 2026)}
	rapid.Check(t, func(t *rapid.T) {
		y := rapid.SampledFrom(years).Draw(t, "year")
		h, pay := drawnHousehold(t, y)
		pay = append([]household.YearPay{jobPay(y, 0, household.OfSelf, drawnWages(t))}, pay...)
		m := rapid.SampledFrom([]Method{ByReturn, BySchedule}).Draw(t, "method")
		sheet := new(worksheet.Sheet)
		Compute(h, pay, y, m, sheet)
		recorded := map[string]bool{}
		for _, l := range sheet.Lines {
			if recorded[l.ID] {
				t.Errorf("%s is recorded twice", l.ID)
			}
			recorded[l.ID] = true
		}
		for _, l := range sheet.Lines {
			if l.Source == "" || strings.HasPrefix(l.Said(words.English()), "[") || l.How.String() == "" || strings.Contains(l.How.String(), "%!") {
				t.Errorf("%s lacks its source, label or arithmetic: %+v, %q", l.ID, l, l.How)
			}
			for _, id := range l.From {
				if strings.HasPrefix(id, "tax.") && !recorded[id] {
					t.Errorf("%s came from %s, which is not recorded", l.ID, id)
				}
			}
		}
		for _, id := range []string{"tax.income_tax", "tax.total_tax"} {
			if !recorded[id] {
				t.Errorf("%s is not recorded", id)
			}
		}
	})
}
