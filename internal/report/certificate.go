package report

import (
	"fmt"
	"slices"
	"time"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
)

// Certificate is the whole result on one page, the answer first: what to write
// on each certificate and why; the year before and after; the plans side by
// side; what paychecks cannot cover; other ways; January; the next steps; what
// to know.
func Certificate(r certificate.Result) Page {
	p := Page{
		AsOf:  r.Household.AsOf,
		Title: fmt.Sprintf("What to write on each certificate, %d", r.TaxYear),
		Subtitle: fmt.Sprintf("As of %s, for a return filed as %s. Amounts are dollars.",
			r.Household.AsOf.Long(), statusWords[r.Household.Status]),
	}
	p.add(answer(r)...)
	p.add(beforeAndAfter(r)...)
	p.add(plans(r)...)
	p.add(directPayments(r)...)
	p.add(penalty(r)...)
	p.add(otherWays(r)...)
	p.add(january(r, false)...)
	p.add(nextSteps(r)...)
	p.add(notes(r.Warnings)...)
	p.add(Heading("Before you sign"), List{Items: cautions})
	return p.shortNames(r.Household)
}

// answer is what to write for each job, and why this plan.
func answer(r certificate.Result) []Block {
	plan := r.Recommended
	blocks := []Block{Heading("What to write"), Paragraph(inShort(plan)), Paragraph(sentence(plan.Reason))}
	for _, c := range plan.Certificates {
		blocks = append(blocks, writeBlocks(c, r.Household.Status, r.Tables)...)
		if !c.Keep {
			blocks = append(blocks, Paragraph(firstPaycheck(c, r.Household.Jobs[c.Job])))
		}
	}
	return blocks
}

// inShort is where a new certificate goes, and where the one on file stays.
func inShort(p certificate.Plan) string {
	if p.NothingToHandIn() {
		return "Nothing to hand in."
	}
	var give, keep []string
	for _, c := range p.Certificates {
		if c.Keep {
			keep = append(keep, c.Name)
		} else {
			give = append(give, fmt.Sprintf("a new %s to %s", formName(c.Kind), c.Name))
		}
	}
	s := "Give " + listed(give, "and") + "."
	if len(keep) > 0 {
		s += " Nothing to hand in at " + listed(keep, "and") + "."
	}
	return s
}

// firstPaycheck is from when a certificate counts and what it does to an
// ordinary paycheck of a job.
func firstPaycheck(c certificate.JobCertificate, j household.Job) string {
	s := fmt.Sprintf("It counts from the payday of %s, on %s this year. Each %s then has %s of federal income tax taken from it",
		c.FirstPayday.Long(), counted(c.Paydays, "payday", "paydays"), payment(c.Kind), c.Withholding.Grouped())
	switch {
	case j.Certificate == nil && j.YearToDate == nil: // a new job: there is no before
		return s + "."
	case c.Change.IsZero():
		return s + ", as now."
	}
	return fmt.Sprintf("%s instead of %s: %s to take home.", s, c.Withholding.Add(c.Change).Grouped(), changeWords(c.Change))
}

// otherWays are the ways that an employer carries out on request.
func otherWays(r certificate.Result) []Block {
	if len(r.OtherWays) == 0 {
		return nil
	}
	blocks := []Block{
		Heading("Another way to put the year right"),
		Paragraph("Too much has been withheld. You may ask the employer, in writing, to figure the paychecks to come in another way."),
	}
	for _, w := range r.OtherWays {
		blocks = append(blocks, Subheading(wayWords[w.Code]+", "+w.Name))
		points := []string{"When it is open to you: " + w.Condition}
		if len(w.Paychecks) > 0 {
			first := w.Paychecks[0]
			change := changeWords(first.Change) + " to take home than"
			if first.Change.IsZero() {
				change = "the same as"
			}
			points = append(points, fmt.Sprintf("What it does: the paycheck of %s has %s of federal income tax taken from it, %s with the form's own entries. The year ends with %s.",
				first.Payday.Long(), first.Withheld.Grouped(), change, balancePhrase(w.Balance)))
		}
		blocks = append(blocks, List{Items: append(points,
			"What to write to the employer: \""+w.Request+"\"",
			"Source: "+w.Source+".")})
	}
	return blocks
}

// january is the second certificate, for the whole of next year, with the
// reasons where asked for: most are those of the first one.
func january(r certificate.Result, why bool) []Block {
	j := r.January
	if j == nil {
		return nil
	}
	blocks := []Block{Heading(fmt.Sprintf("January %d", j.TaxYear))}
	stays := ""
	if slices.ContainsFunc(r.Recommended.Certificates, func(c certificate.JobCertificate) bool { return len(beyondCredits(c)) > 0 }) {
		stays = fmt.Sprintf(" Step 3 was worked out anew for %d and stays as it is.", j.TaxYear)
	}
	switch {
	case j.NothingToHandIn() && !j.Lands:
		return append(blocks, Paragraph(fmt.Sprintf("Nothing to hand in for %d on this plan. With the same certificates that year is expected to end with %s.%s", j.TaxYear, balancePhrase(j.Balance), stays)))
	case j.NothingToHandIn():
		return append(blocks, Paragraph(fmt.Sprintf("The same certificates fit %d too: nothing to hand in then. That year is expected to end with %s.%s", j.TaxYear, balancePhrase(j.Balance), stays)))
	}
	occasion := fmt.Sprintf("Entries made for the rest of %d do not fit a whole year.", r.TaxYear)
	if r.Recommended.NothingToHandIn() {
		occasion = fmt.Sprintf("%d asks for other entries than those on file.", j.TaxYear)
	}
	blocks = append(blocks, Paragraph(fmt.Sprintf("%s Hand these in so that they count from the first payday of %d. That year is then expected to end with %s.",
		occasion, j.TaxYear, balancePhrase(j.Balance))))
	for _, c := range j.Certificates {
		write := writeBlocks(c, r.Household.Status, r.Tables)
		if entries, ok := write[1].(Entries); ok && !why {
			write[1] = entries.withoutReasons(beyondCredits(c))
		}
		blocks = append(blocks, write...)
		if !c.Keep {
			blocks = append(blocks, Paragraph(fmt.Sprintf("It is to count from the payday of %s. Each %s then has %s of federal income tax taken from it.",
				c.FirstPayday.Long(), payment(c.Kind), c.Withholding.Grouped())))
		}
	}
	return blocks
}

// beyondCredits are the labels of the entries whose reason always stands beside
// them: Step 3, where it is more than the credits for children and others.
func beyondCredits(c certificate.JobCertificate) []string {
	if l := c.Lines; c.Corrected && l.L3.Amount.More(l.L3a.Amount.Add(l.L3b.Amount)) {
		return []string{entryLabels[l.L3.Line]}
	}
	return nil
}

// nextSteps are what to do with the result, in order.
func nextSteps(r certificate.Result) []Block {
	var steps []string
	for _, c := range r.Recommended.Certificates {
		if c.Keep {
			continue
		}
		whose, sign := "your", "sign and date it"
		if r.Household.Jobs[c.Job].Earner == household.OfSpouse {
			whose, sign = "your spouse's", "and have your spouse sign and date it"
		}
		steps = append(steps,
			fmt.Sprintf("%s: copy the entries onto the official %s, write %s name, address and social security number on it, %s.", c.Name, formName(c.Kind), whose, sign),
			fmt.Sprintf("Hand it to %s, not to the tax agency, in time for the payday of %s.%s", payer(c.Kind), c.FirstPayday.Long(), effective(c)),
			fmt.Sprintf("Look at that day's pay stub: an ordinary %s should show %s of federal income tax. If it shows something else, ask payroll which certificate it goes by; and if the new one counts later than that, work this out again.",
				payment(c.Kind), c.Withholding.Grouped()),
		)
	}
	if j := r.January; j != nil && !j.NothingToHandIn() {
		step := "In December, work this out again with the last pay stub, and hand"
		if r.Household.AsOf.Month == time.December {
			step = "Hand"
		}
		steps = append(steps, fmt.Sprintf("%s in January's certificate so that it counts from the first payday of %d.", step, j.TaxYear))
	}
	steps = append(steps, "Work this out again, with the newest pay stubs, when something changes: a raise or a loss of pay, a second job, marriage or divorce, a birth, a child turning 17, other income. Otherwise in the middle of the year and in January.")
	return []Block{Heading("Next steps"), List{Numbered: true, Items: steps}}
}

// effective is by when payroll must go by a certificate handed in now, where
// that is later than it is counted on.
func effective(c certificate.JobCertificate) string {
	if !c.EffectiveBy.After(c.FirstPayday) {
		return ""
	}
	return fmt.Sprintf(" By law it need not count before %s; most payrolls are quicker, so ask.", c.EffectiveBy.Long())
}
