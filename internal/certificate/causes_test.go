package certificate

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// What makes the couple with an old form owe, by hand with the figures of 2026. A
// row of the tax table is taxed at its middle.
//
//	pay 46,172 + 3 × 2,037 = 52,283 and 52,641 + 3 × 2,506.71 = 60,161.13; tax on
//	112,444.13 − 32,200, in the row of 80,225: 2,480 + 12% × 55,425 = 9,131
//	status alone: dental office (52,283 − 12,900 − 19,300) × 10% = 2,008.30, 26 × 77.24 = 2,008.24
//	warehouse (60,161.13 − 12,900 − 44,100) × 12% + 2,480 = 2,859.34, 24 × 119.14 = 2,859.36
//	two jobs: 9,131 − 4,867.60 = 4,263.40
//	dental office withholds 46.88 + 3 × 2.93 = 55.67: 1,952.57 less
//	warehouse, 4 allowances: 60,161.04 − 17,200 − 19,300 = 23,661.04, a paycheck 98.59;
//	2,106.12 + 3 × 98.59 = 2,401.89: 457.47 less
//	180 of interest, in the row of 80,425: 24; two children: 4,400 off
func TestCausesOfAnOldFormAndTwoJobs(t *testing.T) {
	got := solved(t, answers(t, "couple", coupleWithOldForm)).Causes()
	want := []struct {
		code  string
		job   int
		cents int64
	}{
		{CauseJobs, 0, 4263_40},
		{CauseForm, 0, 1952_57},
		{CauseForm, 1, 457_47},
		{CauseIncome, 0, 24_00},
		{CauseCredits, 0, -4400_00},
	}
	if len(got) != len(want) {
		t.Fatalf("causes are %+v", got)
	}
	for i, w := range want {
		if c := got[i]; c.Code != w.code || c.Job != w.job || !c.Short.Equal(money.Cents(w.cents)) {
			t.Errorf("cause %d is %s of job %d, %v; want %s of %d, %v", i, c.Code, c.Job, c.Short, w.code, w.job, money.Cents(w.cents))
		}
	}
}

// Credits claimed twice are named with the form that claims them.
func TestCausesNameWhatIsClaimedTwice(t *testing.T) {
	const two = `
  - {name: Clinic, pay_frequency: biweekly, taxable_pay: 2037, first_payday: 2026-01-09, certificate: {filing_status: married_filing_jointly, credits: 2000}}
  - {name: Warehouse, earner: spouse, pay_frequency: semimonthly, taxable_pay: 2506.71, first_payday: 2026-01-15, certificate: `
	for _, tt := range []struct {
		about, jobs, more string
		want              []string // a form's job with its doubt
	}{
		{"Step 3 for no child", two + "{filing_status: married_filing_jointly}}\n", "", []string{"0 credits"}},
		{"allowances and Step 3 for the same child", two + "{edition: before_2020, marital: married, allowances: 4}}\n", "dependents: [{birth_date: 2018-02-20}]\n", []string{"0 ", "1 allowances"}},
		{"Step 3 for a child, once", two + "{filing_status: married_filing_jointly}}\n", "dependents: [{birth_date: 2018-02-20}]\n", []string{"0 "}},
	} {
		t.Run(tt.about, func(t *testing.T) {
			r := advised(t, "2026-06-15", household.MarriedFilingJointly.String(), tt.jobs, tt.more)
			var got []string
			for _, c := range r.Causes() {
				if c.Code == CauseForm {
					got = append(got, fmt.Sprint(c.Job, " ", strings.TrimPrefix(c.Doubt.Code, "certificate.cause.")))
				}
			}
			if !slices.Equal(got, tt.want) {
				t.Errorf("doubts %q, want %q", got, tt.want)
			}
		})
	}
}

// All causes together are what the year is short, of any household; and there are
// none where little or nothing is short.
func TestCausesAddUp(t *testing.T) {
	eachHousehold(t, households/4, func(seed uint64) bool {
		h := newRandom(t, seed).Household()
		r, err := Solve(h, year(t, h.TaxYear), nil)
		if err != nil {
			t.Error(err)
			return false
		}
		sum, short := money.Zero, r.AsFiled.Balance.Neg()
		for _, c := range r.Causes() {
			sum = sum.Add(c.Short)
		}
		if short.Less(shortBy) {
			short = money.Zero
		}
		if !sum.Equal(short) {
			t.Errorf("seed %d: the causes add up to %v, %v is short", seed, sum, short)
		}
		return short.IsPositive()
	})
}
