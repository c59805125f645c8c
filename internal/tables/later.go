package tables

import (
	"reflect"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// LaterYears is what is known of the years after the table's.
type LaterYears struct {
	Rise    AssumedRise   `yaml:"rise,required"`
	Changes []LaterChange `yaml:"changes"`
}

// AssumedRise is the rise of the price index over this year's that a projection
// of the next year assumes where no other is asked for.
type AssumedRise struct {
	Citation `yaml:",inline"`
	Share    money.Rate `yaml:"share,required"`
}

// LaterChange is figures that a statute or an authority has already set for a
// year after the table's, and for those that follow.
type LaterChange struct {
	From    int               `yaml:"from,required"`
	Source  string            `yaml:"source,required"`
	Basis   Basis             `yaml:"basis,required"`
	Figures map[string]string `yaml:"figures,required"` // full keys, of figures or of mappings of them
}

// changesKnown are what the table knows of later years.
func (y *Year) changesKnown() []LaterChange {
	if y.Later == nil {
		return nil
	}
	return y.Later.Changes
}

// changeWrong is why a change of later years cannot be made; zero where it can.
func changeWrong(year reflect.Value, key, text string) (wrong words.Text) {
	v, ok := fieldAt(year, key)
	if !ok || v.Kind() == reflect.String { // a source, or a note
		return words.T("tables.no_figure", "key", key)
	}
	eachFigure(key, v, func(key string, figure reflect.Value) {
		if figure.Kind() == reflect.String || !wrong.IsZero() {
			return
		}
		if err := setText(reflect.New(figure.Type()).Elem(), text); err != nil {
			wrong = words.T("tables.of_figure", "key", key, "what", err)
		}
	})
	return wrong
}
