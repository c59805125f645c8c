package tables

import (
	"cmp"
	"fmt"
	"math/big"
	"reflect"
	"slices"
	"strings"
)

// Proof is what the indexed figures of a year say of each other. All amounts
// that rise with one price index must follow from one level of it.
type Proof struct {
	Levels  []Level
	Misfits []Misfit // in the order of their keys; none where the year is as the statute has it
	Figures int      // how many were proved
}

// Level is where a price index must have been for a year's rounded amounts to be
// what they are: at least AtLeast, below Below.
type Level struct {
	Months         string // "august" or "march", in which the twelve months end
	AtLeast, Below *big.Rat
	Amounts        int // how many agree on it
}

// Middle is the middle of the interval.
func (l Level) Middle() *big.Rat { return half(new(big.Rat).Add(l.AtLeast, l.Below)) }

// Misfit is a figure that does not follow from its rule.
type Misfit struct {
	Key       string
	Published string
	Statute   string // what the rule gives, at the level on which the other amounts agree
	Law       string
	Follows   bool // from other figures of the year, and not from the price level
	Unsure    bool // as many amounts agree on another level as on that of Statute: either may be wrong
}

// Prove holds the indexed figures of a year to their rules.
//
// IRC 1(f)(3): an amount rises by the percentage by which the price index of the
// year before exceeds that of the base year. So a published amount, which is
// rounded, leaves an interval for the index, and all intervals must meet. In a
// started table only the figures that are published already say where the index
// was; those still projected are neither asked nor blamed. A figure that follows
// from one that does not fit is asked for what the rule gives that one.
func (y *Year) Prove() Proof {
	var p Proof
	for _, months := range []string{augustIndex, marchIndex} {
		spans := slices.DeleteFunc(y.spans(months), func(s span) bool { return y.open[s.key] })
		if len(spans) > 0 {
			p.level(y, months, spans)
		}
	}
	for _, e := range y.corrected(p.Misfits).followed() {
		p.Figures++
		value, ok := fieldAt(reflect.ValueOf(y).Elem(), e.key)
		if !ok {
			continue
		}
		want := reflect.New(value.Type()).Elem()
		if setText(want, e.text) != nil || textOf(want) != textOf(value) {
			p.Misfits = append(p.Misfits, Misfit{Key: e.key, Published: textOf(value), Statute: e.text, Law: e.law, Follows: true})
		}
	}
	slices.SortFunc(p.Misfits, func(a, b Misfit) int { return cmp.Compare(a.Key, b.Key) })
	return p
}

// level adds the level of an index, and the amounts that do not fit it. Where as
// many agree on another level, all of them are doubted.
func (p *Proof) level(y *Year, months string, spans []span) {
	l := meet(months, spans)
	p.Levels = append(p.Levels, l)
	p.Figures += len(spans)
	outside := func(s span) bool { return !s.holds(l.AtLeast) }
	out := slices.DeleteFunc(slices.Clone(spans), func(s span) bool { return !outside(s) })
	if len(out) == 0 {
		return
	}
	other := meet(months, out)
	unsure := other.Amounts == l.Amounts && l.Amounts > 0
	for _, s := range spans {
		at := l
		switch {
		case unsure && s.holds(l.AtLeast):
			at = other
		case !outside(s):
			continue
		}
		p.Misfits = append(p.Misfits, Misfit{
			Key: s.key, Published: textOf(s.value), Law: s.rule.Law, Unsure: unsure && !s.empty(),
			Statute: decimalText(s.rule.at(y, s.base, at.Middle())),
		})
	}
}

// corrected is the year with what does not fit as the rules give it, and with all
// that follows from that.
func (y *Year) corrected(misfits []Misfit) *Year {
	c := &Year{doc: y.doc, broken: y.broken}
	_ = y.doc.Decode(c) // its mistakes are known
	whole := reflect.ValueOf(c).Elem()
	set := func(key, text string) {
		if v, ok := fieldAt(whole, key); ok {
			_ = setText(v, text) // a text that the rules make
		}
	}
	eachFigure("", reflect.ValueOf(y).Elem(), func(key string, v reflect.Value) {
		if to, ok := fieldAt(whole, key); ok {
			to.Set(v)
		}
	})
	for _, m := range misfits {
		if !m.Unsure {
			set(m.Key, m.Statute)
		}
	}
	for range chained {
		for _, e := range c.followed() {
			set(e.key, e.text)
		}
	}
	return c
}

// chained is how many figures may follow from each other in a row.
const chained = 3

// levels are where the figures of the year put each price index.
func (y *Year) levels() []Level {
	var all []Level
	for _, months := range []string{augustIndex, marchIndex} {
		if spans := y.spans(months); len(spans) > 0 {
			all = append(all, meet(months, spans))
		}
	}
	return all
}

// span is the interval of the price index in which an amount's rule gives the
// amount.
type span struct {
	key          string
	value        reflect.Value
	rule         *Rule
	base         *big.Rat
	least, below *big.Rat
}

// holds reports whether the rule gives the amount at a level.
func (s span) holds(at *big.Rat) bool { return s.least.Cmp(at) <= 0 && at.Cmp(s.below) < 0 }

// empty reports whether no level gives the amount.
func (s span) empty() bool { return s.least.Cmp(s.below) >= 0 }

// spans are those of all amounts that rise with an index. An amount that does
// not rise yet, its base year being the year before, leaves none.
func (y *Year) spans(months string) []span {
	var all []span
	for _, g := range y.groups() {
		for i := range g.cited.Indexed {
			r := &g.cited.Indexed[i]
			if r.months() != months || !r.byPrices() || r.SetBy != "" || r.notYet(y) || y.isBroken(g.ruleKey(i)) || !y.Prices.knows(r) {
				continue
			}
			for key, amount := range r.Base {
				value, ok := fieldAt(g.value, key)
				if !ok || y.isBroken(under(g.key, key)) {
					continue
				}
				s := span{key: under(g.key, key), value: value, rule: r, base: ratOf(amount)}
				s.least, s.below = r.interval(y, s.base, numberOf(value))
				all = append(all, s)
			}
		}
	}
	return all
}

// numberOf is the number that a figure is.
func numberOf(v reflect.Value) *big.Rat {
	r, ok := new(big.Rat).SetString(textOf(v))
	if !ok {
		return new(big.Rat)
	}
	return r
}

// meet is where most of the spans meet; the beginning of the first where all are
// empty.
func meet(months string, spans []span) Level {
	l := Level{Months: months, Amounts: len(spans)}
	l.narrow(spans)
	if l.AtLeast.Cmp(l.Below) < 0 {
		return l // all of them
	}
	best := spans[0].least
	l.Amounts = 0
	for _, at := range spans {
		n := 0
		for _, s := range spans {
			if s.holds(at.least) {
				n++
			}
		}
		if n > l.Amounts {
			l.Amounts, best = n, at.least
		}
	}
	if l.Amounts == 0 {
		l.AtLeast, l.Below = best, best
		return l
	}
	l.narrow(slices.DeleteFunc(slices.Clone(spans), func(s span) bool { return !s.holds(best) }))
	return l
}

// narrow sets the interval that spans have in common.
func (l *Level) narrow(spans []span) {
	l.AtLeast, l.Below = spans[0].least, spans[0].below
	for _, s := range spans {
		if s.least.Cmp(l.AtLeast) > 0 {
			l.AtLeast = s.least
		}
		if s.below.Cmp(l.Below) < 0 {
			l.Below = s.below
		}
	}
}

// follower is a figure that follows from others of the year, and what it must
// be.
type follower struct {
	key, text, law string
}

// followed are the figures that the statute ties to others of the same year, or
// sets without an index.
func (y *Year) followed() []follower {
	var all []follower
	for _, g := range y.groups() {
		for i := range g.cited.Indexed {
			r := &g.cited.Indexed[i]
			switch {
			case y.isBroken(g.ruleKey(i)):
			case len(r.Base) > 0 && (!r.YearlyRise.IsZero() || r.notYet(y)):
				for key, base := range r.Base {
					if y.isBroken(under(g.key, key)) {
						continue
					}
					all = append(all, follower{under(g.key, key), decimalText(r.without(y, ratOf(base))), r.Law})
				}
			case len(r.Equals) > 0:
				for key, other := range r.Equals {
					all = append(all, y.tied(g, r, key, other)...)
				}
			case len(r.Computed) > 0 && r.SetBy == "" && len(y.broken) == 0:
				for key, text := range y.computed(g.key) {
					if names(r.Computed, strings.TrimPrefix(key, g.key+".")) {
						all = append(all, follower{key, text, r.Law})
					}
				}
			}
		}
	}
	return all
}

// tied are the figures at key, each by the figure that it equals.
func (y *Year) tied(g citedGroup, r *Rule, key, other string) []follower {
	from, ok := fieldAt(g.value, other)
	leader := under(g.key, other)
	if !ok {
		leader = other
		if from, ok = fieldAt(reflect.ValueOf(y).Elem(), other); !ok {
			return nil
		}
	}
	if y.isBroken(leader) || y.isBroken(under(g.key, key)) {
		return nil
	}
	var all []follower
	eachFigure("", from, func(part string, v reflect.Value) {
		text := textOf(v)
		if r.Times.r != nil || !r.Plus.IsZero() {
			n := numberOf(v)
			if r.Times.r != nil {
				n = new(big.Rat).Mul(n, r.Times.r)
			}
			n = new(big.Rat).Add(n, ratOf(r.Plus))
			if !r.AmountNearest.IsZero() {
				n = nearest(n, ratOf(r.AmountNearest))
			}
			text = decimalText(n)
		}
		all = append(all, follower{under(under(g.key, key), part), text, r.Law})
	})
	return all
}

// String says a level for people who look into it: the index and the amounts
// behind it.
func (l Level) String() string {
	return fmt.Sprintf("%s to %s", l.AtLeast.FloatString(3), l.Below.FloatString(3))
}
