package terminal

import (
	"slices"
	"strings"

	"github.com/charmbracelet/lipgloss"
	"github.com/charmbracelet/x/ansi"

	"example.com/plumbline/internal/layout"
	"example.com/plumbline/internal/words"
)

// Widths in columns.
const (
	wide      = 76 // from here on the draft is beside the question
	widest    = 110
	sheet     = 33 // the draft beside the question
	minWidth  = 30
	minLines  = 8
	lowScreen = 16 // below it, in lines, the keys have one line
)

// View implements tea.Model: a line that says where one is, the body, and the
// keys.
func (m *model) View() string {
	switch {
	case m.start != nil:
		return ""
	case m.tooSmall():
		return m.tooSmallLines()
	}
	var body []string
	switch {
	case m.leaving:
		body = m.leavingLines()
	case m.view == reviewing:
		body = m.reviewLines(m.bodyHeight())
	case m.view == showing:
		body = m.resultLines(m.bodyHeight())
	case m.field == nil:
	case m.paged():
		body = m.scrolled(m.pageLines(), m.bodyHeight())
	case m.width >= wide && m.hasPanel():
		body = m.besideLines(m.bodyHeight())
	default:
		body = m.stackedLines(m.bodyHeight())
	}
	for len(body) < m.bodyHeight() {
		body = append(body, "")
	}
	lines := append(m.head(), body[:m.bodyHeight()]...)
	lines = append(lines, m.keys()...)
	for i, line := range lines {
		lines[i] = ansi.Truncate(line, m.width, "")
	}
	return strings.Join(lines, "\n")
}

// tooSmallLines ask for a larger window, in as much of this one as that takes; a
// few dots where it has no room for the words.
func (m *model) tooSmallLines() string {
	lines := layout.Wrap(m.say("screen.too_small"), m.width)
	for _, word := range strings.Fields(m.say("screen.too_small")) {
		if len(lines) > m.height || layout.Width(word) > m.width {
			return strings.Repeat(".", min(m.width, 3))
		}
	}
	return strings.Join(lines, "\n")
}

// tooSmall reports whether the screen has no room for what must be seen: a
// question with its answer, or a few lines of a page.
func (m *model) tooSmall() bool {
	if m.width < minWidth || m.height < minLines {
		return true
	}
	if m.leaving || m.view != asking || m.field == nil || m.paged() {
		return false
	}
	ask, after := m.essential(m.questionWidth())
	return len(ask)+len(after)+min(m.field.tall, m.leastField()) > m.bodyHeight()
}

// drawnWidth is the width that is made use of: very long lines are hard to
// read.
func (m *model) drawnWidth() int { return min(m.width, widest) }

// bodyHeight is the room between the head and the keys, each with its rule.
func (m *model) bodyHeight() int { return max(m.height-3-len(m.keyRows(m.viewKeys())), 1) }

// hasPanel reports whether there is a draft to show: there is none while the
// place of the answers is asked for.
func (m *model) hasPanel() bool { return m.sitting != nil && m.aside == nil }

// questionWidth is the width of the question.
func (m *model) questionWidth() int {
	if m.width >= wide && m.sitting != nil && m.aside == nil {
		return m.drawnWidth() - sheet - 3
	}
	return min(m.drawnWidth(), 80)
}

// head is the line that says where one is, and a rule.
func (m *model) head() []string {
	left, right := m.say("screen.program"), ""
	switch {
	case m.view == reviewing:
		left = m.say("screen.review.title")
	case m.view == showing && len(m.results) > 0:
		return []string{ansi.Truncate(m.tabs(), m.drawnWidth(), ""), m.rule(m.drawnWidth())}
	case m.field != nil:
		left = layout.CleanLines(m.field.question.Chapter)
		if m.hasPanel() {
			right = m.say("screen.part", "n", m.progress.Done+1, "most", m.progress.Done+m.progress.Left)
		}
	}
	if m.sitting != nil && m.sitting.Visitor {
		right = strings.TrimSpace(m.say("visitor.mode") + "  " + right)
	}
	gap := m.drawnWidth() - layout.Width(left) - layout.Width(right)
	line := m.style.title.Render(layout.Clip(left, m.drawnWidth()))
	if gap >= 2 {
		line += strings.Repeat(" ", gap) + m.style.muted.Render(right)
	}
	return []string{line, m.rule(m.drawnWidth())}
}

func (m *model) rule(width int) string {
	across, _ := lineSigns()
	return m.style.rule.Render(strings.Repeat(across, width))
}

// lineSigns are what lines across and down are drawn with.
func lineSigns() (across, down string) {
	if Unicode() {
		return "─", "│"
	}
	return "-", "|"
}

// besideLines are the question with the draft, or the help, beside it.
func (m *model) besideLines(height int) []string {
	left := m.questionLines(m.questionWidth(), height, m.noticeShown())
	right := m.panel(sheet, height)
	lines := make([]string, height)
	_, down := lineSigns()
	bar := m.style.rule.Render(down)
	for i := range lines {
		var l, r string
		if i < len(left) {
			l = left[i]
		}
		if i < len(right) {
			r = right[i]
		}
		lines[i] = l + strings.Repeat(" ", max(m.questionWidth()-layout.Width(l), 0)) + " " + bar + " " + r
	}
	return lines
}

// panel is what is beside the question.
func (m *model) panel(width, height int) []string {
	if m.helping {
		return m.helpLines(width)
	}
	return m.draftLines(m.draft, m.field.question.About, m.style, width, height)
}

// stackedLines are the question with the draft in short, or the help, below it.
func (m *model) stackedLines(height int) []string {
	var below []string
	switch {
	case m.helping:
		below = m.helpLines(m.questionWidth())
	case m.hasPanel():
		below = m.draftInShort(m.draft, m.field.question.About, m.style, m.questionWidth())
	}
	if !m.helping && m.fixedHeight(m.questionWidth(), m.noticeShown())+m.field.tall+m.othersHeight()+len(below)+1 > height {
		below = nil // the questions come first, with the whole of the list
	}
	if len(below) > 0 {
		below = append([]string{m.rule(m.questionWidth())}, below...)
	}
	lines := m.questionLines(m.questionWidth(), height-len(below), m.noticeShown())
	for len(lines) < height-len(below) {
		lines = append(lines, "")
	}
	return append(lines, below...)
}

// scrolled is the part of a page that is on the screen.
func (m *model) scrolled(lines []string, height int) []string {
	m.scroll = max(min(m.scroll, len(lines)-height), 0)
	end := min(m.scroll+height, len(lines))
	cut := append([]string(nil), lines[m.scroll:end]...)
	if end < len(lines) {
		cut[len(cut)-1] = m.style.muted.Render("v " + m.say("screen.more_below"))
	}
	if m.scroll > 0 {
		cut[0] = m.style.muted.Render("^ " + m.say("screen.more_above"))
	}
	return cut
}

// keys are the keys that can be pressed now, in as many lines as they need.
func (m *model) keys() []string {
	if !m.leaving && m.view == asking && m.field != nil && m.paged() {
		keys := []hint{{"enter", "go_on"}, {"up/down", "scroll"}, {"esc", "back"}}
		if m.first {
			keys = m.withLanguage(keys, firstKeys)
		}
		lines := m.keyLines(keys)
		for len(lines) < len(m.keyLines(m.viewKeys())) {
			lines = append(lines, "")
		}
		return lines
	}
	return m.keyLines(m.viewKeys())
}

// A hint is a key and, by its code, what it does.
type hint struct{ key, does string }

// viewKeys are the keys of the view. They depend on nothing but the question,
// since the room for the question depends on them.
func (m *model) viewKeys() []hint {
	switch {
	case m.leaving:
		return []hint{{"enter", "end_visit"}, {"esc", "back"}}
	case m.view == reviewing:
		return []hint{{"enter", "change"}, {"esc", "back"}, {"up/down", "move"}, {"ctrl+c", m.quits()}}
	case m.view == showing:
		return m.withLanguage(m.resultKeys(), len(m.resultKeys()))
	case m.field == nil:
		return nil
	}
	keys := []hint{{"enter", "next"}, {"esc", "back"}, {strings.ToUpper(m.helpKey()), "why"}}
	if len(m.fields) > 1 {
		keys = slices.Insert(keys, 1, hint{"up/down", "move"})
	}
	if m.hasPanel() {
		keys = append(keys, hint{"ctrl+r", "all"})
	}
	if m.behind() {
		keys = append(keys, hint{"ctrl+g", "skip_ahead"})
	}
	keys = append(keys, hint{"ctrl+c", m.quits()})
	if m.first {
		keys = m.withLanguage(keys, firstKeys)
	}
	return keys
}

// quits is what the keys do that end the sitting.
func (m *model) quits() string {
	switch {
	case m.sitting != nil && m.sitting.Visitor:
		return "end_visit"
	case m.sitting != nil && m.sitting.File != "" && m.view != showing:
		return "save_quit"
	}
	return "quit"
}

// firstKeys are the keys that are seen on a low screen too.
const firstKeys = 3

// withLanguage puts the key that changes the language at a place among the keys,
// where there are several.
func (m *model) withLanguage(keys []hint, at int) []hint {
	if m.next() == nil {
		return keys
	}
	return slices.Insert(keys, at, hint{"ctrl+l", changesLanguage})
}

// changesLanguage is what a key does that is told in the language it leads to.
const changesLanguage = "language"

// keyLabel is what a key is called; most have their name on them.
func (m *model) keyLabel(key string) string {
	if code, ok := arrows[key]; ok {
		return m.say("screen.arrows." + code)
	}
	return key
}

var arrows = map[string]string{"up/down": "up_down", "left/right": "left_right"}

func (m *model) keyName(k hint) string {
	code := "screen.key." + k.does
	if k.does == changesLanguage {
		return m.next().Say(words.T(code))
	}
	return m.say(code)
}

// keyRows are keys by the line on which they are shown.
func (m *model) keyRows(keys []hint) [][]hint {
	rows, at := [][]hint{nil}, 0
	for _, k := range keys {
		size := layout.Width(m.keyLabel(k.key)) + 1 + layout.Width(m.keyName(k))
		if at > 0 && at+keyGap+size > m.drawnWidth() {
			rows, at = append(rows, nil), 0
		}
		if at > 0 {
			size += keyGap
		}
		rows[len(rows)-1] = append(rows[len(rows)-1], k)
		at += size
	}
	if m.height < lowScreen {
		rows = rows[:1] // the question has more need of the room
	}
	return rows
}

const keyGap = 3 // columns between two keys

// keyLines are keys set in lines, under a rule.
func (m *model) keyLines(keys []hint) []string {
	bold := lipgloss.NewStyle().Bold(true)
	lines := []string{m.rule(m.drawnWidth())}
	for _, row := range m.keyRows(keys) {
		var shown []string
		for _, k := range row {
			shown = append(shown, bold.Render(m.keyLabel(k.key))+" "+m.style.muted.Render(m.keyName(k)))
		}
		lines = append(lines, strings.Join(shown, layout.Spaces(keyGap)))
	}
	return lines
}
