package report

import (
	"slices"
	"strings"
	"time"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/words"
)

// Steps is what to do and by when.
func (w Writer) Steps(r certificate.Result) Page {
	p := w.page(StepsPage, r, w.say("page.steps.title"))
	p.add(w.steps(r))
	p.add(w.january(r, false)...)
	return p
}

// asSteps are the warnings that say what to do elsewhere than at payroll.
var asSteps = []string{"premium_advance_repaid", "unemployment_withholding", "benefits_over_withheld"}

// steps are what to do, in order: one list for all forms.
func (w Writer) steps(r certificate.Result) List {
	var steps []string
	say := func(code string, namesAndValues ...any) { steps = append(steps, w.say(code, namesAndValues...)) }
	due := toHandIn(r.Recommended)
	if len(due) > 0 {
		theirs := 0
		for _, c := range due {
			if r.Household.Jobs[c.Job].Earner == household.OfSpouse {
				theirs++
			}
		}
		whose := "both"
		switch theirs {
		case 0:
			whose = "you"
		case len(due):
			whose = "spouse"
		}
		say("page.steps.copy", "forms", len(due), "whose", whose)
	}
	kind := r.Recommended.Payers()
	var in, stubs []string
	for _, c := range due {
		in = append(in, w.say("page.steps.one", "job", shortName(c.Name), "date", c.FirstPayday))
		stubs = append(stubs, w.say("page.steps.stub", "job", shortName(c.Name), "date", c.FirstPayday, "tax", c.Withholding))
	}
	if len(due) > 0 {
		step := w.say("page.steps.hand_in", "payrolls", in, "kind", kind)
		for _, c := range due {
			if c.EffectiveBy.After(c.FirstPayday) {
				step += " " + w.say("page.steps.law", "date", c.EffectiveBy)
				break
			}
		}
		steps = append(steps, step)
		say("page.steps.check", "stubs", stubs, "kind", kind)
	}
	for _, duty := range r.Duties {
		steps = append(steps, w.said(duty.Text))
	}
	steps = append(steps, w.states(r)...)
	for _, n := range r.Warnings {
		if slices.Contains(asSteps, n.Code) {
			steps = append(steps, sentence(n.Said(w.language)))
		}
	}
	before := r.Household.Interview.StillToPay
	if parts := before.From(r.Household.AsOf); len(parts) > 0 {
		say("page.steps.still_to_pay", "of", before.TaxYear, "parts", parts)
	}
	penalty := "some"
	if r.Underpayment.PenaltyIfPaid.IsZero() {
		penalty = "none"
	}
	direct := r.Verdict.PayDirectly
	again := "no"
	for i, pay := range direct.Parts {
		if i == len(direct.Parts)-1 && direct.WithReturn.IsPositive() {
			say("page.steps.pay_with_return", "amount", pay.Amount, "date", pay.Due)
		} else {
			say("page.steps.pay", "amount", pay.Amount, "date", pay.Due, "penalty", penalty, "again", again)
			again = "yes"
		}
	}
	if len(r.Planned) > 0 {
		say("page.steps.estimated", "year", r.TaxYear, "paid", r.Household.Payments.EstimatedTax, "parts", inParts(r.Planned))
	}
	if v := r.Voluntary; v.Percent > 0 {
		say("page.steps.voluntary", "percent", v.Percent, "monthly", v.Monthly, "yearly", v.Yearly, "owed", v.Owed)
	}
	if j := r.January; j != nil && !j.NothingToHandIn() {
		when := "page.steps.january.december"
		switch {
		case j.Name == certificate.PlanExempt:
			when = "page.steps.january.claim"
		case j.HandIn.Before(r.Household.AsOf):
			when = "page.steps.january.now"
		case r.Household.AsOf.Month == time.December || !j.HandIn.After(household.On(r.TaxYear, time.December, 1)): // nothing to wait for
			when = "page.steps.january.soon"
		}
		say(when, "year", j.TaxYear, "date", j.HandIn)
		if len(j.Estimated) > 0 {
			say("page.steps.estimated", "year", j.TaxYear, "paid", j.EstimatedTax, "parts", inParts(j.Estimated))
		}
	}
	say("page.steps.again")
	return List{Numbered: true, Items: steps}
}

// states is what to do about each state's own income tax.
func (w Writer) states(r certificate.Result) []string {
	var steps []string
	for _, c := range r.States {
		steps = append(steps, w.said(c.Text))
	}
	return steps
}

// inParts are payments in words.
func inParts(payments []tax.Payment) []words.Text {
	parts := make([]words.Text, len(payments))
	for i, p := range payments {
		parts[i] = words.T("page.steps.part", "amount", p.Amount, "by", p.Due)
	}
	return parts
}

// Why is what makes the person owe, the reason of the plan, and of each entry.
func (w Writer) Why(r certificate.Result) Page {
	p := w.page(WhyPage, r, w.say("page.why.title"))
	p.add(w.causes(r)...)
	p.add(Paragraph(w.said(r.Recommended.Reason)))
	for _, c := range r.Recommended.Certificates {
		if c.Keep {
			continue
		}
		p.add(Together(w.write(c, r, w.filled(c, r.Household.Status, r.Tables, true))))
	}
	p.add(w.staying(r.Recommended, r.Doubts)...)
	p.add(Heading(w.say("page.heading.year")), w.beforeAndAfter(r, false))
	return p
}

// January is next year.
func (w Writer) January(r certificate.Result) Page {
	p := w.page(JanuaryPage, r, w.say("page.january.title", "year", r.January.TaxYear))
	p.add(w.january(r, true)...)
	return p
}

// januaryInShort is what to hand in for January, each form in one line.
func (w Writer) januaryInShort(r certificate.Result) []Block {
	j := r.January
	var items []string
	for _, c := range toHandIn(j.Plan) {
		items = append(items, w.say("page.january.form", "job", shortName(c.Name), "form", w.form(c.Kind), "entries", w.inOneLine(c.Certificate), "exempt", yesNo(c.Certificate.Exempt)))
	}
	return []Block{w.januaryHandIn(r), List{Items: append(items, w.countsOn(j)...)}}
}

// januaryHandIn is by when to hand in January's forms, and what they lead to.
func (w Writer) januaryHandIn(r certificate.Result) Paragraph {
	j, late := r.January, "no"
	if r.January.HandIn.Before(r.Household.AsOf) {
		late = "yes"
	}
	due := toHandIn(j.Plan)
	handIn := w.say("page.january.hand_in", "year", j.TaxYear, "forms", len(due), "late", late, "by", j.HandIn, "date", due[0].FirstPayday)
	if j.Name == certificate.PlanExempt {
		handIn = w.say("page.january.claim", "year", j.TaxYear, "last", j.TaxYear-1, "date", j.HandIn)
	}
	return Paragraph(handIn + " " + w.januaryOutcome(j))
}

// countsOn says that January's forms count on estimated tax that is paid again; it
// is empty where they do not.
func (w Writer) countsOn(j *certificate.January) []string {
	if !j.EstimatedTax.IsPositive() {
		return nil
	}
	return []string{w.say("page.january.counts_on", "year", j.TaxYear, "paid", j.EstimatedTax)}
}

func (w Writer) januaryOutcome(j *certificate.January) string {
	outcome := w.say("page.january.outcome", "year", j.TaxYear, "balance", w.balance(j.Balance))
	if j.OnFile.IsZero() {
		return outcome
	}
	return outcome + " " + w.said(j.OnFile)
}

// january is the second certificate, for the whole of next year: each in one
// line, or, with why, entry by entry.
func (w Writer) january(r certificate.Result, why bool) []Block {
	j := r.January
	if j == nil {
		return nil
	}
	var blocks []Block
	if !why {
		blocks = append(blocks, Heading(w.say("page.heading.january", "year", j.TaxYear)))
	}
	if j.Projected != nil {
		blocks = append(blocks, w.projectedNote(j.TaxYear, j.Projected))
	}
	due := toHandIn(j.Plan)
	switch {
	case len(due) == 0:
		said := append([]string{w.say("page.january.nothing", "year", j.TaxYear, "forms", len(j.Certificates)), w.januaryOutcome(j)}, w.countsOn(j)...)
		return append(append(blocks, Paragraph(strings.Join(said, " "))), w.voluntary(j)...)
	case !why:
		return append(append(blocks, w.januaryInShort(r)...), w.voluntary(j)...)
	}
	blocks = append(blocks, w.januaryHandIn(r))
	for _, c := range due {
		blocks = append(blocks, Together{
			Subheading(w.say("page.write.form", "job", shortName(c.Name), "form", w.form(c.Kind))),
			w.filled(c, r.Household.Status, r.Tables, true),
			Paragraph(w.rest(c) + " " + w.withheld(c)),
		})
	}
	for _, said := range w.countsOn(j) {
		blocks = append(blocks, Paragraph(said))
	}
	return append(append(blocks, w.staying(j.Plan, nil)...), w.voluntary(j)...)
}

// voluntary is what could be withheld from social security benefits in the place of
// January's forms.
func (w Writer) voluntary(j *certificate.January) []Block {
	v := j.Voluntary
	if v.Percent == 0 {
		return nil
	}
	return []Block{Paragraph(w.say("page.january.voluntary", "year", j.TaxYear, "percent", v.Percent, "monthly", v.Monthly, "owed", v.Owed))}
}
