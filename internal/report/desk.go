package report

import (
	"slices"
	"strconv"

	"example.com/plumbline/internal/certificate"
)

// Visitor is one household of many, for the page of whoever has to see to all of
// them.
type Visitor struct {
	Name    string // the id, or the row
	Mistake string // why there is no result; then there is nothing else
	Verdict certificate.Verdict
	Doubts  []certificate.Doubt
	Duties  []certificate.Duty
}

// verdicts are the codes of the verdict, what asks for most first.
var verdicts = []string{certificate.NewCertificate, certificate.ClaimExempt, certificate.PayDirectly, certificate.JanuaryOnly, certificate.ChangeNothing}

// Desk is the summary of many households: how many need a new form and why, whom
// to see in person because an entry turns on what the answers do not say, and for
// whom the law has set a day. It names people by their ids alone.
func (w Writer) Desk(all []Visitor) Page {
	p := Page{Title: w.say("desk.title")}
	var forms, notes, doubts, duties, mistakes [][]string
	kinds := map[string]int{}
	for _, v := range all {
		if v.Mistake != "" {
			mistakes = append(mistakes, []string{v.Name, v.Mistake})
			continue
		}
		kinds[v.Verdict.Code]++
		what := ""
		if len(v.Verdict.Sentences) > 0 {
			what = w.said(v.Verdict.Sentences[0])
		}
		switch {
		case v.Verdict.Forms > 0:
			forms = append(forms, []string{v.Name, what})
		case v.Verdict.Code != certificate.ChangeNothing:
			notes = append(notes, []string{v.Name, what})
		}
		for _, d := range v.Doubts {
			doubts = append(doubts, []string{v.Name, w.said(d.About) + " " + w.said(d.Safe)})
		}
		for _, d := range v.Duties {
			duties = append(duties, []string{v.Name, w.said(d.Text)})
		}
	}
	p.add(Lead(w.say("desk.count", "households", len(all), "forms", len(forms), "doubts", people(doubts), "duties", people(duties), "mistakes", len(mistakes))))
	counts := Rows{}
	for _, code := range verdicts {
		if n := kinds[code]; n > 0 {
			counts = append(counts, Row{Label: w.say("desk.verdict." + code), Amount: strconv.Itoa(n)})
		}
	}
	p.add(counts)
	for _, part := range []struct {
		code string
		rows [][]string
	}{{"duties", duties}, {"doubts", doubts}, {"forms", forms}, {"notes", notes}, {"mistakes", mistakes}} {
		if len(part.rows) == 0 {
			continue
		}
		list := List{}
		for _, r := range part.rows {
			list.Items = append(list.Items, r[0]+": "+r[1])
		}
		p.add(Heading(w.say("desk.heading."+part.code)), list)
	}
	p.add(w.estimate())
	return p
}

// people is how many different names begin the rows.
func people(rows [][]string) int {
	var names []string
	for _, r := range rows {
		names = append(names, r[0])
	}
	slices.Sort(names)
	return len(slices.Compact(names))
}
