package tables

import (
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/yamldoc"
)

// CapitalGains is the rates on net capital gain and qualified dividends: IRC 1(h).
type CapitalGains struct {
	Citation   `yaml:",inline"`
	ZeroTop    Amounts    `yaml:"zero_rate_up_to,required"`   // taxable income
	MiddleTop  Amounts    `yaml:"middle_rate_up_to,required"` // taxable income
	MiddleRate money.Rate `yaml:"middle_rate,required"`
	TopRate    money.Rate `yaml:"top_rate,required"`
}

// Check asks that no zone ends before the one below it.
func (g *CapitalGains) Check(report yamldoc.Report) {
	for _, s := range household.Statuses() {
		if zero, middle := g.ZeroTop.Of(s), g.MiddleTop.Of(s); middle.Less(zero) {
			report("middle_rate_up_to."+s.String(), endsEarly("middle_rate", middle.Text(), zero.Text()))
		}
	}
}

// CapitalLosses is the most of a net loss that a year may deduct: IRC 1211(b).
type CapitalLosses struct {
	Citation `yaml:",inline"`
	Limit    Amounts `yaml:"limit,required"`
}
