package words

import (
	"embed"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"
	"sync"

	"gopkg.in/yaml.v3"

	"example.com/plumbline/internal/money"
)

//go:embed *.yaml
var files embed.FS

// Language is the words of one language. It is read section by section, each
// when its first entry is wanted, since most commands need few of them. It may
// be used by several goroutines.
type Language struct {
	tag      string // "en"
	sections map[string]*section

	typingOnce sync.Once
	typing     *typing
}

// section is the entries below one key of the file's top level. They are read when
// one is first wanted: taken apart from text, or another section's put through change.
type section struct {
	text    string // YAML
	of      *section
	change  func(string) string // of a section's every literal
	once    sync.Once
	entries map[string]message
	err     error
}

// English is the language that every entry is first written in.
var English = sync.OnceValue(func() *Language {
	l, ok := In("en")
	if !ok {
		panic("words: en.yaml is not in the program")
	}
	return l
})

// In is the language of a tag ("en"), and whether the program has it.
func In(tag string) (*Language, bool) {
	text, err := files.ReadFile(tag + ".yaml")
	if err != nil {
		return nil, false
	}
	return Read(tag, string(text)), true
}

// All are the languages that the program has.
func All() []*Language {
	all := []*Language{English()}
	for _, tag := range Tags() {
		if l, ok := In(tag); ok && tag != English().tag {
			all = append(all, l)
		}
	}
	return all
}

// Name is what the language calls itself.
func (l *Language) Name() string { return l.Say(T("language.name")) }

// Tags are the languages that the program has.
func Tags() []string {
	names, _ := files.ReadDir(".")
	var tags []string
	for _, n := range names {
		tags = append(tags, strings.TrimSuffix(n.Name(), ".yaml"))
	}
	return tags
}

// OfLocale is the language of a locale, such as es_US.UTF-8 or en, and whether
// the program has it.
func OfLocale(locale string) (*Language, bool) {
	tag := strings.ToLower(locale)
	if end := strings.IndexAny(tag, "_-.@"); end >= 0 {
		tag = tag[:end]
	}
	if tag == "en" {
		return English(), true
	}
	return In(tag)
}

// OfEnvironment is the language that the first of LC_ALL, LC_MESSAGES and LANG
// names which is set; English where the program does not have it.
func OfEnvironment(getenv func(string) string) *Language {
	for _, name := range []string{"LC_ALL", "LC_MESSAGES", "LANG"} {
		if locale := getenv(name); locale != "" {
			if l, ok := OfLocale(locale); ok {
				return l
			}
			break
		}
	}
	return English()
}

// Read is a language from the text of its file. What is wrong with the file is
// said by Check, and shows as codes in place of sentences.
func Read(tag, text string) *Language {
	l := &Language{tag: tag, sections: map[string]*section{}}
	name, from, at := "", 0, 0
	for line := range strings.Lines(text) {
		if next, ok := sectionStart(line); ok {
			if name != "" {
				l.sections[name] = &section{text: text[from:at]}
			}
			name, from = next, at
		}
		at += len(line)
	}
	if name != "" {
		l.sections[name] = &section{text: text[from:]}
	}
	return l
}

// sectionStart is the key of the file's top level that a line is.
func sectionStart(line string) (name string, ok bool) {
	if c := line[0]; c != '_' && (c < 'a' || c > 'z') {
		return "", false // most lines, which are further in
	}
	name, ok = strings.CutSuffix(strings.TrimRight(line, " \t\r\n"), ":")
	return name, ok && strings.Trim(name, "abcdefghijklmnopqrstuvwxyz_") == ""
}

// Tag is the language's name: "en".
func (l *Language) Tag() string { return l.tag }

// Mapped is the language with every literal piece of its entries put through f:
// an invented language, to find what is not in the file.
func (l *Language) Mapped(tag string, f func(string) string) *Language {
	mapped := &Language{tag: tag, sections: map[string]*section{}}
	for name, s := range l.sections {
		mapped.sections[name] = &section{of: s, change: f}
	}
	return mapped
}

// Say words a text. A code that the language does not have is shown itself, in
// brackets: a test finds it, and a person can still report it.
func (l *Language) Say(t Text) string {
	if t.IsZero() {
		return ""
	}
	m, ok := l.message(t.Code)
	if !ok {
		return "[" + t.Code + "]"
	}
	if len(m) == 1 && m[0].name == "" {
		return m[0].literal
	}
	var b strings.Builder
	l.write(&b, m, t, "")
	return b.String()
}

// Has reports whether the language has an entry of the code.
func (l *Language) Has(code string) bool {
	_, ok := l.message(code)
	return ok
}

// Error words an error: one that Of knows, or what the system often says of a
// file, in this language; any other as it says itself.
func (l *Language) Error(err error) string {
	switch t := Of(err); {
	case !t.IsZero():
		return l.Say(t)
	case errors.Is(err, fs.ErrNotExist):
		return l.Say(T("command.no_such_file"))
	case errors.Is(err, fs.ErrPermission):
		return l.Say(T("command.no_permission"))
	case errors.Is(err, fs.ErrExist):
		return l.Say(T("command.there_already"))
	}
	return err.Error()
}

// Of is what an error says, wherever it is wrapped in others: a Problem, or a
// text that is no amount. The zero Text where neither is in it.
func Of(err error) Text {
	var p Problem
	var fault *money.Fault
	switch {
	case errors.As(err, &p):
		return p.Text
	case errors.As(err, &fault):
		return T("answers.amount."+fault.Code, "text", fault.Text)
	}
	return Text{}
}

func (l *Language) message(code string) (message, bool) {
	name, rest, _ := strings.Cut(code, ".")
	s := l.sections[name]
	if s == nil {
		return nil, false
	}
	m, ok := s.read()[rest]
	return m, ok
}

// read is the section's entries, by the rest of their codes.
func (s *section) read() map[string]message {
	s.once.Do(func() {
		s.entries = map[string]message{}
		if s.of != nil {
			for code, m := range s.of.read() {
				s.entries[code] = m.mapped(s.change)
			}
			s.err = s.of.err
			return
		}
		var top yaml.Node
		if err := yaml.Unmarshal([]byte(s.text), &top); err != nil {
			s.err = err
			return
		}
		s.err = s.add("", top.Content[0].Content[1])
	})
	return s.entries
}

// add puts the entries below a node into the section, by the keys that lead to
// them.
func (s *section) add(code string, n *yaml.Node) error {
	switch n.Kind {
	case yaml.MappingNode:
		var mistakes []error
		for i := 0; i < len(n.Content); i += 2 {
			key := n.Content[i].Value
			if code != "" {
				key = code + "." + key
			}
			mistakes = append(mistakes, s.add(key, n.Content[i+1]))
		}
		return errors.Join(mistakes...)
	case yaml.ScalarNode:
		if _, twice := s.entries[code]; twice {
			return fmt.Errorf("%s is there twice", code)
		}
		m, err := parse(n.Value)
		s.entries[code] = m
		return err
	}
	return fmt.Errorf("%s: an entry is a text", code)
}

// Codes are the codes of the language, sorted, and what is wrong with its file.
func (l *Language) Codes() ([]string, error) {
	var codes []string
	var mistakes []error
	for name, s := range l.sections {
		for rest := range s.read() {
			codes = append(codes, name+"."+rest)
		}
		if s.err != nil {
			mistakes = append(mistakes, fmt.Errorf("%s: %w", name, s.err))
		}
	}
	slices.Sort(codes)
	return codes, errors.Join(mistakes...)
}

// Places are the names of the values that an entry takes, sorted.
func (l *Language) Places(code string) []string {
	m, _ := l.message(code)
	var names []string
	m.places(func(p piece) { names = append(names, p.name) })
	slices.Sort(names)
	return slices.Compact(names)
}

// Forms are how an entry takes its values, sorted: "pay:dollars" for a value in a
// format, "kind, select, pension" and "n, plural" for what it chooses by.
// Capitals are left out, since a place at the head of a sentence has them.
func (l *Language) Forms(code string) []string {
	m, _ := l.message(code)
	var forms []string
	m.places(func(p piece) {
		for _, f := range p.formats {
			if f != "capital" {
				forms = append(forms, p.name+":"+f)
			}
		}
		if p.choice == "plural" {
			forms = append(forms, p.name+", plural")
		}
		for _, c := range p.cases {
			if p.choice == "select" {
				forms = append(forms, p.name+", select, "+c.when)
			}
		}
	})
	slices.Sort(forms)
	return slices.Compact(forms)
}
