package report

import (
	"fmt"
	"io"
	"strings"
)

// Markdown draws a page as Markdown, with tables as GitHub and pandoc read them.
// It fails only as the writer does.
func (w Writer) Markdown(out io.Writer, p Page) error {
	var b strings.Builder
	p = p.cleaned()
	fmt.Fprintf(&b, "# %s\n", markdownText(p.Title))
	if p.Subtitle != "" {
		fmt.Fprintf(&b, "\n%s\n", markdownText(p.Subtitle))
	}
	for _, block := range p.Blocks {
		b.WriteByte('\n')
		w.markdownBlock(&b, block)
	}
	_, err := io.WriteString(out, b.String())
	return err
}

func (w Writer) markdownBlock(b *strings.Builder, block Block) {
	switch block := block.(type) {
	case Heading:
		fmt.Fprintf(b, "## %s\n", markdownText(string(block)))
	case Subheading:
		fmt.Fprintf(b, "### %s\n", markdownText(string(block)))
	case Paragraph:
		fmt.Fprintf(b, "%s\n", markdownText(string(block)))
	case Lead:
		fmt.Fprintf(b, "**%s**\n", markdownText(string(block)))
	case Together:
		for i, part := range block {
			if i > 0 {
				b.WriteByte('\n')
			}
			w.markdownBlock(b, part)
		}
	case Entries:
		t := Table{Head: []string{w.say("page.markdown.step"), w.say("page.markdown.label"), w.say("page.markdown.write"), w.say("page.markdown.why")}}
		for _, e := range block {
			t.Rows = append(t.Rows, []string{e.Step, e.Label, e.Write, e.Reason})
		}
		markdownTable(b, t.withoutEmpty(), "---")
	case Rows:
		t := Table{Head: []string{"", w.say("page.markdown.amount"), w.say("page.markdown.line"), w.say("page.markdown.how")}}
		for _, r := range block {
			t.Rows = append(t.Rows, []string{r.Label, r.Amount, r.Form, strings.Join(r.Detail, "; ")})
		}
		markdownTable(b, t.withoutEmpty(), "---", "---:", "---")
	case Table:
		markdownTable(b, block, "---", "---:")
	case List:
		for i, item := range block.Items {
			mark := "-"
			if block.Numbered {
				mark = fmt.Sprintf("%d.", i+1)
			}
			fmt.Fprintf(b, "%s %s\n", mark, markdownText(item))
		}
	case Chain:
		for _, l := range block {
			fmt.Fprintf(b, "%s- %s\n", strings.Repeat("  ", l.Depth), markdownText(strings.Join(append([]string{l.Label + ": " + l.Amount}, l.Detail...), "; ")))
		}
	case Chart:
		t := &textPage{width: Width, unicode: true}
		t.chart(block)
		b.WriteString("```text\n")
		for _, l := range t.lines {
			b.WriteString(strings.ReplaceAll(l.Text, "`", "'") + "\n")
		}
		b.WriteString("```\n")
	}
}

// withoutEmpty is the table without the columns that hold nothing.
func (b Table) withoutEmpty() Table {
	kept := Table{Rows: make([][]string, len(b.Rows))}
	for c, head := range b.Head {
		filled := false
		for _, row := range b.Rows {
			filled = filled || row[c] != ""
		}
		if !filled {
			continue
		}
		kept.Head = append(kept.Head, head)
		for i, row := range b.Rows {
			kept.Rows[i] = append(kept.Rows[i], row[c])
		}
	}
	return kept
}

// markdownTable writes a table; rules are the alignments of its columns, the
// last one for all that follow.
func markdownTable(b *strings.Builder, t Table, rules ...string) {
	row := func(cells []string) {
		fmt.Fprintf(b, "| %s |\n", strings.Join(cells, " | "))
	}
	under := make([]string, len(t.Head))
	for i := range under {
		under[i] = rules[min(i, len(rules)-1)]
	}
	row(each(t.Head, markdownText))
	row(under)
	for _, cells := range t.Rows {
		row(each(cells, markdownText))
	}
}

// markdownText is text that Markdown shows as it is: what it would act on, in
// the middle of a line or at its beginning, is escaped.
func markdownText(s string) string {
	s = markdownEscapes.Replace(s)
	if i := strings.IndexAny(s, ".)"); i > 0 && strings.Trim(s[:i], "0123456789") == "" {
		s = s[:i] + `\` + s[i:]
	}
	if s != "" && strings.ContainsRune("#-+=", rune(s[0])) {
		s = `\` + s
	}
	return s
}

var markdownEscapes = strings.NewReplacer(`\`, `\\`, "`", "\\`", "*", `\*`, "_", `\_`, "[", `\[`, "]", `\]`, "<", "&lt;", ">", "&gt;", "&", "&amp;", "|", `\|`, "~", `\~`)
