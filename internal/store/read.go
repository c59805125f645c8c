// Package store is the answers file: reading it into a household with every
// mistake named by line and column, and keeping it safe while it is written.
// It hides the file system, the lock and the encryption; it never holds a
// social security number, because no answer asks for one.
//
// Start at Read for a file or a stream, Open for a file that will be written.
package store

import (
	"errors"
	"fmt"
	"io"
	"strconv"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/yamldoc"
)

// maxBytes is the most that an answers file may hold; real ones hold a few
// thousand bytes.
const maxBytes = 1 << 20

// ErrNewerFormat is wrapped by the error for an answers file that a newer
// version of the program wrote.
var ErrNewerFormat = errors.New("written by a newer version of this program")

// Decode reads an answers file, YAML or JSON, given as text. A day of working
// out that the file leaves open becomes today. The error is a
// yamldoc.Problems, all mistakes together, or wraps ErrNewerFormat.
func Decode(name string, data []byte, today household.Date) (household.Household, *yamldoc.Document, error) {
	doc, err := yamldoc.Parse(name, data)
	if err != nil {
		return household.Household{}, nil, err
	}
	h, err := FromDocument(doc, today)
	return h, doc, err
}

// FromDocument is the household that a document of answers describes.
func FromDocument(doc *yamldoc.Document, today household.Date) (household.Household, error) {
	if err := checkFormat(doc); err != nil {
		return household.Household{}, err
	}
	var h household.Household
	if problems := doc.Decode(&h); len(problems) > 0 {
		return household.Household{}, problems
	}
	if h.AsOf.IsZero() {
		h.AsOf = today
	}
	return h, nil
}

// checkFormat refuses a newer format before anything else is said of the file,
// since nothing else that this version could say of it need be true.
func checkFormat(doc *yamldoc.Document) error {
	text, ok := doc.Get("format")
	if !ok {
		return nil
	}
	if n, err := strconv.Atoi(text); err == nil && n > household.Format {
		return fmt.Errorf("%w: %w", doc.Problem("format", fmt.Sprintf("the file is of format %d and this program reads up to %d; use the newer version, the file is left as it is", n, household.Format)), ErrNewerFormat)
	}
	return nil
}

// ReadAll reads a stream of answers to its end, and refuses one larger than
// any honest file.
func ReadAll(r io.Reader) ([]byte, error) {
	data, err := io.ReadAll(io.LimitReader(r, maxBytes+1))
	if err != nil {
		return nil, err
	}
	if len(data) > maxBytes {
		return nil, fmt.Errorf("is larger than %d bytes, so it is not an answers file", maxBytes)
	}
	return data, nil
}
