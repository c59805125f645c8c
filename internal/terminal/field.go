package terminal

import (
	"slices"
	"strings"
	"unicode/utf8"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/huh"
	"github.com/charmbracelet/x/ansi"

	"example.com/plumbline/internal/interview"

	"example.com/plumbline/internal/layout"
	"example.com/plumbline/internal/words"
)

// field is the huh field in which one question is answered. It is bound to
// scratch variables, since a huh list writes its first option before anything
// has been chosen; the answer is passed on only at Enter, which never reaches
// huh. There is no huh form around it: a form does not let one go back from a
// field with a mistake in it, and draws no page that is taller than the screen.
//
// Questions of yes and no are lists too: without color, huh's two buttons look
// alike.
type field struct {
	voice
	question interview.Question
	style    style
	width    int
	huh      huh.Field
	tall     int      // lines of the whole field
	text     string   // scratch, of lists and of inputs
	picks    []string // scratch, of lists of several
	fresh    bool     // what is typed takes the place of what is in the input
	touched  bool     // the person has typed, marked or confirmed something here
	wrong    string   // what is wrong with the answer
	said     string   // the answer given earlier, as people read it
}

func newField(q interview.Question, s style, v voice, width int) *field {
	f := &field{voice: v, question: q, style: s, width: width, text: q.Prefill()}
	if q.Kind == interview.Several {
		f.question.Options = append([]interview.Option{{Value: interview.None, Label: f.say("screen.none.label")}}, q.Options...)
		for v := range strings.SplitSeq(f.text, ",") {
			if v = strings.TrimSpace(v); v != "" {
				f.picks = append(f.picks, v)
			}
		}
	}
	f.fresh = f.isInput() && f.text != ""
	f.build()
	return f
}

// takeOver goes on with what is in another field of the same question.
func (f *field) takeOver(was *field) {
	f.text, f.picks, f.fresh, f.touched, f.wrong = was.text, was.picks, was.fresh, was.touched, was.wrong
	f.buildAt(was.hovered())
}

func (f *field) isInput() bool { return len(f.question.Options) == 0 }

// build makes the huh field for the scratch as it is.
func (f *field) build() {
	keys := huh.NewDefaultKeyMap()
	off := key.NewBinding(key.WithDisabled())
	keys.Select.Filter, keys.MultiSelect.Filter = off, off
	keys.MultiSelect.SelectAll, keys.MultiSelect.SelectNone = off, off
	keys.Input.AcceptSuggestion = off
	switch {
	case f.isInput():
		f.tall = 1
		f.huh = huh.NewInput().Prompt("> ").Value(&f.text).WithTheme(f.style.field)
	case f.question.Kind == interview.Several:
		list := huh.NewMultiSelect[string]()
		list.WithTheme(f.style.field) // first: huh makes one of its own for each option without it
		f.huh = list.Options(f.options(len("> [x] "))...).Value(&f.picks)
	default:
		list := huh.NewSelect[string]()
		list.WithTheme(f.style.field)
		f.huh = list.Options(f.options(len("> "))...).Value(&f.text)
	}
	f.huh = f.huh.WithKeyMap(keys).WithWidth(f.width)
	f.huh.Focus()
	f.send(nil)
}

func (f *field) options(indent int) []huh.Option[string] {
	options := make([]huh.Option[string], len(f.question.Options))
	f.tall = 0
	for i, o := range f.question.Options {
		label := layout.Wrap(layout.CleanLines(o.Label), f.width-indent)
		f.tall += len(label)
		options[i] = huh.NewOption(strings.Join(label, "\n"), o.Value).Selected(slices.Contains(f.picks, o.Value))
	}
	return options
}

// send passes a message on to huh. What huh asks for in return is dropped: it
// is the blinking of a cursor, or the next field.
func (f *field) send(msg tea.Msg) {
	m, _ := f.huh.Update(msg)
	f.huh = m.(huh.Field)
}

// resize fits the field to another width and keeps what has been typed or
// marked.
func (f *field) resize(width int) {
	if width == f.width {
		return
	}
	f.width = width
	f.rebuild()
}

// restyle draws the field in another style.
func (f *field) restyle(s style) {
	f.style = s
	f.rebuild()
}

// rebuild makes the field again with what has been typed or marked, the cursor
// where it was.
func (f *field) rebuild() { f.buildAt(f.hovered()) }

// buildAt builds the field with the cursor of a list of several at an option.
func (f *field) buildAt(option int) {
	f.build()
	if f.question.Kind == interview.Several {
		f.send(tea.KeyMsg{Type: tea.KeyHome})
		for range option {
			f.send(tea.KeyMsg{Type: tea.KeyDown})
		}
	}
}

// key takes a key that is not one of the front end's own.
func (f *field) key(k tea.KeyMsg) {
	if (f.fresh || f.wrong != "") && f.isInput() && k.Type == tea.KeyRunes {
		// As in a form on paper that is filled in already: who types writes over
		// it, who moves or deletes corrects it. So it is with a mistake.
		f.text = ""
		f.build()
	}
	f.fresh, f.touched, f.wrong = false, true, ""
	had := slices.Contains(f.picks, interview.None)
	f.send(k)
	if f.question.Kind == interview.Several {
		f.excludeNone(had)
	}
}

// excludeNone unchecks everything else when "None of these" is checked, and
// "None of these" when something else is.
func (f *field) excludeNone(had bool) {
	has := slices.Contains(f.picks, interview.None)
	switch {
	case has && !had:
		f.picks = []string{interview.None}
	case has && len(f.picks) > 1:
		f.picks = slices.DeleteFunc(f.picks, func(v string) bool { return v == interview.None })
	default:
		return
	}
	f.rebuild()
}

// yesAndNo are the answers yes and no of a question that has both, perhaps among
// others.
func yesAndNo(q interview.Question) (yes, no string, has bool) {
	if q.Kind == interview.YesNo {
		return "true", "false", true
	}
	offers := func(value string) bool {
		return slices.ContainsFunc(q.Options, func(o interview.Option) bool { return o.Value == value })
	}
	return "yes", "no", q.Kind == interview.Choice && offers("yes") && offers("no")
}

// shortcut takes a key that answers a question with yes or no, and reports
// whether it is one.
func (f *field) shortcut(pressed string) bool {
	yes, no, has := yesAndNo(f.question)
	switch folded := words.Fold(pressed); {
	case !has || utf8.RuneCountInString(pressed) != 1:
		return false
	case slices.Contains(f.language.Typed("yes"), folded):
		f.text = yes
	case slices.Contains(f.language.Typed("no"), folded):
		f.text = no
	default:
		return false
	}
	f.build()
	return true
}

// hovered is the index of the option at the cursor.
func (f *field) hovered() int {
	var value string
	switch list := f.huh.(type) {
	case *huh.Select[string]:
		value, _ = list.Hovered()
	case *huh.MultiSelect[string]:
		value, _ = list.Hovered()
	}
	return max(slices.IndexFunc(f.question.Options, func(o interview.Option) bool { return o.Value == value }), 0)
}

// atTop reports whether there is nothing above the cursor in the field.
func (f *field) atTop() bool { return f.isInput() || f.hovered() == 0 }

// help is what can be said of the option at the cursor.
func (f *field) help() string {
	if f.isInput() {
		return ""
	}
	return layout.CleanLines(f.question.Options[f.hovered()].Help)
}

// nothingMarked reports a list of several in which nothing is marked, not even that
// none applies.
func (f *field) nothingMarked() bool {
	return f.question.Kind == interview.Several && len(f.picks) == 0
}

// confirm takes what is in the field as it is, at Enter. It fails where
// nothing was chosen on purpose.
func (f *field) confirm() error {
	f.wrong = ""
	if f.nothingMarked() {
		if f.hovered() > 0 {
			return words.Fail("screen.none.mark_first")
		}
		f.picks = []string{interview.None}
		f.rebuild()
	}
	f.touched = true
	return nil
}

// answer is the answer as the interview takes it. There is none in a field that
// was empty and that nobody has come to yet.
func (f *field) answer() (text string, ok bool) {
	if f.question.Kind == interview.Several {
		return strings.Join(f.picks, ", "), len(f.picks) > 0
	}
	return strings.TrimSpace(f.text), f.touched || f.question.Prefill() != ""
}

// asBefore reports whether Enter keeps what was in the field at first.
func (f *field) asBefore() bool {
	switch {
	case f.isInput():
		return strings.TrimSpace(f.text) == f.question.Prefill()
	case f.question.Kind == interview.Several:
		return !f.touched
	}
	return f.question.Options[f.hovered()].Value == f.question.Prefill()
}

// shown is what is in the field, in a few words; empty while there is none.
func (f *field) shown() string {
	text, ok := f.answer()
	switch {
	case !ok:
		return ""
	case !f.touched && f.said != "":
		return f.said
	}
	if f.question.Kind != interview.Several {
		return label(f.question, text)
	}
	var all []string
	for _, v := range f.picks {
		all = append(all, label(f.question, v))
	}
	return strings.Join(all, ", ")
}

// lines are the field as drawn, in at most room lines: a longer list is cut
// around the cursor, and says so.
func (f *field) lines(room int) []string {
	lines := strings.Split(strings.TrimRight(f.huh.View(), "\n "), "\n")
	for i, line := range lines {
		if layout.Width(line) > f.width {
			lines[i] = ansi.Truncate(line, f.width, "")
		}
	}
	if len(lines) <= room || f.isInput() {
		return lines
	}
	first, tall := f.cursorLines()
	return f.window(lines, first, tall, room, f.style)
}

// cursorLines are where the option at the cursor begins and how many lines it
// has.
func (f *field) cursorLines() (first, tall int) {
	indent := len("> ")
	if f.question.Kind == interview.Several {
		indent = len("> [x] ")
	}
	for i, o := range f.question.Options {
		tall = len(layout.Wrap(layout.CleanLines(o.Label), f.width-indent))
		if i == f.hovered() {
			return first, tall
		}
		first += tall
	}
	return 0, 1
}

// window is a part of some lines, room of them, with those of the cursor in it.
// Where there is more above or below, the line there says so.
func (v voice) window(lines []string, first, tall, room int, s style) []string {
	room = max(room, tall+2, 3)
	if len(lines) <= room {
		return lines
	}
	top := min(max(first-(room-tall)/2, 0), len(lines)-room)
	cut := slices.Clone(lines[top : top+room])
	if top > 0 {
		cut[0] = s.muted.Render("  ^ " + v.say("screen.more_above"))
	}
	if top+room < len(lines) {
		cut[room-1] = s.muted.Render("  v " + v.say("screen.more_below"))
	}
	return cut
}
