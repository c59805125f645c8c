package report

import (
	"fmt"
	"strings"
	"unicode"
	"unicode/utf8"

	"example.com/plumbline/internal/certificate"
	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// statusWords are the filing statuses as people read them.
var statusWords = map[household.Status]string{
	household.Single:                    "single",
	household.MarriedFilingJointly:      "married filing jointly",
	household.MarriedFilingSeparately:   "married filing separately",
	household.HeadOfHousehold:           "head of household",
	household.QualifyingSurvivingSpouse: "qualifying surviving spouse",
}

// certificateStatusWords are the boxes of Step 1(c) in the form's words.
var certificateStatusWords = map[household.CertificateStatus]string{
	household.CertificateSingle:          "Single or Married filing separately",
	household.CertificateJoint:           "Married filing jointly or Qualifying surviving spouse",
	household.CertificateHeadOfHousehold: "Head of household",
}

// planWords are the plans in a few words each.
var planWords = map[string]string{
	certificate.PlanForm:    "form",
	certificate.PlanBox:     "box",
	certificate.PlanTuned:   "tuned",
	certificate.PlanPrivate: "private",
	certificate.PlanEven:    "even",
	certificate.PlanExempt:  "exempt",
}

// shiftWords are the ways in which the year may come out otherwise.
var shiftWords = map[string]string{
	certificate.PayLower:       "pay 10% lower",
	certificate.PayHigher:      "pay 10% higher",
	certificate.SecondJobStops: "2nd job stops",
}

// wayWords are the other ways to put a year right.
var wayWords = map[string]string{
	certificate.PartYear:       "The part-year method",
	certificate.CumulativeWage: "The cumulative wage method",
}

// formName is the certificate that a job takes.
func formName(k household.JobKind) string {
	if k == household.Pension {
		return "Form W-4P"
	}
	return "Form W-4"
}

// payer is who a certificate goes to.
func payer(k household.JobKind) string {
	if k == household.Pension {
		return "the payer of the pension"
	}
	return "the employer"
}

// payment is what a job pays out at a time.
func payment(k household.JobKind) string {
	if k == household.Pension {
		return "payment"
	}
	return "paycheck"
}

// changeWords is how much more or less a paycheck brings home.
func changeWords(a money.Amount) string {
	switch {
	case a.IsPositive():
		return a.Grouped() + " more"
	case a.IsNegative():
		return a.Abs().Grouped() + " less"
	}
	return "no change"
}

// sentence is a phrase as a sentence of its own.
func sentence(s string) string {
	if s == "" {
		return ""
	}
	first, size := utf8.DecodeRuneInString(s)
	s = string(unicode.ToUpper(first)) + s[size:]
	if !strings.ContainsAny(s[len(s)-1:], ".!?") {
		s += "."
	}
	return s
}

// listed joins words as a sentence does: a, b and c.
func listed(words []string, and string) string {
	switch n := len(words); n {
	case 0:
		return ""
	case 1:
		return words[0]
	default:
		return strings.Join(words[:n-1], ", ") + " " + and + " " + words[n-1]
	}
}

func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
