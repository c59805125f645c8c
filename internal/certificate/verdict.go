package certificate

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tax"
	"example.com/plumbline/internal/words"
)

// Change is how much more (positive) or less is taken home.
func (t TakeHome) Change() money.Amount { return t.Then.Sub(t.Now) }

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

// LastYearTest is the most that last year's total tax could be for it to rule a
// penalty out as things are: on an ordinary income, and on one above the line of
// IRC 6654(d)(1)(C).
type LastYearTest struct {
	AtMost, AtMostHigh money.Amount
	HighOver           money.Amount // adjusted gross income above which AtMostHigh holds
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

// atShare is the largest amount of which a share is no more than what is paid.
func atShare(paid money.Amount, share money.Rate) money.Amount {
	percent := money.Dollars(100).At(share).WholeDollars()
	return paid.Times(100).DividedBy(int(percent)).DollarDown()
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
		if i := slices.IndexFunc(r.Duties, func(d Duty) bool { return d.Days > 0 && p.replaces(d.Job) }); i >= 0 {
			add("due", "forms", v.Forms, "days", r.Duties[i].Days)
		}
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
		if planned := r.Household.Payments.EstimatedTax; planned.IsPositive() && soon.IsPositive() {
			add("besides", "planned", planned)
		}
		then.Balance = then.Balance.Add(pay.Amount)
	}
	switch stays := r.Underpayment.PenaltyIfPaid; {
	case !pay.Amount.IsPositive() || r.Underpayment.LeftIfPaid() == "none":
		all = append(all, then.said(r.TaxYear))
	case then.Balance.Abs().Less(money.Dollars(1)):
		add("penalty_alone", "penalty", stays)
	default:
		all = append(all, then.said(r.TaxYear))
		add("penalty_too", "penalty", stays)
	}
	if u := r.Underpayment; pay.Amount.IsPositive() && u.PenaltyIfPaid.ToDollar().More(u.PenaltyIfNow.ToDollar()) {
		add("pay_now", "penalty", u.PenaltyIfNow)
	}
	if over := p.Balance.Sub(r.wished); v.Forms > 0 && over.More(overMost) && p.WithheldSoFar.More(p.TotalTax.Add(r.wished)) {
		add("withheld_already")
	}
	first := slices.ContainsFunc(p.Certificates, func(c JobCertificate) bool { return r.Household.Jobs[c.Job].Certificate == nil })
	switch {
	case (first || v.Forms > 0) && then.Balance.Sub(r.AsFiled.Balance).Abs().Less(money.Dollars(1)): // nothing else was ever meant
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
		add("otherwise_safe", "outcome", r.AsFiled.plainly(), "free", free, "year", next)
	default:
		add("otherwise", "outcome", r.AsFiled.plainly())
	}
	return all
}
