package store

import (
	"errors"
	"strconv"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

// ErrNewerFormat is wrapped by the error for an answers file that a newer
// version of the program wrote.
var ErrNewerFormat = errors.New("written by a newer version of this program")

// An upgrade changes a document of one format into one of the next.
type upgrade func(*yamldoc.Document) error

// upgrades are the upgrades by the format they start from. Format 1 is the
// first, so there are none yet.
var upgrades = map[int]upgrade{}

// bringUp brings a document up to today's format and returns the one it was
// in. A newer format is refused before anything else is said of the file, since
// nothing else that this version could say of it need be true. A format that
// cannot be read is left to Decode to report.
func bringUp(doc *yamldoc.Document, upgrades map[int]upgrade) (format int, err error) {
	text, _ := doc.Get("format")
	format, err = strconv.Atoi(text)
	if err != nil {
		return household.Format, nil
	}
	if format > household.Format {
		return format, newerFormat{doc.Problem("format", words.T("answers.format_newer", "format", format, "newest", household.Format))}
	}
	for n := format; n < household.Format; n++ {
		step, known := upgrades[n]
		if !known {
			return format, yamldoc.Problems{doc.Problem("format", words.T("answers.format_unknown", "format", n, "newest", household.Format))}
		}
		if err := step(doc); err != nil {
			return format, yamldoc.Problems{doc.Problem("format", words.T("answers.format_stuck", "format", n, "next", n+1, "why", err))}
		}
		if err := doc.Set("format", strconv.Itoa(n+1)); err != nil {
			return format, err
		}
	}
	return format, nil
}

// newerFormat is the error that wraps ErrNewerFormat.
type newerFormat struct{ yamldoc.Problem }

func (newerFormat) Unwrap() error { return ErrNewerFormat }
