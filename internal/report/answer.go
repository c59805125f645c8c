package report

import (
	"slices"
	"strings"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
)

// Answer is what people want to know first: what to do, what to write on each
// form, what each paycheck and the year become, and what they would be otherwise.
// Where only January's forms are to be handed in, it has their entries; where those
// handed in now bring back much less next year, it says so.
func (w Writer) Answer(r certificate.Result) Page {
	p := w.page(AnswerPage, r, w.say("page.answer.title", "year", r.TaxYear))
	p.add(Lead(w.verdict(r)))
	for _, c := range toHandIn(r.Recommended) {
		p.add(w.write(c, r, w.filled(c, r.Household.Status, r.Tables, false))...)
	}
	if j := r.January; r.Recommended.NothingToHandIn() && j != nil && !j.NothingToHandIn() {
		p.add(Heading(w.say("page.heading.january", "year", j.TaxYear)))
		p.add(w.januaryInShort(r)...)
	}
	p.add(w.staying(r.Recommended, r.Doubts)...)
	p.add(w.beforeAndAfter(r, true))
	if j := r.January; j != nil && j.NothingToHandIn() && !j.OnFile.IsZero() {
		p.add(Paragraph(w.januaryOutcome(j)))
	}
	for _, said := range w.saidAll(among(r.Warnings, []string{numberMissing})) {
		p.add(Paragraph(said))
	}
	return p
}

// page begins a page of a result.
func (w Writer) page(k Kind, r certificate.Result, title string) Page {
	return w.Projected(Page{Kind: k, AsOf: r.Household.AsOf, Title: title}, r.Tables)
}

// Projected is a page that says at its top that its figures are projected, where
// the year's are not published, and what to do about it.
func (w Writer) Projected(p Page, y *tables.Year) Page {
	if y == nil || y.Projected == nil {
		return p
	}
	p.Blocks = append([]Block{w.projectedNote(y.Year, y.Projected)}, p.Blocks...)
	return p
}

func (w Writer) projectedNote(year int, p *tables.Projection) Block {
	return Paragraph(w.say("page.projected", "year", year, "from", p.From, "rise", p.Rise))
}

// Certificate is the whole result on one page: figures to check before anything is
// done, the verdict, what to write form by form, the year before and after with what
// bears on it, what to do and by when, January, cautions.
func (w Writer) Certificate(r certificate.Result) Page {
	p := w.page(AnswerPage, r, w.say("page.answer.title", "year", r.TaxYear))
	p.Subtitle = w.say("page.answer.subtitle", "date", r.Household.AsOf, "status", w.status(r.Household.Status))
	if first := w.toCheck(r); len(first) > 0 {
		p.add(Heading(w.say("page.heading.check")), List{Items: first}, Paragraph(w.say("page.check_first")))
	}
	p.add(Lead(w.verdict(r)))
	if len(r.Recommended.Certificates) > 0 {
		p.add(Heading(w.say("page.heading.write")))
	}
	for _, c := range toHandIn(r.Recommended) {
		p.add(Together(w.write(c, r, w.brief(c, r.Household.Status, r.Tables))))
	}
	p.add(w.staying(r.Recommended, r.Doubts)...)
	p.add(Heading(w.say("page.heading.year")), w.beforeAndAfter(r, false))
	if notes := w.saidAll(among(r.Warnings, bearing)); len(notes) > 0 {
		p.add(List{Items: notes})
	}
	p.add(Heading(w.say("page.heading.steps")), w.steps(r))
	p.add(w.january(r, false)...)
	p.add(Heading(w.say("page.heading.cautions")), w.cautions(r))
	return p
}

// verdict is what to do, and what it leads to.
func (w Writer) verdict(r certificate.Result) string {
	var said []string
	for _, t := range r.Verdict.Sentences {
		said = append(said, w.said(t))
	}
	return strings.Join(said, " ")
}

// write is what to write on one certificate, and what it does to a paycheck.
func (w Writer) write(c certificate.JobCertificate, r certificate.Result, entries Entries) []Block {
	j := r.Household.Jobs[c.Job]
	said := []string{w.rest(c), w.handIn(c, r), w.effect(c, j), w.rightFor(c, r)}
	said = slices.DeleteFunc(said, func(s string) bool { return s == "" })
	return []Block{
		Subheading(w.say("page.write.form", "job", shortName(c.Name), "form", w.form(c.Kind))),
		w.withDoubts(entries, c, r),
		Paragraph(strings.Join(said, " ")),
	}
}

// handIn is that a certificate which replaces another is handed in at once, and who
// signs it; of a first one the law says when, and the steps do.
// Where it counts a child not born yet the person may wait, so that nothing urges.
func (w Writer) handIn(c certificate.JobCertificate, r certificate.Result) string {
	now, j := "yes", r.Household.Jobs[c.Job]
	unborn := func(d certificate.Doubt) bool {
		return d.Job == c.Job && d.About.Code == "certificate.doubt.unborn"
	}
	if j.Certificate == nil || slices.ContainsFunc(r.Doubts, unborn) {
		now = "no"
	}
	return w.say("page.write.hand_in", "kind", c.Kind.String(), "whose", j.Earner.String(), "now", now)
}

// rightFor says of a certificate that January's replaces it, or that it is filled
// in for next year.
func (w Writer) rightFor(c certificate.JobCertificate, r certificate.Result) string {
	code := "page.write.next_year"
	switch {
	case c.ThisYear:
		code = "page.write.this_year"
	case !c.NextYear:
		return ""
	}
	return w.say(code, "year", r.TaxYear, "next", r.TaxYear+1)
}

// whose a certificate is: "self" or "spouse". The result of a first form alone has no
// household, and is about oneself.
func whose(c certificate.JobCertificate, h household.Household) string {
	if c.Job < len(h.Jobs) {
		return h.Jobs[c.Job].Earner.String()
	}
	return household.OfSelf.String()
}

// withDoubts are entries with what has to be true for them, where the answers
// leave that open, and what to write if it is not.
func (w Writer) withDoubts(entries Entries, c certificate.JobCertificate, r certificate.Result) Entries {
	return each(entries, func(e FormEntry) FormEntry {
		for _, d := range r.Doubts {
			if d.Job == c.Job && d.Entry == e.line {
				if e.Reason != "" && !strings.HasSuffix(e.Reason, ".") {
					e.Reason += "." // some are no whole sentence
				}
				e.Reason = strings.TrimSpace(e.Reason + " " + w.said(d.About) + " " + w.said(d.Safe))
			}
		}
		return e
	})
}

// effect is what a certificate does to an ordinary paycheck of a job.
func (w Writer) effect(c certificate.JobCertificate, j household.Job) string {
	kind := c.Kind.String()
	switch {
	case j.Certificate == nil && j.YearToDate == nil: // a new job: there is no before
		return w.withheld(c)
	case c.Change.IsZero():
		return w.say("page.effect.same", "kind", kind)
	}
	return w.say("page.effect.change", "kind", kind, "change", w.more(c.Change), "first", c.FirstPayday, "whose", j.Earner.String())
}

// withheld is the tax that an ordinary paycheck has taken from it.
func (w Writer) withheld(c certificate.JobCertificate) string {
	if c.Withholding.IsZero() {
		return w.say("page.effect.none", "kind", c.Kind.String())
	}
	return w.say("page.effect.new", "tax", c.Withholding, "kind", c.Kind.String())
}

// staying are the certificates of a plan that stay, those that are alike in one
// line, and what has to be true for them.
func (w Writer) staying(p certificate.Plan, doubts []certificate.Doubt) []Block {
	type paper struct{ form, entries string }
	var papers []paper
	at := map[paper][]string{}
	for _, c := range kept(p) {
		as := paper{w.form(c.Kind), w.inOneLine(c.Certificate)}
		if at[as] == nil {
			papers = append(papers, as)
		}
		at[as] = append(at[as], shortName(c.Name))
	}
	var blocks []Block
	for _, as := range papers {
		blocks = append(blocks, Paragraph(w.say("page.write.keep", "jobs", at[as], "n", len(at[as]), "form", as.form, "entries", as.entries)))
	}
	for _, c := range kept(p) {
		for _, d := range doubts {
			if d.Job == c.Job {
				blocks = append(blocks, Paragraph(w.said(d.About)+" "+w.said(d.Safe)))
			}
		}
	}
	return blocks
}

// beforeAndAfter is the year on the certificates on file beside the year on the
// recommended ones, in whole dollars; where they are the same, it shows the
// year once. In short it is the outcome alone.
func (w Writer) beforeAndAfter(r certificate.Result, short bool) Table {
	now, then := r.AsFiled, r.Recommended.Outlook
	t := Table{Head: []string{"", w.say("page.year.now"), w.say("page.year.then")}}
	once := r.Recommended.NothingToHandIn()
	if once {
		t.Head = []string{"", w.say("page.year.once")}
	}
	row := func(label, before, after string) {
		cells := []string{label, before, after}
		if once {
			cells = []string{label, after}
		}
		t.Rows = append(t.Rows, cells)
	}
	if !short {
		row(w.say("page.year.tax"), w.dollars(now.TotalTax), w.dollars(then.TotalTax))
		if then.RefundableCredits.IsPositive() {
			row(w.say("page.year.credits"), w.dollars(now.RefundableCredits), w.dollars(then.RefundableCredits))
		}
		row(w.say("page.year.so_far"), w.dollars(now.WithheldSoFar), w.dollars(then.WithheldSoFar))
		row(w.say("page.year.to_come"), w.dollars(now.WithholdingToCome), w.dollars(then.WithholdingToCome))
		if then.OtherPayments.IsPositive() {
			row(w.say("page.year.paid"), w.dollars(now.OtherPayments), w.dollars(then.OtherPayments))
		}
	}
	row(w.say("page.year.end", "year", r.TaxYear), w.balanceCell(now.Balance), w.balanceCell(then.Balance))
	return t
}

// cautions are what everybody must know before signing, with what is not handled.
// Where the steps say what a state wants, nothing is said of states in general;
// of the private plan, where there is one.
func (w Writer) cautions(r certificate.Result) List {
	var items []string
	for _, code := range []string{"estimate", "sign", "state", "private", "not_handled"} {
		if code == "state" && len(r.States) > 0 || code == "private" && !offers(r, certificate.PlanPrivate) {
			continue
		}
		items = append(items, w.say("page.caution."+code))
	}
	return List{Items: items}
}

// offers reports whether a plan of a name is among those to choose from.
func offers(r certificate.Result, plan string) bool {
	return r.Recommended.Name == plan || slices.ContainsFunc(r.Alternatives, func(p certificate.Plan) bool { return p.Name == plan })
}

// estimate is the caution that every page with a result has.
func (w Writer) estimate() Paragraph { return Paragraph(w.say("page.estimate")) }

// FormPages are pages to copy from, one for each certificate to hand in now, in
// the order of the form's steps. A page holds what that employer (or payer of a
// pension) will read on the form and nothing else: no reason, no other job, no
// spouse, no figure of the year.
func (w Writer) FormPages(r certificate.Result) []Page {
	return w.formPages(r, FormPage, r.TaxYear, r.Recommended)
}

// NextFormPages are the same for the certificates of January; none where those
// of this year may stay.
func (w Writer) NextFormPages(r certificate.Result) []Page {
	if r.January == nil {
		return nil
	}
	return w.formPages(r, NextForm, r.January.TaxYear, r.January.Plan)
}

func (w Writer) formPages(r certificate.Result, k Kind, year int, plan certificate.Plan) []Page {
	var pages []Page
	for _, c := range toHandIn(plan) {
		p := w.page(k, r, w.say("page.copy.title", "form", w.form(c.Kind), "year", year))
		p.Subtitle = w.say("page.copy.subtitle", "job", shortName(c.Name))
		p.add(Together{
			w.toCopy(c, r.Tables),
			Paragraph(w.say("page.copy.by_hand", "whose", whose(c, r.Household))),
			List{Items: []string{w.say("page.copy.not_official"), w.say("page.copy.sign")}},
		})
		pages = append(pages, p)
	}
	return pages
}

// Pages are the pages of a result, in the order in which people want them.
func (w Writer) Pages(r certificate.Result) []Page {
	pages := append([]Page{w.Answer(r)}, w.FormPages(r)...)
	pages = append(pages, w.Steps(r), w.Why(r))
	if r.January != nil && !r.January.NothingToHandIn() {
		pages = append(pages, w.January(r))
		pages = append(pages, w.NextFormPages(r)...)
	}
	for _, p := range []Page{w.Plans(r), w.Paydays(r), w.StubsOf(r), w.Rest(r)} {
		if len(p.Blocks) > 0 {
			pages = append(pages, p)
		}
	}
	return pages
}

// Handover are the pages to print, or to write to a file: the whole result for
// the person alone, then what to copy from, then what may be of interest to the
// person alone.
func (w Writer) Handover(r certificate.Result) []Page {
	whole := w.Certificate(r)
	whole.Title = w.say("page.answer.alone", "year", r.TaxYear)
	pages := []Page{whole}
	for _, p := range w.Pages(r) {
		switch p.Kind {
		case PlansPage, PaydaysPage:
			p.Title = w.say("page.alone", "title", p.Title)
			pages = append(pages, p)
		case FormPage, NextForm:
			pages = append(pages, p)
		}
	}
	return pages
}

// BlankPages are the pages where the filing status is all there is to write, so
// that nothing of the year was worked out.
//
// A form is due by the day on which a job begins: IRC 3402(f)(2)(A).
func (w Writer) BlankPages(r certificate.Result) []Page {
	answer := w.page(AnswerPage, r, w.say("page.answer.title", "year", r.TaxYear))
	answer.add(Lead(w.say("page.verdict.blank")))
	for _, c := range toHandIn(r.Recommended) {
		answer.add(Together{
			Subheading(w.say("page.write.form", "job", words.Capital(shortName(c.Name)), "form", w.form(c.Kind))),
			w.filled(c, r.Household.Status, r.Tables, true),
			Paragraph(w.say("page.write.nothing_more")),
		})
	}
	steps := List{Numbered: true}
	for _, code := range []string{"page.steps.blank_copy", "page.steps.blank_hand_in", "page.steps.blank_check", "page.steps.again"} {
		steps.Items = append(steps.Items, w.say(code))
	}
	steps.Items = slices.Insert(steps.Items, len(steps.Items)-1, w.states(r)...)
	answer.add(Heading(w.say("page.heading.steps")), steps)
	pages := append([]Page{answer}, w.FormPages(r)...)
	rest := w.page(RestPage, r, w.say("page.heading.cautions"))
	rest.add(w.cautions(r))
	return append(pages, rest)
}

// WithFigures is a page with the figures of its charts in a table, for those who
// hear it read.
func (p Page) WithFigures() Page {
	p.Blocks = slices.Clone(p.Blocks)
	for i, b := range p.Blocks {
		c, ok := b.(Chart)
		if !ok {
			continue
		}
		t := Table{Head: c.Head[:2]}
		if c.Head[2] != "" {
			t.Head = c.Head[:]
		}
		for _, r := range c.Rows {
			t.Rows = append(t.Rows, []string{r.Label, r.FigureA, r.FigureB}[:len(t.Head)])
		}
		p.Blocks[i] = t
	}
	return p
}
