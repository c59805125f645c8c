package tables

import (
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/taxtables"
)

// shipped is the year as the program carries it.
func shipped(t *testing.T, year int) *Year {
	t.Helper()
	y, err := Load(taxtables.Files, year)
	if err != nil {
		t.Fatal(err)
	}
	return y
}

// columns are the filing statuses that share a column of a published table.
var columns = map[string][]household.Status{
	"single":                    {household.Single},
	"married_filing_jointly":    {household.MarriedFilingJointly, household.QualifyingSurvivingSpouse},
	"married_filing_separately": {household.MarriedFilingSeparately},
	"head_of_household":         {household.HeadOfHousehold},
}

// printedStatuses are the boxes of Form W-4, Step 1(c), by the headings of its
// published tables.
var printedStatuses = map[string]household.CertificateStatus{
	"married_filing_jointly": household.CertificateJoint,
	"single_or_mfs":          household.CertificateSingle,
	"head_of_household":      household.CertificateHeadOfHousehold,
}
