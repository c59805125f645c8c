package tables

import (
	"fmt"
	"io/fs"
	"maps"
	"reflect"
	"slices"
	"strings"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

// Check reads every year of a folder and returns all mistakes, file by file:
// those for which Load refuses a table; rules and lists of a citation that name no
// figure; marks of a table that was started; figures that do not follow from their
// rules or are not rounded as these have it; and what is known of a later year that
// has come. Where a file is not in order, the rest of it is checked all the same.
// The table of the states is looked at too, where there is one.
func Check(fsys fs.FS) yamldoc.Problems {
	files, err := fs.Glob(fsys, "*.yaml")
	if err == nil && len(files) == 0 {
		return yamldoc.Problems{{File: ".", What: words.T("tables.empty_folder")}}
	}
	var all yamldoc.Problems
	for _, file := range files {
		if file == statesFile {
			all = append(all, checkStates(fsys)...)
			continue
		}
		all = append(all, checkFile(fsys, file)...)
	}
	return all
}

func checkFile(fsys fs.FS, file string) yamldoc.Problems {
	data, err := fs.ReadFile(fsys, file)
	if err != nil {
		return yamldoc.Problems{{File: file, What: yamldoc.Said(err.Error())}}
	}
	y, problems := read(file, data)
	if y == nil {
		return problems
	}
	y.isBrokenAt(problems)
	listed := y.listed()
	y.isBrokenAt(listed)
	problems = problems.Join(listed).Join(y.marked()).Join(y.unrounded()).Join(y.past())
	if !y.isBroken("year") {
		problems = problems.Join(y.misfits())
	}
	if y.Projected != nil && len(problems) == 0 {
		problems = append(problems, y.doc.Problem("projected", words.T("tables.all_published")))
	}
	return problems
}

// isBrokenAt remembers where the file is not in order.
func (y *Year) isBrokenAt(problems yamldoc.Problems) {
	for _, p := range problems {
		y.broken = append(y.broken, p.Key)
	}
}

// unrounded are figures that an authority sets in steps, and that are none.
func (y *Year) unrounded() yamldoc.Problems {
	var problems yamldoc.Problems
	for _, g := range y.groups() {
		for i := range g.cited.Indexed {
			r := &g.cited.Indexed[i]
			step := money.Sum(r.AmountNearest, r.AmountDown, r.IncreaseNearest, r.IncreaseDown)
			if r.SetBy == "" || !step.IsPositive() || y.isBroken(g.ruleKey(i)) {
				continue
			}
			eachFigure("", g.value, func(key string, v reflect.Value) {
				at, base, risen := under(g.key, key), r.Base[key], "no"
				if base.IsPositive() {
					risen = "yes"
				}
				if (names(r.Figures, key) || base.IsPositive()) && !y.isBroken(at) && !r.fits(ratOf(base), numberOf(v)) {
					problems = append(problems, y.doc.Problem(at, words.T("tables.not_rounded", "published", textOf(v), "risen", risen, "base", base.Text(), "step", step.Text(), "law", r.Law)))
				}
			})
		}
	}
	return problems
}

// past are what was known of a later year that has come: the figures above it say
// it now.
func (y *Year) past() yamldoc.Problems {
	var problems yamldoc.Problems
	for i, c := range y.changesKnown() {
		if at := fmt.Sprintf("later_years.changes[%d]", i); c.From <= y.Year && !y.isBroken(at) {
			problems = append(problems, y.doc.Problem(at, words.T("tables.has_come", "year", c.From)))
		}
	}
	return problems
}

// misfits are the figures that do not follow from their rules. In a started table
// those that Update brings up to date are only counted.
func (y *Year) misfits() yamldoc.Problems {
	var problems yamldoc.Problems
	behind := 0
	for _, m := range y.Prove().Misfits {
		if y.Projected != nil && m.Follows {
			behind++
			continue
		}
		code := "tables.misfit"
		if m.Unsure {
			code = "tables.unsure"
		}
		problems = append(problems, y.doc.Problem(m.Key, words.T(code, "published", m.Published, "law", m.Law, "statute", m.Statute)))
	}
	if behind > 0 {
		problems = append(problems, y.doc.Problem("projected", words.T("tables.behind", "n", behind, "year", y.Year)))
	}
	return problems
}

// marked are the places of a started table where the published figures are still
// to be written.
func (y *Year) marked() yamldoc.Problems {
	var problems yamldoc.Problems
	for key := range y.edits {
		code := "tables.marked"
		switch {
		case strings.HasSuffix(key, ".source"):
			code = "tables.marked_source"
		case strings.HasSuffix(key, ".note"):
			code = "tables.marked_note"
		}
		problems = append(problems, y.doc.Problem(key, words.T(code)))
	}
	for _, g := range y.groups() {
		if g.cited.Basis == Projecting {
			problems = append(problems, y.doc.Problem(g.key+".basis", words.T("tables.marked_basis")))
		}
	}
	return problems
}

// listed checks the rules and lists of every citation against the figures of its
// group, and what is known of later years.
func (y *Year) listed() yamldoc.Problems {
	var problems yamldoc.Problems
	whole := reflect.ValueOf(y).Elem()
	for _, g := range y.groups() {
		var inGroup []string
		eachFigure("", g.value, func(key string, _ reflect.Value) { inGroup = append(inGroup, key) })
		check := func(at, key string) {
			if !slices.ContainsFunc(inGroup, func(figure string) bool { return names([]string{key}, figure) }) {
				problems = append(problems, y.doc.Problem(under(g.key, at), words.T("tables.not_of_group", "key", key)))
			}
		}
		for i, key := range g.cited.Memory {
			check(fmt.Sprintf("memory[%d]", i), key)
		}
		for i, key := range g.cited.Derived {
			check(fmt.Sprintf("derived[%d]", i), key)
		}
		for i := range g.cited.Indexed {
			r, at := &g.cited.Indexed[i], fmt.Sprintf("indexed[%d]", i)
			if y.isBroken(under(g.key, at)) {
				continue
			}
			for _, key := range r.keys() {
				check(at, key)
			}
			for _, key := range slices.Sorted(maps.Keys(r.Equals)) {
				_, here := fieldAt(g.value, r.Equals[key])
				_, elsewhere := fieldAt(whole, r.Equals[key])
				if !here && !elsewhere {
					problems = append(problems, y.doc.Problem(under(g.key, at), words.T("tables.no_figure", "key", r.Equals[key])))
				}
			}
			for _, year := range []calendarYear{r.BaseYear, r.PlusYear} {
				if _, known := y.Prices.of(r.Through)[year]; !known && year != 0 && r.byPrices() && !r.notYet(y) {
					problems = append(problems, y.doc.Problem(under(g.key, at), words.T("tables.no_level", "year", int(year))))
				}
			}
		}
	}
	for i, c := range y.changesKnown() {
		for _, key := range slices.Sorted(maps.Keys(c.Figures)) {
			if wrong := changeWrong(whole, key, c.Figures[key]); !wrong.IsZero() {
				problems = append(problems, y.doc.Problem(fmt.Sprintf("later_years.changes[%d]", i), wrong))
			}
		}
	}
	return problems
}
