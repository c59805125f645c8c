package terminal

import (
	"strings"

	tea "github.com/charmbracelet/bubbletea"

	"example.com/plumbline/internal/interview"

	"example.com/plumbline/internal/layout"
	"example.com/plumbline/internal/words"
)

// reviewList is the page of all answers.
type reviewList struct {
	rows []interview.Answered
	at   int // the row of the cursor
}

// openReview goes to the page of all answers.
func (m *model) openReview() {
	if !m.hasPanel() {
		return
	}
	m.review.rows = m.sitting.Session.Review()
	if len(m.review.rows) == 0 {
		return
	}
	m.review.at = min(m.review.at, len(m.review.rows)-1)
	if m.field != nil && m.view == asking {
		for i, row := range m.review.rows {
			if row.Key == m.field.question.Key {
				m.review.at = i
			}
		}
	}
	m.view, m.message, m.helping = reviewing, "", false
}

func (m *model) reviewKey(k tea.KeyMsg) {
	last := len(m.review.rows) - 1
	m.message = ""
	switch k.String() {
	case "up", "k":
		m.review.at = max(m.review.at-1, 0)
	case "down", "j":
		m.review.at = min(m.review.at+1, last)
	case "pgup":
		m.review.at = max(m.review.at-m.bodyHeight(), 0)
	case "pgdown", " ":
		m.review.at = min(m.review.at+m.bodyHeight(), last)
	case "home", "g":
		m.review.at = 0
	case "end", "G":
		m.review.at = last
	case "enter":
		if !m.sitting.Session.GoTo(m.review.rows[m.review.at].Key) {
			m.message = m.say("screen.open_before")
			return
		}
		m.save()
		m.opened = m.sitting.Session.Behind()
		m.refresh()
	case "esc", "ctrl+r", "shift+tab":
		m.view = asking
		m.refresh()
	}
}

// reviewLines are all answers by chapter.
func (m *model) reviewLines(height int) []string {
	width := min(m.drawnWidth(), 80)
	var foot []string
	if m.message != "" {
		for _, l := range layout.Hang("! ", layout.CleanLines(m.message), width) {
			foot = append(foot, m.style.wrong.Render(l))
		}
	}
	var lines []string
	first, tall := 0, 1
	chapter := ""
	for i, row := range m.review.rows {
		if row.Chapter != chapter {
			if chapter != "" {
				lines = append(lines, "")
			}
			lines = append(lines, m.style.accent.Render(layout.CleanLines(row.Chapter)))
			chapter = row.Chapter
		}
		mark := "  "
		if i == m.review.at {
			mark = "> "
		}
		shown := layout.Hang(mark, layout.CleanLines(m.reviewText(row)), width)
		if i == m.review.at {
			first, tall = len(lines), len(shown)
			for j := range shown {
				shown[j] = m.style.title.Render(shown[j])
			}
		}
		lines = append(lines, shown...)
	}
	return append(m.window(lines, first, tall, height-len(foot), m.style), foot...)
}

// of is the label of a question with whom or what it is about.
func (v voice) of(label, about string) string {
	if about == "" || strings.Contains(words.Fold(label), words.Fold(about)) {
		return label
	}
	return v.say("screen.review.about", "label", label, "about", layout.Clean(about))
}

// reviewText is one answer in a line.
func (v voice) reviewText(row interview.Answered) string {
	label := v.of(row.Label, row.About)
	answer := row.Answer
	switch {
	case row.Answer == "":
		answer = v.say("screen.review.open")
	case row.Open:
		answer = v.say("screen.review.confirm", "answer", row.Answer)
	}
	return v.say("screen.review.row", "label", label, "answer", answer)
}
