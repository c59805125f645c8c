package certificate

import (
	"slices"
	"time"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/payroll"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// warnings are what the person must know besides the advice; their codes are
// permanent.
func (pr *projection) warnings(r Result, f formEntries) []worksheet.Note {
	var s worksheet.Sheet
	for _, j := range pr.jobs {
		pr.warnPay(&s, j)
	}
	pr.warnNoEarlierJob(&s)
	for _, n := range r.CheckFirst {
		s.Record(n)
	}
	if past := pr.found.pastWish; !past.IsZero() {
		s.Say(words.T("certificate.warning.first_payday_past", "day", past))
	}
	for _, d := range pr.found.facts {
		s.Record(worksheet.Note{Code: d.Code(), Text: d.What})
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
	pr.warnStatus(&s)
	pr.warnNumbers(&s)
	p := r.Recommended
	if pr.h.AsOf.After(household.EndOfYear(pr.h.TaxYear)) {
		s.Say(words.T("certificate.warning.year_over", "year", pr.h.TaxYear))
	}
	left := p.Balance.Sub(pr.goal)
	switch {
	case r.Estimated.Amount.IsPositive():
		s.Say(words.T("certificate.warning.estimated_payment", "amount", r.Estimated.Amount))
	case !p.NearEnough && left.IsNegative():
		s.Say(words.T("certificate.warning.wish_not_reached", "amount", left.Abs()))
	case !p.WithheldSoFar.IsPositive() || !left.More(pr.band().times(lastingTimes).over): // nothing was withheld yet, or little
	case p.Outlook.paidOut().IsPositive():
		s.Say(words.T("certificate.warning.over_withheld", "kind", "credit", "amount", pr.lowest(f), "credit", p.Outlook.paidOut()))
	default:
		s.Say(words.T("certificate.warning.over_withheld", "kind", "refund", "amount", left, "credit", money.Zero))
	}
	pr.warnUnemployment(&s, r)
	if v := pr.h.Payments; (v.SocialSecurity != nil || v.Unemployment != nil) && left.More(pr.band().times(lastingTimes).over) {
		s.Say(words.T("certificate.warning.benefits_over_withheld"))
	}
	pr.warnEarlierPayday(&s, r)
	pr.warnPlan(&s, r)
	if u := r.Underpayment; !u.Safe {
		s.Say(words.T("certificate.warning.underpayment", "penalty", u.Penalty, "left", u.LeftIfPaid(), "if_paid", u.PenaltyIfPaid))
		if l := r.Verdict.LastYear; l != nil {
			s.Say(words.T("certificate.warning.last_year_could_settle", "at_most", l.AtMost, "at_most_high", l.AtMostHigh, "high", l.HighOver))
		}
	}
	pr.warnExemption(&s, p)
	pr.warnJanuary(&s, r.January)
	return s.Notes
}

// warnNumbers says by how much the year's tax, less the credits paid out, is higher
// because somebody on the return has no social security number valid for work.
//
// IRC 24(h)(7), 32(m); for the deductions, the sections at their rules.
func (pr *projection) warnNumbers(s *worksheet.Sheet) {
	with := pr.h
	var who []words.Text
	if !with.Self.HasSSN() {
		with.Self.SSNValidForWork = nil
		who = append(who, words.T("certificate.number.self"))
	}
	if with.Joint() && with.Spouse != nil && !with.Spouse.HasSSN() {
		spouse := *with.Spouse
		spouse.SSNValidForWork, with.Spouse = nil, &spouse
		who = append(who, words.T("certificate.number.spouse"))
	}
	with.Dependents = slices.Clone(with.Dependents)
	for i, d := range with.Dependents {
		if !d.HasSSN() {
			with.Dependents[i].SSNValidForWork = nil
			who = append(who, words.T("certificate.number.dependent", "name", with.DependentName(i)))
		}
	}
	if len(who) == 0 {
		return
	}
	then := projection{h: with, y: pr.y, method: pr.method}
	then.openJobs()
	then.fileReturn()
	owed := func(r tax.Return) money.Amount { return r.TotalTax.Sub(r.RefundableCredits) }
	if lost := owed(pr.ret).Sub(owed(then.ret)); !lost.Less(money.Dollars(1)) {
		s.Say(words.T("certificate.warning.number_missing", "who", who, "year", pr.h.TaxYear, "lost", lost))
	}
}

// warnUnemployment says that a percent can be withheld from unemployment benefits,
// where the year comes out short as filed and none has been chosen.
//
// IRC 3402(p)(2); Form W-4V.
func (pr *projection) warnUnemployment(s *worksheet.Sheet, r Result) {
	short := pr.goal.Sub(r.AsFiled.Balance)
	if pr.h.Income.Unemployment.IsPositive() && pr.h.Payments.Unemployment == nil && short.More(pr.band().short) &&
		!pr.h.AsOf.After(household.EndOfYear(pr.h.TaxYear)) {
		s.Say(words.T("certificate.warning.unemployment_withholding", "percent", pr.y.Voluntary.Unemployment))
	}
}

// warnPay names a job without pay, and one whose past paydays are not known.
func (pr *projection) warnPay(s *worksheet.Sheet, j openJob) {
	if j.job.YearToDate != nil {
		return
	}
	if !j.job.OrdinaryPay().IsPositive() && len(j.job.OneTimePay) == 0 {
		s.Say(words.T("certificate.warning.job.no_pay", "job", j.name))
		return
	}
	past := 0
	for _, d := range j.year.Paydays() {
		if d.Date.Before(pr.h.AsOf) {
			past++
		}
	}
	if past > 0 {
		s.Say(words.T("certificate.warning.no_stub", "job", j.name, "paydays", past, "day", pr.h.AsOf))
	}
}

// warnNoEarlierJob says what is assumed of somebody whose first job of the year
// began after January: no pay before it. Who was asked how many jobs paid them this
// year has said so.
func (pr *projection) warnNoEarlierJob(s *worksheet.Sheet) {
	asked := map[household.Earner]string{household.OfSelf: "jobs", household.OfSpouse: "spouse_jobs"}
	year := pr.h.TaxYear
	for _, e := range pr.h.Earners() {
		var first openJob
		var day household.Date
		for _, j := range pr.jobs {
			if j.job.Earner != e {
				continue
			}
			if days := j.job.Paydays(year); len(days) > 0 && (day.IsZero() || days[0].Before(day)) {
				first, day = j, days[0]
			}
		}
		if day.IsZero() || first.pension() || first.job.FirstPayday.IsZero() || pr.h.Interview.Gates[asked[e]] != "" {
			continue
		}
		began := day.AddDays(-daysInYear / pr.y.Payroll.Periods.Of(first.job.Frequency))
		if began.After(household.On(year, time.January, 31)) {
			s.Say(words.T("certificate.warning.no_earlier_job", "who", e.String(), "job", first.name, "day", day, "year", year))
		}
	}
}

// warnPlan names what must be known of a plan that has been chosen in the place
// of the advice, or that holds for this year alone: certificates that payroll may
// by law leave aside until the year is over, paychecks that shrink by more than
// is livable, and a correction that January's certificate must replace.
func (pr *projection) warnPlan(s *worksheet.Sheet, r Result) {
	var late, this []string
	for _, c := range r.Recommended.Certificates {
		i := slices.IndexFunc(pr.payers, func(p payer) bool { return p.index == c.Job })
		if c.Keep || i < 0 {
			continue
		}
		if pr.late(i) {
			late = append(late, c.Name)
		}
		if c.LittleLeft {
			s.Say(c.Takes())
		}
		if c.Corrected && c.ThisYear {
			this = append(this, c.Name)
		}
	}
	if len(late) > 0 {
		s.Say(words.T("certificate.warning.certificate.may_count_late", "jobs", late, "year", pr.h.TaxYear, "next", pr.h.TaxYear+1))
	}
	if len(this) > 0 {
		s.Say(words.T("certificate.warning.correction_this_year_only", "jobs", this, "year", pr.h.TaxYear, "next", pr.h.TaxYear+1))
	}
}

// Takes is what a certificate takes from an ordinary paycheck and what it leaves,
// in a sentence: of one that has LittleLeft.
func (c JobCertificate) Takes() words.Text {
	return words.T("certificate.warning.certificate.little_left", "job", c.Name, "less", c.Change.Abs(), "left", c.TakeHome.OrZero())
}

// replaces reports whether January asks for another certificate at a job.
func (j *January) replaces(job int) bool { return j != nil && j.Plan.replaces(job) }

// replaces reports whether a plan asks for another certificate at a job.
func (p Plan) replaces(job int) bool {
	return slices.ContainsFunc(p.Certificates, func(c JobCertificate) bool { return c.Job == job && !c.Keep })
}

// warnEarlierPayday names the next payday, where the advice is not near enough
// and the next payday comes before the one on which a new certificate is taken to
// count: payroll may be quick enough.
func (pr *projection) warnEarlierPayday(s *worksheet.Sheet, r Result) {
	if r.Recommended.NearEnough || !pr.h.Wish.FirstPayday.IsZero() {
		return
	}
	var earlier []words.Text
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
				earlier = append(earlier, words.T("certificate.warning.at_on", "job", j.name, "day", d.Date))
			}
			break
		}
	}
	if len(earlier) > 0 {
		s.Say(words.T("certificate.warning.earlier_payday", "earlier", earlier))
	}
}

// warnExemption names the claim to be exempt where the person may make it and the
// advice does not, and says why a claim that is wished for is not open.
//
// IRC 3402(n); Form W-4, "Exemption from withholding".
func (pr *projection) warnExemption(s *worksheet.Sheet, p Plan) {
	if p.Name == PlanExempt {
		return
	}
	last, known := pr.h.LastYear.Tax()
	withheldFrom := slices.ContainsFunc(p.Certificates, func(c JobCertificate) bool {
		return c.Kind == household.Wages && !c.Certificate.Exempt && (c.Withholding.IsPositive() || c.Corrected)
	})
	switch {
	case pr.h.Wish.Exempt && pr.taxed():
		s.Say(words.T("certificate.warning.exempt_not_open", "why", "this_year", "year", pr.h.TaxYear, "last", pr.h.TaxYear-1))
	case pr.h.Wish.Exempt && known && last.IsPositive():
		s.Say(words.T("certificate.warning.exempt_not_open", "why", "last_year", "year", pr.h.TaxYear, "last", pr.h.TaxYear-1))
	case pr.h.Wish.Exempt && !known:
		s.Say(words.T("certificate.warning.exempt_not_open", "why", "not_known", "year", pr.h.TaxYear, "last", pr.h.TaxYear-1))
	case pr.h.Wish.Exempt || !withheldFrom || pr.taxed() || !pr.ownWages():
	case !known:
		s.Say(words.T("certificate.warning.exempt_possible", "known", "no", "year", pr.h.TaxYear, "last", pr.h.TaxYear-1))
	case last.IsZero():
		s.Say(words.T("certificate.warning.exempt_possible", "known", "yes", "year", pr.h.TaxYear, "last", pr.h.TaxYear-1))
	}
}

// warnOnFile names certificates on file that should not stay.
func (pr *projection) warnOnFile(s *worksheet.Sheet, j openJob) {
	c, rules := j.job.Certificate, pr.y.Payroll.Effective
	switch {
	case c == nil:
		return
	case pr.claimEnded(j):
		pr.warnClaimEnds(s, j)
	case c.Exempt && pr.taxed():
		s.Say(words.T("certificate.warning.exempt_on_file", "job", j.name, "days", rules.NewWithinDays))
		pr.warnClaimEnds(s, j)
	case c.Exempt && !pr.warnClaimEnds(s, j) && !pr.claimFails(j, c):
		s.Say(words.T("certificate.warning.exempt_renewal", "job", j.name, "day", pr.nextRenewal()))
	}
}

// warnStatus names the certificates on file whose status must change, by the
// status that they have.
//
// 26 CFR 31.3402(l)-1(b), (c).
func (pr *projection) warnStatus(s *worksheet.Sheet) {
	jobs := make(map[household.CertificateStatus][]string)
	for _, j := range pr.jobs {
		if c := j.job.Certificate; c != nil && !c.Exempt && pr.statusMustChange(c) {
			jobs[statusOf(c)] = append(jobs[statusOf(c)], j.name)
		}
	}
	for _, box := range []household.CertificateStatus{household.CertificateJoint, household.CertificateHeadOfHousehold} {
		if len(jobs[box]) > 0 {
			s.Say(words.T("certificate.warning.status_on_file", "jobs", jobs[box], "box", boxOf(box), "status", boxOf(pr.status())))
		}
	}
}

// warnClaimEnds says that a claim to be exempt ends this year, or may, and what
// is withheld then; it reports whether there was anything to say.
func (pr *projection) warnClaimEnds(s *worksheet.Sheet, j openJob) bool {
	c, year := j.job.Certificate, pr.h.TaxYear
	if last, ends := j.year.ClaimEnds(c); ends {
		past, by := "no", "single"
		if last.Before(pr.h.AsOf) {
			past = "yes"
		}
		if j.year.AfterClaim() != nil {
			by = "earlier"
		}
		s.Say(words.T("certificate.warning.exempt_ends", "job", j.name, "day", last, "year", year, "past", past, "by", by))
		return true
	}
	if !pr.claimMayEnd(j) {
		return false // made this year, or made again
	}
	s.Say(words.T("certificate.warning.exempt_year_unknown", "job", j.name, "day", pr.y.ClaimsRenewedBy(year), "year", year))
	return true
}

// claimEnded reports whether payroll no longer goes by the claim to be exempt on
// file.
func (pr *projection) claimEnded(j openJob) bool {
	last, ends := j.year.ClaimEnds(j.job.Certificate)
	return ends && last.Before(pr.h.AsOf)
}

// claimMayEnd reports whether the claim to be exempt on file, of a year that is
// not known, ends in the days to come if it is of an earlier year.
func (pr *projection) claimMayEnd(j openJob) bool {
	return j.job.Kind == household.Wages && j.job.Certificate.CountsFrom.IsZero() && !pr.y.ClaimsRenewedBy(pr.h.TaxYear).Before(pr.h.AsOf)
}

// nextRenewal is the next day by which a claim that payroll goes by is made
// again. One that payroll still has after that day of a year was made again.
func (pr *projection) nextRenewal() household.Date {
	year := pr.h.TaxYear
	if last := pr.y.ClaimsRenewedBy(year); last.Before(pr.h.AsOf) {
		year++
	}
	return pr.y.ClaimsRenewedBy(year)
}

// boxOf is a box of Step 1(c) in a sentence.
func boxOf(s household.CertificateStatus) words.Text {
	return words.T("certificate.box." + s.String())
}

// warnJanuary says what January's certificate is based on.
func (pr *projection) warnJanuary(s *worksheet.Sheet, j *January) {
	if j == nil {
		return
	}
	if j.TablesYear != j.TaxYear {
		projected := "no"
		if j.Projected != nil {
			projected = "yes"
		}
		s.Say(words.T("certificate.warning.january_tables", "year", j.TaxYear, "tables", j.TablesYear, "projected", projected))
	}
	if len(j.Once) > 0 {
		s.Say(words.T("certificate.warning.january_once", "year", j.TaxYear, "once", j.Once))
	}
	if paid := j.EstimatedTax; paid.IsPositive() {
		s.Say(words.T("certificate.warning.january_estimated_tax", "paid", paid, "year", j.TaxYear))
	}
}
