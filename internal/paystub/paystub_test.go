package paystub

import (
	"fmt"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
	"example.com/plumbline/internal/sample"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
)

// oneJob are the answers of a day of 2026 of somebody single with one job, which is
// given as in the answers file.
func oneJob(t testing.TB, asOf, job string) household.Household {
	t.Helper()
	return sample.Answers(t, t.Name(), "format: 1\ntax_year: 2026\nas_of: "+asOf+"\nfiling_status: single\njobs: [{"+job+"}]\n")
}

// One job with a stub; payroll's figure and the certificate believed to be on
// file vary.
func stubOf(t *testing.T, paycheck, certificate string) Stub {
	t.Helper()
	h := oneJob(t, "2026-03-01", `name: A, pay_frequency: biweekly, gross_pay: 2300, pretax: {retirement: 200, health: 100}, first_payday: 2026-01-09, last_paycheck: {payday: 2026-02-20, `+paycheck+`}, certificate: {`+certificate+`}`)
	read := Stubs(h, sample.Year(t, 2026))
	if len(read) != 1 {
		t.Fatalf("%d stubs", len(read))
	}
	return read[0]
}

// Hand-worked on 2,000 every two weeks in 2026 (Publication 15-T, Worksheet 1A):
// single, 43,400 after line 1g: 4,060 ÷ 26 = 156.15; joint, 39,100 less 19,300
// at 10%: 1,980 ÷ 26 = 76.15; with Step 3 of 520, 20 less. Head of household,
// 43,400 less 15,550 at 10% and 33,250 at 12%: 1,770 + 1,218 = 2,988 ÷ 26 =
// 114.92. Two jobs, single: half brackets from 8,050: 620 + 12% of 37,750 =
// 5,150, of which 19,000 at 12% = 2,280, and 52,000 - 33,250 = 18,750 at 22% =
// 4,125: 7,025 ÷ 26 = 270.19.
func TestStub(t *testing.T) {
	for _, tt := range []struct {
		about, paycheck, certificate string
		code                         string // of the first explanation; none when empty
		asks                         bool
	}{
		{"right", "taxable_pay: 2000, federal_tax: 156.15", "filing_status: single", "", false},
		{"right, rounded line by line", "taxable_pay: 2000, federal_tax: 156.16", "filing_status: single", "", false},
		{"another status", "taxable_pay: 2000, federal_tax: 156.15", "filing_status: married_filing_jointly", "status", true},
		{"rounded to the dollar", "taxable_pay: 2000, federal_tax: 156", "filing_status: single", "whole_dollars", false},
		{"Step 3 left out", "taxable_pay: 2000, federal_tax: 76.15", "filing_status: married_filing_jointly, credits: 520", "step_3_left_out", true},
		{"the extra amount left out", "taxable_pay: 2000, federal_tax: 156.15", "filing_status: single, extra: 30", "step_4c_left_out", true},
		{"the box not checked", "taxable_pay: 2000, federal_tax: 156.15", "filing_status: single, multiple_jobs: true", "box_not_checked", true},
		{"the box checked", "taxable_pay: 2000, federal_tax: 270.19", "filing_status: single", "box_checked", true},
		{"exempt", "taxable_pay: 2000, federal_tax: 0", "filing_status: single", "exempt", true},
		// Publication 15, section 7: 22% of 1,000.
		{"a bonus at the flat rate that the answers do not name", "taxable_pay: 3000, federal_tax: 376.15", "filing_status: single", "bonus_flat", false},
		// 2,300 × 26 - 8,600 = 51,200: 1,240 + 12% of 31,300 = 4,996; ÷ 26 = 192.15.
		{"pre-tax deductions left out", "taxable_pay: 2000, federal_tax: 192.15", "filing_status: single", "pretax_left_out", true},
		// 2,100 × 26 - 8,600 = 46,000: 4,996 - 12% of 5,200 = 4,372; ÷ 26 = 168.15.
		{"health insurance of 100 taxed", "taxable_pay: 2000, federal_tax: 168.15", "filing_status: single", "pretax_one_taxed", true},
		// 1,800 × 26 - 8,600 = 38,200: 4,060 - 12% of 5,200 = 3,436; ÷ 26 = 132.15.
		{"retirement savings of 200 still in the pay given", "taxable_pay: 2000, federal_tax: 132.15", "filing_status: single", "pretax_one_twice", true},
		{"a newer certificate than the old one", "taxable_pay: 2000, federal_tax: 76.15", "edition: before_2020, marital: single, allowances: 1", "newer_certificate", true},
		{"no cause fits", "taxable_pay: 2000, federal_tax: 733.33", "filing_status: single", "", true},
	} {
		t.Run(tt.about, func(t *testing.T) {
			s := stubOf(t, tt.paycheck, tt.certificate)
			code := ""
			if len(s.Explanations) > 0 {
				code = s.Explanations[0].Code
			}
			if code != tt.code || (len(s.Ask) > 0) != tt.asks {
				t.Errorf("expected %v, read %v: explained by %q, asks %v; want %q (%+v)", s.FederalTax.Expected, s.FederalTax.Actual, code, s.Ask, tt.code, s.Explanations)
			}
		})
	}
}

// IRC 3101: 6.2% and 1.45% of pay with the retirement savings: 2,200.
func TestStubSocialTaxes(t *testing.T) {
	for _, tt := range []struct {
		about, paycheck string
		right           bool
		why             string
	}{
		{"on 2,200", "taxable_pay: 2000, federal_tax: 156.15, social_security: 136.40, medicare: 31.90", true, ""},
		{"on 2,300", "taxable_pay: 2000, federal_tax: 156.15, social_security: 142.60, medicare: 33.35", false, "stub.social.on_gross"},
		{"on 2,000", "taxable_pay: 2000, federal_tax: 156.15, social_security: 124, medicare: 29", false, "stub.social.without_savings"},
	} {
		t.Run(tt.about, func(t *testing.T) {
			s := stubOf(t, tt.paycheck, "filing_status: single")
			for _, c := range []*Check{s.SocialSecurity, s.Medicare} {
				if c.Right != tt.right || c.Why.Code != tt.why {
					t.Errorf("%+v, want right %v, why %q", *c, tt.right, tt.why)
				}
			}
		})
	}
}

// Year-to-date figures that do not go with the calendar are questioned.
func TestStubYearToDate(t *testing.T) {
	for _, tt := range []struct {
		about, stub string
		questions   int
		right       bool
	}{
		{"four paychecks", "taxable_pay: 8000, federal_tax: 624.60", 0, true},
		{"four paychecks, other tax", "taxable_pay: 8000, federal_tax: 700", 0, false},
		{"five paychecks on four paydays", "taxable_pay: 10000, federal_tax: 780.75", 1, false},
	} {
		t.Run(tt.about, func(t *testing.T) {
			h := oneJob(t, "2026-03-01", `name: A, pay_frequency: biweekly, taxable_pay: 2000, first_payday: 2026-01-09, year_to_date: {payday: 2026-02-20, `+tt.stub+`}, certificate: {filing_status: single}`)
			s := Stubs(h, sample.Year(t, 2026))[0]
			if len(s.Questions) != tt.questions || s.FederalTax.Right != tt.right || s.Basis != YearToDate {
				t.Errorf("%+v", s)
			}
		})
	}
}

// mistakes are what payroll may do other than the certificate says, each with
// the code that should explain it.
var mistakes = []struct {
	code string
	make func(r sample.Random, c household.Certificate, j household.Job) (household.Certificate, household.Job, payroll.Options, bool)
}{
	{"", func(_ sample.Random, c household.Certificate, j household.Job) (household.Certificate, household.Job, payroll.Options, bool) {
		return c, j, payroll.Options{}, true
	}},
	{"status", func(r sample.Random, c household.Certificate, j household.Job) (household.Certificate, household.Job, payroll.Options, bool) {
		c.Status = (c.Status + household.CertificateStatus(1+r.IntN(2))) % 3
		return c, j, payroll.Options{}, true
	}},
	{"box", func(_ sample.Random, c household.Certificate, j household.Job) (household.Certificate, household.Job, payroll.Options, bool) {
		c.MultipleJobs = !c.MultipleJobs
		return c, j, payroll.Options{}, true
	}},
	{"step_3_left_out", func(_ sample.Random, c household.Certificate, j household.Job) (household.Certificate, household.Job, payroll.Options, bool) {
		had := c.Credits.IsPositive()
		c.Credits = money.Zero
		return c, j, payroll.Options{}, had
	}},
	{"step_4c_left_out", func(_ sample.Random, c household.Certificate, j household.Job) (household.Certificate, household.Job, payroll.Options, bool) {
		had := c.Extra.IsPositive()
		c.Extra = money.Zero
		return c, j, payroll.Options{}, had
	}},
	{"before_2020", func(r sample.Random, c household.Certificate, j household.Job) (household.Certificate, household.Job, payroll.Options, bool) {
		return household.Certificate{Edition: household.Before2020, Marital: household.Marital(r.IntN(3)), Allowances: r.IntN(8)}, j, payroll.Options{}, true
	}},
	{"earlier_status", func(r sample.Random, c household.Certificate, j household.Job) (household.Certificate, household.Job, payroll.Options, bool) {
		return household.Certificate{Status: (c.Status + household.CertificateStatus(1+r.IntN(2))) % 3}, j, payroll.Options{}, c.Credits.IsPositive() || c.Deductions.IsPositive()
	}},
	{"before_2020", func(r sample.Random, c household.Certificate, j household.Job) (household.Certificate, household.Job, payroll.Options, bool) {
		return household.Certificate{Edition: household.Before2020, Marital: household.Marital(r.IntN(2)), Allowances: r.IntN(8), Extra: money.Dollars(int64(5 * (1 + r.IntN(10))))}, j, payroll.Options{}, true
	}},
	{"step_4c_other", func(r sample.Random, c household.Certificate, j household.Job) (household.Certificate, household.Job, payroll.Options, bool) {
		c.Extra = money.Dollars(int64(1 + r.IntN(200)))
		return c, j, payroll.Options{}, true
	}},
	{"none_on_file", func(_ sample.Random, _ household.Certificate, j household.Job) (household.Certificate, household.Job, payroll.Options, bool) {
		return household.Certificate{}, j, payroll.Options{}, true
	}},
	{"exempt", func(_ sample.Random, c household.Certificate, j household.Job) (household.Certificate, household.Job, payroll.Options, bool) {
		c.Exempt = true
		return c, j, payroll.Options{}, true
	}},
	{"whole_dollars", func(_ sample.Random, c household.Certificate, j household.Job) (household.Certificate, household.Job, payroll.Options, bool) {
		return c, j, payroll.Options{WholeDollars: true}, true
	}},
	{"wage_bracket", func(_ sample.Random, c household.Certificate, j household.Job) (household.Certificate, household.Job, payroll.Options, bool) {
		return c, j, payroll.Options{WageBracket: true}, true
	}},
	{"pretax_left_out", func(_ sample.Random, c household.Certificate, j household.Job) (household.Certificate, household.Job, payroll.Options, bool) {
		j.TaxablePay = j.TaxablePay.Add(j.Pretax.Total())
		return c, j, payroll.Options{}, j.Pretax.Total().IsPositive()
	}},
	{"frequency", func(r sample.Random, c household.Certificate, j household.Job) (household.Certificate, household.Job, payroll.Options, bool) {
		j.Frequency = []household.Frequency{household.Weekly, household.Biweekly, household.Semimonthly, household.Monthly}[r.IntN(4)]
		return c, j, payroll.Options{}, true
	}},
}

// On stubs made under each mistake: the true one is first or tied with the first
// in at least 95 of 100, and nothing is claimed of a stub that is right.
func TestStubsUnderEachCause(t *testing.T) {
	y := sample.Year(t, 2026)
	for _, m := range mistakes {
		t.Run(fmt.Sprintf("%q", m.code), func(t *testing.T) {
			made, found, first := 0, 0, 0
			for seed := uint64(0); made < 400; seed++ {
				if seed > 20_000 {
					t.Fatalf("only %d stubs in %d tries", made, seed)
				}
				r := sample.NewRandom(t, seed)
				h := household.Household{Format: 1, TaxYear: 2026, AsOf: household.On(2026, 6, 1), Status: household.Statuses()[r.IntN(5)]}
				j := r.Job(h, "A")
				j.Kind, j.OneTimePay, j.YearToDate, j.Earner = household.Wages, nil, nil, household.OfSelf
				c := r.Certificate(h)
				if c.Edition == household.Before2020 || c.Exempt {
					continue
				}
				did, paid, options, ok := m.make(r, *c, j)
				if !ok {
					continue
				}
				tax := payroll.Withholding(payroll.Paycheck{Wages: paid.TaxablePay, Frequency: paid.Frequency}, &did, y, options, nil)
				right := payroll.Withholding(payroll.Paycheck{Wages: j.TaxablePay, Frequency: j.Frequency}, c, y, payroll.Options{}, nil)
				if m.code != "" && !tax.Sub(right).Abs().More(cents) {
					continue // the mistake makes no difference here
				}
				made++
				j.Certificate = c
				j.LastPaycheck = &household.Paycheck{TaxablePay: j.TaxablePay, FederalTax: tax}
				h.Jobs = []household.Job{j}
				s := Stubs(h, y)[0]
				if m.code == "" {
					if !s.FederalTax.Right || len(s.Explanations) > 0 || len(s.Ask) > 0 {
						t.Errorf("seed %d: a right stub is explained: %+v", seed, s)
					}
					found++
					continue
				}
				for i, e := range s.Explanations {
					named := e.Code == m.code || m.code == "box" && (e.Code == "box_checked" || e.Code == "box_not_checked")
					if named && (e.Exact || e.Off.Equal(s.Explanations[0].Off)) {
						found++
						if i == 0 {
							first++
						}
						break
					}
				}
			}
			t.Logf("%d of %d first or tied, %d first", found, made, first)
			if found*100 < made*95 {
				t.Errorf("the true cause is first or tied in %d of %d", found, made)
			}
		})
	}
}

// A certificate that changed during the year, of which the answers say nothing:
// the first k paychecks on another usual one.
func TestStubsOfAYearWithTwoCertificates(t *testing.T) {
	y := sample.Year(t, 2026)
	made, found := 0, 0
	for seed := uint64(0); made < 300; seed++ {
		r := sample.NewRandom(t, seed)
		j := household.Job{Frequency: household.Biweekly, TaxablePay: r.UpTo(6000).Add(money.Dollars(800)), FirstPayday: household.On(2026, 1, 9)}
		forms := usualForms()
		first, then := forms[r.IntN(len(forms))], forms[r.IntN(len(forms))]
		n, k := 6+r.IntN(18), 1+r.IntN(5)
		tax := func(c *household.Certificate) money.Amount {
			return payroll.Withholding(payroll.Paycheck{Wages: j.TaxablePay, Frequency: j.Frequency}, c, y, payroll.Options{}, nil)
		}
		if tax(first).Equal(tax(then)) {
			continue
		}
		made++
		j.Certificate = then
		j.YearToDate = &household.YearToDate{Payday: j.Paydays(2026)[n-1], TaxablePay: j.TaxablePay.Times(n), FederalTax: tax(first).Times(k).Add(tax(then).Times(n - k))}
		s, _ := Read(household.Household{TaxYear: 2026, Jobs: []household.Job{j}}, 0, y)
		for _, e := range s.Explanations {
			if e.Code == "changed_this_year" && e.What.Equal(words.T("stub.what.changed_this_year", "paychecks", k, "form", formText(first))) {
				found++
				break
			}
		}
	}
	if found*100 < made*95 {
		t.Errorf("the change is named in %d of %d", found, made)
	}
}

// Each payday is judged by the certificate of its day. By hand, from TestStub: on
// 2,000 every two weeks single is 156.15 and joint 76.15.
func TestEachPaydayByItsOwnCertificate(t *testing.T) {
	const single, joint = "{filing_status: single}", "{filing_status: married_filing_jointly, counts_from: 2026-03-06}"
	for _, tt := range []struct {
		about, job string
		right      bool
		unread     string
		code       string
	}{
		{"a paycheck before it counted", "last_paycheck: {payday: 2026-02-20, taxable_pay: 2000, federal_tax: 156.15}, certificate: " + joint + ", earlier_certificates: [" + single + "]", true, "", ""},
		{"the first on which it counted", "last_paycheck: {payday: 2026-03-06, taxable_pay: 2000, federal_tax: 76.15}, certificate: " + joint + ", earlier_certificates: [" + single + "]", true, "", ""},
		{"payroll did not take it up", "last_paycheck: {payday: 2026-03-06, taxable_pay: 2000, federal_tax: 156.15}, certificate: " + joint + ", earlier_certificates: [" + single + "]", false, "", "status"},
		// 4 × 156.15 + 2 × 76.15 = 776.90
		{"the year so far across the change", "year_to_date: {payday: 2026-03-20, taxable_pay: 12000, federal_tax: 776.90}, certificate: " + joint + ", earlier_certificates: [" + single + "]", true, "", ""},
		{"the same, the one before not known: a usual one fits", "year_to_date: {payday: 2026-03-20, taxable_pay: 12000, federal_tax: 776.90}, certificate: " + joint, true, "", "earlier_certificate"},
		{"nothing fits before it: not judged", "year_to_date: {payday: 2026-03-20, taxable_pay: 12000, federal_tax: 901.37}, certificate: " + joint, false, "stub.unread.earlier_certificate", ""},
		{"a paycheck before it, the one before not known", "last_paycheck: {payday: 2026-02-20, taxable_pay: 2000, federal_tax: 156.15}, certificate: " + joint, true, "", "earlier_certificate"},
		{"a paycheck out of date is not read", "last_paycheck: {payday: 2026-02-20, taxable_pay: 2000, federal_tax: 1}, year_to_date: {payday: 2026-03-20, taxable_pay: 12000, federal_tax: 776.90}, certificate: " + joint + ", earlier_certificates: [" + single + "]", true, "", ""},
	} {
		t.Run(tt.about, func(t *testing.T) {
			h := oneJob(t, "2026-03-25", `name: A, pay_frequency: biweekly, taxable_pay: 2000, first_payday: 2026-01-09, `+tt.job)
			s, _ := Read(h, 0, sample.Year(t, 2026))
			code := ""
			if len(s.Explanations) > 0 {
				code = s.Explanations[0].Code
			}
			if s.FederalTax.Right != tt.right || s.Unread.Code != tt.unread || code != tt.code {
				t.Errorf("right %v, unread %q, explained by %q; want %v, %q, %q: %+v", s.FederalTax.Right, s.Unread.Code, code, tt.right, tt.unread, tt.code, s)
			}
			if tt.right && len(s.Ask) > 0 {
				t.Errorf("asks %v", s.Ask)
			}
		})
	}
}

// Causes that make the same figure are all named, and payroll is asked about
// each: joint and head of household both withhold nothing from 600 every two
// weeks (15,600 a year, below both standard deductions), where single withholds
// (15,600 + 0 - 8,600 - 7,500) < 0, so too; 900 is 23,400: single 14,800 - 7,500
// = 7,300 at 10% ÷ 26 = 28.08; head of household 14,800 - 15,550 < 0; joint less.
func TestEachEquallyExactCauseIsAskedAbout(t *testing.T) {
	h := oneJob(t, "2026-03-25", `name: A, pay_frequency: biweekly, taxable_pay: 900, first_payday: 2026-01-09, last_paycheck: {payday: 2026-03-06, taxable_pay: 900, federal_tax: 0}, certificate: {filing_status: single}`)
	s, _ := Read(h, 0, sample.Year(t, 2026))
	if s.FederalTax.Expected.String() != "28.08" {
		t.Fatalf("expected %v, want 28.08", s.FederalTax.Expected)
	}
	statuses, frequencies := 0, 0
	for _, e := range s.Explanations {
		switch {
		case e.Code == "status" && e.Exact:
			statuses++
		case e.Code == "frequency" && e.Exact:
			frequencies++
		}
	}
	// Twice a month and less often, 900 is below 7,500 a year more than 8,600.
	if statuses != 2 || frequencies < 2 {
		t.Errorf("%d statuses and %d frequencies named: %+v", statuses, frequencies, s.Explanations)
	}
	asked := map[string]bool{}
	for _, a := range s.Ask {
		asked[a.Code] = true
	}
	for _, code := range []string{"stub.ask.status", "stub.ask.exempt", "stub.ask.frequency", "stub.ask.before_2020"} {
		if !asked[code] {
			t.Errorf("does not ask %s: %v", code, s.Ask)
		}
	}
}

// For somebody who does not know what payroll has: on the true stub of a random
// certificate really on file, the first certificate found withholds the same to
// the cent, in at least 95 of 100.
func TestFitsWithholdTheSame(t *testing.T) {
	made, found, usual := 0, 0, 0
	for seed := uint64(0); made < 1000; seed++ {
		r := sample.NewRandom(t, seed)
		h := r.Household()
		y := sample.Year(t, h.TaxYear)
		for _, i := range h.CountedJobs() {
			j := h.Jobs[i]
			if !j.OrdinaryPay().IsPositive() {
				continue
			}
			made++
			p := payroll.Paycheck{Wages: j.OrdinaryPay(), Frequency: j.Frequency, Kind: j.Kind}
			on := func(c *household.Certificate) money.Amount {
				return payroll.Withholding(p, c, y, payroll.Options{}, nil)
			}
			tax := on(j.Certificate)
			h.Jobs[i].LastPaycheck = &household.Paycheck{TaxablePay: j.OrdinaryPay(), FederalTax: tax}
			h.Jobs[i].YearToDate, h.Jobs[i].Certificate = nil, nil
			fits := Fits(h, i, y)
			if len(fits) == 0 {
				continue
			}
			got := on(&fits[0].Certificate)
			if got.Sub(tax).Abs().More(cents) {
				t.Errorf("seed %d: %+v withholds %v, the stub shows %v", seed, fits[0], got, tax)
			}
			if got.Equal(tax) {
				found++
			}
			if fits[0].Kind < Worked {
				usual++
			}
		}
	}
	t.Logf("%d of %d found, %d of them by a usual certificate", found, made, usual)
	if found*100 < made*95 {
		t.Errorf("a certificate is found for %d of %d stubs", found, made)
	}
}

// By hand, from TestStub, on 2,000 every two weeks; with a credit of 2,200,
// (4,060 - 2,200) ÷ 26 = 71.54, or 156.15 - 84.62 = 71.53 rounded line by line.
func TestFits(t *testing.T) {
	for _, tt := range []struct {
		tax, want string
	}{
		{"156.15", "Single or Married filing separately, nothing else"},
		{"76.15", "Married filing jointly, nothing else"},
		{"270.19", "Single or Married filing separately with the box in Step 2(c)"},
		{"0", "a claim to be exempt"},
		{"71.54", "Single or Married filing separately, with 2,200 in Step 3"},
		{"71.53", "Single or Married filing separately, with 2,200 in Step 3"},
		{"181.15", "Single or Married filing separately, with 25 in Step 4(c)"},
		{"157.15", "Single or Married filing separately, with 1 in Step 4(c)"},
	} {
		h := oneJob(t, "2026-03-25", `name: A, pay_frequency: biweekly, taxable_pay: 2000, first_payday: 2026-01-09, last_paycheck: {payday: 2026-03-06, taxable_pay: 2000, federal_tax: `+tt.tax+`}`)
		fits := Fits(h, 0, sample.Year(t, 2026))
		if len(fits) == 0 {
			t.Errorf("%s: nothing fits", tt.tax)
			continue
		}
		if got := words.English().Say(fits[0].What); got != tt.want {
			t.Errorf("%s: %s, want %s", tt.tax, got, tt.want)
		}
	}
}

// A cause that makes payroll withhold just what is expected anyway is none.
func TestNoExplanationThatChangesNothing(t *testing.T) {
	h := oneJob(t, "2026-05-04", `name: Depot, pay_frequency: weekly, taxable_pay: 780, first_payday: 2026-03-13, year_to_date: {payday: 2026-05-01, taxable_pay: 6240, federal_tax: 408.00}, certificate: {filing_status: single}`)
	for _, e := range Stubs(h, sample.Year(t, 2026))[0].Explanations {
		if e.Code == "no_entries" || e.Code == "none_on_file" {
			t.Errorf("%s: %v", e.Code, e.Figure)
		}
	}
}

func BenchmarkRead(b *testing.B) {
	h := oneJob(b, "2026-11-14", `name: A, pay_frequency: biweekly, gross_pay: 2300, pretax: {retirement: 200, health: 100}, first_payday: 2026-01-09, year_to_date: {payday: 2026-11-13, taxable_pay: 46000, federal_tax: 3141.59}, certificate: {filing_status: single, credits: 2200}`)
	y := sample.Year(b, 2026)
	for b.Loop() {
		Read(h, 0, y)
	}
}

// A difference of less than a dollar a paycheck is not called wrong, nor one of up to
// 100 ÷ 26 = 3.85 where the year's tables are projected. By hand, from TestStub: 156.15
// on 2,000 every two weeks, single.
func TestAboutRight(t *testing.T) {
	published := sample.Year(t, 2026)
	projected := *published
	projected.Projected = &tables.Projection{From: 2025}
	for _, tt := range []struct {
		tax   string
		y     *tables.Year
		about bool
	}{
		{"155.16", published, true},
		{"155.15", published, false},
		{"155.15", &projected, true},
		{"152.30", &projected, true},
		{"152.29", &projected, false},
		{"159.99", &projected, true},
		{"76.15", &projected, false},
	} {
		h := oneJob(t, "2026-03-25", `name: A, pay_frequency: biweekly, taxable_pay: 2000, first_payday: 2026-01-09, last_paycheck: {payday: 2026-03-06, taxable_pay: 2000, federal_tax: `+tt.tax+`}, certificate: {filing_status: single}`)
		s, _ := Read(h, 0, tt.y)
		if s.FederalTax.About != tt.about || s.FederalTax.Right || s.FederalTax.Why.IsZero() == tt.about || (len(s.Ask) > 0) == tt.about {
			t.Errorf("%s, projected %v: %+v", tt.tax, tt.y.Projected != nil, s)
		}
	}
}
