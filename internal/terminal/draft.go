package terminal

import (
	"slices"
	"strings"

	"example.com/plumbline/internal/interview"

	"example.com/plumbline/internal/layout"
)

// openSign is written where an entry can still change.
const openSign = "*"

// draftLines are the certificates as they are, as a sheet of paper of a
// width. The one of the job spoken of comes first and whole; of the others what
// is on them besides the filing status. Those that have no room in the
// height are counted.
func (v voice) draftLines(d interview.Draft, about string, s style, width, height int) []string {
	title, legend := v.say("screen.draft.title"), v.say("screen.draft.legend")
	if d.Final {
		title, legend = v.say("screen.draft.final"), v.say("screen.draft.final_legend")
	}
	all := ordered(d.Certificates, about)
	if !d.Final && len(all) > 1 {
		// How the amounts are shared out among the jobs is not known before the
		// end; until then they would jump from one form to the other.
		legend = v.say("screen.draft.shared", "n", len(all))
		all = []interview.DraftCertificate{statusOf(all[0])}
	}
	if slices.ContainsFunc(all, canChange) {
		legend += " " + v.say("screen.draft.open")
	}
	foot := layout.Wrap(legend, width)
	lines := []string{s.accent.Render(title)}
	for i, c := range all {
		var sheet []string
		if len(all) > 1 {
			sheet = append(sheet, layout.Clip(layout.CleanLines(c.Job), width))
		}
		if i == 0 {
			sheet = append(sheet, v.certificateLines(c, s, width)...)
		} else {
			sheet = append(sheet, v.entriesInShort(c, width)...)
		}
		if i > 0 && len(lines)+1+len(sheet)+1+len(foot) > height {
			lines = append(lines, s.muted.Render(v.say("screen.draft.more", "n", len(all)-i)))
			break
		}
		if len(sheet) > 0 {
			lines = append(append(lines, ""), sheet...)
		}
	}
	if len(lines) == 1 && !d.Final {
		foot = layout.Wrap(v.say("screen.draft.nothing"), width)
	}
	lines = append(lines, "")
	for _, l := range foot {
		lines = append(lines, s.muted.Render(l))
	}
	return lines
}

// entriesInShort are what is on a certificate besides the filing status.
func (v voice) entriesInShort(c interview.DraftCertificate, width int) []string {
	if c.Exempt {
		return layout.Wrap(v.say("screen.draft.exempt"), width)
	}
	var entries []string
	for i, l := range c.Lines {
		if i > 0 && l.Text != "" {
			entries = append(entries, l.Line+" "+v.entryText(l))
		}
	}
	if len(entries) == 0 {
		return layout.Wrap(v.say("screen.draft.status_alone"), width)
	}
	return layout.Flow(entries, "; ", width)
}

// canChange reports whether something that is on a certificate can still change.
func canChange(c interview.DraftCertificate) bool {
	return slices.ContainsFunc(c.Lines, func(l interview.DraftLine) bool { return l.Open && l.Text != "" })
}

// statusOf is a certificate with its filing status alone.
func statusOf(c interview.DraftCertificate) interview.DraftCertificate {
	if len(c.Lines) > 1 {
		c.Lines = c.Lines[:1]
	}
	return c
}

// ordered are the certificates with that of the job spoken of first.
func ordered(all []interview.DraftCertificate, about string) []interview.DraftCertificate {
	var first, rest []interview.DraftCertificate
	for _, c := range all {
		if strings.EqualFold(c.Job, about) && len(first) == 0 {
			first = append(first, c)
		} else {
			rest = append(rest, c)
		}
	}
	return append(first, rest...)
}

// certificateLines are one certificate: each step with what is on it, set
// right where it fits beside the label and else under it.
func (v voice) certificateLines(c interview.DraftCertificate, s style, width int) []string {
	if c.Exempt {
		return layout.Wrap(v.say("screen.draft.exempt"), width)
	}
	var lines []string
	for _, l := range c.Lines {
		if l.Text != "" {
			lines = append(lines, v.entryLines(l, s, width)...)
		}
	}
	return lines
}

// entryLines are one step: the label, and at its end on the right what is
// on the step, or under it where that is long. The sign for what can change goes
// with the label then, where no line breaks before it.
func (v voice) entryLines(l interview.DraftLine, s style, width int) []string {
	const indent = 5
	step, text := l.Line, v.entryText(l)
	mark := step + strings.Repeat(" ", max(indent-len(step), 1))
	room, long := width, true
	if layout.Width(text) <= width/3 {
		room, long = width-layout.Width(text)-2, false
	}
	label := l.Label
	if long && l.Open {
		label, text = label+" "+openSign, layout.CleanLines(l.Text)
	}
	lines := layout.Hang(mark, label, room)
	last := len(lines) - 1
	gap := max(width-layout.Width(lines[last])-layout.Width(text), 2)
	for i := range lines {
		lines[i] = s.muted.Render(lines[i])
	}
	if long {
		return append(lines, layout.Hang(strings.Repeat(" ", indent), text, width)...)
	}
	lines[last] += strings.Repeat(" ", gap) + text
	return lines
}

// entryText is what is on a step, with the sign for one that can change.
func (v voice) entryText(l interview.DraftLine) string {
	switch {
	case l.Text == "" && l.Open:
		return openSign
	case l.Text == "":
		return v.say("screen.draft.empty")
	case l.Open:
		return layout.CleanLines(l.Text) + " " + openSign
	}
	return layout.CleanLines(l.Text)
}

// draftInShort is the certificate of the job spoken of in a few lines, for
// where there is no room for the sheet.
func (v voice) draftInShort(d interview.Draft, about string, s style, width int) []string {
	all := ordered(d.Certificates, about)
	if len(all) == 0 {
		return nil
	}
	c := all[0]
	if !d.Final && len(all) > 1 {
		c = statusOf(c)
	}
	head := v.say("screen.draft.title")
	if d.Final {
		head = v.say("screen.draft.final")
	}
	if len(all) > 1 {
		head += ", " + layout.CleanLines(c.Job)
	}
	var steps []string
	for _, l := range c.Lines {
		if l.Text == "" {
			continue
		}
		steps = append(steps, l.Line+" "+v.entryText(l))
	}
	if c.Exempt {
		steps = []string{v.say("screen.draft.exempt")}
	}
	if len(steps) == 0 {
		return nil // nothing is on the form yet
	}
	lines := []string{s.accent.Render(layout.Clip(head, width))}
	return append(lines, layout.Flow(steps, "; ", width)...)
}
