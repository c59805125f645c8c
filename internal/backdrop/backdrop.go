// Package backdrop tells the drawing library whether the terminal is dark
// before any other package asks the terminal itself.
//
// It exists for its init alone. The terminal library asks for the background
// color when it is initialized and waits up to five seconds for an answer that
// many terminals never give, on every command, even --version. Packages that
// are ready are initialized in the order of their import paths, so this one
// must sort before github.com/charmbracelet/bubbletea, and main must import
// it. A test in cmd/plumbline runs the program on a silent terminal and fails
// if the question is sent after all.
package backdrop

import (
	"os"
	"strconv"
	"strings"

	"github.com/charmbracelet/lipgloss"
)

func init() {
	dark, known := Told()
	lipgloss.SetHasDarkBackground(dark || !known)
}

// Told is what the environment says of the background: some terminals set
// COLORFGBG ("15;0": the color numbers of text and background).
func Told() (dark, known bool) { return read(os.Getenv("COLORFGBG")) }

func read(colorFGBG string) (dark, known bool) {
	i := strings.LastIndexByte(colorFGBG, ';')
	background, err := strconv.Atoi(colorFGBG[i+1:])
	if err != nil {
		return false, false
	}
	const white, brightBlack = 7, 8
	return background < white || background == brightBlack, true
}
