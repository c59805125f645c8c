package interview

import (
	"testing"

	"example.com/plumbline/internal/yamldoc"
)

// Whatever is in a file, the interview goes on with it or says why not; it
// never panics, and what it writes can be read again.
func FuzzStart(f *testing.F) {
	f.Add([]byte(threeJobs))
	f.Add([]byte("format: 1\ntax_year: 2026\ninterview: {way_in: new_job, jobs: 99, people: -1, at: nowhere, to_confirm: a b, income: 'gold, interest'}\n"))
	f.Add([]byte("format: 1\ntax_year: 2026\nfiling_status: widowed\njobs: [{}, {pay_frequency: hourly, year_to_date: {payday: x}}]\ndependents: [{birth_date: never}, {}]\n"))
	f.Add([]byte("tax_year: 2025\nfiling_status: single\nas_of: 2025-12-31\njobs: 3\ninterview: none\n"))
	f.Add([]byte("interview: {married: maybe, 'kept job_1.name': 5, job_1_pay_known: salary, job_1_salary: 1e9}\njobs: [{earner: spouse, kind: pension}]\n"))
	f.Fuzz(func(t *testing.T, data []byte) {
		doc, err := yamldoc.Parse("answers", data)
		if err != nil || doc == nil {
			return
		}
		s, err := Start(doc, env("2026-06-15"))
		if err != nil {
			return
		}
		for range 5 {
			q, more := s.Question()
			s.Review()
			s.Progress()
			s.Draft()
			s.Due()
			if !more {
				break
			}
			if s.Answer(q.Prefill()) != nil && s.Answer("1") != nil {
				s.Back()
			}
		}
		if _, err := yamldoc.Parse("answers", s.Document().Bytes()); err != nil {
			t.Fatalf("%v\nfile:\n%s", err, s.Document().Bytes())
		}
	})
}
