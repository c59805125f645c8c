package certificate

import (
	"encoding/json"
	"slices"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/words"
)

// Answers with next to nothing in them have a result too.
func TestNextToNothing(t *testing.T) {
	for _, tt := range []struct {
		about string
		h     household.Household
	}{
		{"no job", household.Household{TaxYear: 2026}},
		{"a job without pay", household.Household{TaxYear: 2026, Jobs: []household.Job{{Frequency: household.Weekly}}}},
		{"a job that has ended", household.Household{TaxYear: 2026, AsOf: household.On(2026, 6, 1), Jobs: []household.Job{{Frequency: household.Weekly, TaxablePay: dollars(800), LastPayday: household.On(2026, 2, 6)}}}},
		{"a job of unknown frequency", household.Household{TaxYear: 2026, Jobs: []household.Job{{TaxablePay: dollars(800)}}}},
		{"two earners without pay", household.Household{TaxYear: 2026, Status: household.MarriedFilingJointly, Jobs: []household.Job{{Frequency: household.Weekly}, {Frequency: household.Daily, Earner: household.OfSpouse}}}},
		{"no spouse on a joint return", household.Household{TaxYear: 2026, Status: household.MarriedFilingJointly}},
	} {
		t.Run(tt.about, func(t *testing.T) {
			r, err := Solve(tt.h, year(t, 2026), nil)
			if err != nil {
				t.Fatal(err)
			}
			if r.Recommended.Reason.IsZero() {
				t.Error("no reason")
			}
			if _, err := json.Marshal(r); err != nil {
				t.Error(err)
			}

			Due(tt.h, tt.h, func(string, household.Earner) household.Date { return tt.h.AsOf }, year(t, 2026))
		})
	}
}

// One without tax last year and this may claim exemption.
func TestExemptionIsNamed(t *testing.T) {
	h := answers(t, "summer", summer)
	none := dollars(0)
	h.LastYear = &household.LastYear{TotalTax: &none}
	h.Wish.TellEmployer = household.ExtraOnly // nothing lowers the withholding
	r, err := Solve(h, year(t, 2026), nil)
	if err != nil {
		t.Fatal(err)
	}
	wantWarning(t, r, "exempt_possible")
}

// Certificates on file that should not stay are named.
func TestCertificatesOnFileAreQuestioned(t *testing.T) {
	for _, tt := range []struct {
		code string
		c    household.Certificate
	}{
		{"exempt_on_file", household.Certificate{Status: household.CertificateJoint, Exempt: true}},
	} {
		t.Run(tt.code, func(t *testing.T) {
			h := answers(t, "couple", couple)
			h.Jobs[0].Certificate = &tt.c
			r, err := Solve(h, year(t, 2026), nil)
			if err != nil {
				t.Fatal(err)
			}
			wantWarning(t, r, tt.code)
		})
	}
}

// A status on file that is taxed less than that of the return is named, once for
// all jobs; one that is taxed more may stay: 26 CFR 31.3402(l)-1(b), (c).
func TestStatusOnFileIsQuestionedOnce(t *testing.T) {
	for _, tt := range []struct {
		filing household.Status
		onFile household.CertificateStatus
		want   []string
	}{
		{household.Single, household.CertificateJoint, []string{"Your status at first and second is married filing jointly; you expect to file as single or married filing separately."}},
		{household.MarriedFilingJointly, household.CertificateSingle, nil},
		{household.MarriedFilingJointly, household.CertificateJoint, nil},
	} {
		h := answers(t, "couple", couple)
		h.Status = tt.filing
		for i := range h.Jobs {
			h.Jobs[i].Earner, h.Jobs[i].Certificate = household.OfSelf, &household.Certificate{Status: tt.onFile}
		}
		r, err := Solve(h, year(t, 2026), nil)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, n := range r.Warnings {
			if n.Code == "status_on_file" {
				got = append(got, n.Said(words.English()))
			}
		}
		if !slices.Equal(got, tt.want) {
			t.Errorf("%v with %v on file: %q, want %q", tt.filing, tt.onFile, got, tt.want)
		}
	}
}
