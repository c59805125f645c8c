package tables

import (
	"maps"
	"math/big"
	"reflect"
	"slices"
	"strings"
	"testing"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/taxtables"
)

// Every indexed figure of the shipped years follows from its rule, and the
// amounts that rise with prices leave the index a narrow interval.
func TestShippedYearsProve(t *testing.T) {
	const fewestAmounts, fewestFigures = 65, 715 // in 2026, when the rules were written down
	for _, year := range Years(taxtables.Files) {
		y := shipped(t, year)
		p := y.Prove()
		for _, m := range p.Misfits {
			t.Errorf("%d: %s is %s, by %s it would be %s", year, m.Key, m.Published, m.Law, m.Statute)
		}
		if len(p.Levels) != 2 || p.Figures < fewestFigures || p.Levels[0].Amounts < fewestAmounts {
			t.Errorf("%d: %d figures proved, levels %v", year, p.Figures, p.Levels)
		}
		for _, l := range p.Levels {
			if n := len(y.spans(l.Months)); l.Amounts != n {
				t.Errorf("%d: %d of %d amounts agree on a level of %v", year, l.Amounts, n, l)
			}
		}
		l := p.Levels[0]
		if width := new(big.Rat).Quo(l.Below, l.AtLeast); width.Cmp(big.NewRat(100_003, 100_000)) > 0 {
			t.Errorf("%d: the interval %v is wider than 0.003%%", year, l)
		}
	}
}

// A slip of the pen in an indexed amount is named with what the statute gives.
func TestSlipsAreNamed(t *testing.T) {
	for _, tt := range []struct{ key, slip, published string }{
		{"rate_schedules.by_status.single[2].over", "50450", "50400"},
		{"rate_schedules.by_status.single[2].over", "50410", "50400"}, // no multiple of 25
		{"standard_deduction.basic.head_of_household", "24100", "24150"},
		{"standard_deduction.basic.married_filing_jointly", "32250", "32200"},
		{"earned_income_credit.by_children[1].phase_out_from_joint", "31170", "31160"},
		{"earned_income_credit.by_children[3].completed_phase_out_joint", "70224", "70244"},
		{"adjustments.educator_expenses.cap", "300", "350"},
		{"adjustments.individual_retirement.catch_up", "1000", "1100"},
		{"itemized_deductions.state_local_taxes.cap.single", "40000", "40400"},
		{"qualified_business_income.minimum_deduction", "405", "400"},
		{"payroll.nonresident_addition.current_certificate.weekly", "309.7", "309.60"},
		{"form_w4.multiple_jobs.single.rows[3].cells[4]", "4320", "4230"},
		{"underpayment.installments.due[3]", "2027-01-16", "2027-01-15"},
	} {
		y := shipped(t, 2026)
		v, ok := fieldAt(reflect.ValueOf(y).Elem(), tt.key)
		if !ok {
			t.Fatalf("no %s", tt.key)
		}
		if err := setText(v, tt.slip); err != nil {
			t.Fatal(err)
		}
		found := slices.ContainsFunc(y.Prove().Misfits, func(m Misfit) bool {
			return m.Key == tt.key && m.Published == tt.slip && m.Statute == tt.published
		})
		if !found {
			t.Errorf("%s of %s: misfits %v, want %s", tt.key, tt.slip, y.Prove().Misfits, tt.published)
		}
	}
}

// publishedEarlier are amounts of earlier years, from memory: Rev. Procs.
// 2019-44, 2020-45, 2021-45, 2022-38 and 2023-34, and the yearly notices on
// retirement plans (2019-59, 2020-79, 2021-61, 2022-55, 2023-75). Lists are by the keys in earlierKeys.
var publishedEarlier = map[int]map[string]string{
	2020: {
		"single": "9875 40125 85525 163300 207350 518400", "joint": "19750 80250 171050 326600 414700 622050",
		"separate": "9875 40125 85525 163300 207350 311025", "head": "14100 53700 85500 163300 207350 518400",
		"deduction": "12400 18650", "aged": "1650 1300 1100 350",
		"gains":  "80000 53600 441450 496600 248300 469050",
		"earned": "7030 10540 14800 14800 8790 19330 19330 19330", "earned joint": "14680 25220 25220 25220",
		"amt": "197900 72900 113400", "business": "163300", "relative": "4300", "student loan": "70000 140000",
		"educator": "250", "ira": "6000", "saver": "39000 42500 65000", "child": "1400",
	},
	2021: {
		"single": "9950 40525 86375 164925 209425 523600", "joint": "19900 81050 172750 329850 418850 628300",
		"separate": "9950 40525 86375 164925 209425 314150", "head": "14200 54200 86350 164900 209400 523600",
		"deduction": "12550 18800", "aged": "1700 1350 1100 350",
		"gains":  "80800 54100 445850 501600 250800 473750",
		"earned": "7100 10640 14950 14950 8880 19520 19520 19520", "earned joint": "14820 25470 25470 25470",
		"amt": "199900 73600 114600", "business": "164900", "relative": "4300", "student loan": "70000 140000",
		"educator": "250", "ira": "6000", "saver": "39500 43000 66000", "child": "1400",
	},
	2022: {
		"single": "10275 41775 89075 170050 215950 539900", "joint": "20550 83550 178150 340100 431900 647850",
		"separate": "10275 41775 89075 170050 215950 323925", "head": "14650 55900 89050 170050 215950 539900",
		"deduction": "12950 19400", "aged": "1750 1400 1150 400",
		"gains":  "83350 55800 459750 517200 258600 488500",
		"earned": "7320 10980 15410 15410 9160 20130 20130 20130", "earned joint": "15290 26260 26260 26260",
		"amt": "206100 75900 118100", "business": "170050", "relative": "4400", "student loan": "70000 145000",
		"educator": "300", "ira": "6000", "saver": "41000 44000 68000", "child": "1500", "investment": "10300",
	},
	2023: {
		"single": "11000 44725 95375 182100 231250 578125", "joint": "22000 89450 190750 364200 462500 693750",
		"separate": "11000 44725 95375 182100 231250 346875", "head": "15700 59850 95350 182100 231250 578100",
		"deduction": "13850 20800", "aged": "1850 1500 1250 400",
		"gains":  "89250 59750 492300 553850 276900 523050",
		"earned": "7840 11750 16510 16510 9800 21560 21560 21560", "earned joint": "16370 28120 28120 28120",
		"amt": "220700 81300 126500", "business": "182100", "relative": "4700", "student loan": "75000 155000",
		"educator": "300", "ira": "6500", "saver": "43500 47500 73000", "child": "1600", "investment": "11000",
	},
	2024: {
		"single": "11600 47150 100525 191950 243725 609350", "joint": "23200 94300 201050 383900 487450 731200",
		"separate": "11600 47150 100525 191950 243725 365600", "head": "16550 63100 100500 191950 243700 609350",
		"deduction": "14600 21900", "aged": "1950 1550 1300 450",
		"gains":  "94050 63000 518900 583750 291850 551350",
		"earned": "8260 12390 17400 17400 10330 22720 22720 22720", "earned joint": "17250 29640 29640 29640",
		"amt": "232600 85700 133300", "business": "191950", "relative": "5050", "student loan": "80000 165000",
		"educator": "300", "ira": "7000", "saver": "46000 50000 76500", "child": "1700", "investment": "11600",
	},
}

// earlierKeys are the figures of the lists in publishedEarlier. The standard
// deduction of those years is the one that payroll kept in 2025.
var earlierKeys = func() map[string][]string {
	brackets := func(status string) []string {
		var keys []string
		for _, i := range []string{"1", "2", "3", "4", "5", "6"} {
			keys = append(keys, "rate_schedules.by_status."+status+"["+i+"].over")
		}
		return keys
	}
	each := func(keys ...string) []string { return keys }
	var earned, joint []string
	for _, i := range []string{"0", "1", "2", "3"} {
		earned = append(earned, "earned_income_credit.by_children["+i+"].earned_income_amount")
		joint = append(joint, "earned_income_credit.by_children["+i+"].phase_out_from_joint")
	}
	for _, i := range []string{"0", "1", "2", "3"} {
		earned = append(earned, "earned_income_credit.by_children["+i+"].phase_out_from")
	}
	const zero, middle, amt, loan = "capital_gains.zero_rate_up_to.", "capital_gains.middle_rate_up_to.", "alternative_minimum_tax.", "adjustments.student_loan_interest.phase_out."
	return map[string][]string{
		"single": brackets("single"), "joint": brackets("married_filing_jointly"), "separate": brackets("married_filing_separately"), "head": brackets("head_of_household"),
		"deduction": each("payroll.built_in_standard_deduction.single", "payroll.built_in_standard_deduction.head_of_household"),
		"aged":      each("standard_deduction.aged_or_blind.single", "standard_deduction.aged_or_blind.married_filing_jointly", "standard_deduction.dependent_at_least", "standard_deduction.dependent_earned_income_plus"),
		"gains": each(zero+"married_filing_jointly", zero+"head_of_household",
			middle+"single", middle+"married_filing_jointly", middle+"married_filing_separately", middle+"head_of_household"),
		"earned": earned, "earned joint": joint,
		"amt":      each(amt+"upper_rate_over.single", amt+"exemption.single", amt+"exemption.married_filing_jointly"),
		"business": each("qualified_business_income.threshold.single"), "relative": each("dependent_tests.qualifying_relative.gross_income_under"),
		"student loan": each(loan+"single.from", loan+"married_filing_jointly.from"),
		"educator":     each("adjustments.educator_expenses.cap"), "ira": each("adjustments.individual_retirement.limit"),
		"saver": each("savers_credit.tiers[0].up_to.married_filing_jointly", "savers_credit.tiers[1].up_to.married_filing_jointly", "savers_credit.tiers[2].up_to.married_filing_jointly"),
		"child": each("child_tax_credit.refundable_cap_per_child"), "investment": each("earned_income_credit.investment_income_limit"),
	}
}()

// unlikeTheRule are amounts that the rule does not give. By IRC 151(d)(4) a
// relative's income limit would be 4,350, 4,450 and 4,800 in these years, as it
// is in every other year from 2020 to 2026. The amounts are as recalled.
var unlikeTheRule = map[int]string{
	2021: "dependent_tests.qualifying_relative.gross_income_under 4350",
	2022: "dependent_tests.qualifying_relative.gross_income_under 4450",
	2023: "dependent_tests.qualifying_relative.gross_income_under 4800",
}

// The rules, as the table of 2025 has them, against five earlier years: all
// amounts of a year but one meet in one narrow interval of the price index, and
// its middle, moved on by the rise to the middle of the next year's, gives every
// amount of that year. The levels of the base years 2017, 2020 and 2022 were
// chosen where the years meet; nothing else was fitted.
func TestRulesGiveEarlierYears(t *testing.T) {
	levels := map[int]Level{}
	for _, year := range slices.Sorted(maps.Keys(publishedEarlier)) {
		y, keys := earlier(t, year)
		var spans []span
		for _, s := range y.spans(augustIndex) {
			if slices.Contains(keys, s.key) {
				spans = append(spans, s)
			}
		}
		if len(spans) != len(keys) {
			t.Fatalf("%d: %d of %d amounts have a rule", year, len(spans), len(keys))
		}
		l := meet(augustIndex, spans)
		misfit := ""
		for _, s := range spans {
			if s.least.Cmp(l.AtLeast) > 0 || s.below.Cmp(l.Below) < 0 {
				misfit += s.key + " " + decimalText(s.rule.at(y, s.base, l.Middle()))
			}
		}
		if misfit != unlikeTheRule[year] {
			t.Errorf("%d: the rules would give %q, want %q", year, misfit, unlikeTheRule[year])
		}
		if width := new(big.Rat).Quo(l.Below, l.AtLeast); width.Cmp(big.NewRat(10_005, 10_000)) > 0 {
			t.Errorf("%d: the interval %v is wider than 0.05%%", year, l)
		}
		levels[year] = l
	}
	for _, year := range []int{2021, 2022, 2023, 2024} {
		rise := new(big.Rat).Quo(levels[year].Middle(), levels[year-1].Middle())
		y, keys := earlier(t, year)
		at := rise.Mul(rise, levels[year-1].Middle())
		for _, s := range y.spans(augustIndex) {
			want := textOf(s.value)
			if key, text, unlike := strings.Cut(unlikeTheRule[year], " "); unlike && key == s.key {
				want = text
			}
			if slices.Contains(keys, s.key) && decimalText(s.rule.at(y, s.base, at)) != want {
				t.Errorf("%d from %d: %s is %s, want %s", year, year-1, s.key, decimalText(s.rule.at(y, s.base, at)), want)
			}
		}
	}
}

// earlier is the table of 2025 with amounts of another year, and their keys.
func earlier(t *testing.T, year int) (*Year, []string) {
	t.Helper()
	y := shipped(t, 2025)
	y.Year = year
	var keys []string
	for name, list := range publishedEarlier[year] {
		for i, text := range strings.Fields(list) {
			key := earlierKeys[name][i]
			v, _ := fieldAt(reflect.ValueOf(y).Elem(), key)
			if err := setText(v, text); err != nil {
				t.Fatal(err)
			}
			keys = append(keys, key)
		}
	}
	return y, keys
}

// From 2025 to 2026, both published, in full: the rules of 2026 at the level
// that the figures of 2025 give, moved on by 2.274%, give every amount of 2026;
// and the projection of 2025 by its own rules misses those alone that Public Law
// 119-21 changed.
func TestFrom2025To2026(t *testing.T) {
	rise := rate(t, "0.02274")
	before, after := shipped(t, 2025), shipped(t, 2026)
	next := before.levelsAfter(rise)
	compared := 0
	for _, months := range []string{augustIndex} {
		for _, s := range after.spans(months) {
			compared++
			if got := decimalText(s.rule.at(after, s.base, next[months])); got != textOf(s.value) {
				t.Errorf("%s: %s, want %s", s.key, got, textOf(s.value))
			}
		}
	}
	if compared < 65 {
		t.Errorf("compared %d amounts, want all of 2026", compared)
	}

	projected, err := Project(before, 2026, rise)
	if err != nil {
		t.Fatal(err)
	}
	byLaw := map[string]string{
		"rate_schedules.by_status.": "two lowest brackets: sec. 70101(b)", "alternative_minimum_tax.phase_out_": "sec. 70107",
		"qualified_business_income.": "sec. 70105", "itemized_deductions.": "secs. 70108, 70111", "charity.": "sec. 70425",
		"gifts_without_itemizing.": "sec. 70424", "dependent_care_credit.": "sec. 70405", "education_credits.taxpayer_ssn_required": "sec. 70606",
		"payroll.built_in_standard_deduction.": "printed before the law in 2025", "payroll.nonresident_addition.": "the same", "form_w4.": "the same, and a new worksheet",
		"gambling_losses.": "sec. 70114", "adoption_credit.refundable_up_to": "not proved: see its note", "residential_energy.": "secs. 70505, 70506",
		"premium_tax_credit.": "P.L. 117-169 sec. 12001 ended", "underpayment.interest.": "set each quarter", "self_employed_plans.": "IRC 415(d), another index",
		"social_security_tax.wage_base.": "the national average wage", "price_index.": "a year more", "later_years.": "2026 alone",
		"alternative_minimum_tax.": "sec. 70107",
	}
	for _, c := range Compare(projected, after) {
		explained := false
		for prefix := range byLaw {
			explained = explained || strings.HasPrefix(c.Key, prefix)
		}
		lowest := strings.Contains(c.Key, "[1].over") || strings.Contains(c.Key, "[2].over")
		if !explained || strings.HasPrefix(c.Key, "rate_schedules.") && !lowest {
			t.Errorf("%s: projected %s, published %s", c.Key, c.Old, c.New)
		}
	}
}

func rate(t *testing.T, text string) money.Rate {
	t.Helper()
	var r money.Rate
	if err := r.UnmarshalText([]byte(text)); err != nil {
		t.Fatal(err)
	}
	return r
}
