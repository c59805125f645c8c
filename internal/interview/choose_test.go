package interview

import (
	"slices"
	"strings"
	"testing"
)

// The plan chosen at the results is the one handed over, noted as the forecast
// and kept in the file, until an answer changes.
func TestChooseAPlan(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, twoJobs)
	plans, now, err := s.Plans()
	if err != nil {
		t.Fatal(err)
	}
	if len(plans) < 3 || now != plans[0].Value || !slices.ContainsFunc(plans, func(o Option) bool { return o.Value == "private" && o.Label != "" }) {
		t.Fatalf("%d plans, %q now", len(plans), now)
	}
	advised := now
	if err := s.Choose("private"); err != nil {
		t.Fatal(err)
	}
	if err := s.Finish(); err != nil {
		t.Fatal(err)
	}
	check := func(s *Session, want string) {
		t.Helper()
		r, err := s.Result()
		if err != nil {
			t.Fatal(err)
		}
		plans, now, err := s.Plans()
		if err != nil || now != want || r.Recommended.Name != want || plans[0].Value != advised {
			t.Errorf("%s is handed over, %s chosen, %s recommended (%v); want %s and %s", r.Recommended.Name, now, plans[0].Value, err, want, advised)
		}
	}
	check(s, "private")
	s = reopened(t, s, "2026-06-15")
	check(s, "private")
	if last, ok := s.walk.log().Forecast.Of("job_1"); !ok || !last.Certificate.Credits.IsZero() {
		t.Errorf("the forecast has credits of %v, want those of the private plan, which has none", last.Certificate.Credits)
	}
	if err := s.Choose("cheapest"); err == nil || !strings.Contains(err.Error(), "private") {
		t.Errorf("choosing a plan that there is not: %v", err)
	}
	check(s, "private")

	s.GoTo("wish.refund")
	play(t, s, "wish.refund = 0") // the same answer
	check(s, "private")
	s.GoTo("wish.refund")
	play(t, s, "wish.refund = 300")
	if _, advised, err = s.Plans(); err != nil { // what is advised may be another plan now
		t.Fatal(err)
	}
	check(s, advised)

	if err := s.Choose("private"); err != nil {
		t.Fatal(err)
	}
	if err := s.Choose(advised); err != nil {
		t.Fatal(err)
	}
	if s.Document().Has(planKey) {
		t.Error("the recommended plan is noted as if it were another")
	}
	if err := s.Choose("private"); err != nil {
		t.Fatal(err)
	}
	if s = reopened(t, s, "2026-09-21"); s.Document().Has(planKey) {
		t.Error("the plan outlives the sitting that it was chosen in")
	}
}

// Nothing is to be chosen where the certificate is blank.
func TestBlankHasNoPlans(t *testing.T) {
	s := begin(t, "2026-06-15", "")
	play(t, s, persons[0].script)
	if !s.Blank() {
		t.Fatal("the first person's certificate is not blank")
	}
	if plans, _, err := s.Plans(); err != nil || len(plans) > 0 {
		t.Errorf("%d plans (%v)", len(plans), err)
	}
}
