package interview

import (
	"slices"
	"strings"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tax"
)

// askOtherIncome asks for the year's amounts of the kinds of income chosen.
func (w *walk) askOtherIncome() {
	w.chapter = otherIncome
	w.together("income", func() {
		w.askChosen(incomeList, "income.")
		w.askExemptInterest()
	})
	w.askEarlyWithdrawal()
	if w.get(incomeList).has("social_security") && w.onSeparateReturn() {
		w.ask("lived_apart")
	}
}

// askExemptInterest asks for interest that is not taxed where it counts all the same:
// for the part of social security benefits that is taxed, and for the premium tax
// credit.
//
// IRC 86(b)(2)(B), 36B(d)(2)(B)(ii).
func (w *walk) askExemptInterest() {
	income, less := w.get(incomeList), w.get(reductionsList)
	if income.has("interest", "dividends") && (income.has("social_security") || less.has("marketplace")) {
		w.ask("income.tax_exempt_interest", suggesting("0"))
	}
}

// askEarlyWithdrawal asks what of the money from retirement accounts is taken
// too early, of those who are not of the age for it: IRC 72(t)(2)(A)(i).
func (w *walk) askEarlyWithdrawal() {
	if !w.get(incomeList).has("retirement") || !w.get("income.retirement").amount().IsPositive() {
		return
	}
	w.askBirthDates()
	h := w.household()
	for _, e := range h.Earners() {
		if h.Person(e).BirthDate.IsZero() || !tax.OfWithdrawalAge(h.Person(e), w.y) {
			w.ask("income.early_withdrawal", suggesting("0"))
			return
		}
	}
}

// askDeductions asks for what comes off income: adjustments, the deductions
// beside the standard deduction, and the itemized ones where a rough figure
// says that they can be worth it.
func (w *walk) askDeductions() {
	w.chapter = deductions
	less := w.get("interview.reductions")
	if less.has("senior") {
		w.askBirthDates()
	}
	if less.has("blind") {
		w.together("blind", func() { w.askBoth("blind") })
	}
	w.together("adjustments", func() {
		w.askChosen(reductionsList, "adjustments.")
		if less.has("car_loan") {
			w.ask("deductions.car_loan_interest")
		}
	})
	w.askItemized(less)
	w.askBusinesses()
	w.askParents()
}

// askParents asks those who can be claimed, and who have so much income that is
// not pay that it may be taxed at their parents' rate, for the parents' return:
// IRC 1(g).
func (w *walk) askParents() {
	if !w.get("self.can_be_claimed").yes() {
		return
	}
	taxed, known := w.taxedAsParents()
	if !known {
		w.leaveOpen("interview.parents_return", "parents.filing_status", "parents.taxable_income", "parents.qualified_dividends", "parents.net_capital_gain")
		return
	}
	if !taxed.IsPositive() {
		return
	}
	w.ask("self.birth_date")
	if !tax.OfParentsRateAge(w.household().Self, w.y) || !w.ask("interview.parents_return").yes() {
		return
	}
	w.together("parents", func() {
		w.ask("parents.filing_status", suggesting(household.MarriedFilingJointly.String()))
		w.ask("parents.taxable_income")
		w.ask("parents.qualified_dividends", suggesting("0"))
		w.ask("parents.net_capital_gain", suggesting("0"))
	})
}

// taxedAsParents is the income that may be taxed at the parents' rate; not known
// while the figures are not complete.
func (w *walk) taxedAsParents() (money.Amount, bool) {
	_, known := w.asFiled()
	return w.ret.TaxedAsParents, known
}

// askBusinesses asks what the deduction for business income turns on, only
// where taxable income is above the threshold: IRC 199A(b)(3), (d)(3). Above the
// whole range a service trade has no deduction, whatever it pays.
func (w *walk) askBusinesses() {
	businesses := []struct{ chosen, key string }{{"self_employment", "income.business.self"}, {"spouse_self_employment", "income.business.spouse"}}
	for _, b := range businesses {
		if !w.get(incomeList).has(b.chosen) || !w.get("income.self_employment"+strings.TrimPrefix(b.key, "income.business")).amount().IsPositive() {
			continue
		}
		taxable, known := w.taxable()
		threshold := w.y.BusinessIncome.Threshold.Of(w.status())
		switch {
		case !known:
			w.leaveOpen(b.key+".specified_service", b.key+".wages", b.key+".property")
			continue
		case !taxable.More(threshold):
			continue
		}
		service := w.ask(b.key + ".specified_service")
		if service.no() || service.yes() && taxable.Less(threshold.Add(w.y.BusinessIncome.PhaseIn.Of(w.status()))) {
			w.together(b.key, func() {
				w.ask(b.key+".wages", suggesting("0"))
				w.ask(b.key+".property", suggesting("0"))
			})
		}
	}
}

// taxable is taxable income before the deduction for business income; not known
// while the figures are not complete.
func (w *walk) taxable() (money.Amount, bool) {
	_, known := w.asFiled()
	return w.ret.TaxableIncome.Add(w.ret.BusinessDeduction), known
}

// askBoth asks for a fact about oneself, and the spouse on a joint return.
func (w *walk) askBoth(field string) {
	w.ask("self." + field)
	if w.joint() {
		w.ask("spouse." + field)
	}
}

func (w *walk) askBirthDates() {
	w.together("birth dates", func() { w.askBoth("birth_date") })
}

// roughMargin is how far below the standard deduction a rough figure may lie
// for the exact ones to be asked, in tenths: what one can be off by from
// memory. Common practice, no rule.
const roughMargin = 9

// askItemized asks whether itemizing is worth it, from a rough figure first.
func (w *walk) askItemized(less answer) {
	forced := w.onSeparateReturn() && w.ask("deductions.spouse_itemizes").yes()
	house, gifts := less.has("house"), less.has("gifts")
	gambling := w.get(incomeList).has("gambling") && w.get("income.gambling_winnings").amount().IsPositive()
	standard := w.y.StandardDeduction.Basic.Of(w.household().Status)
	giftsAlways := w.y.PlainGifts.Cap.Of(w.household().Status).IsPositive()

	worthIt := forced
	if !forced && (house || gambling || gifts && !giftsAlways) {
		rough := w.ask("interview.rough_itemized")
		if !rough.given() {
			return
		}
		if rough.is(Unknown) {
			w.say(w.notice("itemized_unknown"))
			return
		}
		worthIt = !rough.amount().Times(10).Less(standard.Times(roughMargin))
		verdict := "itemizing_not_worth_it"
		if worthIt {
			verdict = "itemizing_may_be_worth_it"
		}
		w.say(w.notice(verdict, "rough", rough.amount(), "gifts", answerOfBool(gifts && giftsAlways)))
	}
	w.together("itemized", func() {
		if worthIt {
			w.ask("deductions.mortgage_interest")
			if w.y.Itemized.MortgageInsurance != nil {
				w.ask("deductions.mortgage_insurance")
			}
			w.ask("deductions.state_local_taxes")
			w.ask("deductions.medical")
		}
		if gifts && (worthIt || giftsAlways) {
			w.ask("deductions.charity_cash")
		}
		if worthIt && gifts {
			w.ask("deductions.charity_other")
		}
		if worthIt && gambling {
			w.ask("deductions.gambling_losses", suggesting("0"))
		}
		if worthIt {
			w.ask("deductions.other_itemized")
		}
	})
	if worthIt {
		w.askLargeMortgage()
	}
}

// leastMortgageRate is a rate of interest, in percent, below which few home loans
// are made: interest of more than that on the debt limit may be of a larger debt.
// Common practice, no rule.
const leastMortgageRate = 2

// askLargeMortgage asks for the debt whose interest was given, where the interest
// is so much that the debt may be above the limit: IRC 163(h)(3)(B), (F).
func (w *walk) askLargeMortgage() {
	limit := w.y.MortgageDebt.Limit.Of(w.status())
	if !w.get("deductions.mortgage_interest").amount().More(limit.At(money.Percent(leastMortgageRate))) {
		return
	}
	w.together("large mortgage", func() {
		if w.ask("deductions.mortgage_balance").amount().More(limit) {
			w.ask("deductions.mortgage_before_december_16_2017")
		}
	})
}

// askCredits asks for what the credits need beside the dependents.
func (w *walk) askCredits() {
	w.chapter = credits
	less := w.get("interview.reductions")
	if less.has("education") {
		for i := range w.ask("interview.students", between(1, mostPeople), suggesting("1")).whole() {
			name := w.phrase("student", "number", i+1)
			s := w.nth("student", "credits.education", i, name)
			w.together(s.label, func() {
				w.askOf(s, "kind")
				w.askOf(s, "expenses")
			})
		}
	}
	if less.has("care") {
		for i := range w.get("interview.people").whole() {
			w.askCare(i)
		}
		w.askSpousesCare()
	}
	w.together("credits", func() {
		if less.has("saving") {
			w.ask("credits.retirement_saving.self")
			if w.joint() {
				w.ask("credits.retirement_saving.spouse")
			}
			w.ask("self.full_time_student")
		}
		if less.has("other_credit") {
			w.ask("credits.foreign_tax", suggesting("0"))
			w.ask("interview.adoptions", between(0, mostPeople), suggesting("0"))
			w.ask("credits.other_nonrefundable")
		}
		// The child tax credit asks for one number valid for work among the
		// taxpayers, IRC 24(h)(7); the tips, overtime and senior deductions for
		// one's own.
		if w.y.ChildCredit.TaxpayerSSN && w.childOfCreditAge() || less.has("tips", "overtime", "senior") {
			w.askBoth("ssn_valid_for_work")
		}
	})
	if less.has("other_credit") {
		w.askAdoptions()
	}
	if less.has("marketplace") {
		w.askMarketplace()
	}
	w.askAges()
}

// askAdoptions asks for the adoption of each child. For a child found to have
// special needs the whole credit counts, whatever is paid: IRC 23(a)(3).
func (w *walk) askAdoptions() {
	for i := range w.get("interview.adoptions").whole() {
		child := w.nth("adopted", "credits.adoption", i, w.phrase("adopted", "number", i+1))
		w.together(child.label, func() {
			if !w.askOf(child, "special_needs").yes() {
				w.askOf(child, "expenses")
			}
		})
	}
}

// askCare asks what the care of a dependent costs where it can count: first for
// the facts that it turns on and that nothing has asked for yet, such as whether
// somebody too old for it is disabled. IRC 21(b)(1).
func (w *walk) askCare(i int) {
	p := w.person(i)
	if i >= len(w.household().Dependents) {
		return
	}
	counts, fact := tax.DecideCare(w.judged(p, i), i, w.answeredOf(p), w.y)
	for fact != "" {
		if !w.askFact(p, fact).given() {
			return
		}
		counts, fact = tax.DecideCare(w.judged(p, i), i, w.answeredOf(p), w.y)
	}
	if counts {
		w.together("credits", func() {
			w.askYearOrMonths(w.doc.Has(p.prefix+".care_expenses"), "care_expenses", "care_monthly", w.fromBirth(i),
				func(field string, options ...with) answer { return w.askOf(p, field, options...) })
		})
	}
}

// askSpousesCare asks a couple whether one of them is not able to care for
// themselves, and what that one's care costs: IRC 21(b)(1)(C), (d)(2)(B).
func (w *walk) askSpousesCare() {
	if !w.joint() {
		return
	}
	w.together("care of a spouse", func() { w.askBoth("disabled") })
	for _, who := range []string{"self", "spouse"} {
		if !w.get(who + ".disabled").yes() {
			continue
		}
		w.together("care of "+who, func() {
			if w.ask(who+".care_monthly.amount", suggesting("0")).amount().IsPositive() {
				askMonths(who+".care_monthly", between(1, monthsOfYear), w.ask)
			}
		})
	}
}

// askMarketplace asks for the sums of Form 1095-A, by which the premium tax
// credit is settled with what was paid in advance: IRC 36B.
func (w *walk) askMarketplace() {
	w.together("marketplace", func() {
		w.ask("health_marketplace.months", between(1, 12), suggesting("12"))
		w.ask("health_marketplace.premiums")
		w.ask("health_marketplace.benchmark")
		w.ask("health_marketplace.advance", suggesting("0"))
		w.ask("health_marketplace.place", suggesting(household.States.String()))
	})
}

// childOfCreditAge reports a child who has the child tax credit if a taxpayer
// has a number.
func (w *walk) childOfCreditAge() bool {
	return slices.ContainsFunc(w.standings(), func(s tax.Standing) bool { return s.ChildCredit })
}

// askAges asks for the birth dates that the earned income credit without
// children turns on, IRC 32(c)(1)(A)(ii): only where pay is low enough for it.
func (w *walk) askAges() {
	h := w.household()
	if w.get("interview.people").whole() > 0 || w.onSeparateReturn() || !w.complete() || len(w.y.EarnedIncome.ByChildren) == 0 {
		return
	}
	none := w.y.EarnedIncome.ByChildren[0]
	end := none.CompletePhaseOut
	if h.Joint() {
		end = none.CompletePhaseOutJoint
	}
	if pay := w.yearlyPay(); !pay.IsPositive() || !pay.Less(end) {
		return
	}
	w.askBirthDates()
}

// askPayments asks for tax paid outside the jobs, and for last year's return
// where a shortfall could bring a penalty.
func (w *walk) askPayments() {
	w.chapter = payments
	kinds := w.chosen(incomeList)
	w.together("payments", func() {
		if slices.ContainsFunc(kinds, func(g gate) bool { return g.withheld }) {
			w.ask("payments.other_withholding", suggesting("0"))
		}
		if slices.ContainsFunc(kinds, func(g gate) bool { return g.estimated }) {
			w.ask("payments.estimated_tax", suggesting("0"))
		}
	})
	if short, known := w.fallsShort(); !known {
		w.leaveOpen("interview.last_year")
	} else if short && w.ask("interview.last_year").yes() {
		w.together("last year", func() {
			w.ask("last_year.total_tax")
			w.ask("last_year.adjusted_gross_income")
		})
	}
}

// fallsShort reports that so much would be missing at the end of the year, on
// the certificates on file, that a penalty can follow: IRC 6654(e)(1). It is
// not known while the figures are not complete.
func (w *walk) fallsShort() (short, known bool) {
	outlook, known := w.asFiled()
	return known && !outlook.Balance.Neg().Less(w.y.Underpayment.LeastDue), known
}

// leaveOpen keeps the answers to questions that turn on figures which are not
// complete: they are neither asked nor set aside until the figures are.
func (w *walk) leaveOpen(keys ...string) {
	if w.complete() && len(w.household().CountedJobs()) == 0 {
		return // without a job they never will be
	}
	for _, key := range keys {
		w.pending[key] = true
	}
}

// askWish asks what the person wants of the result. A certificate that claims
// exemption has no entries, so then nothing is left to wish.
func (w *walk) askWish() {
	w.chapter = yourWish
	switch none, known := w.owesNothing(); {
	case !known:
		w.leaveOpen("interview.no_tax_last_year", "interview.exempt")
	case none && w.get("interview.jobs").whole() > 0 &&
		w.ask("interview.no_tax_last_year").yes() && w.ask("interview.exempt").yes():
		return
	}
	w.together("wish", func() {
		w.ask("wish.refund", suggesting("0"))
		if w.tellsSomething() && w.ask("wish.tell_employer", suggesting(household.TellAll.String())).is(household.ExtraOnly.String()) {
			return
		}
		if w.bothEarn() {
			w.ask("wish.spread", suggesting(household.OnBestPaid.String()))
		}
	})
}

// tellsSomething reports that a certificate filled in as the form asks could
// tell an employer of other people, other jobs or other income.
func (w *walk) tellsSomething() bool {
	return w.counted() > 1 || w.get("interview.people").whole() > 0 ||
		len(w.get("interview.income").picks())+len(w.get("interview.reductions").picks()) > 0
}

// bothEarn reports that both spouses have pay to come, so that a correction can
// be shared.
func (w *walk) bothEarn() bool {
	h := w.household()
	var earns [2]bool
	for _, i := range h.CountedJobs() {
		if j := h.Jobs[i]; j.LastPayday.IsZero() || j.LastPayday.After(j.StubPayday()) {
			earns[j.Earner] = true
		}
	}
	return earns[household.OfSelf] && earns[household.OfSpouse]
}

// owesNothing reports that no tax at all is expected for the year, the form's
// second condition for claiming exemption: total tax no more than the
// refundable credits. It is not known while the figures are not complete.
func (w *walk) owesNothing() (none, known bool) {
	outlook, known := w.asFiled()
	return known && !outlook.TotalTax.More(outlook.RefundableCredits), known
}

// comesBack is what comes back whatever is withheld from now on, in whole dollars:
// what the credits paid out, the payments and the tax withheld so far are above the
// year's tax; and why, "credits" or "more", for these alone or for tax withheld too
// much as well, "no" where nothing is or the figures are not complete.
func (w *walk) comesBack() (amount money.Amount, why string) {
	if !w.outlookOK {
		return money.Zero, "no"
	}
	o := w.outlook
	paid := o.WithheldSoFar.Add(o.OtherPayments)
	amount = o.RefundableCredits.Add(paid).Sub(o.TotalTax).OrZero().DollarDown()
	switch {
	case amount.IsZero():
		return amount, "no"
	case paid.IsZero():
		return amount, "credits"
	}
	return amount, "more"
}

// asFiled is how the year ends if nothing is handed in; not ok while the
// answers so far do not settle that.
func (w *walk) asFiled() (certificate.Outlook, bool) {
	if !w.complete() {
		return certificate.Outlook{}, false
	}
	if w.outlook == nil {
		w.outlook = new(certificate.Outlook)
		h := w.household()
		if h.Agrees() && len(h.CountedJobs()) > 0 {
			*w.outlook, w.ret = certificate.AsFiled(h, w.y, tax.ByReturn, nil)
			w.outlookOK = true
		}
	}
	return *w.outlook, w.outlookOK
}
