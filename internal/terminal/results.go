package terminal

import (
	"fmt"
	"slices"
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/plumbline/internal/interview"
	"example.com/plumbline/internal/report"

	"example.com/plumbline/internal/layout"
)

// resultPage is one page of the results, drawn.
type resultPage struct {
	title string
	lines []string
}

// Pages are the result pages of an interview that has come to its end: each
// employer's page to copy from, then the pages for the person alone, a part
// each.
func Pages(s *interview.Session) ([]report.Page, error) {
	r, err := s.Result()
	if err != nil {
		return nil, err
	}
	pages := inWords(report.EmployerPages(r))
	if s.Blank() {
		return append(pages, blankPage(s)), nil
	}
	plans, january := []report.Page{report.Plans(r)}, inWords(report.JanuaryPages(r))
	for i, part := range parts(report.PersonPage(r)) {
		pages = append(pages, part)
		since, back := sinceLastTime(s)
		switch {
		case i == 0 && back:
			pages = append(pages, since)
		case hasBars(part):
			pages, plans = append(pages, plans...), nil
		case strings.HasPrefix(part.Title, januaryTitle):
			pages, january = append(pages, january...), nil
		}
	}
	return append(append(pages, plans...), january...), nil
}

func hasBars(p report.Page) bool {
	return slices.ContainsFunc(p.Blocks, func(b report.Block) bool {
		_, bars := b.(report.Bars)
		return bars
	})
}

// inWords are pages with words in the place of the lines to write on by hand,
// which no screen has a use for.
func inWords(pages []report.Page) []report.Page {
	for i := range pages {
		for j, b := range pages[i].Blocks {
			if blanks, ok := b.(report.Blanks); ok {
				pages[i].Blocks[j] = report.Paragraph(byHand + strings.Join(blanks, "; ") + ".")
			}
		}
	}
	return pages
}

// figuresForBars is a page with the figures of its charts alone, for those who
// hear it read.
func figuresForBars(p report.Page) report.Page {
	for i, b := range p.Blocks {
		if bars, ok := b.(report.Bars); ok {
			t := report.Table{Head: barsHead}
			for _, row := range bars.Rows {
				t.Rows = append(t.Rows, []string{row.Label, row.Figure})
			}
			p.Blocks[i] = t
		}
	}
	return p
}

// parts are the parts of a page, each a page of its own.
func parts(p report.Page) []report.Page {
	var all []report.Page
	for _, b := range p.Blocks {
		if heading, ok := b.(report.Heading); ok {
			part := report.Page{AsOf: p.AsOf, Title: string(heading)}
			if len(all) == 0 {
				part.Subtitle = p.Subtitle
			}
			all = append(all, part)
			continue
		}
		if len(all) == 0 {
			all = append(all, report.Page{AsOf: p.AsOf, Title: p.Title, Subtitle: p.Subtitle})
		}
		last := &all[len(all)-1]
		last.Blocks = append(last.Blocks, b)
	}
	return all
}

// blankPage is what to do with a certificate that has the status alone.
func blankPage(s *interview.Session) report.Page {
	p := report.Page{Title: "Why, and what to do next"}
	if r, err := s.Result(); err == nil {
		p.AsOf = r.Household.AsOf
		p.Blocks = append(p.Blocks, report.Paragraph(r.Recommended.Reason))
	}
	p.Blocks = append(p.Blocks, report.List{Numbered: true, Items: blankSteps}, report.Heading("Before you sign"))
	var cautions []string
	for _, c := range interview.Cautions() {
		cautions = append(cautions, c.Message)
	}
	p.Blocks = append(p.Blocks, report.List{Items: cautions})
	return p
}

// sinceLastTime is what has happened since an earlier sitting: the forecast
// beside the newest stubs, and whether a new certificate is due.
func sinceLastTime(s *interview.Session) (report.Page, bool) {
	p := report.Page{Title: "Since last time"}
	if met := s.LookBack(); len(met) > 0 {
		t := report.Table{Head: []string{"federal income tax withheld", "by", "forecast", "stub"}}
		for _, m := range met {
			t.Rows = append(t.Rows, []string{m.Job, m.Payday.Long(), m.Forecast.Grouped(), m.Actual.Grouped()})
		}
		p.Blocks = append(p.Blocks, t)
	}
	var changes []string
	for _, c := range s.Due() {
		line := c.What
		switch {
		case c.Must:
			line += fmt.Sprintf(" A new certificate is due by %s.", c.By.Long())
		case c.Reason == "":
			line += " You may give a new certificate whenever you wish."
		}
		changes = append(changes, strings.TrimSpace(line+" "+c.Reason))
	}
	if len(changes) > 0 {
		p.Title = "What has changed"
		p.Blocks = append(p.Blocks, report.Heading("Whether a new certificate is due"), report.List{Items: changes})
	}
	return p, len(p.Blocks) > 0
}

// resultPages are pages as lines of a width. The title goes into the head of
// the screen.
func resultPages(pages []report.Page, st style, width int) ([]resultPage, error) {
	var all []resultPage
	for _, p := range pages {
		title := layout.CleanLines(p.Title)
		p.Title = ""
		p.Blocks = withoutTitle(p.Blocks, title)
		var b strings.Builder
		if err := report.Text(&b, p, min(width, report.Width)); err != nil {
			return nil, err
		}
		lines := strings.Split(strings.Trim(b.String(), "\n"), "\n")
		for _, block := range p.Blocks {
			heading, ok := block.(report.Heading)
			if i := slices.Index(lines, strings.ToUpper(string(heading))); ok && i >= 0 {
				lines[i] = st.title.Render(lines[i])
			}
		}
		all = append(all, resultPage{title, lines})
	}
	return all, nil
}

// withoutTitle are the blocks of a page without a heading that says what the
// title in the head of the screen says already.
func withoutTitle(blocks []report.Block, title string) []report.Block {
	return slices.DeleteFunc(slices.Clone(blocks), func(b report.Block) bool {
		heading, ok := b.(report.Heading)
		return ok && heading != "" && strings.HasPrefix(strings.ToLower(title), strings.ToLower(string(heading)))
	})
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
	lines := m.scrolled(m.results[m.result].lines, room)
	for len(lines) < room && len(foot) > 0 {
		lines = append(lines, "")
	}
	return append(lines, foot...)
}

// resultKeys are the keys of the result pages.
func (m *model) resultKeys() []hint {
	keys := []hint{{"left/right", "page"}, {"up/down", "scroll"}, {"c", "change an answer"}}
	if !m.sitting.Session.Blank() {
		keys = append(keys, hint{"i", "what if"}, hint{"p", "another plan"})
	}
	if m.sitting.Write != nil {
		keys = append(keys, hint{"w", "write to a file"})
	}
	if m.sitting.Fill != nil {
		keys = append(keys, hint{"f", "fill in the form"})
	}
	return append(keys, hint{"q", "quit"})
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
			m.ask(writeRequest(*m.sitting, m.tell))
		}
	case "f":
		if m.sitting.Fill != nil {
			m.ask(fillRequest(*m.sitting, m.tell))
		}
	case "q":
		return tea.Quit
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
	m.aside, m.told = q, ""
	m.refresh()
	m.result = at
}

// askWhatIf asks what may happen, and adds what it would change to the results
// as their last page.
func (m *model) askWhatIf() {
	if m.sitting.Session.Blank() {
		return
	}
	w, err := newWhatIf(m.sitting.Session, func(p report.Page) {
		m.found = append(m.found, p)
		m.result = len(m.results) + len(m.found)
	})
	if err != nil {
		m.message = firstLine(err)
		return
	}
	m.ask(w)
}

// askPlan asks which plan to hand over. The pages are then drawn anew, and what
// has been found of what may happen, which was figured for another plan, goes.
func (m *model) askPlan() {
	if m.sitting.Session.Blank() {
		return
	}
	q, err := planRequest(*m.sitting, func(plan string) {
		m.results, m.found = nil, nil
		m.show()
		m.tell(planChosen + plan + ".")
	})
	if err != nil {
		m.message = firstLine(err)
		return
	}
	m.ask(q)
}

func (m *model) tell(what string) { m.told = what }
