package household

import (
	"strings"
	"testing"
	"time"

	"pgregory.net/rapid"
)

func day(t testing.TB, s string) Date {
	t.Helper()
	var d Date
	if s == "" {
		return d
	}
	if err := d.UnmarshalText([]byte(s)); err != nil {
		t.Fatal(err)
	}
	return d
}

// Whole lists of paydays, read off the calendars of 2026 to 2028 and the published
// holidays by hand: first each on the day on which it is due, then with those on
// which banks are closed moved.
func TestPaydays(t *testing.T) {
	tests := []struct {
		source      string
		frequency   Frequency
		moved       MovedPaydays
		named       string
		year        int
		first, last string
		want        string
	}{
		{"calendar 2026: month-ends", Monthly, PaidAsIs, "", 2026, "2026-01-31", "", "01-31 02-28 03-31 04-30 05-31 06-30 07-31 08-31 09-30 10-31 11-30 12-31"},
		{"calendar 2028: leap year month-ends", Monthly, PaidAsIs, "", 2028, "2028-01-31", "2028-03-31", "01-31 02-29 03-31"},
		{"common practice: the 30th is held back in February alone", Monthly, PaidAsIs, "", 2026, "2026-01-30", "2026-05-30", "01-30 02-28 03-30 04-30 05-30"},
		{"common practice: a first payday on a month's last day means every month's last day", Monthly, PaidAsIs, "", 2026, "2026-02-28", "2026-05-31", "02-28 03-31 04-30 05-31"},
		{"calendar 2028: 28 February is not the last day", Monthly, PaidAsIs, "", 2028, "2028-02-28", "2028-04-30", "02-28 03-28 04-28"},
		{"common practice: the 15th goes with the last day", Semimonthly, PaidAsIs, "", 2026, "2026-01-15", "2026-03-31", "01-15 01-31 02-15 02-28 03-15 03-31"},
		{"the same, begun on the last day", Semimonthly, PaidAsIs, "", 2026, "2026-01-31", "2026-03-15", "01-31 02-15 02-28 03-15"},
		{"common practice: 1st and 16th", Semimonthly, PaidAsIs, "", 2026, "2026-01-01", "2026-02-16", "01-01 01-16 02-01 02-16"},
		{"the same, begun on the 16th", Semimonthly, PaidAsIs, "", 2026, "2026-01-16", "2026-02-16", "01-16 02-01 02-16"},
		{"common practice: 10th and 25th", Semimonthly, PaidAsIs, "", 2026, "2026-06-25", "2026-07-31", "06-25 07-10 07-25"},
		{"the 30th stays the 30th", Semimonthly, PaidAsIs, "", 2026, "2026-01-30", "2026-03-31", "01-30 02-15 02-28 03-15 03-30"},
		{"the 14th and 29th in a February of 28 days", Semimonthly, PaidAsIs, "", 2026, "2026-02-14", "2026-03-31", "02-14 02-28 03-14 03-29"},
		{"calendar 2026: quarter-ends", Quarterly, PaidAsIs, "", 2026, "2026-03-31", "", "03-31 06-30 09-30 12-31"},
		{"calendar 2026: quarters from 15 February", Quarterly, PaidAsIs, "", 2026, "2026-02-15", "", "02-15 05-15 08-15 11-15"},
		{"calendar 2026: half years from 31 August", Semiannual, PaidAsIs, "", 2026, "2026-02-28", "", "02-28 08-31"},
		{"once a year", Annual, PaidAsIs, "", 2026, "2026-12-15", "", "12-15"},
		{"once a year, begun years ago on 29 February: the last day", Annual, PaidAsIs, "", 2026, "2024-02-29", "", "02-28"},
		{"calendar: Friday 4 September 2026 to Tuesday", Daily, PaidAsIs, "", 2026, "2026-09-04", "2026-09-08", "09-04 09-07 09-08"},
		{"calendar: from Saturday 5 September 2026", Daily, PaidAsIs, "", 2026, "2026-09-05", "2026-09-08", "09-07 09-08"},
		{"weekly across a month-end", Weekly, PaidAsIs, "", 2026, "2026-11-27", "2026-12-11", "11-27 12-04 12-11"},
		{"biweekly, job begun in the year before", Biweekly, PaidAsIs, "", 2026, "2025-12-19", "2026-02-01", "01-02 01-16 01-30"},
		{"semimonthly, job begun years ago", Semimonthly, PaidAsIs, "", 2026, "2019-05-20", "2026-02-10", "01-05 01-20 02-05"},
		{"quarterly, job begun in the year before", Quarterly, PaidAsIs, "", 2026, "2025-11-30", "", "02-28 05-31 08-31 11-30"},
		{"job of the year before", Weekly, PaidAsIs, "", 2026, "2025-01-03", "2025-06-30", ""},
		{"job of the year after", Weekly, PaidAsIs, "", 2026, "2027-01-01", "", ""},

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

// How many paydays a year holds. A year of 365 days is 26 × 14 + 1 days, so, paid on
// the day itself, it holds 27 biweekly paydays only when the first is 1 January, and
// a leap year only when it is 1 or 2 January; the same with 52 × 7 for weekly ones.
// One that is moved over New Year counts in the year in which it is paid.
func TestPaydayCount(t *testing.T) {
	tests := []struct {
		source    string
		frequency Frequency
		moved     MovedPaydays
		first     string
		year      int
		want      int
	}{
		{"1 January 2026 + 26 × 14 days = 31 December", Biweekly, PaidAsIs, "2026-01-01", 2026, 27},
		{"2 January 2026 + 26 × 14 days = 1 January 2027", Biweekly, PaidAsIs, "2026-01-02", 2026, 26},
		{"14 January 2026 + 25 × 14 days = 30 December", Biweekly, PaidAsIs, "2026-01-14", 2026, 26},
		{"1 January 2027 + 26 × 14 days = 31 December", Biweekly, PaidAsIs, "2027-01-01", 2027, 27},
		{"2 January 2028, a leap year, + 26 × 14 days = 31 December", Biweekly, PaidAsIs, "2028-01-02", 2028, 27},
		{"3 January 2028 + 26 × 14 days = 1 January 2029", Biweekly, PaidAsIs, "2028-01-03", 2028, 26},
		{"Thursdays of 2026", Weekly, PaidAsIs, "2026-01-01", 2026, 53},
		{"Fridays of 2026", Weekly, PaidAsIs, "2026-01-02", 2026, 52},
		{"Saturdays of 2028, a leap year begun on Saturday", Weekly, PaidAsIs, "2028-01-01", 2028, 53},
		{"Sundays of 2028", Weekly, PaidAsIs, "2028-01-02", 2028, 53},
		{"Mondays of 2028", Weekly, PaidAsIs, "2028-01-03", 2028, 52},
		{"twice a month", Semimonthly, PaidAsIs, "2026-01-15", 2026, 24},
		{"each month", Monthly, PaidAsIs, "2026-01-31", 2026, 12},
		{"job begun on 1 July: 15 July to 31 December", Semimonthly, PaidAsIs, "2026-07-15", 2026, 12},
		{"working days of 2026: 52 weeks of 5, and Thursday 31 December", Daily, PaidAsIs, "2026-01-01", 2026, 261},
		{"working days of 2026, job begun 20 years before", Daily, PaidAsIs, "2006-01-02", 2026, 261},
		{"working days of 2028: 52 weeks of 5; 30 and 31 December are a weekend", Daily, PaidAsIs, "2028-01-01", 2028, 260},

		{"2 January 2026 + 26 × 14 days = 1 January 2027, paid 31 December", Biweekly, MovedBefore, "2026-01-02", 2026, 27},
		{"15 January to 31 December", Biweekly, MovedBefore, "2026-01-02", 2027, 26},
		{"9 January to 25 December 2026, paid on the 24th", Biweekly, MovedBefore, "2026-01-09", 2026, 26},
		{"8 January to 24 December", Biweekly, MovedBefore, "2026-01-09", 2027, 26},
		{"Fridays of 2026, and 1 January 2027 paid on 31 December", Weekly, MovedBefore, "2026-01-02", 2026, 53},
		{"8 January to 31 December", Weekly, MovedBefore, "2026-01-02", 2027, 52},
		{"Thursdays, 8 January to 31 December", Weekly, MovedBefore, "2026-01-08", 2026, 52},
		{"each month, moved", Monthly, MovedBefore, "2026-01-31", 2026, 12},
		{"30 January to 1 December, and 1 January 2027", Monthly, MovedBefore, "2026-02-01", 2026, 12},
		{"twice a month, moved", Semimonthly, MovedBefore, "2026-01-15", 2026, 24},
	}
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			j := Job{Frequency: tt.frequency, FirstPayday: day(t, tt.first), Moved: tt.moved}
			if got := len(j.Paydays(tt.year)); got != tt.want {
				t.Errorf("%v from %s: %d paydays of %d, want %d", tt.frequency, tt.first, got, tt.year, tt.want)
			}
		})
	}
}

func TestAssumedFirstPayday(t *testing.T) {
	tests := []struct {
		source    string
		frequency Frequency
		stub      string
		want      string
	}{
		{"first Friday of 2026", Weekly, "", "2026-01-02"},
		{"first Friday of 2026", Biweekly, "", "2026-01-02"},
		{"common practice", Semimonthly, "", "2026-01-15"},
		{"end of the first month", Monthly, "", "2026-01-31"},
		{"end of the first quarter", Quarterly, "", "2026-03-31"},
		{"end of the first half", Semiannual, "", "2026-06-30"},
		{"end of the year", Annual, "", "2026-12-31"},
		{"first working day", Daily, "", "2026-01-01"},
		{"stub of Friday 12 June, 23 weeks back", Weekly, "2026-06-12", "2026-01-02"},
		{"stub of Thursday 11 June, 23 weeks back", Weekly, "2026-06-11", "2026-01-01"},
		{"stub of 19 June, 12 × 14 days back", Biweekly, "2026-06-19", "2026-01-02"},
		{"stub of 12 June, 11 × 14 days back", Biweekly, "2026-06-12", "2026-01-09"},
		{"stub of the last day of June", Semimonthly, "2026-06-30", "2026-01-15"},
		{"stub of 15 June", Semimonthly, "2026-06-15", "2026-01-15"},
		{"stub of 20 June", Semimonthly, "2026-06-20", "2026-01-05"},
		{"stub of 31 January", Semimonthly, "2026-01-31", "2026-01-15"},
		{"stub of the last day of February", Monthly, "2026-02-28", "2026-01-31"},
		{"stub of 25 September", Monthly, "2026-09-25", "2026-01-25"},
		{"stub of the last day of September", Quarterly, "2026-09-30", "2026-03-31"},
		{"stub of 15 November", Quarterly, "2026-11-15", "2026-02-15"},
		{"stub of 1 October", Semiannual, "2026-10-01", "2026-04-01"},
		{"stub of 1 October", Annual, "2026-10-01", "2026-10-01"},
		{"stub of a working day", Daily, "2026-06-12", "2026-01-01"},
	}
	for _, tt := range tests {
		j := Job{Frequency: tt.frequency, Moved: PaidAsIs}
		if tt.stub != "" {
			j.YearToDate = &YearToDate{Payday: day(t, tt.stub)}
		}
		if got := j.Paydays(2026)[0]; got.String() != tt.want {
			t.Errorf("%s: first payday of %v = %v, want %s", tt.source, tt.frequency, got, tt.want)
		}
	}
}

func TestPaydaysToCome(t *testing.T) {
	tests := []struct {
		source    string
		frequency Frequency
		first     string
		stub      string
		wantFirst string
		wantCount int
	}{
		{"no stub: the whole year; 31 January is a Saturday", Monthly, "2026-01-31", "", "2026-01-30", 12},
		{"every payday after the stub's", Biweekly, "2026-01-09", "2026-06-12", "2026-06-26", 14},
		{"stub of the last payday, dated on the holiday on which it is due", Biweekly, "2026-01-09", "2026-12-25", "", 0},
		{"15 August 2026 is a Saturday, paid on Friday", Semimonthly, "2026-01-15", "2026-08-14", "2026-08-31", 9},
		{"31 May 2026 is a Sunday, paid on Friday", Monthly, "2026-01-31", "2026-05-29", "2026-06-30", 7},
		{"Friday 25 December is a holiday, paid on Thursday; Friday 1 January too", Weekly, "2026-01-02", "2026-12-24", "2026-12-31", 1},
		{"paid late: Monday 17 for Saturday 15 August", Semimonthly, "2026-01-15", "2026-08-17", "2026-08-31", 9},
		{"four days before is not early but another day", Semimonthly, "2026-01-15", "2026-08-10", "2026-08-14", 10},
		{"a stub on a payday just before another", Semimonthly, "2026-01-13", "2026-02-13", "2026-02-27", 21},
		{"working days: each is a payday; 1 January is paid on the 31st", Daily, "2026-01-01", "2026-12-29", "2026-12-30", 3},
		{"working days: a stub of Saturday is not Monday's", Daily, "2026-01-01", "2026-12-26", "2026-12-28", 5},
	}
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			j := Job{Frequency: tt.frequency, FirstPayday: day(t, tt.first)}
			if tt.stub != "" {
				j.YearToDate = &YearToDate{Payday: day(t, tt.stub)}
			}
			got := j.PaydaysToCome(2026)
			if len(got) != tt.wantCount {
				t.Fatalf("%d paydays to come %v, want %d", len(got), got, tt.wantCount)
			}
			if len(got) > 0 && got[0].String() != tt.wantFirst {
				t.Errorf("first payday to come = %v, want %s", got[0], tt.wantFirst)
			}
			if j.StubPayday() != day(t, tt.stub) {
				t.Errorf("StubPayday = %v, want %q", j.StubPayday(), tt.stub)
			}
		})
	}
}

// Whatever the job, its paydays rise, lie in the year and between its first and
// last payday, begin with the first payday itself, and number what the
// frequency can give.
func TestPaydaysProperties(t *testing.T) {
	most := map[Frequency]int{Daily: 262, Weekly: 53, Biweekly: 27, Semimonthly: 24, Monthly: 12, Quarterly: 4, Semiannual: 2, Annual: 1}
	least := map[Frequency]int{Daily: 260, Weekly: 52, Biweekly: 26, Semimonthly: 24, Monthly: 12, Quarterly: 4, Semiannual: 2, Annual: 1}
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.SampledFrom(Frequencies()).Draw(t, "frequency")
		year := rapid.IntRange(2024, 2040).Draw(t, "year")
		j := Job{Frequency: f, Moved: PaidAsIs}
		j.FirstPayday = On(year, time.January, 1).AddDays(rapid.IntRange(-4000, 364).Draw(t, "first"))
		if rapid.Bool().Draw(t, "ends") {
			j.LastPayday = j.FirstPayday.AddDays(rapid.IntRange(0, 4500).Draw(t, "last"))
		}
		days := j.Paydays(year)
		for i, d := range days {
			if d.Year != year || d.Before(j.FirstPayday) || (!j.LastPayday.IsZero() && d.After(j.LastPayday)) {
				t.Fatalf("payday %v outside the job's year", d)
			}
			if i > 0 && !days[i-1].Before(d) {
				t.Fatalf("%v does not come before %v", days[i-1], d)
			}
		}
		if len(days) > most[f] {
			t.Fatalf("%d paydays of %v in a year", len(days), f)
		}
		if j.FirstPayday.Year < year && (j.LastPayday.IsZero() || j.LastPayday.Year > year) && len(days) < least[f] {
			t.Fatalf("only %d paydays of %v in a whole year", len(days), f)
		}
		if j.FirstPayday.Year == year && (f != Daily || j.FirstPayday.isWeekday()) && days[0] != j.FirstPayday {
			t.Fatalf("the first payday is %v, not %v", days[0], j.FirstPayday)
		}
	})
}

// A calendar entered at any of its paydays goes on the same, and leads back to
// the same first payday of the year.
func TestCalendarFromAnyPayday(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		f := rapid.SampledFrom([]Frequency{Weekly, Biweekly, Semimonthly, Monthly, Quarterly, Semiannual, Annual}).Draw(t, "frequency")
		first := On(2026, time.January, 1).AddDays(rapid.IntRange(0, 364).Draw(t, "first"))
		if first.Day > 27 && f > Biweekly && monthDay(first) != lastDay {
			t.Skip("the 28th to 30th are read as the last day where a month ends with them")
		}
		days := Job{Frequency: f, FirstPayday: first, Moved: PaidAsIs}.Paydays(2026)
		i := rapid.IntRange(0, len(days)-1).Draw(t, "entered at")
		if f == Semimonthly && days[i].Day > 27 && monthDay(days[i]) != monthDay(days[0]) && first.Day != 15 && monthDay(first) != lastDay {
			t.Skip("the 28th to 30th again")
		}
		again := Job{Frequency: f, FirstPayday: days[i], Moved: PaidAsIs}.Paydays(2026)
		if len(again) != len(days)-i {
			t.Fatalf("from %v: %v, want %v", days[i], again, days[i:])
		}
		for k, d := range again {
			if d != days[i+k] {
				t.Fatalf("from %v: %v, want %v", days[i], again, days[i:])
			}
		}
	})
}

func TestUnknownFrequency(t *testing.T) {
	j := Job{FirstPayday: On(2026, time.May, 1)}
	if got := j.Paydays(2026); len(got) != 1 || got[0] != j.FirstPayday {
		t.Errorf("paydays of an unknown frequency = %v, want the first alone", got)
	}
	if got := (Job{YearToDate: &YearToDate{Payday: On(2026, time.May, 1)}}).PaydaysToCome(2026); len(got) != 0 {
		t.Errorf("paydays to come of an unknown frequency = %v", got)
	}
}
