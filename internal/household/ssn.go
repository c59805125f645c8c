package household

import (
	"bytes"
	"regexp"
	"unicode"
)

// NoSSN is the code of what is said of a text that looks like a social security
// number.
const NoSSN = "answers.no_ssn"

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

// SSNLength is that of 123-45-6789.
const SSNLength = 11

// SSNs are the places in a file of every social security number written with
// its dashes, in comments as well. Elsewhere in a file nine digits may be an
// amount, so this is narrower than LooksLikeSSN, which judges names.
func SSNs(file []byte) (starts []int) {
	for from := 0; ; {
		i := bytes.IndexByte(file[from:], '-')
		if i < 0 {
			return starts
		}
		start := from + i - 3
		from += i + 1
		if ssnAt(file, start) {
			starts = append(starts, start)
			from = start + SSNLength
		}
	}
}

// ssnAt reports whether ddd-dd-dddd, and no longer number, is at a place of the
// file.
func ssnAt(file []byte, start int) bool {
	end := start + SSNLength
	if start < 0 || end > len(file) || start > 0 && digit(file[start-1]) || end < len(file) && digit(file[end]) {
		return false
	}
	for i, c := range file[start:end] {
		if dash := i == 3 || i == 6; dash != (c == '-') || !dash && !digit(c) {
			return false
		}
	}
	return true
}

func digit(c byte) bool { return c >= '0' && c <= '9' }
