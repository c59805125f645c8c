package household

import (
	"fmt"
	"reflect"
	"strconv"
	"strings"

	"example.com/plumbline/internal/money"
)

// Carried is how the answers of one year become those of the next: changes by
// key. What they leave alone stays: people, jobs with their pay as it was last,
// the certificates on file with their dates.
type Carried struct {
	Year  int      // the new one
	Drop  []string // keys that mean nothing in the new year
	Set   []Answer // keys with what they are in the new year
	Again []Answer // the year's amounts, to be asked again, with last year's
	Gone  []int    // indexes into Jobs of those that ended
}

// Answer is a key of the answers file with its text.
type Answer struct{ Key, Text string }

// CarryOver moves the answers to the year after: everybody a year older, jobs
// that ended gone and the others paid on from January, benefits and care that
// come by the month for twelve of them, what is said of next year taken up.
// What happened once in the year is dropped; its amounts are asked again.
//
// The forecast is what the old year's return was expected to show, nil where it
// is not known. It is last year's until the return is there.
func (h Household) CarryOver(forecast *LastYear) Carried {
	c := Carried{Year: h.TaxYear + 1}
	c.set("tax_year", strconv.Itoa(c.Year))
	c.drop("wish.first_payday", "wish.exempt", "last_year", "next_year")
	for i, j := range h.Jobs {
		c.job(i, j)
	}
	for i, d := range h.Dependents {
		c.dependent(i, d)
	}
	for _, part := range []struct {
		key        string
		this, next any
	}{
		{"income", h.Income, h.NextYear.Income},
		{"adjustments", h.Adjustments, h.NextYear.Adjustments},
		{"deductions", h.Deductions, h.NextYear.Deductions},
		{"credits", h.Credits, h.NextYear.Credits},
		{"payments", h.Payments, h.NextYear.Payments},
	} {
		c.Again = append(c.Again, amounts(part.key, reflect.ValueOf(part.this))...)
		c.Set = append(c.Set, amounts(part.key, reflect.ValueOf(part.next))...)
	}
	c.care("self.care_monthly", h.Self.CareMonthly)
	c.care("spouse.care_monthly", h.Person(OfSpouse).CareMonthly)
	c.allMonths("income.social_security_monthly", h.Income.SocialSecurityMonthly)
	if h.Marketplace != nil {
		c.drop("health_marketplace.months")
		c.Again = append(c.Again, amounts("health_marketplace", reflect.ValueOf(*h.Marketplace))...)
	}
	for _, next := range h.NextYear.Jobs {
		for i, j := range h.Jobs {
			if j.Name == next.Name {
				c.nextJob(fmt.Sprintf("jobs[%d].", i), next)
			}
		}
	}
	if tax, known := forecast.Tax(); known && forecast.AdjustedGrossIncome != nil {
		c.set("last_year.total_tax", tax.ToCent().Text())
		c.set("last_year.adjusted_gross_income", forecast.AdjustedGrossIncome.ToCent().Text())
		c.set("last_year.forecast", "true")
	}
	return c
}

func (c *Carried) set(key, text string) { c.Set = append(c.Set, Answer{key, text}) }

func (c *Carried) drop(keys ...string) { c.Drop = append(c.Drop, keys...) }

func (c *Carried) again(key string, a money.Amount) {
	if !a.IsZero() {
		c.Again = append(c.Again, Answer{key, a.Text()})
	}
}

// job moves a job. Paydays go on in step with the old year's; a certificate that
// counted before the new year leaves those before it behind.
func (c *Carried) job(i int, j Job) {
	key := fmt.Sprintf("jobs[%d].", i)
	on := j.InStep(c.Year - 1)
	first := on.FirstPaydayIn(c.Year)
	if first.IsZero() {
		c.Gone = append(c.Gone, i)
		return
	}
	c.drop(key+"year_to_date", key+"last_paycheck", key+"one_time_pay")
	c.set(key+"first_payday", first.String())
	if len(j.EarlierCertificates) > 0 && j.Certificate != nil && !j.Certificate.CountsFrom.After(on.Paydays(c.Year)[0]) {
		c.drop(key + "earlier_certificates")
	}
	c.again(key+"qualified_tips", j.QualifiedTips)
	c.again(key+"qualified_overtime", j.QualifiedOvertime)
}

func (c *Carried) nextJob(key string, next NextJob) {
	if next.TaxablePay != nil {
		c.set(key+"taxable_pay", next.TaxablePay.Text())
		c.drop(key + "gross_pay")
	}
	if !next.LastPayday.IsZero() {
		c.set(key+"last_payday", next.LastPayday.String())
	}
	for i, o := range next.OneTimePay {
		at := fmt.Sprintf("%sone_time_pay[%d].", key, i)
		c.set(at+"payday", o.Payday.String())
		c.set(at+"amount", o.Amount.Text())
		c.set(at+"withholding", o.Withholding.String())
	}
}

// dependent moves a dependent: one born in the old year lives with the family
// all of the new one.
func (c *Carried) dependent(i int, d Dependent) {
	key := fmt.Sprintf("dependents[%d].", i)
	if d.BirthDate.Year == c.Year-1 {
		c.drop(key + "months_with_you")
	}
	c.again(key+"gross_income", d.GrossIncome)
	c.again(key+"care_expenses", d.CareExpenses)
	c.care(key+"care_monthly", d.CareMonthly)
}

// care goes on all year, and its price is asked again.
func (c *Carried) care(key string, m *EachMonth) {
	c.allMonths(key, m)
	if m != nil {
		c.again(key+".amount", m.Amount)
	}
}

// allMonths makes an amount that comes by the month come in all twelve.
func (c *Carried) allMonths(key string, m *EachMonth) {
	if m != nil {
		c.drop(key+".first_month", key+".last_month")
	}
}

// amounts are the amounts of a part of the answers that are given, by key: those
// that are not zero, or where zero can be said, those that are there.
func amounts(key string, part reflect.Value) []Answer {
	switch v := part.Interface().(type) {
	case money.Amount:
		if v.IsZero() {
			return nil
		}
		return []Answer{{key, v.Text()}}
	case *money.Amount:
		if v == nil {
			return nil
		}
		return []Answer{{key, v.Text()}}
	case *EachMonth:
		return nil // goes on by itself
	}
	var all []Answer
	switch part.Kind() {
	case reflect.Struct:
		for i := range part.NumField() {
			name, _, _ := strings.Cut(part.Type().Field(i).Tag.Get("yaml"), ",")
			all = append(all, amounts(key+"."+name, part.Field(i))...)
		}
	case reflect.Slice:
		for i := range part.Len() {
			all = append(all, amounts(fmt.Sprintf("%s[%d]", key, i), part.Index(i))...)
		}
	}
	return all
}
