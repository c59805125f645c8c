package yamldoc

import (
	"strings"
	"time"
	"unicode"
	"unicode/utf8"
)

// scalarText is a new text as written in a document, inside brackets or not.
func (d *Document) scalarText(text string, flow bool) string {
	switch {
	case d.json && (isAmount(text) || text == "true" || text == "false"), !d.json && plainSafe(text, flow) && !ambiguous(text):
		return text
	}
	return quote(text)
}

// nameText is a new name of a key as written.
func (d *Document) nameText(name string, flow bool) string {
	if !d.json && plainSafe(name, flow) && !strings.HasPrefix(name, "---") && !strings.HasPrefix(name, "...") && name != "<<" {
		return name
	}
	return quote(name)
}

var escapes = strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", `\n`, "\t", `\t`)

func quote(text string) string { return `"` + escapes.Replace(text) + `"` }

// plainSafe reports whether text without quotes is read as that text. It may
// refuse more than it must.
func plainSafe(text string, flow bool) bool {
	if text == "" || strings.TrimSpace(text) != text || strings.ContainsAny(text, "\n\t") ||
		strings.Contains(text, ": ") || strings.Contains(text, " #") || strings.HasSuffix(text, ":") {
		return false
	}
	if flow && strings.ContainsAny(text, ",[]{}?:") {
		return false
	}
	first, size := utf8.DecodeRuneInString(text)
	if first == '-' {
		first, _ = utf8.DecodeRuneInString(text[size:])
		return unicode.IsDigit(first) || unicode.IsLetter(first)
	}
	return !strings.ContainsRune(",[]{}#&*!|>'\"%@`?:=", first)
}

// ambiguous reports whether YAML 1.1 or 1.2 may read the plain text as
// something else than text. Amounts, dates, true and false are not counted:
// they are written plain, and mean what they say.
func ambiguous(text string) bool {
	if text == "true" || text == "false" || isAmount(text) || isDate(text) {
		return false
	}
	switch strings.ToLower(text) {
	case "true", "false", "yes", "no", "on", "off", "y", "n", "null":
		return true
	}
	// What begins like a number may be one, in some base or notation.
	return strings.IndexByte("0123456789+-.~=<", text[0]) >= 0
}

// isAmount recognizes 12, -0.5 and 1200.50.
func isAmount(text string) bool {
	whole, decimals, point := strings.Cut(strings.TrimPrefix(text, "-"), ".")
	if len(whole) > 1 && whole[0] == '0' {
		return false
	}
	return isDigits(whole) && (!point || isDigits(decimals))
}

func isDigits(s string) bool {
	for i := range len(s) {
		if s[i] < '0' || s[i] > '9' {
			return false
		}
	}
	return s != ""
}

func isDate(text string) bool {
	_, err := time.Parse(time.DateOnly, text)
	return err == nil
}
