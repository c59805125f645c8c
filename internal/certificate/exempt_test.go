package certificate

import (
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
)

// From the payday on which the claim counts nothing is withheld at the person's
// own jobs; the spouse's certificate stays. The paydays are replayed by payroll,
// which knows an exempt certificate by itself.
//
// Source: IRC 3402(n); Form W-4 (2026), Exempt from withholding: write nothing
// else but the status in Steps 2 to 4.
func TestClaimExempt(t *testing.T) {
	r := solved(t, demo(t, "two-earners"))
	before := r.Recommended
	r.claimExempt(household.On(2027, 2, 16))
	p := r.Recommended
	if p.Name != PlanExempt || p.Reason.Code != "certificate.why.exempt" || r.Alternatives[0].Name != before.Name {
		t.Fatalf("the plan is %s because %q, then comes %s", p.Name, p.Reason, r.Alternatives[0].Name)
	}
	want := money.Zero
	for i, c := range p.Certificates {
		j := r.Household.Jobs[c.Job]
		year := payroll.NewJobYear(r.Household, c.Job, r.Tables)
		onFile := payroll.OnFile{Now: j.Certificate, New: &p.Certificates[i].Certificate, From: c.FirstPayday}
		want = want.Add(year.Withheld(onFile))
		if own := j.Earner == household.OfSelf; c.Certificate.Exempt != own {
			t.Errorf("%s: exempt %v", c.Name, c.Certificate.Exempt)
		} else if own && (!c.Withholding.IsZero() || c.Learns[0].Code != "certificate.learns.exempt") {
			t.Errorf("%s: %v is withheld, and the employer learns %v", c.Name, c.Withholding, c.Learns)
		}
		for _, e := range c.Lines.All() {
			if c.Certificate.Exempt && (!e.Amount.IsZero() || e.Line == "") {
				t.Errorf("%s: line %q has %v", c.Name, e.Line, e.Amount)
			}
		}
	}
	if !p.WithholdingToCome.Equal(want) {
		t.Errorf("%v is withheld to the end of the year, want %v", p.WithholdingToCome, want)
	}
	if less := before.Balance.Sub(p.Balance); !less.Equal(before.WithholdingToCome.Sub(want)) {
		t.Errorf("the balance falls by %v, the withholding by %v", less, before.WithholdingToCome.Sub(want))
	}
}
