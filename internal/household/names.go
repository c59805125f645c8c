package household

import (
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/plumbline/internal/words"
)

// longestName is how many characters the name of a job or a dependent may
// have: enough for any label, and still one line on a page.
const longestName = 60

// NameFault says what is wrong with a name for a job or a dependent, and what
// to do about it; nothing when the name can be shown as it is. The empty name
// is in order: JobName gives it words.
func NameFault(name string) words.Text {
	length := utf8.RuneCountInString(name)
	switch {
	case !utf8.ValidString(name):
		return words.T("answers.name_not_utf8")
	case length > longestName:
		return words.T("answers.name_too_long", "length", length, "most", longestName)
	}
	fault := textFault(name)
	if fault.IsZero() && strings.TrimSpace(name) != "" && strings.IndexFunc(name, drawn) < 0 {
		fault = words.T("answers.name_unseen")
	}
	return fault
}

// drawn reports whether a character leaves a mark on a page.
func drawn(r rune) bool {
	return unicode.In(r, unicode.L, unicode.N, unicode.P, unicode.S) && r != hangulFiller && r != halfwidthFiller && r != brailleBlank
}

// Letters and symbols, by their class, that are drawn as nothing.
const (
	hangulFiller    = '\u3164'
	halfwidthFiller = '\uffa0'
	brailleBlank    = '\u2800'
)

// textFault says what forbids a text of any length; nothing when it can be
// shown as it is.
func textFault(text string) words.Text {
	if LooksLikeSSN(text) {
		return words.T(NoSSN)
	}
	for _, r := range text {
		if !visible(r) {
			return words.T("answers.invisible", "character", fmt.Sprintf("%U", r))
		}
	}
	return words.Text{}
}

// visible reports whether a character shows as itself and steers nothing: no
// control characters, line ends, terminal escapes or marks that turn the
// direction of writing. The two joiners shape letters and emoji, no more.
func visible(r rune) bool {
	const nonJoiner, joiner = '\u200c', '\u200d'
	return unicode.IsGraphic(r) && r != '\u2028' && r != '\u2029' || r == nonJoiner || r == joiner
}

// Named is the household with a name for every job and dependent: those without
// one of their own are numbered in a language.
func (h Household) Named(l *words.Language) Household {
	h.Jobs, h.Dependents = slices.Clone(h.Jobs), slices.Clone(h.Dependents)
	for i := range h.Jobs {
		if strings.TrimSpace(h.Jobs[i].Name) == "" {
			h.Jobs[i].Name = l.Say(words.T("note.unnamed_job", "number", i+1))
		}
	}
	for i := range h.Dependents {
		h.Dependents[i].Name = h.dependentName(i, l)
	}
	return h
}

// DependentName is the name of the dependent at an index of Dependents as
// people read it: its own, or "Dependent 1" when it has none.
func (h Household) DependentName(i int) string { return h.dependentName(i, words.English()) }

func (h Household) dependentName(i int, l *words.Language) string {
	if name := strings.TrimSpace(h.Dependents[i].Name); name != "" {
		return name
	}
	return l.Say(words.T("dependent.unnamed", "number", i+1))
}

// JobName is the name of the job at an index of Jobs as people read it: its
// own, or "Job 1" when it has none. Names that look alike where a page has room
// for their beginning only are numbered, so that no two employers are mistaken
// for each other: "Harbor Clinic (2)".
func (h Household) JobName(i int) string {
	name := strings.TrimSpace(h.Jobs[i].Name)
	if name == "" {
		return words.English().Say(words.T("note.unnamed_job", "number", i+1))
	}
	alike, before := 0, 0
	for k, j := range h.Jobs {
		if look(j.Name) == look(name) {
			alike++
			if k < i {
				before++
			}
		}
	}
	if alike < 2 {
		return name
	}
	number := fmt.Sprintf(" (%d)", before+1)
	if r := []rune(name); len(r) > looksAlike {
		name = strings.TrimSpace(string(r[:looksAlike])) + "…"
	}
	return name + number
}

// looksAlike is after how many characters a reader of a narrow column no longer
// tells two names apart.
const looksAlike = 20

// look is what two names that look alike have in common.
func look(name string) string {
	name = strings.Join(strings.Fields(strings.ToLower(name)), " ")
	if r := []rune(name); len(r) > looksAlike {
		name = string(r[:looksAlike])
	}
	return name
}
