package certificate

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// A happening is what may happen only once, so that January does not count on it
// unless the answers say what comes of it next year.
type happening struct {
	code  string                          // of the words that name it, after certificate.once
	leave func(*household.Household) bool // takes it out of a year's answers; false if there was none
	said  func(n household.NextYear) bool // the answers say what comes next year
}

// happenings are all of them, in the order in which they are named. A bonus and
// the cost of care are left out with their job and their dependent.
var happenings = []happening{
	{code: "bonus", said: func(n household.NextYear) bool {
		return slices.ContainsFunc(n.Jobs, func(j household.NextJob) bool { return len(j.OneTimePay) > 0 })
	}},
	{code: "care", said: func(n household.NextYear) bool {
		return slices.ContainsFunc(n.Dependents, func(d household.NextDependent) bool { return d.CareExpenses != nil })
	}},
	{
		"gains", func(h *household.Household) bool { return leave(&h.Income.ShortTermGain, &h.Income.LongTermGain) },
		func(n household.NextYear) bool { return given(n.Income.ShortTermGain, n.Income.LongTermGain) },
	},
	{
		"unemployment", func(h *household.Household) bool { return leave(&h.Income.Unemployment) },
		func(n household.NextYear) bool { return given(n.Income.Unemployment) },
	},
	{
		"retirement", func(h *household.Household) bool { return leave(&h.Income.Retirement, &h.Income.EarlyWithdrawal) },
		func(n household.NextYear) bool { return given(n.Income.Retirement, n.Income.EarlyWithdrawal) },
	},
	{
		"gambling", func(h *household.Household) bool {
			return leave(&h.Income.GamblingWinnings, &h.Deductions.GamblingLosses)
		},
		func(n household.NextYear) bool { return given(n.Income.GamblingWinnings) },
	},
	{
		"losses", leaveLosses,
		func(n household.NextYear) bool {
			return given(n.Income.SelfEmployment.Self, n.Income.SelfEmployment.Spouse, n.Income.Other)
		},
	},
	{
		"schooling", func(h *household.Household) bool { return leaveAll(&h.Credits.Education) },
		func(n household.NextYear) bool { return n.Credits.Education != nil },
	},
	{
		"energy", func(h *household.Household) bool {
			e := &h.Credits.Energy
			return leave(&e.Clean, &e.Improvements, &e.HeatPumps)
		},
		func(n household.NextYear) bool {
			e := n.Credits.Energy
			return given(e.Clean, e.Improvements, e.HeatPumps)
		},
	},
	{
		"adoption", func(h *household.Household) bool { return leaveAll(&h.Credits.Adoption) },
		func(n household.NextYear) bool { return n.Credits.Adoption != nil },
	},
	payments,
}

// payments are what is paid toward the tax on the others, and are left with them.
var payments = happening{code: "payments", said: func(n household.NextYear) bool {
	return given(n.Payments.EstimatedTax, n.Payments.OtherWithholding)
}}

// leaveOnce takes what may happen only once out of a year's answers, and with it
// what was paid toward its tax.
func leaveOnce(n *household.Household) (once []words.Text) {
	for _, h := range happenings {
		if h.leave != nil && h.leave(n) {
			once = append(once, h.text())
		}
	}
	in := &n.Income
	if in.SocialSecurityMonthly != nil {
		in.SocialSecurity, in.SocialSecurityMonthly = money.Zero, everyMonth(in.SocialSecurityMonthly)
	}
	n.Payments.Withdrawals = nil
	if v := n.Payments.SocialSecurity; v != nil {
		n.Payments.SocialSecurity = &household.Voluntary{Percent: v.Percent} // all year
	}
	// Estimated tax goes on where a business does; what was withheld from
	// benefits or paid on a gain goes with them.
	business := in.SelfEmployment.Self.Add(in.SelfEmployment.Spouse).IsPositive()
	if len(once) > 0 && !business && leave(&n.Payments.EstimatedTax, &n.Payments.OtherWithholding) {
		once = append(once, payments.text())
	}
	return once
}

func (h happening) text() words.Text { return words.T("certificate.once." + h.code) }

// saidAnyway reports that the answers say what comes next year of something that
// is not counted again otherwise.
func saidAnyway(n household.NextYear, what words.Text) bool {
	return slices.ContainsFunc(happenings, func(h happening) bool { return h.text().Code == what.Code && h.said(n) })
}

// leave sets amounts to zero, and reports whether one of them was not.
func leave(amounts ...*money.Amount) (some bool) {
	for _, a := range amounts {
		some = some || !a.IsZero()
		*a = money.Zero
	}
	return some
}

func leaveAll[T any](list *[]T) (some bool) {
	some = len(*list) > 0
	*list = nil
	return some
}

// leaveLosses takes out what may be a loss and is one.
func leaveLosses(h *household.Household) (some bool) {
	for _, a := range []*money.Amount{&h.Income.SelfEmployment.Self, &h.Income.SelfEmployment.Spouse, &h.Income.Other} {
		if a.IsNegative() {
			some = leave(a)
		}
	}
	return some
}

func given(amounts ...*money.Amount) bool {
	return slices.ContainsFunc(amounts, func(a *money.Amount) bool { return a != nil })
}
