package yamldoc

import (
	"bytes"
	"sort"
	"strings"
	"unicode/utf8"
)

// The library attaches comments by rules that lose some of them when a
// document is written again, and it drops blank lines. So the comments are
// found here, in the text, with the help of the places of the nodes.

// A place in the text, both counted from 1, the column in characters.
type place struct{ line, column int }

func (a place) before(b place) bool {
	return a.line < b.line || a.line == b.line && a.column < b.column
}

// A start is the place where an item begins.
type start struct {
	place
	item   *item
	column int // of the mapping or list that holds it
	flow   int // the number of braces and brackets around it
}

type tokenKind uint8

const (
	noToken tokenKind = iota
	doubleToken
	singleToken
	blockToken // | or >
	flowToken  // { or [
)

// A token is something that begins at a known place and in which a # may be
// text.
type token struct {
	kind   tokenKind
	indent int // of the block that holds a blockToken
}

// placeComments gives every comment and blank line to the item it belongs to:
// a comment at the end of a line to the last item begun on it, one on a line of
// its own to the item that follows.
func (p *parser) placeComments() {
	s := scan{parser: p, rest: p.source, at: place{1, 1}}
	for len(s.rest) > 0 {
		s.next()
	}
}

// A scan goes through the text once.
type scan struct {
	*parser
	rest    []byte
	at      place
	flow    int  // braces and brackets now open
	content bool // the line holds something other than "-" and "?"
	marked  bool // the line holds something
	dash    bool // a "-" is not followed by its value yet
	ended   bool // the character before closes a token, so that a # begins a comment
	spaced  bool // the character before is white space
	quoted  bool // a quoted scalar or bracket has just been closed
}

// advance moves over n bytes of the text.
func (s *scan) advance(n int) {
	for _, r := range string(s.rest[:n]) {
		if r == '\n' {
			s.at = place{s.at.line + 1, 1}
			s.content, s.marked = false, false
		} else {
			s.at.column++
		}
	}
	s.rest = s.rest[n:]
}

func (s *scan) next() {
	c := s.rest[0]
	switch {
	case c == '\n':
		if !s.marked {
			s.above(remark{})
		}
		s.advance(1)
		s.ended, s.spaced, s.quoted = false, true, false
		return
	case c == ' ' || c == '\t':
		s.advance(1)
		s.spaced = true
		return
	case c == '#' && (s.spaced || s.ended || s.at.column == 1):
		s.comment()
		return
	}
	s.marked = true
	if c == '-' || c == '?' {
		s.dash = s.dash || !s.content
	} else {
		s.content, s.dash = true, false
	}
	switch token := s.special[s.at]; {
	case token.kind == doubleToken && c == '"', token.kind == singleToken && c == '\'':
		s.advance(quotedLength(s.rest, c))
		s.content, s.marked = true, true
		s.ended, s.spaced, s.quoted = true, false, true
		return
	case token.kind == blockToken && (c == '|' || c == '>'):
		s.block(token.indent)
		return
	case token.kind == flowToken && (c == '{' || c == '['):
		s.flow++
		s.ended, s.quoted = true, false
	case s.flow > 0 && (c == '}' || c == ']'):
		s.flow--
		s.ended, s.quoted = true, true
	case s.flow > 0 && c == ',':
		s.ended, s.quoted = true, false
	case s.flow > 0 && c == ':' && s.quoted:
		s.ended, s.quoted = true, false
	default:
		s.ended, s.quoted = false, false
	}
	s.spaced = false
	_, size := utf8.DecodeRune(s.rest)
	s.advance(size)
}

// quotedLength is the number of bytes of the quoted scalar that text begins
// with.
func quotedLength(text []byte, quote byte) int {
	for i := 1; i < len(text); i++ {
		switch {
		case text[i] == '\\' && quote == '"':
			i++
		case text[i] == quote && quote == '\'' && i+1 < len(text) && text[i+1] == quote:
			i++
		case text[i] == quote:
			return i + 1
		}
	}
	return len(text)
}

// comment takes the comment at hand, up to the end of the line.
func (s *scan) comment() {
	text, _, _ := bytes.Cut(s.rest, []byte("\n"))
	r := remark{text: strings.TrimRight(string(text), " \t"), column: s.at.column}
	if !s.content || !s.beside(r) {
		s.above(r)
	}
	s.marked = true
	s.advance(len(text))
}

// following is the place in starts of the first item after the scan.
func (s *scan) following() int {
	return sort.Search(len(s.starts), func(i int) bool { return s.at.before(s.starts[i].place) })
}

func (s *scan) beside(r remark) bool {
	for i := s.following() - 1; i >= 0; i-- {
		if st := s.starts[i]; st.flow <= s.flow {
			if st.item.beside.text != "" {
				return false
			}
			st.item.beside = r
			return true
		}
	}
	return false
}

func (s *scan) above(r remark) {
	column, remarks := 1, &s.doc.below
	if i := s.following(); i < len(s.starts) {
		st := s.starts[i]
		column, remarks = st.column, &st.item.above
		if st.flow > 0 {
			column = r.column
		}
	}
	r.column = max(0, r.column-column)
	if s.dash {
		r.column = 0 // it will stand above the dash
	}
	*remarks = append(*remarks, r)
}

// block goes over a block scalar: its header, on which a comment may stand, and
// its lines, as far as they are indented. indent is that of the block around it.
func (s *scan) block(indent int) {
	explicit := 0
	s.advance(1)
	for len(s.rest) > 0 && strings.IndexByte("+-0123456789", s.rest[0]) >= 0 {
		if c := s.rest[0]; c >= '0' && c <= '9' {
			explicit = int(c - '0')
		}
		s.advance(1)
	}
	s.spaced = true
	for len(s.rest) > 0 && s.rest[0] != '\n' {
		if s.rest[0] == '#' {
			s.comment()
		} else {
			s.advance(1)
		}
	}
	if len(s.rest) > 0 {
		s.advance(1)
	}
	indent = max(indent, 0)
	if explicit > 0 {
		indent += explicit
	} else {
		indent = max(indent+1, deepest(s.rest))
	}
	blank := false
	for len(s.rest) > 0 {
		line, _, more := bytes.Cut(s.rest, []byte("\n"))
		spaces := len(line) - len(bytes.TrimLeft(line, " "))
		if spaces < indent && spaces < len(line) {
			break
		}
		blank = spaces == len(line)
		n := len(line)
		if more {
			n++
		}
		s.advance(n)
	}
	if blank {
		s.at.column = 0 // before anything on this line
		s.above(remark{})
		s.at.column = 1
	}
	s.ended, s.spaced, s.quoted = false, true, false
}

// deepest is the indentation that a block scalar takes from its first lines:
// the widest of those up to the first that is not blank.
func deepest(text []byte) int {
	widest := 0
	for len(text) > 0 {
		line, rest, _ := bytes.Cut(text, []byte("\n"))
		spaces := len(line) - len(bytes.TrimLeft(line, " "))
		widest = max(widest, spaces)
		if spaces < len(line) {
			break
		}
		text = rest
	}
	return widest
}
