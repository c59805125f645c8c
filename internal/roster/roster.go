// Package roster reads many households one after another: JSON a line each, a
// JSON list, YAML documents, or the rows of a spreadsheet saved as CSV. It
// hides the forms they come in and hands on each household as the text of an
// answers file, with its number as the sender counts. It never holds more than
// one household, and a household that cannot be read stops no other.
//
// Start at Households or Spreadsheet, then call Next until it says that there
// are no more.
package roster

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"io"

	"example.com/plumbline/internal/words"
)

// MaxBytes is the most that one household may take up.
const MaxBytes = 1 << 20

// Row is one household of a roster.
type Row struct {
	Number int    // the line, the row or the place in the list, from 1
	Text   []byte // an answers file, YAML or JSON; nil with Err
	Err    error  // why this household could not be read
}

// Source is a roster that is being read.
type Source struct {
	Sheet *Sheet // the spreadsheet's columns; nil for another kind of roster
	next  func() (Row, error)
}

// Next is the next household. The error is io.EOF after the last one, or that
// of the reader.
func (s *Source) Next() (Row, error) { return s.next() }

// Households reads a roster of JSON or YAML, told apart by how it begins: [ is
// a JSON list, { is JSON a line each, anything else YAML documents with a line
// --- between them.
func Households(r io.Reader) *Source {
	in := bufio.NewReaderSize(r, 1<<16)
	switch first := firstByte(in); first {
	case '[':
		return &Source{next: list(in)}
	case '{':
		return &Source{next: lines(in)}
	default:
		return &Source{next: documents(in)}
	}
}

// firstByte is the first byte that is no space, left to be read; zero where
// none is near.
func firstByte(in *bufio.Reader) byte {
	for n := 1; ; n++ {
		ahead, err := in.Peek(n)
		if len(ahead) < n {
			return 0
		}
		if c := ahead[n-1]; !bytes.ContainsRune([]byte(" \t\r\n"), rune(c)) {
			return c
		}
		if err != nil || n == in.Size() {
			return 0
		}
	}
}

var errTooBig = words.Fail("roster.too_big", "bytes", MaxBytes)

// line reads one line without its end; one longer than MaxBytes is passed over
// and reported as too big. The error is io.EOF at the end of the roster, with
// the last line.
func line(in *bufio.Reader) (text []byte, tooBig bool, err error) {
	for {
		part, err := in.ReadSlice('\n')
		if !tooBig {
			text = append(text, part...)
			if len(text) > MaxBytes {
				text, tooBig = nil, true
			}
		}
		if !errors.Is(err, bufio.ErrBufferFull) {
			return bytes.TrimRight(text, "\r\n"), tooBig, err
		}
	}
}

// lines are households of a line each; blank lines are passed over.
func lines(in *bufio.Reader) func() (Row, error) {
	number := 0
	var ended error
	return func() (Row, error) {
		for ended == nil {
			var text []byte
			var tooBig bool
			text, tooBig, ended = line(in)
			number++
			switch {
			case ended != nil && ended != io.EOF:
			case tooBig:
				return Row{Number: number, Err: errTooBig}, nil
			case len(bytes.TrimSpace(text)) > 0:
				return Row{Number: number, Text: bytes.TrimSpace(text)}, nil
			}
		}
		return Row{}, ended
	}
}

// list is the elements of a JSON list. What follows a mistake of form cannot be
// read: the mistake is the last row.
func list(in *bufio.Reader) func() (Row, error) {
	d := json.NewDecoder(in)
	number := 0
	var ended error
	broken := func() (Row, error) {
		ended = io.EOF
		return Row{Number: number, Err: words.Fail("roster.list_broken", "number", number)}, nil
	}
	if _, err := d.Token(); err != nil {
		ended = err
	}
	return func() (Row, error) {
		if ended != nil {
			return Row{}, ended
		}
		number++
		if !d.More() {
			if _, err := d.Token(); err != nil {
				return broken()
			}
			ended = io.EOF
			return Row{}, ended
		}
		var text json.RawMessage
		if err := d.Decode(&text); err != nil {
			return broken()
		}
		if len(text) > MaxBytes {
			return Row{Number: number, Err: errTooBig}, nil
		}
		return Row{Number: number, Text: text}, nil
	}
}

// documents are YAML documents, numbered in their order; empty ones are passed
// over.
func documents(in *bufio.Reader) func() (Row, error) {
	number := 0
	var ended error
	return func() (Row, error) {
		for ended == nil {
			var document []byte
			tooBig := false
			for {
				text, big, err := line(in)
				ended = err
				if err != nil && err != io.EOF {
					return Row{}, err
				}
				if string(bytes.TrimRight(text, " \t")) == "---" {
					break
				}
				tooBig = tooBig || big || len(document)+len(text) > MaxBytes
				if !tooBig {
					document = append(append(document, text...), '\n')
				}
				if err != nil {
					break
				}
			}
			if len(bytes.TrimSpace(document)) == 0 && !tooBig {
				continue
			}
			number++
			if tooBig {
				return Row{Number: number, Err: errTooBig}, nil
			}
			return Row{Number: number, Text: document}, nil
		}
		return Row{}, ended
	}
}
