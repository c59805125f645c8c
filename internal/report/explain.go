package report

import "example.com/plumbline/internal/worksheet"

// Explanation is where figures come from: under each figure the lines that it
// came from, down to the answers, with the arithmetic, the table and the law.
// answers are the answers as they stand in the file, by key; one that is no single
// figure (a list of people or jobs) is shown as answered.
func Explanation(reasons []worksheet.Reason, answers map[string]string) Page {
	p := Page{
		Title:    "Where the figures come from",
		Subtitle: "Under each figure, set in, stand the figures and answers that it was made from. Amounts are dollars.",
	}
	for _, r := range reasons {
		p.add(chainOf(r, 0, answers))
	}
	p.add(Paragraph(estimateCaution))
	return p
}

// chainOf is a reason and what it came from, as links.
func chainOf(r worksheet.Reason, depth int, answers map[string]string) Chain {
	l := Link{Depth: depth, Label: r.Line.Label, Amount: shown(r.Line)}
	if form := shortForm(r.Line.Form); form != "" && depth > 0 {
		l.Label += " (" + form + ")"
	}
	if r.Told {
		l.Detail = []string{"explained above"}
		return Chain{l}
	}
	l.Detail = detail(r.Line)
	chain := Chain{l}
	for _, from := range r.From {
		chain = append(chain, chainOf(from, depth+1, answers)...)
	}
	for _, key := range r.Answers {
		given, ok := answers[key]
		if !ok {
			given = "as answered"
		}
		chain = append(chain, Link{Depth: depth + 1, Label: "your answer: " + key, Amount: shortName(given)})
	}
	return chain
}
