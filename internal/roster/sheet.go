package roster

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"io"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"time"
	"unicode/utf8"

	"example.com/plumbline/internal/words"
)

// Sheet is the columns of a spreadsheet, by the keys that its header names.
type Sheet struct {
	header []string // as written
	paths  [][]string
}

// Spreadsheet reads a spreadsheet saved as CSV: a header of keys of the answers
// file with dots between their steps ("jobs.0.taxable_pay"), then a row a
// household. The columns may be separated by commas, semicolons or tabs, the
// file may begin with a byte order mark, and an empty cell is a key left out.
// Rows are numbered as a spreadsheet shows them: the header is row 1, blank rows
// count.
//
// It fails when the header is no header: empty, a name twice, not text.
func Spreadsheet(r io.Reader) (*Source, error) {
	in := bufio.NewReaderSize(r, 1<<16)
	if mark, _ := in.Peek(3); bytes.HasPrefix(mark, []byte("\ufeff")) {
		_, _ = in.Discard(3)
	} else if bytes.HasPrefix(mark, []byte{0xff, 0xfe}) || bytes.HasPrefix(mark, []byte{0xfe, 0xff}) {
		return nil, words.Fail("roster.not_utf8")
	}
	rows := csv.NewReader(in)
	rows.Comma = separator(in)
	rows.FieldsPerRecord = -1
	rows.ReuseRecord = true
	header, err := rows.Read()
	switch {
	case err == io.EOF:
		return nil, words.Fail("roster.no_header")
	case err != nil:
		return nil, words.Fail("roster.header_broken", "why", err)
	}
	sheet, err := newSheet(slices.Clone(header))
	if err != nil {
		return nil, err
	}
	return &Source{Sheet: sheet, next: sheet.rows(rows)}, nil
}

// separator is the sign between the columns: the one that the header has most
// of.
func separator(in *bufio.Reader) rune {
	ahead, _ := in.Peek(in.Size())
	header, _, _ := bytes.Cut(ahead, []byte("\n"))
	best := ','
	for _, sign := range ";\t" {
		if bytes.Count(header, []byte(string(sign))) > bytes.Count(header, []byte(string(best))) {
			best = sign
		}
	}
	return best
}

func newSheet(header []string) (*Sheet, error) {
	s := &Sheet{header: header}
	var mistakes []error
	for i, name := range header {
		name = strings.ToLower(strings.TrimSpace(name))
		header[i] = Dotted(name)
		var path []string
		switch {
		case !utf8.ValidString(name):
			mistakes = append(mistakes, words.Fail("roster.not_utf8"))
		case name != "" && slices.Index(header, header[i]) < i:
			mistakes = append(mistakes, words.Fail("roster.column_twice", "column", Letters(i), "name", header[i]))
		case name != "":
			path = strings.Split(header[i], ".")
		}
		s.paths = append(s.paths, path)
	}
	if !slices.ContainsFunc(s.paths, func(p []string) bool { return len(p) > 0 }) {
		mistakes = append(mistakes, words.Fail("roster.no_header"))
	}
	return s, errors.Join(mistakes...)
}

// Names are the header's names, in the order of the columns; one is empty where
// a column has none.
func (s *Sheet) Names() []string { return s.header }

// Column is the place of a key ("jobs[0].taxable_pay") as a spreadsheet shows
// it, with the header's name; the first column below the key where it has none
// of its own. It is not ok where no column has to do with the key.
func (s *Sheet) Column(key string) (letters, name string, ok bool) {
	dotted := Dotted(key)
	for i, name := range s.header {
		if name != "" && (name == dotted || strings.HasPrefix(name, dotted+".")) {
			return Letters(i), name, true
		}
	}
	return "", "", false
}

// Dotted is a key of an answers file as a spreadsheet's header writes it.
func Dotted(key string) string { return strings.NewReplacer("[", ".", "]", "").Replace(key) }

// Letters name a column as spreadsheets do: A to Z, then AA.
func Letters(column int) string {
	s := ""
	for n := column + 1; n > 0; n = (n - 1) / 26 {
		s = string(rune('A'+(n-1)%26)) + s
	}
	return s
}

// Probe is an answers file with every key of the header, to find those that
// nobody knows. Its values mean nothing.
func (s *Sheet) Probe() []byte {
	cells := make([]string, len(s.header))
	for i := range cells {
		cells[i] = "?"
	}
	text, _ := s.household(cells)
	return text
}

// rows are the households of a spreadsheet.
func (s *Sheet) rows(in *csv.Reader) func() (Row, error) {
	// Line ends inside quoted cells: a spreadsheet shows no row for them.
	inside := strings.Count(strings.Join(s.header, ""), "\n")
	return func() (Row, error) {
		for {
			cells, err := in.Read()
			if err == io.EOF {
				return Row{}, err
			}
			var broken *csv.ParseError
			if errors.As(err, &broken) {
				row := Row{Number: broken.StartLine - inside, Err: words.Fail("roster.row_broken", "why", broken.Err)}
				inside += broken.Line - broken.StartLine
				return row, nil
			}
			if err != nil {
				return Row{}, err
			}
			start, _ := in.FieldPos(0)
			number := start - inside
			size := 0
			for _, c := range cells {
				inside += strings.Count(c, "\n")
				size += len(c)
			}
			switch {
			case strings.TrimSpace(strings.Join(cells, "")) == "":
				continue
			case size > MaxBytes:
				return Row{Number: number, Err: errTooBig}, nil
			}
			text, err := s.household(cells)
			return Row{Number: number, Text: text, Err: err}, nil
		}
	}
}

// household is a row as an answers file. A spreadsheet need not say the format:
// it is today's.
func (s *Sheet) household(cells []string) ([]byte, error) {
	root := branch{}
	var mistakes []error
	for i, cell := range cells {
		cell = strings.TrimSpace(cell)
		switch {
		case cell == "":
		case i >= len(s.paths) || s.paths[i] == nil:
			mistakes = append(mistakes, words.Fail("roster.cell_without_header", "column", Letters(i)))
		case !utf8.ValidString(cell):
			mistakes = append(mistakes, words.Fail("roster.cell_not_utf8", "column", Letters(i), "name", s.header[i]))
		case !root.put(s.paths[i], value(cell)):
			mistakes = append(mistakes, words.Fail("roster.column_clash", "column", Letters(i), "name", s.header[i]))
		}
	}
	if root["format"] == nil {
		root["format"] = json.RawMessage("1")
	}
	text, err := root.lists("", &mistakes).(branch).marshal()
	return text, errors.Join(append(mistakes, err)...)
}

// branch is a mapping in the making, or a list by its indices.
type branch map[string]any

// put sets the value at a path; it is not ok where a value and a mapping claim
// the same place.
func (b branch) put(path []string, v json.RawMessage) bool {
	for len(path) > 1 {
		next, ok := b[path[0]].(branch)
		if !ok {
			if b[path[0]] != nil {
				return false
			}
			next = branch{}
			b[path[0]] = next
		}
		b, path = next, path[1:]
	}
	if b[path[0]] != nil {
		return false
	}
	b[path[0]] = v
	return true
}

// lists turns every branch whose keys are indices into a list. An index with
// none before it is a mistake: a job may not be left out between two others.
func (b branch) lists(key string, mistakes *[]error) any {
	numbered := len(b) > 0
	for name, v := range b {
		below := strings.TrimPrefix(key+"."+name, ".")
		if inner, ok := v.(branch); ok {
			b[name] = inner.lists(below, mistakes)
		}
		if _, err := strconv.Atoi(name); err != nil {
			numbered = false
		}
	}
	if !numbered || key == "" {
		return b
	}
	items := make([]any, len(b))
	for i := range items {
		v, ok := b[strconv.Itoa(i)]
		if !ok {
			*mistakes = append(*mistakes, words.Fail("roster.gap", "empty", key+"."+strconv.Itoa(i)))
			return []any{}
		}
		items[i] = v
	}
	return items
}

func (b branch) marshal() ([]byte, error) { return json.Marshal(b) }

var (
	slashed = regexp.MustCompile(`^(\d{1,2})/(\d{1,2})/(\d{4}|\d{2})$`)
	stamped = regexp.MustCompile(`^(\d{4}-\d{2}-\d{2})[T ]00:00(:00(\.0+)?)?$`)
	whole   = regexp.MustCompile(`^(0|-?[1-9]\d{0,17})$`)
)

// value is a cell as an answers file writes it: a date as spreadsheets show it
// becomes a date (month first, as in the United States), TRUE becomes true, and a whole number stays one.
func value(cell string) json.RawMessage {
	if m := slashed.FindStringSubmatch(cell); m != nil {
		date := century(m[3]) + "-" + padded(m[1]) + "-" + padded(m[2])
		if _, err := time.Parse(time.DateOnly, date); err == nil {
			cell = date // else it stays as typed, for whoever says that it is none
		}
	} else if m := stamped.FindStringSubmatch(cell); m != nil {
		cell = m[1]
	}
	switch lower := strings.ToLower(cell); {
	case lower == "true" || lower == "false":
		return json.RawMessage(lower)
	case whole.MatchString(cell):
		return json.RawMessage(cell)
	}
	quoted, _ := json.Marshal(cell)
	return quoted
}

// century is a year in full. Spreadsheets take 00 to 29 for this century and 30
// to 99 for the last one (common practice).
func century(year string) string {
	switch {
	case len(year) > 2:
		return year
	case year < "30":
		return "20" + year
	}
	return "19" + year
}

func padded(digits string) string {
	if len(digits) == 1 {
		return "0" + digits
	}
	return digits
}
