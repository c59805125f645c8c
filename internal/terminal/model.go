package terminal

import (
	"errors"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/plumbline/internal/backdrop"
	"example.com/plumbline/internal/interview"
	"example.com/plumbline/internal/layout"
	"example.com/plumbline/internal/report"
	"example.com/plumbline/internal/words"
)

// view is what the screen shows.
type view int8

const (
	asking    view = iota // a question
	reviewing             // all answers so far
	showing               // the result pages
)

// model is the whole screen: questions, and for a sitting the review and the
// results around them. What it shows follows from the session and from the few
// fields here.
type model struct {
	voice
	style         style
	theme         Theme   // once the terminal has said its background
	start         tea.Cmd // asks for it; nothing is drawn until start is nil
	width, height int

	main    questions // the interview, or the place of the answers
	aside   questions // the results' own, asked before going on
	sitting *Sitting  // nil for the place of the answers

	view     view
	field    *field   // of the question shown
	soFar    []string // the answers of this part, a line each
	coming   []string // what else is asked on this page
	draft    interview.Draft
	progress interview.Progress
	message  string // what to say below the field
	told     string // what has been done, on the results
	helping  bool
	noticed  string // the notice that has been read on a page of its own
	scroll   int    // of the page shown
	review   reviewList
	results  []resultPage
	found    []report.Page // what may happen, added to the results
	result   int           // the page shown

	saveErr error
	ended   error // how it ended; nil when it came to its end
}

func newModel(q questions, s style, l *words.Language) *model {
	m := &model{voice: voice{l}, style: s, width: 80, height: 24, main: q}
	m.refresh()
	return m
}

// Init implements tea.Model.
func (m *model) Init() tea.Cmd { return m.start }

// wear changes the styles to those of a theme.
func (m *model) wear(t Theme) {
	m.theme, m.style, m.start = t, newStyle(t), nil
	if m.field != nil {
		m.field.restyle(m.style)
	}
	if m.view == showing {
		m.show()
	}
}

// current are the questions being asked.
func (m *model) current() questions {
	if m.aside != nil {
		return m.aside
	}
	return m.main
}

// refresh goes to what is to be shown now: the next question, else the results.
func (m *model) refresh() {
	m.message, m.helping, m.scroll = "", false, 0
	if m.sitting != nil && m.aside == nil {
		m.draft = m.sitting.Session.Draft()
		m.progress = m.sitting.Session.Progress()
	}
	q, more := m.current().Question()
	if !more {
		m.field = nil
		if m.sitting != nil {
			m.show()
		}
		return
	}
	m.view = asking
	if m.aside == nil {
		m.results, m.found = nil, nil
	}
	m.field = newField(q, m.style, m.voice, m.questionWidth())
	m.soFar, m.coming = nil, nil
	if m.sitting != nil && m.aside == nil {
		m.surround(q)
	}
}

// surround sets what is shown around a question: the answers given before it in
// the same part, and the questions after it on the same page.
func (m *model) surround(q interview.Question) {
	rows := m.sitting.Session.Review()
	at := slices.IndexFunc(rows, func(r interview.Answered) bool { return r.Key == q.Key })
	for i, r := range rows {
		if i < at && r.Chapter == q.Chapter && r.About == q.About && r.Answer != "" {
			m.soFar = append(m.soFar, layout.Clean(r.Label+": "+r.Answer))
		}
	}
	for _, later := range m.sitting.Session.Page() {
		i := slices.IndexFunc(rows, func(r interview.Answered) bool { return r.Key == later.Key })
		if i > at {
			m.coming = append(m.coming, layout.Clean(rows[i].Label))
		}
	}
}

// Update implements tea.Model.
func (m *model) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		m.resize(msg.Width, msg.Height)
	case backgroundTold:
		m.wear(themeOf(msg.dark))
	case backgroundUnknown:
		if m.start == nil {
			break // it has said what it is
		}
		if dark, known := backdrop.Told(); known {
			m.wear(themeOf(dark))
		}
		m.start = nil
	case interrupted:
		m.ended = ErrInterrupted
		return m, tea.Quit
	case tea.KeyMsg:
		return m, m.key(msg)
	}
	return m, nil
}

func (m *model) resize(width, height int) {
	m.width, m.height = width, height
	if m.field != nil {
		m.field.resize(m.questionWidth())
	}
	if m.view == showing {
		m.show()
	}
}

func (m *model) key(k tea.KeyMsg) tea.Cmd {
	switch k.String() {
	case "ctrl+c":
		if _, more := m.main.Question(); more {
			m.ended = ErrLeft
		}
		return tea.Quit
	case "ctrl+z":
		return tea.Suspend
	}
	if m.tooSmall() {
		return nil // nobody answers a question that cannot be seen
	}
	switch m.view {
	case reviewing:
		m.reviewKey(k)
	case showing:
		return m.resultKey(k)
	case asking:
		return m.questionKey(k)
	}
	return nil
}

// questionKey takes a key at a question.
func (m *model) questionKey(k tea.KeyMsg) tea.Cmd {
	pressed := k.String()
	if m.paged() {
		m.pageKey(pressed)
		return nil
	}
	switch pressed {
	case "esc", "shift+tab":
		if m.helping && pressed == "esc" {
			m.helping = false
		} else {
			m.back()
		}
	case "f1":
		m.helping = !m.helping
	case "ctrl+r":
		m.openReview()
	case "up":
		if m.field.atTop() {
			m.back()
			break
		}
		m.field.key(k)
	case "enter", "ctrl+j": // the latter is an Enter pressed before the terminal was ours
		return m.enter()
	case "tab":
	default:
		if text := m.shortcut(pressed); text != "" {
			return m.answer(text)
		}
		if pressed == "?" && m.helpKey() == "?" {
			m.helping = !m.helping
			break
		}
		m.message = ""
		m.field.key(k)
	}
	return nil
}

// shortcut is the answer that a single key gives.
func (m *model) shortcut(pressed string) string {
	if m.field.question.Kind == interview.YesNo {
		switch pressed {
		case "y", "Y":
			return "true"
		case "n", "N":
			return "false"
		}
	}
	return ""
}

// helpKey is the key that shows the help: the question mark, unless it can be
// part of an answer.
func (m *model) helpKey() string {
	if m.field.question.Kind == interview.Words {
		return "f1"
	}
	return "?"
}

// pageKey takes a key at a page that stands before the question.
func (m *model) pageKey(pressed string) {
	lines, room := m.pageLines(), m.bodyHeight()
	switch pressed {
	case "up", "k":
		m.scroll = max(m.scroll-1, 0)
	case "down", "j":
		m.scroll = min(m.scroll+1, max(len(lines)-room, 0))
	case "pgup":
		m.scroll = max(m.scroll-room, 0)
	case "pgdown", " ":
		m.scroll = min(m.scroll+room, max(len(lines)-room, 0))
	case "enter", "esc", "?", "f1", "shift+tab":
		switch {
		case m.helping:
			m.helping = false
		case pressed == "esc" || pressed == "shift+tab":
			m.back()
			return
		case m.scroll+room < len(lines):
			m.scroll = min(m.scroll+room, len(lines)-room)
			return
		default:
			m.noticed = m.field.question.Notice
		}
		m.scroll = 0
	}
}

func (m *model) enter() tea.Cmd {
	text, err := m.field.answer()
	if err != nil {
		m.message = m.fault(err)
		return nil
	}
	return m.answer(text)
}

// answer gives an answer, has it saved and goes on.
func (m *model) answer(text string) tea.Cmd {
	if err := m.current().Answer(strings.TrimSpace(text)); err != nil {
		m.message = m.fault(err)
		return nil
	}
	if m.aside != nil {
		if _, more := m.aside.Question(); !more {
			m.aside = nil
		}
	}
	m.save()
	m.refresh()
	if _, more := m.main.Question(); !more && m.sitting == nil {
		return tea.Quit
	}
	return nil
}

func (m *model) back() {
	if m.aside != nil {
		if !m.aside.Back() {
			m.aside = nil
		}
		m.refresh()
		return
	}
	if !m.main.Back() {
		m.message = m.say("screen.first_question")
		return
	}
	m.save()
	m.refresh()
}

// save writes the answers down. A failure is shown until a later save succeeds,
// since the person can do something about a full disk.
func (m *model) save() {
	if m.sitting != nil {
		m.saveErr = m.sitting.Save()
	}
}

// problem is what to say under the field.
func (m *model) problem() string {
	if m.message == "" && m.saveErr != nil {
		return m.say("screen.not_saved", "why", firstLine(m.fault(m.saveErr)))
	}
	return m.message
}

func firstLine(text string) string {
	line, _, _ := strings.Cut(text, "\n")
	return line
}

// show goes to the results; while they cannot be worked out, the review says
// why. They are noted in the answers when they are shown for the first time.
func (m *model) show() {
	pages, err := Pages(m.sitting.Session, m.language)
	if err != nil {
		m.openReview()
		m.message = firstLine(m.fault(err))
		return
	}
	drawn := resultPages(append(pages, m.found...), m.drawnWidth())
	if m.results == nil {
		m.result, m.told = 0, m.sitting.Session.Verdict()
		m.saveErr = errors.Join(m.sitting.Session.Finish(), m.sitting.Save())
	}
	m.view, m.results = showing, drawn
	m.result = min(m.result, len(drawn)-1)
}
