package terminal

import (
	"errors"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/plumbline/internal/backdrop"
	"example.com/plumbline/internal/interview"
	"example.com/plumbline/internal/layout"
	"example.com/plumbline/internal/report"
)

// view is what the screen shows.
type view int8

const (
	asking    view = iota // a question
	reviewing             // all answers so far
	showing               // the result pages
)

// model is the whole screen: pages of questions, and for a sitting the review
// and the results around them. What it shows follows from the session and from
// the few fields here.
type model struct {
	voice
	style         style
	theme         Theme   // once the terminal has said its background
	start         tea.Cmd // asks for it; nothing is drawn until start is nil
	width, height int

	main    form     // the interview, or the place of the answers
	aside   form     // the results' own, asked before going on
	sitting *Sitting // nil for the place of the answers

	view     view
	fields   []*field // of the page shown
	field    *field   // the one with the cursor
	opened   bool     // one answer was opened in the review, by itself
	soFar    []string // the answers of this part on earlier pages, a line each
	unmarked string   // the list just answered by Enter with nothing marked in it
	first    bool     // the page is the first of the interview
	draft    interview.Draft
	progress interview.Progress
	message  string // what to say below the field
	told     string // what has been done, on the results
	helping  bool
	leaving  bool   // a visitor is asked whether to
	noticed  string // the notice that has been read on a page of its own
	scroll   int    // of the page shown
	review   reviewList
	results  []resultPage
	found    []report.Page // what may happen, added to the results
	result   int           // the page shown

	saveErr error
	ended   error // how it ended; nil when it came to its end
}

func newModel(f form, s style, v voice) *model {
	m := &model{voice: v, style: s, width: 80, height: 24, main: f}
	m.refresh()
	return m
}

// Init implements tea.Model.
func (m *model) Init() tea.Cmd { return m.start }

// wear changes the styles to those of a theme.
func (m *model) wear(t Theme) {
	m.theme, m.style, m.start = t, newStyle(t), nil
	for _, f := range m.fields {
		f.restyle(m.style)
	}
	if m.view == showing {
		m.show()
	}
}

// current are the questions being asked.
func (m *model) current() form {
	if m.aside != nil {
		return m.aside
	}
	return m.main
}

// changeLanguage says everything in the next language. What has been typed and
// not been answered yet stays.
func (m *model) changeLanguage() {
	l := m.next()
	if l == nil {
		return
	}
	m.speak(l)
	if m.sitting != nil {
		m.sitting.Session.Speak(l)
	}
	for _, f := range m.fields {
		f.wrong = ""
	}
	switch m.view {
	case reviewing:
		m.review.rows, m.message = m.sitting.Session.Review(), ""
	case showing:
		m.show()
		m.told, m.message = m.sitting.Session.Verdict(), ""
	case asking:
		key := m.field.question.Key
		m.refresh()
		m.focus(key)
	}
}

// focus puts the cursor into the field of a question, where it is on the page.
func (m *model) focus(key string) {
	for _, f := range m.fields {
		if f.question.Key == key {
			m.field = f
		}
	}
}

// refresh goes to what is to be shown now: the next page of questions, else the
// results.
func (m *model) refresh() {
	m.message, m.helping, m.scroll = "", false, 0
	if m.sitting != nil && m.aside == nil {
		m.draft = m.sitting.Session.Draft()
		m.progress = m.sitting.Session.Progress()
	}
	q, more := m.current().Question()
	if !more {
		m.fields, m.field, m.opened = nil, nil, false
		if m.sitting != nil {
			m.show()
		}
		return
	}
	m.view = asking
	if m.aside == nil {
		m.results, m.found = nil, nil
	}
	page := m.current().Page()
	if m.opened {
		page = []interview.Question{q}
	}
	m.setPage(page, q.Key)
	m.soFar, m.first = nil, m.sitting == nil
	if m.sitting != nil && m.aside == nil {
		m.surround(page[0])
	}
}

// surround sets what is known of the answers around the cursor: those given
// before the page in the same part, a line each, and those of the page.
func (m *model) surround(first interview.Question) {
	before := true
	for i, r := range m.sitting.Session.Review() {
		m.first = m.first || i == 0 && r.Key == first.Key
		before = before && r.Key != first.Key
		part := r.Chapter == first.Chapter && r.About == first.About || r.Key == m.unmarked // what was taken there is seen
		if before && part && r.Answer != "" {
			m.soFar = append(m.soFar, layout.Clean(r.Label+": "+r.Answer))
		}
		for _, f := range m.fields {
			if f.question.Key == r.Key && f.question.Answer != "" {
				f.said = r.Answer
			}
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
	for _, f := range m.fields {
		f.resize(m.questionWidth())
	}
	if m.view == showing {
		m.show()
	}
}

func (m *model) key(k tea.KeyMsg) tea.Cmd {
	if m.leaving {
		return m.leavingKey(k.String())
	}
	switch k.String() {
	case "ctrl+c":
		return m.leave()
	case "ctrl+z":
		return tea.Suspend
	case "ctrl+l":
		m.changeLanguage()
		return nil
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
		if m.field != nil { // else the last question is answered, and the next screen has not come yet
			return m.questionKey(k)
		}
	}
	return nil
}

// questionKey takes a key at a page of questions.
func (m *model) questionKey(k tea.KeyMsg) tea.Cmd {
	pressed := k.String()
	if m.paged() {
		m.pageKey(pressed)
		return nil
	}
	switch pressed {
	case "esc":
		if m.helping {
			m.helping = false
		} else {
			m.up()
		}
	case "f1":
		m.helping = !m.helping
	case "ctrl+r":
		m.openReview()
	case "ctrl+g":
		m.skipAhead()
	case "shift+tab":
		m.up()
	case "up":
		if m.field.atTop() {
			m.up()
			break
		}
		m.field.key(k)
	case "tab":
		m.move(1)
	case "down":
		if m.field.isInput() {
			m.move(1)
			break
		}
		m.field.key(k)
	case "enter", "ctrl+j": // the latter is an Enter pressed before the terminal was ours
		return m.enter()
	default:
		if m.field.shortcut(pressed) {
			return m.enter()
		}
		if pressed == "?" && m.field.question.Kind != interview.Words {
			m.helping = !m.helping
			break
		}
		m.message = ""
		m.field.key(k)
	}
	return nil
}

// helpKey is the key that shows the help: the question mark, unless it can be
// part of an answer on the page.
func (m *model) helpKey() string {
	for _, f := range m.fields {
		if f.question.Kind == interview.Words {
			return "f1"
		}
	}
	return "?"
}

// pageKey takes a key at a page that comes before the question.
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

// back goes to the page before.
func (m *model) back() {
	m.unmarked = ""
	switch {
	case m.aside != nil:
		if !m.aside.BackPage() {
			m.aside = nil
		}
	case m.opened:
		m.opened = false
		m.sitting.Session.Resume()
		m.save()
	case !m.main.BackPage():
		m.message = m.say("screen.first_question")
		return
	default:
		m.save()
	}
	m.refresh()
}

// behind reports that the person went back, so that there is something to skip.
func (m *model) behind() bool { return m.hasPanel() && m.sitting.Session.Behind() }

// skipAhead goes on where the person was before going back.
func (m *model) skipAhead() {
	if !m.behind() {
		return
	}
	m.opened = false
	m.sitting.Session.Resume()
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
