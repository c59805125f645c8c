package certificate

import (
	"fmt"
	"slices"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/worksheet"
)

// What the certificates on file leave to be withheld, and what is said, by the
// day of the answers and by when the claim to be exempt was made. Claims of 2025
// end on February 17, 2026 (a Sunday and a holiday come first): 26 CFR
// 31.3402(n)-1; Publication 15, section 9.
//
// Biweekly 2,400 as single: 62400 − 8600 = 53800; 1240 + 12% × (53800 − 19900) =
// 5308; ÷ 26 = 204.15. Of the paydays from January 9, 23 are after the last day:
// 23 × 204.15 = 4695.45; after a stub of February 20 there are 22: 4491.30.
func TestAsFiledWhereClaimEnds(t *testing.T) {
	const (
		head     = "format: 1\ntax_year: 2026\nas_of: %s\nfiling_status: single\njobs:\n  - name: Mill\n    pay_frequency: biweekly\n    taxable_pay: 2400\n    first_payday: 2026-01-09\n    certificate: {filing_status: single, exempt: true%s}\n"
		ytd      = "    year_to_date: {payday: 2026-02-20, taxable_pay: 9600, federal_tax: 204.15}\n"
		ends     = "exempt_ends"
		unknown  = "exempt_year_unknown"
		lastYear = ", counts_from: 2025-03-07"
	)
	for _, tt := range []struct{ asOf, claimed, stub, toCome, says string }{
		{"2026-01-05", lastYear, "", "4695.45", ends},
		{"2026-02-17", lastYear, "", "4695.45", ends},
		{"2026-02-21", lastYear, ytd, "4491.30", ends},
		{"2026-01-05", ", counts_from: 2026-01-09", "", "0", ""},
		{"2026-01-05", "", "", "0", unknown},
		{"2026-02-18", "", "", "0", ""}, // payroll still has it: it was made again
	} {
		r := solved(t, answers(t, "exempt", fmt.Sprintf(head, tt.asOf, tt.claimed)+tt.stub))
		if want := money.MustParse(tt.toCome); !r.AsFiled.WithholdingToCome.Equal(want) {
			t.Errorf("on %s%s: %v is withheld, want %v", tt.asOf, tt.claimed, r.AsFiled.WithholdingToCome, want)
		}
		for _, code := range []string{ends, unknown} {
			said := slices.ContainsFunc(r.Warnings, func(n worksheet.Note) bool { return n.Code == code })
			if said != (code == tt.says) {
				t.Errorf("on %s%s: %s said: %v", tt.asOf, tt.claimed, code, said)
			}
		}
	}
}

// A claim made in 2026 ends on February 16, 2027 (the 15th is Washington's
// Birthday): of the 26 paydays from January 8, those on January 8 and 22 and
// February 5 are before, 23 after. By the tables of 2026, 23 × 204.15 = 4695.45.
func TestClaimEndsInJanuarysYear(t *testing.T) {
	for _, claimed := range []string{"", ", counts_from: 2026-01-09"} {
		h := answers(t, "exempt", fmt.Sprintf("format: 1\ntax_year: 2026\nas_of: 2026-11-02\nfiling_status: single\njobs:\n  - name: Mill\n    pay_frequency: biweekly\n    taxable_pay: 2400\n    first_payday: 2026-01-09\n    certificate: {filing_status: single, exempt: true%s}\n", claimed))
		pr := &projection{h: h, y: year(t, 2026)}
		pr.open()
		next := pr.openJanuary(nil)
		stays := next.try(func(int) *household.Certificate { return nil })
		if got, want := money.Sum(stays.withheld...), money.MustParse("4695.45"); !got.Equal(want) {
			t.Errorf("%q: %v is withheld, want %v", claimed, got, want)
		}
	}
}
