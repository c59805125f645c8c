package interview

import (
	"strings"
	"testing"
)

// Where credits are paid out, the question about the refund says first how much comes
// back in any case, and its help does not say that zero brings nothing back.
//
// 26 × 1,200 = 31,200, less 24,150 is 7,050 (Rev. Proc. 2025-32 § 4.14). The
// tax table's band of 7,050 to 7,100 has 10% of 7,075: 708. Of the child tax credit of
// 2,200 that leaves 1,492, less than the 1,700 that can be paid out. Earned income credit
// for one child: 4,427 − 15.98% × (31,225 − 23,890) = 3,255 (§ 4.06, the band of 31,200
// to 31,250). Together 4,747.
func TestRefundIsAskedWithWhatComesBackAnyway(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, simpleHire+`
		interview.fit = yes
		interview.job_1_special = none
		jobs[0].pay_frequency = biweekly
		jobs[0].first_payday = 2026-07-03
		interview.job_1_pay_known = salary
		interview.job_1_salary = 62,400
		interview.job_1_pretax = none`)
	q, _ := s.Question()
	if plain := q.Key == "wish.refund" && q.Text == "What refund do you want to aim for?" && strings.Contains(q.Why, "get nothing back"); !plain {
		t.Errorf("without credits: %s: %s %s", q.Key, q.Text, q.Why)
	}
	// 26 × 2,400 = 62,400, less 16,100 is 46,300; the band of 46,300 to 46,350 has 10% of
	// 12,400 and 12% of 33,925: 5,311. Of 9,000 withheld by June, 3,689 come back.
	s = begin(t, "2026-06-15", "")
	play(t, s, aloneWithStub+`
		jobs[0].year_to_date.federal_tax = 9000
		interview.job_1_pay_known = taxable
		jobs[0].taxable_pay = 2400
		interview.job_1_on_file = current
		jobs[0].certificate.filing_status = single
		interview.job_1_lines = none
		interview.people = 0
		interview.income = none
		interview.reductions = none`)
	q, _ = s.Question()
	if said := q.Key == "wish.refund" && strings.Contains(q.Text, "At least $3,689 comes back"); !said {
		t.Errorf("with too much withheld already: %s: %s %s", q.Key, q.Text, q.Why)
	}
	s = begin(t, "2026-01-05", "")
	play(t, s, hireWithChild("2019-04-02", 12)+`
		interview.home = yes
		interview.income = none
		interview.reductions = none
		interview.job_1_special = none
		jobs[0].pay_frequency = biweekly
		jobs[0].first_payday = 2026-01-09
		interview.job_1_pay_known = taxable
		jobs[0].taxable_pay = 1200
		self.ssn_valid_for_work = yes
		interview.no_tax_last_year = no`)
	q, _ = s.Question()
	if said := q.Key == "wish.refund" && strings.Contains(q.Text, "About $4,747 comes back") && !strings.Contains(q.Why, "get nothing back"); !said {
		t.Errorf("with credits that are paid out: %s: %s %s", q.Key, q.Text, q.Why)
	}
}
