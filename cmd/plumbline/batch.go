package main

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"os"
	"runtime"
	"runtime/debug"
	"sync"
	"time"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/store"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/yamldoc"
)

// maxLine is the longest household that batch takes, in bytes.
const maxLine = 1 << 20

// batchGCPercent lets the garbage of a few more households pile up before it
// is collected: a household leaves hundreds of kilobytes of it and almost
// nothing that lives on, so the memory in use stays a few tens of megabytes and
// the throughput nearly doubles.
const batchGCPercent = 400

func (p *program) batchCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "batch",
		Short: "Many households: JSON answers in, a line each; JSON results out",
		Long: `Reads one household a line from standard input, as JSON, and writes one result
a line to standard output, in the same order, each with the number of its line.
A blank line is passed over. A line that cannot be solved gives a line with
"error" in its place and stops nothing. The exit status is 1 when any line had
an error.`,
		Args: exactly(0, "no arguments: households come on standard input"),
		RunE: func(cmd *cobra.Command, args []string) error { return p.batch() },
	}
}

// batchJob is one line on its way through: its number and text, and where its
// result will be.
type batchJob struct {
	number int
	text   []byte
	tooBig bool
	result chan batchResult
}

type batchResult struct {
	line   []byte
	failed bool
}

// batch solves the households of standard input on all cores. The jobs in
// flight are bounded, so memory does not grow with the input; they are written
// in the order in which they were read.
func (p *program) batch() error {
	defer debug.SetGCPercent(debug.SetGCPercent(batchGCPercent))
	workers := runtime.GOMAXPROCS(0)
	work := make(chan batchJob, workers)
	order := make(chan chan batchResult, 16*workers)
	stop := make(chan struct{}) // closed when nothing more can be written

	var readErr error
	go func() {
		defer close(order)
		defer close(work)
		readErr = eachLine(p.stdin, func(number int, text []byte, tooBig bool) bool {
			j := batchJob{number, text, tooBig, make(chan batchResult, 1)}
			select {
			case order <- j.result:
			case <-stop:
				return false
			}
			work <- j
			return true
		})
	}()

	solver := &batchSolver{p: p, years: map[int]*yearTables{}}
	for range workers {
		go func() {
			for j := range work {
				j.result <- solver.solve(j)
			}
		}()
	}

	out := bufio.NewWriterSize(p.stdout, 1<<16)
	progress := newProgress(p.stderr)
	failed := 0
	for result := range order {
		r := <-result
		if r.failed {
			failed++
		}
		_, err := out.Write(append(r.line, '\n'))
		if err == nil && len(order) == 0 {
			err = out.Flush() // nothing waits: let a reader at the other end go on
		}
		if err != nil {
			close(stop)
			return systemFailed(err)
		}
		progress.step(failed)
	}
	progress.done()
	if err := errors.Join(readErr, out.Flush()); err != nil {
		return systemFailed(err)
	}
	if failed > 0 {
		return silentError{exitAnswers}
	}
	return nil
}

// eachLine calls do for every line that is not blank, until it returns false. A
// line longer than maxLine is passed over and reported as too big.
func eachLine(r io.Reader, do func(number int, text []byte, tooBig bool) bool) error {
	in := bufio.NewReaderSize(r, 1<<16)
	var line []byte
	tooBig := false
	for number := 1; ; {
		part, err := in.ReadSlice('\n')
		if !tooBig {
			line = append(line, part...)
			if len(line) > maxLine {
				line, tooBig = nil, true
			}
		}
		if errors.Is(err, bufio.ErrBufferFull) {
			continue
		}
		if err != nil && err != io.EOF {
			return err
		}
		if len(bytes.TrimSpace(line)) > 0 || tooBig {
			if !do(number, bytes.TrimSpace(line), tooBig) {
				return nil
			}
		}
		if err == io.EOF {
			return nil
		}
		number++
		line, tooBig = nil, false
	}
}

// batchSolver solves one household after another, from several goroutines,
// with each year's tables loaded once.
type batchSolver struct {
	p     *program
	mu    sync.Mutex
	years map[int]*yearTables
}

// yearTables are a year's tables and the next year's, as solving needs them.
type yearTables struct {
	this, next *tables.Year
	err        error
}

func (b *batchSolver) tables(year int) *yearTables {
	b.mu.Lock()
	defer b.mu.Unlock()
	t := b.years[year]
	if t == nil {
		t = new(yearTables)
		t.this, t.err = b.p.year(year)
		if t.err == nil {
			t.next, t.err = b.p.nextYear(year)
		}
		const most = 64 // of different years asked for; beyond it a stream is hostile
		if len(b.years) < most {
			b.years[year] = t
		}
	}
	return t
}

func (b *batchSolver) solve(j batchJob) batchResult {
	result, err := b.result(j)
	if err == nil {
		// The result's own object, with the number of its line put first.
		return batchResult{line: append(fmt.Appendf(nil, `{"line":%d,`, j.number), result[1:]...)}
	}
	return batchResult{line: batchError(j.number, err), failed: true}
}

func (b *batchSolver) result(j batchJob) ([]byte, error) {
	if j.tooBig {
		return nil, fmt.Errorf("the line is longer than %d bytes, so it is not a household", maxLine)
	}
	h, _, err := store.Decode(fmt.Sprintf("line %d", j.number), j.text, b.p.today)
	if err != nil {
		return nil, err
	}
	t := b.tables(h.TaxYear)
	if t.err != nil {
		return nil, t.err
	}
	r, err := certificate.Solve(h, t.this, t.next)
	if err != nil {
		return nil, err
	}
	return r.MarshalJSON() // json.Marshal would only read its bytes once more
}

// batchError is the line that stands in for a result.
func batchError(number int, err error) []byte {
	type problem struct {
		Column  int    `json:"column,omitempty"`
		Key     string `json:"key,omitempty"`
		Message string `json:"message"`
	}
	type failure struct {
		Line     int       `json:"line"`
		Message  string    `json:"message"`
		Problems []problem `json:"problems"`
	}
	f := failure{Line: number, Message: err.Error(), Problems: []problem{}}
	var problems yamldoc.Problems
	if errors.As(err, &problems) {
		for _, p := range problems {
			f.Problems = append(f.Problems, problem{p.Column, p.Key, p.Message})
		}
	}
	line, err := json.Marshal(map[string]failure{"error": f})
	if err != nil {
		panic(err) // strings and numbers always encode
	}
	return line
}

// progress is a line on the terminal that says how far batch has come; nothing
// where standard error is no terminal.
type progress struct {
	w       io.Writer
	n       int
	failed  int
	started time.Time
	shown   time.Time
}

func newProgress(w io.Writer) *progress {
	f, ok := w.(*os.File)
	if !ok || !term.IsTerminal(int(f.Fd())) {
		return &progress{}
	}
	return &progress{w: w, started: time.Now()}
}

func (p *progress) step(failed int) {
	p.n++
	p.failed = failed
	const every = 200 * time.Millisecond
	if p.w != nil && time.Since(p.shown) >= every {
		p.show()
	}
}

func (p *progress) show() {
	p.shown = time.Now()
	rate := float64(p.n) / max(p.shown.Sub(p.started).Seconds(), 0.001)
	fmt.Fprintf(p.w, "\r%d households, %d with errors, %.0f a second ", p.n, p.failed, rate)
}

func (p *progress) done() {
	if p.w != nil {
		p.show()
		fmt.Fprintln(p.w)
	}
}
