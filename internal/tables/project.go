package tables

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"math/big"
	"reflect"
	"slices"
	"strings"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// Projection says how the figures of a year came about that are not published:
// those of another year, moved on by the law's own rules for a rise of prices
// that is assumed.
type Projection struct {
	From int        `yaml:"from,required"` // the last year that has a table
	Rise money.Rate `yaml:"rise,required"` // of the price index, each year

	levels map[string]*big.Rat // of the price index, by its months
}

// edit is a figure of a projected year.
type edit struct {
	text  string
	basis Basis
	year  int // in which it was set, of a year projected over several

	follows bool // from other figures of the year, which the law ties it to
}

// farthest is how many years beyond the last table a year may be projected: the
// steps that the law has dated so far end before.
const farthest = 5

// ForYear is Load, but a year after the last table is projected from it, for a
// rise of prices; nil is the one that the table assumes.
func ForYear(fsys fs.FS, year int, rise *money.Rate) (*Year, error) {
	y, err := Load(fsys, year)
	if !errors.Is(err, ErrNoTable) {
		return y, err
	}
	years := Years(fsys)
	if len(years) == 0 || year < years[len(years)-1] {
		return nil, err
	}
	newest := years[len(years)-1]
	if year > newest+farthest {
		return nil, missing{words.Problem{Text: words.T("tables.too_far", "year", year, "most", farthest, "last", newest)}}
	}
	last, lastErr := Load(fsys, newest)
	if lastErr != nil {
		return nil, lastErr
	}
	return last.projectedTo(year, rise)
}

// After is ForYear for the year after one that is at hand, which is not read a
// second time where it is the last that has a table.
func After(fsys fs.FS, y *Year, rise *money.Rate) (*Year, error) {
	if years := Years(fsys); len(years) > 0 && y.Year == years[len(years)-1] && y.Projected == nil {
		return y.projectedTo(y.Year+1, rise)
	}
	return ForYear(fsys, y.Year+1, rise)
}

func (y *Year) projectedTo(year int, rise *money.Rate) (*Year, error) {
	assumed := y.AssumedRise()
	if rise != nil {
		assumed = *rise
	}
	return Project(y, year, assumed)
}

// AssumedRise is the rise of the price index that a projection from this year
// assumes, where no other is asked for: of a projected year the one that it was
// made with.
func (y *Year) AssumedRise() money.Rate {
	switch {
	case y.Projected != nil:
		return y.Projected.Rise
	case y.Later != nil:
		return y.Later.Rise.Share
	}
	return money.Rate{}
}

// Project makes a later year from the last that has a table: every figure that
// the law indexes by its rule, for the same rise of the price index in each year
// between, then what is known of those years already; the rest as it is.
func Project(last *Year, year int, rise money.Rate) (*Year, error) {
	if year <= last.Year { // a caller's mistake: ForYear and Start ask for later years alone
		return nil, fmt.Errorf("%d cannot be projected from %d: it is not later", year, last.Year)
	}
	y := last
	for y.Year < year {
		next, err := y.next(rise)
		if err != nil {
			return nil, words.Fail("tables.not_projected", "year", y.Year+1, "last", last.Year, "what", err)
		}
		y = next
	}
	return y, nil
}

// next is the year after, projected.
func (y *Year) next(rise money.Rate) (*Year, error) {
	n := &Year{doc: y.doc, edits: maps.Clone(y.edits), states: y.states}
	if n.edits == nil {
		n.edits = map[string]edit{}
	}
	if problems := y.doc.Decode(n); len(problems) > 0 {
		return nil, problems
	}
	for key, e := range y.edits {
		if err := n.set(key, e.text, e.basis); err != nil {
			return nil, err
		}
	}
	n.Year = y.Year + 1
	n.Projected = &Projection{From: y.Year, Rise: rise, levels: y.levelsAfter(rise)}
	if y.Projected != nil {
		n.Projected.From = y.Projected.From
	}
	for _, step := range []func() error{n.index, n.change, n.follow, n.compute} {
		if err := step(); err != nil {
			return nil, err
		}
	}
	n.cite()
	n.derive()
	return n, nil
}

// levelsAfter are the levels of the price indexes a year on: this year's, which
// its figures give, after the rise. What a projected year was made with counts
// as long as its figures agree with it.
func (y *Year) levelsAfter(rise money.Rate) map[string]*big.Rat {
	levels := map[string]*big.Rat{}
	factor := new(big.Rat).Add(big.NewRat(1, 1), rateRat(rise))
	for _, l := range y.levels() {
		at := l.Middle()
		if y.Projected != nil {
			if made := y.Projected.levels[l.Months]; made != nil && l.AtLeast.Cmp(made) <= 0 && made.Cmp(l.Below) < 0 {
				at = made
			}
		}
		levels[l.Months] = new(big.Rat).Mul(at, factor)
	}
	return levels
}

// set sets a figure and remembers that it did.
func (y *Year) set(key, text string, basis Basis) error {
	if e, done := y.edits[key]; done && e.text == text && e.basis == basis && y.Year == e.year {
		return nil
	}
	v, ok := fieldAt(reflect.ValueOf(y).Elem(), key)
	if !ok {
		return nil // a list that this year has shorter
	}
	if v.Kind() == reflect.String {
		return nil // a source or a note of a started table, which is no figure
	}
	if _, isRate := v.Interface().(money.Rate); isRate && textOf(v) == text {
		if e, earlier := y.edits[key]; earlier {
			text = e.text
		} else {
			text, _ = y.doc.Get(key) // with as many places as the file has it
		}
	} else if err := setText(v, text); err != nil {
		return fmt.Errorf("%s: %w", key, err)
	}
	y.edits[key] = edit{text: text, basis: basis, year: y.Year}
	return nil
}

// setFollower sets a figure that follows from others of the year.
func (y *Year) setFollower(key, text string) error {
	if err := y.set(key, text, Projecting); err != nil {
		return err
	}
	if e, ok := y.edits[key]; ok {
		e.follows = true
		y.edits[key] = e
	}
	return nil
}

// index moves the amounts of statute on, and what an authority sets as prices.
func (y *Year) index() error {
	for _, g := range y.groups() {
		for i := range g.cited.Indexed {
			r := &g.cited.Indexed[i]
			for key, base := range r.Base {
				amount := r.without(y, ratOf(base))
				if r.byPrices() {
					amount = r.at(y, ratOf(base), y.Projected.levels[r.months()])
				}
				if err := y.set(under(g.key, key), decimalText(amount), Projecting); err != nil {
					return err
				}
			}
			if err := y.carry(g, r); err != nil {
				return err
			}
		}
	}
	return nil
}

// carry takes figures that an authority sets: on as they are or, where the rule
// rounds, raised as prices rise.
func (y *Year) carry(g citedGroup, r *Rule) error {
	if len(r.Figures) == 0 {
		return nil
	}
	var err error
	eachFigure("", g.value, func(key string, v reflect.Value) {
		if !names(r.Figures, key) {
			return
		}
		text := textOf(v)
		risen := new(big.Rat).Add(big.NewRat(1, 1), rateRat(y.Projected.Rise))
		risen.Mul(risen, numberOf(v))
		switch {
		case !r.AmountNearest.IsZero():
			text = decimalText(nearest(risen, ratOf(r.AmountNearest)))
		case !r.AmountDown.IsZero():
			text = decimalText(down(risen, ratOf(r.AmountDown)))
		}
		err = errors.Join(err, y.set(under(g.key, key), text, Projecting))
	})
	return err
}

// change sets what is known of this year already.
func (y *Year) change() error {
	for _, c := range y.changesKnown() {
		if c.From != y.Year {
			continue
		}
		for key, text := range c.Figures {
			whole := reflect.ValueOf(y).Elem()
			if wrong := changeWrong(whole, key, text); !wrong.IsZero() {
				return words.Problem{Text: wrong}
			}
			v, _ := fieldAt(whole, key)
			var err error
			eachFigure(key, v, func(key string, _ reflect.Value) { err = errors.Join(err, y.set(key, text, c.Basis)) })
			if err != nil {
				return err
			}
		}
	}
	return nil
}

// follow sets the figures that equal others, which may themselves equal others.
func (y *Year) follow() error {
	for range chained {
		for _, g := range y.groups() {
			for i := range g.cited.Indexed {
				r := &g.cited.Indexed[i]
				for _, key := range slices.Sorted(maps.Keys(r.Equals)) {
					for _, f := range y.tied(g, r, key, r.Equals[key]) {
						if err := y.setFollower(f.key, f.text); err != nil {
							return err
						}
					}
				}
			}
		}
	}
	return nil
}

// compute sets what is worked out from the other figures.
func (y *Year) compute() error {
	for _, g := range y.groups() {
		for i := range g.cited.Indexed {
			r := &g.cited.Indexed[i]
			if len(r.Computed) == 0 {
				continue
			}
			set := y.setFollower
			if r.SetBy != "" {
				set = func(key, text string) error { return y.set(key, text, Projecting) }
			}
			for key, text := range y.computed(g.key) {
				if err := set(key, text); err != nil {
					return err
				}
			}
		}
	}
	return nil
}

// cite says in the source of each group with projected figures that they are, or
// what has set them already.
func (y *Year) cite() {
	for _, g := range y.groups() {
		if len(g.cited.Indexed) == 0 {
			continue
		}
		g.cited.Source = withMark(g.cited.Source)
		for _, c := range y.changesKnown() {
			for _, key := range slices.Sorted(maps.Keys(c.Figures)) {
				inner, here := strings.CutPrefix(key, g.key+".")
				switch {
				case c.From != y.Year || !here:
				case g.cited.indexes(inner):
					g.cited.Source, g.cited.Basis, g.cited.Note, g.cited.Notes = c.Source, c.Basis, "", nil
				default:
					g.cited.Source = c.Source + "; " + g.cited.Source
				}
			}
		}
	}
}
