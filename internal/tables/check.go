package tables

import (
	"fmt"
	"math/big"
	"time"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// The Check methods are called by yamldoc on what it has decoded. They hold
// what must be true of every year, so that a slip of the pen is found when a
// table is read and the rules need not guard against it.

const mustBePositive = "must be more than 0"

// Check asks for a source, and that the lists of a mixed group say what is not
// found. A projected group has them for the figures that are not projected.
func (c *Citation) Check(report func(key, message string)) {
	if c.Source == "" {
		report("source", "has no value; name the publication and its section")
	}
	if c.Basis != Mixed && c.Basis != Projecting {
		if len(c.Memory) > 0 {
			report("memory", "belongs in a group whose basis is mixed; this one is all "+string(c.Basis)+"; write mixed, or take the list out")
		}
		if len(c.Derived) > 0 {
			report("derived", "belongs in a group whose basis is mixed; this one is all "+string(c.Basis)+"; write mixed, or take the list out")
		}
		return
	}
	if c.Basis == Mixed && len(c.Memory)+len(c.Derived) == 0 && c.Note == "" {
		report("basis", "is mixed, but nothing says what is not found; list the figures under memory or derived")
	}
}

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

// Check asks that a range does not end before it begins.
func (p *PhaseOut) Check(report func(key, message string)) {
	if p.To.Less(p.From) {
		report("to", fmt.Sprintf("%s is less than %s, where the range begins", p.To.Text(), p.From.Text()))
	}
}

// Check asks for a step.
func (p *StepPhaseOut) Check(report func(key, message string)) {
	positive(report, "step", p.Step)
}

// Check asks for steps.
func (m *MortgageInsurance) Check(report func(key, message string)) {
	eachStatus(m.Step, func(status string, step money.Amount) { positive(report, "step."+status, step) })
}

// Check asks for steps.
func (p *SecondCarePhase) Check(report func(key, message string)) {
	eachStatus(p.Step, func(status string, step money.Amount) { positive(report, "step."+status, step) })
}

// Check asks for a step.
func (c *DependentCare) Check(report func(key, message string)) {
	positive(report, "first_phase_step", c.FirstStep)
}

// Check asks for a divisor.
func (l *OverallLimit) Check(report func(key, message string)) {
	if l.Denominator <= 0 {
		report("denominator", mustBePositive)
	}
}

// Check asks that no zone ends before the one below it.
func (g *CapitalGains) Check(report func(key, message string)) {
	for _, s := range household.Statuses() {
		if zero, middle := g.ZeroTop.Of(s), g.MiddleTop.Of(s); middle.Less(zero) {
			report("middle_rate_up_to."+s.String(), fmt.Sprintf("%s is less than %s, the top of the zero rate", middle.Text(), zero.Text()))
		}
	}
}

// Check asks that rates fall as incomes rise.
func (c *Savers) Check(report func(key, message string)) {
	for i := 1; i < len(c.Tiers); i++ {
		tier, before := c.Tiers[i], c.Tiers[i-1]
		at := fmt.Sprintf("tiers[%d].", i)
		if tier.Rate.Cmp(before.Rate) >= 0 {
			report(at+"rate", fmt.Sprintf("rates must fall: %s is not less than %s before it", tier.Rate.Text(), before.Rate.Text()))
		}
		for _, s := range household.Statuses() {
			if upTo, least := tier.UpTo.Of(s), before.UpTo.Of(s); upTo.Less(least) {
				report(at+"up_to."+s.String(), fmt.Sprintf("limits must rise: %s is less than %s before it", upTo.Text(), least.Text()))
			}
		}
	}
}

// Check asks for the columns of no child to three and more.
func (c *EarnedIncome) Check(report func(key, message string)) {
	const columns = 4
	if n := len(c.ByChildren); n != columns {
		report("by_children", fmt.Sprintf("has %d columns; it needs %d: no child, one, two, three or more", n, columns))
	}
	positive(report, "table_row_width", c.RowWidth)
}

// Check asks that the phase-outs do not end before they begin.
func (c *EarnedColumn) Check(report func(key, message string)) {
	if c.CompletePhaseOut.Less(c.PhaseOutFrom) {
		report("completed_phase_out", fmt.Sprintf("%s is less than %s, where the phase-out begins", c.CompletePhaseOut.Text(), c.PhaseOutFrom.Text()))
	}
	if c.CompletePhaseOutJoint.Less(c.PhaseOutFromJoint) {
		report("completed_phase_out_joint", fmt.Sprintf("%s is less than %s, where the phase-out begins", c.CompletePhaseOutJoint.Text(), c.PhaseOutFromJoint.Text()))
	}
}

// Check asks that interest is known from the first due date on, and not beyond
// March of the next year, whose rate goes on to April 15 (IRC 6621(b)(2)(B)).
func (u *Underpayment) Check(report func(key, message string)) {
	due, rates := u.Installments.Due, u.Interest.Rates
	if len(due) == 0 || len(rates) == 0 {
		return
	}
	if rates[0].From.After(due[0]) {
		report("interest.rates[0].from", fmt.Sprintf("%v is after %v, the first due date", rates[0].From, due[0]))
	}
	end := household.On(due[0].Year+1, time.April, 1)
	for i, r := range rates {
		if !end.After(r.From) {
			report(fmt.Sprintf("interest.rates[%d].from", i), fmt.Sprintf("%v is too late: until April 15 the rate of March goes on; delete this row", r.From))
		}
	}
}

// Check asks for four due dates.
func (n *Installments) Check(report func(key, message string)) {
	const installments = 4
	if n := len(n.Due); n != installments {
		report("due", fmt.Sprintf("has %d dates; it needs %d", n, installments))
	}
	for i := 1; i < len(n.Due); i++ {
		if !n.Due[i].After(n.Due[i-1]) {
			report(fmt.Sprintf("due[%d]", i), fmt.Sprintf("dates must rise: %v is not after %v", n.Due[i], n.Due[i-1]))
		}
	}
}

// Check asks for rates in the order of their dates, of whole quarters and whole
// percents: three points over a rate that is rounded to one (IRC 6621(a)(2), (b)).
func (n *Interest) Check(report func(key, message string)) {
	if len(n.Rates) == 0 {
		report("rates", "has no rate; add the one of the first due date")
	}
	least, most, percent := money.Percent(3), money.Percent(20), big.NewRat(1, 100)
	for i, r := range n.Rates {
		if r.From.Day != 1 || r.From.Month%3 != 1 {
			report(fmt.Sprintf("rates[%d].from", i), fmt.Sprintf("%v is not the first day of a quarter", r.From))
		}
		if share := rateRat(r.Rate); down(share, percent).Cmp(share) != 0 || r.Rate.Cmp(least) < 0 || r.Rate.Cmp(most) > 0 {
			report(fmt.Sprintf("rates[%d].rate", i), fmt.Sprintf("%s is not a whole percent from %s to %s", r.Rate.Text(), least.Text(), most.Text()))
		}
	}
	for i := 1; i < len(n.Rates); i++ {
		if from, before := n.Rates[i].From, n.Rates[i-1].From; !from.After(before) {
			report(fmt.Sprintf("rates[%d].from", i), fmt.Sprintf("dates must rise: %v is not after %v", from, before))
		}
	}
}

// Check asks for pay periods that grow fewer as they grow longer, down to the
// one of a year.
func (p *Payroll) Check(report func(key, message string)) {
	before := 0
	for _, f := range household.Frequencies() {
		n, key := p.Periods.Of(f), "pay_periods."+f.String()
		switch {
		case n <= 0:
			report(key, mustBePositive)
		case before > 0 && n >= before:
			report(key, fmt.Sprintf("%d is not less than the %d of a shorter period", n, before))
		case f == household.Annual && n != 1:
			report(key, fmt.Sprintf("a year has one annual period, not %d", n))
		}
		before = n
	}
}

// Check asks for rows as long as the heading, headings that rise from zero, and
// cells that do not fall along a row: more pay in the second job never lowers
// the tax on it.
func (t *MultipleJobsTable) Check(report func(key, message string)) {
	rising(report, len(t.Lower), func(i int) (string, money.Amount) {
		return fmt.Sprintf("lower_paying_from[%d]", i), t.Lower[i]
	})
	rising(report, len(t.Rows), func(i int) (string, money.Amount) {
		return fmt.Sprintf("rows[%d].from", i), t.Rows[i].From
	})
	for i, row := range t.Rows {
		if len(row.Cells) != len(t.Lower) {
			report(fmt.Sprintf("rows[%d].cells", i), fmt.Sprintf("has %d cells; the table has %d columns", len(row.Cells), len(t.Lower)))
		}
		for j := 1; j < len(row.Cells); j++ {
			if row.Cells[j].Less(row.Cells[j-1]) {
				report(fmt.Sprintf("rows[%d].cells[%d]", i, j), fmt.Sprintf("cells must not fall: %s comes after %s", row.Cells[j].Text(), row.Cells[j-1].Text()))
			}
		}
	}
}

// rising asks that the amounts of a heading begin at zero and rise.
func rising(report func(key, message string), n int, amount func(i int) (key string, a money.Amount)) {
	before := money.Zero
	for i := range n {
		key, a := amount(i)
		switch {
		case i == 0 && !a.IsZero():
			report(key, "must begin at 0, not "+a.Text())
		case i > 0 && !a.More(before):
			report(key, fmt.Sprintf("must rise: %s is not more than %s before it", a.Text(), before.Text()))
		}
		before = a
	}
}

func positive(report func(key, message string), key string, a money.Amount) {
	if !a.IsPositive() {
		report(key, mustBePositive)
	}
}

// eachStatus calls f with the key and the amount of each filing status.
func eachStatus(amounts Amounts, f func(status string, a money.Amount)) {
	for _, s := range household.Statuses() {
		f(s.String(), amounts.Of(s))
	}
}
