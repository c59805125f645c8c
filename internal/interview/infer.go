package interview

import (
	"maps"
	"slices"
	"strconv"
	"strings"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
)

// infer answers the interview's own questions for a file that was written by
// hand or by another program: what is in it applies, and what it leaves out
// "does not apply, is zero or is not known", as the file's definition has it.
// What no figure can stand in for is left to be asked.
func (s *Session) infer() {
	h := tolerant(s.doc)
	s.set("interview.way_in", wayInOf(h))
	s.inferStatus(h)
	s.inferCounts(h)
	s.settleOnce()
	s.set(incomeList, s.shown(incomeList, h))
	s.set(reductionsList, s.shown(reductionsList, h))
	s.inferItemized(h)
	s.set("interview.fit", "true")
	s.set(againKey, s.saidAgain())
	for i, j := range h.Jobs {
		s.inferJob(i, j)
	}
	s.respectTheRest()
	s.takeDefaults()
	s.passOverStates()
	s.respectTheRest()
}

// respectTheRest notes the answers that the interview would not have asked for.
func (s *Session) respectTheRest() {
	s.settleOnce()
	asked, beyond := make(map[string]bool), idList(s.doc, beyondKey)
	for _, at := range s.walk.steps {
		asked[at.key] = true
	}
	for _, key := range s.doc.Keys() {
		counts := strings.HasSuffix(key, ".counts_as")
		if !ofLog(key) && !asked[key] && (counts || s.unused(key)) {
			beyond[s.id(key)] = true
		}
	}
	setIDList(s.doc, beyondKey, beyond)
}

func (s *Session) set(key, text string) { _ = s.doc.Set(key, text) }

func yesNo(yes bool) string { return strconv.FormatBool(yes) }

// pick is an item of a list with the amount that shows that it applies.
type pick struct {
	value  string
	amount money.Amount
}

func picked(picks ...pick) string {
	var values []string
	for _, p := range picks {
		if !p.amount.IsZero() {
			values = append(values, p.value)
		}
	}
	if len(values) == 0 {
		return None
	}
	return strings.Join(values, ", ")
}

func number(n int) money.Amount { return money.Dollars(int64(n)) }

func oneIf(yes bool) money.Amount {
	if yes {
		return number(1)
	}
	return money.Zero
}

func wayInOf(h household.Household) string {
	for _, j := range h.Jobs {
		if j.YearToDate != nil {
			return stub
		}
	}
	if len(h.Jobs) > 0 && h.Jobs[0].Certificate == nil && h.Jobs[0].Earner == household.OfSelf {
		return newJob
	}
	return changed
}

func (s *Session) inferStatus(h household.Household) {
	married, home := "no", false
	switch h.Status {
	case household.MarriedFilingJointly:
		married = "yes"
		s.set("interview.file_jointly", "jointly")
	case household.MarriedFilingSeparately:
		married = "yes"
		s.set("interview.file_jointly", "separately")
	case household.QualifyingSurvivingSpouse:
		married, home = "widowed", true
		s.set("interview.spouse_died", strconv.Itoa(h.TaxYear-1))
	case household.HeadOfHousehold:
		home = true
	}
	s.set("interview.married", married)
	s.set("interview.home", yesNo(home))
	s.set("interview.apart", "false")
}

func (s *Session) inferCounts(h household.Household) {
	s.set("interview.jobs", strconv.Itoa(s.count("job")))
	s.set("interview.spouse_jobs", strconv.Itoa(s.count("spouse_job")))
	s.set("interview.pensions", plural(s.count("pension")))
	s.set("interview.spouse_pensions", plural(s.count("spouse_pension")))
	s.set("interview.people", strconv.Itoa(len(h.Dependents)))
	s.set("interview.students", plural(len(h.Credits.Education)))
	s.set("interview.adoptions", strconv.Itoa(len(h.Credits.Adoption)))
	for i, d := range h.Dependents {
		if d.CountsAs != household.ByTheTests {
			continue // said without the guide
		}
		s.set("interview.person_"+strconv.Itoa(i+1)+"_released", "no")
		s.set("interview.person_"+strconv.Itoa(i+1)+"_claimed", "no")
	}
	s.set("interview.last_year", yesNo(h.LastYear != nil))
	s.set("interview.parents_return", yesNo(h.Parents != nil))
	s.set("interview.no_tax_last_year", "false")
}

// inferItemized gives the rough figure of what can be itemized. The exact
// figures are there, so they are worth showing whatever they come to: the rough
// one is never below the standard deduction.
func (s *Session) inferItemized(h household.Household) {
	d := h.Deductions
	if all := money.Sum(d.MortgageInterest, d.MortgageInsurance, d.StateLocalTaxes, d.Medical, d.OtherItemized, d.CharityCash, d.CharityOther); all.IsPositive() {
		standard := s.y.now.StandardDeduction.Basic.Of(h.Status)
		s.set("interview.rough_itemized", money.Max(all, standard).Text())
	}
}

// inferJob answers the guides about one job.
func (s *Session) inferJob(i int, j household.Job) {
	s.settleOnce()
	label, live := s.walk.groups["jobs["+strconv.Itoa(i)+"]"]
	if !live {
		return
	}
	guide := func(name, text string) { s.set("interview."+label+"_"+name, text) }
	hasStub := j.YearToDate != nil
	ended := hasStub && !j.LastPayday.IsZero() && !j.LastPayday.After(j.YearToDate.Payday)
	guide("special", picked(
		pick{"began", oneIf(hasStub && beganThisYear(j, s.y.now.Year))}, pick{"ended", oneIf(ended)}, pick{"ends", oneIf(!ended && !j.LastPayday.IsZero())},
		pick{"bonus", number(len(j.OneTimePay))}))
	guide("stub", yesNo(hasStub))
	known := "taxable"
	if j.GrossPay.IsPositive() {
		known = "paycheck"
	}
	guide("pay_known", known)
	if known == "paycheck" {
		guide("pretax", picked(
			pick{"retirement", j.Pretax.Retirement}, pick{"health", j.Pretax.Health}, pick{"fsa", j.Pretax.FSA},
			pick{"hsa", j.Pretax.HSA}, pick{"dependent_care", j.Pretax.DependentCare}, pick{"other", j.Pretax.Other}))
	}
	if hasStub && slices.ContainsFunc(s.walk.household().Jobs, func(j household.Job) bool { return j.QualifiedTips.IsPositive() }) {
		s.setNotKnown("interview."+label+"_tips_so_far", true) // the year's are given
	}
	if j.QualifiedOvertime.IsPositive() {
		guide("overtime_rate", "premium")
	}
	c := j.Certificate
	switch {
	case c == nil:
		guide("on_file", None)
	case c.Edition == household.Before2020:
		guide("on_file", "before_2020")
	default:
		guide("on_file", "current")
		guide("lines", linesOf(*c))
	}
}

// saidAgain are the options that a file says come again next year just so.
func (s *Session) saidAgain() string {
	var options []string
	for _, option := range script().byKey[againKey].Options {
		facts := s.walk.again(option)
		missing := func(key string) bool { return !s.doc.Has(key) }
		if len(facts) > 0 && !s.walk.saysOtherwise(facts) && !slices.ContainsFunc(slices.Collect(maps.Keys(facts)), missing) {
			options = append(options, option)
		}
	}
	if len(options) == 0 {
		return None
	}
	return strings.Join(options, ", ")
}

// linesOf are the lines that a certificate of today's kind has filled in.
func linesOf(c household.Certificate) string {
	return picked(pick{"2c", oneIf(c.MultipleJobs)}, pick{"3", c.Credits}, pick{"4a", c.OtherIncome},
		pick{"4b", c.Deductions}, pick{"4c", c.Extra}, pick{"exempt", oneIf(c.Exempt)})
}

// settleOnce goes through the interview without touching the answers.
func (s *Session) settleOnce() { s.walk = newWalk(s.doc, s.env, s.y) }

// yesByDefault are the facts that the file takes for granted unless it says no.
var yesByDefault = map[string]bool{
	"self.ssn_valid_for_work": true, "spouse.ssn_valid_for_work": true,
	"dependents[].you_support": true, "dependents[].ssn_valid_for_work": true, "dependents[].citizen_or_resident": true,
}

// takeDefaults writes the facts that the file leaves out and that the interview
// would ask for, where leaving them out has a meaning.
func (s *Session) takeDefaults() {
	const enough = 500
	for range enough {
		s.settleOnce()
		i := 0
		for i < len(s.walk.steps) && (s.walk.steps[i].set || s.impliedBy(&s.walk.steps[i]) == "") {
			i++
		}
		if i == len(s.walk.steps) {
			return
		}
		if s.doc.Set(s.walk.steps[i].key, s.impliedBy(&s.walk.steps[i])) != nil {
			return
		}
	}
}

// impliedBy is what leaving a fact out means; empty where it must be asked.
func (s *Session) impliedBy(at *step) string {
	if s.doc.Has(at.key) {
		return "" // there, but no answer: the person must look at it
	}
	pattern := at.wording.Key
	if ofLog(at.key) {
		return ""
	}
	switch at.wording.Kind {
	case YesNo:
		return yesNo(yesByDefault[pattern])
	case Whole:
		if pattern == "dependents[].months_with_you" {
			return "12"
		}
		if at.suggest != "" {
			return at.suggest
		}
		return "0"
	case Amount:
		if pattern == "jobs[].taxable_pay" || pattern == "jobs[].gross_pay" {
			return ""
		}
		return "0"
	case Words:
		return at.suggest
	case Choice:
		switch pattern {
		case "jobs[].certificate.filing_status", "jobs[].certificate.marital":
			return "single"
		case "dependents[].relationship":
			return household.Child.String()
		case "credits.education[].kind":
			return household.AmericanOpportunity.String()
		case "jobs[].pay_frequency":
			return ""
		case "jobs[].moved_paydays":
			return household.MovedBefore.String()
		}
		return at.suggest
	}
	return ""
}
