package certificate

import (
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// otherIncome names what Step 4(a) is made of, each kind with its amount.
func (pr *projection) otherIncome() []words.Text {
	in := pr.h.Income
	var kinds []words.Text
	for _, k := range []struct {
		code   string
		amount money.Amount
	}{
		{"interest", in.Interest},
		{"dividends", in.OrdinaryDividends},
		{"gains", in.ShortTermGain.Add(in.LongTermGain)},
		{"unemployment", in.Unemployment},
		{"retirement", in.Retirement},
		{"benefits", pr.taxableBenefits()},
		{"other", in.Other},
	} {
		if k.amount.IsPositive() {
			kinds = append(kinds, words.T("certificate.income."+k.code, "amount", k.amount))
		}
	}
	return kinds
}

// taxableBenefits is the taxed part of social security benefits: what total
// income has besides all other kinds.
func (pr *projection) taxableBenefits() money.Amount {
	if !pr.h.Benefits().IsPositive() {
		return money.Zero
	}
	in, rest := pr.h.Income, pr.ret.TotalIncome
	for _, p := range pr.pay {
		rest = rest.Sub(p.TaxableWages)
	}
	gains := money.Max(in.ShortTermGain.Add(in.LongTermGain), money.Zero)
	return rest.Sub(money.Sum(in.Interest, in.OrdinaryDividends, gains, in.SelfEmployment.Self, in.SelfEmployment.Spouse, in.Unemployment, in.Retirement, in.Other)).OrZero()
}
