package tax

import (
	"testing"

	"example.com/plumbline/internal/household"
)

func TestAdditionalMedicareTax(t *testing.T) {
	tests := []struct {
		source              string
		status              household.Status
		wages, spouse, self string
		want                string
	}{
		{"IRC 3101(b)(2): at 200,000", household.Single, "200000", "0", "0", "0"},
		{"IRC 3101(b)(2): 10,000 above, × 0.9%", household.Single, "210000", "0", "0", "90"},
		// the wages use up the threshold: 90 + 20,000 × 0.9%
		{"IRC 1401(b)(2)(B): self-employment beside wages above", household.Single, "210000", "0", "20000", "270"},
		// 200,000 - 190,000 = 10,000 left; 20,000 × 0.9%
		{"IRC 1401(b)(2)(B): what the wages leave", household.Single, "190000", "0", "30000", "180"},
		// 150,000 + 120,000 - 250,000 = 20,000
		{"IRC 3101(b)(2)(A): both spouses' wages", household.MarriedFilingJointly, "150000", "120000", "0", "180"},
		{"IRC 3101(b)(2)(B): a separate return, 125,000", household.MarriedFilingSeparately, "135000", "0", "0", "90"},
		{"IRC 3101(b)(2)(C): a surviving spouse, 200,000", household.QualifyingSurvivingSpouse, "210000", "0", "0", "90"},
	}
	for _, tt := range tests {
		c := onReturn(household.Household{Status: tt.status}, lawOf(t, 2026), "0", "0")
		c.work[household.OfSelf] = workParts{MedicareWages: usd(tt.wages), NetEarnings: usd(tt.self)}
		c.work[household.OfSpouse].MedicareWages = usd(tt.spouse)
		c.additionalMedicare()
		want(t, tt.source, c.AdditionalMedicareTax, tt.want)
	}
}

func TestNetInvestmentTax(t *testing.T) {
	tests := []struct {
		source         string
		status         household.Status
		agi            string
		interest, gain string
		want           string
	}{
		{"IRC 1411(a)(1)(A): investment income is less, 8,000 × 3.8%", household.Single, "210000", "8000", "0", "304"},
		{"IRC 1411(a)(1)(B): income above 200,000 is less, 10,000 × 3.8%", household.Single, "210000", "5000", "10000", "380"},
		{"IRC 1411(b): at the threshold", household.Single, "200000", "8000", "0", "0"},
		{"IRC 1411(b)(1): a surviving spouse has 250,000", household.QualifyingSurvivingSpouse, "260000", "50000", "0", "380"},
		{"IRC 1411(b)(2): a separate return, 125,000", household.MarriedFilingSeparately, "135000", "50000", "0", "380"},
		// 5,000 - 3,000
		{"Reg. 1.1411-4(f)(4): a capital loss up to what is deducted", household.Single, "300000", "5000", "-3000", "76"},
		{"IRC 1411(c): never below zero", household.Single, "300000", "1000", "-3000", "0"},
	}
	for _, tt := range tests {
		c := onReturn(household.Household{Status: tt.status}, lawOf(t, 2026), tt.agi, "0")
		c.income.Interest, c.income.CapitalGain = usd(tt.interest), usd(tt.gain)
		c.netInvestment()
		want(t, tt.source, c.NetInvestmentTax, tt.want)
	}
}

func TestExcessSocialSecurity(t *testing.T) {
	self := func(tax string) household.YearPay { return household.YearPay{SocialSecurityTax: usd(tax)} }
	spouse := func(tax string) household.YearPay {
		return household.YearPay{Earner: household.OfSpouse, SocialSecurityTax: usd(tax)}
	}
	tests := []struct {
		source string
		status household.Status
		pay    []household.YearPay
		want   string
	}{
		// 6.2% × 176,100 = 10,918.20; 7,440 + 7,440 - 10,918.20
		{"IRC 6413(c)(1): two employers of one person", household.Single, []household.YearPay{self("7440"), self("7440")}, "3961.80"},
		{"IRC 6413(c)(1): two people", household.MarriedFilingJointly, []household.YearPay{self("7440"), spouse("7440")}, "0"},
		// of one employer's 12,000 only the most counts: 10,918.20 + 1,000 - 10,918.20
		{"IRC 6413(c)(1): one employer's own mistake", household.Single, []household.YearPay{self("12000"), self("1000")}, "1000"},
		{"IRC 6413(c)(1): one employer", household.Single, []household.YearPay{self("12000")}, "0"},
		{"the spouse's employers are on another return", household.MarriedFilingSeparately, []household.YearPay{spouse("7440"), spouse("7440")}, "0"},
		{"each spouse alone", household.MarriedFilingJointly, []household.YearPay{self("7440"), self("7440"), spouse("7440"), spouse("5000")}, "5483.60"},
	}
	for _, tt := range tests {
		c := onReturn(household.Household{Status: tt.status}, lawOf(t, 2025), "0", "0")
		c.pay = tt.pay
		c.payments()
		want(t, tt.source, c.ExcessSocialSecurity, tt.want)
	}
}

// IRC 31(c): the additional Medicare tax withheld, on this return's jobs.
func TestAdditionalMedicareWithheld(t *testing.T) {
	pay := []household.YearPay{
		{AdditionalMedicareTax: usd("90")},
		{Earner: household.OfSpouse, AdditionalMedicareTax: usd("45")},
	}
	for status, text := range map[household.Status]string{household.MarriedFilingJointly: "135", household.MarriedFilingSeparately: "90"} {
		c := onReturn(household.Household{Status: status}, lawOf(t, 2025), "0", "0")
		c.pay = pay
		c.payments()
		want(t, status.String(), c.AdditionalMedicareWithheld, text)
	}
}
