package certificate

import (
	"slices"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/tax"
)

// January's household has this year's losses carried to it, and nothing of what
// may happen only once.
//
// IRC 1212(b), losses.
func TestJanuaryCarriesLossesAndLeavesWhatHappensOnce(t *testing.T) {
	three := 3
	h := household.Household{TaxYear: 2026}
	h.Income.Retirement, h.Income.EarlyWithdrawal = dollars(9000), dollars(4000)
	h.Income.GamblingWinnings, h.Deductions.GamblingLosses = dollars(2000), dollars(1000)
	h.Income.LongTermGain, h.Income.CapitalLossCarryover.LongTerm = dollars(1000), dollars(9000)
	h.Credits.Adoption = []household.Adoption{{Expenses: dollars(8000)}}
	h.Credits.Energy.Clean = dollars(7000)
	h.Payments.Withdrawals = []household.Withdrawal{{Amount: dollars(3000)}}
	h.Payments.SocialSecurity = &household.Voluntary{Percent: 10, Months: &three}
	// 1,000 - 9,000 = -8,000, of which 3,000 are deducted from 11,000 of income.
	// That is less than 16,100, so nothing of them was used: all 8,000 go on.
	ret := tax.Compute(h, nil, year(t, 2026), tax.ByReturn, nil)
	n, once := nextYear(h, ret)
	if got := n.Income.CapitalLossCarryover; !got.LongTerm.Equal(dollars(8000)) || !got.ShortTerm.IsZero() {
		t.Errorf("losses carried: %+v, want 8,000 long-term", got)
	}
	left := []money.Amount{
		n.Income.Retirement, n.Income.EarlyWithdrawal, n.Income.GamblingWinnings, n.Deductions.GamblingLosses, n.Income.LongTermGain, n.Credits.Energy.Clean,
	}
	if slices.ContainsFunc(left, func(a money.Amount) bool { return !a.IsZero() }) || n.Credits.Adoption != nil || n.Payments.Withdrawals != nil {
		t.Errorf("counted again: %v, %v, %v", left, n.Credits.Adoption, n.Payments.Withdrawals)
	}
	if v := n.Payments.SocialSecurity; v == nil || v.Percent != 10 || v.Months != nil {
		t.Errorf("withheld from benefits: %+v, want 10%% all year", v)
	}
	var codes []string
	for _, what := range once {
		codes = append(codes, what.Code)
	}
	for _, code := range []string{"gains", "retirement", "gambling", "energy", "adoption"} {
		if !slices.Contains(codes, "certificate.once."+code) {
			t.Errorf("%s is not said to be left out: %v", code, codes)
		}
	}
}

// The Deductions Worksheet takes mortgage interest within the debt limit and
// gambling losses within the winnings: Form W-4 (2026), lines 6c and 6e.
func TestWorksheetKeepsToTheLimitsOfTheLaw(t *testing.T) {
	h := demo(t, demos[0])
	h.TaxYear = 2026
	h.Deductions.MortgageInterest, h.Deductions.MortgageBalance = dollars(60000), dollars(1000000)
	h.Income.GamblingWinnings, h.Deductions.GamblingLosses = dollars(5000), dollars(4000)
	pr := newProjection(h, year(t, 2026), nil)
	f := pr.fillForm(nil)
	// 60,000 × 750,000 ÷ 1,000,000, and 90% of 4,000.
	l := formFiller{pr: pr, y: &pr.y.Form}
	if got := pr.ret.MortgageInterest; !got.Equal(dollars(45000)) {
		t.Errorf("mortgage interest %v, want 45,000", got)
	}
	if got := l.otherItemized(); !got.Equal(h.Deductions.OtherItemized.Add(dollars(3600))) {
		t.Errorf("other itemized deductions %v, want 3,600 more than %v", got, h.Deductions.OtherItemized)
	}
	if !f.L4b.IsPositive() {
		t.Error("nothing in Step 4(b)")
	}
}
