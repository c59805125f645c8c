package report

import (
	"slices"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/worksheet"
)

// Rest is everything else to know: what was assumed, the penalty, other ways to
// put the year right, and the cautions.
func (w Writer) Rest(r certificate.Result) Page {
	p := w.page(RestPage, r, w.say("page.rest.title"))
	p.add(w.notes(unsaid(r))...)
	p.add(w.penalty(r)...)
	p.add(w.otherWays(r)...)
	p.add(Heading(w.say("page.heading.cautions")), w.cautions(r))
	return p
}

// numberMissing is the code of what is lost without a social security number.
const numberMissing = "number_missing"

// Of a result's warnings, by their codes: what is assumed of the pay and its paydays, and what
// else bears on the person's own figure.
var (
	assumptions = []string{"paydays.moved_into_year", "paydays.moved_out_of_year", "no_earlier_job"}
	bearing     = append([]string{"paydays.more_than_periods", "last_year_could_settle", numberMissing}, assumptions...)
)

// among are the notes that have one of some codes.
func among(notes []worksheet.Note, codes []string) []worksheet.Note {
	return slices.DeleteFunc(slices.Clone(notes), func(n worksheet.Note) bool { return !slices.Contains(codes, n.Code) })
}

// All is the whole result with everything behind it.
func (w Writer) All(r certificate.Result) Page {
	p := w.Certificate(r)
	if plans := w.plans(r); plans != nil {
		p.add(Heading(w.say("page.plans.title")))
		p.add(plans...)
	}
	if chart := w.chart(r); chart != nil {
		p.add(Heading(w.say("page.paydays.title", "year", r.TaxYear)))
		p.add(chart...)
	}
	p.add(w.notes(unsaidBy(r))...)
	p.add(w.penalty(r)...)
	p.add(w.otherWays(r)...)
	return p
}

// unsaidBy are those of a result's warnings that the page of the whole result does
// not have.
func unsaidBy(r certificate.Result) []worksheet.Note {
	return slices.DeleteFunc(unsaid(r), func(n worksheet.Note) bool {
		first := func(f worksheet.Note) bool { return f.Code == n.Code && f.Text.Equal(n.Text) }
		return slices.Contains(bearing, n.Code) || slices.ContainsFunc(r.CheckFirst, first)
	})
}

// unsaid are a result's warnings without what its pages say already: that next
// year's figures are projected, which is told with January's form, what was not
// counted again, where the person was asked, what is one of the steps, and what is
// said beside a form's entries: that they are for one year, and what January's count
// on.
func unsaid(r certificate.Result) []worksheet.Note {
	_, asked := r.Household.Interview.Gates["again"]
	return slices.DeleteFunc(slices.Clone(r.Warnings), func(n worksheet.Note) bool {
		return n.Code == "january_tables" && r.January.Projected != nil || n.Code == "january_once" && asked || slices.Contains(asSteps, n.Code) || n.Code == "correction_this_year_only" || n.Code == "january_estimated_tax"
	})
}

// toCheck is what to check before anything is done, and what would explain a stub
// that is doubted.
func (w Writer) toCheck(r certificate.Result) []string {
	said := w.saidAll(r.CheckFirst)
	if !slices.ContainsFunc(r.CheckFirst, func(n worksheet.Note) bool { return n.Code == certificate.DoubtedStub }) {
		return said
	}
	for _, s := range r.Stubs() {
		if cause := s.Cause(); !cause.IsZero() {
			said = append(said, w.said(cause))
		}
	}
	return said
}

// notes are assumptions and cautions, as a list under a heading.
func (w Writer) notes(notes []worksheet.Note) []Block {
	if len(notes) == 0 {
		return nil
	}
	return []Block{Heading(w.say("page.heading.notes")), List{Items: w.saidAll(notes)}}
}

// penalty is whether the penalty for paying too late in the year is ruled out,
// and about how much it would be.
func (w Writer) penalty(r certificate.Result) []Block {
	blocks := []Block{Heading(w.say("page.penalty.title"))}
	blocks = append(blocks, Paragraph(w.say("page.penalty.now", "safe", safe(r.Harbor))+" "+w.said(r.Harbor.Reason)))
	u := r.Underpayment
	if !r.Recommended.NothingToHandIn() {
		blocks = append(blocks, Paragraph(w.say("page.penalty.then", "safe", safe(u.Harbor))+" "+w.said(u.Reason)))
	}
	if len(u.Quarters) == 0 {
		return blocks
	}
	t := Table{Head: []string{w.say("page.penalty.due"), w.say("page.penalty.short"), w.say("page.penalty.about")}}
	for _, q := range u.Quarters {
		t.Rows = append(t.Rows, []string{w.say("page.date", "date", q.Due), w.dollars(q.Short), w.dollars(q.Penalty)})
	}
	t.Rows = append(t.Rows, []string{w.say("page.penalty.in_all"), "", w.dollars(u.Penalty)})
	blocks = append(blocks, t)
	if len(r.Estimated.Payments) > 0 {
		blocks = append(blocks, Paragraph(w.say("page.penalty.if_paid", "left", u.LeftIfPaid(), "amount", w.dollars(u.PenaltyIfPaid))))
	}
	return blocks
}

// safe is whether a penalty is ruled out, as a choice of words.
func safe(h tax.Harbor) string { return yesNo(h.Safe) }

// yesNo is a choice of words.
func yesNo(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}

// otherWays are the ways that an employer carries out on request.
func (w Writer) otherWays(r certificate.Result) []Block {
	if len(r.OtherWays) == 0 {
		return nil
	}
	blocks := []Block{Heading(w.say("page.way.title"))}
	for _, way := range r.OtherWays {
		points := []string{w.say("page.way.when", "condition", w.said(way.Condition))}
		if len(way.Paychecks) > 0 {
			first := way.Paychecks[0]
			points = append(points, w.say("page.way.does", "date", first.Payday, "tax", first.Withheld, "balance", w.balance(way.Balance)))
		}
		points = append(points, w.say("page.way.write", "request", way.Request), w.say("page.source", "source", way.Source))
		blocks = append(blocks, Subheading(w.say("page.way.name", "way", way.Code, "job", shortName(way.Name))), List{Items: points})
	}
	return blocks
}
