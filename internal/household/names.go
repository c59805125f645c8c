package household

import (
	"fmt"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf8"
)

// longestName is how many characters the name of a job or a dependent may
// have: enough for any label, and still one line on a page.
const longestName = 60

// NoSSN is what is said of a text that looks like a social security number.
const NoSSN = "this program never holds a social security number; take it out"

// ssn recognizes nine digits as they are written in a social security number,
// with or without their two breaks, or in an employer's number. \P{Nd} keeps
// out longer numbers, such as those of telephones.
var ssn = regexp.MustCompile(`(?:^|\P{Nd})(?:\p{Nd}{3}[-–—. ]?\p{Nd}{2}[-–—. ]?\p{Nd}{4}|\p{Nd}{2}-\p{Nd}{7})(?:\P{Nd}|$)`)

// LooksLikeSSN reports whether a text holds what may be a social security
// number.
func LooksLikeSSN(text string) bool {
	digits := 0
	for _, r := range text {
		if unicode.IsDigit(r) {
			digits++
		}
	}
	return digits >= 9 && ssn.MatchString(text)
}

// NameFault says what is wrong with a name for a job or a dependent, and what
// to do about it; nothing when the name can be shown as it is. The empty name
// is in order: JobName and DependentName give it words.
func NameFault(name string) string {
	length := utf8.RuneCountInString(name)
	switch {
	case !utf8.ValidString(name):
		return "this is not UTF-8; write a short plain name"
	case length > longestName:
		return fmt.Sprintf("%d characters are too many; write a short plain name of at most %d", length, longestName)
	}
	return textFault(name)
}

// textFault says what forbids a text of any length; nothing when it can be
// shown as it is.
func textFault(text string) string {
	if LooksLikeSSN(text) {
		return NoSSN
	}
	for _, r := range text {
		if !visible(r) {
			return fmt.Sprintf("a character that does not show (%U) stands in it; write plain text", r)
		}
	}
	return ""
}

// visible reports whether a character shows as itself and steers nothing: no
// control characters, line ends, terminal escapes or marks that turn the
// direction of writing. The two joiners shape letters and emoji, no more.
func visible(r rune) bool {
	const nonJoiner, joiner = '\u200c', '\u200d'
	return unicode.IsGraphic(r) && r != '\u2028' && r != '\u2029' || r == nonJoiner || r == joiner
}

// JobName is the name of the job at an index of Jobs as people read it: its
// own, or "Job 1" when it has none.
func (h Household) JobName(i int) string { return nameOr(h.Jobs[i].Name, "Job", i) }

// DependentName is the name of the dependent at an index of Dependents as
// people read it: its own, or "dependent 1" when it has none.
func (h Household) DependentName(i int) string {
	return nameOr(h.Dependents[i].Name, "dependent", i)
}

func nameOr(name, kind string, i int) string {
	if name = strings.TrimSpace(name); name != "" {
		return name
	}
	return fmt.Sprintf("%s %d", kind, i+1)
}
