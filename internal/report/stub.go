package report

import (
	"example.com/plumbline/internal/paystub"
	"example.com/plumbline/internal/words"
)

// mostExplanations is how many explanations of a stub are printed.
const mostExplanations = 4

// Stubs is each job's pay stub beside the certificate on file: what should be on
// it, what is, what would explain the difference, and what to ask payroll.
func Stubs(stubs []paystub.Stub) Page {
	say := words.English().Say
	p := Page{Title: say(words.T("stub.title")), Subtitle: say(words.T("stub.subtitle"))}
	for _, s := range stubs {
		p.AsOf = s.Payday
		p.add(Heading(shortName(s.Name)), Paragraph(say(stubBasis(s))))
		p.add(stubQuestions(s)...)
		p.add(stubTable(s))
		p.add(stubVerdict(s)...)
	}
	p.add(Paragraph(estimateCaution))
	return p
}

func stubBasis(s paystub.Stub) words.Text {
	switch {
	case s.Basis == paystub.YearToDate:
		return words.T("stub.basis.year", "payday", s.Payday, "paychecks", s.Paychecks)
	case s.Payday.IsZero():
		return words.T("stub.basis.no_date")
	}
	return words.T("stub.basis.paycheck", "payday", s.Payday)
}

// stubQuestions are figures of the stub that cannot be right together.
func stubQuestions(s paystub.Stub) []Block {
	if len(s.Questions) == 0 {
		return nil
	}
	return []Block{Paragraph(words.English().Say(words.T("stub.questions"))), List{Items: said(s.Questions)}}
}

// said are texts as people read them.
func said(texts []words.Text) []string {
	all := make([]string, len(texts))
	for i, t := range texts {
		all[i] = words.English().Say(t)
	}
	return all
}

func stubTable(s paystub.Stub) Table {
	t := Table{Head: append([]string{""}, said([]words.Text{words.T("stub.column.should_be"), words.T("stub.column.on_stub"), words.T("stub.column.apart")})...)}
	row := func(label words.Text, c *paystub.Check) {
		if c != nil {
			t.Rows = append(t.Rows, []string{words.English().Say(label), c.Expected.Grouped(), c.Actual.Grouped(), words.English().Say(apart(*c))})
		}
	}
	if !s.Unread.IsZero() {
		t.Rows = append(t.Rows, append(said([]words.Text{words.T("stub.row.federal"), words.T("stub.cell.not_known")}), s.FederalTax.Actual.Grouped(), ""))
	} else {
		row(words.T("stub.row.federal"), &s.FederalTax)
	}
	row(words.T("stub.row.social_security"), s.SocialSecurity)
	row(words.T("stub.row.medicare"), s.Medicare)
	return t
}

func apart(c paystub.Check) words.Text {
	switch {
	case c.Right:
		return words.T("stub.cell.right")
	case c.Actual.More(c.Expected):
		return words.T("stub.cell.too_much", "amount", c.Actual.Sub(c.Expected))
	}
	return words.T("stub.cell.too_little", "amount", c.Expected.Sub(c.Actual))
}

// stubVerdict is what would explain the stub, and what to ask.
func stubVerdict(s paystub.Stub) []Block {
	var blocks []Block
	paragraph := func(t words.Text) { blocks = append(blocks, Paragraph(words.English().Say(t))) }
	switch {
	case !s.Unread.IsZero():
		paragraph(s.Unread)
	case s.FederalTax.Right && len(s.Explanations) > 0:
		paragraph(words.T("stub.verdict.right_before", "what", s.Explanations[0].What))
	case s.FederalTax.Right:
		paragraph(words.T("stub.verdict.right"))
	case len(s.Explanations) == 0:
		paragraph(words.T("stub.verdict.unexplained"))
	default:
		list := List{Numbered: true}
		for _, e := range s.Explanations[:min(len(s.Explanations), mostExplanations)] {
			list.Items = append(list.Items, words.English().Say(explanation(e)))
		}
		paragraph(words.T("stub.verdict.explained"))
		blocks = append(blocks, list)
	}
	for _, c := range []struct {
		row   words.Text
		check *paystub.Check
	}{{words.T("stub.row.social_security"), s.SocialSecurity}, {words.T("stub.row.medicare"), s.Medicare}} {
		if c.check != nil && !c.check.Why.IsZero() {
			paragraph(words.T("stub.verdict.about", "row", c.row, "why", c.check.Why))
		}
	}
	switch len(s.Ask) {
	case 0:
	case 1:
		paragraph(words.T("stub.verdict.ask", "question", s.Ask[0]))
	default:
		paragraph(words.T("stub.verdict.ask_each"))
		blocks = append(blocks, List{Items: said(s.Ask)})
	}
	return blocks
}

func explanation(e paystub.Explanation) words.Text {
	yes := map[bool]string{true: "yes", false: "no"}
	return words.T("stub.explanation.text", "what", e.What, "figure", e.Figure, "off", e.Off, "exact", yes[e.Exact], "allowed", yes[e.Allowed])
}
