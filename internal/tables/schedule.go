package tables

import (
	"fmt"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
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
func (s *Schedule) Check(report yamldoc.Report) {
	if len(*s) == 0 {
		report("", words.T("tables.empty", "what", "brackets"))
	}
	for i, b := range *s {
		at := func(key string) string { return fmt.Sprintf("[%d].%s", i, key) }
		if i == 0 {
			if !b.Over.IsZero() {
				report(at("over"), notFromZero("bracket", b.Over.Text()))
			}
			continue
		}
		before := (*s)[i-1]
		if !b.Over.More(before.Over) {
			report(at("over"), notRising("brackets", b.Over.Text(), before.Over.Text()))
		}
		if b.Rate.Cmp(before.Rate) <= 0 {
			report(at("rate"), notRising("rates", b.Rate.Text(), before.Rate.Text()))
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
