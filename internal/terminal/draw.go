package terminal

import (
	"strings"

	"github.com/charmbracelet/lipgloss"
	"github.com/charmbracelet/x/ansi"

	"example.com/plumbline/internal/interview"

	"example.com/plumbline/internal/layout"
)

// Widths in columns.
const (
	wide     = 76 // from here on the draft stands beside the question
	widest   = 110
	sheet    = 33 // the draft beside the question
	minWidth = 30
	minLines = 8
)

// View implements tea.Model: a line that says where one is, the body, and the
// keys.
func (m *model) View() string {
	switch {
	case m.start != nil:
		return ""
	case m.tooSmall():
		return strings.Join(layout.Wrap(m.say("screen.too_small"), m.width), "\n")
	}
	var body []string
	switch {
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

// tooSmall reports whether the screen has no room for what must be seen: a
// question with its answer, or a few lines of a page.
func (m *model) tooSmall() bool {
	if m.width < minWidth || m.height < minLines {
		return true
	}
	if m.view != asking || m.field == nil || m.paged() {
		return false
	}
	before, after := m.essential(m.questionWidth())
	return len(before)+len(after)+min(m.field.height(), m.leastField()) > m.bodyHeight()
}

// drawnWidth is the width that is made use of: very long lines are hard to
// read.
func (m *model) drawnWidth() int { return min(m.width, widest) }

// bodyHeight is the room between the head and the keys.
func (m *model) bodyHeight() int { return max(m.height-2-len(m.keyLines(m.viewKeys())), 1) }

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
	gap := m.drawnWidth() - layout.Width(left) - layout.Width(right)
	line := m.style.title.Render(layout.Clip(left, m.drawnWidth()))
	if gap >= 2 {
		line += strings.Repeat(" ", gap) + m.style.muted.Render(right)
	}
	return []string{line, m.rule(m.drawnWidth())}
}

func (m *model) rule(width int) string {
	return m.style.rule.Render(strings.Repeat("─", width))
}

// besideLines are the question with the draft, or the help, beside it.
func (m *model) besideLines(height int) []string {
	left := m.questionLines(m.questionWidth(), height, m.noticeShown())
	right := m.panel(sheet, height)
	lines := make([]string, height)
	bar := m.style.rule.Render("│")
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

// panel is what stands beside the question.
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
	need := len(m.questionFixed(m.questionWidth(), m.noticeShown())) + m.field.height()
	if !m.helping && need+len(below)+1 > height {
		below = nil // the question comes first, with the whole of its list
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

// leastField is the least number of lines that a list is cut down to.
func (m *model) leastField() int {
	if m.field.isInput() {
		return 1
	}
	return 5
}

// questionLines are the question and its field in a height; a list takes the
// room that is left.
func (m *model) questionLines(width, height int, notice bool) []string {
	before, after := m.around(width, notice)
	if len(before)+len(after)+min(m.field.height(), m.leastField()) > height {
		before, after = m.essential(width)
	}
	room := max(height-len(before)-len(after), 1)
	field := m.field.lines(room)
	spare := room - len(field)
	lines := append(m.soFarLines(width, spare), before...)
	spare -= len(lines) - len(before)
	lines = append(append(lines, field...), after...)
	return append(lines, m.comingLines(width, spare)...)
}

// soFarLines are the answers given before in this part, the last ones where there
// is no room for all; the up arrow leads to them.
func (m *model) soFarLines(width, room int) []string {
	rows := m.soFar
	if len(rows) == 0 || room < 2 {
		return nil
	}
	if most := room - 1; len(rows) > most {
		rows = rows[len(rows)-most:]
	}
	var lines []string
	for _, row := range rows {
		lines = append(lines, m.style.muted.Render(layout.Clip(row, width)))
	}
	return append(lines, "")
}

// comingLines are the questions that follow on the same page, where there is room
// for all.
func (m *model) comingLines(width, room int) []string {
	if len(m.coming) == 0 || room < len(m.coming)+1 {
		return nil
	}
	lines := []string{""}
	for _, label := range m.coming {
		lines = append(lines, m.style.muted.Render(layout.Clip(label+": ...", width)))
	}
	return lines
}

// questionFixed are the lines around the field.
func (m *model) questionFixed(width int, notice bool) []string {
	before, after := m.around(width, notice)
	return append(before, after...)
}

// around are the lines before and after the field.
func (m *model) around(width int, notice bool) (before, after []string) {
	q := m.field.question
	if notice {
		before = append(before, m.noticeLines(width)...)
		before = append(before, "")
	}
	if line := m.aboutLine(q); line != "" {
		for _, l := range layout.Wrap(line, width) {
			before = append(before, m.style.muted.Render(l))
		}
	}
	for _, l := range layout.Wrap(layout.CleanLines(q.Text), width) {
		before = append(before, m.style.title.Render(l))
	}
	before = append(before, "")
	after = append(after, m.optionLines(width)...)
	for _, text := range []string{m.manner(q.Kind), m.origin(q)} {
		for _, l := range layout.Wrap(text, width) {
			after = append(after, m.style.muted.Render(l))
		}
	}
	if len(after) > 0 {
		after = append([]string{""}, after...)
	}
	return before, append(after, m.problemLines(width)...)
}

// essential are the lines around the field that must be seen: the question, and
// what is wrong with the answer.
func (m *model) essential(width int) (before, after []string) {
	for _, l := range layout.Wrap(layout.CleanLines(m.field.question.Text), width) {
		before = append(before, m.style.title.Render(l))
	}
	return before, m.problemLines(width)
}

// problemLines are what is wrong, if anything is.
func (m *model) problemLines(width int) []string {
	problem := m.problem()
	if problem == "" {
		return nil
	}
	lines := []string{""}
	for _, l := range layout.Hang("! ", layout.CleanLines(problem), width) {
		lines = append(lines, m.style.wrong.Render(l))
	}
	return lines
}

// aboutLine says whose question it is and what it bears on.
func (v voice) aboutLine(q interview.Question) string {
	var parts []string
	if q.About != "" {
		parts = append(parts, layout.CleanLines(q.About)+".")
	}
	if q.FormLine != "" {
		parts = append(parts, v.say("screen.on_the_form", "line", q.FormLine))
	}
	return strings.Join(parts, " ")
}

// optionLines are what can be said of the option at the cursor. They are as
// many for every option, so that nothing moves with the cursor.
func (m *model) optionLines(width int) []string {
	most := 0
	for _, o := range m.field.question.Options {
		most = max(most, len(layout.Wrap(layout.CleanLines(o.Help), width)))
	}
	lines := make([]string, most)
	for i, l := range layout.Wrap(m.field.help(), width) {
		lines[i] = m.style.muted.Render(l)
	}
	return lines
}

// manner is what to say about how an answer is given.
func (v voice) manner(k interview.Kind) string {
	switch k {
	case interview.YesNo:
		return v.say("screen.hint.yes_no")
	case interview.Amount:
		return v.say("screen.hint.amount")
	case interview.Whole:
		return v.say("screen.hint.whole")
	case interview.Day:
		return v.say("screen.hint.day")
	case interview.Several:
		return v.say("screen.hint.several")
	}
	return ""
}

// origin is where the answer comes from that is filled in already; empty when
// there is none.
func (v voice) origin(q interview.Question) string {
	switch {
	case q.Again:
		return v.say("screen.origin.again")
	case q.Answer != "":
		return v.say("screen.origin.kept")
	case q.Default != "" && q.Kind != interview.Several:
		return strings.TrimSpace(v.say("screen.origin.suggested", "answer", label(q, q.Default), "why", layout.CleanLines(q.DefaultReason)))
	}
	return ""
}

// label is an answer as it is offered.
func label(q interview.Question, value string) string {
	for _, o := range q.Options {
		if o.Value == value {
			return layout.CleanLines(o.Label)
		}
	}
	return layout.CleanLines(value)
}

// noticeLines are what the answers so far have led to.
func (m *model) noticeLines(width int) []string {
	var lines []string
	for text := range strings.SplitSeq(layout.CleanLines(m.field.question.Notice), "\n") {
		for _, l := range layout.Wrap(text, width-2) {
			lines = append(lines, m.style.accent.Render("| ")+l)
		}
	}
	return lines
}

// helpLines are why the question is asked and where the answer stands.
func (m *model) helpLines(width int) []string {
	q := m.field.question
	var lines []string
	part := func(title, text string) {
		if text == "" {
			return
		}
		if len(lines) > 0 {
			lines = append(lines, "")
		}
		lines = append(lines, m.style.accent.Render(title))
		lines = append(lines, layout.Wrap(layout.CleanLines(text), width)...)
	}
	part(m.say("screen.help.why"), q.Why)
	part(m.say("screen.help.where"), q.Where)
	if len(lines) == 0 {
		return []string{m.say("screen.help.none")}
	}
	return lines
}

// noticeShown reports whether the notice stands above the question: there is
// one, and it has not been read on a page of its own.
func (m *model) noticeShown() bool {
	notice := m.field.question.Notice
	return notice != "" && (notice != m.noticed || m.fits(true))
}

// fits reports whether the question has room on the screen, with or without its
// notice, and with the help where it stands below.
func (m *model) fits(notice bool) bool {
	need := len(m.questionFixed(m.questionWidth(), notice)) + min(m.field.height(), m.leastField())
	if m.helping && (m.width < wide || !m.hasPanel()) {
		need += len(m.helpLines(m.questionWidth())) + 1
	}
	return need <= m.bodyHeight()
}

// paged reports whether a page stands before the question, because both do not
// fit on the screen: the help that was asked for, or a long notice.
func (m *model) paged() bool {
	if m.helping {
		beside := m.width >= wide && m.hasPanel()
		return beside && len(m.helpLines(sheet)) > m.bodyHeight() || !m.fits(m.noticeShown())
	}
	notice := m.field.question.Notice
	return notice != "" && notice != m.noticed && !m.fits(true)
}

// pageLines are that page.
func (m *model) pageLines() []string {
	width := min(m.drawnWidth(), 80)
	if m.helping {
		lines := []string{}
		for _, l := range layout.Wrap(layout.CleanLines(m.field.question.Text), width) {
			lines = append(lines, m.style.title.Render(l))
		}
		return append(append(lines, ""), m.helpLines(width)...)
	}
	return append([]string{m.style.title.Render(m.say("screen.notice.title")), ""}, m.noticeLines(width)...)
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
	if m.view == asking && m.field != nil && m.paged() {
		lines := m.keyLines([]hint{{"enter", "go_on"}, {"up/down", "scroll"}, {"esc", "back"}})
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
	case m.view == reviewing:
		return []hint{{"enter", "change"}, {"esc", "back"}, {"up/down", "move"}, {"ctrl+c", "save_quit"}}
	case m.view == showing:
		return m.resultKeys()
	case m.field == nil:
		return nil
	}
	keys := []hint{{"enter", "next"}, {"esc", "back"}, {strings.ToUpper(m.helpKey()), "why"}}
	if m.hasPanel() {
		keys = append(keys, hint{"ctrl+r", "all"})
	}
	if m.sitting != nil && m.sitting.File != "" {
		return append(keys, hint{"ctrl+c", "save_quit"})
	}
	return append(keys, hint{"ctrl+c", "quit"})
}

// keyLines are keys set in lines, under a rule.
func (m *model) keyLines(keys []hint) []string {
	const gap = 3
	bold := lipgloss.NewStyle().Bold(true)
	lines, at := []string{""}, 0
	for _, k := range keys {
		does := m.say("screen.key." + k.does)
		size := layout.Width(k.key) + 1 + layout.Width(does)
		if at > 0 && at+gap+size > m.drawnWidth() {
			lines, at = append(lines, ""), 0
		}
		if at > 0 {
			size += gap
			lines[len(lines)-1] += strings.Repeat(" ", gap)
		}
		lines[len(lines)-1] += bold.Render(k.key) + " " + m.style.muted.Render(does)
		at += size
	}
	return append([]string{m.rule(m.drawnWidth())}, lines...)
}
