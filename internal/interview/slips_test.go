package interview

import (
	"strings"
	"testing"
)

// A paycheck of 19.50, a salary of 40 and an hour of 900 are slips: they are
// questioned at the next question, and ordinary pay is not.
func TestSlipsInPayAreQuestioned(t *testing.T) {
	const before = simpleHire + `
	interview.fit = yes
	interview.job_1_special = none
	jobs[0].pay_frequency = biweekly
	jobs[0].first_payday = 2026-06-26
	interview.job_1_pay_known = `
	for _, tt := range []struct{ pay, says string }{
		{"paycheck\njobs[0].gross_pay = 19.50", "$507 a year"}, // 26 × 19.50
		{"taxable\njobs[0].taxable_pay = 19.50", "$507 a year"},
		{"salary\ninterview.job_1_salary = 40", "$40 a year"},
		{"hourly\ninterview.job_1_hourly = 900\ninterview.job_1_hours = 40", "$900.00 an hour"},
		{"paycheck\njobs[0].gross_pay = 1950", ""},
		{"salary\ninterview.job_1_salary = 40000", ""},
		{"hourly\ninterview.job_1_hourly = 19.50\ninterview.job_1_hours = 40", ""},
	} {
		s := begin(t, "2026-06-15", "")
		play(t, s, before+tt.pay)
		q, _ := s.Question()
		if tt.says == "" && q.Notice != "" || !strings.Contains(q.Notice, tt.says) {
			t.Errorf("%q leads to %q, want %q", tt.pay, q.Notice, tt.says)
		}
	}
}
