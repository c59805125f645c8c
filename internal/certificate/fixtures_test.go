package certificate

import (
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/sample"
	"example.com/plumbline/internal/words"
)

// The households that tests are made of.
var (
	year      = sample.Year
	demo      = sample.Demo
	answers   = sample.Answers
	newRandom = sample.NewRandom
)

// solved is the result of a household in good form, without next year's tables.
func solved(t *testing.T, h household.Household) Result {
	t.Helper()
	h.Check(func(key string, what words.Text) { t.Errorf("%s: %s", key, words.English().Say(what)) })
	r, err := Solve(h, year(t, h.TaxYear), nil)
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// planOf is the plan of a name; it must be there.
func planOf(t *testing.T, r Result, name string) Plan {
	t.Helper()
	for _, p := range append([]Plan{r.Recommended}, r.Alternatives...) {
		if p.Name == name {
			return p
		}
	}
	t.Fatalf("no plan %q", name)
	return Plan{}
}

func dollars(n int64) money.Amount { return money.Dollars(n) }

var demos = []string{"new-hire", "two-earners", "side-business", "retiree", "new-baby"}

func TestDemosLand(t *testing.T) {
	for _, name := range demos {
		t.Run(name, func(t *testing.T) {
			r, err := Solve(demo(t, name), year(t, 2026), nil)
			if err != nil {
				t.Fatal(err)
			}
			show(t, r)
			if !r.Recommended.NearEnough {
				t.Errorf("%s ends on %v", r.Recommended.Name, r.Recommended.Balance)
			}
		})
	}
}

func show(t *testing.T, r Result) {
	t.Logf("as filed %+v lands %v harbor %+v", r.AsFiled, r.AsFiledLands, r.Harbor)
	for _, p := range append([]Plan{r.Recommended}, r.Alternatives...) {
		t.Logf("%s balance %v lands %v left %v: %s", p.Name, p.Balance, p.Lands, p.Left, say(p.Reason))
		for _, c := range p.Certificates {
			t.Logf("   %s from %v keep %v %v box %v 3=%v 4a=%v 4b=%v 4c=%v with %v change %v n=%d learns %v", c.Name, c.FirstPayday, c.Keep, c.Certificate.Status, c.Certificate.MultipleJobs, c.Certificate.Credits, c.Certificate.OtherIncome, c.Certificate.Deductions, c.Certificate.Extra, c.Withholding, c.Change, c.Paydays, c.Learns)
			for _, e := range c.Lines.All() {
				if !e.Reason.IsZero() {
					t.Logf("       %s %v: %s [%s]", e.Line, e.Amount, say(e.Reason), e.Source)
				}
			}
		}
		t.Logf("   shifts %v", p.Shifts())
	}
	if r.January != nil {
		t.Logf("January %d by %d %s %v", r.January.TaxYear, r.January.TablesYear, r.January.Name, r.January.Balance)
		for _, c := range r.January.Certificates {
			t.Logf("   %s 3=%v 4a=%v 4b=%v 4c=%v keep %v change %v", c.Name, c.Certificate.Credits, c.Certificate.OtherIncome, c.Certificate.Deductions, c.Certificate.Extra, c.Keep, c.Change)
		}
	}
	for _, w := range r.OtherWays {
		t.Logf("way %s %s %v %v", w.Code, w.Name, w.Balance, w.Paychecks)
	}
	t.Logf("estimated %+v underpayment %+v", r.Estimated, r.Underpayment)
	for _, w := range r.Warnings {
		t.Logf("warning %s: %s", w.Code, w.Said(words.English()))
	}
}

// say words a text in English.
func say(t words.Text) string { return words.English().Say(t) }
