package household

import (
	"testing"
	"time"

	"pgregory.net/rapid"
)

// A stub dated on a payday of the calendar, or on the day on which it is due, is
// recognized without a question.
func TestIsPaydayStub(t *testing.T) {
	tests := []struct {
		source      string
		frequency   Frequency
		first, stub string
		want        bool
		covered     int
	}{
		{"Christmas paid on Thursday", Weekly, "2026-01-02", "2026-12-24", true, 52},
		{"Christmas paid on the day", Weekly, "2026-01-02", "2026-12-25", true, 52},
		{"New Year's Day paid on Thursday", Biweekly, "2026-01-02", "2026-12-31", true, 27},
		{"Saturday 31 October 2026 on the stub", Monthly, "2026-01-30", "2026-10-31", true, 10},
		{"and Friday the 30th", Monthly, "2026-01-30", "2026-10-30", true, 10},
		{"a day in the middle of the month", Monthly, "2026-01-30", "2026-10-14", false, 9},
	}
	for _, tt := range tests {
		j := Job{Frequency: tt.frequency, FirstPayday: day(t, tt.first)}
		if got := j.IsPaydayStub(2026, day(t, tt.stub)); got != tt.want {
			t.Errorf("%s: recognized = %v, want %v", tt.source, got, tt.want)
		}
		if got := j.PaydaysThrough(2026, day(t, tt.stub)).Covered; got != tt.covered {
			t.Errorf("%s: covers %d, want %d", tt.source, got, tt.covered)
		}
	}
}

func TestMovedOverNewYear(t *testing.T) {
	into, out := Job{Frequency: Biweekly, FirstPayday: On(2026, time.January, 2)}.MovedOverNewYear(2026)
	if len(out) != 0 || len(into) != 1 || into[0] != (Moved{On(2027, time.January, 1), On(2026, time.December, 31)}) {
		t.Errorf("into %v, out %v; want January 1, 2027 on December 31", into, out)
	}
	into, out = Job{Frequency: Monthly, FirstPayday: On(2027, time.January, 1)}.MovedOverNewYear(2027)
	if len(out) != 1 || out[0] != (Moved{On(2027, time.January, 1), On(2026, time.December, 31)}) || len(into) != 1 {
		t.Errorf("into %v, out %v; want January 1, 2027 out and January 1, 2028 in", into, out)
	}
	into, out = Job{Frequency: Biweekly, FirstPayday: On(2026, time.January, 2), Moved: PaidAsIs}.MovedOverNewYear(2026)
	if len(into)+len(out) != 0 {
		t.Errorf("as it is: into %v, out %v", into, out)
	}
}

// anyJob is a job with any calendar.
func anyJob(t *rapid.T, year int) Job {
	j := Job{
		Frequency: rapid.SampledFrom(Frequencies()).Draw(t, "frequency"),
		Moved:     rapid.SampledFrom([]MovedPaydays{MovedBefore, MovedAfter, PaidAsIs}).Draw(t, "moved"),
	}
	if rapid.Bool().Draw(t, "first payday known") {
		j.FirstPayday = On(year, time.January, 1).AddDays(rapid.IntRange(-800, 364).Draw(t, "first"))
	}
	named := rapid.SliceOfN(rapid.IntRange(1, 31), 2, 2)
	if two := named.Draw(t, "named"); two[0] != two[1] && rapid.Bool().Draw(t, "days named") {
		switch j.Frequency {
		case Semimonthly:
			j.PaydaysOfMonth = []DayOfMonth{DayOfMonth(two[0]), DayOfMonth(two[1])}
		case Monthly:
			j.PaydaysOfMonth = []DayOfMonth{DayOfMonth(two[0])}
		}
	}
	return j
}

// Whatever the calendar: no payday is on a day on which banks are closed, unless
// as it is; none is moved by more than three days; they come in order; each
// belongs to the year in which it is paid; and over years none is lost or
// counted twice.
func TestMovedPaydaysProperties(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		year := rapid.IntRange(2025, 2035).Draw(t, "year")
		j := anyJob(t, year)
		var before Date
		for due, paid := range j.paydays(year) {
			away := due.DaysUntil(paid)
			switch {
			case paid.Year != year:
				t.Fatalf("%v is not in %d", paid, year)
			case j.Moved == PaidAsIs && due != paid:
				t.Fatalf("%v is paid on %v, not as it is", due, paid)
			case j.Moved != PaidAsIs && !paid.bankDay():
				t.Fatalf("%v is a %v on which banks are closed", paid, paid.Weekday())
			case away < -mostMoved || away > mostMoved:
				t.Fatalf("%v is moved to %v", due, paid)
			case away < 0 && j.Moved == MovedAfter || away > 0 && j.Moved == MovedBefore:
				t.Fatalf("%v is moved the wrong way, to %v", due, paid)
			case paid.Before(before):
				t.Fatalf("%v comes after %v", paid, before)
			}
			before = paid
		}
	})
}

// Over ten years from a first payday there are as many paydays as the same
// calendar has when none is moved, but for one at either end.
func TestMovingLosesNoPayday(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := anyJob(t, 2026)
		j.FirstPayday = On(2026, time.January, 4).AddDays(rapid.IntRange(0, 300).Draw(t, "first day"))
		count := func(j Job) (n int) {
			for year := 2026; year < 2036; year++ {
				n += len(j.Paydays(year))
			}
			return n
		}
		asIs := j
		asIs.FirstPayday = j.dueOf(j.FirstPayday)
		asIs.Moved = PaidAsIs
		if moved, still := count(j), count(asIs); moved-still > 1 || still-moved > 1 {
			t.Fatalf("%v: %d paydays moved, %d as they are", j, moved, still)
		}
	})
}

// The first payday of a year, given back as an answer, leads to the same year.
func TestFirstPaydayInLeadsToTheSameYear(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		j := anyJob(t, 2026)
		for _, year := range []int{2026, 2027} {
			want := j.Paydays(year)
			again := j
			again.FirstPayday = j.FirstPaydayIn(year)
			if again.FirstPayday.IsZero() {
				continue
			}
			got := again.Paydays(year)
			if len(got) != len(want) {
				t.Fatalf("from %v: %v, want %v", again.FirstPayday, got, want)
			}
			for i := range got {
				if got[i] != want[i] && got[i].Day < 28 {
					t.Fatalf("from %v: %v, want %v", again.FirstPayday, got, want)
				}
			}
		}
	})
}
