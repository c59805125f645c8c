package report

import (
	"fmt"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// Certificate is the whole result on one page, the answer first: what to write
// on each certificate and why; the year before and after; the plans side by
// side; what paychecks cannot cover; other ways; January; the next steps; what
// to know.
func Certificate(r certificate.Result) Page {
	p := Page{
		Title: fmt.Sprintf("What to write on each certificate, %d", r.TaxYear),
		Subtitle: fmt.Sprintf("As of %s, for a return filed as %s. Amounts are dollars, of federal income tax where nothing else is said.",
			r.Household.AsOf.Long(), statusWords[r.Household.Status]),
	}
	p.add(answer(r)...)
	p.add(yearBeforeAndAfter(r)...)
	p.add(plans(r)...)
	p.add(directPayments(r)...)
	p.add(otherWays(r)...)
	p.add(january(r)...)
	p.add(nextSteps(r)...)
	p.add(warnings(r)...)
	p.add(Heading("Before you sign"), List{Items: cautions})
	return p.shortNames(r.Household)
}

// answer is what to write for each job, and why this plan.
func answer(r certificate.Result) []Block {
	plan := r.Recommended
	blocks := []Block{Heading("What to write")}
	if plan.NothingToHandIn() {
		blocks = append(blocks, Paragraph("Nothing to hand in."))
	}
	blocks = append(blocks, Paragraph(sentence(plan.Reason)))
	for _, c := range plan.Certificates {
		blocks = append(blocks, writeBlocks(c, r.Household, r.Tables)...)
		if !c.Keep {
			blocks = append(blocks, Paragraph(paycheckSentence(c)))
		}
	}
	return blocks
}

// paycheckSentence is what a certificate does to an ordinary paycheck.
func paycheckSentence(c certificate.JobCertificate) string {
	s := fmt.Sprintf("It counts from the payday of %s, on %s this year. Each paycheck then has %s of federal income tax taken from it",
		c.FirstPayday.Long(), counted(c.Paydays, "payday", "paydays"), c.Withholding.Grouped())
	if c.Change.IsZero() {
		return s + ", the same as now."
	}
	return fmt.Sprintf("%s instead of %s: take-home pay is %s.", s, c.Withholding.Add(c.Change).Grouped(), changeWords(c.Change))
}

// yearBeforeAndAfter holds the year on the certificates on file against the
// year on the recommended ones.
func yearBeforeAndAfter(r certificate.Result) []Block {
	now, then := r.AsFiled, r.Recommended.Outlook
	t := Table{Head: []string{"", "as things stand", "recommended"}}
	row := func(label string, show func(money.Amount) string, of func(certificate.Outlook) money.Amount) {
		t.Rows = append(t.Rows, []string{label, show(of(now)), show(of(then))})
	}
	grouped := money.Amount.Grouped
	row("Tax for the year", grouped, func(o certificate.Outlook) money.Amount { return o.TotalTax })
	if then.RefundableCredits.IsPositive() {
		row("Refundable credits", grouped, func(o certificate.Outlook) money.Amount { return o.RefundableCredits })
	}
	row("Withheld so far", grouped, func(o certificate.Outlook) money.Amount { return o.WithheldSoFar })
	row("Withholding to come", grouped, func(o certificate.Outlook) money.Amount { return o.WithholdingToCome })
	if then.OtherPayments.IsPositive() {
		row("Other payments", grouped, func(o certificate.Outlook) money.Amount { return o.OtherPayments })
	}
	row("Balance with the return", balanceWords, func(o certificate.Outlook) money.Amount { return o.Balance })
	if r.Recommended.NothingToHandIn() {
		for i, cells := range t.Rows {
			t.Rows[i] = cells[:2]
		}
		t.Head = t.Head[:2]
	}
	return []Block{Heading("The year before and after"), t}
}

// directPayments are what paychecks cannot cover, and the penalty where it
// threatens.
func directPayments(r certificate.Result) []Block {
	var blocks []Block
	if e := r.Estimated; e.Amount.IsPositive() {
		blocks = append(blocks, Heading("What paychecks cannot cover"),
			Paragraph(fmt.Sprintf("%s is left to pay yourself this year, with Form 1040-ES:", e.Amount.Grouped())))
		var rows Rows
		for _, p := range e.Payments {
			rows = append(rows, Row{Label: "By " + p.Due.Long(), Amount: p.Amount.Grouped()})
		}
		if len(rows) == 0 {
			blocks = append(blocks, Paragraph("Every due date of the year has passed: pay as soon as you can, at the latest with the return."))
		} else {
			blocks = append(blocks, rows)
		}
	}
	blocks = append(blocks, Heading("Penalty for paying too late in the year"))
	if r.Underpayment.Safe {
		return append(blocks, Paragraph("Ruled out with the recommended plan. "+r.Underpayment.Reason))
	}
	blocks = append(blocks, Paragraph("Not ruled out, even with the recommended plan. "+r.Underpayment.Reason))
	if len(r.Underpayment.Quarters) > 0 {
		t := Table{Head: []string{"due date", "short by then", "penalty, about"}}
		for _, q := range r.Underpayment.Quarters {
			t.Rows = append(t.Rows, []string{q.Due.Long(), q.Short.Grouped(), q.Penalty.Grouped()})
		}
		t.Rows = append(t.Rows, []string{"In all", "", r.Underpayment.Penalty.Grouped()})
		blocks = append(blocks, t)
	}
	return blocks
}

// otherWays are the ways that an employer carries out on request.
func otherWays(r certificate.Result) []Block {
	if len(r.OtherWays) == 0 {
		return nil
	}
	blocks := []Block{
		Heading("Another way to put the year right"),
		Paragraph("Too much has been withheld. Instead of a certificate for this year only, you may ask the employer in writing to figure your paychecks otherwise."),
	}
	for _, w := range r.OtherWays {
		blocks = append(blocks, Subheading(wayWords[w.Code]+", "+w.Name), Paragraph(w.Condition))
		if n := len(w.Paychecks); n > 0 {
			first := w.Paychecks[0]
			blocks = append(blocks, Paragraph(fmt.Sprintf("From %s on the first paycheck has %s of federal income tax taken from it (take-home pay %s), and the year ends with %s.",
				first.Payday.Long(), first.Withheld.Grouped(), changeWords(first.Change), balancePhrase(w.Balance))))
		}
		blocks = append(blocks, Paragraph("Words for the request: \""+w.Request+"\""), Paragraph(w.Source))
	}
	return blocks
}

// balancePhrase is a balance inside a sentence.
func balancePhrase(a money.Amount) string {
	switch {
	case a.IsPositive():
		return "a refund of " + a.Grouped()
	case a.IsNegative():
		return a.Abs().Grouped() + " due"
	}
	return "nothing due and nothing back"
}

// january is the second certificate, for the whole of next year.
func january(r certificate.Result) []Block {
	j := r.January
	if j == nil {
		return nil
	}
	blocks := []Block{Heading(fmt.Sprintf("January %d", j.TaxYear))}
	if j.NothingToHandIn() {
		return append(blocks, Paragraph(fmt.Sprintf("The same certificates fit %d too: nothing to hand in then. The year is expected to end with %s.", j.TaxYear, balancePhrase(j.Balance))))
	}
	blocks = append(blocks, Paragraph(fmt.Sprintf("What fits the rest of %d does not fit a whole year. Hand this in so that it counts from the first payday of %d; that year is then expected to end with %s.",
		r.TaxYear, j.TaxYear, balancePhrase(j.Balance))))
	for _, c := range j.Certificates {
		blocks = append(blocks, writeBlocks(c, r.Household, r.Tables)...)
		if !c.Keep {
			blocks = append(blocks, Paragraph(fmt.Sprintf("First payday: %s. Each paycheck then has %s of federal income tax taken from it.", c.FirstPayday.Long(), c.Withholding.Grouped())))
		}
	}
	return blocks
}

// nextSteps are what to do with the result, in order.
func nextSteps(r certificate.Result) []Block {
	var steps []string
	for _, c := range r.Recommended.Certificates {
		if c.Keep {
			continue
		}
		steps = append(steps,
			fmt.Sprintf("%s: copy the entries onto the official %s, write your name, address and social security number on it, sign it and date it.", c.Name, formName(c.Kind)),
			fmt.Sprintf("Hand it to %s, not to the tax agency.%s", payer(c.Kind), effectiveSentence(c)),
			fmt.Sprintf("Look at the first paycheck from %s on: an ordinary one should show %s of federal income tax. If it shows something else, ask payroll which certificate it goes by.", c.FirstPayday.Long(), c.Withholding.Grouped()),
		)
	}
	if j := r.January; j != nil && !j.NothingToHandIn() {
		steps = append(steps, fmt.Sprintf("In December, look at this again with the last pay stub, and hand in January's certificate so that it counts from the first payday of %d.", j.TaxYear))
	}
	steps = append(steps, "Look again, with the newest pay stubs, when something changes: a raise or a loss of pay, a second job, marriage or divorce, a birth, a child turning 17, other income. Otherwise once in the middle of the year and in January.")
	return []Block{Heading("Next steps"), List{Numbered: true, Items: steps}}
}

// effectiveSentence is by when payroll must go by the certificate.
func effectiveSentence(c certificate.JobCertificate) string {
	if c.EffectiveBy.IsZero() {
		return ""
	}
	return fmt.Sprintf(" Handed in now, it must count from %s at the latest; many employers are quicker.", c.EffectiveBy.Long())
}

// warnings are what the computation has to say.
func warnings(r certificate.Result) []Block { return notes(r.Warnings) }

// certificateOnFile is a certificate in one line, where payroll may have none.
func certificateOnFile(c *household.Certificate) string {
	if c == nil {
		return "none: payroll withholds as for a single person without entries"
	}
	return certificateWords(*c)
}
