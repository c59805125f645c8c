package terminal

import (
	"slices"
	"strings"

	"example.com/plumbline/internal/words"
)

// ascii is a text of the program's own in signs that every terminal and screen
// reader has.
var ascii = strings.NewReplacer("…", "...", "’", "'", "‘", "'", "“", `"`, "”", `"`, "–", "-", "—", "-", "×", "x", "−", "-", "§", "section ").Replace

// voice words what the front ends say. Those that share one change their language
// together.
type voice struct{ *speech }

// speech is the language spoken now, that of the beginning, and those that it can
// be changed to.
type speech struct {
	language *words.Language
	first    *words.Language
	all      []*words.Language
	changed  func(*words.Language) // told after a change; may be nil
}

func newVoice(l *words.Language) voice { return voice{&speech{language: l, first: l}} }

// next is the language after the one spoken now; nil where there is no other.
func (v voice) next() *words.Language {
	at := slices.IndexFunc(v.all, func(l *words.Language) bool { return l.Tag() == v.language.Tag() })
	if len(v.all) < 2 {
		return nil
	}
	return v.all[(at+1)%len(v.all)]
}

// speak changes the language.
func (v voice) speak(l *words.Language) {
	v.language = l
	if v.changed != nil {
		v.changed(l)
	}
}

// others are the languages that are not spoken now.
func (v voice) others() []*words.Language {
	return slices.DeleteFunc(slices.Clone(v.all), func(l *words.Language) bool { return l.Tag() == v.language.Tag() })
}

// named is the other language that a text names.
func (v voice) named(text string) *words.Language {
	for _, l := range v.others() {
		if words.Fold(text) == words.Fold(l.Name()) {
			return l
		}
	}
	return nil
}

func (v voice) say(code string, namesAndValues ...any) string {
	return v.language.Say(words.T(code, namesAndValues...))
}

// fault words what is wrong: by code where it has one.
func (v voice) fault(err error) string { return v.language.Error(err) }
