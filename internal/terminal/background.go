package terminal

import (
	"bytes"
	"io"
	"os"
	"strconv"
	"strings"
	"time"

	tea "github.com/charmbracelet/bubbletea"
)

// The terminal is asked for its background color once the screen is ours, and
// never before: a terminal that does not know the question says nothing, and
// waiting for it would hold up every command. What it answers comes in among
// the keys, where answerReader takes it out. Nothing is drawn until it has come
// or answerTime has passed; keys count all the while.
const (
	askBackground = "\x1b]11;?\x1b\\" // OSC 11, "Operating System Commands" of xterm's control sequences
	answerTime    = 200 * time.Millisecond
)

// backgroundTold is what the terminal says of its background.
type backgroundTold struct{ dark bool }

// backgroundUnknown is sent when it has had time to say so.
type backgroundUnknown struct{}

// ask sends the question and the end of the wait.
func ask(out io.Writer) tea.Cmd {
	return tea.Batch(
		func() tea.Msg {
			_, _ = io.WriteString(out, askBackground) // without it, the wait ends by itself
			return nil
		},
		tea.Tick(answerTime, func(time.Time) tea.Msg { return backgroundUnknown{} }),
	)
}

// answerReader is the keyboard without the terminal's answer, which goes to
// told. It stays a file for those who need one.
type answerReader struct {
	*os.File
	told func(backgroundTold)
	held []byte // the beginning of an answer
	rest []byte // of what was read before, when there was no room for it
}

var answerStart = []byte("\x1b]11;")

// longestAnswer is more than any color takes up; what is longer is no answer.
const longestAnswer = 64

// Read implements io.Reader.
func (r *answerReader) Read(p []byte) (int, error) {
	if len(r.rest) == 0 {
		n, err := keyboard{r.File}.Read(p)
		if err != nil {
			return n, err
		}
		r.rest = r.filter(append(r.held, p[:n]...))
	}
	n := copy(p, r.rest)
	r.rest = r.rest[n:]
	return n, nil
}

// filter takes a whole answer out of what was read, and holds the beginning of
// one back. A lone escape is the key of that name, and passes.
func (r *answerReader) filter(b []byte) []byte {
	r.held = nil
	at := bytes.Index(b, answerStart)
	if at < 0 {
		for n := len(answerStart) - 1; n >= 2; n-- {
			if bytes.HasSuffix(b, answerStart[:n]) {
				at = len(b) - n
				r.held = bytes.Clone(b[at:])
				return b[:at]
			}
		}
		return b
	}
	body := b[at+len(answerStart):]
	end := bytes.IndexAny(body, "\a\x1b")
	switch {
	case end < 0 && len(body) <= longestAnswer, end >= 0 && body[end] == '\x1b' && end+1 == len(body):
		r.held = bytes.Clone(b[at:])
		return b[:at]
	case end < 0:
		return b
	}
	if dark, ok := darkColor(string(body[:end])); ok {
		r.told(backgroundTold{dark})
	}
	if body[end] == '\x1b' {
		end++ // ESC \ ends it
	}
	return append(bytes.Clone(b[:at]), body[end+1:]...)
}

// darkColor reports whether a color as terminals write it ("rgb:1e1e/2020/2222",
// "rgba:…", "#1e2022") is dark: whether white has more contrast against it than
// black has.
func darkColor(text string) (dark, ok bool) {
	var parts []string
	if short, isHex := strings.CutPrefix(text, "#"); isHex {
		for n := len(short) / 3; n > 0 && len(parts) < 3; short = short[n:] {
			parts = append(parts, short[:n])
		}
	} else if _, channels, isRGB := strings.Cut(text, ":"); isRGB {
		parts = strings.Split(channels, "/")
	}
	if len(parts) < 3 {
		return false, false
	}
	var c [3]float64
	for i := range c {
		n, err := strconv.ParseUint(parts[i], 16, 64)
		if err != nil || len(parts[i]) > 4 {
			return false, false
		}
		c[i] = float64(n) / float64(uint64(1)<<(4*len(parts[i]))-1)
	}
	l := luminance(c)
	return contrast(l, 1) > contrast(l, 0), true
}
