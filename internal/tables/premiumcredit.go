package tables

import (
	"fmt"
	"strconv"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

// PremiumCredit is IRC 36B: the credit for insurance from the marketplace.
// Percentages are household income in whole percent of the poverty line.
type PremiumCredit struct {
	PovertyLine PovertyLines         `yaml:"poverty_line,required"`
	Income      PremiumIncome        `yaml:"income,required"`
	Applicable  ApplicablePercentage `yaml:"applicable_percentage,required"`
	Repayment   *PremiumRepayment    `yaml:"repayment"` // nil where the whole excess advance is paid back
}

// CapBelow is the most that is paid back at a percentage of the poverty line;
// false where all of it is.
func (c *PremiumCredit) CapBelow(percent int, s household.Status) (most money.Amount, capped bool) {
	for _, row := range c.Caps() {
		if percent < row.BelowPercent {
			return row.Of(s), true
		}
	}
	return money.Zero, false
}

// Caps are the limits on repayment in the order of income; none where the year
// has none.
func (c *PremiumCredit) Caps() []RepaymentCap {
	if c.Repayment == nil {
		return nil
	}
	return c.Repayment.Caps
}

// PremiumIncome is the household income with which there may be a credit.
type PremiumIncome struct {
	Citation    `yaml:",inline"`
	FromPercent int `yaml:"from_percent,required"` // no credit below, unless an advance was paid
	UpToPercent int `yaml:"up_to_percent"`         // no credit above; 0 where the year has no limit
}

// PovertyLines are the poverty guidelines that count for the year, by place.
type PovertyLines struct {
	Citation `yaml:",inline"`
	States   PovertyLine `yaml:"states,required"`
	Alaska   PovertyLine `yaml:"alaska,required"`
	Hawaii   PovertyLine `yaml:"hawaii,required"`
}

// Of is the poverty line of a family, in dollars a year; that of one person for
// fewer.
func (p *PovertyLines) Of(place household.Place, people int) money.Amount {
	line := p.States
	switch place {
	case household.Alaska:
		line = p.Alaska
	case household.Hawaii:
		line = p.Hawaii
	}
	return line.One.Add(line.EachMore.Times(max(people-1, 0)))
}

// PovertyLine is a guideline in dollars a year: for one person, and for each
// person more.
type PovertyLine struct {
	One      money.Amount `yaml:"one,required"`
	EachMore money.Amount `yaml:"each_more,required"`
}

// Check asks for a line, by which incomes are divided.
func (p *PovertyLine) Check(report yamldoc.Report) { positive(report, "one", p.One) }

// ApplicablePercentage is the share of household income that insurance may
// cost, by rows that begin at 0 percent and rise.
type ApplicablePercentage struct {
	Citation `yaml:",inline"`
	Rows     []ApplicableRow `yaml:"rows,required"`
}

// ApplicableRow is the share of household income that insurance may cost from a
// percentage of the poverty line on. It rises evenly from First to Last, which
// is reached where the next row begins.
type ApplicableRow struct {
	FromPercent int        `yaml:"from_percent,required"`
	First       money.Rate `yaml:"first,required"`
	Last        money.Rate `yaml:"last,required"`
}

// Check asks for rows that begin at zero and rise, the last of them flat, and each
// where the one before it ends: the table of IRC 36B(b)(3)(A)(i) jumps only after
// its first row.
func (a *ApplicablePercentage) Check(report yamldoc.Report) {
	if len(a.Rows) == 0 {
		report("rows", words.T("tables.empty", "what", "rows"))
		return
	}
	for i, r := range a.Rows {
		at := fmt.Sprintf("rows[%d].", i)
		switch {
		case i == 0 && r.FromPercent != 0:
			report(at+"from_percent", notFromZero("row", strconv.Itoa(r.FromPercent)))
		case i > 0 && r.FromPercent <= a.Rows[i-1].FromPercent:
			report(at+"from_percent", notRising("rows", strconv.Itoa(r.FromPercent), strconv.Itoa(a.Rows[i-1].FromPercent)))
		}
		if r.Last.Cmp(r.First) < 0 {
			report(at+"last", endsEarly("row", r.Last.Text(), r.First.Text()))
		}
		if i == 0 {
			continue
		}
		before := a.Rows[i-1].Last
		if c := r.First.Cmp(before); c < 0 || c > 0 && i > 1 {
			report(at+"first", words.T("tables.row_begins", "now", r.First.Text(), "before", before.Text()))
		}
	}
	if last := a.Rows[len(a.Rows)-1]; last.First.Cmp(last.Last) != 0 {
		report(fmt.Sprintf("rows[%d].last", len(a.Rows)-1), words.T("tables.last_row"))
	}
}

// Share is the share of household income for a whole percentage of
// the poverty line, rounded to four places as Table 2 of the Instructions for
// Form 8962 is.
func (a *ApplicablePercentage) Share(percent int) money.Rate {
	const places = 4
	rows := a.Rows
	i := len(rows) - 1
	for i > 0 && percent < rows[i].FromPercent {
		i--
	}
	r := rows[i]
	if i == len(rows)-1 {
		return r.First
	}
	one := money.Dollars(1)
	rise := one.At(r.Last.Sub(r.First)).Times(percent - r.FromPercent).DividedBy(rows[i+1].FromPercent - r.FromPercent)
	return r.First.Add(rise.Over(one)).ToPlaces(places)
}

// PremiumRepayment limits what is paid back of an excess advance.
type PremiumRepayment struct {
	Citation `yaml:",inline"`
	Caps     []RepaymentCap `yaml:"caps,required"`
}

// Check asks for caps in the order of income.
func (p *PremiumRepayment) Check(report yamldoc.Report) {
	for i := 1; i < len(p.Caps); i++ {
		if at, before := p.Caps[i].BelowPercent, p.Caps[i-1].BelowPercent; at <= before {
			report(fmt.Sprintf("caps[%d].below_percent", i), notRising("caps", strconv.Itoa(at), strconv.Itoa(before)))
		}
	}
}

// RepaymentCap is the most of an excess advance that is paid back below a
// percentage of the poverty line: by one who files as single, and by others.
type RepaymentCap struct {
	BelowPercent int          `yaml:"below_percent,required"`
	Single       money.Amount `yaml:"single,required"`
	Others       money.Amount `yaml:"others,required"`
}

// Of is the cap for a filing status.
func (c *RepaymentCap) Of(s household.Status) money.Amount {
	if s == household.Single {
		return c.Single
	}
	return c.Others
}
