package terminal

import (
	"bytes"
	"strings"
	"testing"

	tea "github.com/charmbracelet/bubbletea"
)

func TestCtrlCEndsAPaste(t *testing.T) {
	long := strings.Repeat("x", 254)
	for _, tt := range []struct{ typed, want string }{
		{"abc", "abc"},
		{"\x1b[200~abc", "\x1b[200~abc"}, // a paste whose rest is still to come
		{"\x1b[200~abc\x03", "\x1b[200~abc\x1b[201~\x03"},
		{"\x03", "\x1b[201~\x03"},
		{"a\x03b\x03", "a\x1b[201~\x03b\x03"},
		{long + "\x03", "\x1b[201~\x03"}, // no room for all
	} {
		p := make([]byte, 256)
		n := endPaste(p, copy(p, tt.typed))
		if got := string(p[:n]); got != tt.want {
			t.Errorf("%q: %q, want %q", tt.typed, got, tt.want)
		}
	}
}

// FuzzKeys gives the screen any keys and sizes: nothing may panic, and what is
// drawn fits any window that has room for a sentence.
func FuzzKeys(f *testing.F) {
	f.Add([]byte("\r\x1b[B\r"), uint8(80), uint8(24))
	f.Add([]byte("\x12\x00\x7f\x1b\x04\x05\xff\x80abc 12"), uint8(3), uint8(2))
	f.Add([]byte("2\r1\r1200.50\r\x12\r"), uint8(40), uint8(12))
	f.Fuzz(func(t *testing.T, keys []byte, columns, rows uint8) {
		if len(keys) > 200 {
			return
		}
		m, _ := sat(t, "", int(columns), int(rows))
		for _, b := range keys {
			msg := tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{rune(b)}}
			if b < ' ' || b == 0x7f {
				msg = tea.KeyMsg{Type: tea.KeyType(b)}
			} else if b >= 0x80 { // the keys that have no character
				msg = tea.KeyMsg{Type: tea.KeyRunes - 1 - tea.KeyType(b-0x80)%20}
			}
			m.Update(msg)
			if drawn := bytes.Count([]byte(m.View()), []byte("\n")); columns >= 20 && rows >= 6 && drawn >= int(rows) {
				t.Fatalf("%d lines in a window of %d", drawn+1, rows)
			}
		}
	})
}
