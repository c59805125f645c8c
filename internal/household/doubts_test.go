package household

import (
	"strings"
	"testing"

	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/words"
)

// doubts are the codes and keys of what is doubted, a line each.
func doubts(h Household) string {
	var lines []string
	for _, d := range h.Doubts() {
		lines = append(lines, d.Key+" "+d.Code())
		if said := words.English().Say(d.What); strings.ContainsAny(said, "{}[]") && !strings.Contains(said, "jobs[") {
			lines = append(lines, said)
		}
	}
	return strings.Join(lines, "\n")
}

func TestDoubts(t *testing.T) {
	amount := money.MustParse
	if got := doubts(sound()); got != "" {
		t.Errorf("sound household: %s", got)
	}
	tests := []struct {
		name string
		odd  func(h *Household)
		want string
	}{
		{"a spouse's job on one's own return", func(h *Household) { h.Status, h.Jobs[0].Earner = HeadOfHousehold, OfSpouse }, "jobs[0].earner spouse_job"},
		{"care of a spouse on one's own return", func(h *Household) {
			h.Status, h.Spouse = Single, &Person{Disabled: true, CareMonthly: &EachMonth{Amount: amount("400")}}
		}, "spouse.care_monthly care_not_counted"},
		{"care of a spouse who is able", func(h *Household) { h.Spouse = &Person{CareMonthly: &EachMonth{Amount: amount("400")}} }, "spouse.care_monthly care_not_counted"},
		{"a spouse's business on one's own return", func(h *Household) { h.Status, h.Income.SelfEmployment.Spouse = Single, amount("-1") }, "income.self_employment.spouse spouse_amount"},
		{"a job of last year", func(h *Household) {
			h.Jobs[0] = Job{Frequency: Weekly, TaxablePay: amount("500"), LastPayday: On(2025, 12, 26)}
		}, "jobs[0].last_payday job_over"},
		{"tips of a pension", func(h *Household) { h.Jobs[0].Kind, h.Jobs[0].QualifiedTips = Pension, amount("1") }, "jobs[0].kind pension_tips"},
		// June 12 is a payday, and up to three days before it is taken to be paid early.
		{"a stub three days before a payday", func(h *Household) { h.Jobs[0].YearToDate.Payday = On(2026, 6, 9) }, ""},
		{"a stub four days before a payday", func(h *Household) { h.Jobs[0].YearToDate.Payday = On(2026, 6, 8) }, "jobs[0].year_to_date.payday stub_day"},
		// Twelve paydays of 2,400 through June 12 are 28,800; twice that is 57,600.
		{"a stub of twice the pay, but for a dollar", func(h *Household) { h.Jobs[0].YearToDate.TaxablePay = amount("57599") }, ""},
		{"a stub of just 24 paychecks", func(h *Household) { h.Jobs[0].YearToDate.TaxablePay = amount("57600") }, "jobs[0].year_to_date.taxable_pay stub_pay"},
		{"a stub of just one paycheck more", func(h *Household) { h.Jobs[0].YearToDate.TaxablePay = amount("31200") }, "jobs[0].year_to_date.taxable_pay stub_pay"},
		{"the same, of pay that varies", func(h *Household) { h.Jobs[0].YearToDate.TaxablePay, h.Jobs[0].PayVaries = amount("31200"), true }, ""},
		{"a stub of just one paycheck less", func(h *Household) { h.Jobs[0].YearToDate.TaxablePay = amount("26400") }, ""},
		{"a stub of more than twice the pay", func(h *Household) { h.Jobs[0].YearToDate.TaxablePay = amount("57600.01") }, "jobs[0].year_to_date.taxable_pay stub_pay"},
		{"a stub of half the pay", func(h *Household) { h.Jobs[0].YearToDate.TaxablePay = amount("14400") }, ""},
		{"a stub of less than half the pay", func(h *Household) { h.Jobs[0].YearToDate.TaxablePay = amount("14399.99") }, "jobs[0].year_to_date.taxable_pay stub_pay"},
		// 28,800 so far, 14 paydays of 2,400 to December 25, and 3,000: 65,400.
		{"tips of the whole pay", func(h *Household) { h.Jobs[0].QualifiedTips = amount("65400") }, ""},
		{"tips above the pay", func(h *Household) { h.Jobs[0].QualifiedTips = amount("65400.01") }, "jobs[0].qualified_tips tips_above_pay"},
		{"more students than people", func(h *Household) { h.Credits.Education = make([]Student, 4) }, "credits.education students"},
		{"a refund that is not the aim", func(h *Household) { h.Wish.Aim, h.Wish.Refund = AimEven, amount("500") }, "wish.refund refund_not_aimed"},
		{"apart, on a joint return", func(h *Household) { h.LivedApart = true }, "lived_apart only_separate"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			h := sound()
			tt.odd(&h)
			if got := doubts(h); got != tt.want {
				t.Errorf("doubts %q, want %q", got, tt.want)
			}
		})
	}
}

// What contradicts itself is an error that names both keys.
func TestContradictions(t *testing.T) {
	tests := []struct {
		name  string
		wrong func(h *Household)
		want  string
	}{
		{"a stub long after the day of the answers", func(h *Household) { h.AsOf = On(2026, 6, 4) }, "jobs[0].year_to_date.payday: 2026-06-12 is still to come on as_of, 2026-06-04; correct one of them"},
		{"a stub shown a week ahead", func(h *Household) { h.AsOf = On(2026, 6, 5) }, ""},
		{"a stub after the job's end", func(h *Household) { h.Jobs[0].LastPayday = On(2026, 5, 29) }, "jobs[0].year_to_date.payday: 2026-06-12 is after the last payday, 2026-05-29; correct one of them"},
		{"an old certificate with today's status", func(h *Household) {
			h.Jobs[0].Certificate = &Certificate{Edition: Before2020, Status: CertificateJoint}
		}, "jobs[0].certificate.filing_status: certificates from before 2020 have marital and no filing_status; write marital in place of married_filing_jointly"},
		{"a marital box without the edition", func(h *Household) { h.Jobs[0].Certificate.Marital = MaritalMarried }, "jobs[0].certificate.marital: only certificates from before 2020 have this entry; write edition: before_2020, or leave it out"},
		{"more jobs than anybody has", func(h *Household) { h.Jobs = make([]Job, 101) }, "jobs: 101 are too many; this program takes up to 100"},
		{"a name that cannot be seen", func(h *Household) { h.Jobs[0].Name = "\u3164" }, "jobs[0].name: nothing of this name can be seen; write a short plain name"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			h := sound()
			tt.wrong(&h)
			if got := mistakes(h); got != tt.want {
				t.Errorf("Check reports\n%s\nwant\n%s", got, tt.want)
			}
		})
	}
}

func TestNamesThatLookAlike(t *testing.T) {
	h := Household{Jobs: []Job{
		{Name: "Harbor Clinic"},
		{Name: "harbor  clinic"},
		{Name: "Mill"},
		{Name: "Northern Heights Hospital, East"},
		{Name: "Northern Heights Hospital, West"},
	}}
	for i, want := range []string{"Harbor Clinic (1)", "harbor  clinic (2)", "Mill", "Northern Heights Hos… (1)", "Northern Heights Hos… (2)"} {
		if got := h.JobName(i); got != want {
			t.Errorf("job %d is %q, want %q", i, got, want)
		}
	}
}
