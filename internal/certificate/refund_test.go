package certificate

import (
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// A single parent of two with a form of before 2020 on file. 27 paydays in 2026,
// the last on December 31; three are left, and a new form reaches the last two.
//
// 2026: wages 40,300 + 3 × 1,920 = 46,060; less 24,150 is 21,910 of taxable income
// (Rev. Proc. 2025-32 § 4.14); the credit for care is 35% of 8 × 225 + 2 × 900 =
// 1,260, and the child tax credit takes the rest of the tax. What is left of it, and
// the earned income credit, is paid out.
//
// A full year at the same figures: wages 26 × 1,920 = 49,920, taxable 25,770, tax
// 1,770 + 12% × 8,070 = 2,738. Care 35% × 6,000 = 2,100, child tax credit 638. Paid
// out: 2 × 1,700 = 3,400 of the child tax credit, and 7,316 − 21.06% × (49,925 −
// 23,890) = 1,833 of earned income credit: 5,233.
const parentOfTwo = `format: 1
tax_year: 2026
as_of: 2026-11-27
filing_status: head_of_household
jobs:
  - pay_frequency: biweekly
    year_to_date: {payday: 2026-11-20, taxable_pay: 40300, federal_tax: 3908.43}
    taxable_pay: 1920
    certificate: {edition: before_2020, marital: single, allowances: 0}
dependents:
  - {relationship: child, birth_date: 2018-03-03, months_with_you: 12, care_monthly: {amount: 225, first_month: 1, last_month: 8}}
  - {relationship: child, birth_date: 2026-09-14, months_with_you: 4, care_monthly: {amount: 900, first_month: 11, last_month: 12}}
wish: `

// Credits that are paid out come back whatever is withheld: to aim for a refund of
// no more, or hardly more, asks for the same forms as to aim for none, this year and
// next. A larger one does not.
func TestRefundThatComesBackAnyway(t *testing.T) {
	said := func(r Result) string {
		var all []string
		for _, t := range r.Verdict.Sentences {
			all = append(all, say(t))
		}
		return strings.Join(all, " ")
	}
	none := solvedText(t, parentOfTwo+"{refund: 0}")
	c := none.Recommended.Certificates[0].Certificate
	if want := (household.Certificate{Status: household.CertificateHeadOfHousehold, Credits: dollars(5660)}); !c.Same(&want) {
		t.Errorf("with no refund to aim for: %+v", c)
	}
	if got := none.January.Balance.ToDollar(); !got.Equal(dollars(5233)) {
		t.Errorf("January's year ends on %v", got)
	}
	if said := warned(none, "over_withheld"); !strings.Contains(said, "at least $10,122") {
		t.Errorf("the least that comes back: %q", said)
	}
	for _, tt := range []struct {
		wish string
		same bool
	}{
		{"{refund: 3000}", true},
		{"{refund: 5233}", true},
		{"{refund: 5440}", true},  // 207 more than comes back next year: within 250, and within 4% of it, 217.60
		{"{refund: 5460}", false}, // 227, beyond 218.40
		{"{refund: 6500}", false},
		{"{refund: 5440, within: 0}", false},
	} {
		r := solvedText(t, parentOfTwo+tt.wish)
		got, then := r.Recommended.Certificates[0].Certificate, r.January.Certificates[0].Certificate
		if same := got.Same(&c) && then.Same(&none.January.Certificates[0].Certificate); same != tt.same {
			t.Errorf("%s: now %+v, in January %+v; as with no refund: %v, want %v", tt.wish, got, then, same, tt.same)
		}
		if was, is := said(none), said(r); tt.same && is != was {
			t.Errorf("%s: %s\ninstead of %s", tt.wish, is, was)
		}
	}
}

// A new form has the true filing status where it does as well as another: the one on
// file, which may stay, is not signed again.
func TestTrueStatusOnNewForm(t *testing.T) {
	r := solvedText(t, parentOfTwo+"{refund: 9500}")
	for _, c := range r.Recommended.Certificates {
		if c.Keep || c.Certificate.Status != household.CertificateHeadOfHousehold || c.Certificate.Extra.IsZero() {
			t.Errorf("%+v", c.Certificate)
		}
	}
	truly := option{plan: PlanExtra, forms: 1, entries: 1, over: money.Dollars(20)}
	other := option{plan: PlanExtra, forms: 1, untrue: 1, lasts: true}
	if truly.compare(other) >= 0 || other.compare(truly) <= 0 {
		t.Error("another status is chosen before the true one")
	}
}

// January says what would come back on the form on file, and that paychecks are
// smaller for it, where much less comes back on the forms advised; elsewhere nothing.
//
// Single from before 2020 on 49,920: 1,240 + 12% × (49,920 − 19,900) = 4,842.40; ÷ 26 =
// 186.25 (Publication 15-T, Worksheet 1A), 26 times 4,842.50, beside the 5,233.
func TestJanuaryBesideTheFormOnFile(t *testing.T) {
	r := solvedText(t, parentOfTwo+"{refund: 0}")
	if got, want := say(r.January.OnFile), "With the form on file now, you would get back about $10,076 and take home about $186 less from each paycheck."; got != want {
		t.Errorf("%q, want %q", got, want)
	}
	if got := solvedText(t, parentOfTwo+"{refund: 10500}").January.OnFile; !got.IsZero() { // it stays
		t.Errorf("%q", say(got))
	}
	// 9,500 is 576 less than on the form on file: not so much that it needs to be said.
	if got := solvedText(t, parentOfTwo+"{refund: 9500}").January.OnFile; !got.IsZero() {
		t.Errorf("%q", say(got))
	}
}
