package report

import (
	"fmt"
	"slices"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/money"
)

// Plans is the plans side by side: the balance and how it moves, and what each
// does to the paychecks and tells the employers.
func Plans(r certificate.Result) Page {
	p := Page{
		AsOf:     r.Household.AsOf,
		Title:    fmt.Sprintf("The plans side by side, %d", r.TaxYear),
		Subtitle: "Each plan is a certificate for every job, replayed over every payday to come.",
	}
	p.add(Paragraph(sentence(r.Recommended.Reason)))
	p.add(plans(r)...)
	p.add(Paragraph(estimateCaution))
	return p.shortNames(r.Household)
}

// plans are the plans that differ from each other, the recommended one first.
func plans(r certificate.Result) []Block {
	all := append([]certificate.Plan{r.Recommended}, r.Alternatives...)
	var distinct []certificate.Plan
	same := map[int][]string{} // index into distinct → names of plans that come to the same
	for _, p := range all {
		i := slices.IndexFunc(distinct, func(q certificate.Plan) bool { return sameCertificates(p, q) })
		if i < 0 {
			distinct = append(distinct, p)
			continue
		}
		same[i] = append(same[i], planWords[p.Name])
	}
	if len(r.Recommended.Certificates) == 0 {
		return nil
	}
	if len(distinct) == 1 {
		return onlyPlan(distinct[0])
	}
	blocks := []Block{
		Heading("The plans side by side"),
		Paragraph("The balance of each plan, and what becomes of it if the rest of the year comes out otherwise:"),
		shiftTable(distinct),
	}
	for i, p := range distinct {
		title := planWords[p.Name]
		switch {
		case i == 0:
			title += " (" + standing(r) + ")"
		case p.Name == r.Advised:
			title += " (recommended)"
		}
		if len(same[i]) > 0 {
			title += "; the same as " + listed(same[i], "and")
		}
		points := planPoints(p)
		if i > 0 {
			points = append([]string{sentence(p.Reason)}, points...)
		}
		blocks = append(blocks, Subheading(title), List{Items: points})
	}
	return blocks
}

// standing is what the plan of a result is to the person: recommended by the
// program, or of their own choosing.
func standing(r certificate.Result) string {
	if r.Advised != "" && r.Advised != r.Recommended.Name {
		return "chosen"
	}
	return "recommended"
}

// onlyPlan is what becomes of the balance where every plan comes to the same.
func onlyPlan(p certificate.Plan) []Block {
	t := Table{Head: []string{"", "balance"}, Rows: [][]string{{"as expected", balanceWords(p.Balance)}}}
	for _, s := range p.Shifts {
		t.Rows = append(t.Rows, []string{shiftWords[s.Case], balanceWords(s.Balance)})
	}
	return []Block{
		Heading("If the rest of the year comes out otherwise"),
		Paragraph("There is nothing to choose: every plan comes to the same certificates."),
		t,
	}
}

// shiftTable is the balance of each plan and how it moves.
func shiftTable(plans []certificate.Plan) Table {
	t := Table{Head: []string{"plan", "balance"}}
	for _, s := range plans[0].Shifts {
		t.Head = append(t.Head, shiftWords[s.Case])
	}
	for _, p := range plans {
		row := []string{planWords[p.Name], shortBalance(p.Balance)}
		for _, s := range p.Shifts {
			row = append(row, shortBalance(s.Balance))
		}
		t.Rows = append(t.Rows, row)
	}
	return t
}

// shortBalance is a balance in a table's cell.
func shortBalance(a money.Amount) string {
	switch {
	case a.IsPositive():
		return "refund " + a.Grouped()
	case a.IsNegative():
		return a.Abs().Grouped() + " due"
	}
	return "even"
}

// planPoints are what a plan does to each paycheck, what each employer learns
// from it, and whether the penalty is ruled out.
func planPoints(p certificate.Plan) []string {
	var points []string
	for _, c := range p.Certificates {
		point := c.Name + ": "
		if c.Keep {
			point += "nothing to hand in"
		} else {
			point += "each " + payment(c.Kind) + " " + changeWords(c.Change)
		}
		learns := "nothing of your household"
		if len(c.Learns) > 0 {
			learns = listed(c.Learns, "and")
		}
		points = append(points, fmt.Sprintf("%s; %s learns %s.", point, payer(c.Kind), learns))
	}
	if p.Harbor.Safe {
		return append(points, "A penalty for paying too late is ruled out.")
	}
	return append(points, "A penalty for paying too late is not ruled out: "+p.Harbor.Reason)
}

// sameCertificates reports whether two plans come to the same entries for every
// job.
func sameCertificates(p, q certificate.Plan) bool {
	return slices.EqualFunc(p.Certificates, q.Certificates, func(b, c certificate.JobCertificate) bool {
		return b.Job == c.Job && sameEntries(b, c)
	})
}

func sameEntries(b, c certificate.JobCertificate) bool {
	return b.Certificate.MultipleJobs == c.Certificate.MultipleJobs && b.Certificate.Exempt == c.Certificate.Exempt &&
		slices.EqualFunc(b.Lines.All(), c.Lines.All(), func(d, e certificate.Entry) bool { return d.Amount.Equal(e.Amount) })
}
