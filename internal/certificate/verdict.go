package certificate

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/worksheet"
)

// What the advice comes to.
const (
	ChangeNothing  = "change_nothing"  // nothing to hand in and nothing to pay
	NewCertificate = "new_certificate" // one or more, which count this year
	JanuaryOnly    = "january_only"    // nothing changes this year; January's certificate does
	PayDirectly    = "pay_directly"    // no certificate helps
	ClaimExempt    = "exempt"          // claim exemption from withholding
)

// Verdict is the advice in short.
type Verdict struct {
	Code       string
	Sentences  []words.Text // what to do, what the year will then be, what it would be otherwise
	Forms      int          // certificates to hand in now
	NearEnough bool         // the year ends near enough to the goal
	// PenaltyIfUnchanged is about what the underpayment penalty would be on the
	// certificates on file, with nothing else paid.
	PenaltyIfUnchanged money.Amount
	PayDirectly        DirectPayment
	TakeHomeChange     []TakeHome
	// LastYear is how last year's tax could settle the penalty where it is not
	// known and one threatens; nil otherwise.
	LastYear *LastYearTest
}

// DirectPayment is what to pay to the tax agency besides what is withheld: the
// amount, and the day on which it, or the first part of it, is due.
type DirectPayment struct {
	Amount  money.Amount // zero for nothing
	By      household.Date
	Parts   []tax.Payment // by due date
	Waiting money.Amount  // about what waiting until the return would cost in penalty, zero where none follows
	// WithReturn is the last part, where it is due only with the return: no penalty
	// falls on it.
	WithReturn money.Amount
}

// TakeHome is what an ordinary paycheck of a job leaves, after federal income
// tax, social security and Medicare tax and what comes off before tax.
type TakeHome struct {
	Job       int // index into Household.Jobs
	Name      string
	Now, Then money.Amount
}

// Change is how much more (positive) or less is taken home.
func (t TakeHome) Change() money.Amount { return t.Then.Sub(t.Now) }

// LastYearTest is the most that last year's total tax could be for it to rule a
// penalty out as things are: on an ordinary income, and on one above the line of
// IRC 6654(d)(1)(C).
type LastYearTest struct {
	AtMost, AtMostHigh money.Amount
	HighOver           money.Amount // adjusted gross income above which AtMostHigh holds
}

// Doubt is an entry that is true only if something is that the answers leave
// open, with the entry that is safe if it is not.
type Doubt struct {
	Job    int        // index into Household.Jobs
	Entry  string     // "1c", "3a", "3b", "3", "exempt"
	About  words.Text // what has to be true
	Safe   words.Text // what to write if it is not, or what follows
	Amount money.Amount
}

// Duty is a new certificate that the law asks for, whether or not it is advised.
type Duty struct {
	Code string // "status", "exemption", "renewal", "credits"
	Job  int    // index into Household.Jobs
	Days int    // within so many days of the change; zero: by the date
	By   household.Date
	Text words.Text
}

// Step is one thing to do, in order.
type Step struct {
	Code   string         // "hand_in", "check_stub", "pay", "january", "again"
	Job    int            // index into Household.Jobs; -1 for none
	On     household.Date // the day that it is about; zero for none
	Law    household.Date // hand_in: the day by which payroll must go by it, where that is later
	Amount money.Amount   // to pay, or on the stub
}

// said is how a year ends, in a sentence.
func (o Outlook) said() words.Text {
	switch {
	case o.Balance.Abs().Less(money.Dollars(1)):
		return words.T("certificate.outcome.even")
	case o.Balance.IsNegative():
		return words.T("certificate.outcome.owe", "amount", o.Balance.Abs())
	case o.paidOut().Equal(o.Balance):
		return words.T("certificate.outcome.credit", "amount", o.Balance)
	case o.paidOut().IsPositive():
		return words.T("certificate.outcome.refund_with_credit", "amount", o.Balance, "credit", o.paidOut())
	}
	return words.T("certificate.outcome.refund", "amount", o.Balance)
}

// verdict is what the result comes to.
func (pr *projection) verdict(r Result, f formEntries) Verdict {
	p := r.Recommended
	v := Verdict{
		Forms: p.forms(), NearEnough: p.NearEnough,
		PenaltyIfUnchanged: inAll(tax.Penalty(r.Harbor, pr.paid(r.AsFiled), pr.y)),
		PayDirectly:        r.Estimated.direct(pr, r.Underpayment),
	}
	for _, c := range p.Certificates {
		v.TakeHomeChange = append(v.TakeHomeChange, TakeHome{c.Job, c.Name, c.TakeHomeNow, c.TakeHome})
	}
	if u := pr.y.Underpayment; !r.Harbor.Safe {
		if _, known := pr.h.LastYear.Tax(); !known {
			paid := pr.paid(r.AsFiled)
			v.LastYear = &LastYearTest{atShare(paid, u.PriorShare), atShare(paid, u.PriorShare.Add(u.PriorHighExtra)), u.HighIncome.Of(pr.h.Status)}
		}
	}
	january := r.January != nil && r.January.forms() > 0
	switch {
	case p.Name == PlanExempt:
		v.Code = ClaimExempt
	case v.Forms > 0:
		v.Code = NewCertificate
	case january && (p.NearEnough || v.PayDirectly.Amount.IsPositive() || r.ground == becauseLate):
		v.Code = JanuaryOnly
	case v.PayDirectly.Amount.IsPositive():
		v.Code = PayDirectly
	default:
		v.Code = ChangeNothing
	}
	v.Sentences = v.said(r)
	if v.Forms == 0 {
		for _, d := range pr.doubtsOfUnborn(0, "") {
			v.Sentences = append(v.Sentences, d.About, words.T("certificate.safe.less_back", "more", d.Amount))
		}
	}
	return v
}

// said is the verdict in two or three sentences: what to do; what the year will
// then be; what it would be otherwise.
func (v Verdict) said(r Result) []words.Text {
	var all []words.Text
	add := func(code string, args ...any) { all = append(all, words.T("certificate.verdict."+code, args...)) }
	p, next := r.Recommended, r.TaxYear+1
	renewal := slices.IndexFunc(r.Duties, func(d Duty) bool { return d.Code == "renewal" })
	switch v.Code {
	case ClaimExempt:
		add("exempt", "jobs", newAt(p))
	case NewCertificate:
		add("new_certificate", "forms", v.Forms, "jobs", newAt(p), "kind", p.Payers())
	case JanuaryOnly:
		if r.January.Name == PlanExempt && renewal >= 0 {
			add("claim_undated", "year", r.TaxYear, "by", r.Duties[renewal].By)
		} else if r.January.Name == PlanExempt {
			add("january_claim", "year", next, "by", r.January.HandIn)
		} else {
			add("january_only", "year", next)
		}
	case ChangeNothing:
		add("change_nothing")
	}
	pay := v.PayDirectly
	then := p.Outlook
	if pay.Amount.IsPositive() {
		soon, parts := pay.Amount.Sub(pay.WithReturn), len(pay.Parts)
		switch {
		case soon.IsZero():
			add("pay_with_return", "amount", pay.Amount, "by", pay.By)
		case pay.WithReturn.IsZero():
			add("pay", "amount", pay.Amount, "by", pay.By, "parts", parts)
		default:
			add("pay_and_rest", "amount", soon, "by", pay.By, "parts", parts-1, "rest", pay.WithReturn, "last", pay.Parts[parts-1].Due)
		}
		then.Balance = then.Balance.Add(pay.Amount)
	}
	all = append(all, then.said())
	if over := p.Balance.Sub(r.wished); v.Forms > 0 && over.More(overMost) && p.WithheldSoFar.More(p.TotalTax.Add(r.wished)) {
		add("withheld_already")
	}
	first := slices.ContainsFunc(p.Certificates, func(c JobCertificate) bool { return r.Household.Jobs[c.Job].Certificate == nil })
	switch {
	case first && then.Balance.Sub(r.AsFiled.Balance).Abs().Less(money.Dollars(1)): // nothing else was ever meant
	case v.Forms == 0 && pay.Amount.IsPositive() && pay.Amount.Equal(pay.WithReturn): // it is what would be anyway
	case v.Forms == 0 && !pay.Amount.IsPositive():
		if r.ground == becauseLate && p.Balance.IsPositive() {
			add("already_withheld")
		}
	case v.PenaltyIfUnchanged.IsPositive():
		add("otherwise_penalty", "outcome", r.AsFiled.plainly(), "penalty", v.PenaltyIfUnchanged)
	case r.Household.Wish.Aim == household.AimNoPenalty:
		add("safe")
	case r.Harbor.Safe && r.AsFiled.Balance.IsNegative():
		free := "no"
		if !first && len(r.Duties) == 0 {
			free = "yes"
		}
		add("otherwise_safe", "outcome", r.AsFiled.plainly(), "free", free)
	default:
		add("otherwise", "outcome", r.AsFiled.plainly())
	}
	return all
}

// plainly is how a year would end, as the end of a sentence.
func (o Outlook) plainly() words.Text {
	switch {
	case o.Balance.Abs().Less(money.Dollars(1)):
		return words.T("certificate.would.even")
	case o.Balance.IsNegative():
		return words.T("certificate.would.owe", "amount", o.Balance.Abs())
	}
	return words.T("certificate.would.refund", "amount", o.Balance)
}

// atShare is the largest amount of which a share is no more than what is paid.
func atShare(paid money.Amount, share money.Rate) money.Amount {
	percent := money.Dollars(100).At(share).WholeDollars()
	return paid.Times(100).DividedBy(int(percent)).DollarDown()
}

// newAt are the names of the jobs at which a plan has a new certificate.
func newAt(p Plan) []string {
	var names []string
	for _, c := range p.Certificates {
		if !c.Keep {
			names = append(names, c.Name)
		}
	}
	return names
}

// Payers is who gets the new certificates of a plan: "wages" for employers alone,
// "pension" for payers of pensions alone, else "both".
func (p Plan) Payers() string {
	kinds := map[household.JobKind]bool{}
	for _, c := range p.Certificates {
		if !c.Keep {
			kinds[c.Kind] = true
		}
	}
	switch {
	case !kinds[household.Pension]:
		return household.Wages.String()
	case !kinds[household.Wages]:
		return household.Pension.String()
	}
	return "both"
}

// forms is how many certificates of a plan have to be handed in.
func (p Plan) forms() int {
	n := 0
	for _, c := range p.Certificates {
		if !c.Keep {
			n++
		}
	}
	return n
}

// entries is how many lines are filled in on those.
func (p Plan) entries() int {
	n := 0
	for _, c := range p.Certificates {
		if !c.Keep {
			n += entries(c.Certificate)
		}
	}
	return n
}

// doubts are the entries of a plan that rest on something open.
func (pr *projection) doubts(p Plan, f formEntries) []Doubt {
	var all []Doubt
	for _, c := range p.Certificates {
		if c.Keep {
			continue
		}
		if c.Certificate.Exempt {
			all = append(all, Doubt{Job: c.Job, Entry: "exempt", About: words.T("certificate.doubt.exempt", "year", pr.h.TaxYear), Safe: pr.insteadOfExempt(f)})
			continue
		}
		if c.Certificate.Status == household.CertificateHeadOfHousehold && !pr.qualifyingPerson() {
			all = append(all, Doubt{Job: c.Job, Entry: "1c", About: words.T("certificate.doubt.head_of_household"), Safe: words.T("certificate.safe.single")})
		}
		all = append(all, pr.doubtsOfChildren(c)...)
	}
	if len(all) == 0 {
		all = pr.doubtsOfTheYear(p)
	}
	return all
}

// insteadOfExempt is what to write by somebody who is not sure of the claim to be
// exempt: the ordinary form, with the credits that it asks for where there is but one
// certificate to put them on.
func (pr *projection) insteadOfExempt(f formEntries) words.Text {
	if len(pr.payers) == 1 && f.L3.IsPositive() && pr.h.Wish.TellEmployer == household.TellAll {
		return words.T("certificate.safe.with_credits", "credits", f.L3)
	}
	return words.T("certificate.safe.plain")
}

// doubtsOfTheYear are the children not born yet whose credit the year's tax counts
// where no certificate claims it: at the last entry of the first certificate to
// hand in, which is sized by that tax.
func (pr *projection) doubtsOfTheYear(p Plan) []Doubt {
	i := slices.IndexFunc(p.Certificates, func(c JobCertificate) bool { return !c.Keep && !c.Certificate.Exempt })
	claims := slices.ContainsFunc(p.Certificates, func(c JobCertificate) bool { return c.Certificate.Credits.IsPositive() })
	if i < 0 || claims {
		return nil
	}
	c, entry := p.Certificates[i], "1c"
	for _, e := range c.Lines.All() {
		if e.Amount.IsPositive() {
			entry = e.Line
		}
	}
	return pr.doubtsOfUnborn(c.Job, entry)
}

// doubtsOfUnborn are the children not born yet whose credit the year's tax counts,
// at an entry of a job's certificate.
func (pr *projection) doubtsOfUnborn(job int, entry string) []Doubt {
	var all []Doubt
	for i, s := range tax.Standings(pr.h, pr.y) {
		if s.ChildCredit && pr.h.Dependents[i].BirthDate.After(pr.h.AsOf) {
			all = append(all, Doubt{
				Job: job, Entry: entry, Amount: pr.y.Form.PerChild,
				About: words.T("certificate.doubt.unborn", "name", pr.h.DependentName(i), "year", pr.h.TaxYear),
				Safe:  words.T("certificate.safe.owe_more", "more", pr.y.Form.PerChild),
			})
		}
	}
	return all
}

// qualifyingPerson reports whether somebody in the answers makes the person head
// of household.
//
// IRC 2(b)(1).
func (pr *projection) qualifyingPerson() bool {
	return slices.ContainsFunc(tax.Standings(pr.h, pr.y), func(s tax.Standing) bool { return s.HeadOfHousehold })
}

// doubtsOfChildren are the children and others in a certificate's Step 3 whose
// claim is open: one who is not born yet, one of shared custody.
func (pr *projection) doubtsOfChildren(c JobCertificate) []Doubt {
	var all []Doubt
	if c.Lines.L3a.Amount.IsZero() && c.Lines.L3b.Amount.IsZero() {
		return nil
	}
	for i, s := range tax.Standings(pr.h, pr.y) {
		each, entry := pr.y.Form.PerChild, "3a"
		if s.OtherCredit {
			each, entry = pr.y.Form.PerOther, "3b"
		}
		if !s.ChildCredit && !s.OtherCredit {
			continue
		}
		d, name := pr.h.Dependents[i], pr.h.DependentName(i)
		rest := c.Lines.L3.Amount.Sub(each).OrZero()
		safe := words.T("certificate.safe.without", "line", entry, "less", each, "rest", rest)
		switch {
		case d.BirthDate.After(pr.h.AsOf):
			all = append(all, Doubt{Job: c.Job, Entry: entry, About: words.T("certificate.doubt.unborn", "name", name, "year", pr.h.TaxYear), Safe: safe, Amount: rest})
		case slices.ContainsFunc(s.Notes, func(n worksheet.Note) bool { return n.Code == "shared_custody" }):
			all = append(all, Doubt{Job: c.Job, Entry: entry, About: words.T("certificate.doubt.custody", "name", name), Safe: safe, Amount: rest})
		}
	}
	return all
}

// duties are the new certificates that the law asks for: where too little would
// be withheld, within days of the change for a status that is taxed less than the
// true one, for a claim to be exempt that no longer holds, and for credits no
// longer expected; where enough is, a new status for next year. Who is exempt and
// will owe tax next year gives a new certificate for it. A claim that may be of an
// earlier year is made again by the day on which it would end; one that has ended
// asks for nothing.
//
// Publication 505 (2025), ch. 1, p. 3; 26 CFR 31.3402(l)-1(c); IRC 3402(f)(2).
// Next year's of an exempt person: 26 CFR 31.3402(f)(2)-1, from memory.
func (pr *projection) duties(r Result, f formEntries, next *januaryYear) []Duty {
	rules, short := pr.y.Payroll.Effective, r.AsFiled.Balance.IsNegative()
	var all []Duty
	credits := money.Zero
	for _, j := range pr.jobs {
		if c := j.job.Certificate; c != nil {
			credits = credits.Add(c.Credits)
		}
	}
	for _, j := range pr.jobs {
		c := j.job.Certificate
		if c == nil {
			continue
		}
		code := ""
		switch {
		case pr.claimEnded(j):
			continue
		case c.Exempt && pr.taxed():
			code = "exemption"
		case c.Exempt && pr.claimMayEnd(j) && !r.Recommended.replaces(j.index):
			code = "renewal"
		case pr.statusMustChange(c):
			code = "status"
		case short && c.Credits.IsPositive() && credits.Sub(f.L3).More(rules.Changes.CreditsDownBy):
			code = "credits"
		default:
			continue
		}
		d := Duty{Code: code, Job: j.index, Days: rules.NewWithinDays}
		d.Text = words.T("certificate.duty."+code, "job", j.name, "days", d.Days)
		if code == "renewal" {
			d.Days, d.By = 0, pr.y.ClaimsRenewedBy(pr.h.TaxYear)
			d.Text = words.T("certificate.duty.renewal", "job", j.name, "year", pr.h.TaxYear, "ends", d.By)
		}
		if !short && code == "status" {
			d.Days, d.By = 0, household.On(pr.h.TaxYear, rules.NextYearBy.Month, rules.NextYearBy.Day)
			d.Text = words.T("certificate.duty.status_next_year", "job", j.name, "by", d.By, "year", pr.h.TaxYear+1)
		}
		all = append(all, d)
	}
	if next == nil || pr.taxed() || !next.pr.taxed() {
		return all
	}
	for _, c := range r.Recommended.Certificates {
		if !c.Certificate.Exempt || c.Kind != household.Wages || !r.January.replaces(c.Job) {
			continue
		}
		d := Duty{Code: "exemption", Job: c.Job, By: household.On(pr.h.TaxYear, rules.NextYearBy.Month, rules.NextYearBy.Day)}
		if tenDays := pr.h.AsOf.AddDays(rules.NewWithinDays); tenDays.After(d.By) {
			d.By = tenDays
		}
		d.Text = words.T("certificate.duty.exemption_next_year", "job", c.Name, "ends", pr.y.ClaimsRenewedBy(pr.h.TaxYear+1), "year", pr.h.TaxYear+1, "by", d.By)
		all = append(all, d)
	}
	return all
}

// steps are what to do with a result, in order.
func steps(r Result) []Step {
	var all []Step
	for _, c := range r.Recommended.Certificates {
		if c.Keep {
			continue
		}
		s := Step{Code: "hand_in", Job: c.Job, On: c.FirstPayday}
		if c.EffectiveBy.After(c.FirstPayday) {
			s.Law = c.EffectiveBy
		}
		all = append(all, s, Step{Code: "check_stub", Job: c.Job, On: c.FirstPayday, Amount: c.Withholding})
	}
	for _, p := range r.Verdict.PayDirectly.Parts {
		all = append(all, Step{Code: "pay", Job: -1, On: p.Due, Amount: p.Amount})
	}
	if r.January != nil {
		for _, c := range r.January.Certificates {
			if !c.Keep {
				all = append(all, Step{Code: "january", Job: c.Job, On: c.FirstPayday, Law: r.January.HandIn})
			}
		}
	}
	return append(all, Step{Code: "again", Job: -1})
}
