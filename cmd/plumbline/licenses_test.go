package main

import (
	"bytes"
	"cmp"
	"flag"
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"
)

// licenseFile is the name of a file that says under what terms code may be
// passed on.
var licenseFile = regexp.MustCompile(`(?i)^(licen[cs]e|copying|notice|patents)([-.].*)?$`)

// licensedByReadme are modules that name their license in their README alone.
var licensedByReadme = map[string]string{
	"github.com/mattn/go-localereader": "MIT license, as the module's README says. Copyright Yasuhiro Matsumoto (mattn)",
}

// TestLicenses checks that licenses.txt has the license and the notices of every
// module that is linked into the program, on any system that it is released for;
// -update writes it, from what the Go tool says is linked and from the modules'
// own files.
func TestLicenses(t *testing.T) {
	dirs := map[string]map[string]bool{} // of packages, by module and version
	for _, system := range []string{"linux", "darwin", "windows"} {
		list := exec.Command("go", "list", "-deps", "-f", "{{with .Module}}{{if not .Main}}{{.Path}} {{.Version}}\t{{.Dir}}\t{{$.Dir}}{{end}}{{end}}", ".")
		list.Env = append(os.Environ(), "GOOS="+system, "CGO_ENABLED=0")
		out, err := list.Output()
		if err != nil {
			t.Fatal(err)
		}
		for line := range strings.Lines(string(out)) {
			if f := strings.Split(strings.TrimSpace(line), "\t"); len(f) == 3 {
				if dirs[f[0]] == nil {
					dirs[f[0]] = map[string]bool{}
				}
				dirs[f[0]][f[1]], dirs[f[0]][f[2]] = true, true
			}
		}
	}
	listed, err := os.ReadFile("../../docs/modules.md")
	if err != nil {
		t.Fatal(err)
	}
	for module := range dirs {
		if row := "| " + strings.Replace(module, " ", " | ", 1) + " |"; !bytes.Contains(listed, []byte(row)) {
			t.Errorf("docs/modules.md does not list %s", module)
		}
	}
	goroot, err := exec.Command("go", "env", "GOROOT").Output()
	if err != nil {
		t.Fatal(err)
	}
	dirs["Go's standard library"] = map[string]bool{strings.TrimSpace(string(goroot)): true}

	want := licensesText(t, dirs)
	if flag.Lookup("update").Value.String() == "true" {
		if err := os.WriteFile("licenses.txt", want, 0o644); err != nil {
			t.Fatal(err)
		}
		return
	}
	if licenses != string(want) {
		t.Error("licenses.txt does not have the licenses of what is linked; rewrite it with: go test ./cmd/plumbline -run TestLicenses -update")
	}
}

// licensesText is the texts of the modules' licenses, each text once, with the
// modules that it is the license of.
func licensesText(t *testing.T, dirs map[string]map[string]bool) []byte {
	modules := map[string][]string{} // by text
	for module, in := range dirs {
		found := false
		if in := licensedByReadme[strings.Fields(module)[0]]; in != "" {
			modules[in] = append(modules[in], module)
			found = true
		}
		for dir := range in {
			files, err := os.ReadDir(dir)
			if err != nil {
				t.Fatal(err)
			}
			for _, f := range files {
				if f.IsDir() || !licenseFile.MatchString(f.Name()) || strings.HasSuffix(f.Name(), ".go") {
					continue
				}
				text, err := os.ReadFile(filepath.Join(dir, f.Name()))
				if err != nil {
					t.Fatal(err)
				}
				found = true
				text = bytes.TrimSpace(bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n")))
				modules[string(text)] = append(modules[string(text)], module)
			}
		}
		if !found {
			t.Errorf("%s has no license", module)
		}
	}
	var texts []string
	for text, of := range modules {
		slices.Sort(of)
		modules[text] = slices.Compact(of)
		texts = append(texts, text)
	}
	slices.SortFunc(texts, func(a, b string) int {
		return cmp.Or(cmp.Compare(modules[a][0], modules[b][0]), cmp.Compare(a, b))
	})
	var b bytes.Buffer
	b.WriteString("Plumbline is linked with the modules below. These are their licenses and notices,\neach text once, after the modules that it is of.\n")
	for _, text := range texts {
		fmt.Fprintf(&b, "\n%s\n%s\n%s\n\n%s\n", strings.Repeat("=", 72), strings.Join(modules[text], "\n"), strings.Repeat("=", 72), text)
	}
	return b.Bytes()
}
