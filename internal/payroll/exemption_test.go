package payroll

import (
	"testing"

	"example.com/plumbline/internal/household"
)

// A claim to be exempt that was made in an earlier year ends on February 15, or
// the next business day; then payroll withholds by the last certificate without
// such a claim, or as from single with no other entries: 26 CFR 31.3402(n)-1;
// Publication 15, section 9. Read off the calendar, February 15, 2026 is a Sunday
// and the 16th Washington's Birthday, so that claims end on Tuesday the 17th.
//
//	biweekly 2,400 from January 9: January 9 and 23 and February 6 are before, 23 of 26 paydays after
//	biweekly 2,400 from January 6: February 17 is the fourth payday, 22 come after
//	single: 62400 − 8600 = 53800; 1240 + 12% × (53800 − 19900) = 5308; ÷ 26 = 204.15
//	23 × 204.15 = 4695.45; 22 × 204.15 = 4491.30
//	joint: 62400 − 12900 = 49500; 2480 + 12% × (49500 − 44100) = 3128; ÷ 26 = 120.31
//	23 × 120.31 = 2767.13
//	a bonus of 1,000 on March 6, at the flat rate of 22%: 220 more
func TestClaimsEnd(t *testing.T) {
	claim := func(from string) household.Certificate {
		return household.Certificate{Exempt: true, CountsFrom: date(from)}
	}
	joint := household.Certificate{Status: household.CertificateJoint}
	for _, tt := range []struct {
		name, first, claimed string
		change               func(j *household.Job)
		want                 string
	}{
		{"made last year", "2026-01-09", "2025-03-07", nil, "4695.45"},
		{"a payday on the last day", "2026-01-06", "2025-03-07", nil, "4491.30"},
		{"made this year", "2026-01-09", "2026-01-09", nil, "0"},
		{"of an unknown year", "2026-01-09", "", nil, "0"},
		{"after a form without a claim", "2026-01-09", "2025-03-07", func(j *household.Job) {
			j.EarlierCertificates = []household.Certificate{joint, claim("2024-01-12")}
		}, "2767.13"},
		{"after another claim", "2026-01-09", "2025-03-07", func(j *household.Job) {
			j.EarlierCertificates = []household.Certificate{claim("2024-01-12")}
		}, "4695.45"},
		{"a stub of the first payday after it", "2026-01-09", "2025-03-07", func(j *household.Job) {
			j.YearToDate = stub("2026-02-20", "9600", "204.15")
		}, "4491.30"},
		{"a bonus once it has ended", "2026-01-09", "2025-03-07", func(j *household.Job) {
			j.OneTimePay = []household.OneTimePay{bonusOn("2026-03-06", "1000", household.FlatRate)}
		}, "4915.45"},
		{"a pension", "2026-01-09", "2025-03-07", func(j *household.Job) { j.Kind = household.Pension }, "0"},
	} {
		c := claim(tt.claimed)
		j := household.Job{Frequency: household.Biweekly, TaxablePay: amount("2400"), FirstPayday: date(tt.first), Certificate: &c}
		if tt.change != nil {
			tt.change(&j)
		}
		if got := NewJobYear(one(j), 0, yearOf(t, 2026)).Withheld(OnFile{Now: &c}); !got.Equal(amount(tt.want)) {
			t.Errorf("%s: %v is withheld, want %s", tt.name, got, tt.want)
		}
	}
}

// A new certificate that counts on the day before the claim ends, on the day
// after, and weeks later: 26 paydays of which 3 are exempt, and 12 single from
// February 20 through July 24. 12 × 204.15 = 2449.80; the joint rest of them is
// 11 × 120.31 = 1323.41; from February 20 or February 6 on 23 or 24 × 120.31 =
// 2767.13 or 2887.44.
func TestClaimEndsBeforeNewCertificate(t *testing.T) {
	c := household.Certificate{Exempt: true, CountsFrom: date("2025-03-07")}
	j := household.Job{Frequency: household.Biweekly, TaxablePay: amount("2400"), FirstPayday: date("2026-01-09"), Certificate: &c}
	year := NewJobYear(one(j), 0, yearOf(t, 2026))
	joint := &household.Certificate{Status: household.CertificateJoint}
	for _, tt := range []struct{ from, want string }{
		{"2026-02-06", "2887.44"}, {"2026-02-20", "2767.13"}, {"2026-08-07", "3773.21"},
	} {
		f := OnFile{Now: &c, New: joint, From: date(tt.from)}
		got := year.Withheld(f)
		total := amount("0")
		for _, e := range year.Ledger(f) {
			total = total.Add(e.FederalTax)
		}
		if !got.Equal(amount(tt.want)) || !total.Equal(got) {
			t.Errorf("from %s: %v is withheld, day by day %v, want %s", tt.from, got, total, tt.want)
		}
	}
}
