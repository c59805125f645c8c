//go:build unix

package store

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math/rand/v2"
	"net"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"strconv"
	"strings"
	"sync/atomic"
	"syscall"
	"testing"
	"time"

	"golang.org/x/sys/unix"

	"example.com/plumbline/internal/sample"
)

// task, when set in the environment, has the test binary do one of tasks on
// the path that follows instead of running tests: what would be in the way of
// the tests must happen in a process of its own.
const task = "PLUMBLINE_STORE_TASK"

var tasks = map[string]func(path string) error{
	"save without end": saveWithoutEnd,
	"save once":        func(path string) error { return saveOnce(path, "2") },
	"save on a disk that takes 4096 bytes": func(path string) error {
		signal.Ignore(syscall.SIGXFSZ)
		limit := unix.Rlimit{Cur: 4096, Max: 4096}
		if err := unix.Setrlimit(unix.RLIMIT_FSIZE, &limit); err != nil {
			return err
		}
		return saveOnce(path, strings.Repeat("x", 8000))
	},
	"read":   func(path string) error { return second(ReadFile(path, nil)) },
	"forget": func(path string) error { return second(Forget(path)) },
}

func TestMain(m *testing.M) {
	if name := os.Getenv(task); name != "" {
		if err := tasks[name](os.Args[1]); err != nil {
			fmt.Println(err)
		}
		return
	}
	sample.CollectLess()
	os.Exit(m.Run())
}

// doing is the test binary set to do a task.
func doing(binary, name, path string) *exec.Cmd {
	cmd := exec.Command(binary, path)
	cmd.Env = append(os.Environ(), task+"="+name)
	return cmd
}

func saveOnce(path, text string) error {
	f, err := Open(path, Options{MakeFolder: true})
	if err != nil {
		return err
	}
	defer f.Close()
	if err := f.Document().Set("interview.note", text); err != nil {
		return err
	}
	return f.Save(f.Document())
}

// saveWithoutEnd counts up in the file, and prints each number once saved. The
// text is long enough to be written in parts.
func saveWithoutEnd(path string) error {
	f, err := Open(path, Options{})
	if err != nil {
		return err
	}
	n, _ := strconv.Atoi(first(f.Document().Get("interview.count")))
	for i := range 8 {
		if err := f.Document().Set(fmt.Sprintf("interview.filler_%d", i), strings.Repeat("y", 9000)); err != nil {
			return err
		}
	}
	for {
		n++
		if err := f.Document().Set("interview.count", strconv.Itoa(n)); err != nil {
			return err
		}
		if err := f.Save(f.Document()); err != nil {
			return err
		}
		fmt.Println(n)
	}
}

func first[T any](v T, _ bool) T { return v }

// Killed at any moment of saving, the program leaves the file as it was before
// or after, whole, and nothing beside it that the next run does not remove.
func TestKilledWhileSaving(t *testing.T) {
	const lanes = 6 // most of a run is waiting for the disk and the process
	runs := 300
	if testing.Short() {
		runs = 60
	}
	var midway atomic.Int32
	t.Run("lanes", func(t *testing.T) {
		for lane := range lanes {
			t.Run(strconv.Itoa(lane), func(t *testing.T) {
				t.Parallel()
				midway.Add(int32(killedWhileSaving(t, runs/lanes)))
			})
		}
	})
	t.Logf("%d of %d runs were killed with a file half written", midway.Load(), runs)
	if midway.Load() == 0 {
		t.Error("no run was killed while it was writing: this test tests nothing")
	}
}

// killedWhileSaving kills so many processes, one after another, that save to one
// file, and gives the number of those that left a file half written.
func killedWhileSaving(t *testing.T, runs int) (midway int) {
	dir := t.TempDir()
	path := filepath.Join(dir, "answers.yaml")
	write(t, path, head)
	count := 0
	for run := range runs {
		cmd := doing(os.Args[0], "save without end", path)
		out, err := cmd.StdoutPipe()
		if err != nil {
			t.Fatal(err)
		}
		if err := cmd.Start(); err != nil {
			t.Fatal(err)
		}
		// Killed within the time of two saves, however long one takes here.
		lines := bufio.NewReader(out)
		saved, err := lines.ReadString('\n')
		begun := time.Now()
		second, err2 := lines.ReadString('\n')
		if err := errors.Join(err, err2); err != nil {
			t.Fatalf("run %d: %v", run, err)
		}
		saved += second
		time.Sleep(time.Duration(rand.Int64N(2 * int64(time.Since(begun)))))
		if err := cmd.Process.Kill(); err != nil {
			t.Fatal(err)
		}
		rest, _ := io.ReadAll(lines)
		_ = cmd.Wait() // killed, as it says
		told := strings.Fields(saved + string(rest))
		last, err := strconv.Atoi(told[len(told)-1])
		if err != nil {
			t.Fatalf("run %d: %v", run, err)
		}
		_, doc, err := Decode(path, []byte(read(t, path)), today)
		if err != nil {
			t.Fatalf("run %d: the file is damaged: %v", run, err)
		}
		now, err := strconv.Atoi(first(doc.Get("interview.count")))
		if err != nil || now != last && now != last+1 {
			t.Fatalf("run %d: the file holds number %d after %d was saved, %v", run, now, last, err)
		}
		if now <= count {
			t.Fatalf("run %d: nothing was saved since number %d", run, count)
		}
		count = now
		if left := strings.Fields(files(t, dir)); len(left) > 3 { // the file, its lock, one being written
			t.Fatalf("run %d: files grow in number: %s", run, left)
		} else if len(left) == 3 {
			midway++
		}
	}
	opened(t, path, Options{}).Close()
	if got := files(t, dir); got != "answers.yaml" {
		t.Errorf("left after all: %s", got)
	}
	return midway
}

// The lock of a process counts for others, and goes when it is killed.
func TestInUseByAnotherProcess(t *testing.T) {
	path := filepath.Join(t.TempDir(), "answers.yaml")
	cmd := doing(os.Args[0], "save without end", path)
	out, err := cmd.StdoutPipe()
	if err != nil {
		t.Fatal(err)
	}
	if err := cmd.Start(); err != nil {
		t.Fatal(err)
	}
	if _, err := bufio.NewReader(out).ReadString('\n'); err != nil {
		t.Fatal(err)
	}
	if _, err := Open(path, Options{}); !errors.Is(err, ErrInUse) {
		t.Errorf("Open of a file that another process has open: %v", err)
	}
	if err := cmd.Process.Kill(); err != nil {
		t.Fatal(err)
	}
	_ = cmd.Wait()
	opened(t, path, Options{})
}

// said is what a task prints: its error.
func said(t *testing.T, cmd *exec.Cmd) string {
	t.Helper()
	out, err := cmd.CombinedOutput()
	if err != nil {
		t.Fatalf("%v: %s", err, out)
	}
	return strings.TrimSpace(string(out))
}

func TestDiskLimit(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "answers.yaml")
	write(t, path, head)
	got := said(t, doing(os.Args[0], "save on a disk that takes 4096 bytes", path))
	if want := path + ": cannot be saved, and is as it was before: file too large"; got != want {
		t.Errorf("said %q, want %q", got, want)
	}
	if read(t, path) != head || files(t, dir) != "answers.yaml" {
		t.Errorf("left: %s, with %q", files(t, dir), read(t, path))
	}
}

// full mounts a file system of 64 kilobytes, where that may be done.
func full(t *testing.T) string {
	dir := t.TempDir()
	if err := mountSmall(dir); err != nil {
		t.Skipf("no file system can be mounted here (TestDiskLimit stands in): %v", err)
	}
	t.Cleanup(func() {
		if err := unix.Unmount(dir, 0); err != nil {
			t.Error(err)
		}
	})
	return dir
}

func TestFullDisk(t *testing.T) {
	dir := full(t)
	path := filepath.Join(dir, "answers.yaml")
	write(t, path, head)
	filler := filepath.Join(dir, "filler")
	if err := os.WriteFile(filler, make([]byte, 1<<17), 0o600); !errors.Is(err, unix.ENOSPC) {
		t.Fatalf("the disk is not full: %v", err)
	}
	for range 2 {
		f := opened(t, path, Options{})
		set(t, f.Document(), "interview.note", strings.Repeat("x", 8000))
		err := f.Save(f.Document())
		if !errors.Is(err, unix.ENOSPC) || err.Error() != path+": cannot be saved, and is as it was before: no space left on device" {
			t.Errorf("Save on a full disk: %v", err)
		}
		f.Close()
		if read(t, path) != head || files(t, dir) != "answers.yaml filler" {
			t.Errorf("left: %s, with %q", files(t, dir), read(t, path))
		}
	}
	// Once there is room, the same File can save.
	f := opened(t, path, Options{})
	set(t, f.Document(), "interview.note", "x")
	if err := f.Save(f.Document()); err == nil {
		t.Fatal("saved on a full disk")
	}
	if err := os.Remove(filler); err != nil {
		t.Fatal(err)
	}
	save(t, f)
}

func TestReadOnlyDisk(t *testing.T) {
	dir := full(t)
	path := filepath.Join(dir, "answers.yaml")
	write(t, path, head)
	if err := remountReadOnly(dir); err != nil {
		t.Skip(err)
	}
	if _, err := Open(path, Options{}); !errors.Is(err, unix.EROFS) || err.Error() != path+": cannot be written in this folder: read-only file system" {
		t.Errorf("Open on a read-only disk: %v", err)
	}
	if data, err := ReadFile(path, nil); err != nil || string(data) != head {
		t.Errorf("ReadFile = %q, %v", data, err)
	}
}

// What permissions forbid. They do not bind root, so that the tasks are then
// done as nobody.
func TestPermissions(t *testing.T) {
	dir, err := os.MkdirTemp("", "plumbline-store")
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	binary := os.Args[0]
	as := func(cmd *exec.Cmd) *exec.Cmd { return cmd }
	if os.Geteuid() == 0 {
		const nobody = 65534
		data, err := os.ReadFile("/proc/self/exe")
		if err != nil {
			t.Skip("the test binary cannot be copied: ", err)
		}
		binary = filepath.Join(dir, "binary")
		for _, err := range []error{os.Chmod(dir, 0o755), os.WriteFile(binary, data, 0o755)} {
			if err != nil {
				t.Fatal(err)
			}
		}
		as = func(cmd *exec.Cmd) *exec.Cmd {
			cmd.SysProcAttr = &syscall.SysProcAttr{Credential: &syscall.Credential{Uid: nobody, Gid: nobody}}
			return cmd
		}
	}
	file := func(name string, mode, folder fs.FileMode) string {
		path := filepath.Join(dir, name, "answers.yaml")
		write(t, path, head)
		for _, err := range []error{os.Chmod(path, mode), os.Chmod(filepath.Dir(path), folder)} {
			if err != nil {
				t.Fatal(err)
			}
		}
		return path
	}
	unreadable := file("unreadable", 0, 0o777)
	readOnly := file("read-only", 0o666, 0o555)
	closed := file("closed", 0o666, 0)
	inClosed := filepath.Join(filepath.Dir(readOnly), "new", "answers.yaml")
	const denied = ": you do not have permission"
	for _, tt := range []struct{ task, path, want string }{
		{"read", unreadable, unreadable + ": cannot be read" + denied},
		{"save once", unreadable, unreadable + ": cannot be read" + denied},
		{"read", readOnly, ""},
		{"save once", readOnly, readOnly + ": cannot be written in this folder" + denied},
		{"forget", readOnly, readOnly + ": cannot be written in this folder" + denied},
		{"read", closed, closed + ": cannot be read" + denied},
		{"save once", closed, closed + ": cannot be found" + denied},
		{"save once", inClosed, filepath.Dir(inClosed) + ": this folder cannot be made" + denied},
	} {
		if got := said(t, as(doing(binary, tt.task, tt.path))); got != tt.want {
			t.Errorf("%s of %s says %q, want %q", tt.task, tt.path, got, tt.want)
		}
	}
	for _, err := range []error{os.Chmod(filepath.Dir(closed), 0o755), os.Chmod(unreadable, 0o644)} {
		if err != nil {
			t.Fatal(err)
		}
	}
	for _, path := range []string{unreadable, readOnly, closed} {
		if got := read(t, path); got != head {
			t.Errorf("%s was changed to %q", path, got)
		}
	}
}

// What is no file is refused without waiting for it.
func TestNotAFile(t *testing.T) {
	dir, err := os.MkdirTemp("", "s") // short: a socket's path must be
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() { os.RemoveAll(dir) })
	pipe, socket := filepath.Join(dir, "pipe"), filepath.Join(dir, "socket")
	if err := unix.Mkfifo(pipe, 0o600); err != nil {
		t.Fatal(err)
	}
	listener, err := net.Listen("unix", socket)
	if err != nil {
		t.Fatal(err)
	}
	defer listener.Close()
	refused := make(chan error)
	for path, want := range map[string]string{
		pipe:        ": is a pipe; give - for the file and send the answers to standard input",
		socket:      ": is a socket, not an answers file",
		"/dev/zero": ": is a device, not an answers file",
		"/dev/tty":  ": is a device, not an answers file",
	} {
		calls := map[string]func() error{"ReadFile": func() error { return second(ReadFile(path, nil)) }}
		if filepath.Dir(path) == dir {
			calls["Open"] = func() error { return second(Open(path, Options{})) }
			calls["Forget"] = func() error { return second(Forget(path)) }
		}
		for name, call := range calls {
			go func() { refused <- call() }()
			select {
			case err := <-refused:
				if err == nil || err.Error() != path+want {
					t.Errorf("%s: %v, want %s", name, err, path+want)
				}
			case <-time.After(10 * time.Second):
				t.Fatalf("%s waits for %s", name, path)
			}
		}
	}
	if got := files(t, dir); got != "pipe socket" {
		t.Errorf("left: %s", got)
	}
}
