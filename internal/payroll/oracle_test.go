package payroll

import (
	"fmt"
	"math/big"
	"testing"

	"pgregory.net/rapid"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/published"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/taxtables"
)

// printedRow is a row of the annual tables as they are printed.
type printedRow struct {
	atLeast, tentative, percent *big.Rat
	text                        published.Row
}

// annualTables are the annual tables of Publication 15-T by year, schedule and status.
func annualTables(t testing.TB) map[string][]printedRow {
	t.Helper()
	printed := map[string][]printedRow{}
	for _, row := range published.AnnualTables(t) {
		key := row["year"] + " " + row["schedule"] + " " + row["status"]
		printed[key] = append(printed[key], printedRow{
			atLeast: rat(row["at_least"]), tentative: rat(row["tentative_amount"]), percent: rat(row["rate_percent"]), text: row,
		})
	}
	if all := tables.Years(taxtables.Files); len(printed) != len(all)*2*3 {
		t.Fatalf("%d tables, want those of %v, two schedules and three statuses", len(printed), all)
	}
	return printed
}

func rat(s string) *big.Rat {
	r, ok := new(big.Rat).SetString(s)
	if !ok {
		panic(fmt.Sprintf("%q is not a number", s))
	}
	return r
}

var csvStatus = map[household.CertificateStatus]string{
	household.CertificateSingle:          "single_or_mfs",
	household.CertificateJoint:           "married_filing_jointly",
	household.CertificateHeadOfHousehold: "head_of_household",
}

// Every row of the annual tables of every year: pay once a year such that line
// 2a falls on the row's edge, a dollar below it and a dollar above.
func TestEveryRowOfTheAnnualTables(t *testing.T) {
	rows := 0
	for key, table := range annualTables(t) {
		for i, row := range table {
			rows++
			var year int
			fmt.Sscan(row.text["year"], &year)
			c := &household.Certificate{MultipleJobs: row.text["schedule"] == "step2_checkbox"}
			for status, name := range csvStatus {
				if name == row.text["status"] {
					c.Status = status
				}
			}
			line1g := "0" // Worksheet 1A, line 1g
			switch {
			case c.MultipleJobs:
			case c.Status == household.CertificateJoint:
				line1g = "12900"
			default:
				line1g = "8600"
			}
			edge := amount(row.text["at_least"]).Add(amount(line1g))
			withheld := func(wages money.Amount) money.Amount {
				return Withholding(Paycheck{Wages: wages, Frequency: household.Annual}, c, yearOf(t, year), Options{}, nil)
			}
			if got, want := withheld(edge), amount(row.text["tentative_amount"]); !got.Equal(want) {
				t.Errorf("%s: on the edge of the row from %s: %v, want %v", key, row.text["at_least"], got, want)
			}
			above := amount(row.text["tentative_amount"]).Add(money.Cents(amount(row.text["rate_percent"]).WholeDollars()))
			if got := withheld(edge.Add(money.Dollars(1))); !got.Equal(above) {
				t.Errorf("%s: a dollar above %s: %v, want %v", key, row.text["at_least"], got, above)
			}
			if i == 0 {
				continue
			}
			// A dollar below is in the row before: its tentative amount and its
			// rate on all but one dollar of its width, rounded to the cent.
			before := table[i-1]
			width := new(big.Rat).Sub(row.atLeast, before.atLeast)
			width.Sub(width, rat("1"))
			below := new(big.Rat).Mul(width, before.percent)
			below.Quo(below, rat("100")).Add(below, before.tentative)
			if got, want := withheld(edge.Sub(money.Dollars(1))), toCent(below); got.String() != want {
				t.Errorf("%s: a dollar below %s: %v, want %s", key, row.text["at_least"], got, want)
			}
		}
	}
	if want := 48 * len(tables.Years(taxtables.Files)); rows != want {
		t.Errorf("%d rows, want 48 a year, %d", rows, want)
	}
}

// toCent rounds a positive number to the cent, a half up.
func toCent(r *big.Rat) string {
	cents := new(big.Rat).Mul(r, rat("100"))
	cents.Add(cents, rat("1/2"))
	whole := new(big.Int).Quo(cents.Num(), cents.Denom())
	return new(big.Rat).SetFrac(whole, big.NewInt(100)).FloatString(2)
}

// oracle is Worksheet 1A read as a person reads it: the figures of the
// publication written out, the printed table searched row by row, in fractions
// of integers.
func oracle(printed map[string][]printedRow, year int, p Paycheck, c *household.Certificate) string {
	if c == nil {
		c = &household.Certificate{}
	}
	if c.Exempt {
		return "0.00"
	}
	periods := rat(map[household.Frequency]string{
		household.Daily: "260", household.Weekly: "52", household.Biweekly: "26", household.Semimonthly: "24",
		household.Monthly: "12", household.Quarterly: "4", household.Semiannual: "2", household.Annual: "1",
	}[p.Frequency])
	of := func(a money.Amount) *big.Rat { return rat(a.Text()) }
	sum := func(a, b *big.Rat) *big.Rat { return new(big.Rat).Add(a, b) }
	less := func(a, b *big.Rat) *big.Rat { return new(big.Rat).Sub(a, b) }
	times := func(a, b *big.Rat) *big.Rat { return new(big.Rat).Mul(a, b) }

	wages := of(p.Wages)
	if p.Nonresident && p.Kind == household.Wages && p.Frequency == household.Monthly {
		wages = sum(wages, rat(map[string]string{
			"2025 current": "1250", "2025 before_2020": "891.70", "2026 current": "1341.70", "2026 before_2020": "983.30",
		}[fmt.Sprint(year, " ", c.Edition)]))
	}
	annual := times(wages, periods)
	schedule, status, credits := "standard", csvStatus[c.Status], of(c.Credits)
	if c.Edition == household.Before2020 {
		annual = less(annual, times(rat("4300"), rat(fmt.Sprint(c.Allowances))))
		credits = new(big.Rat)
		status = csvStatus[household.CertificateSingle]
		if c.Marital == household.MaritalMarried {
			status = csvStatus[household.CertificateJoint]
		}
	} else {
		annual = less(sum(annual, of(c.OtherIncome)), of(c.Deductions))
		switch {
		case c.MultipleJobs && p.Kind == household.Wages:
			schedule = "step2_checkbox"
		case c.Status == household.CertificateJoint:
			annual = less(annual, rat("12900"))
		default:
			annual = less(annual, rat("8600"))
		}
	}
	if annual.Sign() < 0 {
		annual = new(big.Rat)
	}
	tax := new(big.Rat)
	for _, row := range printed[fmt.Sprint(year, " ", schedule, " ", status)] {
		if annual.Cmp(row.atLeast) >= 0 {
			tax = sum(row.tentative, times(less(annual, row.atLeast), times(row.percent, rat("1/100"))))
		}
	}
	tax = new(big.Rat).Quo(less(tax, credits), periods)
	if tax.Sign() < 0 {
		tax = new(big.Rat)
	}
	tax = sum(tax, of(c.Extra))
	if tax.Cmp(of(p.Wages)) > 0 {
		tax = of(p.Wages)
	}
	return toCent(tax)
}

// drawCertificate draws any certificate, or none.
func drawCertificate(t *rapid.T, label string) *household.Certificate {
	dollars := func(name string, most int) money.Amount {
		return money.Dollars(int64(rapid.IntRange(0, most).Draw(t, label+" "+name)))
	}
	switch rapid.IntRange(0, 9).Draw(t, label) {
	case 0:
		return nil
	case 1:
		return &household.Certificate{Exempt: true, Extra: dollars("extra", 10)}
	case 2, 3:
		return &household.Certificate{
			Edition:    household.Before2020,
			Marital:    rapid.SampledFrom([]household.Marital{household.MaritalSingle, household.MaritalMarried, household.MaritalMarriedAtSingleRate}).Draw(t, label+" marital"),
			Allowances: rapid.IntRange(0, 12).Draw(t, label+" allowances"),
			Extra:      dollars("extra", 100),
		}
	}
	c := &household.Certificate{
		Status:       rapid.SampledFrom([]household.CertificateStatus{household.CertificateSingle, household.CertificateJoint, household.CertificateHeadOfHousehold}).Draw(t, label+" status"),
		MultipleJobs: rapid.Bool().Draw(t, label+" box"),
	}
	if rapid.Bool().Draw(t, label+" has entries") {
		c.Credits, c.OtherIncome, c.Deductions, c.Extra = dollars("credits", 9000), dollars("other income", 40000), dollars("deductions", 40000), dollars("extra", 300)
	}
	return c
}

// drawPaycheck draws a paycheck of up to a million dollars a year.
func drawPaycheck(t *rapid.T) Paycheck {
	p := Paycheck{
		Frequency: rapid.SampledFrom(household.Frequencies()).Draw(t, "frequency"),
		Kind:      rapid.SampledFrom([]household.JobKind{household.Wages, household.Wages, household.Pension}).Draw(t, "kind"),
	}
	periods := yearPeriods[p.Frequency]
	yearly := rapid.SampledFrom([]int{60_000_00, 250_000_00, 1_000_000_00}).Draw(t, "yearly pay up to")
	p.Wages = money.Cents(int64(rapid.IntRange(0, yearly/periods).Draw(t, "wages")))
	return p
}

var yearPeriods = map[household.Frequency]int{
	household.Daily: 260, household.Weekly: 52, household.Biweekly: 26, household.Semimonthly: 24,
	household.Monthly: 12, household.Quarterly: 4, household.Semiannual: 2, household.Annual: 1,
}

func TestAgainstThePrintedTables(t *testing.T) {
	printed := annualTables(t)
	for _, year := range tables.Years(taxtables.Files) {
		y := yearOf(t, year)
		rapid.Check(t, func(t *rapid.T) {
			p := drawPaycheck(t)
			p.Nonresident = p.Frequency == household.Monthly && rapid.Bool().Draw(t, "nonresident")
			c := drawCertificate(t, "certificate")
			if got, want := Withholding(p, c, y, Options{}, nil).String(), oracle(printed, year, p, c); got != want {
				t.Fatalf("%d: withheld from %v: %s, want %s", year, p.Wages, got, want)
			}
		})
	}
}
