package tax

import (
	"math/rand"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/worksheet"
)

// The files second_*.go figure what a form figures a second time: from the
// form's lines, in whole numbers, with figures written here and not read from
// the tables, and compared with the return on random households.

// unit is a hundred millionth of a dollar, in which half of the self-employment
// tax on whole dollars has no fraction.
type unit = int64

const (
	oneDollar unit = 100_000_000
	oneCent   unit = oneDollar / 100
)

// nearest rounds half away from zero; it is used of amounts that are not negative.
func nearest(a, to unit) unit { return (a + to/2) / to * to }

func asAmount(a unit) money.Amount { return money.Cents(nearest(a, oneCent) / oneCent) }

// bothYears are the tables of 2025 and 2026.
func bothYears(t *testing.T) map[int]*tables.Year {
	return map[int]*tables.Year{2025: lawOf(t, 2025), 2026: lawOf(t, 2026)}
}

// premiumHousehold is one without a joint return, children or an earned income
// credit (born in 1950).
type premiumHousehold struct {
	year                                        int
	head                                        bool
	people                                      int
	place                                       household.Place
	profit, pension, interest, exempt, benefits unit
	premiums, benchmark, advance, ownPremiums   unit
	months                                      int64
}

// agi is Form 1040 line 11 with a deduction for health insurance.
func (p *premiumHousehold) agi(deduction unit) unit {
	adjustments := p.halfTax() + deduction
	others := p.profit + p.pension + p.interest
	// Social Security Benefits Worksheet, lines 2 to 18, for unmarried people.
	line7 := p.benefits/2 + others + p.exempt - adjustments
	taxed := unit(0)
	if line9 := line7 - 25_000*oneDollar; line9 > 0 {
		line11 := max(line9-9_000*oneDollar, 0)
		line14 := min(p.benefits/2, min(line9, 9_000*oneDollar)/2)
		taxed = min(line14+line11/100*85, p.benefits/100*85)
	}
	return others + taxed - adjustments
}

// untaxed is the part of benefits that line 6b leaves out.
func (p *premiumHousehold) householdIncome(deduction unit) unit {
	agi := p.agi(deduction)
	taxed := agi - (p.profit + p.pension + p.interest) + p.halfTax() + deduction
	return max(agi+p.exempt+p.benefits-taxed, 0)
}

// halfTax is Schedule SE line 13 of a profit below the wage base.
func (p *premiumHousehold) halfTax() unit {
	net := p.profit / 10_000 * 9_235
	if net < 400*oneDollar {
		return 0
	}
	return net / 1_000 * 153 / 2
}

// form8962 is lines 4 to 24 and 28; ceiling is negative where all is paid back.
func (p *premiumHousehold) form8962(income unit) (credit, ceiling unit) {
	line := map[int]map[household.Place][2]unit{
		2025: {household.States: {15060, 5380}, household.Alaska: {18810, 6730}, household.Hawaii: {17310, 6190}},
		2026: {household.States: {15650, 5500}, household.Alaska: {19550, 6880}, household.Hawaii: {17990, 6330}},
	}[p.year][p.place]
	line4 := (line[0] + line[1]*unit(p.people-1)) * oneDollar
	line5 := income * 100 / line4
	// The share in ten thousandths, from the ranges of 2025 and 2026.
	type span struct{ from, to, first, last unit }
	spans := map[int][]span{
		2025: {{0, 150, 0, 0}, {150, 200, 0, 200}, {200, 250, 200, 400}, {250, 300, 400, 600}, {300, 400, 600, 850}, {400, 1 << 40, 850, 850}},
		2026: {{0, 133, 210, 210}, {133, 150, 314, 419}, {150, 200, 419, 660}, {200, 250, 660, 844}, {250, 300, 844, 996}, {300, 1 << 40, 996, 996}},
	}[p.year]
	line7 := unit(0)
	for _, s := range spans {
		if line5 >= s.from && line5 < s.to {
			line7 = s.first + ((s.last-s.first)*(line5-s.from)*2+(s.to-s.from))/((s.to-s.from)*2)
		}
	}
	line8a := nearest(income/10_000*line7, oneDollar)
	contribution := line8a
	if p.months < 12 {
		contribution = nearest(line8a/12, oneDollar) * p.months
	}
	ceiling = -1
	if p.year == 2025 && line5 < 400 {
		caps := [3]unit{375, 975, 1625}
		ceiling = caps[max(line5/100-1, 0)] * oneDollar
		if p.head {
			ceiling *= 2
		}
	}
	if line5 < 100 && p.advance == 0 || p.year == 2026 && income > 4*line4 {
		return 0, ceiling
	}
	return min(p.premiums, max(p.benchmark-contribution, 0)), ceiling
}

// deduction is Form 7206 line 14, kept being what the credit pays.
func (p *premiumHousehold) deduction(kept unit) unit {
	if p.ownPremiums == 0 {
		return 0
	}
	return nearest(min(p.ownPremiums-kept, max(p.profit-p.halfTax(), 0)), oneCent)
}

func (p *premiumHousehold) household() household.Household {
	months, people := int(p.months), p.people
	h := household.Household{
		TaxYear: p.year, Self: household.Person{BirthDate: household.On(1950, 5, 5)},
		Income: household.Income{
			SelfEmployment: household.ByEarner{Self: asAmount(p.profit)}, Retirement: asAmount(p.pension),
			Interest: asAmount(p.interest), TaxExemptInterest: asAmount(p.exempt), SocialSecurity: asAmount(p.benefits),
		},
		Adjustments: household.Adjustments{SelfEmployedHealth: household.ByEarner{Self: asAmount(p.ownPremiums)}},
		Marketplace: &household.Marketplace{
			Months: &months, Household: &people, Place: p.place,
			Premiums: asAmount(p.premiums), Benchmark: asAmount(p.benchmark), Advance: asAmount(p.advance),
		},
	}
	if p.head {
		h.Status = household.HeadOfHousehold
	}
	return h
}

func randomPremium(r *rand.Rand, ownBusiness bool) *premiumHousehold {
	some := func(most int64) unit {
		if r.Intn(3) == 0 {
			return 0
		}
		return r.Int63n(most) * oneDollar
	}
	p := &premiumHousehold{
		year: 2025 + r.Intn(2), head: r.Intn(2) == 0, people: 1 + r.Intn(5), place: household.Place(r.Intn(3)),
		pension: some(70_000), interest: some(5_000), exempt: some(4_000), benefits: some(30_000) / 100 * 100,
		premiums: (1_000 + r.Int63n(20_000)) * oneDollar, months: 12,
	}
	if r.Intn(4) == 0 {
		p.months = 1 + r.Int63n(12)
	}
	p.benchmark = p.premiums / oneDollar * (80 + r.Int63n(60)) / 100 * oneDollar
	if r.Intn(3) > 0 {
		p.advance = p.premiums / oneDollar * (50 + r.Int63n(51)) / 100 * oneDollar
	}
	if ownBusiness {
		p.profit = (1 + r.Int63n(90_000)) * oneDollar
		p.ownPremiums = p.premiums
	}
	return p
}

// A thousand households: credit and advance, line by line.
func TestSecondForm8962(t *testing.T) {
	r := rand.New(rand.NewSource(8962))
	law := bothYears(t)
	paidBack, credited, capped := 0, 0, 0
	for range 1000 {
		p := randomPremium(r, false)
		credit, ceiling := p.form8962(p.householdIncome(0))
		net, repaid := max(credit-p.advance, 0), max(p.advance-credit, 0)
		if ceiling >= 0 && repaid > ceiling {
			repaid = ceiling
			capped++
		}
		got := Compute(p.household(), nil, law[p.year], ByReturn, nil)
		if !got.AdjustedGrossIncome.ToCent().Equal(asAmount(p.agi(0))) || !got.RefundableCredits.Equal(asAmount(net)) || !got.ExcessAdvance.Equal(asAmount(repaid)) {
			t.Fatalf("%+v:\nincome %v, net credit %v, paid back %v;\nwant %v, %v, %v", *p,
				got.AdjustedGrossIncome, got.RefundableCredits, got.ExcessAdvance, asAmount(p.agi(0)), asAmount(net), asAmount(repaid))
		}
		if repaid > 0 {
			paidBack++
		}
		if net > 0 {
			credited++
		}
	}
	if paidBack < 50 || credited < 100 || capped < 5 {
		t.Errorf("%d pay back, %d capped, %d have a credit: too few to tell", paidBack, capped, credited)
	}
}

// Businesses that pay for marketplace insurance. The pairs of a
// deduction and a credit that fit each other are found by trying every dollar
// that the credit may pay, not by turns; where there is one, the return has it,
// and where there is none, what it has is no more than the premiums.
//
// Rev. Proc. 2014-41; Publication 974, worksheet W for the ceiling.
func TestSecondOwnHealth(t *testing.T) {
	r := rand.New(rand.NewSource(162))
	law := bothYears(t)
	unique, none := 0, 0
	for range 150 { // 1,000 take some seconds

		p := randomPremium(r, true)
		ceiling := unit(-1)
		if p.advance > 0 && p.year == 2025 {
			for _, row := range [3]unit{375, 975, 1625} {
				row *= oneDollar
				if p.head {
					row *= 2
				}
				income := p.householdIncome(p.deduction(max(p.advance-row, 0)))
				if _, own := p.form8962(income); own >= 0 && own <= row {
					ceiling = row
					break
				}
			}
		}
		var fits []unit
		for kept := unit(0); kept <= p.premiums; kept += oneDollar {
			credit, _ := p.form8962(p.householdIncome(p.deduction(kept)))
			if ceiling >= 0 {
				credit = max(credit, p.advance-ceiling)
			}
			if credit == kept {
				fits = append(fits, kept)
			}
		}
		sheet := new(worksheet.Sheet)
		got := Compute(p.household(), nil, law[p.year], ByReturn, sheet)
		matches := false
		for _, kept := range fits {
			d := p.deduction(kept)
			credit, _ := p.form8962(p.householdIncome(d))
			repaid := max(p.advance-credit, 0)
			if ceiling >= 0 {
				repaid = min(repaid, ceiling)
			}
			matches = matches || got.AdjustedGrossIncome.ToCent().Equal(asAmount(p.agi(d))) &&
				got.RefundableCredits.Equal(asAmount(max(credit-p.advance, 0))) && got.ExcessAdvance.Equal(asAmount(repaid))
		}
		switch {
		case len(fits) > 0 && !matches:
			t.Fatalf("%+v:\nincome %v, credit %v, paid back %v; the credit may pay %v", *p, got.AdjustedGrossIncome, got.RefundableCredits, got.ExcessAdvance, fits)
		case len(fits) == 1:
			unique++
		case len(fits) == 0:
			none++
			credit, _ := sheet.Line("tax.premium_credit")
			own, _ := sheet.Line("tax.self_employed_health.self")
			kept := money.Max(credit.Amount, asAmount(p.advance).Sub(got.ExcessAdvance))
			if own.Amount.Add(kept).More(asAmount(p.premiums)) {
				t.Fatalf("%+v: %v deducted with %v paid by the credit is more than the premiums", *p, own.Amount, kept)
			}
		}
	}
	if unique < 100 || none < 3 {
		t.Errorf("%d have one pair that fits, %d have none: too few to tell", unique, none)
	}
}
