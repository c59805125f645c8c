package report

import (
	"strings"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/layout"
	"example.com/plumbline/internal/worksheet"
)

// Explanation is where figures come from: under each figure the lines that it
// came from, with the arithmetic, the table and the law; a source that several
// lines share is said once. answers are the answers as they are in the file, by
// key. Lines deeper than depth are left out and counted; zero is no limit.
func (w Writer) Explanation(reasons []worksheet.Reason, answers map[string]string, depth int) Page {
	p := Page{Title: w.say("page.explain.title"), Subtitle: w.say("page.explain.subtitle")}
	e := explainer{w, answers, depth, map[string]bool{}}
	for _, r := range reasons {
		p.add(e.chain(r, 0))
	}
	p.add(w.estimate())
	return p
}

// explainer writes chains; sources are those said so far.
type explainer struct {
	Writer
	answers map[string]string
	depth   int
	sources map[string]bool
}

// chain is a reason and what it came from, as links.
func (e explainer) chain(r worksheet.Reason, depth int) Chain {
	l := Link{Depth: depth, Label: r.Line.Said(e.language), Amount: shown(r.Line)}
	if form := e.formPlace(r.Line.Form); form != "" && depth > 0 {
		l.Label = e.say("page.explain.line", "label", r.Line.Said(e.language), "form", form)
	}
	if r.Told {
		l.Detail = []string{e.say("page.explain.told")}
		return Chain{l}
	}
	if how := r.Line.How.In(e.language); how != "" {
		l.Detail = append(l.Detail, how)
	}
	if source := r.Line.Source; source != "" && !e.sources[source] {
		e.sources[source] = true
		l.Detail = append(l.Detail, e.say("page.source", "source", source))
	}
	chain := Chain{l}
	if n := len(r.From); e.depth > 0 && depth+1 >= e.depth && n > 0 {
		return append(chain, Link{Depth: depth + 1, Label: e.say("page.explain.deeper", "n", n)})
	}
	for _, from := range r.From {
		chain = append(chain, e.chain(from, depth+1)...)
	}
	for _, key := range r.Answers {
		given, ok := e.answers[key]
		if !ok {
			continue // the file does not say it; the line's own amount does
		}
		chain = append(chain, Link{Depth: depth + 1, Label: e.say("page.explain.answer", "key", e.named(key)), Amount: shortName(given)})
	}
	return chain
}

// named is the key of an answer, with the name of the job or person that it is
// about in the place of its number.
func (e explainer) named(key string) string {
	for _, list := range []string{"jobs", "dependents"} {
		rest, ok := strings.CutPrefix(key, list+"[")
		number, field, closed := strings.Cut(rest, "]")
		if !ok || !closed {
			continue
		}
		name := e.answers[list+"["+number+"].name"]
		if name == "" {
			return key
		}
		return e.say("page.explain.of", "name", shortName(name), "key", layout.Clean(strings.TrimPrefix(field, ".")))
	}
	return key
}

// ExplainBox is why a box of the form ("1c", "2c", "exempt") is checked or not, on
// the certificate of each job; of the claim to be exempt, with its conditions and
// its end.
func (w Writer) ExplainBox(r certificate.Result, line string) Page {
	p := Page{Title: w.say("page.explain.title")}
	if line == "exempt" {
		p.add(w.exemption(r)...)
	}
	for _, c := range r.Recommended.Certificates {
		for _, place := range w.places(c, r.Household.Status, r.Tables) {
			if place.line == line {
				e := w.entry(place, c, r.Tables)
				if line != "exempt" { // the conditions are above
					e.Reason = place.reason
				}
				p.add(Subheading(shortName(c.Name)), Entries{e})
			}
		}
	}
	p.add(w.estimate())
	return p
}

// exemption are the conditions of a claim to be exempt, what the answers say of
// each, and when a claim ends.
//
// IRC 3402(n); 26 CFR 31.3402(f)(4)-2(c); Form W-4 (2026), "Exemption from
// withholding"; Publication 15 (2025), section 9.
func (w Writer) exemption(r certificate.Result) []Block {
	last, known := r.Household.LastYear.Tax()
	owed := "unknown"
	if known {
		owed = yesNo(last.IsPositive())
	}
	this := r.Return.TotalTax.Sub(r.Return.RefundableCredits).OrZero()
	year, next := r.TaxYear, r.TaxYear+1
	return []Block{
		Paragraph(w.say("page.exemption.conditions", "year", year, "last", year-1)),
		List{Items: []string{
			w.say("page.exemption.last_year", "last", year-1, "owed", owed, "tax", last),
			w.say("page.exemption.this_year", "year", year, "owed", yesNo(this.IsPositive()), "tax", this),
		}},
		Paragraph(w.say("page.exemption.ends", "year", year, "next", next, "date", r.Tables.ClaimsRenewedBy(next))),
		Paragraph(w.say("page.source", "source", "IRC 3402(n); 26 CFR 31.3402(f)(4)-2(c); "+r.Tables.Form.Source+"; Publication 15 (2025), section 9")),
	}
}
