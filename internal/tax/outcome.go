package tax

import "slices"

// outcome is how one test of the law comes out: met; failed, and why; or open,
// for want of a fact.
type outcome struct {
	result result
	why    string // of a failed test: the code of the words that follow "Not a dependent:"
	needs  string // of an open one: the fact to ask for
}

type result int8

const (
	isMet result = iota
	isFailed
	isOpen
)

var met = outcome{}

func failed(why string) outcome { return outcome{result: isFailed, why: why} }

func open(fact string) outcome { return outcome{result: isOpen, needs: fact} }

func (o outcome) ok() bool { return o.result == isMet }

// when is met where a condition that needs no fact holds.
func when(holds bool) outcome {
	if holds {
		return met
	}
	return failed("")
}

// asking is the order in which a person is asked for facts: what everybody
// knows first, money after that, and what hardly ever matters last.
var asking = []string{
	"relationship", "birth_date", "months_with_you", "full_time_student", "self.birth_date", "spouse.birth_date",
	"disabled", Released, Claimed, "supports_self", "gross_income", "you_support",
	"files_joint_return", "ssn_valid_for_work", "citizen_or_resident",
}

// all is the outcome of tests that must all be met: failed by the first that
// fails, whatever is open.
func all(tests ...outcome) outcome {
	for _, t := range tests {
		if t.result == isFailed {
			return t
		}
	}
	return earliest(tests...)
}

// either is the outcome of tests of which one must be met; where all fail, the
// first says why.
func either(tests ...outcome) outcome {
	failing := 0
	for _, t := range tests {
		switch t.result {
		case isMet:
			return met
		case isFailed:
			failing++
		}
	}
	if failing == len(tests) {
		return tests[0]
	}
	return earliest(tests...)
}

// earliest is the open test whose fact is asked for first; met when none is
// open.
func earliest(tests ...outcome) outcome {
	first := met
	for _, t := range tests {
		if t.result == isOpen && (first.result != isOpen || slices.Index(asking, t.needs) < slices.Index(asking, first.needs)) {
			first = t
		}
	}
	return first
}
