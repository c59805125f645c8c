package report

import (
	"slices"
	"strconv"
	"strings"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// Visitor is one household of many, for the page of whoever has to see to all of
// them: what that page says of it, and no more of the result.
type Visitor struct {
	Name    string // the id, or the row
	Mistake string // why there is no result; then there is nothing else

	verdict string       // its code
	forms   int          // to hand in now
	do      string       // what to do; empty where nothing is
	owes    money.Amount // in April, where there is nothing to do
	check   []string     // figures to check before anything is done
	doubts  []string     // what entries depend on
	duties  []string     // what the law has set a day for
	assumed []string     // what the figures rest on
	moved   bool         // of that, that a payday is moved over the New Year
}

// Visitor is what the desk has to know of a household.
func (w Writer) Visitor(name string, r certificate.Result) Visitor {
	v := Visitor{
		Name: name, verdict: r.Verdict.Code, forms: r.Verdict.Forms, do: w.toDo(r),
		check: w.toCheck(r), assumed: w.saidAll(among(r.Warnings, assumptions)),
	}
	if v.do == "" && r.Recommended.Balance.IsNegative() {
		v.owes = r.Recommended.Balance.Abs()
	}
	v.moved = slices.ContainsFunc(r.Warnings, func(n worksheet.Note) bool { return strings.HasPrefix(n.Code, "paydays.moved_") })
	for _, d := range r.Doubts {
		v.doubts = append(v.doubts, w.said(d.About)+" "+w.said(d.Safe))
	}
	for _, d := range r.Duties {
		v.duties = append(v.duties, w.said(d.Text))
	}
	return v
}

// toDo is what a household has to do: each form to hand in with its entries in
// short, then the verdict's other sentences of what to do, with the reason where no
// form is advised although something is left to pay. It is empty where there is
// nothing to do.
func (w Writer) toDo(r certificate.Result) string {
	var said []string
	forms := func(code string, all []certificate.JobCertificate) {
		for _, c := range all {
			said = append(said, w.say(code, "job", shortName(c.Name), "form", w.form(c.Kind), "date", c.FirstPayday, "entries", w.inOneLine(c.Certificate)))
		}
	}
	v := r.Verdict
	switch due := toHandIn(r.Recommended); {
	case len(due) > 0:
		forms("desk.form", due)
	case v.Code != certificate.ChangeNothing && len(v.Sentences) > 0:
		said = append(said, w.said(v.Sentences[0]))
	}
	if v.Code == certificate.JanuaryOnly && r.January.Name != certificate.PlanExempt {
		forms("desk.form", toHandIn(r.January.Plan))
	}
	switch pays := v.PayDirectly.Amount.IsPositive(); {
	case v.Code == certificate.PayDirectly:
		said = append(said, w.said(r.Recommended.Reason))
	case pays:
		for _, s := range v.Sentences {
			switch s.Code {
			case "certificate.verdict.pay", "certificate.verdict.pay_and_rest", "certificate.verdict.pay_with_return":
				said = append(said, w.said(s))
			}
		}
	}
	return strings.Join(said, " ")
}

func (w Writer) saidAll(notes []worksheet.Note) []string {
	var said []string
	for _, n := range notes {
		said = append(said, sentence(n.Said(w.language)))
	}
	return said
}

// LooksWrong reports figures to check before anything is done.
func (v Visitor) LooksWrong() bool { return len(v.check) > 0 }

// verdicts are the codes of the verdict, what asks for most first.
var verdicts = []string{certificate.NewCertificate, certificate.ClaimExempt, certificate.PayDirectly, certificate.JanuaryOnly, certificate.ChangeNothing}

// Desk is the summary of many households: whose figures to check first, for whom
// the law has set a day, whom to see in person because an entry turns on what the
// answers do not say, who needs a new form and what it says, and what was assumed.
// It names people by their ids alone.
func (w Writer) Desk(all []Visitor) Page {
	p := Page{Title: w.say("desk.title")}
	var check, duties, doubts, forms, notes, mistakes List
	var owe []words.Text
	put := func(l *List, v Visitor, said string) { l.Items = append(l.Items, v.Name+": "+said) }
	kinds, counts := map[string]int{}, map[string]int{}
	var assumed grouped
	moved := false
	more := "forms"
	for _, v := range all {
		if v.Mistake != "" {
			put(&mistakes, v, v.Mistake)
			continue
		}
		kinds[v.verdict]++
		do := v.do
		if v.LooksWrong() {
			counts["checks"]++
			put(&check, v, strings.Join(v.check, " "))
			do = strings.TrimSpace(w.say("desk.check_first") + " " + do)
		}
		if len(v.duties) > 0 {
			counts["duties"]++
		}
		if len(v.doubts) > 0 {
			counts["doubts"]++
		}
		for _, d := range v.doubts {
			put(&doubts, v, d)
		}
		if v.forms > 0 {
			counts["forms"]++
		}
		switch {
		case len(v.duties) > 0: // what the law asks for, with what to do: once, and first
			put(&duties, v, strings.TrimSpace(do+" "+strings.Join(v.duties, " ")))
			if v.forms > 0 {
				more = "more_forms"
			}
		case v.forms > 0:
			put(&forms, v, do)
		case v.do != "":
			put(&notes, v, do)
		case !v.LooksWrong() && !v.owes.Less(money.Dollars(1)):
			owe = append(owe, words.T("desk.owes", "name", v.Name, "amount", v.owes))
		}
		for _, a := range v.assumed {
			assumed.add(a, v.Name)
		}
		moved = moved || v.moved
	}
	p.add(Lead(w.say("desk.count", "households", len(all), "forms", counts["forms"], "checks", counts["checks"],
		"doubts", counts["doubts"], "duties", counts["duties"], "mistakes", len(mistakes.Items))))
	rows := Rows{}
	for _, code := range verdicts {
		if n := kinds[code]; n > 0 {
			rows = append(rows, Row{Label: w.say("desk.verdict." + code), Amount: strconv.Itoa(n)})
		}
	}
	p.add(rows)
	for _, part := range []struct {
		code string
		list List
	}{{"check", check}, {"mistakes", mistakes}, {"duties", duties}, {"doubts", doubts}, {more, forms}, {"notes", notes}, {"owe", w.inOne(owe)}, {"assumed", w.assumed(assumed)}} {
		if len(part.list.Items) > 0 {
			p.add(Heading(w.say("desk.heading."+part.code)), part.list)
		}
	}
	if moved {
		p.add(Paragraph(w.say("desk.moved")))
	}
	p.add(w.estimate())
	return p
}

// grouped is what is said of several visitors alike, with their names, in the order
// in which it was first said.
type grouped struct {
	said  []string
	names map[string][]string
}

func (g *grouped) add(said, name string) {
	if g.names == nil {
		g.names = map[string][]string{}
	}
	if _, known := g.names[said]; !known {
		g.said = append(g.said, said)
	}
	g.names[said] = append(g.names[said], name)
}

// inOne are things alike as a list of one item.
func (w Writer) inOne(all []words.Text) (l List) {
	if len(all) > 0 {
		l.Items = []string{w.say("desk.all", "all", all)}
	}
	return l
}

// mostNames is how many names one sentence has.
const mostNames = 10

func (w Writer) assumed(g grouped) (l List) {
	for _, said := range g.said {
		l.Items = append(l.Items, w.say("desk.assumed", "what", said, "names", Some(g.names[said], mostNames)))
	}
	return l
}

// Some are the first of many names, as a list to be said: at most so many, and how
// many more there are.
func Some(names []string, most int) []words.Text {
	var some []words.Text
	for i, name := range names {
		if i == most && len(names) > most+1 {
			return append(some, words.T("desk.more", "n", len(names)-most))
		}
		some = append(some, words.T("desk.name", "name", name))
	}
	return some
}
