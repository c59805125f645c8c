package tables

import (
	"fmt"
	"math/big"
	"time"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
	"example.com/plumbline/internal/yamldoc"
)

// Underpayment is when too little is paid during the year: IRC 6654(d), (e).
type Underpayment struct {
	Citation       `yaml:",inline"`
	CurrentShare   money.Rate   `yaml:"share_of_this_year,required"`
	PriorShare     money.Rate   `yaml:"share_of_last_year,required"`
	PriorHighExtra money.Rate   `yaml:"high_income_extra_share,required"` // added to PriorShare above HighIncome
	HighIncome     Amounts      `yaml:"high_income_over,required"`        // last year's adjusted gross income
	LeastDue       money.Amount `yaml:"due_less_than,required"`
	Installments   Installments `yaml:"installments,required"`
	Interest       Interest     `yaml:"interest,required"`
}

// Check asks that interest is known from the first due date on, and not beyond
// March of the next year, whose rate goes on to April 15 (IRC 6621(b)(2)(B)).
func (u *Underpayment) Check(report yamldoc.Report) {
	due, rates := u.Installments.Due, u.Interest.Rates
	if len(due) == 0 || len(rates) == 0 {
		return
	}
	if rates[0].From.After(due[0]) {
		report("interest.rates[0].from", words.T("tables.interest_late", "from", rates[0].From.String(), "due", due[0].String()))
	}
	end := household.On(due[0].Year+1, time.April, 1)
	for i, r := range rates {
		if !end.After(r.From) {
			report(fmt.Sprintf("interest.rates[%d].from", i), words.T("tables.interest_beyond", "from", r.From.String()))
		}
	}
}

// Installments is IRC 6654(c)(2): when estimated tax is due, Form 1040-ES.
type Installments struct {
	Citation `yaml:",inline"`
	Due      []household.Date `yaml:"due,required"`          // for this tax year
	Day      int              `yaml:"day_of_month,required"` // the day that the law names, from which the penalty counts
}

// Check asks for four due dates.
func (n *Installments) Check(report yamldoc.Report) {
	const installments = 4
	if n := len(n.Due); n != installments {
		report("due", words.T("tables.due_dates", "n", n, "needed", installments))
	}
	for i := 1; i < len(n.Due); i++ {
		if !n.Due[i].After(n.Due[i-1]) {
			report(fmt.Sprintf("due[%d]", i), words.T("tables.dates_rise", "now", n.Due[i].String(), "before", n.Due[i-1].String()))
		}
	}
}

// installmentsDue are the due dates of estimated tax: IRC 6654(c)(2), 7503.
func (y *Year) installmentsDue() map[string]string {
	all := map[string]string{}
	for i, due := range []household.Date{
		household.On(y.Year, time.April, 15), household.On(y.Year, time.June, 15),
		household.On(y.Year, time.September, 15), household.On(y.Year+1, time.January, 15),
	} {
		all[fmt.Sprintf("underpayment.installments.due[%d]", i)] = onBusinessDay(due).String()
	}
	return all
}

// Interest is the underpayment rate of IRC 6621, through April 15 of the next
// year.
type Interest struct {
	Citation `yaml:",inline"`
	Rates    []InterestRate `yaml:"rates,required"`
}

// Check asks for rates in the order of their dates, of whole quarters and whole
// percents: three points over a rate that is rounded to one (IRC 6621(a)(2), (b)).
func (n *Interest) Check(report yamldoc.Report) {
	if len(n.Rates) == 0 {
		report("rates", words.T("tables.empty", "what", "rates"))
	}
	least, most, percent := money.Percent(3), money.Percent(20), big.NewRat(1, 100)
	for i, r := range n.Rates {
		if r.From.Day != 1 || r.From.Month%3 != 1 {
			report(fmt.Sprintf("rates[%d].from", i), words.T("tables.no_quarter", "from", r.From.String()))
		}
		if share := rateRat(r.Rate); down(share, percent).Cmp(share) != 0 || r.Rate.Cmp(least) < 0 || r.Rate.Cmp(most) > 0 {
			report(fmt.Sprintf("rates[%d].rate", i), words.T("tables.whole_percent", "rate", r.Rate.Text(), "least", least.Text(), "most", most.Text()))
		}
	}
	for i := 1; i < len(n.Rates); i++ {
		if from, before := n.Rates[i].From, n.Rates[i-1].From; !from.After(before) {
			report(fmt.Sprintf("rates[%d].from", i), words.T("tables.dates_rise", "now", from.String(), "before", before.String()))
		}
	}
}

// InterestRate is the underpayment rate of IRC 6621 from a date on.
type InterestRate struct {
	From household.Date `yaml:"from,required"`
	Rate money.Rate     `yaml:"rate,required"`
}

// interestCarriedOn is the last known interest rate, for the same quarters as
// last year's.
func (y *Year) interestCarriedOn() map[string]string {
	all := map[string]string{}
	rates := y.Underpayment.Interest.Rates
	last := rates[len(rates)-1].Rate
	for i, r := range rates {
		at := fmt.Sprintf("underpayment.interest.rates[%d].", i)
		year := y.Year
		if r.From.Month < rates[0].From.Month {
			year++
		}
		all[at+"from"] = household.On(year, r.From.Month, r.From.Day).String()
		all[at+"rate"] = last.Text()
	}
	return all
}
