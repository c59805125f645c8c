package payroll

import (
	"fmt"
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
	"example.com/plumbline/taxtables"
)

// yearOf is a year's tables as the program ships them.
func yearOf(t testing.TB, year int) *tables.Year {
	t.Helper()
	if years[year] == nil {
		y, err := tables.Load(taxtables.Files, year)
		if err != nil {
			t.Fatal(err)
		}
		years[year] = y
	}
	return years[year]
}

var years = map[int]*tables.Year{}

func amount(s string) money.Amount { return money.MustParse(s) }

// The examples of Publication 15 (2025), section 7, are worked by the wage
// bracket method, for monthly pay. The certificate of 2018 claims one allowance.
var publication15 = []struct {
	source string
	wages  string
	old    bool
	want   string
}{
	{"Publication 15 (2025), section 7, example 2: base pay", "2000", false, "77.00"},
	{"Publication 15 (2025), section 7, example 2: pay and bonus", "3000", false, "190.00"},
	{"Publication 15 (2025), section 7, example 4: pay and two bonuses", "5000", false, "427.00"},
	{"Publication 15 (2025), section 7, example 1: base pay", "1000", true, "11.00"},
	{"Publication 15 (2025), section 7, example 1: pay and commission", "1500", true, "62.00"},
}

func monthly(wages string) Paycheck {
	return Paycheck{Wages: amount(wages), Frequency: household.Monthly}
}

func single(old bool) *household.Certificate {
	if old {
		return &household.Certificate{Edition: household.Before2020, Marital: household.MaritalSingle, Allowances: 1}
	}
	return &household.Certificate{}
}

func TestWageBracketAsPublished(t *testing.T) {
	y := yearOf(t, 2025)
	for _, tt := range publication15 {
		if tt.old {
			continue // the rows of the table for allowances are not known, see TestPublishedWithinARow
		}
		got := Withholding(monthly(tt.wages), single(tt.old), y, Options{WageBracket: true}, nil)
		if got.String() != tt.want {
			t.Errorf("%s: withheld from %s = %v, want %s", tt.source, tt.wages, got, tt.want)
		}
	}
}

// The printed wage bracket amount is the tax, to the dollar, on the middle of
// the row that holds the pay, which is within half a row of it. So both methods
// must lie between it and the tax half a row lower and higher, whatever the
// printed rows are.
func TestPublishedWithinARow(t *testing.T) {
	y := yearOf(t, 2025)
	halfDollar := amount("0.50")
	for _, tt := range publication15 {
		pay := amount(tt.wages)
		from, to, ok := y.Payroll.WageBracket.Rows.Monthly.Row(pay)
		if !ok {
			t.Fatalf("%s: no row for %v", tt.source, pay)
		}
		half := to.Sub(from).DividedBy(2)
		on := func(wages money.Amount) money.Amount {
			p := monthly("0")
			p.Wages = wages
			return Withholding(p, single(tt.old), y, Options{}, nil)
		}
		low, high := on(pay.Sub(half)).Sub(halfDollar), on(pay.Add(half)).Add(halfDollar)
		if want := amount(tt.want); want.Less(low) || want.More(high) {
			t.Errorf("%s: published %v is not between %v and %v, the tax half a row below and above %v", tt.source, want, low, high, pay)
		}
		bracket := Withholding(monthly(tt.wages), single(tt.old), y, Options{WageBracket: true}, nil)
		if bracket.Less(low) || bracket.More(high) {
			t.Errorf("%s: wage bracket method %v is not between %v and %v", tt.source, bracket, low, high)
		}
	}
}

// Each worked by hand from Worksheet 1A with the figures in the comment.
func TestWithholding(t *testing.T) {
	current := func(change func(c *household.Certificate)) *household.Certificate {
		c := new(household.Certificate)
		change(c)
		return c
	}
	old := func(m household.Marital, allowances int, extra string) *household.Certificate {
		return &household.Certificate{Edition: household.Before2020, Marital: m, Allowances: allowances, Extra: amount(extra)}
	}
	tests := []struct {
		source      string
		year        int
		paycheck    Paycheck
		certificate *household.Certificate
		options     Options
		want        string
	}{
		{
			// 5000 × 12 = 60000 − 8600 = 51400; 1192.50 + 12% × (51400 − 18325) = 5161.50; ÷ 12 = 430.125
			"Worksheet 1A, single", 2025, monthly("5000"), single(false), Options{}, "430.13",
		},
		{
			"Worksheet 1A, none on file: as single (Publication 15, section 9)", 2025, monthly("5000"), nil, Options{}, "430.13",
		},
		{
			"Worksheet 1A, to the dollar", 2025, monthly("5000"), single(false), Options{WholeDollars: true}, "430.00",
		},
		{
			// 2400 × 26 = 62400 − 12900 = 49500; 2480 + 12% × (49500 − 44100) = 3128; (3128 − 2200) ÷ 26 = 35.6923; + 20
			"Worksheet 1A, joint, Step 3 and 4(c)", 2026,
			Paycheck{Wages: amount("2400"), Frequency: household.Biweekly},
			current(func(c *household.Certificate) {
				c.Status, c.Credits, c.Extra = household.CertificateJoint, amount("2200"), amount("20")
			}),
			Options{},
			"55.69",
		},
		{
			// 1500 × 52 = 78000; 8077.50 + 24% × (78000 − 64925) = 11215.50; ÷ 52 = 215.6827
			"Worksheet 1A, head of household, Step 2 box", 2026,
			Paycheck{Wages: amount("1500"), Frequency: household.Weekly},
			current(func(c *household.Certificate) {
				c.Status, c.MultipleJobs = household.CertificateHeadOfHousehold, true
			}),
			Options{},
			"215.68",
		},
		{
			// 3000 × 24 = 72000 + 4000 = 76000 − (6000 + 8600) = 61400; 5800 + 22% × (61400 − 57900) = 6570; ÷ 24 = 273.75
			"Worksheet 1A, Steps 4(a) and 4(b)", 2026,
			Paycheck{Wages: amount("3000"), Frequency: household.Semimonthly},
			current(func(c *household.Certificate) { c.OtherIncome, c.Deductions = amount("4000"), amount("6000") }),
			Options{},
			"273.75",
		},
		{
			// 12000 − 4300 = 7700; 10% × (7700 − 6400) = 130; ÷ 12 = 10.8333
			"Worksheet 1A, before 2020, single, one allowance", 2025, monthly("1000"), single(true), Options{}, "10.83",
		},
		{
			// 60000 − 2 × 4300 = 51400; joint: 2385 + 12% × (51400 − 40950) = 3639; ÷ 12 = 303.25; + 15
			"Worksheet 1A, before 2020, married, two allowances, line 6", 2025, monthly("5000"), old(household.MaritalMarried, 2, "15"), Options{}, "318.25",
		},
		{
			// 60000 − 8600 = 51400 by the single table: 430.125 as above
			"Worksheet 1A, before 2020, married at the higher single rate", 2025, monthly("5000"), old(household.MaritalMarriedAtSingleRate, 2, "0"), Options{}, "430.13",
		},
		{
			"Publication 15, section 9: exempt, whatever else is written", 2026, monthly("50000"),
			current(func(c *household.Certificate) { c.Exempt, c.Extra = true, amount("100") }),
			Options{},
			"0.00",
		},
		{
			// (1000 + 576.90) × 26 = 40999.40 − 8600 = 32399.40; 1192.50 + 12% × (32399.40 − 18325) = 2881.428; ÷ 26 = 110.8241
			"Publication 15-T (2025), Table 2: nonresident alien", 2025,
			Paycheck{Wages: amount("1000"), Frequency: household.Biweekly, Nonresident: true},
			single(false),
			Options{},
			"110.82",
		},
		{
			// (1000 + 411.50) × 26 = 36699; 1192.50 + 12% × (36699 − 18325) = 3397.38; ÷ 26 = 130.6685
			"Publication 15-T (2025), Table 1: nonresident alien, before 2020, no allowances", 2025,
			Paycheck{Wages: amount("1000"), Frequency: household.Biweekly, Nonresident: true},
			old(household.MaritalSingle, 0, "0"),
			Options{},
			"130.67",
		},
		{
			// Worksheet 1B: 2000 × 12 = 24000 − 8600 = 15400; 10% × (15400 − 7500) = 790; ÷ 12 = 65.8333; Form W-4P has no Step 2 box
			"Worksheet 1B, pension", 2026,
			Paycheck{Wages: amount("2000"), Frequency: household.Monthly, Kind: household.Pension},
			current(func(c *household.Certificate) { c.MultipleJobs = true }),
			Options{},
			"65.83",
		},
		{
			// 100 × 260 = 26000 − 8600 = 17400; 10% × (17400 − 7500) = 990; ÷ 260 = 3.8077
			"Worksheet 1A, daily", 2026, Paycheck{Wages: amount("100"), Frequency: household.Daily}, single(false), Options{}, "3.81",
		},
		{
			// 20000 × 4 = 80000 − 8600 = 71400; 5800 + 22% × (71400 − 57900) = 8770; ÷ 4 = 2192.50
			"Worksheet 1A, quarterly", 2026, Paycheck{Wages: amount("20000"), Frequency: household.Quarterly}, single(false), Options{}, "2192.50",
		},
		{
			// 40000 × 2: 8770 ÷ 2
			"Worksheet 1A, semiannual", 2026, Paycheck{Wages: amount("40000"), Frequency: household.Semiannual}, single(false), Options{}, "4385.00",
		},
		{
			"Worksheet 1A, annual", 2026, Paycheck{Wages: amount("80000"), Frequency: household.Annual}, single(false), Options{}, "8770.00",
		},
		{
			"pay cannot give more than it holds", 2026, monthly("100"),
			current(func(c *household.Certificate) { c.Extra = amount("500") }),
			Options{},
			"100.00",
		},
		{"no pay, nothing withheld", 2026, monthly("0"), current(func(c *household.Certificate) { c.Extra = amount("5") }), Options{}, "0.00"},
		{
			// the tables end at 100,000 a year; 10000 × 12 = 120000 − 8600 = 111400; 5800 + 22% × (111400 − 57900) = 17570; ÷ 12 = 1464.1667
			"wage bracket method above its tables: the percentage method", 2026, monthly("10000"), single(false), Options{WageBracket: true}, "1464.17",
		},
		{
			// 8350 × 12 = 100200 − 8600 = 91600; 5800 + 22% × (91600 − 57900) = 13214; ÷ 12 = 1101.1667
			"wage bracket method just above 100,000 a year: the percentage method", 2026, monthly("8350"), single(false), Options{WageBracket: true}, "1101.17",
		},
		{
			"wage bracket method where no table is printed", 2026, Paycheck{Wages: amount("20000"), Frequency: household.Quarterly}, single(false), Options{WageBracket: true}, "2192.50",
		},
	}
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			got := Withholding(tt.paycheck, tt.certificate, yearOf(t, tt.year), tt.options, nil)
			if got.String() != tt.want {
				t.Errorf("withheld %v, want %s", got, tt.want)
			}
			traced := Withholding(tt.paycheck, tt.certificate, yearOf(t, tt.year), tt.options, new(worksheet.Sheet))
			if !traced.Equal(got) {
				t.Errorf("withheld %v with a sheet, %v without", traced, got)
			}
		})
	}
}

// The lines as they are on the worksheet, in order.
func TestSteps(t *testing.T) {
	tests := []struct {
		source      string
		paycheck    Paycheck
		certificate *household.Certificate
		options     Options
		form        string
		want        string
	}{
		{
			"Worksheet 1A, worked in TestWithholding", monthly("5000"), single(false),
			Options{},
			"Publication 15-T Worksheet 1A line ",
			"1a 5000.00, 1b 12.00, 1c 60000.00, 1d 0.00, 1e 60000.00, 1f 0.00, 1g 8600.00, 1h 8600.00, 1i 51400.00, " +
				"2a 51400.00, 2b 18325.00, 2c 1192.50, 2d 12.00, 2e 33075.00, 2f 3969.00, 2g 5161.50, 2h 430.13, " +
				"3a 0.00, 3b 0.00, 3c 430.13, 4a 0.00, 4b 430.13",
		},
		{
			"Worksheet 1A, before 2020, worked in TestWithholding", monthly("1000"), single(true),
			Options{},
			"Publication 15-T Worksheet 1A line ",
			"1a 1000.00, 1b 12.00, 1c 12000.00, 1j 1.00, 1k 4300.00, 1l 7700.00, " +
				"2a 7700.00, 2b 6400.00, 2c 0.00, 2d 10.00, 2e 1300.00, 2f 130.00, 2g 130.00, 2h 10.83, " +
				"3a 0.00, 3b 0.00, 3c 10.83, 4a 0.00, 4b 10.83",
		},
		{
			"Worksheet 2, Publication 15 (2025), section 7, example 2", monthly("2000"), single(false),
			Options{WageBracket: true},
			"Publication 15-T Worksheet 2 line ",
			"1a 2000.00, 1b 12.00, 1c 0.00, 1d 0.00, 1e 2000.00, 1f 0.00, 1g 0.00, 1h 2000.00, " +
				"2a 77.00, 3a 0.00, 3b 0.00, 3c 77.00, 4a 0.00, 4b 77.00",
		},
		{
			"Publication 15, section 9", monthly("2000"), &household.Certificate{Exempt: true},
			Options{},
			"Publication 15-T Worksheet 1A line ",
			"1a 2000.00, 4b 0.00",
		},
	}
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			var s worksheet.Sheet
			Withholding(tt.paycheck, tt.certificate, yearOf(t, 2025), tt.options, &s)
			got := ""
			for i, l := range s.Lines {
				line := l.ID[len("payroll."):]
				if i > 0 {
					got += ", "
				}
				got += fmt.Sprintf("%s %v", line, l.Amount)
				if l.Form != tt.form+line {
					t.Errorf("line %s is %q, want %q", line, l.Form, tt.form+line)
				}
				if l.Source == "" || strings.HasPrefix(l.Said(words.English()), "[") {
					t.Errorf("line %s has no label or source", line)
				}
				_ = l.How.String()
			}
			if got != tt.want {
				t.Errorf("lines\n%s, want\n%s", got, tt.want)
			}
		})
	}
}

// A line may come only from lines that are above it.
func TestStepsComeFromLinesAbove(t *testing.T) {
	certificates := []*household.Certificate{single(false), single(true), nil}
	for _, c := range certificates {
		for _, o := range []Options{{}, {WageBracket: true}} {
			var s worksheet.Sheet
			Withholding(monthly("3000"), c, yearOf(t, 2025), o, &s)
			seen := map[string]bool{}
			for _, l := range s.Lines {
				for _, from := range l.From {
					if len(from) > 8 && from[:8] == "payroll." && !seen[from] {
						t.Errorf("%s comes from %s, which is not above it", l.ID, from)
					}
				}
				seen[l.ID] = true
			}
		}
	}
}

func TestWithholdingNotes(t *testing.T) {
	tests := []struct {
		code     string
		paycheck Paycheck
		c        *household.Certificate
		o        Options
	}{
		{"certificate.none", monthly("3000"), nil, Options{}},
		{"withholding.capped", monthly("10"), &household.Certificate{Extra: amount("50")}, Options{}},
		{"bracket.beyond", monthly("12000"), single(false), Options{WageBracket: true}},
		{"nonresident.addition", Paycheck{Wages: amount("3000"), Frequency: household.Monthly, Nonresident: true}, single(false), Options{}},
	}
	for _, tt := range tests {
		var s worksheet.Sheet
		Withholding(tt.paycheck, tt.c, yearOf(t, 2026), tt.o, &s)
		if len(s.Notes) != 1 || s.Notes[0].Code != tt.code {
			t.Errorf("notes %v, want one %s", s.Notes, tt.code)
		}
	}
	var s worksheet.Sheet
	Withholding(monthly("3000"), single(false), yearOf(t, 2026), Options{}, &s)
	if len(s.Notes) != 0 {
		t.Errorf("notes %v on an ordinary paycheck", s.Notes)
	}
}

func BenchmarkWithholding(b *testing.B) {
	y := yearOf(b, 2026)
	p := Paycheck{Wages: amount("2400"), Frequency: household.Biweekly}
	c := &household.Certificate{Status: household.CertificateJoint, Credits: amount("2200"), Extra: amount("20")}
	b.ReportAllocs()
	for b.Loop() {
		Withholding(p, c, y, Options{}, nil)
	}
}
