package interview

import (
	"strings"
	"testing"
)

// A paycheck of 19.50, a salary of 40 and an hour of 900 are slips: their own
// question is put again at once, with the reason. Given twice they count.
// Ordinary pay is taken as it is.
func TestSlipsInPayAreQuestioned(t *testing.T) {
	const before = simpleHire + `
	interview.fit = yes
	interview.job_1_special = none
	jobs[0].pay_frequency = biweekly
	jobs[0].first_payday = 2026-06-26
	interview.job_1_pay_known = `
	for _, tt := range []struct{ way, key, pay, says string }{
		{"paycheck", "jobs[0].gross_pay", "19.50", "$507 a year"}, // 26 × 19.50
		{"taxable", "jobs[0].taxable_pay", "19.50", "$507 a year"},
		{"salary", "interview.job_1_salary", "40", "$40 a year"},
		{"hourly", "interview.job_1_hourly", "900", "$900.00 an hour"},
		{"paycheck", "jobs[0].gross_pay", "1950", ""},
		{"salary", "interview.job_1_salary", "40000", ""},
		{"hourly", "interview.job_1_hourly", "19.50", ""},
	} {
		s := begin(t, "2026-06-15", "")
		play(t, s, before+tt.way+"\n"+tt.key+" = "+tt.pay)
		q, _ := s.Question()
		if again := q.Key == tt.key && q.Again; again != (tt.says != "") || !strings.Contains(q.Notice, tt.says) {
			t.Errorf("%s of %s: asked %s, again %v, after %q; want %q", tt.way, tt.pay, q.Key, q.Again, q.Notice, tt.says)
			continue
		}
		if tt.says == "" {
			continue
		}
		play(t, s, tt.key+" = "+tt.pay)
		if q, _ = s.Question(); q.Key == tt.key {
			t.Errorf("%s of %s given twice is asked a third time", tt.way, tt.pay)
		}
		play(t, reopened(t, s, "2026-06-15"), "")
	}
}
