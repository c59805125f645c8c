package main

import (
	"bufio"
	"errors"
	"io"
	"os"
	"os/signal"
	"path/filepath"
	"runtime"
	"runtime/debug"
	"strings"
	"syscall"

	"github.com/spf13/cobra"
	"golang.org/x/term"

	"example.com/plumbline/internal/roster"
)

// batchGCPercent lets the garbage of a few more households pile up before it
// is collected: a household leaves hundreds of kilobytes of it and almost
// nothing that lives on, so the throughput nearly doubles. What lives on goes from
// three to eight megabytes, by the households in hand, and the garbage with it;
// batchMemory is where it is collected at the latest, so that a long batch takes
// no more memory than a short one.
const (
	batchGCPercent = 1600
	batchMemory    = 128 << 20
)

// batchFlags say how households come in and results go out.
type batchFlags struct {
	csv, asJSON bool
	from        int
	pages, fill string
	pdf         bool
}

func (p *program) batchCommand() *cobra.Command {
	var f batchFlags
	cmd := &cobra.Command{
		Use:        "batch",
		SuggestFor: []string{"spreadsheet", "csv"},
		Args:       noHouseholds,
		RunE:       func(cmd *cobra.Command, args []string) error { return p.batch(f) },
	}
	fl := cmd.Flags()
	fl.BoolVar(&f.csv, "csv", false, "")
	fl.BoolVar(&f.asJSON, "json", false, "")
	fl.IntVar(&f.from, "from", 1, "")
	fl.StringVar(&f.pages, "pages", "", "")
	fl.BoolVar(&f.pdf, "pdf", false, "")
	fl.StringVar(&f.fill, "fill", "", "")
	cmd.AddCommand(p.templateCommand())
	return cmd
}

// noHouseholds refuses arguments: households come on standard input. For a file
// it says the command.
func noHouseholds(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	err := takes(cmd, "households")
	file := args[len(args)-1]
	csv := ""
	switch strings.ToLower(filepath.Ext(file)) {
	case ".csv", ".tsv", ".txt":
		csv = " --csv"
	case ".json", ".jsonl", ".ndjson", ".yaml", ".yml":
	default:
		return err
	}
	if strings.ContainsAny(file, " \t\n'\"`\\&;|<>()[]{}$*?!#~") {
		file = "'" + strings.ReplaceAll(file, "'", `'\''`) + "'"
	}
	return withHint(err, "batch.from_file", "command", cmd.CommandPath()+csv+" < "+file)
}

// batchJob is one household on its way through, and where its result will be.
type batchJob struct {
	roster.Row
	result chan batchResult
}

// batchResult is what is written for a household.
type batchResult struct {
	number  int
	id      string
	line    []byte
	mistake string      // why there is no result; empty where there is one
	pages   *drawnPages // nil where none are asked for
}

// batch solves the households of standard input on all cores. The jobs in
// flight are bounded, so memory does not grow with the input; they are written
// in the order in which they were read. An interrupt ends the reading; what is in
// hand is still written.
func (p *program) batch(f batchFlags) error {
	pages, err := p.newBatchPages(f)
	if err != nil {
		return err
	}
	defer debug.SetGCPercent(debug.SetGCPercent(batchGCPercent))
	defer debug.SetMemoryLimit(debug.SetMemoryLimit(min(batchMemory, debug.SetMemoryLimit(-1))))
	if in, ok := p.stdin.(*os.File); ok && term.IsTerminal(int(in.Fd())) {
		p.tell("batch.waiting", "csv", f.csv)
	}
	counted := &countingReader{r: p.stdin}
	source, err := rosterOf(counted, f.csv)
	if err != nil {
		return wrongAnswers(err)
	}
	solver := &batchSolver{p: p, years: map[int]*yearTables{}, sheet: source.Sheet, pages: pages}
	out := bufio.NewWriterSize(p.stdout, 1<<16)
	solver.view = p.jsonLine
	if f.csv && !f.asJSON {
		solver.view, solver.failure = p.sheetLine(source.Sheet), p.sheetFailure(source.Sheet)
		if f.from <= 1 { // what goes on after a stop is appended to what is there
			out.Write(sheetHead(source.Sheet))
		}
	} else {
		solver.failure = p.jsonFailure(source.Sheet)
	}

	interrupted := make(chan os.Signal, 1)
	signal.Notify(interrupted, os.Interrupt, syscall.SIGTERM)
	defer signal.Stop(interrupted)
	line := newLine(source, f.from, solver)
	defer line.stop()

	progress := newProgress(p.stderr, p.language, counted)
	last, failed := 0, 0
	for {
		r, more := line.next(interrupted)
		if !more {
			break
		}
		if err := pages.write(r); err != nil {
			if other := new(errOtherYear); errors.As(err, other) {
				return other.error
			}
			r = solver.failed(r.number, r.id, err)
		}
		pages.note(r)
		last = r.number
		if r.mistake != "" {
			failed++
		}
		_, err := out.Write(append(r.line, '\n'))
		if err == nil && line.idle() {
			err = out.Flush() // nothing waits: let a reader at the other end go on
		}
		if err != nil {
			return systemFailed(err)
		}
		progress.step(failed)
	}
	progress.done()
	if err := errors.Join(line.err(), out.Flush()); err != nil {
		return systemFailed(err)
	}
	if err := pages.summary(); err != nil {
		return err
	}
	switch {
	case line.interrupted:
		p.tell("batch.stopped", "row", last, "next", last+1)
		return silentError{exitAnswers}
	case failed > 0:
		return silentError{exitAnswers}
	}
	return nil
}

// rosterOf is the roster that comes on standard input.
func rosterOf(r io.Reader, csv bool) (*roster.Source, error) {
	if !csv {
		return roster.Households(r), nil
	}
	source, err := roster.Spreadsheet(r)
	if err != nil {
		return nil, err
	}
	return source, unknownColumns(source.Sheet)
}

// batchLine is the way from the reader over the workers back into order.
type batchLine struct {
	order       chan chan batchResult
	ended       chan struct{} // closed when nothing more is wanted
	readErr     chan error
	interrupted bool
}

func newLine(source *roster.Source, from int, solver *batchSolver) *batchLine {
	workers := runtime.GOMAXPROCS(0)
	work := make(chan batchJob, workers)
	l := &batchLine{order: make(chan chan batchResult, 16*workers), ended: make(chan struct{}), readErr: make(chan error, 1)}
	go func() {
		defer close(l.order)
		defer close(work)
		for {
			row, err := source.Next()
			if err != nil {
				if err != io.EOF {
					l.readErr <- err
				}
				return
			}
			if row.Number < from {
				continue
			}
			j := batchJob{row, make(chan batchResult, 1)}
			select {
			case l.order <- j.result:
			case <-l.ended:
				return
			}
			work <- j
		}
	}()
	for range workers {
		go func() {
			for j := range work {
				j.result <- solver.solve(j.Row)
			}
		}()
	}
	return l
}

// next is the next result in order; none after the last one, or after an
// interrupt when nothing is in hand.
func (l *batchLine) next(interrupt <-chan os.Signal) (batchResult, bool) {
	if !l.interrupted {
		select {
		case result, ok := <-l.order:
			if !ok {
				return batchResult{}, false
			}
			return <-result, true
		case <-interrupt:
			l.interrupted = true
			l.stop()
		}
	}
	select {
	case result, ok := <-l.order:
		if ok {
			return <-result, true
		}
	default:
	}
	return batchResult{}, false
}

// idle reports whether no result waits to be written.
func (l *batchLine) idle() bool { return len(l.order) == 0 }

// stop ends the reading.
func (l *batchLine) stop() {
	select {
	case <-l.ended:
	default:
		close(l.ended)
	}
}

// err is what went wrong with the reading.
func (l *batchLine) err() error {
	select {
	case err := <-l.readErr:
		return err
	default:
		return nil
	}
}
