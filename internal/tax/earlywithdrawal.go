package tax

import (
	"time"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/worksheet"
)

// earlyWithdrawal is the tax on what is taken out of retirement plans before
// the age for it and without an exception, as the answers give it. The higher
// rate of a SIMPLE plan's first two years is not known to apply.
//
// IRC 72(t)(1), (2); Form 5329 Part I; Schedule 2 line 8.
func (c *computation) earlyWithdrawal() {
	early, r := c.h.Income.EarlyWithdrawal, &c.y.EarlyWithdrawals
	if !early.IsPositive() {
		return
	}
	c.EarlyWithdrawalTax = c.s.Add(worksheet.Line{
		ID:     "tax.early_withdrawal",
		Form:   "Schedule 2 line 8",
		Amount: early.At(r.Rate).ToCent(),
		How:    worksheet.Using("%v × %v", early, r.Rate),
		From:   []string{"income.early_withdrawal"},
		Source: c.cite("IRC 72(t)(1)", r.Citation),
	})
}

// OfWithdrawalAge reports whether a person has reached, before a year begins,
// the age from which no tax falls on an early withdrawal; no without a birth
// date.
//
// IRC 72(t)(2)(A)(i).
func OfWithdrawalAge(p household.Person, y *tables.Year) bool {
	born, r := p.BirthDate, &y.EarlyWithdrawals
	if born.IsZero() {
		return false
	}
	of := household.DateOf(time.Date(born.Year+r.AgeYears, born.Month+time.Month(r.AgeMonths), born.Day, 12, 0, 0, 0, time.UTC))
	return !of.After(household.On(y.Year, time.January, 1))
}

// drawsEarly reports whether retirement plans pay people none of whom is known
// to have reached the age for it, with nothing said to be early.
func (c *computation) drawsEarly() bool {
	if !c.h.Income.Retirement.IsPositive() || c.h.Income.EarlyWithdrawal.IsPositive() {
		return false
	}
	for _, e := range c.earners() {
		if OfWithdrawalAge(c.h.Person(e), c.y) {
			return false
		}
	}
	return true
}
