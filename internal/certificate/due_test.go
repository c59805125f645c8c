package certificate

import (
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// A couple whose certificates withhold too little or enough, as other payments
// decide.
const couple = `
format: 1
tax_year: 2026
as_of: 2026-06-01
filing_status: married_filing_jointly
spouse: {birth_date: 1990-01-01}
jobs:
  - {name: first, pay_frequency: biweekly, taxable_pay: 3000, first_payday: 2026-01-09, certificate: {filing_status: married_filing_jointly, extra: 20}}
  - {name: second, earner: spouse, pay_frequency: biweekly, taxable_pay: 1800, first_payday: 2026-01-09, certificate: {filing_status: married_filing_jointly}}
dependents:
  - {birth_date: 2018-01-01}
income: {interest: 40000}
deductions: {mortgage_interest: 20000, state_local_taxes: 20000}
`

// Publication 505 (2025), ch. 1, p. 3, rule by rule.
func TestDue(t *testing.T) {
	june := household.On(2026, 6, 1)
	for _, tt := range []struct {
		about  string
		on     household.Date
		before func(h *household.Household)
		after  func(h *household.Household)
		enough bool // paid otherwise: the year's tax is met
		code   string
		by     string
		year   int
	}{
		{"joint to single, too little withheld: 10 days", june, nil, func(h *household.Household) { h.Status = household.Single }, false, "status", "2026-06-11", 2026},
		{"joint to single, enough withheld: for next year by 1 December", june, nil, func(h *household.Household) { h.Status = household.Single }, true, "status", "2026-12-01", 2027},
		{"in December, enough withheld: 10 days after", household.On(2026, 12, 5), nil, func(h *household.Household) { h.Status = household.HeadOfHousehold }, true, "status", "2026-12-15", 2027},
		{"head of household to single", june, func(h *household.Household) { h.Status = household.HeadOfHousehold }, func(h *household.Household) { h.Status = household.Single }, false, "status", "2026-06-11", 2026},
		{"single to joint: whenever one wishes", june, func(h *household.Household) { h.Status = household.Single }, func(h *household.Household) {}, false, "status", "0000-00-00", 2026},
		{"a second job begun", june, func(h *household.Household) { h.Jobs = h.Jobs[:1] }, nil, false, "job_begun", "2026-06-11", 2026},
		{"the same, enough withheld", june, func(h *household.Household) { h.Jobs = h.Jobs[:1] }, nil, true, "job_begun", "0000-00-00", 2026},
		{"a raise of 10,400 at the second job", june, func(h *household.Household) { h.Jobs[1].TaxablePay = dollars(1400) }, nil, false, "raise", "2026-06-11", 2026},
		{"a raise of 9,880 is not named", june, func(h *household.Household) { h.Jobs[1].TaxablePay = dollars(1420) }, nil, false, "", "", 0},
		{"a raise at the best-paid job is not named", june, func(h *household.Household) { h.Jobs[0].TaxablePay = dollars(2400) }, nil, false, "", "", 0},
		{"a raise where the box is checked is not named", june, func(h *household.Household) { h.Jobs[1].TaxablePay = dollars(1000) }, func(h *household.Household) {
			h.Jobs[1].Certificate = &household.Certificate{Status: household.CertificateJoint, MultipleJobs: true}
		}, false, "", "", 0},
		{"the child turns 17", june, nil, func(h *household.Household) { h.Dependents[0].BirthDate = household.On(2009, 6, 1) }, false, "child_credit", "2026-06-11", 2026},
		{"other credits down by 501", june, func(h *household.Household) { h.Credits.OtherNonrefundable = dollars(501) }, nil, false, "other_credits", "2026-06-11", 2026},
		{"other credits down by 500 is not named", june, func(h *household.Household) { h.Credits.OtherNonrefundable = dollars(500) }, nil, false, "", "", 0},
		{"deductions down by 2,301", june, func(h *household.Household) { h.Deductions.MortgageInterest = dollars(22301) }, nil, false, "deductions", "2026-06-11", 2026},
		{"deductions down by 2,300 is not named", june, func(h *household.Household) { h.Deductions.MortgageInterest = dollars(22300) }, nil, false, "", "", 0},
		{"exemption no longer expected", june, nil, func(h *household.Household) { h.Jobs[0].Certificate = &household.Certificate{Exempt: true} }, false, "exemption", "2026-06-11", 2026},
		{"nothing changed", june, nil, nil, false, "", "", 0},
	} {
		t.Run(tt.about, func(t *testing.T) {
			before, after := answers(t, "couple", couple), answers(t, "couple", couple)
			if tt.before != nil {
				tt.before(&before)
			}
			if tt.after != nil {
				tt.after(&after)
			}
			if tt.enough {
				after.Payments.OtherWithholding = dollars(30000)
			}
			got := Due(before, after, func(string, household.Earner) household.Date { return tt.on }, year(t, 2026))
			if tt.code == "" {
				if len(got) > 0 {
					t.Errorf("%+v, want nothing", got)
				}
				return
			}
			for _, c := range got {
				if c.Code == tt.code {
					if c.By.String() != tt.by || c.Year != tt.year || c.Must != !c.By.IsZero() {
						t.Errorf("due by %v for %d (must %v), want %v for %d", c.By, c.Year, c.Must, tt.by, tt.year)
					}
					return
				}
			}
			t.Errorf("%+v does not name %q", got, tt.code)
		})
	}
}

// The ten days count from each change's own day: credits that changed on May 20, and
// a spouse's job that began on April 1.
func TestDueFromEachDay(t *testing.T) {
	before, after := answers(t, "couple", couple), answers(t, "couple", couple)
	before.Jobs = before.Jobs[:1]
	after.Jobs[1].FirstPayday = household.On(2026, 4, 3)
	before.Credits.OtherNonrefundable = dollars(501)
	got := Due(before, after, func(code string, of household.Earner) household.Date {
		if code == "job_begun" && of == household.OfSpouse {
			return household.On(2026, 4, 1)
		}
		return household.On(2026, 5, 20)
	}, year(t, 2026))
	by := make(map[string]string)
	for _, c := range got {
		by[c.Code] = c.By.String()
	}
	if by["job_begun"] != "2026-04-11" || by["other_credits"] != "2026-05-30" {
		t.Errorf("due by %v, want April 11 for the job and May 30 for the credits", by)
	}
}

// IRC 3402(f)(3): a first certificate counts at once; one that replaces another
// from the first payroll period that ends on or after the 30th day.
func TestEffectiveBy(t *testing.T) {
	h := answers(t, "couple", couple) // 1 June; paydays on 12 and 26 June, 10 July
	pr := newProjection(h, year(t, 2026), nil)
	if got := effectiveBy(h.AsOf, pr.payers[0], pr.y); got != household.On(2026, 7, 10) {
		t.Errorf("a replacement of June 1 by %v, want July 10: June 26 is the 25th day", got)
	}
	h.Jobs[0].Certificate = nil
	pr = newProjection(h, year(t, 2026), nil)
	if got := effectiveBy(h.AsOf, pr.payers[0], pr.y); got != household.On(2026, 6, 12) {
		t.Errorf("a first certificate by %v, want June 12", got)
	}
}

// A new certificate counts from the second payday after the day of the answers;
// the first where payroll has none; the payday wished for.
func TestFirstPayday(t *testing.T) {
	for _, tt := range []struct {
		about  string
		change func(h *household.Household)
		want   household.Date
	}{
		{"one on file", func(h *household.Household) {}, household.On(2026, 6, 26)},
		{"none on file", func(h *household.Household) { h.Jobs[0].Certificate = nil }, household.On(2026, 6, 12)},
		{"on a payday", func(h *household.Household) { h.AsOf = household.On(2026, 6, 12) }, household.On(2026, 7, 10)},
		{"a wish", func(h *household.Household) { h.Wish.FirstPayday = household.On(2026, 8, 1) }, household.On(2026, 8, 7)},
		{"a stub after the day of the answers", func(h *household.Household) {
			h.Jobs[0].YearToDate = &household.YearToDate{Payday: household.On(2026, 6, 12), TaxablePay: dollars(36000), FederalTax: money.Zero}
		}, household.On(2026, 7, 10)},
	} {
		t.Run(tt.about, func(t *testing.T) {
			h := answers(t, "couple", couple)
			tt.change(&h)
			pr := newProjection(h, year(t, 2026), nil)
			if got := pr.payers[0].from; got != tt.want {
				t.Errorf("from %v, want %v", got, tt.want)
			}
		})
	}
}
