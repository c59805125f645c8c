package household

import (
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

// Whole lists of paydays with those on which banks are closed moved, read off
// the calendars of 2026 to 2028 and the published holidays by hand.
func TestMovedPaydays(t *testing.T) {
	tests := []struct {
		source      string
		frequency   Frequency
		moved       MovedPaydays
		named       string
		year        int
		first, last string
		want        string
	}{
		{"Friday 1 January 2027 is New Year's Day: a 27th payday of 2026", Biweekly, MovedBefore, "", 2026, "2026-11-20", "", "11-20 12-04 12-18 12-31"},
		{"and 2027 begins two weeks later", Biweekly, MovedBefore, "", 2027, "2026-11-20", "2027-02-15", "01-15 01-29 02-12"},
		{"the same calendar entered on 31 December", Biweekly, MovedBefore, "", 2027, "2026-12-31", "2027-02-15", "01-15 01-29 02-12"},
		{"paid after: 4 January 2027", Biweekly, MovedAfter, "", 2027, "2026-11-20", "2027-02-15", "01-04 01-15 01-29 02-12"},
		{"as it is", Biweekly, PaidAsIs, "", 2027, "2026-11-20", "2027-02-15", "01-01 01-15 01-29 02-12"},
		{"Christmas 2026 is a Friday", Weekly, MovedBefore, "", 2026, "2026-12-11", "", "12-11 12-18 12-24 12-31"},
		{"Christmas paid after: Monday 28; New Year's Day is next year's", Weekly, MovedAfter, "", 2026, "2026-12-11", "", "12-11 12-18 12-28"},
		{"Thanksgiving 2026 is Thursday 26 November", Weekly, MovedBefore, "", 2026, "2026-11-12", "2026-12-03", "11-12 11-19 11-25 12-03"},
		{"Friday 3 July 2026, before a holiday on Saturday: banks are open", Weekly, MovedBefore, "", 2026, "2026-06-26", "2026-07-10", "06-26 07-03 07-10"},
		{"Juneteenth 2026 is a Friday", Biweekly, MovedBefore, "", 2026, "2026-06-05", "2026-07-03", "06-05 06-18 07-03"},
		{"Monday holidays of 2026, from January's", Weekly, MovedBefore, "", 2026, "2026-01-12", "2026-02-23", "01-12 01-16 01-26 02-02 02-09 02-13 02-23"},
		{"15th and last, weekends", Semimonthly, MovedBefore, "15 last", 2026, "2026-01-15", "2026-06-30", "01-15 01-30 02-13 02-27 03-13 03-31 04-15 04-30 05-15 05-29 06-15 06-30"},
		{"the same, from the stub's date of a moved payday", Semimonthly, MovedBefore, "", 2026, "2026-11-13", "", "11-13 11-30 12-15 12-31"},
		{"1st and 15th, the 1st of January 2027 in 2026", Semimonthly, MovedBefore, "1 15", 2026, "2026-10-15", "", "10-15 10-30 11-13 12-01 12-15 12-31"},
		{"5th and 20th, named in any order", Semimonthly, MovedBefore, "20 5", 2026, "2026-10-05", "2026-11-30", "10-05 10-20 11-05 11-20"},
		{"5th and 20th, no first payday", Semimonthly, MovedBefore, "5 20", 2026, "", "2026-02-28", "01-05 01-20 02-05 02-20"},
		{"the 25th named, begun in June", Monthly, MovedBefore, "25", 2026, "2026-06-25", "2026-09-30", "06-25 07-24 08-25 09-25"},
		{"the 30th named, where the first payday alone means the last", Monthly, MovedBefore, "30", 2026, "2026-01-30", "2026-03-31", "01-30 02-27 03-30"},
		{"the last, from Friday 30 January 2026", Monthly, MovedBefore, "", 2026, "2026-01-30", "2026-05-31", "01-30 02-27 03-31 04-30 05-29"},
		{"the first of the month, 2028: a Saturday that is New Year's Day", Monthly, MovedBefore, "1", 2027, "2027-11-01", "", "11-01 12-01 12-31"},
		{"paid after: the last of October 2027 is a Sunday", Monthly, MovedAfter, "last", 2027, "2027-09-30", "", "09-30 11-01 11-30 12-31"},
		{"paid after: the last of 2028 is a Sunday, paid 2 January 2029", Monthly, MovedAfter, "last", 2028, "2028-10-31", "", "10-31 11-30"},
		{"and counts in 2029", Monthly, MovedAfter, "last", 2029, "2028-10-31", "2029-02-28", "01-02 01-31 02-28"},
		{"working days around Labor Day 2026: Monday's pay on Friday", Daily, MovedBefore, "", 2026, "2026-09-03", "2026-09-08", "09-03 09-04 09-04 09-08"},
		{"the last payday given by the day it is due", Weekly, MovedAfter, "", 2026, "2026-12-11", "2026-12-25", "12-11 12-18 12-28"},
	}
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			j := Job{Frequency: tt.frequency, FirstPayday: day(t, tt.first), LastPayday: day(t, tt.last), Moved: tt.moved}
			for _, d := range strings.Fields(tt.named) {
				var named DayOfMonth
				if err := named.UnmarshalText([]byte(d)); err != nil {
					t.Fatal(err)
				}
				j.PaydaysOfMonth = append(j.PaydaysOfMonth, named)
			}
			var got []string
			for _, d := range j.Paydays(tt.year) {
				if d.Year != tt.year {
					t.Errorf("payday %v is not in %d", d, tt.year)
				}
				got = append(got, d.String()[5:])
			}
			if s := strings.Join(got, " "); s != tt.want {
				t.Errorf("paydays from %s = %s, want %s", tt.first, s, tt.want)
			}
		})
	}
}

// How many paydays a year holds, when a payday moved over New Year counts in the
// year in which it is paid. Counted by hand: 26 × 14 days from 2 January 2026 is
// 1 January 2027, a Friday and a holiday.
func TestMovedPaydayCount(t *testing.T) {
	tests := []struct {
		frequency Frequency
		first     string
		year      int
		want      int
	}{
		{Biweekly, "2026-01-02", 2026, 27},
		{Biweekly, "2026-01-02", 2027, 26}, // 15 January to 31 December
		{Biweekly, "2026-01-09", 2026, 26},
		{Biweekly, "2026-01-09", 2027, 26}, // 8 January to 24 December
		{Weekly, "2026-01-02", 2026, 53},
		{Weekly, "2026-01-02", 2027, 52}, // 8 January to 31 December
		{Weekly, "2026-01-08", 2026, 52}, // Thursdays, 8 January to 31 December
		{Monthly, "2026-01-31", 2026, 12},
		{Monthly, "2026-02-01", 2026, 12}, // 30 January to 1 December, and 1 January 2027
		{Semimonthly, "2026-01-15", 2026, 24},
	}
	for _, tt := range tests {
		if got := len(Job{Frequency: tt.frequency, FirstPayday: day(t, tt.first)}.Paydays(tt.year)); got != tt.want {
			t.Errorf("%v from %s: %d paydays of %d, want %d", tt.frequency, tt.first, got, tt.year, tt.want)
		}
	}
}

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

func TestDayOfMonth(t *testing.T) {
	for _, tt := range []struct{ text, want string }{
		{"15", "15"}, {"1", "1"}, {"31", "last"}, {"last", "last"},
	} {
		var d DayOfMonth
		if err := d.UnmarshalText([]byte(tt.text)); err != nil || d.String() != tt.want {
			t.Errorf("%s is read as %v, %v", tt.text, d, err)
		}
	}
	for _, text := range []string{"", "0", "32", "-1", "15th", "Last", "1.5"} {
		var d DayOfMonth
		if err := d.UnmarshalText([]byte(text)); err == nil {
			t.Errorf("%q is read as %v", text, d)
		}
	}
}

// The ends of last year's claims to be exempt (Form W-4: February 15, or the next
// business day), read off the calendars: Washington's Birthday is the third
// Monday of February.
func TestBusinessDay(t *testing.T) {
	for _, tt := range []struct{ day, want string }{
		{"2025-02-15", "2025-02-18"}, // a Saturday before the holiday
		{"2026-02-15", "2026-02-17"}, // a Sunday before the holiday
		{"2027-02-15", "2027-02-16"}, // the holiday
		{"2028-02-15", "2028-02-15"}, // a Tuesday
	} {
		if got := day(t, tt.day).BusinessDay(); got.String() != tt.want {
			t.Errorf("%s: %v, want %s", tt.day, got, tt.want)
		}
	}
}

// What is to be done by a day on which nobody works is done on the business day
// before. A bank is open on the Friday before a holiday that falls on a Saturday:
// Federal Reserve Banks, holiday schedules, from memory.
func TestBusinessDayBefore(t *testing.T) {
	for day, want := range map[Date]Date{
		On(2028, 1, 1):   On(2027, 12, 31), // New Year's Day, a Saturday
		On(2027, 1, 1):   On(2026, 12, 31),
		On(2026, 12, 9):  On(2026, 12, 9),
		On(2026, 12, 13): On(2026, 12, 11), // a Sunday
	} {
		if got := day.BusinessDayBefore(); got != want {
			t.Errorf("before %v: %v, want %v", day, got, want)
		}
	}
}
