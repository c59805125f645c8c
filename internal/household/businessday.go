package household

import (
	"time"

	"example.com/plumbline/internal/bankdays"
)

// BusinessDay is the day itself, or the first one after it that is neither on a
// weekend nor a legal public holiday.
func (d Date) BusinessDay() Date { return MovedAfter.move(d) }

// BusinessDayBefore is the day itself, or the last one before it that is neither on
// a weekend nor a legal public holiday.
func (d Date) BusinessDayBefore() Date { return MovedBefore.move(d) }

func (d Date) bankDay() bool { return bankdays.Open(d.Civil()) }

func (d Date) isWeekday() bool {
	return d.Weekday() != time.Saturday && d.Weekday() != time.Sunday
}
