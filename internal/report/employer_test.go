package report

import (
	"slices"
	"strings"
	"testing"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// An employer's page tells what that employer's form holds and nothing else, on
// every plan, in every way that it can be drawn.
func TestEmployerPagesTellNothingElse(t *testing.T) {
	for _, name := range demos {
		r := solved(t, demo(t, name))
		for _, plan := range append([]certificate.Plan{r.Recommended}, r.Alternatives...) {
			t.Run(name+"/"+plan.Name, func(t *testing.T) {
				on := r
				on.Recommended = plan
				pages := en.FormPages(on)
				given := slices.DeleteFunc(slices.Clone(plan.Certificates), func(c certificate.JobCertificate) bool { return c.Keep })
				if len(pages) != len(given) {
					t.Fatalf("%d pages for %d certificates to hand in", len(pages), len(given))
				}
				person := asText(t, 400, en.Certificate(on))
				for i, c := range given {
					drawn := asText(t, 200, pages[i]) + asMarkdown(t, pages[i]) + pdfText(t, pages[i])
					if !strings.Contains(drawn, c.Name) {
						t.Errorf("the page does not name %s", c.Name)
					}
					for _, fact := range othersFacts(on, c) {
						if strings.Contains(drawn, fact) {
							t.Errorf("the page for %s tells %q", c.Name, fact)
						}
					}
					for _, e := range c.Lines.All() {
						if e.Amount.IsPositive() && !strings.Contains(drawn, e.Amount.GroupedDollars()) {
							t.Errorf("the page for %s leaves out %s", c.Name, e.Amount)
						}
					}
				}
				// The same facts are on the page for the person alone, so the
				// test above can fail.
				if balance := en.balance(plan.Balance); !strings.Contains(person, balance) {
					t.Errorf("the page for the person leaves out %q", balance)
				}
			})
		}
	}
}

// othersFacts are words and figures that are none of an employer's business.
func othersFacts(r certificate.Result, own certificate.JobCertificate) []string {
	figures := []money.Amount{
		r.AsFiled.TotalTax, r.AsFiled.WithheldSoFar, r.AsFiled.WithholdingToCome, r.AsFiled.Balance.Abs(), r.AsFiled.OtherPayments,
		r.Recommended.Balance.Abs(), r.Recommended.WithholdingToCome,
		r.Return.TotalIncome, r.Return.AdjustedGrossIncome, r.Return.TaxableIncome, r.Underpayment.Required,
		own.Withholding, own.Change.Abs(),
	}
	in := r.Household.Income
	figures = append(figures, in.Interest, in.TaxExemptInterest, in.OrdinaryDividends, in.QualifiedDividends, in.ShortTermGain.Abs(), in.LongTermGain.Abs(),
		in.SelfEmployment.Self.Abs(), in.SelfEmployment.Spouse.Abs(), in.Unemployment, in.Retirement, in.GamblingWinnings, in.SocialSecurity, in.Other.Abs())
	facts := []string{"get back", "you owe", "penalty of", "your spouse", "brings home", "fitted", "because"}
	for _, d := range r.Household.Dependents {
		facts = append(facts, d.Name)
	}
	for i, j := range r.Household.Jobs {
		if i != own.Job {
			facts = append(facts, j.Name)
			figures = append(figures, j.OrdinaryPay())
		}
	}
	for _, c := range r.Recommended.Certificates {
		if c.Job == own.Job {
			continue
		}
		for _, e := range c.Lines.All() {
			figures = append(figures, e.Amount)
		}
	}
	var mine []string
	for _, e := range own.Lines.All() {
		mine = append(mine, e.Amount.GroupedDollars())
	}
	for _, f := range figures {
		if dollars := f.GroupedDollars(); len(dollars) > 2 && !slices.Contains(mine, dollars) {
			facts = append(facts, dollars)
		}
	}
	for _, e := range own.Lines.All() {
		if !e.Reason.IsZero() {
			facts = append(facts, words.English().Say(e.Reason))
		}
	}
	return facts
}

func TestEmployerPageOfAPension(t *testing.T) {
	h := demo(t, "retiree")
	r := solved(t, h)
	i := slices.IndexFunc(r.Recommended.Certificates, func(c certificate.JobCertificate) bool { return c.Kind == household.Pension })
	r.Recommended.Certificates[i].Keep = false
	for n, p := range en.FormPages(r) {
		text := asText(t, 80, p)
		pension := r.Recommended.Certificates[n].Kind == household.Pension
		if strings.Contains(text, "W-4P") != pension || strings.Contains(text, "2(c)") == pension {
			t.Errorf("page %d, pension %v:\n%s", n, pension, text)
		}
	}
}

// The steps are in the order and by the names of the year's form.
func TestAllEntries(t *testing.T) {
	c := certificate.JobCertificate{Certificate: household.Certificate{MultipleJobs: true, Exempt: true}}
	for i, e := range []*certificate.Entry{&c.Lines.L3a, &c.Lines.L3b, &c.Lines.L3, &c.Lines.L4a, &c.Lines.L4b, &c.Lines.L4c} {
		e.Line, e.Amount = []string{"3a", "3b", "3", "4a", "4b", "4c"}[i], money.Dollars(int64(1000+i))
	}
	tests := []struct {
		source string
		year   int
		kind   household.JobKind
		want   string
	}{
		{"Form W-4 (2026), p. 1", 2026, household.Wages, "Step 1(c), Step 2(c), Step 3(a) 1,000, Step 3(b) 1,001, Step 3 1,002, Step 4(a) 1,003, Step 4(b) 1,004, Step 4(c) 1,005, Exempt"},
		{"Form W-4 (2025), p. 1: no letters inside Step 3, no box", 2025, household.Wages, "Step 1(c), Step 2(c), Step 3 1,000, Step 3 1,001, Step 3 1,002, Step 4(a) 1,003, Step 4(b) 1,004, Step 4(c) 1,005, Step 4(c)"},
		{"Form W-4P has no Step 2(c), from memory", 2026, household.Pension, "Step 1(c), Step 3(a) 1,000, Step 3(b) 1,001, Step 3 1,002, Step 4(a) 1,003, Step 4(b) 1,004, Step 4(c) 1,005, Exempt"},
	}
	for _, tt := range tests {
		c.Kind = tt.kind
		var got []string
		for _, e := range en.toCopy(c, year(t, tt.year)) {
			step := e.Step
			if strings.Contains(e.Write, ",") {
				step += " " + e.Write
			}
			got = append(got, step)
		}
		if s := strings.Join(got, ", "); s != tt.want {
			t.Errorf("%s: %s, want %s", tt.source, s, tt.want)
		}
	}
}

// A claim to be exempt leaves every step empty but 1(a), 1(b) and 5, Step 1(c)
// too.
//
// Source: Form W-4 (2026), p. 2, Exemption from withholding.
func TestExemptLeavesTheStatusEmpty(t *testing.T) {
	y := year(t, 2026)
	c := certificate.JobCertificate{Kind: household.Wages, Lines: certificate.EmptyLines(), Certificate: household.Certificate{Status: household.Single.OnCertificate(), Exempt: true}}
	for _, e := range en.toCopy(c, y) {
		if claim := e.Step == "Exempt"; claim == e.Empty {
			t.Errorf("%s: %s", e.Step, e.Write)
		}
	}
}

// What is handed over tells, on every page that is no page to copy from, that it is
// for the person alone.
func TestOnlyPagesToCopyAreForOthers(t *testing.T) {
	r := solved(t, demo(t, "two-earners"))
	pages := en.Handover(r)
	copies := 0
	for _, p := range pages {
		alone := strings.Contains(strings.ToLower(p.Title), "for you alone")
		if copied := p.Kind == FormPage || p.Kind == NextForm; copied == alone {
			t.Errorf("%q is a page of kind %v", p.Title, p.Kind)
		} else if copied {
			copies++
		}
	}
	if copies == 0 || copies == len(pages) {
		t.Errorf("%d pages, %d of them to copy from", len(pages), copies)
	}
}
