// Package internal_test holds the package map of DEVELOPERS.md as policy.
package internal_test

import (
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"regexp"
	"slices"
	"strconv"
	"strings"
	"testing"
)

const module = "example.com/plumbline"

// mayImport is what each place may import besides the standard library: our
// own packages by their last name, modules of others by their path. Widening a
// row is a design change: argue it in review, and give the reason in
// docs/decisions.
var mayImport = map[string]string{
	"taxtables":             "",
	"internal/money":        "github.com/shopspring/decimal",
	"internal/words":        "money gopkg.in/yaml.v3",
	"internal/layout":       "github.com/charmbracelet/x/ansi",
	"internal/household":    "money words bankdays",
	"internal/bankdays":     "yamldoc taxtables",
	"internal/worksheet":    "money words",
	"internal/yamldoc":      "words layout gopkg.in/yaml.v3",
	"internal/tables":       "money words household yamldoc bankdays",
	"internal/tax":          "money words household worksheet tables",
	"internal/payroll":      "money words household worksheet tables",
	"internal/certificate":  "money words household worksheet tables tax payroll paystub",
	"internal/paystub":      "money words household tables payroll",
	"internal/scenario":     "money words household certificate",
	"internal/sample":       "money words household yamldoc tables payroll taxtables",
	"internal/published":    "",
	"internal/store":        "money words household yamldoc filippo.io/age github.com/google/renameio/v2 golang.org/x/sys",
	"internal/interview":    "money words household worksheet tables tax certificate paystub scenario yamldoc",
	"internal/report":       "money words household worksheet tables tax payroll certificate paystub scenario layout codeberg.org/go-pdf/fpdf github.com/go-fonts/liberation golang.org/x/image golang.org/x/text",
	"internal/roster":       "words",
	"internal/officialform": "words yamldoc taxtables github.com/pdfcpu/pdfcpu golang.org/x/text",
	"internal/backdrop":     "github.com/charmbracelet/lipgloss",
	"internal/terminal":     "words layout backdrop interview report github.com/charmbracelet/huh github.com/charmbracelet/lipgloss github.com/charmbracelet/bubbletea github.com/charmbracelet/bubbles github.com/charmbracelet/x/ansi golang.org/x/term github.com/muesli/termenv",
	"cmd/plumbline":         "taxtables money words layout household worksheet yamldoc tables tax payroll certificate paystub scenario store interview report officialform roster backdrop terminal github.com/charmbracelet/bubbles github.com/spf13/cobra github.com/spf13/pflag golang.org/x/sys golang.org/x/term",
}

// testsMayImport are the modules that tests alone may use. A test may import
// any package of ours; the compiler sees to it that none goes round in a circle.
var testsMayImport = []string{
	"pgregory.net/rapid",
	"github.com/google/go-cmp",
	"github.com/rogpeppe/go-internal",
	"github.com/creack/pty",
	"github.com/charmbracelet/x/vt",
	"github.com/charmbracelet/x/ansi",
	"github.com/pdfcpu/pdfcpu",              // reads our own pages back
	"github.com/santhosh-tekuri/jsonschema", // an outside opinion on the schema
	"gopkg.in/yaml.v3",                      // and on what our reader reads
}

// forbidden are the packages of the standard library that reach a network, or
// that would let a figure of money be anything but exact and repeatable.
var forbidden = []string{"net", "net/http", "net/rpc", "net/smtp", "net/mail", "net/textproto", "crypto/tls", "plugin", "unsafe", "log", "log/slog"}

func TestEachPackageImportsOnlyWhatTheMapAllows(t *testing.T) {
	seen := map[string]bool{}
	for file, imports := range importsOfProject(t) {
		place := path.Dir(file)
		isTest := strings.HasSuffix(file, "_test.go")
		row, known := mayImport[place]
		if !known && !(isTest && place == "internal") {
			t.Errorf("%s: the package map has no row for %s", file, place)
			continue
		}
		seen[place] = true
		for _, imported := range imports {
			if reason := refusedImport(strings.Fields(row), imported, isTest); reason != "" {
				t.Errorf("%s imports %s: %s", file, imported, reason)
			}
		}
	}
	for place := range mayImport {
		if !seen[place] {
			t.Errorf("the package map has a row for %s, and no such package", place)
		}
	}
}

// refusedImport is why a file may not import a package; empty when it may.
func refusedImport(row []string, imported string, isTest bool) string {
	if ours, ok := strings.CutPrefix(imported, module+"/"); ok {
		if isTest || slices.Contains(row, path.Base(ours)) {
			return ""
		}
		return "its row of the package map does not name it"
	}
	if first, _, _ := strings.Cut(imported, "/"); !strings.Contains(first, ".") {
		if !isTest && slices.Contains(forbidden, imported) {
			return "nothing of ours reaches a network, writes a log or goes round the type system"
		}
		return ""
	}
	allowed := row
	if isTest {
		allowed = append(slices.Clone(row), testsMayImport...)
	}
	for _, m := range allowed {
		if imported == m || strings.HasPrefix(imported, m+"/") {
			return ""
		}
	}
	return "its row of the package map does not name that module"
}

func TestImportPolicyRefuses(t *testing.T) {
	tests := []struct {
		place, imported string
		isTest          bool
		refused         bool
	}{
		{"internal/tax", module + "/internal/payroll", false, true},
		{"internal/tax", module + "/internal/tables", false, false},
		{"internal/household", module + "/internal/tables", true, false},
		{"internal/money", "github.com/shopspring/decimal", false, false},
		{"internal/tax", "github.com/shopspring/decimal", false, true},
		{"internal/store", "gopkg.in/yaml.v3", false, true},
		{"internal/tax", "pgregory.net/rapid", false, true},
		{"internal/tax", "pgregory.net/rapid", true, false},
		{"cmd/plumbline", "net/http", false, true},
		{"cmd/plumbline", "net", false, true},
		{"internal/store", "golang.org/x/sys/unix", false, false},
		{"internal/store", "golang.org/x/system", false, true},
	}
	for _, tt := range tests {
		reason := refusedImport(strings.Fields(mayImport[tt.place]), tt.imported, tt.isTest)
		if (reason != "") != tt.refused {
			t.Errorf("%s imports %s (test file: %v): refused with %q, want refused: %v", tt.place, tt.imported, tt.isTest, reason, tt.refused)
		}
	}
}

// importsOfProject are the imports of every Go file of the project, whatever
// system it is built for, by the file's path from the top.
func importsOfProject(t *testing.T) map[string][]string {
	t.Helper()
	const top = ".."
	all := map[string][]string{}
	for _, tree := range []string{"cmd", "internal", "taxtables"} {
		err := filepath.WalkDir(filepath.Join(top, tree), func(name string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() || !strings.HasSuffix(name, ".go") {
				if d != nil && d.IsDir() && d.Name() == "testdata" {
					return filepath.SkipDir
				}
				return err
			}
			f, err := parser.ParseFile(token.NewFileSet(), name, nil, parser.ImportsOnly)
			if err != nil {
				return err
			}
			rel, err := filepath.Rel(top, name)
			if err != nil {
				return err
			}
			imports := make([]string, len(f.Imports))
			for i, spec := range f.Imports {
				if imports[i], err = strconv.Unquote(spec.Path.Value); err != nil {
					return err
				}
			}
			all[filepath.ToSlash(rel)] = imports
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return all
}

// TestDevelopersTableIsThePolicy holds the table that people read against the
// one above.
func TestDevelopersTableIsThePolicy(t *testing.T) {
	text, err := os.ReadFile("../DEVELOPERS.md")
	if err != nil {
		t.Fatal(err)
	}
	written := map[string]string{}
	for _, m := range regexp.MustCompile("(?m)^\\| `((?:cmd|internal|taxtables)[a-z/]*)` \\| .* \\| (.*) \\|$").FindAllStringSubmatch(string(text), -1) {
		written[m[1]] = strings.ReplaceAll(strings.TrimSuffix(m[2], "nothing"), "`", "")
	}
	for place, row := range mayImport {
		if got, ok := written[place]; !ok || got != row {
			t.Errorf("DEVELOPERS.md says that %s may import %q, and the policy %q", place, got, row)
		}
	}
	for place := range written {
		if _, ok := mayImport[place]; !ok {
			t.Errorf("DEVELOPERS.md has a row for %s, which the policy does not know", place)
		}
	}
}
