package main

import (
	"fmt"
	"io"
	"os"
	"sync/atomic"
	"time"

	"github.com/charmbracelet/bubbles/progress"
	"golang.org/x/term"

	"example.com/plumbline/internal/words"
)

// countingReader counts what has been read. What has ended has ended: a terminal
// would go on after Ctrl-D.
type countingReader struct {
	r     io.Reader
	n     atomic.Int64
	ended error
}

func (c *countingReader) Read(p []byte) (int, error) {
	if c.ended != nil {
		return 0, c.ended
	}
	n, err := c.r.Read(p)
	c.n.Add(int64(n))
	c.ended = err
	return n, err
}

// size is how much there is to read in all; zero where that is not known, as in
// a pipe.
func (c *countingReader) size() int64 {
	f, ok := c.r.(*os.File)
	if !ok {
		return 0
	}
	info, err := f.Stat()
	if err != nil || !info.Mode().IsRegular() {
		return 0
	}
	return info.Size()
}

// batchProgress is a line on the terminal that says how far batch has come, and
// where the length of the input is known a bar and the time left; nothing where
// standard error is no terminal.
type batchProgress struct {
	w        io.Writer
	language *words.Language
	bar      progress.Model
	input    *countingReader
	size     int64
	n        int
	failed   int
	started  time.Time
	shown    time.Time
}

func newProgress(w io.Writer, l *words.Language, input *countingReader) *batchProgress {
	f, ok := w.(*os.File)
	if !ok || !term.IsTerminal(int(f.Fd())) {
		return &batchProgress{}
	}
	bar := progress.New(progress.WithWidth(10), progress.WithoutPercentage(), progress.WithFillCharacters('#', '.'), progress.WithSolidFill(""))
	return &batchProgress{w: w, language: l, bar: bar, input: input, size: input.size(), started: time.Now()}
}

func (p *batchProgress) step(failed int) {
	p.n++
	p.failed = failed
	const every = 200 * time.Millisecond
	if p.w != nil && time.Since(p.shown) >= every {
		p.show()
	}
}

func (p *batchProgress) show() {
	p.shown = time.Now()
	took := max(p.shown.Sub(p.started), time.Millisecond)
	rate := int(float64(p.n) / took.Seconds())
	text := words.T("batch.progress", "rows", p.n, "failed", p.failed, "rate", rate)
	if read := p.input.n.Load(); p.size > 0 && read > 0 {
		share := min(float64(read)/float64(p.size), 1)
		left := int((float64(took)/share - float64(took)) / float64(time.Second))
		text = words.T("batch.progress_left", "so_far", text, "bar", p.bar.ViewAs(share), "minutes", left/60, "seconds", left)
	}
	fmt.Fprintf(p.w, "\r\x1b[K%s", p.language.Say(text))
}

func (p *batchProgress) done() {
	if p.w != nil {
		p.show()
		fmt.Fprintln(p.w)
	}
}
