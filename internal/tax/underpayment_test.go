package tax

import (
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
)

// Publication 505 (2025), p. 20: owe at least $1,000; 90% of this year's tax;
// 100% of last year's, 110% above $150,000 of adjusted gross income, $75,000 on
// a separate return.
func TestSafeHarbor(t *testing.T) {
	last := func(tax, agi string) *household.LastYear {
		total, income := usd(tax), usd(agi)
		return &household.LastYear{TotalTax: &total, AdjustedGrossIncome: &income}
	}
	tests := []struct {
		source              string
		status              household.Status
		tax, refundable     string
		last                *household.LastYear
		estimated, withheld string
		safe                bool
		required            string
	}{
		{"IRC 6654(d)(1)(B)(i): 90% of 20,000", household.Single, "20000", "0", nil, "0", "18000", true, "18000"},
		{"IRC 6654(d)(1)(B)(i): a cent less", household.Single, "20000", "0", nil, "0", "17999.99", false, "18000"},
		{"IRC 6654(d)(1)(B)(ii): 100% of last year's", household.Single, "20000", "0", last("9000", "150000"), "0", "9000", true, "9000"},
		{"IRC 6654(d)(1)(B)(ii): a cent less", household.Single, "20000", "0", last("9000", "150000"), "0", "8999.99", false, "9000"},
		{"IRC 6654(d)(1)(C)(i): 110% above 150,000", household.Single, "20000", "0", last("9000", "150000.01"), "0", "9000", false, "9900"},
		{"IRC 6654(d)(1)(C)(ii): a separate return, 75,000", household.MarriedFilingSeparately, "20000", "0", last("9000", "75000.01"), "0", "9900", true, "9900"},
		{"IRC 6654(e)(1): less than 1,000 due", household.Single, "5000", "0", nil, "0", "4000.01", true, "4500"},
		{"IRC 6654(e)(1): 1,000 due", household.Single, "5000", "0", nil, "0", "4000", false, "4500"},
		{"IRC 6654(e)(1): only withholding lowers what is due", household.Single, "5000", "0", nil, "600", "3600", false, "4500"},
		{"IRC 6654(d), (g): estimated tax counts as paid", household.Single, "5000", "0", nil, "900", "3600", true, "4500"},
		{"IRC 6654(e)(2): no tax last year", household.Single, "20000", "0", last("0", "5000"), "0", "0", true, "0"},
		// 6,000 - 4,000 = 2,000 × 90%
		{"IRC 6654(f)(3): refundable credits come off", household.Single, "6000", "4000", nil, "0", "1700", true, "1800"},
		{"IRC 6654(f)(3): and never below zero", household.Single, "1000", "4000", nil, "0", "0", true, "0"},
	}
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			r := Return{Status: tt.status, TotalTax: usd(tt.tax), RefundableCredits: usd(tt.refundable)}
			h := household.Household{Status: tt.status, LastYear: tt.last, Payments: household.Payments{EstimatedTax: usd(tt.estimated)}}
			b := SafeHarbor(r, h, usd(tt.estimated).Add(usd(tt.withheld)), lawOf(t, 2025))
			if b.Safe != tt.safe {
				t.Errorf("safe: %v, want %v (%v)", b.Safe, tt.safe, b.Reason)
			}
			want(t, "required", b.Required, tt.required)
			if (len(Penalty(b, usd(tt.withheld), lawOf(t, 2025))) > 0) == tt.safe {
				t.Error("a penalty goes with no safe harbor, and only then")
			}
		})
	}
}

// 8,000 required, 4,000 paid: 1,000 short at each date, 1,000 to 4,000 in all.
// At a steady 7%, by days of 365, from the 15th whatever the weekday:
//
//	April 15 to June 15, 61 days:       1,000 × 7% × 61 / 365  = 11.70
//	June 15 to September 15, 92 days:   2,000 × 7% × 92 / 365  = 35.29
//	September 15 to January 15, 122:    3,000 × 7% × 122 / 365 = 70.19
//	January 15 to April 15, 90 days:    4,000 × 7% × 90 / 365  = 69.04
func TestPenalty(t *testing.T) {
	y := *lawOf(t, 2025)
	var rate money.Rate
	if err := rate.UnmarshalText([]byte("0.07")); err != nil {
		t.Fatal(err)
	}
	y.Underpayment.Interest.Rates = []tables.InterestRate{{From: household.On(2025, 4, 1), Rate: rate}}
	got := Penalty(Harbor{Required: usd("8000")}, usd("4000"), &y)
	wanted := []struct{ short, penalty string }{{"1000", "11.70"}, {"2000", "35.29"}, {"3000", "70.19"}, {"4000", "69.04"}}
	if len(got) != len(wanted) {
		t.Fatalf("%d installments, want %d", len(got), len(wanted))
	}
	for i, w := range wanted {
		want(t, "short", got[i].Short, w.short)
		want(t, "penalty", got[i].Penalty.ToCent(), w.penalty)
	}
	// 1,500 paid on June 16 leaves 500, then 1,500 and 2,500.
	later := Penalty(Harbor{Required: usd("8000")}, usd("4000"), &y, Payment{Due: household.On(2025, 6, 16), Amount: usd("1500")})
	for i, short := range []string{"1000", "500", "1500", "2500"} {
		want(t, "short with a later payment", later[i].Short, short)
	}
	// 4,500 paid on November 27, 73 days after September 15, ends what runs on the
	// 3,000 of that date: 3,000 × 7% × 73 / 365 = 42.00. Nothing is missing in January.
	between := Penalty(Harbor{Required: usd("8000")}, usd("4000"), &y, Payment{Due: household.On(2025, 11, 27), Amount: usd("4500")})
	for i, penalty := range []string{"11.70", "35.29", "42.00", "0.00"} {
		want(t, "penalty with a payment between two dates", between[i].Penalty.ToCent(), penalty)
	}
	// Of 1,000 paid then, 2,000 runs on: 2,000 × 7% × 49 / 365 = 18.79 more.
	between = Penalty(Harbor{Required: usd("8000")}, usd("4000"), &y, Payment{Due: household.On(2025, 11, 27), Amount: usd("1000")})
	want(t, "penalty on what is left", between[2].Penalty.ToCent(), "60.79")
	// The rate changes on October 1 to twice as much: 15 days at 7%, through
	// September 30, and 107 at 14%.
	// 3,000 × (7% × 15 + 14% × 107) / 365 = 131.75
	y.Underpayment.Interest.Rates = append(y.Underpayment.Interest.Rates, tables.InterestRate{From: household.On(2025, 10, 1), Rate: rate.Add(rate)})
	want(t, "across a change of rate", Penalty(Harbor{Required: usd("8000")}, usd("4000"), &y)[2].Penalty.ToCent(), "131.75")
}

// What last year's return shows counts only where it is known: tax that is not
// given is not zero, and without the income the larger share is asked for.
func TestSafeHarborOfUnknownLastYear(t *testing.T) {
	tax, none := usd("5000"), usd("0")
	for _, tt := range []struct {
		about string
		last  *household.LastYear
		want  string
		safe  bool
	}{
		{"nothing known", nil, "9000.00", false}, // 90% of 10,000
		{"no total tax", &household.LastYear{AdjustedGrossIncome: &tax}, "9000.00", false},
		{"no tax last year", &household.LastYear{TotalTax: &none}, "0.00", true},
		{"the income not known", &household.LastYear{TotalTax: &tax}, "5500.00", false}, // IRC 6654(d)(1)(C): 110%
		{"a low income", &household.LastYear{TotalTax: &tax, AdjustedGrossIncome: &tax}, "5000.00", false},
	} {
		h := household.Household{Status: household.Single, LastYear: tt.last}
		b := SafeHarbor(Return{Status: household.Single, TotalTax: usd("10000")}, h, usd("2000"), lawOf(t, 2026))
		assumed := strings.Contains(words.English().Say(b.Reason), "110% because we do not know last year's income")
		if want := tt.about == "the income not known"; assumed != want {
			t.Errorf("%s: says what was assumed: %v, want %v (%s)", tt.about, assumed, want, words.English().Say(b.Reason))
		}
		if b.Required.String() != tt.want || b.Safe != tt.safe {
			t.Errorf("%s: required %v, safe %v; want %s, %v", tt.about, b.Required, b.Safe, tt.want, tt.safe)
		}
	}
}

// Instructions for Form 2210 (2025), p. 5: the second installment counts from
// 6/15/25, 15 days to June 30, though June 16 was on time. Four installments of
// 4,000 unpaid until April 15, 2026, at the printed 7%: 365, 304, 212 and 90 days,
// 4,000 × 7% × 971 / 365 = 744.88.
func TestPenaltyCountsFromThePrintedDate(t *testing.T) {
	sum := money.Zero
	for _, q := range Penalty(Harbor{Required: usd("16000")}, money.Zero, lawOf(t, 2025)) {
		sum = sum.Add(q.Penalty)
	}
	want(t, "penalty", sum.ToCent(), "744.88")
}

// Instructions for Form 2210 (2025), penalty worksheet: rate period 1 has 76 days
// from April 15, through June 30. At 7% and then nothing, 1,000 × 7% × 76 / 365.
func TestRatePeriodEndsWithItsLastDay(t *testing.T) {
	rates := []tables.InterestRate{{From: household.On(2025, 4, 1), Rate: money.Percent(7)}, {From: household.On(2025, 7, 1)}}
	want(t, "interest", interest(usd("1000"), household.On(2025, 4, 15), household.On(2026, 4, 15), rates).ToCent(), "14.58")
}

// The least that is safe is safe, and a cent less is not.
func TestLeastSafe(t *testing.T) {
	last, income := usd("7000"), usd("60000")
	for _, tt := range []struct {
		about string
		tax   string
		last  *household.LastYear
		est   string
		want  string
	}{
		{"90% of this year's tax", "40000", nil, "0", "36000.00"},
		{"less than 1,000 due", "4000", nil, "0", "3000.01"}, // 90% is 3,600
		{"estimated tax is not withholding", "4000", nil, "500", "3500.01"},
		{"all of last year's", "40000", &household.LastYear{TotalTax: &last, AdjustedGrossIncome: &income}, "0", "7000.00"},
		{"next to no tax", "900", nil, "0", "0.00"},
	} {
		h := household.Household{Status: household.Single, LastYear: tt.last, Payments: household.Payments{EstimatedTax: usd(tt.est)}}
		r := Return{Status: household.Single, TotalTax: usd(tt.tax)}
		got := LeastSafe(r, h, lawOf(t, 2026))
		if got.String() != tt.want {
			t.Errorf("%s: %v, want %s", tt.about, got, tt.want)
		}
		if !SafeHarbor(r, h, got, lawOf(t, 2026)).Safe {
			t.Errorf("%s: %v is not safe", tt.about, got)
		}
		if less := got.Sub(money.Cents(1)); !less.IsNegative() && SafeHarbor(r, h, less, lawOf(t, 2026)).Safe {
			t.Errorf("%s: %v is safe", tt.about, less)
		}
	}
}
