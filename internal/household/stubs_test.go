package household

import (
	"testing"

	"example.com/plumbline/internal/money"
)

func stubOf(t *testing.T, payday, pay, tax string) *YearToDate {
	t.Helper()
	return &YearToDate{Payday: day(t, payday), TaxablePay: money.MustParse(pay), FederalTax: money.MustParse(tax)}
}

// Pay beside ordinary pay, by hand: 12 biweekly paydays from January 9 through
// June 12, 2026, or through a stub of June 10, paid early.
func TestPaySoFar(t *testing.T) {
	for _, stub := range []string{"2026-06-12", "2026-06-10"} {
		j := Job{Frequency: Biweekly, FirstPayday: day(t, "2026-01-09"), TaxablePay: money.Dollars(3000), YearToDate: stubOf(t, stub, "69000", "0")}
		want := PaySoFar{Paydays: 12, Paid: money.Dollars(69000), Ordinary: money.Dollars(3000), Expected: money.Dollars(36000)}
		if p := j.PaySoFar(2026); p.Paydays != want.Paydays || !p.Paid.Equal(want.Paid) || !p.Ordinary.Equal(want.Ordinary) || !p.Expected.Equal(want.Expected) {
			t.Errorf("stub of %s: %+v, want %+v", stub, p, want)
		}
	}
	if p := (Job{Frequency: Biweekly}).PaySoFar(2026); p.Paydays != 0 {
		t.Errorf("without a stub: %+v", p)
	}
}

// A certificate counts from its first payday on; before it the one before it
// does, where it is known.
func TestCertificateOn(t *testing.T) {
	old, single := Certificate{Edition: Before2020}, Certificate{CountsFrom: day(t, "2026-03-06")}
	joint := &Certificate{Status: CertificateJoint, CountsFrom: day(t, "2026-07-10")}
	j := Job{Frequency: Biweekly, FirstPayday: day(t, "2026-01-09"), Certificate: joint, EarlierCertificates: []Certificate{old, single}}
	for _, tt := range []struct {
		on   string
		want Certificate
	}{
		{"2026-01-09", old}, {"2026-02-20", old}, {"2026-03-06", single}, {"2026-06-26", single}, {"2026-07-10", *joint}, {"2026-12-25", *joint},
	} {
		if c, known := j.CertificateOn(day(t, tt.on)); !known || !c.Same(&tt.want) {
			t.Errorf("%s: %+v, known %v, want %+v", tt.on, c, known, tt.want)
		}
	}
	j.EarlierCertificates = nil
	if c, known := j.CertificateOn(day(t, "2026-06-26")); known {
		t.Errorf("before the only certificate: %+v", c)
	}
	j.Certificate = nil
	if c, known := j.CertificateOn(day(t, "2026-06-26")); !known || c != nil {
		t.Errorf("none on file: %+v, known %v", c, known)
	}
	// Given by the day on which pay is due: Christmas is paid on December 24.
	j.Certificate = &Certificate{CountsFrom: day(t, "2026-12-25")}
	if _, known := j.CertificateOn(day(t, "2026-12-24")); !known {
		t.Error("a payday that is moved is not that of the certificate")
	}
}
