package tables

import (
	"fmt"
	"maps"
	"slices"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

// Rule is how the law sets some figures of a group again each year. One of Base,
// Equals, Computed and Figures says which figures and by what:
//
//   - Base: an amount of the statute, risen since BaseYear as prices have
//     (IRC 1(f)(3)), or by YearlyRise a year. The increase or the whole amount
//     is then rounded.
//   - Equals: the figure named, which the statute ties to this one, times Times,
//     and Plus more, to the nearest AmountNearest where that is given.
//   - Computed: worked out by this package from other figures.
//   - Figures: set by the authority in SetBy, which the statute does not bind to
//     prices; a multiple of AmountNearest or AmountDown, where one is given.
//
// A Base with SetBy beside it rises by another index than IRC 1(f)(3), one that is
// near it: a projection takes that of IRC 1(f)(3), and only the rounding is proved.
type Rule struct {
	Law string `yaml:"law,required"` // section and paragraph

	Base       map[string]money.Amount `yaml:"base"` // by the figure's key within the group
	BaseYear   calendarYear            `yaml:"base_year"`
	Through    string                  `yaml:"months_through"` // "march": the index of another twelve months than the usual
	PlusBase   money.Amount            `yaml:"plus_base"`      // added to each of Base, by its own year, before rounding
	PlusYear   calendarYear            `yaml:"plus_base_year"`
	YearlyRise money.Rate              `yaml:"yearly_rise"` // by statute, in place of prices
	Until      int                     `yaml:"until"`       // the last year of YearlyRise

	IncreaseDown    money.Amount `yaml:"increase_down_to"` // the multiple to which it is rounded; at most one of four
	IncreaseNearest money.Amount `yaml:"increase_to_nearest"`
	AmountDown      money.Amount `yaml:"amount_down_to"`
	AmountNearest   money.Amount `yaml:"amount_to_nearest"`

	Equals map[string]string `yaml:"equals"` // figures, or mappings or lists of them; the other may be of another group
	Times  number            `yaml:"times"`
	Plus   money.Amount      `yaml:"plus"`

	Computed []string `yaml:"computed"`

	SetBy   string   `yaml:"set_by"`
	Figures []string `yaml:"figures"`
}

// keys are the figures that the rule sets, as it names them, in order.
func (r *Rule) keys() []string {
	return slices.Concat(slices.Sorted(maps.Keys(r.Base)), slices.Sorted(maps.Keys(r.Equals)), r.Computed, r.Figures)
}

// Check asks that a rule says one thing, and all of it.
func (r *Rule) Check(report yamldoc.Report) {
	kinds := 0
	for _, n := range []int{len(r.Base), len(r.Equals), len(r.Computed), len(r.Figures)} {
		if n > 0 {
			kinds++
		}
	}
	if kinds != 1 {
		report("", words.T("tables.rule.kind"))
		return
	}
	roundings := 0
	for _, to := range []money.Amount{r.IncreaseDown, r.IncreaseNearest, r.AmountDown, r.AmountNearest} {
		if to.IsNegative() {
			report("", words.T("tables.rule.negative"))
		}
		if !to.IsZero() {
			roundings++
		}
	}
	byPrices := len(r.Base) > 0 && r.YearlyRise.IsZero()
	switch {
	case roundings > 1:
		report("", words.T("tables.rule.roundings"))
	case byPrices && roundings == 0:
		report("", words.T("tables.rule.unrounded"))
	case len(r.Base) > 0 && r.BaseYear == 0:
		report("base_year", besides("base"))
	case len(r.Figures) > 0 && r.SetBy == "":
		report("set_by", besides("figures"))
	case !r.PlusBase.IsZero() && r.PlusYear == 0:
		report("plus_base_year", besides("plus_base"))
	case r.Through != "" && r.Through != marchIndex:
		report("months_through", words.T("tables.rule.months", "text", r.Through))
	}
	for key, base := range r.Base {
		if !base.IsPositive() {
			report(fmt.Sprintf("base[%q]", key), notPositive())
		}
	}
}

// besides says that a key is missing beside another.
func besides(key string) words.Text { return words.T("tables.rule.beside", "key", key) }
