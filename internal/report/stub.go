package report

import (
	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/paystub"
	"example.com/plumbline/internal/words"
)

// mostExplanations is how many explanations of a stub are printed.
const mostExplanations = 4

// StubsOf is the last stubs of a result's household, checked; a page without
// blocks where there are none.
func (w Writer) StubsOf(r certificate.Result) Page {
	p := w.page(StubPage, r, w.say("stub.title"))
	if stubs := r.Stubs(); len(stubs) > 0 {
		p.Blocks = w.Stubs(stubs).Blocks
	}
	return p
}

// Stubs is each job's pay stub beside the certificate on file: what should be on
// it, what is, what would explain the difference, and what to ask payroll.
func (w Writer) Stubs(stubs []paystub.Stub) Page {
	say := w.language.Say
	p := Page{Kind: StubPage, Title: say(words.T("stub.title")), Subtitle: say(words.T("stub.subtitle"))}
	for _, s := range stubs {
		p.AsOf = s.Payday
		p.add(Heading(shortName(s.Name)), Paragraph(say(stubBasis(s))))
		p.add(Paragraph(say(stubVerdict(s))))
		if !s.Varies.IsZero() && s.Unread.IsZero() {
			p.add(Paragraph(say(s.Varies)))
		}
		p.add(w.stubQuestions(s)...)
		p.add(w.stubTable(s))
		p.add(w.stubReasons(s)...)
	}
	p.add(w.estimate())
	return p
}

func stubBasis(s paystub.Stub) words.Text {
	switch {
	case s.Basis == paystub.YearToDate && s.Paid > 0:
		return words.T("stub.basis.year", "payday", s.Payday, "paychecks", s.Paid)
	case s.Basis == paystub.YearToDate:
		return words.T("stub.basis.year", "payday", s.Payday, "paychecks", s.Paychecks)
	case s.Payday.IsZero():
		return words.T("stub.basis.no_date")
	}
	return words.T("stub.basis.paycheck", "payday", s.Payday)
}

// stubQuestions are figures of the stub that cannot be right together.
func (w Writer) stubQuestions(s paystub.Stub) []Block {
	if len(s.Questions) == 0 {
		return nil
	}
	return []Block{Paragraph(w.language.Say(words.T("stub.questions"))), List{Items: w.all(s.Questions)}}
}

// all are texts as people read them.
func (w Writer) all(texts []words.Text) []string {
	all := make([]string, len(texts))
	for i, t := range texts {
		all[i] = w.language.Say(t)
	}
	return all
}

func (w Writer) stubTable(s paystub.Stub) Table {
	t := Table{Head: append([]string{""}, w.all([]words.Text{words.T("stub.column.should_be"), words.T("stub.column.on_stub"), words.T("stub.column.apart")})...)}
	row := func(label words.Text, c *paystub.Check) {
		if c == nil {
			return
		}
		expected := c.Expected.Grouped()
		if c.Most.More(c.Expected) && !c.About && (c.Right || c.MayBeRight()) {
			expected = w.language.Say(words.T("stub.cell.between", "least", c.Expected, "most", c.Most))
		}
		t.Rows = append(t.Rows, []string{w.language.Say(label), expected, c.Actual.Grouped(), w.language.Say(apart(*c))})
	}
	if !s.Unread.IsZero() {
		t.Rows = append(t.Rows, append(w.all([]words.Text{words.T("stub.row.federal"), words.T("stub.cell.not_known")}), s.FederalTax.Actual.Grouped(), ""))
	} else {
		row(words.T("stub.row.federal"), &s.FederalTax)
	}
	row(words.T("stub.row.social_security"), s.SocialSecurity)
	row(words.T("stub.row.medicare"), s.Medicare)
	return t
}

func apart(c paystub.Check) words.Text {
	switch {
	case c.About:
		return words.T("stub.cell.about_right")
	case c.Right && (c.Most.More(c.Expected) || !c.Expected.Sub(c.Actual).Abs().Less(money.Dollars(1))):
		return words.T("stub.cell.fits")
	case c.Right:
		return words.T("stub.cell.right")
	case c.MayBeRight():
		return words.T("stub.cell.may_fit")
	case c.Actual.More(c.Expected):
		return words.T("stub.cell.too_much", "amount", c.Actual.Sub(c.Expected))
	}
	return words.T("stub.cell.too_little", "amount", c.Expected.Sub(c.Actual))
}

// stubVerdict says whether the federal income tax is right.
func stubVerdict(s paystub.Stub) words.Text {
	c := s.FederalTax
	switch {
	case !s.Unread.IsZero():
		return s.Unread
	case c.Right && len(s.Explanations) > 0:
		return words.T("stub.verdict.right_because", "what", s.Explanations[0].What)
	case c.Right && c.Most.More(c.Expected):
		return words.T("stub.verdict.varies", "least", c.Expected, "most", c.Most)
	case c.Right:
		return words.T("stub.verdict.right", "exact", map[bool]string{true: "yes", false: "no"}[c.Exact()])
	case c.About:
		return words.T("stub.verdict.about_right", "off", c.Expected.Sub(c.Actual).Abs(), "why", c.Why)
	case c.MayBeRight() && c.FarApart:
		return words.T("stub.verdict.far_apart", "most", c.Most)
	case c.MayBeRight():
		return words.T("stub.verdict.may_vary", "least", c.Expected, "most", c.Most)
	case len(s.Explanations) == 0:
		return words.T("stub.verdict.unexplained")
	case s.Explanations[0].Allowed:
		return words.T("stub.verdict.allowed")
	}
	return words.T("stub.verdict.wrong")
}

// stubReasons is what would explain the stub, and what to ask.
func (w Writer) stubReasons(s paystub.Stub) []Block {
	var blocks []Block
	paragraph := func(t words.Text) { blocks = append(blocks, Paragraph(w.language.Say(t))) }
	if !s.FederalTax.Right && len(s.Explanations) > 0 {
		list := List{Numbered: true}
		for _, e := range s.Explanations[:min(len(s.Explanations), mostExplanations)] {
			list.Items = append(list.Items, w.language.Say(explanation(e)))
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
		blocks = append(blocks, List{Items: w.all(s.Ask)})
	}
	return blocks
}

func explanation(e paystub.Explanation) words.Text {
	exact, allowed := "no", "no"
	switch {
	case e.Off.IsZero():
		exact = "yes"
	case e.Exact:
		exact = "rounded"
	}
	if e.Allowed {
		allowed = "yes"
	}
	return words.T("stub.explanation.text", "what", e.What, "figure", e.Figure, "off", e.Off, "exact", exact, "allowed", allowed)
}
