package tax

import (
	"math/big"
	"math/rand"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// rat is an exact fraction: a whole number over another.
func rat(a, b int64) *big.Rat { return big.NewRat(a, b) }

func whole(n int64) *big.Rat           { return rat(n, 1) }
func plus(a, b *big.Rat) *big.Rat      { return new(big.Rat).Add(a, b) }
func minus(a, b *big.Rat) *big.Rat     { return new(big.Rat).Sub(a, b) }
func times(a, b *big.Rat) *big.Rat     { return new(big.Rat).Mul(a, b) }
func dividedBy(a, b *big.Rat) *big.Rat { return new(big.Rat).Quo(a, b) }
func orNothing(a *big.Rat) *big.Rat    { return larger(a, whole(0)) }
func larger(a, b *big.Rat) *big.Rat {
	if a.Cmp(b) < 0 {
		return b
	}
	return a
}

func smaller(a, b *big.Rat) *big.Rat {
	if a.Cmp(b) > 0 {
		return b
	}
	return a
}

// cents tells whether an amount is at most so many cents from a fraction: a half
// for each amount that the return rounds to the cent on the way, and one more.
func cents(a money.Amount, b *big.Rat, most int64) bool {
	exact, ok := new(big.Rat).SetString(a.Text())
	return ok && new(big.Rat).Abs(minus(exact, b)).Cmp(rat(most, 100)) <= 0
}

func cent(a money.Amount, b *big.Rat) bool { return cents(a, b, 1) }

func usdOf(n int64) money.Amount { return money.Dollars(n) }

// some is an amount below most, often none.
func some(r *rand.Rand, most int64) int64 {
	if r.Intn(3) == 0 {
		return 0
	}
	return r.Int63n(most)
}

// gainOrLoss is a gain or a loss below most.
func gainOrLoss(r *rand.Rand, most int64) int64 {
	gain, loss := some(r, most), some(r, most)
	return gain - loss
}

// halfOfTax is Schedule SE line 13 of a profit below the wage base, without
// wages.
func halfOfTax(profit int64) *big.Rat {
	net := times(whole(max(profit, 0)), rat(9235, 10000))
	if net.Cmp(whole(400)) < 0 {
		return whole(0)
	}
	return times(net, rat(153, 2000))
}

// Form 8995-A on a thousand households around the threshold, one or two
// businesses, profits and losses, all kinds.
func TestSecondForm8995A(t *testing.T) {
	law, r := bothYears(t), rand.New(rand.NewSource(8995))
	limited := 0
	for range 1000 {
		year, joint := 2025+r.Intn(2), r.Intn(2) == 0
		h := household.Household{TaxYear: year, Self: household.Person{BirthDate: household.On(1980, 5, 5)}}
		threshold, span, standard := int64(197300), int64(50000), int64(15750)
		if year == 2026 {
			threshold, span, standard = 201750, 75000, 16100
		}
		n := 1
		if joint {
			n, h.Status = 2, household.MarriedFilingJointly
			standard *= 2
			threshold, span = threshold*2, span*2
		}
		type trade struct {
			qbi             *big.Rat
			wages, property int64
			service         bool
		}
		var trades []trade
		agi := whole(0)
		for i := range n {
			profit := r.Int63n(150_000) - 30_000
			service := r.Intn(3) == 0
			b := trade{qbi: minus(whole(profit), halfOfTax(profit)), wages: some(r, 90_000), property: some(r, 900_000), service: service}
			trades = append(trades, b)
			agi = plus(agi, b.qbi)
			answer := &household.Business{SpecifiedService: &service, Wages: usdOf(b.wages), Property: usdOf(b.property)}
			if i == 0 {
				h.Income.SelfEmployment.Self, h.Income.Business.Self = usdOf(profit), answer
			} else {
				h.Income.SelfEmployment.Spouse, h.Income.Business.Spouse = usdOf(profit), answer
			}
		}
		// Other income that brings taxable income near the range, some of it a gain.
		near := threshold - 20_000 + r.Int63n(span+60_000) + standard
		other := minus(whole(near), agi)
		gain := some(r, 60_000)
		rest := new(big.Int).Quo(other.Num(), other.Denom()).Int64() - gain
		h.Income.Other, h.Income.LongTermGain = usdOf(rest), usdOf(gain)
		agi = plus(agi, whole(rest+gain))

		taxable := minus(agi, whole(standard)) // line 20
		over := minus(taxable, whole(threshold))
		component, total := whole(0), whole(0)
		if over.Sign() <= 0 { // Form 8995
			for _, b := range trades {
				total = plus(total, b.qbi)
			}
			component = times(orNothing(total), rat(20, 100))
		} else {
			limited++
			used := smaller(dividedBy(over, whole(span)), whole(1)) // line 24
			counted := make([]trade, 0, n)
			wages := make([]*big.Rat, n)
			property := make([]*big.Rat, n)
			loss, profit := whole(0), whole(0)
			for i, b := range trades { // Schedule A
				share := whole(1)
				if b.service {
					share = minus(whole(1), used)
				}
				b.qbi = times(b.qbi, share)
				wages[i], property[i] = times(whole(b.wages), share), times(whole(b.property), share)
				counted = append(counted, b)
				if b.qbi.Sign() < 0 {
					loss = minus(loss, b.qbi)
				} else {
					profit = plus(profit, b.qbi)
				}
			}
			total = minus(profit, loss)
			for i, b := range counted { // Schedule C, Parts II and III
				if b.qbi.Sign() <= 0 || total.Sign() <= 0 {
					continue
				}
				qbi := minus(b.qbi, times(loss, dividedBy(b.qbi, profit)))
				line3 := times(qbi, rat(20, 100))
				line10 := larger(times(wages[i], rat(1, 2)), plus(times(wages[i], rat(1, 4)), times(property[i], rat(25, 1000))))
				line13 := smaller(line3, line10)
				if line3.Cmp(line10) > 0 && used.Cmp(whole(1)) < 0 {
					line13 = minus(line3, times(minus(line3, line10), used))
				}
				component = plus(component, line13)
			}
		}
		want := smaller(component, times(orNothing(minus(taxable, whole(gain))), rat(20, 100)))
		if year == 2026 && total.Cmp(whole(1000)) >= 0 && want.Cmp(whole(400)) < 0 {
			want = whole(400)
		}
		if total.Sign() <= 0 {
			want = whole(0)
		}
		if got := Compute(h, nil, law[year], BySchedule, nil); !cent(got.BusinessDeduction, want) {
			t.Fatalf("%+v:\ndeduction %v, want %s", h, got.BusinessDeduction, want.FloatString(4))
		}
	}
	if limited < 300 {
		t.Errorf("only %d above the threshold", limited)
	}
}

// rateSchedule is the tax of 2026 by the schedule, single or joint.
func rateSchedule(income *big.Rat, joint bool) *big.Rat {
	tops := []int64{12400, 50400, 105700, 201775, 256225, 640600}
	if joint {
		tops = []int64{24800, 100800, 211400, 403550, 512450, 768700}
	}
	tax, from := whole(0), whole(0)
	for i, rate := range []int64{10, 12, 22, 24, 32, 35, 37} {
		top := income
		if i < len(tops) {
			top = smaller(income, whole(tops[i]))
		}
		if top.Cmp(from) > 0 {
			tax = plus(tax, times(minus(top, from), rat(rate, 100)))
			from = top
		}
	}
	return tax
}

// withGains is the Qualified Dividends and Capital Gain Tax Worksheet of 2026.
func withGains(income, gains *big.Rat, joint bool) *big.Rat {
	zero, middle := whole(49450), whole(545500)
	if joint {
		zero, middle = whole(98900), whole(613700)
	}
	line5 := orNothing(minus(income, gains))
	line7 := smaller(income, zero)
	line9 := minus(line7, smaller(line5, line7))
	line10 := smaller(income, gains)
	line12 := minus(line10, line9)
	line16 := orNothing(minus(smaller(income, middle), plus(line5, line9)))
	line17 := smaller(line12, line16)
	line20 := minus(line10, plus(line9, line17))
	line23 := plus(plus(rateSchedule(line5, joint), times(line17, rat(15, 100))), times(line20, rat(20, 100)))
	return smaller(line23, rateSchedule(income, joint))
}

// Form 8615 of 2026 on a thousand children with wages, interest and qualified
// dividends, and parents of every income.
func TestSecondForm8615(t *testing.T) {
	y, r := lawOf(t, 2026), rand.New(rand.NewSource(8615))
	atParents := 0
	for range 1000 {
		wages, interest, dividends := some(r, 25_000), some(r, 30_000), some(r, 40_000)
		joint, theirs := r.Intn(2) == 0, r.Int63n(900_000)
		theirGains := int64(0)
		if r.Intn(2) == 0 {
			theirGains = r.Int63n(theirs + 1)
		}
		h := household.Household{
			Self:    household.Person{CanBeClaimed: true, BirthDate: household.On(2010, 5, 5)},
			Income:  household.Income{Interest: usdOf(interest), OrdinaryDividends: usdOf(dividends), QualifiedDividends: usdOf(dividends)},
			Parents: &household.Parents{TaxableIncome: usdOf(theirs), QualifiedDividends: usdOf(theirGains)},
		}
		if joint {
			h.Parents.Status = household.MarriedFilingJointly
		}
		standard := min(max(wages+450, 1350), 16100)
		line1 := interest + dividends
		line3 := line1 - 2700
		line4 := max(wages+line1-standard, 0)
		gains := whole(dividends)
		own := withGains(whole(line4), gains, false)
		want := own
		if line3 > 0 {
			line5 := min(line3, line4)
			on5 := times(whole(dividends), rat(line3, line1)) // Line 5 Worksheet 1
			if line3 > line4 {
				on5 = gains
			}
			on5 = smaller(on5, whole(line5))
			line9 := withGains(whole(theirs+line5), plus(whole(theirGains), on5), joint)
			line10 := withGains(whole(theirs), whole(theirGains), joint)
			line15 := withGains(whole(line4-line5), minus(gains, on5), false)
			line16 := plus(minus(line9, line10), line15)
			want = larger(line16, own)
			if line16.Cmp(own) > 0 {
				atParents++
			}
		}
		got := Compute(h, []household.YearPay{paid(household.OfSelf, usdOf(wages).Text())}, y, BySchedule, nil)
		if !cents(got.IncomeTax, want, 2) { // lines 9, 10 and 15 are rounded
			t.Fatalf("wages %d, %+v, parents %+v:\ntax %v, want %s", wages, h.Income, *h.Parents, got.IncomeTax, want.FloatString(4))
		}
	}
	if atParents < 200 {
		t.Errorf("the parents' rate is more for %d only", atParents)
	}
}

// Schedule D with carryovers, the Capital Loss Carryover Worksheet, and of
// Schedule A the mortgage and gambling lines.
func TestSecondSchedulesAAndD(t *testing.T) {
	law, r := bothYears(t), rand.New(rand.NewSource(1040))
	for range 1000 {
		year, separate := 2025+r.Intn(2), r.Intn(3) == 0
		income, short, long := some(r, 90_000), gainOrLoss(r, 20_000), gainOrLoss(r, 20_000)
		fromShort, fromLong := some(r, 9_000), some(r, 9_000)
		interest, balance, won, lost := some(r, 60_000), some(r, 2_000_000), some(r, 30_000), some(r, 40_000)
		before := r.Intn(2) == 0
		h := household.Household{
			TaxYear: year,
			Income: household.Income{
				Other: usdOf(income), ShortTermGain: usdOf(short), LongTermGain: usdOf(long), GamblingWinnings: usdOf(won),
				CapitalLossCarryover: household.Losses{ShortTerm: usdOf(fromShort), LongTerm: usdOf(fromLong)},
			},
			Deductions: household.Deductions{MortgageInterest: usdOf(interest), MortgageBalance: usdOf(balance), MortgageBefore: before, GamblingLosses: usdOf(lost)},
		}
		limit, debt, standard := int64(3000), int64(750_000), int64(15_750)
		if year == 2026 {
			standard = 16_100
		}
		if before {
			debt = 1_000_000
		}
		if separate {
			h.Status = household.MarriedFilingSeparately
			limit, debt = 1500, debt/2
		}
		line7, line15 := short-fromShort, long-fromLong
		line16 := line7 + line15
		onReturn := max(line16, -limit)
		deductible := whole(interest)
		if balance > debt {
			deductible = times(deductible, rat(debt, balance))
		}
		losses := rat(lost, 1)
		if year == 2026 {
			losses = rat(lost*9, 10)
		}
		itemized := plus(deductible, smaller(losses, whole(won)))
		deduction := larger(itemized, whole(standard))
		signed := minus(whole(income+won+onReturn), deduction) // worksheet line 1
		toShort, toLong := whole(0), whole(0)
		if onReturn < 0 {
			line2 := whole(-onReturn)
			line4 := smaller(line2, orNothing(plus(signed, line2)))
			if line7 < 0 {
				toShort = orNothing(minus(whole(-line7), plus(line4, whole(max(line15, 0)))))
			}
			if line15 < 0 {
				line11 := orNothing(minus(line4, whole(max(-line7, 0))))
				toLong = orNothing(minus(whole(-line15), plus(whole(max(line7, 0)), line11)))
			}
		}
		got := Compute(h, nil, law[year], BySchedule, nil)
		if !cent(got.TaxableIncome, orNothing(signed)) || !cent(got.CarriedLosses.ShortTerm, toShort) || !cent(got.CarriedLosses.LongTerm, toLong) {
			t.Fatalf("%+v\n%+v:\ntaxable income %v, carried %+v; want %s, %s, %s", h.Income, h.Deductions, got.TaxableIncome, got.CarriedLosses,
				signed.FloatString(2), toShort.FloatString(2), toLong.FloatString(2))
		}
	}
}

// Schedule 3 with the foreign tax credit, Form 5695 and Form 8839, and Form 5329
// and Schedule H on Schedule 2; without children, education and saving.
func TestSecondSchedules2And3(t *testing.T) {
	law, r := bothYears(t), rand.New(rand.NewSource(8839))
	for range 1000 {
		year, joint := 2025+r.Intn(2), r.Intn(2) == 0
		income := r.Int63n(340_000)
		foreign, clean, improvements, pumps := some(r, 900), some(r, 20_000), some(r, 9_000), some(r, 12_000)
		early, workers, children := some(r, income+1), some(r, 4_000), r.Intn(3)
		h := household.Household{
			TaxYear: year, Income: household.Income{Retirement: usdOf(income), EarlyWithdrawal: usdOf(early)},
			OtherTaxes: household.OtherTaxes{HouseholdWorkers: usdOf(workers)},
			Credits: household.Credits{
				ForeignTax: usdOf(foreign), Energy: household.EnergyOf[money.Amount]{Clean: usdOf(clean), Improvements: usdOf(improvements), HeatPumps: usdOf(pumps)},
			},
		}
		mostForeign := int64(300)
		if joint {
			h.Status, mostForeign = household.MarriedFilingJointly, 600
		}
		most, from, most2 := int64(17_280), int64(259_190), int64(5_000)
		if year == 2026 {
			most, from, most2 = 17_670, 265_080, 5_120
			clean, improvements, pumps = 0, 0, 0
		}
		kept := minus(whole(1), smaller(dividedBy(whole(max(income-from, 0)), whole(40_000)), whole(1)))
		refundable, rest := whole(0), whole(0)
		for range children {
			a := household.Adoption{Expenses: usdOf(some(r, 30_000)), SpecialNeeds: r.Intn(4) == 0}
			h.Credits.Adoption = append(h.Credits.Adoption, a)
			expenses := a.Expenses.WholeDollars()
			if a.SpecialNeeds {
				expenses = most
			}
			credit := times(whole(min(expenses, most)), kept)
			back := smaller(credit, whole(most2))
			refundable, rest = plus(refundable, back), plus(rest, minus(credit, back))
		}
		got := Compute(h, nil, law[year], ByReturn, nil)
		tax, _ := new(big.Rat).SetString(got.IncomeTax.Text())
		left := tax
		for _, credit := range []*big.Rat{
			smaller(whole(min(foreign, mostForeign)), tax),
			plus(smaller(rat(improvements*3, 10), whole(1200)), smaller(rat(pumps*3, 10), whole(2000))),
			rest, rat(clean*3, 10),
		} {
			left = orNothing(minus(left, credit))
		}
		total := plus(left, plus(rat(early, 10), whole(workers)))
		if !cent(got.NonrefundableCredits, minus(tax, left)) || !cent(got.RefundableCredits, refundable) || !cent(got.TotalTax, total) {
			t.Fatalf("%d, income %d, %+v:\ncredits %v, refundable %v, total tax %v; want %s, %s, %s", year, income, h.Credits,
				got.NonrefundableCredits, got.RefundableCredits, got.TotalTax, minus(tax, left).FloatString(2), refundable.FloatString(2), total.FloatString(2))
		}
	}
}
