package tables

import (
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

// The Check methods are called by yamldoc on what it has decoded. They say what
// must be true of every year, so that a slip of the pen is found when a table is
// read and the rules need not guard against it.

// positive asks for an amount that is more than zero.
func positive(report yamldoc.Report, key string, a money.Amount) {
	if !a.IsPositive() {
		report(key, notPositive())
	}
}

func notPositive() words.Text { return words.T("tables.not_positive") }

// notRising is the mistake of a list, by what it lists, that does not rise.
func notRising(what, now, before string) words.Text {
	return words.T("tables.must_rise", "what", what, "now", now, "before", before)
}

// notFromZero is the mistake of a list that does not begin at zero, by what its
// first element is.
func notFromZero(what, now string) words.Text {
	return words.T("tables.from_zero", "what", what, "now", now)
}

// endsEarly is the mistake of a range, by what it is, that ends before it begins.
func endsEarly(what, to, from string) words.Text {
	return words.T("tables.ends_early", "what", what, "to", to, "from", from)
}
