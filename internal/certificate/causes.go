package certificate

import (
	"slices"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// causes are why the certificates on file withhold too little, where they do: those
// common causes that can be read off the certificates and the income. What the year
// lacks is worked out from the whole return, not from these.
func (pr *projection) causes(r Result, f formEntries) []words.Text {
	if !r.AsFiled.Balance.ToDollar().IsNegative() {
		return nil
	}
	var causes []words.Text
	if n, pensions := pr.alone(); n > 1 {
		causes = append(causes, words.T("certificate.cause.jobs", "n", n, "pensions", pensions))
	}
	claimed, listed := money.Zero, money.Zero
	oldForm, step3 := "", ""
	allowances := 0
	for _, j := range pr.jobs {
		c := j.job.Certificate
		switch {
		case c == nil || c.Exempt:
		case c.Edition == household.Before2020 && c.Allowances > 0:
			oldForm, allowances = j.name, c.Allowances
		case c.Edition == household.Current:
			claimed, listed = claimed.Add(c.Credits), listed.Add(c.OtherIncome)
			if c.Credits.IsPositive() {
				step3 = j.name
			}
		}
	}
	if claimed.More(f.L3) {
		causes = append(causes, words.T("certificate.cause.credits", "claimed", claimed, "credits", f.L3))
	}
	if oldForm != "" && step3 != "" {
		causes = append(causes, words.T("certificate.cause.allowances", "job", oldForm, "n", allowances, "other", step3))
	}
	// Income of less than a tenth of what is owed explains little of it.
	if kinds := pr.otherIncome(); len(kinds) > 0 && listed.Less(f.L4a) && !f.L4a.Times(10).Less(r.AsFiled.Balance.Neg()) {
		causes = append(causes, words.T("certificate.cause.other_income", "kinds", kinds))
	}
	if pr.ret.SelfEmploymentTax.IsPositive() {
		causes = append(causes, words.T("certificate.cause.business"))
	}
	return causes
}

// alone is how many jobs and pensions are withheld from as if they were the only
// one, and whether a pension is among them.
//
// Form W-4 (2026), Step 2; Publication 505 (2025), ch. 1, "More than one job".
func (pr *projection) alone() (n int, pensions string) {
	pensions = "no"
	for _, j := range pr.jobs {
		c := j.job.Certificate
		if c == nil || c.MultipleJobs || c.Extra.IsPositive() {
			continue
		}
		n++
		if j.pension() {
			pensions = "yes"
		}
	}
	if n < 2 || slices.ContainsFunc(pr.jobs, func(j openJob) bool { return j.job.Certificate != nil && j.job.Certificate.Extra.IsPositive() }) {
		return 0, pensions // an extra amount somewhere makes up for it
	}
	return n, pensions
}
