//go:build unix

package main

import (
	"bytes"
	"fmt"
	"io"
	"os"
	"strings"
	"syscall"
	"testing"
)

// TestBatchInterrupted: an interrupt ends the reading. What is in hand is
// written, and the person learns how to go on.
func TestBatchInterrupted(t *testing.T) {
	lines := demoLines(t)
	in, feed := io.Pipe()
	defer feed.Close()
	out := &sizedBuffer{wrote: make(chan struct{}, 1)}
	var errs bytes.Buffer
	done := make(chan int)
	go func() { done <- run([]string{"batch"}, in, out, &errs) }()
	fmt.Fprintln(feed, lines[0])
	<-out.wrote
	if err := syscall.Kill(os.Getpid(), syscall.SIGINT); err != nil {
		t.Fatal(err)
	}
	if status := <-done; status != exitAnswers {
		t.Errorf("exit status %d, want %d", status, exitAnswers)
	}
	if want := "--from 2"; !strings.Contains(errs.String(), want) {
		t.Errorf("standard error is %q, want %q in it", &errs, want)
	}
	if !strings.HasPrefix(out.String(), `{"line":1,`) || strings.Count(out.String(), "\n") != 1 {
		t.Errorf("standard output is %.200q, want one result", out.String())
	}
}

// sizedBuffer tells of its first write.
type sizedBuffer struct {
	bytes.Buffer
	wrote chan struct{}
}

func (s *sizedBuffer) Write(p []byte) (int, error) {
	n, err := s.Buffer.Write(p)
	select {
	case s.wrote <- struct{}{}:
	default:
	}
	return n, err
}
