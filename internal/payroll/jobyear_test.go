package payroll

import (
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

func date(s string) household.Date {
	var d household.Date
	if s != "" {
		if err := d.UnmarshalText([]byte(s)); err != nil {
			panic(err)
		}
	}
	return d
}

// one is a household of a single job in 2026.
func one(j household.Job) household.Household {
	return household.Household{Format: 1, TaxYear: 2026, AsOf: date("2026-01-01"), Jobs: []household.Job{j}}
}

func stub(payday, pay, tax string) *household.YearToDate {
	return &household.YearToDate{Payday: date(payday), TaxablePay: amount(pay), FederalTax: amount(tax)}
}

func bonusOn(payday, pay string, treatment household.BonusTreatment) household.OneTimePay {
	return household.OneTimePay{Payday: date(payday), Amount: amount(pay), Withholding: treatment}
}

// Withheld to year end, from one paycheck's withholding worked by hand:
//
//	biweekly 2,400 single, 2026: 62400 − 8600 = 53800; 1240 + 12% × (53800 − 19900) = 5308; ÷ 26 = 204.15
//	weekly 1,200 single, 2026: the same yearly pay, 5308 ÷ 52 = 102.08
//	joint: 62400 − 12900 = 49500; 2480 + 12% × (49500 − 44100) = 3128; ÷ 26 = 120.31
//	monthly 5,000 single: 60000 − 8600 = 51400; 1240 + 12% × 31500 = 5020; ÷ 12 = 418.33
func TestWithheld(t *testing.T) {
	const flat, together = household.FlatRate, household.WithPaycheck
	single, joint := &household.Certificate{}, &household.Certificate{Status: household.CertificateJoint}
	exempt := &household.Certificate{Exempt: true}
	job := func(f household.Frequency, pay, first string) household.Job {
		return household.Job{Frequency: f, TaxablePay: amount(pay), FirstPayday: date(first)}
	}
	biweekly, monthly := job(household.Biweekly, "2400", "2026-01-09"), job(household.Monthly, "5000", "2026-01-31")
	with := func(j household.Job, change func(j *household.Job)) household.Job {
		change(&j)
		return j
	}
	bonuses := func(list ...household.OneTimePay) func(j *household.Job) {
		return func(j *household.Job) { j.OneTimePay = list }
	}
	tests := []struct {
		source string
		job    household.Job
		onFile OnFile
		want   string
	}{
		{"26 biweekly paydays from 9 January: 26 × 204.15", biweekly, OnFile{Now: single}, "5307.90"},
		{"27 biweekly paydays from 2 January to New Year's Day 2027, paid on 31 December, each by 26 pay periods: 27 × 204.15", job(household.Biweekly, "2400", "2026-01-02"), OnFile{Now: single}, "5512.05"},
		{"52 Fridays of 2026 and New Year's Day 2027, each by 52 pay periods: 53 × 102.08", job(household.Weekly, "1200", "2026-01-02"), OnFile{Now: single}, "5410.24"},
		{"New Year's Day 2026 was paid on 31 December 2025: 26 × 204.15", job(household.Biweekly, "2400", "2026-01-01"), OnFile{Now: single}, "5307.90"},
		{"none on file: as single", biweekly, OnFile{}, "5307.90"},
		{"job begun 10 July: 13 × 204.15", job(household.Biweekly, "2400", "2026-07-10"), OnFile{Now: single}, "2653.95"},
		{"job ended 27 March: 6 × 204.15", with(biweekly, func(j *household.Job) { j.LastPayday = date("2026-03-27") }), OnFile{Now: single}, "1224.90"},
		{"stub of 12 June: the 14 paydays after it", with(biweekly, func(j *household.Job) { j.YearToDate = stub("2026-06-12", "28800", "2449.80") }), OnFile{Now: single}, "2858.10"},
		{
			"new certificate on 10 July: 1 × 204.15 on 26 June, 13 × 120.31",
			with(biweekly, func(j *household.Job) { j.YearToDate = stub("2026-06-12", "28800", "2449.80") }),
			OnFile{Now: single, New: joint, From: date("2026-07-10")},
			"1768.18",
		},
		{
			"new certificate between two paydays: from the later",
			with(biweekly, func(j *household.Job) { j.YearToDate = stub("2026-06-12", "28800", "2449.80") }),
			OnFile{Now: single, New: joint, From: date("2026-06-27")},
			"1768.18",
		},
		{"new certificate after the last payday", biweekly, OnFile{Now: single, New: joint, From: date("2026-12-26")}, "5307.90"},
		{"new certificate before the first payday: 26 × 120.31", biweekly, OnFile{Now: single, New: joint, From: date("2026-01-01")}, "3128.06"},
		{"flat rate on a payday: 12 × 418.33 + 220", with(monthly, bonuses(bonusOn("2026-06-30", "1000", flat))), OnFile{Now: single}, "5239.96"},
		{"flat rate on a day of its own", with(monthly, bonuses(bonusOn("2026-06-10", "1000", flat))), OnFile{Now: single}, "5239.96"},
		// 6000 × 12 = 72000 − 8600 = 63400; 5800 + 22% × 5500 = 7010; ÷ 12 = 584.17
		{"with the paycheck: 11 × 418.33 + 584.17", with(monthly, bonuses(bonusOn("2026-06-30", "1000", together))), OnFile{Now: single}, "5185.80"},
		{"with the paycheck of the period, on a day of its own: the same", with(monthly, bonuses(bonusOn("2026-06-10", "1000", together))), OnFile{Now: single}, "5185.80"},
		{"before the first payday: with the pay of the first", with(monthly, bonuses(bonusOn("2026-01-10", "1000", together))), OnFile{Now: single}, "5185.80"},
		// 7000 × 12 = 84000 − 8600 = 75400; 5800 + 22% × 17500 = 9650; ÷ 12 = 804.17
		{
			"Publication 15, section 7, example 4: two in one period, 11 × 418.33 + 804.17",
			with(monthly, bonuses(bonusOn("2026-07-05", "1000", together), bonusOn("2026-06-30", "1000", together))),
			OnFile{Now: single},
			"5405.80",
		},
		{
			"two in two periods: 10 × 418.33 + 2 × 584.17",
			with(monthly, bonuses(bonusOn("2026-07-31", "1000", together), bonusOn("2026-06-30", "1000", together))),
			OnFile{Now: single},
			"5351.64",
		},
		{
			"one taxed flat is not taxed again with the next: 11 × 418.33 + 220 + 584.17",
			with(monthly, bonuses(bonusOn("2026-06-30", "1000", flat), bonusOn("2026-07-05", "1000", together))),
			OnFile{Now: single},
			"5405.80",
		},
		{
			"on the stub's payday it is paid already",
			with(monthly, func(j *household.Job) {
				j.YearToDate = stub("2026-06-30", "31000", "2729.98")
				j.OneTimePay = []household.OneTimePay{bonusOn("2026-06-30", "1000", flat)}
			}),
			OnFile{Now: single},
			"2509.98",
		},
		{
			// what was paid before counts toward the million: 37% × 1000
			"above a million with what is paid already: 6 × 418.33 + 370",
			with(monthly, func(j *household.Job) {
				j.YearToDate = stub("2026-06-30", "1030000", "222509.98")
				j.OneTimePay = []household.OneTimePay{bonusOn("2026-03-15", "1000000", flat), bonusOn("2026-09-15", "1000", flat)}
			}),
			OnFile{Now: single},
			"2879.98",
		},
		{"an exempt employee's bonus is exempt", with(monthly, bonuses(bonusOn("2026-06-30", "1000", flat))), OnFile{Now: exempt}, "0.00"},
		{
			// 1000 × 12 = 12000: no tax; with 5000: 72000 − 8600: 584.17
			"no tax withheld from regular pay: not flat but with the paycheck",
			with(monthly, func(j *household.Job) {
				j.TaxablePay = amount("1000")
				j.OneTimePay = []household.OneTimePay{bonusOn("2026-06-30", "5000", flat)}
			}),
			OnFile{Now: single},
			"584.17",
		},
		{
			"tax was withheld earlier in the year, so flat though none is withheld now: 22% × 5000",
			with(monthly, func(j *household.Job) {
				j.TaxablePay = amount("1000")
				j.YearToDate = stub("2026-05-31", "25000", "100")
				j.OneTimePay = []household.OneTimePay{bonusOn("2026-06-30", "5000", flat)}
			}),
			OnFile{Now: single},
			"1100.00",
		},
		{
			"tax was withheld under the certificate before, so flat: 2 × 418.33 + 220",
			with(monthly, bonuses(bonusOn("2026-06-30", "1000", flat))),
			OnFile{Now: single, New: &household.Certificate{Credits: amount("9000")}, From: date("2026-03-01")},
			"1056.66",
		},
		{"before the first payday nothing is known of regular pay: flat as the answers say", with(job(household.Monthly, "1000", "2026-01-31"), bonuses(bonusOn("2026-01-05", "5000", flat))), OnFile{Now: single}, "1100.00"},
		{
			// 5000 alone a month: 418.33
			"a bonus after the job ended, in a year without other paydays, is a paycheck of its own",
			with(monthly, func(j *household.Job) {
				j.FirstPayday, j.LastPayday = date("2025-01-31"), date("2025-12-31")
				j.OneTimePay = []household.OneTimePay{bonusOn("2026-02-10", "5000", together)}
			}),
			OnFile{Now: single},
			"418.33",
		},
	}
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			j := NewJobYear(one(tt.job), 0, yearOf(t, 2026))
			if got := j.Withheld(tt.onFile); got.String() != tt.want {
				t.Errorf("withheld to come = %v, want %s", got, tt.want)
			}
			total := money.Zero
			for _, e := range j.Ledger(tt.onFile) {
				total = total.Add(e.FederalTax)
			}
			if total.String() != tt.want {
				t.Errorf("the ledger's federal tax adds up to %v, want %s", total, tt.want)
			}
		})
	}
}

// Monthly pay of 20,000 in 2026, worked by hand:
//
//	social security to the base of 184,500: 6.2% × 20000 = 1240 nine times (180,000), then 6.2% × 4500 = 279, then nothing
//	Medicare 1.45% × 20000 = 290; additional Medicare 0.9% × 20000 = 180 on the pay above 200,000, in November and December
//	federal tax: 240000 − 8600 = 231400; 41024 + 32% × (231400 − 209275) = 48104; ÷ 12 = 4008.67
func TestLedger(t *testing.T) {
	j := NewJobYear(one(household.Job{Frequency: household.Monthly, TaxablePay: amount("20000"), FirstPayday: date("2026-01-31")}), 0, yearOf(t, 2026))
	entries := j.Ledger(OnFile{})
	if len(entries) != 12 {
		t.Fatalf("%d entries, want 12", len(entries))
	}
	for i, want := range map[int][5]string{ // month − 1: federal tax, social security, Medicare, additional Medicare within it, take-home
		0:  {"4008.67", "1240.00", "290.00", "0.00", "14461.33"},
		8:  {"4008.67", "1240.00", "290.00", "0.00", "14461.33"},
		9:  {"4008.67", "279.00", "290.00", "0.00", "15422.33"},
		10: {"4008.67", "0.00", "470.00", "180.00", "15521.33"},
		11: {"4008.67", "0.00", "470.00", "180.00", "15521.33"},
	} {
		e := entries[i]
		got := [5]string{e.FederalTax.String(), e.SocialSecurity.String(), e.Medicare.String(), e.AdditionalMedicare.String(), e.TakeHome.String()}
		if got != want {
			t.Errorf("%v: %v, want %v", e.Date, got, want)
		}
	}
}

// Social security and Medicare on the whole year, worked by hand.
func TestYearPay(t *testing.T) {
	tests := []struct {
		source string
		year   int
		job    household.Job
		// wages, social security wages, Medicare wages, and the three taxes
		want [6]string
	}{
		{
			"IRC 3101: 6.2% and 1.45% × 60,000", 2026,
			household.Job{Frequency: household.Monthly, TaxablePay: amount("5000"), FirstPayday: date("2026-01-31")},
			[6]string{"60000.00", "60000.00", "60000.00", "3720.00", "870.00", "0.00"},
		},
		{
			"wage base 2026: 6.2% × 184,500; 1.45% × 240,000; 0.9% × 40,000", 2026,
			household.Job{Frequency: household.Monthly, TaxablePay: amount("20000"), FirstPayday: date("2026-01-31")},
			[6]string{"240000.00", "184500.00", "240000.00", "11439.00", "3480.00", "360.00"},
		},
		{
			"wage base 2025: 6.2% × 176,100; 1.45% × 240,000; 0.9% × 40,000", 2025,
			household.Job{Frequency: household.Monthly, TaxablePay: amount("20000"), FirstPayday: date("2025-01-31")},
			[6]string{"240000.00", "176100.00", "240000.00", "10918.20", "3480.00", "360.00"},
		},
		{
			"retirement saving is not taxed but is social security wages: 12 × 1,000 more, the stub's paydays too", 2026,
			household.Job{
				Frequency: household.Monthly, TaxablePay: amount("4000"), FirstPayday: date("2026-01-31"),
				Pretax: household.Pretax{Retirement: amount("1000")}, YearToDate: stub("2026-06-30", "24000", "0"),
			},
			[6]string{"48000.00", "60000.00", "60000.00", "3720.00", "870.00", "0.00"},
		},
		{
			// 24000 + 6 × 5000 + 3000 = 57000; 6.2% = 3534; 1.45% = 826.50
			"the stub's figures, six paydays and a bonus to come", 2026,
			household.Job{
				Frequency: household.Monthly, TaxablePay: amount("5000"), FirstPayday: date("2026-01-31"),
				YearToDate: stub("2026-06-30", "24000", "0"), OneTimePay: []household.OneTimePay{bonusOn("2026-11-10", "3000", household.FlatRate)},
			},
			[6]string{"57000.00", "57000.00", "57000.00", "3534.00", "826.50", "0.00"},
		},
		{
			"IRC 3121: a pension is not wages", 2026,
			household.Job{Frequency: household.Monthly, Kind: household.Pension, TaxablePay: amount("2000"), FirstPayday: date("2026-01-31")},
			[6]string{"24000.00", "0.00", "0.00", "0.00", "0.00", "0.00"},
		},
		{
			"gross pay less pre-tax deductions: 26 × (2650 − 250); social security on 26 × 2550 = 66300: 4110.60; 961.35", 2026,
			household.Job{
				Frequency: household.Biweekly, GrossPay: amount("2650"), FirstPayday: date("2026-01-09"),
				Pretax: household.Pretax{Retirement: amount("150"), Health: amount("100")},
			},
			[6]string{"62400.00", "66300.00", "66300.00", "4110.60", "961.35", "0.00"},
		},
	}
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			h := one(tt.job)
			h.TaxYear = tt.year
			p := NewJobYear(h, 0, yearOf(t, tt.year)).YearPay(OnFile{})
			got := [6]string{
				p.TaxableWages.String(), p.SocialSecurityWages.String(), p.MedicareWages.String(),
				p.SocialSecurityTax.String(), p.MedicareTax.String(), p.AdditionalMedicareTax.String(),
			}
			if got != tt.want {
				t.Errorf("year's pay %v, want %v", got, tt.want)
			}
		})
	}
}

// A certificate handed in for a later payday: until then payroll goes by the one
// before it, where that is known. 204.15 on June 26 and 13 × 120.31, as in
// TestWithheld; 14 × 120.31 where it is not known.
func TestACertificateThatCountsLater(t *testing.T) {
	joint := &household.Certificate{Status: household.CertificateJoint, CountsFrom: date("2026-07-10")}
	j := household.Job{
		Frequency: household.Biweekly, TaxablePay: amount("2400"), FirstPayday: date("2026-01-09"),
		YearToDate: stub("2026-06-12", "28800", "2449.80"), Certificate: joint, EarlierCertificates: []household.Certificate{{}},
	}
	if got := NewJobYear(one(j), 0, yearOf(t, 2026)).Withheld(OnFile{Now: joint}); got.String() != "1768.18" {
		t.Errorf("withheld to come = %v, want 1768.18", got)
	}
	if got := NewJobYear(one(j), 0, yearOf(t, 2026)).Withheld(OnFile{Now: joint, New: &household.Certificate{}, From: date("2026-06-20")}); got.String() != "2858.10" {
		t.Errorf("with a new one before it counts = %v, want 14 × 204.15 = 2858.10", got)
	}
	j.EarlierCertificates = nil
	if got := NewJobYear(one(j), 0, yearOf(t, 2026)).Withheld(OnFile{Now: joint}); got.String() != "1684.34" {
		t.Errorf("withheld to come = %v, want 1684.34", got)
	}
}

func TestPaydays(t *testing.T) {
	j := NewJobYear(one(household.Job{
		Frequency: household.Monthly, TaxablePay: amount("5000"), FirstPayday: date("2026-01-31"), YearToDate: stub("2026-09-30", "45000", "3000"),
		OneTimePay: []household.OneTimePay{
			bonusOn("2026-12-15", "700", household.FlatRate), bonusOn("2026-10-31", "300", household.FlatRate),
			bonusOn("2026-12-15", "50", household.WithPaycheck), bonusOn("2026-09-30", "999", household.FlatRate), bonusOn("2027-01-10", "1", household.FlatRate),
		},
	}), 0, yearOf(t, 2026))
	var got []string
	for _, d := range j.Paydays() {
		got = append(got, d.Date.String()+" "+d.Pay.String()+"+"+d.OneTime.String())
	}
	want := "2026-10-30 5000.00+300.00; 2026-11-30 5000.00+0.00; 2026-12-15 0.00+750.00; 2026-12-31 5000.00+0.00"
	if s := strings.Join(got, "; "); s != want {
		t.Errorf("paydays %s, want %s", s, want)
	}
	for day, want := range map[string]int{"2026-01-01": 3, "2026-10-30": 3, "2026-10-31": 2, "2026-12-15": 1, "2026-12-31": 1, "2027-01-01": 0} {
		if got := j.OrdinaryFrom(date(day)); got != want {
			t.Errorf("OrdinaryFrom(%s) = %d, want %d", day, got, want)
		}
	}
	if got := j.SoFar().String(); got != "3000.00" {
		t.Errorf("SoFar = %s", got)
	}
	if got := j.Paycheck(); got.Wages.String() != "5000.00" || got.Frequency != household.Monthly {
		t.Errorf("Paycheck = %v", got)
	}
}

func TestNotes(t *testing.T) {
	base := household.Job{Name: "Mill", Frequency: household.Monthly, TaxablePay: amount("5000"), FirstPayday: date("2026-01-31")}
	tests := []struct {
		want   string
		change func(j *household.Job)
		onFile OnFile
	}{
		{"", func(*household.Job) {}, OnFile{}},
		{"paydays.assumed", func(j *household.Job) { j.FirstPayday = household.Date{} }, OnFile{}},
		{"paydays.moved_into_year paydays.more_than_periods", func(j *household.Job) { j.Frequency, j.FirstPayday = household.Biweekly, date("2026-01-02") }, OnFile{}},
		{"paydays.more_than_periods", func(j *household.Job) {
			j.Frequency, j.FirstPayday, j.Moved = household.Biweekly, date("2026-01-01"), household.PaidAsIs
		}, OnFile{}},
		{"paydays.moved_out_of_year", func(j *household.Job) { j.Frequency, j.FirstPayday = household.Biweekly, date("2026-01-01") }, OnFile{}},
		{"one_time_pay.already_paid", func(j *household.Job) {
			j.YearToDate = stub("2026-06-30", "30000", "2000")
			j.OneTimePay = []household.OneTimePay{bonusOn("2026-06-30", "100", household.FlatRate)}
		}, OnFile{}},
		{"one_time_pay.flat_rate_not_open", func(j *household.Job) {
			j.TaxablePay = amount("500")
			j.OneTimePay = []household.OneTimePay{bonusOn("2026-06-30", "100", household.FlatRate)}
		}, OnFile{}},
		{"one_time_pay.pension", func(j *household.Job) {
			j.Kind = household.Pension
			j.OneTimePay = []household.OneTimePay{bonusOn("2026-06-30", "100", household.WithPaycheck)}
		}, OnFile{}},
		{"withholding.above_net_pay", func(*household.Job) {}, OnFile{Now: &household.Certificate{Extra: amount("4500")}}},
	}
	for _, tt := range tests {
		j := base
		tt.change(&j)
		var codes []string
		for _, n := range NewJobYear(one(j), 0, yearOf(t, 2026)).Notes(tt.onFile) {
			codes = append(codes, n.Code)
			if !strings.HasPrefix(n.Said(words.English()), "Mill") {
				t.Errorf("%s does not name the job: %s", n.Code, n.Said(words.English()))
			}
		}
		if got := strings.Join(codes, " "); got != tt.want {
			t.Errorf("notes %q, want %q", got, tt.want)
		}
	}
}

// NewJobYear takes any job that the answers' reader lets through, an empty one
// and one without a known frequency included.
func TestOddJobs(t *testing.T) {
	for _, job := range []household.Job{
		{},
		{Frequency: household.Weekly},
		{OneTimePay: []household.OneTimePay{bonusOn("2026-05-01", "100", household.WithPaycheck)}},
		{Frequency: household.Biweekly, FirstPayday: date("2027-01-01"), OneTimePay: []household.OneTimePay{bonusOn("2026-05-01", "100", household.FlatRate)}},
		{Frequency: household.Monthly, YearToDate: &household.YearToDate{}},
	} {
		j := NewJobYear(one(job), 0, yearOf(t, 2026))
		f := OnFile{From: date("2026-05-05")}
		j.Ledger(f)
		j.YearPay(f)
		j.Notes(f)
		if got := j.Withheld(f); got.IsNegative() {
			t.Errorf("withheld %v", got)
		}
	}
}

func BenchmarkNewJobYear(b *testing.B) {
	y := yearOf(b, 2026)
	h := one(household.Job{Frequency: household.Biweekly, TaxablePay: amount("2400"), FirstPayday: date("2026-01-09")})
	b.ReportAllocs()
	for b.Loop() {
		NewJobYear(h, 0, y)
	}
}

func BenchmarkWithheld(b *testing.B) {
	y := yearOf(b, 2026)
	j := NewJobYear(one(household.Job{Frequency: household.Biweekly, TaxablePay: amount("2400"), FirstPayday: date("2026-01-09")}), 0, y)
	f := OnFile{Now: &household.Certificate{}, New: &household.Certificate{Status: household.CertificateJoint, Extra: amount("20")}, From: date("2026-07-10")}
	b.ReportAllocs()
	for b.Loop() {
		j.Withheld(f)
	}
}

func BenchmarkLedger(b *testing.B) {
	y := yearOf(b, 2026)
	j := NewJobYear(one(household.Job{Frequency: household.Biweekly, TaxablePay: amount("2400"), FirstPayday: date("2026-01-09")}), 0, y)
	for b.Loop() {
		j.Ledger(OnFile{})
	}
}
