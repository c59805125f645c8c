package certificate

import (
	"slices"
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/worksheet"
)

// advised is the verdict on a household of 2026, with a job for every line.
func advised(t *testing.T, asOf, status, jobs, more string) Result {
	t.Helper()
	return solvedText(t, "format: 1\ntax_year: 2026\nas_of: "+asOf+"\nfiling_status: "+status+"\njobs:\n"+jobs+more)
}

// Households that were once told to do what no adviser would.
func TestWhatAnAdviserWouldSay(t *testing.T) {
	for _, tt := range []struct {
		about, asOf, status, jobs, more string
		code                            string
		forms                           int
		pays                            bool
		by                              household.Date
	}{
		{
			"the box on both, almost even", "2026-06-15", "married_filing_jointly", `
  - {name: Mill, pay_frequency: biweekly, taxable_pay: 2600, first_payday: 2026-01-09, year_to_date: {payday: 2026-06-12, taxable_pay: 31200, federal_tax: 2798.76}, certificate: {filing_status: married_filing_jointly, multiple_jobs: true}}
  - {name: Shop, earner: spouse, pay_frequency: biweekly, taxable_pay: 2600, first_payday: 2026-01-09, year_to_date: {payday: 2026-06-12, taxable_pay: 31200, federal_tax: 2798.76}, certificate: {filing_status: married_filing_jointly, multiple_jobs: true}}
`, "", ChangeNothing, 0, false, household.Date{},
		},
		{
			"a couple with single on file, late November", "2026-11-23", "married_filing_jointly", `
  - {name: Mill, pay_frequency: biweekly, taxable_pay: 2600, first_payday: 2026-01-09, year_to_date: {payday: 2026-11-13, taxable_pay: 59800, federal_tax: 5247}, certificate: {filing_status: single}}
  - {name: Shop, earner: spouse, pay_frequency: biweekly, taxable_pay: 2300, first_payday: 2026-01-09, year_to_date: {payday: 2026-11-13, taxable_pay: 52900, federal_tax: 4419}, certificate: {filing_status: single}}
`, "", ChangeNothing, 0, false, household.Date{},
		},
		{
			"an old allowance certificate that is near enough", "2026-10-05", "single", `
  - {name: Mill, pay_frequency: biweekly, taxable_pay: 2000, first_payday: 2026-01-09, year_to_date: {payday: 2026-09-18, taxable_pay: 38000, federal_tax: 2966.85}, certificate: {edition: before_2020, marital: single, allowances: 2}}
`, "", ChangeNothing, 0, false, household.Date{},
		},
		{
			"3,100 missing in December: January's form and a payment", "2026-12-01", "single", `
  - {name: Mill, pay_frequency: biweekly, taxable_pay: 2600, first_payday: 2026-01-09, year_to_date: {payday: 2026-11-27, taxable_pay: 62400, federal_tax: 2800}, certificate: {filing_status: single, deductions: 36000}}
`, "", JanuaryOnly, 0, true, household.On(2027, 1, 15),
		},
		{
			"the same with credits that there are not: the law asks for the form now, and it serves January", "2026-12-01", "single", `
  - {name: Mill, pay_frequency: biweekly, taxable_pay: 2600, first_payday: 2026-01-09, year_to_date: {payday: 2026-11-27, taxable_pay: 62400, federal_tax: 2800}, certificate: {filing_status: single, credits: 4400}}
`, "", NewCertificate, 1, true, household.On(2027, 1, 15),
		},
		{
			"a large gain, safe by last year's tax: nothing is due before April", "2026-06-15", "married_filing_jointly", `
  - {name: Lab, pay_frequency: biweekly, taxable_pay: 5200, first_payday: 2026-01-09, year_to_date: {payday: 2026-06-12, taxable_pay: 62400, federal_tax: 7800}, certificate: {filing_status: married_filing_jointly}}
`, "income: {long_term_gain: 180000}\nlast_year: {total_tax: 16000, adjusted_gross_income: 130000}\n", NewCertificate, 1, true, household.On(2027, 4, 15),
		},
		{
			"a student without tax last year and this", "2026-05-30", "single", `
  - {name: Beach, pay_frequency: biweekly, taxable_pay: 2000, first_payday: 2026-06-12, last_payday: 2026-08-21}
`, "last_year: {total_tax: 0, adjusted_gross_income: 3000}\n", ClaimExempt, 1, false, household.Date{},
		},
	} {
		t.Run(tt.about, func(t *testing.T) {
			r := advised(t, tt.asOf, tt.status, tt.jobs, tt.more)
			v := r.Verdict
			if v.Code != tt.code || v.Forms != tt.forms || v.PayDirectly.Amount.IsPositive() != tt.pays || v.PayDirectly.By != tt.by {
				t.Errorf("advised %s with %d forms, to pay %v by %v; want %s with %d by %v", v.Code, v.Forms, v.PayDirectly.Amount, v.PayDirectly.By, tt.code, tt.forms, tt.by)
			}
			if len(v.Sentences) == 0 {
				t.Error("nothing is said")
			}
		})
	}
}

// What happens once is not in January's year; what comes by the month is there
// twelve times; and what the answers say of next year overrules both.
func TestJanuaryIsAnotherYear(t *testing.T) {
	const job = `
  - {name: Mill, pay_frequency: monthly, taxable_pay: 3000, first_payday: 2026-01-30, one_time_pay: [{payday: 2026-12-11, amount: 2000}], certificate: {filing_status: single}}
`
	const once = "income: {long_term_gain: 180000, unemployment: 8400, retirement: 5000, interest: 300, self_employment: {self: -4000}, social_security_monthly: {amount: 2100, first_month: 10}}\nspouse: {disabled: true, care_monthly: {amount: 150, first_month: 11}}\ndependents: [{name: a, birth_date: 2018-02-02, care_expenses: 1500}]\n"
	r := advised(t, "2026-10-15", "single", job, once)
	h, left := nextYear(r.Household, r.Return)
	in := h.Income
	if !in.LongTermGain.IsZero() || !in.Unemployment.IsZero() || !in.Retirement.IsZero() || !in.SelfEmployment.Self.IsZero() || !in.Interest.Equal(dollars(300)) {
		t.Errorf("next year has %+v", in)
	}
	if got := h.Benefits(); !got.Equal(dollars(25_200)) { // 12 × 2,100, of which 6,300 were paid this year
		t.Errorf("benefits of %v", got)
	}
	if got := h.Spouse.Care(); !got.Equal(dollars(1800)) || !r.Household.Spouse.Care().Equal(dollars(300)) { // 12 × 150, of which two this year
		t.Errorf("care of the spouse for %v", got)
	}
	if !h.Dependents[0].Care(h.TaxYear).IsZero() || len(h.Jobs[0].OneTimePay) > 0 || len(left) < 6 {
		t.Errorf("care %v, bonuses %v, left out %v", h.Dependents[0].Care(h.TaxYear), h.Jobs[0].OneTimePay, left)
	}
	r = advised(t, "2026-10-15", "single", job, once+"next_year: {income: {unemployment: 1200, interest: 0}}\n")
	if h, _ = nextYear(r.Household, r.Return); !h.Income.Unemployment.Equal(dollars(1200)) || !h.Income.Interest.IsZero() {
		t.Errorf("next year has %+v", h.Income)
	}
}

// A doubt is at its entry, with the safe one beside it.
func TestDoubtsAreAtTheirEntry(t *testing.T) {
	const job = "  - {name: Mill, pay_frequency: weekly, taxable_pay: 900, first_payday: 2026-02-20}\n"
	entry := func(r Result) []string {
		var all []string
		for _, d := range r.Doubts {
			all = append(all, d.Entry)
		}
		return all
	}
	if got := entry(advised(t, "2026-02-10", "head_of_household", job, "")); !slices.Equal(got, []string{"1c"}) {
		t.Errorf("head of household with nobody named: doubts at %v", got)
	}
	// IRC 152(e) leaves a parent who lets the other claim the child head of household.
	if got := entry(advised(t, "2026-02-10", "head_of_household", job, "dependents: [{name: a, birth_date: 2018-02-02, counts_as: none}]\n")); len(got) > 0 {
		t.Errorf("a parent who released the claim: doubts at %v", got)
	}
	baby := advised(t, "2026-06-15", "married_filing_jointly", "  - {name: Mill, pay_frequency: biweekly, taxable_pay: 3000, first_payday: 2026-01-09, year_to_date: {payday: 2026-06-12, taxable_pay: 36000, federal_tax: 2200}, certificate: {filing_status: married_filing_jointly}}\n", "dependents: [{name: baby, birth_date: 2026-12-20}]\n")
	if got := entry(baby); !slices.Equal(got, []string{"3a"}) {
		t.Errorf("a child due in December: doubts at %v", got)
	}
	// Step 4(c) alone, for a year whose tax counts the child: the doubt is there.
	extra := advised(t, "2026-08-20", "married_filing_jointly", "  - {name: Mill, pay_frequency: biweekly, taxable_pay: 2700, first_payday: 2026-01-09, year_to_date: {payday: 2026-08-07, taxable_pay: 43200, federal_tax: 2500}, certificate: {filing_status: married_filing_jointly}}\n  - {name: School, earner: spouse, pay_frequency: monthly, taxable_pay: 4200, first_payday: 2026-01-30, year_to_date: {payday: 2026-07-31, taxable_pay: 29400, federal_tax: 1350}, certificate: {filing_status: married_filing_jointly}}\n", "dependents: [{name: baby, birth_date: 2026-11-25}]\n")
	if got := entry(extra); !slices.Equal(got, []string{"4c"}) || extra.Doubts[0].Safe.Code != "certificate.safe.owe_more" {
		t.Errorf("a child due in November, and no Step 3: doubts at %v", got)
	}
}

// A first payday that has passed is put aside, and irregular pay is averaged;
// both are said.
func TestWhatIsPutAsideIsSaid(t *testing.T) {
	r := advised(t, "2026-11-10", "single", "  - {name: Mill, pay_frequency: biweekly, taxable_pay: 2600, first_payday: 2026-01-09, year_to_date: {payday: 2026-10-30, taxable_pay: 57200, federal_tax: 4000}, certificate: {filing_status: single}}\n", "wish: {first_payday: 2026-07-10}\n")
	wantWarning(t, r, "first_payday_past")
	if c := r.Recommended.Certificates; len(c) > 0 && c[0].FirstPayday.Before(r.Household.AsOf) {
		t.Errorf("it counts from %v", c[0].FirstPayday)
	}
	r = advised(t, "2026-06-15", "single", "  - {name: Sales, pay_frequency: biweekly, taxable_pay: 3000, first_payday: 2026-01-09, year_to_date: {payday: 2026-06-12, taxable_pay: 69000, federal_tax: 11000}, certificate: {filing_status: single}}\n", "")
	wantWarning(t, r, "pay.irregular")
	if len(r.Irregular) != 1 || !r.Irregular[0].Average.Equal(dollars(5750)) { // 69,000 ÷ 12
		t.Errorf("irregular: %+v", r.Irregular)
	}
}

// A status that is taxed less than the true one must change within ten days
// where too little is withheld; one that is taxed more may stay.
//
// 26 CFR 31.3402(l)-1(b), (c); Publication 505 (2025), ch. 1, p. 3.
func TestTenDays(t *testing.T) {
	r := advised(t, "2026-06-15", "single", "  - {name: Mill, pay_frequency: biweekly, taxable_pay: 2500, first_payday: 2026-01-09, year_to_date: {payday: 2026-06-12, taxable_pay: 30000, federal_tax: 1560}, certificate: {filing_status: married_filing_jointly}}\n", "")
	if len(r.Duties) != 1 || r.Duties[0].Code != "status" || r.Duties[0].Days != 10 || r.Recommended.NothingToHandIn() {
		t.Errorf("duties %+v, advised %s", r.Duties, r.Recommended.Name)
	}
	r = advised(t, "2026-06-15", "married_filing_jointly", "  - {name: Mill, pay_frequency: biweekly, taxable_pay: 2500, first_payday: 2026-01-09, year_to_date: {payday: 2026-06-12, taxable_pay: 30000, federal_tax: 1560}, certificate: {filing_status: single}}\n", "")
	if len(r.Duties) > 0 {
		t.Errorf("duties %+v", r.Duties)
	}
}

// "Too much is already withheld" is said of a year in which that is so, and of no
// other: not before the first paycheck, and not where something is owed. Another
// method is named only where it leads to something better than the advice.
func TestTooMuchIsSaidOnlyWhereItIs(t *testing.T) {
	const job = "pay_frequency: biweekly, taxable_pay: 2600, first_payday: 2026-01-09"
	for _, tt := range []struct {
		about, text string
		said        bool
	}{
		{"nothing is withheld yet, a child's credit to come", strings.Replace(oneJob("2026-01-02", job), "jobs:", "dependents: [{name: a, birth_date: 2018-02-02}]\njobs:", 1), false},
		{"$256 will be owed", oneJob("2026-12-26", job+", year_to_date: {payday: 2026-12-24, taxable_pay: 67600, federal_tax: 5792}, certificate: {filing_status: single}"), false},
		{"the year is over but for its last days, 4,000 too much", oneJob("2026-12-26", job+", year_to_date: {payday: 2026-12-24, taxable_pay: 67600, federal_tax: 10000}, certificate: {filing_status: single}"), true},
	} {
		t.Run(tt.about, func(t *testing.T) {
			r := solvedText(t, tt.text)
			verdict := false
			for _, s := range r.Verdict.Sentences {
				verdict = verdict || s.Code == "certificate.verdict.already_withheld"
			}
			if warning := warned(r, "over_withheld") != ""; warning != tt.said || verdict && !tt.said {
				t.Errorf("said %v in the verdict, %v beside it; the year ends on %v", verdict, warning, r.Recommended.Balance)
			}
			for _, w := range r.OtherWays {
				if !w.Balance.Abs().Less(r.Recommended.Balance.Abs()) {
					t.Errorf("%s leads to %v, the advice to %v", w.Code, w.Balance, r.Recommended.Balance)
				}
			}
		})
	}
}

// Who may claim exemption is never told to bring down what is withheld with
// credits in Step 3: 1,500 every two weeks from October on are 10,500, less than
// the standard deduction of 16,100, and payroll withholds as if they came all year.
// Where last year had tax, or the student wants employers to learn nothing, the
// claim is not advised.
//
// IRC 3402(n).
func TestAStudentClaimsExemptionAndNoCredits(t *testing.T) {
	const text = "format: 1\ntax_year: 2026\nas_of: 2026-09-28\nfiling_status: single\nself: {birth_date: 2006-02-01}\njobs:\n  - {name: Plant, pay_frequency: biweekly, taxable_pay: 1500, first_payday: 2026-10-09}\n"
	r := solvedText(t, text+"last_year: {total_tax: 0, adjusted_gross_income: 3000}\n")
	if c := r.Recommended.Certificates[0].Certificate; r.Advised != PlanExempt || !c.Exempt || !c.Credits.IsZero() {
		t.Errorf("advised %s: %+v", r.Advised, c)
	}
	for _, more := range []string{"last_year: {total_tax: 40, adjusted_gross_income: 16500}\n", "last_year: {total_tax: 0, adjusted_gross_income: 3000}\nwish: {tell_employer: extra_only}\n"} {
		if r := solvedText(t, text+more); r.Advised == PlanExempt {
			t.Errorf("%s: advised to claim exemption", more)
		}
	}
}

// A plan that takes more than a quarter of the take-home pay says so, and no other
// does; the advice never is one.
func TestAPlanThatTakesTooMuchSaysSo(t *testing.T) {
	r := solvedText(t, "format: 1\ntax_year: 2026\nas_of: 2026-06-15\nfiling_status: single\njobs:\n  - {name: Lab, pay_frequency: biweekly, taxable_pay: 2600, first_payday: 2026-01-09, year_to_date: {payday: 2026-06-12, taxable_pay: 31200, federal_tax: 2788}, certificate: {filing_status: single}}\nincome: {long_term_gain: 60000}\n")
	some := false
	for _, p := range append([]Plan{r.Recommended}, r.Alternatives...) {
		for _, c := range p.Certificates {
			quarter := c.TakeHomeNow.Sub(c.TakeHome).More(c.TakeHomeNow.At(livableShare).Add(money.Cents(1)))
			if c.LittleLeft != quarter || quarter && p.Name == r.Advised {
				t.Errorf("%s: little left %v, %v of %v taken", p.Name, c.LittleLeft, c.TakeHomeNow.Sub(c.TakeHome), c.TakeHomeNow)
			}
			some = some || quarter
		}
	}
	if !some {
		t.Error("no plan takes too much: the test says nothing")
	}
}

// The pay for the year is just that of 24 ordinary paychecks where the calendar
// counts 12, by a date typed wrong: the ordinary pay stays, in the certificates and in
// the tax alone, and the figures are to be checked first. Wages are 50,400 + 15 × 2,100
// = 81,900.
func TestMiscountedPaydaysKeepTheOrdinaryPay(t *testing.T) {
	r := advised(t, "2026-11-27", "single", "  - {name: K, pay_frequency: biweekly, taxable_pay: 2100, first_payday: 2026-01-02, year_to_date: {payday: 2026-06-11, taxable_pay: 50400, federal_tax: 4032}, certificate: {filing_status: single}}\n", "")
	if len(r.Irregular) > 0 {
		t.Errorf("averaged: %+v", r.Irregular)
	}
	_, alone := AsFiled(r.Household, r.Tables, tax.ByReturn, nil)
	for _, ret := range []tax.Return{r.Return, alone} {
		if !ret.Wages.Equal(dollars(81900)) {
			t.Errorf("wages %v, want 81,900", ret.Wages)
		}
	}
	var codes []string
	for _, n := range r.CheckFirst {
		codes = append(codes, n.Code)
	}
	if want := []string{"stub", "stub"}; !slices.Equal(codes, want) {
		t.Errorf("to check first: %v, want %v", codes, want)
	}
}

// The tax alone goes by the ordinary pay that was given, and says so where the
// advice goes by the average: 69,000 + 14 × 3,000 = 111,000.
func TestAsFiledGoesByTheOrdinaryPay(t *testing.T) {
	r := advised(t, "2026-06-15", "single", "  - {name: Sales, pay_frequency: biweekly, taxable_pay: 3000, first_payday: 2026-01-09, year_to_date: {payday: 2026-06-12, taxable_pay: 69000, federal_tax: 11000}, certificate: {filing_status: single}}\n", "")
	h := r.Household
	h.Jobs = slices.Clone(h.Jobs)
	h.Jobs[0].TaxablePay = dollars(3000) // as it was given
	sheet := new(worksheet.Sheet)
	_, ret := AsFiled(h, r.Tables, tax.ByReturn, sheet)
	if !ret.Wages.Equal(dollars(111_000)) || r.Return.Wages.Equal(ret.Wages) {
		t.Errorf("wages %v, and %v by the average", ret.Wages, r.Return.Wages)
	}
	if !slices.ContainsFunc(sheet.Notes, func(n worksheet.Note) bool { return n.Code == "pay.by_ordinary" }) {
		t.Errorf("that the advice differs is not said: %v", sheet.Notes)
	}
}
