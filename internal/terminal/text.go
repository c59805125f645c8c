package terminal

import (
	"strings"

	"example.com/plumbline/internal/words"
)

// ascii is a text of the program's own in signs that every terminal and screen
// reader has.
var ascii = strings.NewReplacer("…", "...", "’", "'", "‘", "'", "“", `"`, "”", `"`, "–", "-", "—", "-", "×", "x", "−", "-", "§", "section ").Replace

// voice words what the front ends say.
type voice struct{ language *words.Language }

func (v voice) say(code string, namesAndValues ...any) string {
	return v.language.Say(words.T(code, namesAndValues...))
}

// fault words what is wrong: by code where it has one.
func (v voice) fault(err error) string { return v.language.Error(err) }
