package certificate

import (
	"slices"
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/words"
)

// The couple of the publication's example: 46,000 and 68,000 of wages, 184 of
// interest, 1,000 of other income, 49 paydays left at the better-paid job. The
// withholding to date is not printed; other withholding stands in for it, so
// that the shortfall is the printed 4,459.
func TestPublication505TwoEarners(t *testing.T) {
	h := answers(t, "Publication 505 (2025), p. 4, example", `
format: 1
tax_year: 2025
as_of: 2025-01-20
filing_status: married_filing_jointly
jobs:
  - {name: taxpayer, pay_frequency: weekly, taxable_pay: 884.62, first_payday: 2025-01-03, certificate: {filing_status: married_filing_jointly}}
  - {name: spouse, earner: spouse, pay_frequency: weekly, taxable_pay: 1307.69, first_payday: 2025-01-03, certificate: {filing_status: married_filing_jointly}}
income: {interest: 184, other: 1000}
wish: {first_payday: 2025-01-24}
`)
	y := year(t, 2025)
	pr := newProjection(h, y, nil)
	d := pr.newCandidate(pr.withEntries(pr.fillForm(nil)))
	if n := d.pr.payers[0].paydays; n != 49 || d.pr.payers[0].job.Name != "spouse" {
		t.Fatalf("%s has %d paydays left; the example's spouse has 49", d.pr.payers[0].job.Name, n)
	}
	h.Payments.OtherWithholding = d.gap().Sub(dollars(4459))
	r, err := Solve(h, y, nil)
	if err != nil {
		t.Fatal(err)
	}
	tuned := planOf(t, r, PlanTuned)
	for _, c := range tuned.Certificates {
		want := money.Zero
		if c.Name == "spouse" {
			want = dollars(91)
		}
		if !c.Certificate.Extra.Equal(want) {
			t.Errorf("Step 4(c) of the %s is %v, want %v", c.Name, c.Certificate.Extra, want)
		}
	}
	if !tuned.Balance.IsZero() {
		t.Errorf("balance %v: 91 × 49 is 4,459 exactly", tuned.Balance)
	}
}

// overWithheld is one job from July on with 650 too much withheld by the form's
// entries, over 13 paydays.
func overWithheld(t *testing.T) household.Household {
	h := answers(t, "over-withheld", `
format: 1
tax_year: 2026
as_of: 2026-07-09
filing_status: single
jobs:
  - name: A
    pay_frequency: biweekly
    taxable_pay: 2000
    first_payday: 2026-01-09
    year_to_date: {payday: 2026-06-26, taxable_pay: 26000, federal_tax: 2600}
    certificate: {filing_status: single}
wish: {first_payday: 2026-07-10}
`)
	pr := newProjection(h, year(t, 2026), nil)
	d := pr.newCandidate(pr.blanks())
	if n := pr.payers[0].paydays; n != 13 {
		t.Fatalf("%d paydays left, want 13", n)
	}
	h.Payments.OtherWithholding = d.gap().Add(dollars(650))
	return h
}

// Worksheet 1-5, line 6: an excess of 650 over 13 paydays is 50 a payday; times
// the 26 paydays of the whole year, 1,300 in Step 3.
func TestExcessGoesToStep3(t *testing.T) {
	r, err := Solve(overWithheld(t), year(t, 2026), nil)
	if err != nil {
		t.Fatal(err)
	}
	c := r.Recommended.Certificates[0]
	if !c.Certificate.Credits.Equal(dollars(1300)) || !c.Certificate.Extra.IsZero() {
		t.Errorf("Step 3 is %v and Step 4(c) %v, want 1,300 and nothing (Publication 505 (2025), Worksheet 1-5, line 6, p. 17)", c.Certificate.Credits, c.Certificate.Extra)
	}
	if !r.Recommended.Balance.IsZero() {
		t.Errorf("balance %v, want 0", r.Recommended.Balance)
	}
	if e := c.Lines.L3; !strings.Contains(e.Source, "Worksheet 1-5, line 6, p. 17") || !strings.Contains(say(e.Reason), "the rest of 2026") {
		t.Errorf("Step 3 says %q by %q", say(e.Reason), e.Source)
	}
}

// What each plan may and may not put on a certificate.
func TestPlanShapes(t *testing.T) {
	r, err := Solve(demo(t, "two-earners"), year(t, 2026), nil)
	if err != nil {
		t.Fatal(err)
	}
	plans := map[string]Plan{r.Recommended.Name: r.Recommended}
	for _, p := range r.Alternatives {
		plans[p.Name] = p
	}
	for _, name := range []string{PlanForm, PlanBox, PlanTuned, PlanPrivate, PlanEven} {
		if _, ok := plans[name]; !ok {
			t.Fatalf("no plan %q", name)
		}
	}
	for _, c := range plans[PlanPrivate].Certificates {
		if !tellsNothing(c.Certificate) || len(c.Learns) != 1 {
			t.Errorf("private puts %+v on %s, which learns %v", c.Certificate, c.Name, c.Learns)
		}
	}
	for _, c := range plans[PlanBox].Certificates {
		if !c.Certificate.MultipleJobs || !c.Certificate.Extra.IsZero() {
			t.Errorf("box puts %+v on %s", c.Certificate, c.Name)
		}
	}
	// Form W-4, Steps 3 to 4(b): on the certificate of the best-paid job only.
	for _, name := range []string{PlanForm, PlanBox, PlanTuned, PlanEven} {
		p := plans[name]
		if best, other := p.Certificates[0], p.Certificates[1]; !best.Certificate.Credits.Equal(dollars(4400)) || !other.Certificate.Credits.IsZero() || !other.Certificate.OtherIncome.IsZero() {
			t.Errorf("%s puts %+v on the best-paid job and %+v on the other", name, best.Certificate, other.Certificate)
		}
	}
	// 3,660 × 26 = 95,160 and 2,210 × 24 = 53,040: what each makes up over its 13
	// and 12 paydays is within a dollar a payday of its share.
	even := plans[PlanEven]
	first := even.Certificates[0].Certificate.Extra.Times(13)
	second := even.Certificates[1].Certificate.Extra.Times(12)
	whole := first.Add(second)
	share := whole.At(dollars(95160).Over(dollars(95160 + 53040)))
	if first.Sub(share).Abs().More(dollars(13 + 12)) {
		t.Errorf("even makes up %v and %v; the first one's share is %v", first, second, share)
	}
}

// wished is the demo household with a wish.
func wished(t *testing.T, name string, wish household.Wish) Result {
	t.Helper()
	h := demo(t, name)
	h.Wish = wish
	r, err := Solve(h, year(t, 2026), nil)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

func TestWishesAreRespected(t *testing.T) {
	for _, tt := range []struct {
		about, demo string
		wish        household.Wish
		plan        string
	}{
		{"nothing said", "two-earners", household.Wish{}, PlanExtra},
		{"employers are to learn nothing", "two-earners", household.Wish{TellEmployer: household.ExtraOnly}, PlanPrivate},
		{"that wish is the stronger", "two-earners", household.Wish{TellEmployer: household.ExtraOnly, Spread: household.InProportion}, PlanPrivate},
		{"shared by two earners", "two-earners", household.Wish{Spread: household.InProportion}, PlanEven},
		{"one earner has nothing to share", "side-business", household.Wish{Spread: household.InProportion}, PlanExtra},
		{"a refund of 900", "two-earners", household.Wish{Refund: dollars(900)}, PlanExtra},
	} {
		t.Run(tt.about, func(t *testing.T) {
			r := wished(t, tt.demo, tt.wish)
			if r.Recommended.Name != tt.plan {
				t.Errorf("recommended %q, want %q: %s", r.Recommended.Name, tt.plan, say(r.Recommended.Reason))
			}
			if over := r.Recommended.Balance.Sub(tt.wish.Refund); over.IsNegative() || !over.Less(dollars(42)) {
				t.Errorf("balance %v, wish %v", r.Recommended.Balance, tt.wish.Refund)
			}
		})
	}
}

// Two paydays are left, and the tax of a large gain is still to be met: no
// paycheck can do it, and the rest is an estimated payment by 15 January.
func TestWhatPaychecksCannotDo(t *testing.T) {
	h := answers(t, "late gain", `
format: 1
tax_year: 2026
as_of: 2026-11-20
filing_status: single
jobs:
  - name: A
    pay_frequency: monthly
    taxable_pay: 4000
    first_payday: 2026-01-30
    year_to_date: {payday: 2026-10-30, taxable_pay: 40000, federal_tax: 3300}
    certificate: {filing_status: single}
income: {short_term_gain: 90000}
wish: {first_payday: 2026-11-30}
last_year: {total_tax: 30000, adjusted_gross_income: 90000}
`)
	y := year(t, 2026)
	r, err := Solve(h, y, nil)
	if err != nil {
		t.Fatal(err)
	}
	if v := r.Verdict; v.Code != JanuaryOnly && v.Code != PayDirectly || !v.PayDirectly.Amount.Equal(r.AsFiled.Balance.Neg()) {
		t.Errorf("advised %s, to pay %v", v.Code, v.PayDirectly.Amount)
	}
	if err := r.Choose(PlanTuned); err != nil {
		t.Fatal(err)
	}
	p := r.Recommended
	if p.Lands || !p.Left.Equal(p.Balance) || !p.Balance.IsNegative() {
		t.Errorf("lands %v, left %v, balance %v", p.Lands, p.Left, p.Balance)
	}
	if !r.Estimated.Amount.Equal(p.Balance.Neg()) {
		t.Errorf("estimated payment %v, balance %v", r.Estimated.Amount, p.Balance)
	}
	paid := money.Sum(p.WithheldSoFar, p.WithholdingToCome, p.OtherPayments)
	soon := r.Underpayment.Required.Sub(paid).DollarUp()
	want := []tax.Payment{{Due: household.On(2027, 1, 15), Amount: soon}, {Due: household.On(2027, 4, 15), Amount: r.Estimated.Amount.Sub(soon)}}
	if !slices.EqualFunc(r.Estimated.Payments, want, func(a, b tax.Payment) bool { return a.Due == b.Due && a.Amount.Equal(b.Amount) }) {
		t.Errorf("installments %v, want %v", r.Estimated.Payments, want)
	}
	// Social security and Medicare, 7.65% of 4,000 = 306, come first: no more
	// than 3,694 can be withheld, whole dollars beside the tax on the paycheck.
	c := p.Certificates[0]
	if most := dollars(4000 - 306); c.Withholding.More(most) || most.Sub(c.Withholding).More(dollars(1)) {
		t.Errorf("%v is withheld from a paycheck of 4,000, which has room for %v", c.Withholding, most)
	}
	if r.Underpayment.Safe || !r.Underpayment.Penalty.IsPositive() || len(r.Underpayment.Quarters) != 4 {
		t.Errorf("underpayment %+v", r.Underpayment)
	}
	wantWarning(t, r, "estimated_payment")
	wantWarning(t, r, "underpayment")
}

func wantWarning(t *testing.T, r Result, code string) {
	t.Helper()
	for _, w := range r.Warnings {
		if w.Code == code {
			return
		}
	}
	t.Errorf("no warning %q among %v", code, r.Warnings)
}

// IRC 6654(c), (d)(1)(A): in June two of four installments are due, so half is
// asked for by 15 June, and a quarter on each later date.
func TestInstallments(t *testing.T) {
	y := year(t, 2026)
	got := installments(dollars(4001), household.On(2026, 5, 2), y)
	want := []string{"2026-06-15 2001.00", "2026-09-15 1001.00", "2027-01-15 999.00"}
	if len(got) != len(want) {
		t.Fatalf("%v, want %v", got, want)
	}
	for i, g := range got {
		if s := g.Due.String() + " " + g.Amount.String(); s != want[i] {
			t.Errorf("installment %d is %s, want %s", i, s, want[i])
		}
	}
	if late := installments(dollars(500), household.On(2027, 1, 16), y); len(late) != 0 {
		t.Errorf("after the last due date: %v", late)
	}
}

// More than the paychecks to come could lower was withheld: the rest comes back.
func TestTooMuchWithheldAlready(t *testing.T) {
	h := overWithheld(t)
	h.Payments.OtherWithholding = h.Payments.OtherWithholding.Add(dollars(3000))
	r, err := Solve(h, year(t, 2026), nil)
	if err != nil {
		t.Fatal(err)
	}
	tuned := planOf(t, r, PlanTuned)
	c := tuned.Certificates[0]
	if tuned.Lands || !c.Withholding.IsZero() || !tuned.Left.IsPositive() {
		t.Errorf("lands %v, withholds %v a paycheck, %v left", tuned.Lands, c.Withholding, tuned.Left)
	}
	// One dollar less in Step 3 would withhold a cent or more.
	less := c.Certificate
	less.Credits = less.Credits.Sub(dollars(1))
	pr := newProjection(h, year(t, 2026), nil)
	if pr.payers[0].withheld(&less, pr.payers[0].from).Equal(pr.payers[0].withheld(&c.Certificate, pr.payers[0].from)) {
		t.Errorf("Step 3 of %v is higher than it does any good", c.Certificate.Credits)
	}
	wantWarning(t, r, "over_withheld")
}

// A certificate on file that ends near enough stays, however it was found; one
// with a status that is taxed less and one that claims exemption do not.
func TestWhatLandsStays(t *testing.T) {
	base := overWithheld(t)
	y := year(t, 2026)
	first, err := Solve(base, y, nil)
	if err != nil {
		t.Fatal(err)
	}
	landed := planOf(t, first, PlanTuned).Certificates[0].Certificate
	for _, tt := range []struct {
		about  string
		change func(c *household.Certificate)
		stays  bool
	}{
		{"as recommended", func(*household.Certificate) {}, true},
		{"a few dollars of Step 3 less", func(c *household.Certificate) { c.Credits = c.Credits.Sub(dollars(10)) }, true},
		{"a few dollars of Step 3 more", func(c *household.Certificate) { c.Credits = c.Credits.Add(dollars(10)) }, true},
		{"far too much Step 3", func(c *household.Certificate) { c.Credits = c.Credits.Add(dollars(2000)) }, false},
		{"another status", func(c *household.Certificate) { c.Status = household.CertificateJoint }, false},
		{"exempt", func(c *household.Certificate) { c.Exempt = true }, false},
	} {
		t.Run(tt.about, func(t *testing.T) {
			h := base
			h.Jobs = append([]household.Job{}, base.Jobs...)
			c := landed
			tt.change(&c)
			h.Jobs[0].Certificate = &c
			r, err := Solve(h, y, nil)
			if err != nil {
				t.Fatal(err)
			}
			if got := r.Recommended.NothingToHandIn(); got != tt.stays {
				t.Errorf("nothing to hand in: %v, want %v (%+v)", got, tt.stays, r.Recommended.Certificates[0].Certificate)
			}
			if tt.stays && len(r.Duties) > 0 {
				t.Errorf("it stays, and %v", r.Duties)
			}
		})
	}
}

// Wages at one job, and a first day: status, signature, nothing more.
func TestNewHire(t *testing.T) {
	r, err := Solve(demo(t, "new-hire"), year(t, 2026), nil)
	if err != nil {
		t.Fatal(err)
	}
	c := r.Recommended.Certificates[0]
	if !c.Certificate.Same(&household.Certificate{}) || c.Keep || c.FirstPayday != household.On(2026, 1, 9) {
		t.Errorf("%+v from %v, keep %v", c.Certificate, c.FirstPayday, c.Keep)
	}
	for _, e := range c.Lines.All() {
		if !e.Reason.IsZero() {
			t.Errorf("line %s has a reason: %s", e.Line, say(e.Reason))
		}
	}
}

func TestTablesOfAnotherYear(t *testing.T) {
	if _, err := Solve(demo(t, "new-hire"), year(t, 2025), nil); err == nil || !strings.Contains(err.Error(), "2026") {
		t.Errorf("error %v, want one that names 2026", err)
	}
}

// The words of a plan are found by its name, so nothing else would say that one
// has none.
func TestEveryPlanHasItsWords(t *testing.T) {
	for _, name := range append([]string{PlanExempt}, simplest...) {
		for _, code := range []string{"certificate.plan.", "certificate.why.", "page.plan.", "interview.phrase.plan_"} {
			if !words.English().Has(code + name) {
				t.Errorf("the plan %s has no entry %s", name, code+name)
			}
		}
	}
}
