package certificate

import (
	"encoding/json"
	"testing"
)

// The names that the machine interface fixes, at their places.
func TestJSONHasFixedNames(t *testing.T) {
	r, err := Solve(demo(t, "two-earners"), year(t, 2026), nil)
	if err != nil {
		t.Fatal(err)
	}
	data, err := json.Marshal(r)
	if err != nil {
		t.Fatal(err)
	}
	var got map[string]any
	if err := json.Unmarshal(data, &got); err != nil {
		t.Fatal(err)
	}
	outlook := []string{"total_tax", "refundable_credits", "withheld_so_far", "withholding_to_come", "other_payments", "balance"}
	plan := append([]string{"plan", "certificates", "forms", "entries", "lasts", "january_balance", "near_enough"}, outlook...)
	certificate := []string{"job", "first_payday", "filing_status", "multiple_jobs", "credits", "other_income", "deductions", "extra", "exempt", "lines", "withholding_per_paycheck", "paydays"}
	wantNames(t, "result", got, "tax_year", "verdict", "as_filed", "recommended", "alternatives", "january", "estimated_payment", "underpayment", "warnings")
	wantNames(t, "as_filed", got["as_filed"], outlook...)
	wantNames(t, "recommended", got["recommended"], plan...)
	for _, a := range got["alternatives"].([]any) {
		wantNames(t, "alternative", a, plan...)
	}
	certificates := got["recommended"].(map[string]any)["certificates"].([]any)
	for _, c := range certificates {
		wantNames(t, "certificate", c, certificate...)
		wantNames(t, "lines", c.(map[string]any)["lines"], "3a", "3b", "3", "4a", "4b", "4c")
	}
	wantNames(t, "verdict", got["verdict"], "code", "sentences", "forms", "near_enough", "penalty_if_unchanged", "pay_directly", "take_home_change")
	wantNames(t, "pay_directly", got["verdict"].(map[string]any)["pay_directly"], "amount", "by")
	for _, c := range got["verdict"].(map[string]any)["take_home_change"].([]any) {
		wantNames(t, "take_home_change", c, "job", "amount")
	}
	wantNames(t, "january", got["january"], "tax_year", "tables_year", "projected", "near_enough", "forms", "certificates")
	wantNames(t, "underpayment", got["underpayment"], "safe", "required_payment")
	for _, w := range got["warnings"].([]any) {
		wantNames(t, "warning", w, "code", "message")
	}
	// Jobs are in the order of the answers, each entry at its place.
	first := certificates[0].(map[string]any)
	if first["job"] != "Larkspur Clinic" || first["first_payday"] != "2026-07-10" || first["extra"] != 283.0 || first["filing_status"] != "married_filing_jointly" {
		t.Errorf("first certificate: %v", first)
	}
}

// Nothing in a result is left out for being empty.
func TestJSONOfNextToNothing(t *testing.T) {
	h := answers(t, "no job", "format: 1\ntax_year: 2026\nas_of: 2026-01-02\nfiling_status: single\n")
	r, err := Solve(h, year(t, 2026), nil)
	if err != nil {
		t.Fatal(err)
	}
	data, err := json.Marshal(r)
	if err != nil {
		t.Fatal(err)
	}
	var got struct {
		Alternatives []any `json:"alternatives"`
		January      struct {
			Certificates []any `json:"certificates"`
		} `json:"january"`
		Warnings    []any `json:"warnings"`
		Recommended struct {
			Certificates []any `json:"certificates"`
		} `json:"recommended"`
	}
	if err := json.Unmarshal(data, &got); err != nil {
		t.Fatal(err)
	}
	if got.Alternatives == nil || got.Warnings == nil || got.Recommended.Certificates == nil || got.January.Certificates == nil {
		t.Errorf("%s", data)
	}
}

func wantNames(t *testing.T, at string, object any, names ...string) {
	t.Helper()
	m, ok := object.(map[string]any)
	if !ok {
		t.Errorf("%s is %T, not an object", at, object)
		return
	}
	for _, n := range names {
		if _, ok := m[n]; !ok {
			t.Errorf("%s has no %q", at, n)
		}
	}
}
