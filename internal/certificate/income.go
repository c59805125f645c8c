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
		{"gains", pr.ret.CapitalGain},
		{"unemployment", in.Unemployment},
		{"retirement", in.Retirement},
		{"benefits", pr.ret.TaxableBenefits},
		{"gambling", in.GamblingWinnings},
		{"other", in.Other},
	} {
		if k.amount.IsPositive() {
			kinds = append(kinds, words.T("certificate.income."+k.code, "amount", k.amount))
		}
	}
	return kinds
}
