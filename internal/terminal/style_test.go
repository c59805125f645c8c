package terminal

import (
	"strconv"
	"strings"
	"testing"

	"github.com/charmbracelet/lipgloss"
)

func plainStyle() lipgloss.Style { return lipgloss.NewStyle() }

// backgrounds are what terminals are usually given, light and dark, from their
// own settings: black and white, and the base colors of well-known palettes.
var backgrounds = map[string]struct{ light, dark []string }{
	"plain":         {[]string{"#ffffff"}, []string{"#000000"}},
	"off-white":     {[]string{"#fafafa", "#f5f5f5", "#eeeeee"}, nil},
	"near black":    {nil, []string{"#0c0c0c", "#1e1e1e", "#212121", "#282828", "#300a24"}},
	"cream":         {[]string{"#fdf6e3", "#fbf1c7", "#ffffdd"}, nil},
	"blue and gray": {nil, []string{"#002b36", "#282a36", "#2e3440", "#1a1b26", "#282c34"}},
}

// TestContrast holds every color against the backgrounds that it is for: 4.5:1
// at least (WCAG 2.1, success criterion 1.4.3).
func TestContrast(t *testing.T) {
	const least = 4.5
	for name, on := range backgrounds {
		for _, theme := range []struct {
			palette     palette
			backgrounds []string
		}{{onLight, on.light}, {onDark, on.dark}} {
			for part, c := range map[string]color{"accent": theme.palette.accent, "muted": theme.palette.muted, "wrong": theme.palette.wrong} {
				if c.ANSI != "" {
					t.Errorf("%s: of 16 colors nobody knows the shade", part)
				}
				for _, text := range []string{c.TrueColor, cube(t, c.ANSI256)} {
					for _, background := range theme.backgrounds {
						if got := contrast(luminanceOf(t, text), luminanceOf(t, background)); got < least {
							t.Errorf("%s: %s %s on %s: contrast %.2f, want %v", name, part, text, background, got, least)
						}
					}
				}
			}
		}
	}
}

// The same backgrounds are told apart as light and dark.
func TestDarkColor(t *testing.T) {
	for _, on := range backgrounds {
		for i, colors := range [][]string{on.light, on.dark} {
			for _, c := range colors {
				wide := "rgb:" + c[1:3] + c[1:3] + "/" + c[3:5] + c[3:5] + "/" + c[5:7] + c[5:7]
				for _, text := range []string{c, wide, "rgba:" + wide[4:] + "/ffff"} {
					if dark, ok := darkColor(text); !ok || dark != (i == 1) {
						t.Errorf("%s: dark %v, understood %v", text, dark, ok)
					}
				}
			}
		}
	}
	for _, text := range []string{"", "?", "rgb:", "rgb:1/2", "rgb:12345/1/1", "#12", "red"} {
		if _, ok := darkColor(text); ok {
			t.Errorf("%q is understood", text)
		}
	}
}

// What the terminal answers is taken out from among the keys, whatever pieces
// it comes in.
func TestAnswerAmongKeys(t *testing.T) {
	tests := []struct {
		name   string
		pieces []string
		keys   string
		told   int
	}{
		{"whole", []string{"\x1b]11;rgb:ffff/ffff/ffff\x1b\\"}, "", 1},
		{"ended by a bell", []string{"\x1b]11;rgb:ff/ff/ff\a"}, "", 1},
		{"among keys", []string{"ab\x1b]11;rgb:0/0/0\acd"}, "abcd", 1},
		{"in pieces", []string{"a\x1b", "]11;", "rgb:0000/00", "00/0000\x1b", "\\b"}, "a\x1b]11;rgb:0000/0000/0000\x1b\\b", 0},
		{"in pieces after two signs", []string{"\x1b]", "11;rgb:0000/00", "00/0000\x1b", "\\b"}, "b", 1},
		{"escape alone", []string{"\x1b"}, "\x1b", 0},
		{"an arrow", []string{"\x1b[A"}, "\x1b[A", 0},
		{"no color", []string{"\x1b]11;?\aq"}, "q", 0},
		{"never ended", []string{"\x1b]11;" + strings.Repeat("x", 100)}, "\x1b]11;" + strings.Repeat("x", 100), 0},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			told, keys := 0, ""
			r := &answerReader{told: func(backgroundTold) { told++ }}
			for _, piece := range tt.pieces {
				keys += string(r.filter(append(r.held, piece...)))
			}
			if keys != tt.keys || told != tt.told {
				t.Errorf("keys %q, told %d times; want %q, %d", keys, told, tt.keys, tt.told)
			}
		})
	}
}

// luminanceOf is the luminance of a color like #1e2022.
func luminanceOf(t *testing.T, hex string) float64 {
	t.Helper()
	n, err := strconv.ParseUint(hex[1:], 16, 32)
	if err != nil {
		t.Fatal(err)
	}
	return luminance([3]float64{float64(n>>16) / 255, float64(n>>8&0xff) / 255, float64(n&0xff) / 255})
}

// cube is a color of the table of 256 (xterm): a cube of six steps a side from
// 16, then 24 grays from 232.
func cube(t *testing.T, index string) string {
	t.Helper()
	n, err := strconv.Atoi(index)
	if err != nil || n < 16 {
		t.Fatalf("%q is not in the cube", index)
	}
	if n >= 232 {
		g := 8 + 10*(n-232)
		return hex(g, g, g)
	}
	step := func(i int) int {
		if i == 0 {
			return 0
		}
		return 55 + 40*i
	}
	n -= 16
	return hex(step(n/36), step(n/6%6), step(n%6))
}

func hex(r, g, b int) string {
	const digits = "0123456789abcdef"
	s := "#"
	for _, c := range []int{r, g, b} {
		s += string(digits[c>>4]) + string(digits[c&15])
	}
	return s
}
