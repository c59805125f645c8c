package terminal

import (
	"slices"
	"strings"

	"example.com/plumbline/internal/interview"

	"example.com/plumbline/internal/layout"
)

// leastField is the least number of lines that a list is cut down to.
func (m *model) leastField() int {
	if m.field.isInput() {
		return 1
	}
	return 5
}

// questionLines are the page of questions in a height. The field with the cursor
// is drawn whole; a list takes the room that is left. Each other field has a line,
// or its question too where there is room for all of them; those for which there
// is none are counted.
func (m *model) questionLines(width, height int, notice bool) []string {
	top, ask, after := m.top(width, notice), m.asked(width), m.after(width, true)
	if len(top)+len(ask)+len(after)+m.field.tall+m.leastOthers() > height {
		after = m.after(width, false)
	}
	if len(top)+len(ask)+len(after)+min(m.field.tall, m.leastField())+m.leastOthers()/2 > height {
		top = nil
		ask, after = m.essential(width)
	}
	room := max(height-len(top)-len(ask)-len(after), 1)
	field := m.field.lines(max(room-m.leastOthers(), min(room-m.leastOthers()/2, m.leastField())))
	above, below := m.others(width, room-len(field), height)
	room -= len(field) + len(above) + len(below)
	lines := append(m.soFarLines(width, room), top...)
	for _, part := range [][]string{above, ask, field, after, below} {
		lines = append(lines, part...)
	}
	return lines
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

// othersHeight is how many lines the fields without the cursor have in short, and
// leastOthers how many it takes to say that they are there.
func (m *model) othersHeight() int { return len(m.fields) - 1 + m.leastOthers()/2 }

func (m *model) leastOthers() (n int) {
	if m.at() > 0 {
		n += 2
	}
	if m.at() < len(m.fields)-1 {
		n += 2
	}
	return n
}

// others are the fields above and below the one with the cursor, in some room.
func (m *model) others(width, room, height int) (above, below []string) {
	at := m.at()
	if m.spacious(width, height) {
		for i, f := range m.fields {
			switch {
			case i < at:
				above = append(append(above, m.whole(f, width)...), "")
			case i > at:
				below = append(append(below, ""), m.whole(f, width)...)
			}
		}
		return above, below
	}
	for i, f := range m.fields {
		switch {
		case i < at:
			above = append(above, m.inShort(f, width))
		case i > at:
			below = append(below, m.inShort(f, width))
		}
	}
	wanted := 0
	if len(below) > 0 {
		wanted = min(len(below)+1, max(room/2, 1))
	}
	above = m.nearest(above, room-wanted, true)
	below = m.nearest(below, room-len(above), false)
	return above, below
}

// nearest are the lines next to the field with the cursor, with an empty one
// between, in some room; a mark says how many have none.
func (m *model) nearest(lines []string, room int, above bool) []string {
	n := len(lines)
	if n == 0 || room < 1 {
		return nil
	}
	if n > room-1 {
		left := n - max(room-2, 0)
		more := m.say("screen.fields.more", "n", left)
		if above {
			lines = append([]string{m.style.muted.Render("^ " + more)}, lines[left:]...)
		} else {
			lines = append(slices.Clone(lines[:n-left]), m.style.muted.Render("v "+more))
		}
	}
	switch {
	case room == 1:
		return lines
	case above:
		return append(lines, "")
	}
	return append([]string{""}, lines...)
}

// inShort is a field without the cursor as a line: a few words and the answer.
func (m *model) inShort(f *field, width int) string {
	style, mark := m.style.muted, ""
	if f.wrong != "" {
		style, mark = m.style.wrong, "! "
	}
	label := layout.Clean(f.question.Label)
	if of := f.question.About; of != m.field.question.About {
		label = m.of(label, of)
	}
	return style.Render(layout.Clip(mark+m.say("screen.review.row", "label", label, "answer", m.standing(f)), width))
}

// whole is a field without the cursor with its question.
func (m *model) whole(f *field, width int) (lines []string) {
	text := layout.CleanLines(f.question.Text)
	if of := f.question.About; of != m.field.question.About {
		text = m.of(text, of)
	}
	for _, l := range layout.Wrap(text, width) {
		lines = append(lines, m.style.muted.Render(l))
	}
	style, mark := m.style.muted, "  "
	if f.wrong != "" {
		style, mark = m.style.wrong, "! "
	}
	return append(lines, style.Render(layout.Clip(mark+m.standing(f), width)))
}

// standing is what is in a field without the cursor.
func (m *model) standing(f *field) string {
	if text := f.shown(); text != "" {
		return layout.Clean(text)
	}
	return m.say("screen.fields.open")
}

// spacious reports whether all questions of the page have room with all of their
// words, wherever the cursor is, so that nothing opens and closes as it moves.
func (m *model) spacious(width, height int) bool {
	if len(m.fields) < 2 {
		return false
	}
	all, most, was := 0, 0, m.field
	for _, f := range m.fields {
		short := len(m.whole(f, width)) + 1
		all += short
		m.field = f
		most = max(most, m.fixedHeight(width, m.noticeShown())+f.tall-short)
	}
	m.field = was
	return all+most <= height
}

// top are the lines above the fields: what the answers so far have led to, and
// whom the page is about.
func (m *model) top(width int, notice bool) (lines []string) {
	if notice {
		lines = append(m.noticeLines(width), "")
	}
	if line := m.aboutLine(m.field.question); line != "" {
		for _, l := range layout.Wrap(line, width) {
			lines = append(lines, m.style.muted.Render(l))
		}
	}
	return lines
}

// asked are the words of the question with the cursor.
func (m *model) asked(width int) (lines []string) {
	for _, l := range layout.Wrap(layout.CleanLines(m.field.question.Text), width) {
		lines = append(lines, m.style.title.Render(l))
	}
	return append(lines, "")
}

// after are the lines under the field with the cursor. Where there is room, they
// are as many for every option of a list, so that nothing moves with the cursor.
func (m *model) after(width int, room bool) (lines []string) {
	q := m.field.question
	lines = m.optionLines(width, room)
	for _, l := range layout.Wrap(m.manner(q), width) {
		lines = append(lines, m.style.muted.Render(l))
	}
	for _, l := range layout.Wrap(m.origin(q), width) {
		if q.Answer != "" && !m.field.asBefore() {
			l = "" // Enter does not keep it
		}
		lines = append(lines, m.style.muted.Render(l))
	}
	if len(lines) > 0 {
		lines = append([]string{""}, lines...)
	}
	return append(lines, m.problemLines(width)...)
}

// fixedHeight is the height of all but the fields themselves.
func (m *model) fixedHeight(width int, notice bool) int {
	return len(m.top(width, notice)) + len(m.asked(width)) + len(m.after(width, true))
}

// essential are the lines around the field that must be seen: the question, and
// what is wrong with the answer.
func (m *model) essential(width int) (ask, after []string) {
	ask = m.asked(width)
	return ask[:len(ask)-1], m.problemLines(width)
}

// problemLines are what is wrong, if anything is.
func (m *model) problemLines(width int) []string {
	problem := m.field.wrong
	if problem == "" {
		problem = m.problem()
	}
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

// optionLines are what can be said of the option at the cursor, in as many lines
// as the longest help of an option has where there is room for that.
func (m *model) optionLines(width int, room bool) []string {
	lines := layout.Wrap(m.field.help(), width)
	for i := range lines {
		lines[i] = m.style.muted.Render(lines[i])
	}
	if room {
		for _, o := range m.field.question.Options {
			for range len(layout.Wrap(layout.CleanLines(o.Help), width)) - len(lines) {
				lines = append(lines, "")
			}
		}
	}
	return lines
}

// manner is what to say about how an answer is given.
func (v voice) manner(q interview.Question) string {
	if _, _, has := yesAndNo(q); has {
		return v.say("screen.hint.yes_no")
	}
	switch q.Kind {
	case interview.Amount:
		if q.Hours {
			return v.say("screen.hint.hours")
		}
		return v.say("screen.hint.amount")
	case interview.Whole:
		if q.Month {
			return v.say("screen.hint.month")
		}
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
	return strings.TrimSpace(v.prefilled(q) + " " + layout.CleanLines(q.IfUnknown))
}

// prefilled says where the answer comes from that the field begins with.
func (v voice) prefilled(q interview.Question) string {
	switch {
	case q.Again:
		return v.say("screen.origin.again")
	case q.Answer != "":
		return v.say("screen.origin.kept")
	case q.Default != "" && q.DefaultReason != "" && q.Kind != interview.Several: // else the cursor or the prompt says it
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

// helpLines are why the question is asked and where the answer is found.
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

// noticeShown reports whether the notice is above the question: there is
// one, and it has not been read on a page of its own.
func (m *model) noticeShown() bool {
	notice := m.field.question.Notice
	return notice != "" && (notice != m.noticed || m.fits(true))
}

// fits reports whether the question has room on the screen, with or without its
// notice, and with the help where it is below. What is wrong with an answer
// does not count: a question that has been seen never goes behind its notice
// again, where Enter would answer nothing.
func (m *model) fits(notice bool) bool {
	need := m.fixedHeight(m.questionWidth(), notice) - len(m.problemLines(m.questionWidth()))
	need += min(m.field.tall, m.leastField()) + min(len(m.fields)-1, 2) // and a mark for the fields above and below
	if m.helping && (m.width < wide || !m.hasPanel()) {
		need += len(m.helpLines(m.questionWidth())) + 1
	}
	return need <= m.bodyHeight()
}

// paged reports whether a page comes before the question, because both do not
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
