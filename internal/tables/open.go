package tables

import (
	"bytes"
	"slices"
	"strings"

	"example.com/plumbline/internal/yamldoc"
)

// open stands in a new year's file for a figure, a source or a basis that is
// yet to be filled in.
const open = "open"

const fillIn = "open: fill in from the year's publication"

// mayBeOpen is quick, and wrong only in seeing something open where it is not.
func mayBeOpen(data []byte) bool { return bytes.Contains(data, []byte(": "+open)) }

// mayBeNegative is quick, and wrong only in seeing a negative figure where
// there is none.
func mayBeNegative(data []byte) bool {
	for i := 1; i+1 < len(data); i++ {
		before, after := data[i-1], data[i+1]
		if data[i] == '-' && strings.IndexByte(" \"'[", before) >= 0 && after >= '0' && after <= '9' {
			return true
		}
	}
	return false
}

// withFigures adds what the text of the figures shows: one that is open, which
// takes the place of what Decode makes of it, and one that is negative, as none
// is.
func withFigures(doc *yamldoc.Document, problems yamldoc.Problems) yamldoc.Problems {
	isOpen := map[string]bool{}
	for _, key := range doc.Keys() {
		switch text, _ := doc.Get(key); {
		case text == open:
			isOpen[key] = true
			problems = append(problems, doc.Problem(key, yamldoc.Said(fillIn)))
		case strings.HasPrefix(text, "-"):
			problems = append(problems, doc.Problem(key, yamldoc.Said("must not be negative")))
		}
	}
	return slices.DeleteFunc(problems, func(p yamldoc.Problem) bool { return isOpen[p.Key] && p.Message() != fillIn })
}
