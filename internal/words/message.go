package words

import (
	"fmt"
	"slices"
	"strings"
)

// message is an entry taken apart once: literal pieces and places for values.
type message []piece

// piece is literal text, or a place for a value.
type piece struct {
	literal string
	name    string   // of the value; empty for literal text
	formats []string // of a plain place: dollars, capital
	choice  string   // plural or select; empty for a plain place
	cases   []choice // of a choice, in the order of the file
}

// choice is one case of a plural or select.
type choice struct {
	when string // one, other, =0, pension
	then message
}

// numberSign is what a literal # inside a plural is taken apart into: the number itself.
const numberSign = "#"

// parse takes an entry apart.
func parse(entry string) (message, error) {
	p := parser{rest: entry}
	m, err := p.message(false, false)
	if err != nil {
		return nil, fmt.Errorf("%q: %w", entry, err)
	}
	return m, nil
}

type parser struct{ rest string }

// message reads up to the end, or inside a case up to its closing brace, which
// it leaves. In a plural, # is the number.
func (p *parser) message(inside, plural bool) (message, error) {
	var m message
	var literal strings.Builder
	flush := func() {
		if literal.Len() > 0 {
			m = append(m, piece{literal: literal.String()})
			literal.Reset()
		}
	}
	for p.rest != "" {
		switch c := p.rest[0]; {
		case strings.HasPrefix(p.rest, "{{"):
			literal.WriteByte('{')
			p.rest = p.rest[2:]
		case c == '{':
			flush()
			place, err := p.place(plural)
			if err != nil {
				return nil, err
			}
			m = append(m, place)
		case c == '}' && inside:
			flush()
			return m, nil
		case c == '#' && plural:
			flush()
			m = append(m, piece{name: numberSign})
			p.rest = p.rest[1:]
		default:
			literal.WriteByte(c)
			p.rest = p.rest[1:]
		}
	}
	if inside {
		return nil, fmt.Errorf("a case is not closed")
	}
	flush()
	return m, nil
}

// place reads a place for a value, from its opening brace to its closing one.
func (p *parser) place(plural bool) (piece, error) {
	p.rest = p.rest[1:]
	end := strings.IndexAny(p.rest, ",}")
	if end < 0 {
		return piece{}, fmt.Errorf("a place is not closed")
	}
	name, formats, _ := strings.Cut(strings.TrimSpace(p.rest[:end]), ":")
	if name == "" {
		return piece{}, fmt.Errorf("a place has no name")
	}
	place := piece{name: name}
	if formats != "" {
		place.formats = strings.Split(formats, ":")
	}
	for _, f := range place.formats {
		if !slices.Contains(formatNames, f) {
			return piece{}, fmt.Errorf("{%s:%s}: want one of: %s", name, f, strings.Join(formatNames, ", "))
		}
	}
	closed := p.rest[end] == '}'
	p.rest = p.rest[end+1:]
	if closed {
		return place, nil
	}
	kind, rest, ok := strings.Cut(p.rest, ",")
	place.choice = strings.TrimSpace(kind)
	if !ok || place.choice != "plural" && place.choice != "select" {
		return piece{}, fmt.Errorf("{%s, …}: want plural or select", name)
	}
	p.rest = rest
	return p.cases(place, plural || place.choice == "plural")
}

// cases reads the cases of a choice, to the closing brace of the place.
func (p *parser) cases(place piece, plural bool) (piece, error) {
	for {
		p.rest = strings.TrimLeft(p.rest, " \n")
		if strings.HasPrefix(p.rest, "}") {
			p.rest = p.rest[1:]
			if n := len(place.cases); n == 0 || place.cases[n-1].when != "other" {
				return piece{}, fmt.Errorf("{%s, …}: the last case must be other", place.name)
			}
			return place, nil
		}
		open := strings.IndexByte(p.rest, '{')
		if open < 0 {
			return piece{}, fmt.Errorf("{%s, …} is not closed", place.name)
		}
		when := strings.TrimSpace(p.rest[:open])
		p.rest = p.rest[open+1:]
		then, err := p.message(true, plural)
		if err != nil {
			return piece{}, err
		}
		p.rest = p.rest[1:]
		place.cases = append(place.cases, choice{when, then})
	}
}

// mapped is the message with every literal put through f.
func (m message) mapped(f func(string) string) message {
	n := make(message, len(m))
	for i, p := range m {
		if p.name == "" {
			p.literal = f(p.literal)
		}
		if p.cases != nil {
			cases := make([]choice, len(p.cases))
			for j, c := range p.cases {
				cases[j] = choice{c.when, c.then.mapped(f)}
			}
			p.cases = cases
		}
		n[i] = p
	}
	return n
}

// places visits every place for a value, those inside of cases too.
func (m message) places(visit func(piece)) {
	for _, p := range m {
		if p.name != "" && p.name != numberSign {
			visit(p)
		}
		for _, c := range p.cases {
			c.then.places(visit)
		}
	}
}
