package terminal

import (
	"bufio"
	"context"
	"fmt"
	"io"
	"strings"

	"example.com/plumbline/internal/layout"
)

// line is a line of input, or why there is none.
type line struct {
	text    string
	tooLong bool
	err     error
}

// read is the next line of input. It does not read ahead, so that others can
// read from the same input between two interviews.
func (p *plain) read(ctx context.Context) (string, error) {
	if p.writeErr != nil {
		return "", p.writeErr
	}
	if p.ask == nil {
		p.ask, p.lines = make(chan struct{}), make(chan line)
		go func() {
			for range p.ask {
				p.lines <- readLine(p.in)
			}
		}()
	}
	for {
		p.ask <- struct{}{}
		select {
		case l := <-p.lines:
			if l.tooLong && l.err == nil {
				p.tell(p.say("screen.plain.too_long"))
				continue
			}
			return strings.TrimSpace(layout.CleanLines(l.text)), l.err
		case <-ctx.Done():
			return "", ErrInterrupted
		}
	}
}

// longestLine is the most bytes of a line that are read as an answer.
const longestLine = 16 << 10

// readLine reads a line of any length, and keeps none that is too long to be an
// answer.
func readLine(in *bufio.Reader) (l line) {
	var text []byte
	for {
		part, more, err := in.ReadLine()
		switch {
		case err == io.EOF && (len(text) > 0 || l.tooLong):
			// the last line, without an end
		case err == io.EOF:
			return line{err: ErrEndOfInput}
		case err != nil:
			return line{err: fmt.Errorf("%w: %w", ErrEndOfInput, err)}
		}
		if l.tooLong = l.tooLong || len(text)+len(part) > longestLine; !l.tooLong {
			text = append(text, part...)
		}
		if !more || err != nil {
			l.text = string(text)
			return l
		}
	}
}
