package certificate

import (
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
	"example.com/plumbline/internal/tables"
)

// A couple with two children, of whom one gave a form with four allowances in 2018
// and the other claims a child in Step 3.
const coupleWithOldForm = `
format: 1
tax_year: 2026
as_of: 2026-11-27
filing_status: married_filing_jointly
dependents:
  - {relationship: child, birth_date: 2017-03-14}
  - {relationship: child, birth_date: 2020-05-02}
jobs:
  - name: Dental office
    pay_frequency: biweekly
    taxable_pay: 2037
    year_to_date: {payday: 2026-11-13, taxable_pay: 46172, federal_tax: 46.88}
    certificate: {filing_status: married_filing_jointly, credits: 2000}
  - name: Warehouse
    earner: spouse
    pay_frequency: semimonthly
    taxable_pay: 2506.71
    year_to_date: {payday: 2026-11-13, taxable_pay: 52641, federal_tax: 2106.12}
    certificate: {edition: before_2020, marital: married, allowances: 4}
income: {interest: 180}
`

// The form that is right in January is today's at the warehouse: married filing jointly, with what
// the year lacks. By hand, with the figures of 2026:
//
//	wages 26 × 2,037 + 24 × 2,506.71 = 113,123.04; interest 180; less 32,200: 81,103.04
//	tax 2,480 + 12% × (81,103.04 − 24,800) = 9,236.36; less 2 × 2,200: 4,836.36
//	dental office: (52,962 − 12,900 − 19,300) × 10% − 2,000 = 76.20; 26 × 2.93 = 76.18
//	warehouse, status alone: 60,161.04 − 12,900 = 47,261.04; 2,480 + 12% × 3,161.04 = 2,859.32; 24 × 119.14 = 2,859.36
//	short 1,900.82, over 24 paychecks 79.20: 80
func TestOldFormIsReplacedByTodays(t *testing.T) {
	r := solved(t, answers(t, "couple", coupleWithOldForm))
	p := planOf(t, r, PlanLasting)
	if e := p.Certificates[0].Lines.L3a; !e.Amount.Equal(dollars(2000)) || e.Reason.Code != "certificate.line.on_file" {
		t.Errorf("the dental office keeps %v in Step 3(a): %s", e.Amount, say(e.Reason))
	}
	c := p.Certificates[1]
	if c.Keep || c.Certificate.Edition != household.Current || c.Certificate.Status != household.CertificateJoint {
		t.Errorf("the form for the warehouse is %+v, keep %v", c.Certificate, c.Keep)
	}
	if want := dollars(80); !c.Certificate.Extra.Equal(want) || !c.Withholding.Equal(money.Cents(199_14)) {
		t.Errorf("Step 4(c) is %v and %v is withheld; want %v and 199.14", c.Certificate.Extra, c.Withholding, want)
	}
}

// On random households, each with a form from before 2020 and an extra amount on
// it: every form to hand in, January's included, is today's; and what is written
// on its lines withholds what the plan says.
func TestNoOldFormIsHandedIn(t *testing.T) {
	eachHousehold(t, households/5, func(seed uint64) bool {
		r := newRandom(t, seed)
		h := onPaydays(r.Household())
		old := false
		for i := range h.Jobs {
			if h.Jobs[i].Certificate != nil && r.Chance(60) {
				h.Jobs[i].Certificate, old = &household.Certificate{
					Edition: household.Before2020, Marital: household.Marital(r.IntN(3)),
					Allowances: r.IntN(6), Extra: r.Sometimes(60, 150).DollarDown(),
				}, true
			}
		}
		y := year(t, h.TaxYear)
		res, err := Solve(h, y, nil)
		if err != nil {
			t.Error(err)
			return false
		}
		for _, p := range append([]Plan{res.Recommended}, res.Alternatives...) {
			checkWritten(t, seed, res.Household, p, y)
		}
		if res.January != nil {
			next, _ := nextYear(res.Household, res.Return)
			standIn := *y
			standIn.Year++
			checkWritten(t, seed, next, res.January.Plan, &standIn)
		}
		return old
	})
}

// checkWritten holds the forms of a plan that are to be handed in against what
// payroll makes of their lines.
func checkWritten(t *testing.T, seed uint64, h household.Household, p Plan, y *tables.Year) {
	for _, c := range p.Certificates {
		if c.Keep || c.Certificate.Exempt {
			continue
		}
		if c.Certificate.Edition != household.Current {
			t.Errorf("seed %d %s: a form from before 2020 is to be handed in at %s", seed, p.Name, c.Name)
		}
		written := household.Certificate{
			Status: c.Certificate.Status, MultipleJobs: c.Certificate.MultipleJobs,
			Credits: c.Lines.L3.Amount, OtherIncome: c.Lines.L4a.Amount, Deductions: c.Lines.L4b.Amount, Extra: c.Lines.L4c.Amount,
		}
		j := h.Jobs[c.Job]
		tax := payroll.Withholding(payroll.Paycheck{Wages: j.OrdinaryPay(), Frequency: j.Frequency, Kind: j.Kind}, &written, y, payroll.Options{}, nil)
		if !tax.Equal(c.Withholding) {
			t.Errorf("seed %d %s: %s withholds %v by what is written, the plan says %v", seed, p.Name, c.Name, tax, c.Withholding)
		}
	}
}
