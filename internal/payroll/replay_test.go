package payroll

import (
	"testing"

	"pgregory.net/rapid"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// replay pays a job day by day from January to December, as a payroll office
// does: it knows no runs of equal paychecks.
func replay(h household.Household, f OnFile, y2026 func(p Paycheck, c *household.Certificate) money.Amount) (withheld money.Amount) {
	job := h.Jobs[0]
	pay := job.OrdinaryPay()
	paycheck := func(wages money.Amount) Paycheck {
		return Paycheck{Wages: wages, Frequency: job.Frequency, Kind: job.Kind}
	}
	calendar := map[household.Date]bool{}
	toCome := map[household.Date]int{} // paychecks: daily pay of a holiday comes with another day's
	for _, d := range job.Paydays(2026) {
		calendar[d] = true
	}
	for _, d := range job.PaydaysToCome(2026) {
		toCome[d]++
	}
	taxed := job.YearToDate != nil && job.YearToDate.FederalTax.IsPositive()
	known := job.YearToDate != nil
	million := amount("1000000")
	supplemental := money.Zero
	with, paydaysSeen := pay, 0 // the pay and bonuses of the current period
	if len(calendar) == 0 {
		with = money.Zero
	}
	for d := date("2026-01-01"); d.Year == 2026; d = d.AddDays(1) {
		c := f.Now
		if !f.From.IsZero() && d.Compare(f.From) >= 0 {
			c = f.New
		}
		if calendar[d] {
			if paydaysSeen > 0 {
				with = pay
			}
			paydaysSeen++
		}
		for range toCome[d] {
			tax := y2026(paycheck(pay), c)
			withheld = withheld.Add(tax)
			known = true
			taxed = taxed || tax.IsPositive()
		}
		for _, b := range job.OneTimePay {
			if job.PaydayOf(b.Payday) != d {
				continue
			}
			over := money.Min(b.Amount, supplemental.Add(b.Amount).Sub(million).OrZero())
			within := b.Amount.Sub(over)
			supplemental = supplemental.Add(b.Amount)
			paid := job.YearToDate != nil && d.Compare(job.YearToDate.Payday) <= 0
			exempt := c != nil && c.Exempt
			flat := b.Withholding == household.FlatRate && job.Kind == household.Wages
			if !paid && !exempt && known && !taxed {
				flat = false
			}
			if !paid {
				withheld = withheld.Add(over.At(money.Percent(37)).ToCent())
				switch {
				case flat && !exempt:
					withheld = withheld.Add(within.At(money.Percent(22)).ToCent())
				case !flat:
					withheld = withheld.Add(y2026(paycheck(with.Add(within)), c).Sub(y2026(paycheck(with), c)))
				}
			}
			if !flat {
				with = with.Add(within)
			}
		}
	}
	return withheld
}

func drawJob(t *rapid.T) household.Job {
	f := rapid.SampledFrom(household.Frequencies()).Draw(t, "frequency")
	j := household.Job{Frequency: f, Kind: rapid.SampledFrom([]household.JobKind{household.Wages, household.Wages, household.Pension}).Draw(t, "kind")}
	j.TaxablePay = money.Cents(int64(rapid.IntRange(0, 300_000_00/yearPeriods[f]).Draw(t, "pay")))
	j.Pretax.Retirement = money.Dollars(int64(rapid.SampledFrom([]int{0, 0, 150}).Draw(t, "retirement")))
	j.FirstPayday = date("2026-01-01").AddDays(rapid.IntRange(-20, 300).Draw(t, "first"))
	if rapid.Bool().Draw(t, "ends") {
		j.LastPayday = j.FirstPayday.AddDays(rapid.IntRange(0, 300).Draw(t, "last"))
	}
	if days := j.Paydays(2026); len(days) > 0 && rapid.Bool().Draw(t, "has a stub") {
		n := rapid.IntRange(0, len(days)-1).Draw(t, "stub")
		j.YearToDate = &household.YearToDate{Payday: days[n], TaxablePay: j.TaxablePay.Times(n + 1)}
		if rapid.Bool().Draw(t, "tax so far") {
			j.YearToDate.FederalTax = j.YearToDate.TaxablePay.DividedBy(10).ToCent()
		}
	}
	for range rapid.IntRange(0, 4).Draw(t, "bonuses") {
		j.OneTimePay = append(j.OneTimePay, household.OneTimePay{
			Payday:      date("2026-01-01").AddDays(rapid.IntRange(0, 364).Draw(t, "bonus day")),
			Amount:      money.Cents(int64(rapid.SampledFrom([]int{5_000_00, 700_000_00}).Draw(t, "bonus up to")) * int64(rapid.IntRange(0, 100).Draw(t, "of 100")) / 100),
			Withholding: rapid.SampledFrom([]household.BonusTreatment{household.FlatRate, household.WithPaycheck}).Draw(t, "treatment"),
		})
	}
	return j
}

// What the runs of equal paychecks give is what paying day by day gives, and
// the ledger and the year's pay agree with it.
func TestAgainstAReplay(t *testing.T) {
	y := yearOf(t, 2026)
	rapid.Check(t, func(t *rapid.T) {
		h := one(drawJob(t))
		f := OnFile{Now: drawCertificate(t, "now"), New: drawCertificate(t, "new")}
		if rapid.Bool().Draw(t, "a new certificate") {
			f.From = date("2026-01-01").AddDays(rapid.IntRange(0, 364).Draw(t, "from"))
		}
		j := NewJobYear(h, 0, y)
		want := replay(h, f, func(p Paycheck, c *household.Certificate) money.Amount { return Withholding(p, c, y, Options{}, nil) })
		if got := j.Withheld(f); !got.Equal(want) {
			t.Fatalf("withheld to come = %v, day by day %v", got, want)
		}

		pay := j.YearPay(f)
		wages, federal, social, medicare, takeHome := money.Zero, money.Zero, money.Zero, money.Zero, money.Zero
		last := household.Date{}
		for _, e := range j.Ledger(f) {
			if e.Date.Before(last) || e.Date == last && h.Jobs[0].Frequency != household.Daily {
				t.Fatalf("payday %v comes out of order", e.Date)
			}
			last = e.Date
			wages = money.Sum(wages, e.Pay, e.OneTime)
			federal = federal.Add(e.FederalTax)
			social = social.Add(e.SocialSecurity)
			medicare = medicare.Add(e.Medicare)
			takeHome = takeHome.Add(e.TakeHome)
		}
		if !federal.Equal(want) {
			t.Fatalf("the ledger's federal tax %v, want %v", federal, want)
		}
		if got := wages.Sub(federal).Sub(social).Sub(medicare); !got.Equal(takeHome) {
			t.Fatalf("take-home adds up to %v, pay less taxes is %v", takeHome, got)
		}
		before := money.Zero // wages by the stub
		if s := h.Jobs[0].YearToDate; s != nil {
			before = s.TaxablePay
		}
		if got := pay.TaxableWages.Sub(before); !got.Equal(wages) {
			t.Fatalf("the year's wages to come %v, the ledger's %v", got, wages)
		}
		if got := pay.FederalTax; !got.Equal(j.SoFar().Add(want)) {
			t.Fatalf("the year's federal tax %v, want %v and %v so far", got, want, j.SoFar())
		}
		if h.Jobs[0].YearToDate == nil {
			if !social.Equal(pay.SocialSecurityTax) || !medicare.Equal(pay.MedicareTax.Add(pay.AdditionalMedicareTax)) {
				t.Fatalf("the ledger's social security %v and Medicare %v, the year's %v, %v and %v", social, medicare, pay.SocialSecurityTax, pay.MedicareTax, pay.AdditionalMedicareTax)
			}
		}
	})
}
