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
// June 12, 2026.
func TestPaySoFar(t *testing.T) {
	for _, tt := range []struct {
		about, ordinary, paid, average string
		irregular                      bool
	}{
		{"as ordinary", "3000", "36000", "3000", false},
		{"within a hundredth", "3000", "36360", "3030", false},
		{"more than a hundredth", "3000", "36372", "3031", true},
		{"5,750 on average, 3,000 ordinary", "3000", "69000", "5750", true},
		{"less", "3000", "30000", "2500", true},
		{"small pay, within a dollar a payday", "50", "612", "51", false},
	} {
		j := Job{Frequency: Biweekly, FirstPayday: day(t, "2026-01-09"), TaxablePay: money.MustParse(tt.ordinary), YearToDate: stubOf(t, "2026-06-12", tt.paid, "0")}
		p := j.PaySoFar(2026)
		if p.Paydays != 12 || !p.Average.Equal(money.MustParse(tt.average)) || p.Irregular() != tt.irregular {
			t.Errorf("%s: %+v, irregular %v", tt.about, p, p.Irregular())
		}
	}
	if p := (Job{Frequency: Biweekly}).PaySoFar(2026); p.Irregular() || p.Paydays != 0 {
		t.Errorf("without a stub: %+v", p)
	}
}

// From June 12, 2026 there are 11 biweekly paydays through November 13.
func TestGrown(t *testing.T) {
	j := Job{Frequency: Biweekly, FirstPayday: day(t, "2026-01-09"), TaxablePay: money.Dollars(3660), YearToDate: stubOf(t, "2026-06-12", "43920", "5000")}
	for _, tt := range []struct {
		about, payday, pay, tax string
		wrong                   string // what the error says; empty: in order
		unexpected              bool
		payNow, extra           string
	}{
		{"11 paychecks more", "2026-11-13", "84180", "9000", "", false, "3660", "0"},
		// 92,000 - 43,920 = 48,080; ÷ 11 = 4,370.91; 48,080 - 40,260 = 7,820
		{"7,820 more than ordinary pay", "2026-11-13", "92000", "9000", "", true, "4370.91", "7820"},
		{"less than ordinary pay", "2026-11-13", "70000", "9000", "", true, "2370.91", "0"},
		{"the same stub again", "2026-06-12", "43920", "5000", "June 12, 2026 is not after your last stub, June 12, 2026. Take a newer stub, or keep the one you have.", false, "", ""},
		{"an older one", "2026-05-29", "40000", "4000", "May 29, 2026 is not after your last stub, June 12, 2026. Take a newer stub, or keep the one you have.", false, "", ""},
		{"less pay", "2026-11-13", "43919.99", "9000", "43,919.99 of pay for the year is less than the 43,920.00 on your stub of June 12, 2026. Pay for the year only grows. Check both stubs.", false, "", ""},
		{"less tax", "2026-11-13", "84180", "4999.99", "4,999.99 of tax for the year is less than the 5,000.00 on your stub of June 12, 2026. Tax for the year only grows, unless payroll gave some back. Check both stubs.", false, "", ""},
	} {
		g, err := j.Grown(2026, *stubOf(t, tt.payday, tt.pay, tt.tax))
		if tt.wrong != "" {
			if err == nil || err.Error() != tt.wrong {
				t.Errorf("%s: %v, want %s", tt.about, err, tt.wrong)
			}
			continue
		}
		if err != nil || g.Paydays != 11 || g.Unexpected() != tt.unexpected || !g.PayNow.Equal(money.MustParse(tt.payNow)) || !g.Extra.Equal(money.MustParse(tt.extra)) {
			t.Errorf("%s: %+v, unexpected %v, %v", tt.about, g, g.Unexpected(), err)
		}
	}
	// Between two paydays no payday comes: what was paid is a bonus.
	if g, err := j.Grown(2026, *stubOf(t, "2026-06-17", "44920", "5220")); err != nil || g.Paydays != 0 || !g.Unexpected() || !g.Extra.Equal(money.Dollars(1000)) {
		t.Errorf("a bonus of its own: %+v, %v", g, err)
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
