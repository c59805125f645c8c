package terminal

import (
	"fmt"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"

	"example.com/plumbline/internal/interview"
	"example.com/plumbline/internal/report"
	"example.com/plumbline/internal/words"

	"example.com/plumbline/internal/layout"
)

// resultPage is one page of the results, drawn.
type resultPage struct {
	kind  report.Kind
	title string
	lines []report.Line
}

// Pages are the result pages of an interview that has come to its end, in the
// order of package report.
func Pages(s *interview.Session, l *words.Language) ([]report.Page, error) {
	r, err := s.Result()
	if err != nil {
		return nil, err
	}
	w := report.In(l)
	if s.Blank() {
		return w.BlankPages(r), nil
	}
	pages := w.Pages(r)
	if since, back := newVoice(l).sinceLastTime(s); back {
		pages = slices.Insert(pages, 1, since)
	}
	return pages, nil
}

// sinceLastTime is what has happened since an earlier sitting: the forecast
// beside the newest stubs, and whether a new certificate is due.
func (v voice) sinceLastTime(s *interview.Session) (report.Page, bool) {
	p := report.Page{Title: v.say("screen.since.title")}
	if met := s.LookBack(); len(met) > 0 {
		t := report.Table{Head: []string{v.say("screen.since.withheld"), v.say("screen.since.by"), v.say("screen.since.forecast"), v.say("screen.since.stub")}}
		for _, m := range met {
			t.Rows = append(t.Rows, []string{m.Job, v.say("interview.phrase.day", "day", m.Payday), m.Forecast.Grouped(), m.Actual.Grouped()})
		}
		p.Blocks = append(p.Blocks, t)
	}
	var changes []string
	for _, c := range s.Due() {
		line := v.language.Say(c.What)
		switch {
		case c.Must:
			line = v.say("screen.since.must", "what", c.What, "date", c.By)
		case c.Reason.IsZero():
			line = v.say("screen.since.may", "what", c.What)
		}
		changes = append(changes, strings.TrimSpace(line+" "+v.language.Say(c.Reason)))
	}
	if len(changes) > 0 {
		p.Title = v.say("screen.since.changed")
		p.Blocks = append(p.Blocks, report.Heading(v.say("screen.since.due")), report.List{Items: changes})
	}
	return p, len(p.Blocks) > 0
}

// resultPages are pages as lines of a width.
func resultPages(pages []report.Page, width int) []resultPage {
	var all []resultPage
	for _, p := range pages {
		title := layout.CleanLines(p.Title)
		if p.Kind == report.AnswerPage {
			p.Title = "" // its tab says it
		}
		all = append(all, resultPage{p.Kind, title, report.Lines(p, report.Style{Width: width, Unicode: Unicode()})})
	}
	return all
}

// resultLines are the page shown.
func (m *model) resultLines(height int) []string {
	if len(m.results) == 0 {
		return nil
	}
	var foot []string
	for _, l := range layout.Wrap(layout.CleanLines(m.told), min(m.drawnWidth(), 80)) {
		foot = append(foot, m.style.accent.Render(l))
	}
	if problem := m.problem(); problem != "" {
		for _, l := range layout.Hang("! ", layout.CleanLines(problem), min(m.drawnWidth(), 80)) {
			foot = append(foot, m.style.wrong.Render(l))
		}
	}
	room := max(height-len(foot), 1)
	var drawn []string
	for _, l := range m.results[m.result].lines {
		drawn = append(drawn, m.styled(l))
	}
	lines := m.scrolled(drawn, room)
	for len(lines) < room && len(foot) > 0 {
		lines = append(lines, "")
	}
	return append(lines, foot...)
}

// styled is a line of a page in the style of what it is.
func (m *model) styled(l report.Line) string {
	switch l.Kind {
	case report.Title, report.Head:
		return m.style.title.Render(l.Text)
	case report.Strong:
		return lipgloss.NewStyle().Bold(true).Render(l.Text)
	}
	return l.Text
}

// tabs are the result pages in the head of the screen: each with the key that
// leads to it, by name where there is room for it. The page shown has its name
// always, then those after it come before those before it.
func (m *model) tabs() string {
	keys, names := make([]string, len(m.results)), make([]string, len(m.results))
	for i, p := range m.results {
		if i < lastTab {
			keys[i] = fmt.Sprint(i + 1)
		}
		names[i] = strings.TrimSpace(keys[i] + " " + m.say("screen.tab."+tabs[p.kind]))
	}
	shown := slices.Clone(keys)
	shown[m.result] = m.style.accent.Reverse(true).Render(" " + names[m.result] + " ")
	named := true
	name := func(i int) {
		was := shown[i]
		shown[i] = names[i]
		if named = named && layout.Width(strings.Join(shown, " ")) <= m.drawnWidth(); !named {
			shown[i] = was
		}
	}
	for i := m.result + 1; i < len(names); i++ {
		name(i)
	}
	for i := m.result - 1; i >= 0; i-- {
		name(i)
	}
	if line := strings.Join(shown, "  "); layout.Width(line) <= m.drawnWidth() {
		return line
	}
	return strings.Join(shown, " ")
}

// lastTab is the highest number that a single key gives.
const lastTab = 9

// resultKeys are the keys of the result pages.
func (m *model) resultKeys() []hint {
	keys := []hint{{"left/right", "page"}, {"up/down", "scroll"}, {"q", m.quits()}, {"c", "change_answer"}}
	if !m.sitting.Session.Blank() {
		keys = append(keys, hint{"i", "what_if"}, hint{"p", "plan"})
	}
	if m.sitting.Write != nil {
		keys = append(keys, hint{"w", "write"})
	}
	if m.sitting.Fill != nil {
		keys = append(keys, hint{"f", "fill"})
	}
	return keys
}

// resultKey takes a key at the result pages.
func (m *model) resultKey(k tea.KeyMsg) tea.Cmd {
	if len(m.results) == 0 {
		return nil
	}
	room := m.bodyHeight()
	most := max(len(m.results[m.result].lines)-room, 0)
	m.message = ""
	switch k.String() {
	case "1", "2", "3", "4", "5", "6", "7", "8", "9":
		if to := int(k.String()[0] - '1'); to < len(m.results) {
			m.turn(to - m.result)
		}
	case "left", "h", "shift+tab":
		m.turn(-1)
	case "right", "l", "tab", "enter":
		m.turn(1)
	case "up", "k":
		m.scroll = max(m.scroll-1, 0)
	case "down", "j":
		m.scroll = min(m.scroll+1, most)
	case "pgup":
		m.scroll = max(m.scroll-room+2, 0)
	case "pgdown", " ":
		m.scroll = min(m.scroll+room-2, most)
	case "home", "g":
		m.scroll = 0
	case "end", "G":
		m.scroll = most
	case "c", "ctrl+r":
		m.told = ""
		m.openReview()
	case "esc":
		m.told = ""
		m.back()
	case "i":
		m.askWhatIf()
	case "p":
		m.askPlan()
	case "w":
		if m.sitting.Write != nil {
			m.ask(m.writeRequest(*m.sitting, m.tell))
		}
	case "f":
		if m.sitting.Fill != nil {
			m.ask(m.fillRequest(*m.sitting, m.tell))
		}
	case "q":
		return m.leave()
	}
	return nil
}

// turn goes to another page.
func (m *model) turn(by int) {
	m.result = (m.result + by + len(m.results)) % len(m.results)
	m.scroll, m.told = 0, ""
}

// ask asks one of the results' own questions.
func (m *model) ask(q questions) {
	at := m.result
	m.aside, m.told = single{q}, ""
	m.refresh()
	m.result = at
}

// askWhatIf asks what may happen, and adds what it would change to the results
// as their last page.
func (m *model) askWhatIf() {
	if m.sitting.Session.Blank() {
		return
	}
	w, err := newWhatIf(m.sitting.Session, m.voice, func(p report.Page) {
		m.found = append(m.found, p)
		m.result = len(m.results) + len(m.found)
	})
	if err != nil {
		m.message = firstLine(m.fault(err))
		return
	}
	m.ask(w)
}

// askPlan asks which plan to hand over. The pages are then drawn again, and what
// has been found of what may happen, which was figured for another plan, goes.
func (m *model) askPlan() {
	if m.sitting.Session.Blank() {
		return
	}
	q, err := m.planRequest(*m.sitting, func(plan string) {
		m.results, m.found = nil, nil
		m.show()
		m.tell(m.say("screen.plan.chosen", "plan", words.T("page.plan."+plan)))
	})
	if err != nil {
		m.message = firstLine(m.fault(err))
		return
	}
	m.ask(q)
}

func (m *model) tell(what string) { m.told = what }
