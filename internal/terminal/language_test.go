package terminal

import (
	"context"
	"errors"
	"regexp"
	"strings"
	"testing"

	"github.com/charmbracelet/x/ansi"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/plumbline/internal/interview"
	"example.com/plumbline/internal/sample"
	"example.com/plumbline/internal/words"
)

// shouted is a second language: English in capitals.
var shouted = words.English().Mapped("xx", strings.ToUpper)

var invented = sample.Invented('Ж', 'ж')

// keysAndNames are what every language leaves as it is: the keys of the keyboard,
// the name that the walkers give, and the form's own word.
var keysAndNames = regexp.MustCompile(`ctrl\+[a-z]|pgup/pgdn|enter|esc|space|F1|Wren & Sons|Exempt`)

var englishWord = regexp.MustCompile(`[a-z]{2,}`)

// noEnglish finds a word of English on the screen.
func noEnglish(t *testing.T, m *model) {
	t.Helper()
	for line := range strings.SplitSeq(ansi.Strip(m.View()), "\n") {
		if found := englishWord.FindString(keysAndNames.ReplaceAllString(line, "")); found != "" {
			t.Errorf("%q on the screen: %q", found, line)
		}
	}
}

func twoLanguages(told func(*words.Language)) voice {
	return Options{Words: words.English(), Languages: []*words.Language{words.English(), shouted}, Spoke: told}.voice()
}

// The key changes the language on a page with something typed, in the review and
// at the results, there and back. What was typed stays, no answer changes, and the
// program is told.
func TestLanguageKey(t *testing.T) {
	spoken := ""
	m, _ := atStub(t, 80, 24)
	m.voice = twoLanguages(func(l *words.Language) { spoken = l.Tag() })
	m.refresh()
	before := string(m.sitting.Session.Document().Bytes())
	press(m, "1", "2")
	typed, key := m.field.text, m.field.question.Key
	question, loud := m.field.question.Text, ""
	change := func() { m.Update(tea.KeyMsg{Type: tea.KeyCtrlL}) }
	change()
	if loud = m.field.question.Text; loud != strings.ToUpper(question) || spoken != "xx" {
		t.Errorf("after the key the question is %q, and the program was told %q", loud, spoken)
	}
	if m.field.text != typed || m.field.question.Key != key {
		t.Errorf("the field %s holds %q, want %s and %q", m.field.question.Key, m.field.text, key, typed)
	}
	if got := string(m.sitting.Session.Document().Bytes()); got != before {
		t.Errorf("the answers have changed:\n%s", got)
	}
	m.openReview()
	expect(t, m, strings.ToUpper(english("screen.review.title")))
	change()
	expect(t, m, english("screen.review.title"))
	if spoken != "en" {
		t.Errorf("the program was told %q", spoken)
	}
}

// The first screen and the results say, in the other language, which key changes
// it.
func TestLanguageKeyIsTold(t *testing.T) {
	m, _ := sat(t, "", 80, 24)
	expectNot(t, m, "ctrl+l")
	m.voice = twoLanguages(nil)
	m.refresh()
	told := "ctrl+l " + strings.ToUpper(english("screen.key.language"))
	expect(t, m, told)
	press(m, "enter", "enter")
	expectNot(t, m, "ctrl+l")
	p := newModel(single{&place{voice: m.voice, Place: Place{Default: "a.yaml"}}}, m.style, m.voice)
	expect(t, p, told)
	p.Update(tea.KeyMsg{Type: tea.KeyCtrlL})
	expect(t, p, strings.ToUpper(english("screen.where.nowhere")))
}

// Line by line, the other language says at the beginning how to change to it, and
// its name does so at any question.
func TestPlainLanguage(t *testing.T) {
	var b strings.Builder
	s := session(t, "")
	p := newPlain(strings.NewReader("english\n1\nBACK\n"), &b, twoLanguages(nil))
	_ = p.Run(context.Background(), Sitting{Session: s, Save: func() error { return nil }})
	out := b.String()
	told := strings.ToUpper(english("screen.plain.language"))
	if !strings.HasPrefix(out, told[:10]) {
		t.Errorf("the beginning does not tell of the other language:\n%s", out)
	}
	for _, want := range []string{"WHY YOU ARE HERE", "WILL YOU BE MARRIED"} {
		if !strings.Contains(out, want) {
			t.Errorf("%q was not said:\n%s", want, out)
		}
	}
	if strings.Count(out, "WHY YOU ARE HERE") != 2 { // back at the first question
		t.Errorf("the word for back did not go back:\n%s", out)
	}
}

// Somebody who types is asked first, in every language, which one to speak; the
// next visitor is asked again.
func TestPlainAsksLanguage(t *testing.T) {
	spanish, ok := words.OfLocale("es")
	if !ok {
		t.Fatal("no Spanish")
	}
	both := Options{Words: words.English(), Languages: []*words.Language{words.English(), spanish}}
	const english, inSpanish = "Why you are here", "Por qué está aquí"
	asked := []string{"Which language should we use?", "¿En qué idioma seguimos?"}
	for _, tt := range []struct {
		typed string
		times int // that it is asked
		want  string
	}{
		{"\n", 1, english},
		{"1\n", 1, english},
		{"English\n", 1, english},
		{"2\n", 1, inSpanish},
		{"espanol\n", 1, inSpanish},
		{"3\nfrançais\n2\n", 3, inSpanish},
		{"salir\n", 1, ""},
		{"quit\n", 1, ""},
		{"", 1, ""},
	} {
		var b strings.Builder
		p := newPlain(strings.NewReader(tt.typed), &b, both.voice())
		p.askFirst = true
		err := p.Run(context.Background(), Sitting{Session: session(t, ""), Save: func() error { return nil }})
		out := b.String()
		for _, question := range asked {
			if n := strings.Count(out, question); n != tt.times {
				t.Errorf("%q: %q is asked %d times, want %d:\n%s", tt.typed, question, n, tt.times, out)
			}
		}
		for _, chapter := range []string{english, inSpanish} {
			if strings.Contains(out, chapter) != (chapter == tt.want) {
				t.Errorf("%q: want %q:\n%s", tt.typed, tt.want, out)
			}
		}
		if quit := strings.Contains("salir\nquit\n", tt.typed) && tt.typed != "" && tt.typed != "\n"; quit != errors.Is(err, ErrLeft) {
			t.Errorf("%q: it ends with %v", tt.typed, err)
		}
	}
	var b strings.Builder
	p := newPlain(strings.NewReader("2\nsalir\n1\nquit\n"), &b, both.voice())
	p.askFirst = true
	for range 2 {
		_ = p.Run(context.Background(), Sitting{Session: session(t, ""), Save: func() error { return nil }})
	}
	if n := strings.Count(b.String(), asked[1]); n != 2 || !strings.Contains(b.String(), english) {
		t.Errorf("two visitors are asked %d times:\n%s", n, b.String())
	}
}

// Where yes and no are among the answers, there may be others, a question is
// answered by the first letter in the language, and by the English one.
func TestKeysOfYesAndNo(t *testing.T) {
	spanish, ok := words.OfLocale("es")
	if !ok {
		t.Fatal("no Spanish")
	}
	m, _ := atStub(t, 80, 24)
	q := interview.Question{Kind: interview.YesNo, Options: []interview.Option{{Value: "true", Label: "Sí"}, {Value: "false", Label: "No"}}}
	for _, tt := range []struct {
		lang          *words.Language
		pressed, want string
	}{
		{spanish, "s", "true"},
		{spanish, "S", "true"},
		{spanish, "n", "false"},
		{spanish, "y", "true"},
		{words.English(), "y", "true"},
		{words.English(), "N", "false"},
		{words.English(), "s", ""},
		{spanish, "si", ""}, // no key
	} {
		f := newField(q, m.style, Options{Words: tt.lang}.voice(), 60)
		f.text = ""
		if taken := f.shortcut(tt.pressed); taken != (tt.want != "") || f.text != tt.want {
			t.Errorf("in %s %q gives %q", tt.lang.Tag(), tt.pressed, f.text)
		}
	}
	m, _ = sat(t, `interview: {way_in: new_job}`, 80, 24)
	at(t, m, "interview.married")
	expect(t, m, english("screen.hint.yes_no"))
	press(m, "y")
	expect(t, m, "Married at year end: Yes")
}
