package officialform

import (
	"errors"
	"strconv"
	"strings"
	"unicode"

	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"golang.org/x/text/encoding/charmap"
)

// maxPages is how many pages are read for the form's headings.
const maxPages = 10

// pageTexts is what each page says, in the order in which it is drawn and
// without spaces, since a line of print may be drawn in several pieces. There
// is always a first page.
func pageTexts(pdf *model.Context) ([]string, error) {
	texts := []string{""}
	for page := 1; page <= min(pdf.PageCount, maxPages); page++ {
		d, _, _, err := pdf.PageDict(page, false)
		if err != nil || d == nil {
			return nil, errDamaged
		}
		content, err := pdf.PageContent(d, page)
		if err != nil && !errors.Is(err, model.ErrNoContent) {
			return nil, errDamaged
		}
		text := squeeze(shown(content))
		if page == 1 {
			texts[0] = text
		} else {
			texts = append(texts, text)
		}
	}
	return texts, nil
}

// squeeze takes all white space out.
func squeeze(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsSpace(r) {
			return -1
		}
		return r
	}, s)
}

// shown joins the literal strings of a page's content (ISO 32000-1, 7.3.4.2),
// read in the encoding of the form's own fonts. A page whose fonts have another
// encoding gives text that matches no heading.
func shown(content []byte) string {
	var out strings.Builder
	for i := 0; i < len(content); i++ {
		switch content[i] {
		case '%':
			for i < len(content) && content[i] != '\n' && content[i] != '\r' {
				i++
			}
		case '(':
			i = literal(content, i+1, &out)
		}
	}
	return out.String()
}

// literal reads the string that begins at i and returns the place of its
// closing parenthesis.
func literal(content []byte, i int, out *strings.Builder) int {
	for depth := 1; i < len(content); i++ {
		c := content[i]
		switch c {
		case '(':
			depth++
		case ')':
			if depth--; depth == 0 {
				return i
			}
		case '\\':
			if i++; i == len(content) {
				return i
			}
			c = content[i]
			end := i
			for end < min(i+3, len(content)) && content[end] >= '0' && content[end] <= '7' {
				end++
			}
			if end > i {
				octal, _ := strconv.ParseUint(string(content[i:end]), 8, 16)
				c, i = byte(octal), end-1
			} else if strings.IndexByte("nrtbf\r\n", c) >= 0 {
				c = ' ' // control characters and a line that goes on
			}
		}
		out.WriteRune(charmap.Windows1252.DecodeByte(c))
	}
	return i
}
