package tax

import (
	"math/big"
	"math/rand"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// toCent is a fraction that is not negative in whole cents, half a cent up.
func toCent(a *big.Rat) *big.Rat {
	twice := times(a, whole(200))
	n := new(big.Int).Quo(twice.Num(), twice.Denom()) // half cents, the rest dropped
	n.Add(n, big.NewInt(1)).Quo(n, big.NewInt(2))
	return dividedBy(new(big.Rat).SetInt(n), whole(100))
}

// The Deduction Worksheet for Self-Employed of Publication 560 (its steps from
// memory), with deferrals and the addition for age as large as they may be, on a
// thousand businesses. The limits are those of Notices 2024-80 and 2025-67.
func TestSecondOwnRetirement(t *testing.T) {
	law, r := bothYears(t), rand.New(rand.NewSource(560))
	limited := 0
	for range 1000 {
		year, age := 2025+r.Intn(2), 30+r.Intn(45)
		deferralLimit, additions, catchUp, base := whole(23_500), whole(70_000), whole(0), int64(176_100)
		older := whole(7_500)
		if year == 2026 {
			deferralLimit, additions, older, base = whole(24_500), whole(72_000), whole(8_000), 184_500
		}
		switch {
		case age >= 60 && age <= 63:
			catchUp = whole(11_250)
		case age >= 50:
			catchUp = older
		}
		profit, given := r.Int63n(60_000), r.Int63n(100_000)
		if r.Intn(3) == 0 {
			profit = r.Int63n(450_000)
		}
		net := times(whole(profit), rat(9235, 10000)) // Schedule SE
		half := dividedBy(plus(times(smaller(net, whole(base)), rat(124, 1000)), times(net, rat(29, 1000))), whole(2))
		if net.Cmp(whole(400)) < 0 {
			half = whole(0)
		}
		step3 := minus(whole(profit), half)
		step5 := times(step3, rat(1, 5)) // the rate for a plan of 25%
		step8 := smaller(deferralLimit, step3)
		step9 := minus(additions, step8)
		step11 := dividedBy(minus(step3, step8), whole(2))
		step12 := smaller(step5, smaller(step9, step11))
		left := minus(minus(step3, step8), step12)
		most := plus(plus(step8, step12), smaller(catchUp, left))
		want := smaller(whole(given), most)
		if want.Cmp(whole(given)) < 0 {
			limited++
		}
		h := household.Household{
			TaxYear: year, Self: household.Person{BirthDate: household.On(year-age, 5, 5)},
			Income:      household.Income{SelfEmployment: household.ByEarner{Self: usdOf(profit)}},
			Adjustments: household.Adjustments{SelfEmployedRetirement: household.ByEarner{Self: usdOf(given)}},
		}
		if got := throughDeductions(h, law[year]).adjustments.OwnRetirement; !cent(got, want) {
			t.Errorf("%d, age %d, profit %d, paid %d: %v, want %s", year, age, profit, given, got, want.FloatString(2))
		}
	}
	if limited < 300 || limited > 900 {
		t.Errorf("%d of 1,000 are above their limit", limited)
	}
}

// Forms W-4V and W-4R on a thousand households: each month's benefit and each
// withdrawal has its percentage withheld, to the cent.
func TestSecondFormsW4VAndW4R(t *testing.T) {
	law, r := bothYears(t), rand.New(rand.NewSource(3402))
	for range 1000 {
		year, want := 2025+r.Intn(2), whole(0)
		h := household.Household{TaxYear: year, Self: household.Person{BirthDate: household.On(1950, 5, 5)}}
		first := 1 + r.Intn(12)
		months := 13 - first
		monthly := r.Int63n(400_000)
		h.Income.SocialSecurityMonthly = &household.EachMonth{Amount: money.Cents(monthly), FirstMonth: first}
		if monthly > 0 && r.Intn(4) > 0 {
			v := &household.Voluntary{Percent: []int{7, 10, 12, 22}[r.Intn(4)]}
			asked := months
			if r.Intn(2) == 0 {
				n := r.Intn(13)
				v.Months, asked = &n, n
			}
			h.Payments.SocialSecurity = v
			for m := first; m <= 12 && m < first+asked; m++ {
				want = plus(want, toCent(times(rat(monthly, 100), rat(int64(v.Percent), 100))))
			}
		}
		if unemployment := some(r, 20_000); unemployment > 0 && r.Intn(2) == 0 {
			h.Income.Unemployment, h.Payments.Unemployment = usdOf(unemployment), &household.Voluntary{Percent: 10}
			for range 12 {
				want = plus(want, toCent(times(rat(unemployment, 12), rat(1, 10))))
			}
		}
		for range r.Intn(4) {
			amount := r.Int63n(9_000_000)
			w, percent := household.Withdrawal{Amount: money.Cents(amount)}, int64(10)
			if r.Intn(2) == 0 {
				n := r.Intn(101)
				w.Percent, percent = &n, int64(n)
			}
			if r.Intn(2) == 0 {
				w.Kind = household.CouldBeRolledOver
				if percent < 20 {
					percent = 20
				}
			}
			h.Payments.Withdrawals = append(h.Payments.Withdrawals, w)
			want = plus(want, toCent(times(rat(amount, 100), rat(percent, 100))))
		}
		if got := Compute(h, nil, law[year], ByReturn, nil).BenefitsWithheld; !cents(got, want, 0) {
			t.Errorf("%+v: %v, want %s", h.Payments, got, want.FloatString(2))
		}
	}
}
