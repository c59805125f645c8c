package terminal

import (
	"fmt"
	"os"

	"github.com/charmbracelet/huh"
	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"
)

// Theme is a choice of colors.
type Theme int8

// The themes. Auto is for the background that the terminal says it has, or
// dark where it does not say. None of them gives a meaning to a color.
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
	return Auto, fmt.Errorf("%q is not a theme; write light, dark or plain", name)
}

// color is one color for terminals of true color, of 256 and of 16.
type color = lipgloss.CompleteColor

// palette are the colors of a theme. Text is left in the terminal's own color.
// Each has a contrast of 7:1 or more against the background it is for (WCAG
// 2.1, 1.4.6); for the 16 colors that depends on the terminal.
type palette struct{ accent, muted, wrong color }

var (
	onLight = palette{
		accent: color{TrueColor: "#005A9C", ANSI256: "24", ANSI: "4"},
		muted:  color{TrueColor: "#4A4A4A", ANSI256: "239", ANSI: "0"},
		wrong:  color{TrueColor: "#B00020", ANSI256: "124", ANSI: "1"},
	}
	onDark = palette{
		accent: color{TrueColor: "#8CC8FF", ANSI256: "117", ANSI: "14"},
		muted:  color{TrueColor: "#C0C0C0", ANSI256: "250", ANSI: "7"},
		wrong:  color{TrueColor: "#FF9A9A", ANSI256: "217", ANSI: "15"},
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
	if t == Monochrome || os.Getenv("NO_COLOR") != "" {
		// The library would drop bold and reversed text along with the colors,
		// and with it the cursor of an input.
		lipgloss.SetColorProfile(termenv.ANSI)
		return styled(plain, plain, plain)
	}
	p := onDark
	if t == Light || t == Auto && !lipgloss.HasDarkBackground() {
		p = onLight
	}
	return styled(plain.Foreground(p.accent), plain.Foreground(p.muted), plain.Foreground(p.wrong))
}

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
