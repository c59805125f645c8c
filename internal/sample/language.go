package sample

import (
	"regexp"
	"strings"
	"unicode"

	"example.com/plumbline/internal/words"
)

// Invented is a language of two letters, a capital one and a small one, in which
// everything is a third longer than in English: what is not in the file of words is
// seen at once.
func Invented(upper, lower rune) *words.Language {
	return words.English().Mapped("xx", func(s string) string {
		return strings.Map(func(r rune) rune {
			switch {
			case unicode.IsUpper(r):
				return upper
			case unicode.IsLower(r):
				return lower
			}
			return r
		}, threeLetters.ReplaceAllString(s, "${0}x"))
	})
}

var threeLetters = regexp.MustCompile(`\pL{3}`)
