package terminal

import (
	"math"
	"os"

	"github.com/charmbracelet/huh"
	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"

	"example.com/plumbline/internal/words"
)

// Theme is a choice of colors.
type Theme int8

// The themes. Auto is for the background that the terminal says it has, and
// without color where it does not say: what suits one background cannot be read
// on the other. None of them gives a meaning to a color.
const (
	Auto Theme = iota
	Light
	Dark
	Monochrome // bold, underlined and reversed, no color
)

var themeNames = []string{"auto", "light", "dark", "plain"}

// ThemeNamed is the theme of a name.
func ThemeNamed(name string) (Theme, error) {
	for i, n := range themeNames {
		if n == name {
			return Theme(i), nil
		}
	}
	return Auto, words.Fail("screen.theme.unknown", "name", name)
}

// color is one color for terminals of true color, of 256 and of 16.
type color = lipgloss.CompleteColor

// palette are the colors of a theme. Text is left in the terminal's own color.
// Each has a contrast of 4.5:1 or more (WCAG 2.1, 1.4.3) against the usual
// backgrounds that it is for. Terminals of 16 colors draw these in whatever
// shade their owner chose, so there the text has no color.
type palette struct{ accent, muted, wrong color }

var (
	onLight = palette{
		accent: color{TrueColor: "#005A9C", ANSI256: "24"},
		muted:  color{TrueColor: "#4A4A4A", ANSI256: "239"},
		wrong:  color{TrueColor: "#B00020", ANSI256: "124"},
	}
	onDark = palette{
		accent: color{TrueColor: "#8CC8FF", ANSI256: "117"},
		muted:  color{TrueColor: "#C0C0C0", ANSI256: "250"},
		wrong:  color{TrueColor: "#FF9A9A", ANSI256: "217"},
	}
)

// style is how each kind of text is drawn.
type style struct {
	title, accent, muted, wrong, rule lipgloss.Style
	field                             *huh.Theme
}

// newStyle makes the styles of a theme. It also settles which colors the
// drawing library uses, which only this process's terminal can see.
func newStyle(t Theme) style {
	plain := lipgloss.NewStyle()
	p := onDark
	switch {
	case t == Monochrome || noColor():
		// The library would drop bold and reversed text along with the colors,
		// and with it the cursor of an input.
		lipgloss.SetColorProfile(termenv.ANSI)
		return styled(plain, plain, plain)
	case t == Auto:
		return styled(plain, plain, plain)
	case t == Light:
		p = onLight
	}
	return styled(plain.Foreground(p.accent), plain.Foreground(p.muted), plain.Foreground(p.wrong))
}

// noColor reports whether the person wants no color in any program.
func noColor() bool { return os.Getenv("NO_COLOR") != "" }

// themeOf is the theme for a background.
func themeOf(dark bool) Theme {
	if dark {
		return Dark
	}
	return Light
}

// luminance is the relative luminance of a color of red, green and blue from 0
// to 1 (WCAG 2.1, definitions).
func luminance(c [3]float64) float64 {
	for i, v := range c {
		if v <= 0.04045 {
			c[i] = v / 12.92
		} else {
			c[i] = math.Pow((v+0.055)/1.055, 2.4)
		}
	}
	return 0.2126*c[0] + 0.7152*c[1] + 0.0722*c[2]
}

// contrast is the contrast of two luminances, from 1 to 21 (WCAG 2.1,
// definitions).
func contrast(a, b float64) float64 { return (max(a, b) + 0.05) / (min(a, b) + 0.05) }

func styled(accent, muted, wrong lipgloss.Style) style {
	s := style{title: accent.Bold(true), accent: accent, muted: muted, wrong: wrong.Bold(true), rule: muted}
	f := huh.ThemeBase()
	plain := lipgloss.NewStyle()
	f.Focused.Base = plain
	f.Focused.SelectSelector = s.title.SetString("> ")
	f.Focused.MultiSelectSelector = s.title.SetString("> ")
	f.Focused.Option = plain
	f.Focused.UnselectedOption = plain
	f.Focused.SelectedOption = s.title
	f.Focused.SelectedPrefix = s.title.SetString("[x] ")
	f.Focused.UnselectedPrefix = plain.SetString("[ ] ")
	f.Focused.TextInput.Prompt = s.title
	f.Focused.TextInput.Placeholder = muted
	f.Focused.TextInput.Cursor = accent
	f.Blurred = f.Focused
	s.field = f
	return s
}
