package words_test

import (
	"fmt"
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

// TestEveryLanguageHasTheSameEntries compares each language with English: the
// same codes, each with the same values in the same formats. Where English
// chooses by a value, the other language does, by the same cases; where English
// needs no choice, another language may.
func TestEveryLanguageHasTheSameEntries(t *testing.T) {
	for _, tag := range words.Tags() {
		l, _ := words.In(tag)
		if _, err := l.Codes(); err != nil {
			t.Errorf("%s.yaml: %v", tag, err)
		}
		for _, mistake := range unlikeEnglish(l) {
			t.Errorf("%s.yaml: %s", tag, mistake)
		}
	}
}

// ownEntries are the entries of a language alone: what people type in it.
const ownEntries = "language."

func unlikeEnglish(l *words.Language) (mistakes []string) {
	english := words.English()
	want, _ := english.Codes()
	codes, _ := l.Codes()
	for _, code := range codes {
		if !english.Has(code) {
			mistakes = append(mistakes, code+" is not in en.yaml")
		}
	}
	for _, code := range want {
		switch theirs, ours := l.Places(code), english.Places(code); {
		case !l.Has(code):
			mistakes = append(mistakes, code+" is missing")
		case strings.HasPrefix(code, ownEntries):
		case !slices.Equal(theirs, ours):
			mistakes = append(mistakes, fmt.Sprintf("%s has places %v, en.yaml has %v", code, theirs, ours))
		default:
			mistakes = append(mistakes, otherForms(code, l.Forms(code), english.Forms(code))...)
		}
	}
	return mistakes
}

// otherForms are the forms that one of two entries has and the other has not.
func otherForms(code string, theirs, ours []string) (mistakes []string) {
	for _, form := range ours {
		if !slices.Contains(theirs, form) {
			mistakes = append(mistakes, fmt.Sprintf("%s lacks {%s}, which en.yaml has", code, form))
		}
	}
	for _, form := range theirs {
		name, choice := form, false
		if i := strings.Index(form, ", "); i >= 0 {
			name, choice = form[:i], true
		}
		chosen := slices.ContainsFunc(ours, func(f string) bool { return strings.HasPrefix(f, name+", ") })
		if !slices.Contains(ours, form) && (chosen || !choice) {
			mistakes = append(mistakes, fmt.Sprintf("%s has {%s}, which en.yaml has not", code, form))
		}
	}
	return mistakes
}

func TestUnlikeEnglish(t *testing.T) {
	for _, tt := range []struct {
		theirs, ours []string
		want         int
	}{
		{[]string{"a:dollars", "k, select, b", "k, select, other"}, []string{"a:dollars", "k, select, b", "k, select, other"}, 0},
		{nil, []string{"a:dollars"}, 1},
		{[]string{"a:cents"}, []string{"a:dollars"}, 2},
		{[]string{"k, select, c"}, []string{"k, select, b"}, 2},
		{nil, []string{"n, plural"}, 1},
		{[]string{"n, plural"}, nil, 0},
		{[]string{"k, select, b"}, nil, 0},
	} {
		if got := otherForms("x", tt.theirs, tt.ours); len(got) != tt.want {
			t.Errorf("%v beside %v: %q, want %d mistakes", tt.theirs, tt.ours, got, tt.want)
		}
	}
	missing := unlikeEnglish(words.Read("xx", "language:\n  name: x\n  more: x\n"))
	if !slices.Contains(missing, "language.more is not in en.yaml") || !slices.Contains(missing, "batch.row is missing") {
		t.Errorf("a language of one entry: %q", missing[:2])
	}
}
