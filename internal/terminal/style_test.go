package terminal

import (
	"math"
	"strconv"
	"testing"

	"github.com/charmbracelet/lipgloss"
)

func plainStyle() lipgloss.Style { return lipgloss.NewStyle() }

// TestContrast holds every color against the background that it is for: 7:1 at
// least (WCAG 2.1, success criterion 1.4.6).
func TestContrast(t *testing.T) {
	const least = 7
	for name, of := range map[string]struct {
		palette    palette
		background float64
	}{"light": {onLight, 1}, "dark": {onDark, 0}} {
		for part, c := range map[string]color{"accent": of.palette.accent, "muted": of.palette.muted, "wrong": of.palette.wrong} {
			for _, hex := range []string{c.TrueColor, cube(t, c.ANSI256)} {
				if got := contrast(luminance(t, hex), of.background); got < least {
					t.Errorf("%s %s %s: contrast %.1f, want %d", name, part, hex, got, least)
				}
			}
		}
	}
}

// luminance is the relative luminance of a color (WCAG 2.1, definitions).
func luminance(t *testing.T, hex string) float64 {
	t.Helper()
	n, err := strconv.ParseUint(hex[1:], 16, 32)
	if err != nil {
		t.Fatal(err)
	}
	linear := func(shift uint) float64 {
		c := float64(n>>shift&0xff) / 255
		if c <= 0.04045 {
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	return 0.2126*linear(16) + 0.7152*linear(8) + 0.0722*linear(0)
}

func contrast(a, b float64) float64 {
	return (max(a, b) + 0.05) / (min(a, b) + 0.05)
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
