package certificate

import (
	"fmt"
	"slices"
	"strings"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
	"example.com/plumbline/internal/worksheet"
)

// warnings are what the person must know beside the plans: codes are
// permanent, messages are for people.
func (pr *projection) warnings(r Result) []worksheet.Note {
	var s worksheet.Sheet
	for _, j := range pr.jobs {
		pr.warnPay(&s, j)
	}
	for _, n := range r.Trace.Notes {
		s.Record(n)
	}
	for _, j := range pr.jobs {
		for _, n := range j.year.Notes(payroll.OnFile{Now: j.job.Certificate}) {
			s.Record(n)
		}
		pr.warnOnFile(&s, j)
	}
	p := r.Recommended
	if pr.h.AsOf.After(household.EndOfYear(pr.h.TaxYear)) {
		s.Note("year_over", "%d is over: nothing can be withheld for it any more. Answer anew for %d, with its pay stubs.", pr.h.TaxYear, pr.h.TaxYear+1)
	}
	switch {
	case r.Estimated.Amount.IsPositive() && len(r.Estimated.Payments) > 0:
		due := r.Estimated.Payments[0]
		s.Note("estimated_payment", "The paychecks to come cannot cover %s of this year's tax. Pay it with Form 1040-ES, the next part of %s by %s.", r.Estimated.Amount.Grouped(), due.Amount.Grouped(), due.Due.Long())
	case r.Estimated.Amount.IsPositive():
		s.Note("estimated_payment", "The paychecks to come cannot cover %s of this year's tax, and every due date for estimated payments has passed. Pay it as soon as you can, at the latest with the return.", r.Estimated.Amount.Grouped())
	case !p.Lands && p.Left.IsNegative():
		s.Note("wish_not_reached", "The paychecks to come cannot bring the refund you want; the year ends %s short of it.", p.Left.Abs().Grouped())
	case !p.Lands && p.Outlook.paidOut().IsPositive():
		s.Note("over_withheld", "%s make the refund smaller this year: %s.", cannot(r), p.Outlook.comesBack())
	case !p.Lands:
		s.Note("over_withheld", "%s undo what has been or will be withheld too much this year: %s beyond what you want comes back as a refund.", cannot(r), p.Left.Grouped())
	}
	pr.warnEarlierPayday(&s, p)
	pr.warnCountsLate(&s, p)
	pr.warnLittleLeft(&s, p)
	for _, c := range p.Certificates {
		if c.Corrected && !c.Keep && r.January.replaces(c.Job) {
			s.Note("correction_this_year_only", "The correction on %s holds for %d only: hand in January's certificate so that it counts from the first payday of %d.", c.Name, pr.h.TaxYear, pr.h.TaxYear+1)
		}
	}
	if u := r.Underpayment; !u.Safe {
		s.Note("underpayment", "On this plan the year may end with an underpayment penalty of about %s: %s%s What is withheld from pay by December 31 counts as paid in equal parts over the whole year, so it mends the earlier quarters too; an estimated payment counts from its own day on (IRC 6654(g)).", u.Penalty.GroupedDollars(), u.Reason, ifPaid(r))
	}
	pr.warnExemption(&s, p)
	pr.warnJanuary(&s, r.January)
	return s.Notes
}

// cannot is whose limit it is that too much comes back: that of every
// certificate, or of the recommended plan where another plan brings back less.
func cannot(r Result) string {
	if slices.ContainsFunc(r.Alternatives, func(p Plan) bool { return p.Balance.Less(r.Recommended.Balance) }) {
		return "The certificates of this plan cannot"
	}
	return "No certificate can"
}

// warnPay names a job without pay, and one whose past paydays are not known.
func (pr *projection) warnPay(s *worksheet.Sheet, j openJob) {
	name := j.name
	if j.job.YearToDate != nil {
		return
	}
	if !j.job.OrdinaryPay().IsPositive() && len(j.job.OneTimePay) == 0 {
		s.Note("job.no_pay", "%s: no pay is given, so it counts as paying nothing; give taxable_pay or gross_pay.", name)
		return
	}
	past := 0
	for _, d := range j.year.Paydays() {
		if d.Date.Before(pr.h.AsOf) {
			past++
		}
	}
	if past > 0 {
		s.Note("no_stub", "%s: without year_to_date, the pay of %s before %s counts as still to come, withheld from by the certificate on file. Give year_to_date from the last pay stub for an exact result.",
			name, counted(past, "payday", "paydays"), pr.h.AsOf.Long())
	}
}

// warnCountsLate names the certificates that payroll may by law leave aside
// until no payday of this year is left.
func (pr *projection) warnCountsLate(s *worksheet.Sheet, p Plan) {
	for _, c := range p.Certificates {
		if pr.countsLate(c) {
			s.Note("certificate.may_count_late", "%s: by law payroll need not go by the new certificate before %s, when no payday of %d is left. The whole correction rests on payroll being quicker than that; otherwise %s on which it is counted here would be lost. Ask payroll from which payday it will count.",
				c.Name, c.EffectiveBy.Long(), pr.h.TaxYear, counted(c.Paydays, "payday", "paydays"))
		}
	}
}

// littleLeft is the share of an ordinary paycheck below which what is left of it
// is called little.
var littleLeft = money.Percent(25)

// warnLittleLeft says what a correction leaves of an ordinary paycheck where
// that is little, and names the payment that can stand in its place.
func (pr *projection) warnLittleLeft(s *worksheet.Sheet, p Plan) {
	d := pr.candidateOf(p)
	for i, payer := range pr.payers {
		pay, left := payer.job.OrdinaryPay(), d.leastTakeHome(i).OrZero()
		if !d.certs[i].Extra.IsPositive() || !left.Less(pay.At(littleLeft)) {
			continue
		}
		total := d.certs[i].Extra.Times(payer.paydays)
		by := "with the return, since every due date for estimated payments has passed"
		switch parts := installments(total, pr.h.AsOf, pr.y); len(parts) {
		case 0:
		case 1:
			by = fmt.Sprintf("with Form 1040-ES by %s", parts[0].Due.Long())
		default:
			by = fmt.Sprintf("with Form 1040-ES, the next part of %s by %s", parts[0].Amount.Grouped(), parts[0].Due.Long())
		}
		s.Note("certificate.little_left", "%s: of an ordinary paycheck of %s this leaves %s after federal tax, social security and Medicare. You may leave Step 4(c) empty instead and pay the same total of %s yourself, %s.",
			payer.name, pay.Grouped(), left.Grouped(), total.Grouped(), by)
	}
}

// ifPaid is what becomes of the penalty when the estimated payments are made.
func ifPaid(r Result) string {
	switch {
	case len(r.Estimated.Payments) == 0:
		return ""
	case r.Underpayment.PenaltyIfPaid.IsZero():
		return " With the estimated payments made when they are due, there is none."
	}
	return fmt.Sprintf(" With the estimated payments made when they are due, it is about %s.", r.Underpayment.PenaltyIfPaid.GroupedDollars())
}

// replaces reports whether January asks for another certificate at a job.
func (j *January) replaces(job int) bool {
	return j != nil && slices.ContainsFunc(j.Certificates, func(c JobCertificate) bool { return c.Job == job && !c.Keep })
}

// warnEarlierPayday names the next payday, where a plan does not land and the
// next payday comes before the one on which a new certificate is taken to count:
// payroll may be quick enough.
func (pr *projection) warnEarlierPayday(s *worksheet.Sheet, p Plan) {
	if p.Lands || !pr.h.Wish.FirstPayday.IsZero() {
		return
	}
	var earlier []string
	for _, j := range pr.jobs {
		first := household.Date{}
		if i := slices.IndexFunc(pr.payers, func(s payer) bool { return s.index == j.index }); i >= 0 {
			first = pr.payers[i].from
		}
		for _, d := range j.year.Paydays() {
			if !d.Ordinary || !d.Date.After(pr.h.AsOf) {
				continue
			}
			if first.IsZero() || d.Date.Before(first) {
				earlier = append(earlier, fmt.Sprintf("at %s on %s", j.name, d.Date.Long()))
			}
			break
		}
	}
	if len(earlier) > 0 {
		s.Note("earlier_payday", "A new certificate is taken to count from the second payday on. If payroll can go by it on the next one already (%s), more can be put right: ask, and give that day as the first payday on which new certificates count.", strings.Join(earlier, ", "))
	}
}

// warnExemption names the claim to be exempt where this year has no tax, last
// year had none as far as is known, and pay would be withheld from without a
// correction.
//
// IRC 3402(n); Form W-4, "Exemption from withholding".
func (pr *projection) warnExemption(s *worksheet.Sheet, p Plan) {
	withheldFrom := slices.ContainsFunc(p.Certificates, func(c JobCertificate) bool {
		return c.Kind == household.Wages && !c.Certificate.Exempt && (c.Withholding.IsPositive() || c.Corrected)
	})
	switch last := pr.h.LastYear; {
	case !withheldFrom || pr.ret.TotalTax.IsPositive():
	case last == nil || last.TotalTax == nil:
		s.Note("exempt_possible", "This year has no tax, as far as the answers say. If last year had none either, you may claim exemption from withholding on Form W-4; the claim has to be made anew each year.")
	case last.TotalTax.IsZero():
		s.Note("exempt_possible", "Neither last year nor this one has tax, as far as the answers say. Then you may claim exemption from withholding on Form W-4; the claim has to be made anew each year.")
	}
}

// warnOnFile names certificates on file that should not stay.
func (pr *projection) warnOnFile(s *worksheet.Sheet, j openJob) {
	c, name := j.job.Certificate, j.name
	switch {
	case c == nil:
		return
	case c.Exempt && pr.ret.TotalTax.More(pr.ret.RefundableCredits):
		s.Note("exempt_on_file", "%s has a certificate that claims exemption, but this year will have tax to pay. A new certificate is due within %d days.", name, pr.y.Payroll.Effective.NewWithinDays)
	case c.Exempt:
		s.Note("exempt_renewal", "%s has a certificate that claims exemption. It holds only if you had no tax to pay last year either, and ends unless you give a new one by %s.", name, pr.y.Payroll.Effective.Exemption.RenewedBy.Long())
	case c.Edition == household.Current && c.Status != pr.status():
		s.Note("status_on_file", "%s has another filing status on file than the one you expect to file with.", name)
	}
}

// warnJanuary says on what January's certificate stands.
func (pr *projection) warnJanuary(s *worksheet.Sheet, j *January) {
	if j == nil {
		return
	}
	switch {
	case j.Projected:
		s.Note("january_tables", "The figures of %d are not published yet. January's certificate uses those of %d, moved on as the law does for an assumed rise in prices. Work it out again once they are published.", j.TaxYear, j.TablesYear)
	case j.TablesYear != j.TaxYear:
		s.Note("january_tables", "The tables for %d are not in this program: January's certificate is figured with those of %d and should be checked again once they are published.", j.TaxYear, j.TablesYear)
	}
	if paid := pr.h.Payments.EstimatedTax; paid.IsPositive() {
		s.Note("january_estimated_tax", "January's certificate takes it that you pay %s of estimated tax again in %d.", paid.Grouped(), j.TaxYear)
	}
}
