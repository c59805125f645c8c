package certificate

import (
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
)

// moved is a household's January, and the household that it was solved for.
func moved(t *testing.T, h household.Household, next *tables.Year) (*January, household.Household) {
	t.Helper()
	r, err := Solve(h, year(t, h.TaxYear), next)
	if err != nil {
		t.Fatal(err)
	}
	if r.January == nil {
		t.Fatal("no January")
	}
	n, _ := nextYear(h, r.Return)
	return r.January, n
}

// The certificates of January, replayed over the whole next year on their own,
// end it on the wish.
func TestJanuaryLandsNextYear(t *testing.T) {
	for _, name := range demos {
		t.Run(name, func(t *testing.T) {
			h := demo(t, name)
			j, next := moved(t, h, nil)
			standIn := *year(t, 2026)
			standIn.Year = 2027
			withheld := money.Zero
			for _, c := range j.Certificates {
				certificate := c.Certificate
				l := replay(next, c.Job, &certificate, c.FirstPayday, &standIn)
				withheld = withheld.Add(l.withheld)
				if all := next.Jobs[c.Job].Paydays(2027); c.FirstPayday != all[0] || l.paydays != len(all) || c.Paydays != len(all) {
					t.Errorf("%s counts from %v on %d paydays; the year has %d from %v", c.Name, c.FirstPayday, c.Paydays, len(all), all[0])
				}
			}
			if !withheld.Equal(j.WithholdingToCome) {
				t.Errorf("withholding %v, replayed %v", j.WithholdingToCome, withheld)
			}
			if !j.NearEnough {
				t.Errorf("next year ends on %v", j.Balance)
			}
			if j.TaxYear != 2027 || j.TablesYear != 2026 {
				t.Errorf("for %d by the tables of %d", j.TaxYear, j.TablesYear)
			}
		})
	}
}

// With next year's tables in hand they are used, and there is no warning.
func TestJanuaryUsesNextYearsTables(t *testing.T) {
	h := answers(t, "2025", `
format: 1
tax_year: 2025
as_of: 2025-06-02
filing_status: head_of_household
jobs:
  - {name: A, pay_frequency: biweekly, taxable_pay: 2500, first_payday: 2025-01-03}
dependents:
  - {birth_date: 2015-01-01}
`)
	r, err := Solve(h, year(t, 2025), year(t, 2026))
	if err != nil {
		t.Fatal(err)
	}
	if r.January.TaxYear != 2026 || r.January.TablesYear != 2026 {
		t.Errorf("for %d by the tables of %d", r.January.TaxYear, r.January.TablesYear)
	}
	// Form W-4 (2025) has 2,000 a child in Step 3(a), Form W-4 (2026) 2,200.
	if this, next := planOf(t, r, PlanForm).Certificates[0].Lines.L3a.Amount, r.January.Certificates[0].Lines.L3a.Amount; !this.Equal(dollars(2000)) || !next.Equal(dollars(2200)) {
		t.Errorf("Step 3(a) is %v this year and %v in January", this, next)
	}
	for _, w := range r.Warnings {
		if w.Code == "january_tables" {
			t.Error(w.Said(words.English()))
		}
	}
}

// What moves to January and what does not.
func TestNextYear(t *testing.T) {
	h := answers(t, "moving", `
format: 1
tax_year: 2026
as_of: 2026-08-03
filing_status: married_filing_jointly
spouse: {birth_date: 1990-01-01}
jobs:
  - name: ends
    pay_frequency: weekly
    taxable_pay: 900
    first_payday: 2026-01-02
    last_payday: 2026-10-30
  - name: goes on
    earner: spouse
    pay_frequency: biweekly
    taxable_pay: 2600
    first_payday: 2026-01-09
    year_to_date: {payday: 2026-07-24, taxable_pay: 39000, federal_tax: 3000}
    one_time_pay: [{payday: 2026-12-11, amount: 2000}]
  - name: not begun
    pay_frequency: monthly
    taxable_pay: 1500
    first_payday: 2026-11-30
dependents:
  - {name: turns 17, birth_date: 2010-03-01}
  - {name: born in June, birth_date: 2026-06-01, months_with_you: 7}
`)
	j, next := moved(t, h, nil)
	var names []string
	for _, c := range j.Certificates {
		names = append(names, c.Name)
	}
	if len(names) != 2 || names[0] != "goes on" || names[1] != "not begun" {
		t.Errorf("certificates for %v", names)
	}
	// Every second Friday from 9 January 2026 is 8 January in 2027.
	if got := next.Jobs[1].FirstPayday; got != household.On(2027, 1, 8) {
		t.Errorf("first payday %v", got)
	}
	if got := next.Jobs[2].FirstPayday; got != household.On(2027, 1, 30) && got != household.On(2027, 1, 29) && got != household.On(2027, 1, 31) {
		t.Errorf("monthly first payday %v", got)
	}
	if next.Jobs[1].YearToDate != nil || len(next.Jobs[1].OneTimePay) > 0 {
		t.Errorf("carried over: %+v", next.Jobs[1])
	}
	// One child is 17 at the end of 2027; the baby lives there all year.
	standIn := *year(t, 2026)
	standIn.Year = 2027
	if f := newProjection(next, &standIn, nil).fillForm(nil); !f.L3a.Equal(dollars(2200)) || !f.L3b.Equal(dollars(500)) {
		t.Errorf("Step 3(a) %v, 3(b) %v", f.L3a, f.L3b)
	}
	if next.Dependents[1].Months() != 12 || h.Dependents[1].Months() != 7 {
		t.Errorf("months %d next year, %d this year", next.Dependents[1].Months(), h.Dependents[1].Months())
	}
}

// Where every job ends this year there is no January.
func TestNoJanuary(t *testing.T) {
	h := answers(t, "summer", summer)
	r, err := Solve(h, year(t, 2026), nil)
	if err != nil {
		t.Fatal(err)
	}
	if r.January != nil {
		t.Errorf("%+v", r.January.Certificates)
	}
}
