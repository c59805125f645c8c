package tax

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/worksheet"
)

// The deductions of Schedule 1-A: for tips, overtime, car loan interest and
// seniors. Their modified adjusted gross income is adjusted gross income, for
// the answers know no income from abroad.

// tips is the deduction for qualified tips up to a cap for the return, less an
// amount for each full $1,000 of income over a start. Separate filers may
// deduct none, nor may an earner without a social security number for theirs.
//
// IRC 224(b)(1), cap; (b)(2), phase-out; (e), number; (f), separate filers.
// Schedule 1-A lines 4 to 13, of which line 11 drops a part of a thousand.
func (c *computation) tips() {
	r := &c.y.Tips
	c.deductions.Tips = c.fromPay(payDeduction{
		line: worksheet.Line{
			ID:   "tax.tips",
			Form: "Schedule 1-A line 13",
		},
		key:     "qualified_tips",
		section: "IRC 224",
		of:      func(j *household.Job) money.Amount { return j.QualifiedTips },
		most:    r.Cap.Of(c.Status),
		phase:   &r.PhaseOut,
		figures: &r.Citation,
	})
}

// overtime is the deduction for the premium part of overtime pay, limited as
// that for tips is, with a cap of its own.
//
// IRC 225(b)(1), cap; (b)(2), phase-out; (d), number; (e), separate filers.
// Schedule 1-A lines 14 to 21, of which line 19 drops a part of a thousand.
func (c *computation) overtime() {
	r := &c.y.Overtime
	c.deductions.Overtime = c.fromPay(payDeduction{
		line: worksheet.Line{
			ID:   "tax.overtime",
			Form: "Schedule 1-A line 21",
		},
		key:     "qualified_overtime",
		section: "IRC 225",
		of:      func(j *household.Job) money.Amount { return j.QualifiedOvertime },
		most:    r.Cap.Of(c.Status),
		phase:   &r.PhaseOut,
		figures: &r.Citation,
	})
}

// payDeduction is what the deductions for tips and for overtime differ in.
type payDeduction struct {
	line         worksheet.Line
	key, section string
	of           func(*household.Job) money.Amount
	most         money.Amount
	phase        *tables.StepPhaseOut
	figures      *tables.Citation
}

// fromPay is a deduction for a part of the pay of all jobs on this return.
func (c *computation) fromPay(d payDeduction) money.Amount {
	paid, from := money.Zero, []string(nil)
	for i := range c.h.Jobs {
		j := &c.h.Jobs[i]
		amount := d.of(j)
		if !amount.IsPositive() || !c.counts(j.Earner) {
			continue
		}
		if !c.h.Person(j.Earner).HasSSN() {
			c.note("ssn_required", "what", d.key, "section", d.section)
			continue
		}
		paid = paid.Add(amount)
		if c.s != nil {
			from = append(from, jobKey(i, d.key))
		}
	}
	if !paid.IsPositive() {
		return money.Zero
	}
	if !d.most.IsPositive() {
		c.note("joint_return_required", "what", d.key, "section", d.section)
		return money.Zero
	}
	capped := money.Min(paid, d.most)
	steps := c.over(d.phase.From).Steps(d.phase.Step)
	lost := d.phase.PerStep.Times(steps)
	d.line.Amount = capped.Sub(lost).OrZero()
	d.line.How = c.how("steps_full", "paid", paid, "most", d.most, "steps", steps, "over", d.phase.From.Of(c.Status), "lost", d.phase.PerStep)
	d.line.From = append(from, "tax.adjusted_gross_income")
	d.line.Source = c.cite(d.section, *d.figures)
	return c.s.Add(d.line)
}

// over is the adjusted gross income above the filing status's start.
func (c *computation) over(start tables.Amounts) money.Amount {
	return c.AdjustedGrossIncome.Sub(start.Of(c.Status)).OrZero()
}

// carLoan is the deduction for interest on a qualified car loan up to a cap
// for the return, less an amount for each $1,000 of income over a start that
// has begun. Separate filers may deduct it.
//
// IRC 163(h)(4)(C)(i), cap; (C)(ii), phase-out. Schedule 1-A lines 22 to 30,
// of which line 28 counts a part of a thousand as a whole one.
func (c *computation) carLoan() {
	paid, r := c.h.Deductions.CarLoanInterest, &c.y.CarLoan
	if !paid.IsPositive() {
		return
	}
	most := r.Cap.Of(c.Status)
	steps := c.over(r.PhaseOut.From).StepsBegun(r.PhaseOut.Step)
	c.deductions.CarLoan = c.s.Add(worksheet.Line{
		ID:     "tax.car_loan_interest",
		Form:   "Schedule 1-A line 30",
		Amount: money.Min(paid, most).Sub(r.PhaseOut.PerStep.Times(steps)).OrZero(),
		How:    c.how("steps_begun", "paid", paid, "most", most, "steps", steps, "over", r.PhaseOut.From.Of(c.Status), "lost", r.PhaseOut.PerStep),
		From:   []string{"deductions.car_loan_interest", "tax.adjusted_gross_income"},
		Source: c.cite("IRC 163(h)(4)", r.Citation),
	})
}

// senior is the deduction for people of age with a social security number: an
// amount each, less a share of the income over a start, taken off each one's
// amount. Separate filers may deduct none.
//
// IRC 151(d)(5)(C)(i), (ii), who; (iii), phase-out; (iv), number; (v),
// separate filers. Schedule 1-A lines 31 to 37.
func (c *computation) senior() {
	r := &c.y.Senior
	n := 0
	for _, e := range c.earners() {
		p := c.h.Person(e)
		switch {
		case !c.reached(p, r.AgedFrom):
		case !p.HasSSN():
			c.note("ssn_required", "what", "senior", "section", "IRC 151(d)(5)(C)")
		default:
			n++
		}
	}
	if n == 0 {
		return
	}
	full := r.Each.Of(c.Status)
	if !full.IsPositive() {
		c.note("joint_return_required", "what", "senior", "section", "IRC 151(d)(5)(C)")
		return
	}
	each := full.Sub(c.over(r.From).At(r.Rate)).OrZero()
	c.deductions.Senior = c.s.Add(worksheet.Line{
		ID:     "tax.senior",
		Form:   "Schedule 1-A line 37",
		Amount: each.Times(n),
		How:    c.how("senior", "people", n, "each", each, "full", full, "rate", r.Rate, "over", r.From.Of(c.Status)),
		From:   []string{"self.birth_date", "tax.adjusted_gross_income"},
		Source: c.cite("IRC 151(d)(5)(C)", r.Citation),
	})
}
