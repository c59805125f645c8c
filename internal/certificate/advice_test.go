package certificate

import (
	"strings"
	"testing"

	"example.com/plumbline/internal/words"
)

// warned is the message of a warning, empty where the result has none.
func warned(r Result, code string) string {
	for _, w := range r.Warnings {
		if w.Code == code {
			return w.Said(words.English())
		}
	}
	return ""
}

func solvedText(t *testing.T, text string) Result {
	t.Helper()
	return solved(t, answers(t, "answers", text))
}

// A correction on a job paid every two weeks may end up to a dollar a payday
// above the wish. A second job paid each month, which could come closer, is left
// alone: it would need a certificate for a few dollars. On the private plan it
// would even get an entry in Step 3.
func TestACorrectionStopsWhereItLands(t *testing.T) {
	for pay := 2500; pay < 2560; pay += 7 { // the cents left over differ with the pay
		h := answers(t, "two jobs", `
format: 1
tax_year: 2026
as_of: 2026-01-20
filing_status: single
self: {birth_date: 1990-06-01}
jobs:
  - {name: Day, pay_frequency: biweekly, taxable_pay: 2500, first_payday: 2026-01-09, certificate: {filing_status: single}}
  - {name: Night, pay_frequency: monthly, taxable_pay: 2200, first_payday: 2026-01-30, certificate: {filing_status: single}}
`)
		h.Jobs[0].TaxablePay = dollars(int64(pay))
		r, err := Solve(h, year(t, 2026), nil)
		if err != nil {
			t.Fatal(err)
		}
		for _, p := range append([]Plan{r.Recommended}, r.Alternatives...) {
			if (p.Name == PlanTuned || p.Name == PlanPrivate) && (!p.Lands || !p.Certificates[1].Keep) {
				t.Errorf("pay %d, %s: lands %v, Night %+v", pay, p.Name, p.Lands, p.Certificates[1].Certificate)
			}
		}
	}
}

const seasonal = `
format: 1
tax_year: 2026
as_of: 2026-05-30
filing_status: single
self: {birth_date: 2006-02-01}
jobs:
  - {name: Orchard, pay_frequency: weekly, taxable_pay: 900, first_payday: 2026-01-09, last_payday: 2026-02-27, year_to_date: {payday: 2026-02-27, taxable_pay: 7200, federal_tax: 530}, certificate: {filing_status: single}}
  - {name: Beach, pay_frequency: biweekly, taxable_pay: 2000, first_payday: 2026-06-12, last_payday: 2026-08-21}
`

// The request for the part-year method declares the last day of work at the job
// before, which only the person knows; without such a job it says so.
func TestPartYearRequestNamesTheJobBefore(t *testing.T) {
	w, ok := way(withWays(answers(t, "seasonal", seasonal), year(t, 2026)), PartYear)
	if !ok || !strings.Contains(say(w.Request), "February 27, 2026") || !strings.Contains(say(w.Request), "245 days") {
		t.Errorf("named %v: %s", ok, say(w.Request))
	}
	w, ok = way(withWays(answers(t, "summer", summer), year(t, 2026)), PartYear)
	if !ok || !strings.Contains(say(w.Request), "no other employment in 2026") {
		t.Errorf("named %v: %s", ok, say(w.Request))
	}
}

// Where the form's own entries withhold nothing any more, no other way of
// figuring the paychecks changes them, and none is named.
func TestNoWayThatChangesNothing(t *testing.T) {
	r := solvedText(t, `
format: 1
tax_year: 2026
as_of: 2026-09-20
filing_status: married_filing_jointly
spouse: {birth_date: 1991-06-01}
jobs:
  - {name: Bank, pay_frequency: biweekly, taxable_pay: 3000, first_payday: 2026-01-09, year_to_date: {payday: 2026-09-18, taxable_pay: 57000, federal_tax: 9500}, certificate: {filing_status: single}}
dependents: [{name: a, birth_date: 2018-02-02}, {name: b, birth_date: 2020-02-02}, {name: c, birth_date: 2022-02-02}]
`)
	if len(r.OtherWays) > 0 {
		t.Errorf("named: %+v", r.OtherWays)
	}
}

const december = `
format: 1
tax_year: 2026
as_of: 2026-12-12
filing_status: single
self: {birth_date: 1990-06-01}
jobs:
  - {name: Bank, pay_frequency: biweekly, taxable_pay: 3000, first_payday: 2026-01-09, year_to_date: {payday: 2026-12-11, taxable_pay: 75000, federal_tax: 7000}, certificate: {filing_status: single}}
`

// The last payday comes before a certificate is taken to count: payroll may be
// quick enough for it, which the person can find out and then say.
func TestAnEarlierPaydayIsNamed(t *testing.T) {
	r := solvedText(t, december)
	if m := warned(r, "earlier_payday"); !strings.Contains(m, "Bank, December 24, 2026") {
		t.Errorf("warned %q", m)
	}
	if r = solvedText(t, december+"wish: {first_payday: 2026-12-25}\n"); r.Recommended.Lands || warned(r, "earlier_payday") != "" {
		t.Errorf("lands %v, warned %q", r.Recommended.Lands, warned(r, "earlier_payday"))
	}
}

func TestAYearThatIsOver(t *testing.T) {
	if r := solvedText(t, strings.Replace(december, "as_of: 2026-12-12", "as_of: 2027-02-01", 1)); warned(r, "year_over") == "" {
		t.Error("not warned")
	}
	if r := solvedText(t, strings.Replace(december, "as_of: 2026-12-12", "as_of: 2026-12-31", 1)); warned(r, "year_over") != "" {
		t.Error("warned on the last day of the year")
	}
}

// A correction on a job that ends this year needs no certificate in January;
// nor does one that is right for next year too.
func TestOnlyCorrectionsThatJanuaryReplacesAreWarnedOf(t *testing.T) {
	if r := solvedText(t, summer); !r.Recommended.Certificates[0].Corrected || warned(r, "correction_this_year_only") != "" {
		t.Errorf("corrected %v, warned %q", r.Recommended.Certificates[0].Corrected, warned(r, "correction_this_year_only"))
	}
	r, err := Solve(demo(t, "two-earners"), year(t, 2026), nil)
	if err != nil {
		t.Fatal(err)
	}
	wantWarning(t, r, "correction_this_year_only")
}

// 60,000 of profit and no job: four equal installments, made when they are due,
// meet the required payment on each date.
//
// IRC 6654(d)(1)(A).
func TestEstimatedPaymentsMadeOnTimeLeaveNoPenalty(t *testing.T) {
	r := solvedText(t, `
format: 1
tax_year: 2026
as_of: 2026-03-10
filing_status: single
self: {birth_date: 1995-06-01}
income: {self_employment: {self: 60000}}
last_year: {total_tax: 12000, adjusted_gross_income: 70000}
`)
	if u := r.Underpayment; u.Safe || !u.Penalty.IsPositive() || !u.PenaltyIfPaid.IsZero() {
		t.Errorf("%+v", u)
	}
	if v := r.Verdict; v.Code != PayDirectly || !v.PayDirectly.Waiting.Equal(r.Underpayment.Penalty) || len(v.PayDirectly.Parts) == 0 {
		t.Errorf("verdict %+v", v)
	}
}

// Exemption asks for no tax last year and none expected this year: where last
// year is not known, the person is told what it depends on. IRC 3402(n).
func TestExemptionWhereLastYearIsNotKnown(t *testing.T) {
	if m := warned(solvedText(t, summer), "exempt_possible"); !strings.HasPrefix(m, "You will owe no tax for 2026. If you owed none for 2025 either") {
		t.Errorf("warned %q", m)
	}
	if m := warned(solvedText(t, summer+"last_year: {total_tax: 50, adjusted_gross_income: 20000}\n"), "exempt_possible"); m != "" {
		t.Errorf("warned %q", m)
	}
}

// Step 3 above the form's limit of income is named only where it would hold
// something. Form W-4, Step 3.
func TestStep3LimitIsNamedForThoseItConcerns(t *testing.T) {
	const rich = `
format: 1
tax_year: 2026
as_of: 2026-01-02
filing_status: single
self: {birth_date: 1980-06-01}
jobs:
  - {name: Fund, pay_frequency: monthly, taxable_pay: 30000, first_payday: 2026-01-30}
`
	if m := warned(solvedText(t, rich), "form.step3_income"); m != "" {
		t.Errorf("warned %q", m)
	}
	wantWarning(t, solvedText(t, rich+"dependents: [{name: a, birth_date: 2018-02-02}]\n"), "form.step3_income")
}

// A certificate counts by law no sooner than the plan takes it to count.
func TestEffectiveByIsNotBeforeTheFirstPayday(t *testing.T) {
	r := solvedText(t, strings.NewReplacer("as_of: 2026-12-12", "as_of: 2026-05-15", "payday: 2026-12-11", "payday: 2026-05-15").Replace(december)+"wish: {first_payday: 2026-12-25}\n")
	for _, c := range r.Recommended.Certificates {
		if c.EffectiveBy.Before(c.FirstPayday) {
			t.Errorf("effective by %v, counts from %v", c.EffectiveBy, c.FirstPayday)
		}
	}
}

// How the year ends and what payroll takes from a paycheck can be explained,
// down to the answers.
func TestTheBalanceAndThePaycheckAreTraced(t *testing.T) {
	r := solved(t, demo(t, "two-earners"))
	if l, ok := r.Trace.Line("year.balance"); !ok || !l.Amount.Equal(r.Recommended.Balance) {
		t.Errorf("traced %v, balance %v", l.Amount, r.Recommended.Balance)
	}
	c := r.Recommended.Certificates[0]
	s := r.Paycheck(c)
	if l, ok := s.Line("payroll.4b"); !ok || !l.Amount.Equal(c.Withholding) {
		t.Errorf("traced %v, withheld %v", l.Amount, c.Withholding)
	}
	if l, ok := s.Line("certificate.extra"); !ok || !l.Amount.Equal(c.Certificate.Extra) || len(l.From) == 0 {
		t.Errorf("traced %+v", l)
	}
}
