package report

import (
	"strings"
	"sync"
	"unicode"

	"github.com/go-fonts/liberation/liberationsansregular"
	"golang.org/x/image/font/sfnt"
	"golang.org/x/text/unicode/norm"
)

// noGlyph stands for a letter of a script that the fonts do not have.
const noGlyph = '□'

// printable is a string in letters that the fonts have: composed where they
// can be, with fewer accents where they must be.
func printable(s string) string {
	var b strings.Builder
	var it norm.Iter
	it.InitString(norm.NFC, s)
	for !it.Done() {
		b.WriteString(printableLetter(string(it.Next())))
	}
	return b.String()
}

// printableLetter is one letter with its accents; those that the font cannot
// set on it are dropped, the last one first.
func printableLetter(s string) string {
	letter := []rune(s)
	if covers(letter) {
		return s
	}
	parts := []rune(norm.NFD.String(s))
	for n := len(parts); n > 0; n-- {
		if fewer := []rune(norm.NFC.String(string(parts[:n]))); covers(fewer) {
			return string(fewer)
		}
	}
	if unicode.IsMark(letter[0]) {
		return ""
	}
	return string(noGlyph)
}

// covers reports whether the fonts have every one of the letters, and they can be
// drawn: from left to right, since fpdf knows no other order. Regular and bold
// cover the same.
func covers(letters []rune) bool {
	f := font()
	for _, r := range letters {
		if r == ' ' {
			continue
		}
		if i, err := f.GlyphIndex(nil, r); err != nil || i == 0 || unicode.IsMark(r) || unicode.In(r, unicode.Hebrew, unicode.Arabic) {
			return false
		}
	}
	return true
}

var font = sync.OnceValue(func() *sfnt.Font {
	f, err := sfnt.Parse(liberationsansregular.TTF)
	if err != nil {
		panic(err) // the font is part of the program
	}
	return f
})
