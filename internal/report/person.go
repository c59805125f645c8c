package report

import (
	"fmt"

	"example.com/plumbline/internal/certificate"
)

// PersonPage is for the person alone: what to write and why, the year and its
// paydays, January, the next steps, and what to know. It tells of every job and
// of the household, so it goes to no employer.
func PersonPage(r certificate.Result) Page {
	p := Page{
		AsOf:     r.Household.AsOf,
		Title:    fmt.Sprintf("For you alone: your withholding in %d", r.TaxYear),
		Subtitle: fmt.Sprintf("As of %s. Amounts are dollars. Keep this page; no employer needs it.", r.Household.AsOf.Long()),
	}
	p.add(answer(r)...)
	p.add(nextSteps(r)...)
	p.add(beforeAndAfter(r)...)
	p.add(paydays(r)...)
	p.add(directPayments(r)...)
	p.add(penalty(r)...)
	p.add(otherWays(r)...)
	p.add(january(r, true)...)
	p.add(notes(r.Warnings)...)
	p.add(Heading("Before you sign"), List{Items: cautions})
	return p.shortNames(r.Household)
}
