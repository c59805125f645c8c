package tables

import (
	"fmt"

	"example.com/plumbline/internal/money"
)

// Schedules are the rate schedules of IRC 1(j).
type Schedules struct {
	Citation `yaml:",inline"`
	Rates    ByStatus[Schedule] `yaml:"by_status,required"`
}

// Bracket taxes what lies over an amount, up to the next bracket.
type Bracket struct {
	Over money.Amount `yaml:"over,required"`
	Rate money.Rate   `yaml:"rate,required"`
}

// Schedule is a rate schedule: its brackets from zero up.
type Schedule []Bracket

// Check asks that brackets begin at zero and that both columns rise.
func (s *Schedule) Check(report func(key, message string)) {
	if len(*s) == 0 {
		report("", "has no brackets; add the first, over 0")
	}
	for i, b := range *s {
		at := func(key string) string { return fmt.Sprintf("[%d].%s", i, key) }
		if i == 0 {
			if !b.Over.IsZero() {
				report(at("over"), "the first bracket must begin at 0, not "+b.Over.Text())
			}
			continue
		}
		before := (*s)[i-1]
		if !b.Over.More(before.Over) {
			report(at("over"), fmt.Sprintf("brackets must rise: %s is not more than %s before it", b.Over.Text(), before.Over.Text()))
		}
		if b.Rate.Cmp(before.Rate) <= 0 {
			report(at("rate"), fmt.Sprintf("rates must rise: %s is not more than %s before it", b.Rate.Text(), before.Rate.Text()))
		}
	}
}

// Tax is the tax on an amount by the schedule, exact; nothing on zero or less.
func (s Schedule) Tax(amount money.Amount) money.Amount {
	tax := money.Zero
	for i, b := range s {
		if !amount.More(b.Over) {
			break
		}
		top := amount
		if i+1 < len(s) {
			top = money.Min(amount, s[i+1].Over)
		}
		tax = tax.Add(top.Sub(b.Over).At(b.Rate))
	}
	return tax
}

// RateAt is the rate of the bracket in which an amount ends: the rate on the
// next dollar when the amount is on a bracket's edge.
func (s Schedule) RateAt(amount money.Amount) money.Rate {
	rate := s[0].Rate
	for _, b := range s {
		if amount.Less(b.Over) {
			break
		}
		rate = b.Rate
	}
	return rate
}
