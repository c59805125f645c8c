package report

import (
	"slices"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/worksheet"
)

// Who was asked what comes again next year is not told to say it, and only they.
func TestNobodyIsAskedAgainWhatTheyAnswered(t *testing.T) {
	h := creditParent(household.On(2026, 9, 20), household.On(2026, 9, 11), 35_150)
	h.Income.Unemployment = money.Dollars(3000)
	for _, asked := range []bool{false, true} {
		if asked {
			h.Interview.Gates = map[string]string{"again": "none"}
		}
		r := solved(t, h)
		told := slices.ContainsFunc(unsaid(r), func(n worksheet.Note) bool { return n.Code == "january_once" })
		if told == asked {
			t.Errorf("asked %v, told %v", asked, told)
		}
	}
}
