package tables

import (
	"strconv"

	"example.com/plumbline/internal/words"
)

// PriceIndex is the consumer price index of IRC 1(f)(3) to (6), the average of twelve
// months, of each base year that the rules of a year need.
type PriceIndex struct {
	Citation `yaml:",inline"`
	August   map[calendarYear]number `yaml:"average_through_august,required"` // September of the year before to August
	March    map[calendarYear]number `yaml:"average_through_march,required"`  // April of the year before to March: IRC 223(g)(1)
}

// The months in which the twelve of an index end, as Rule.Through names them; left
// out it is August.
const (
	augustIndex = "august"
	marchIndex  = "march"
)

// of is the index of the rule's months.
func (p *PriceIndex) of(through string) map[calendarYear]number {
	if through == marchIndex {
		return p.March
	}
	return p.August
}

// knows reports whether the index is there for the base years of a rule.
func (p *PriceIndex) knows(r *Rule) bool {
	levels := p.of(r.Through)
	_, base := levels[r.BaseYear]
	_, plus := levels[r.PlusYear]
	return base && (plus || r.PlusYear == 0)
}

// calendarYear is a year that names a value in a file.
type calendarYear int

// UnmarshalText reads a year in four digits.
func (y *calendarYear) UnmarshalText(text []byte) error {
	n, err := strconv.Atoi(string(text))
	if err != nil || len(text) != 4 {
		return words.Fail("tables.not_a_base", "text", string(text))
	}
	*y = calendarYear(n)
	return nil
}
