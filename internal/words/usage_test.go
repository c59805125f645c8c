package words_test

import (
	"go/ast"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"

	"example.com/plumbline/internal/words"
)

// takesCode are the functions that take a code and then names and values, each
// with what it puts before the code.
var takesCode = map[string]string{
	"words.T":    "",
	"words.Fail": "",
	"say":        "",
	"how":        "how.",
	"note":       "note.",
}

// use is a place in the program that names a code.
type use struct {
	at    string
	code  string
	names []string
	open  bool // the names could not be read off the call
}

// literals are the string literals of the program, tests aside, and uses the
// calls that take a code.
func program(t *testing.T) (literals map[string]bool, uses []use) {
	literals = map[string]bool{}
	files := token.NewFileSet()
	for _, root := range []string{"../../internal", "../../cmd"} {
		err := filepath.WalkDir(root, func(path string, d fs.DirEntry, err error) error {
			if err != nil || d.IsDir() {
				return err
			}
			if strings.HasSuffix(path, ".yaml") && !strings.Contains(path, "testdata") && filepath.Base(filepath.Dir(path)) != "words" {
				return keysOf(path, literals)
			}
			if !strings.HasSuffix(path, ".go") || strings.HasSuffix(path, "_test.go") {
				return nil
			}
			file, err := parser.ParseFile(files, path, nil, parser.SkipObjectResolution)
			if err != nil {
				return err
			}
			ast.Inspect(file, func(n ast.Node) bool {
				switch n := n.(type) {
				case *ast.BasicLit:
					if s, ok := stringOf(n); ok {
						literals[s] = true
					}
				case *ast.CallExpr:
					if u, ok := useOf(n); ok {
						u.at = files.Position(n.Pos()).String()
						uses = append(uses, u)
					}
				}
				return true
			})
			return nil
		})
		if err != nil {
			t.Fatal(err)
		}
	}
	return literals, uses
}

// keysOf adds the words of a data file to the literals: a question's key there
// leads to its words here.
func keysOf(path string, literals map[string]bool) error {
	text, err := os.ReadFile(path)
	for _, w := range strings.FieldsFunc(string(text), func(r rune) bool { return strings.ContainsRune(" \n\t,{}:\"'", r) }) {
		literals[w] = true
	}
	return err
}

func stringOf(e ast.Expr) (string, bool) {
	lit, ok := e.(*ast.BasicLit)
	if !ok || lit.Kind != token.STRING {
		return "", false
	}
	s, err := strconv.Unquote(lit.Value)
	return s, err == nil
}

func useOf(call *ast.CallExpr) (use, bool) {
	name := ""
	switch f := call.Fun.(type) {
	case *ast.SelectorExpr:
		name = f.Sel.Name
		if x, ok := f.X.(*ast.Ident); ok && x.Name == "words" {
			name = "words." + name
		}
	case *ast.Ident:
		name = f.Name
	}
	before, ok := takesCode[name]
	if !ok || len(call.Args) == 0 {
		return use{}, false
	}
	code, ok := stringOf(call.Args[0])
	if !ok {
		return use{}, false
	}
	u := use{code: before + code, open: call.Ellipsis.IsValid()}
	for i := 1; i < len(call.Args); i += 2 {
		name, ok := stringOf(call.Args[i])
		if !ok {
			u.open = true
			continue
		}
		u.names = append(u.names, name)
	}
	slices.Sort(u.names)
	return u, true
}

func TestEveryCodeUsedIsInTheFileWithItsValues(t *testing.T) {
	l := words.English()
	if _, err := l.Codes(); err != nil {
		t.Fatal(err)
	}
	_, uses := program(t)
	for _, u := range uses {
		if !l.Has(u.code) {
			t.Errorf("%s: en.yaml has no entry %s", u.at, u.code)
			continue
		}
		for _, name := range l.Places(u.code) {
			if !u.open && !slices.Contains(u.names, name) {
				t.Errorf("%s: %s has a place {%s}, and no value is given for it", u.at, u.code, name)
			}
		}
	}
}

// TestEveryEntryIsUsed finds entries that nothing says. A code is used when the
// program has it, or a beginning or an end of it that is put together with the
// rest where it is said: "month." or ".text".
func TestEveryEntryIsUsed(t *testing.T) {
	literals, _ := program(t)
	codes, err := words.English().Codes()
	if err != nil {
		t.Fatal(err)
	}
	for _, code := range codes {
		if !used(code, literals) {
			t.Errorf("%s: nothing says it", code)
		}
	}
}

func used(code string, literals map[string]bool) bool {
	parts := strings.Split(code, ".")
	for i := range parts {
		// The code itself or its end, as a function that puts the section
		// before it takes it; a beginning ending in a dot.
		if literals[strings.Join(parts[i:], ".")] && (i < 2 || literals["."+parts[len(parts)-1]]) {
			return true
		}
		if i > 0 && literals[strings.Join(parts[:i], ".")+"."] {
			return true
		}
	}
	return parts[0] == "language"
}

func TestEveryLanguageHasTheSameCodesAndValues(t *testing.T) {
	want, _ := words.English().Codes()
	for _, tag := range words.Tags() {
		l, _ := words.In(tag)
		codes, err := l.Codes()
		if err != nil {
			t.Errorf("%s.yaml: %v", tag, err)
		}
		for _, code := range codes {
			if !words.English().Has(code) {
				t.Errorf("%s.yaml: %s is not in en.yaml", tag, code)
			}
		}
		for _, code := range want {
			switch {
			case !l.Has(code):
				t.Errorf("%s.yaml: %s is missing", tag, code)
			case !slices.Equal(l.Places(code), words.English().Places(code)):
				t.Errorf("%s.yaml: %s has places %v, en.yaml has %v", tag, code, l.Places(code), words.English().Places(code))
			}
		}
	}
}
