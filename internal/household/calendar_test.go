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

// Whole lists of paydays, each on the day on which it is due, read off a
// calendar by hand.
func TestPaydays(t *testing.T) {
	tests := []struct {
		source      string
		frequency   Frequency
		year        int
		first, last string
		want        string
	}{
		{"calendar 2026: month-ends", Monthly, 2026, "2026-01-31", "", "01-31 02-28 03-31 04-30 05-31 06-30 07-31 08-31 09-30 10-31 11-30 12-31"},
		{"calendar 2028: leap year month-ends", Monthly, 2028, "2028-01-31", "2028-03-31", "01-31 02-29 03-31"},
		{"common practice: the 30th is held back in February alone", Monthly, 2026, "2026-01-30", "2026-05-30", "01-30 02-28 03-30 04-30 05-30"},
		{"common practice: a first payday on a month's last day means every month's last day", Monthly, 2026, "2026-02-28", "2026-05-31", "02-28 03-31 04-30 05-31"},
		{"calendar 2028: 28 February is not the last day", Monthly, 2028, "2028-02-28", "2028-04-30", "02-28 03-28 04-28"},
		{"common practice: the 15th goes with the last day", Semimonthly, 2026, "2026-01-15", "2026-03-31", "01-15 01-31 02-15 02-28 03-15 03-31"},
		{"the same, begun on the last day", Semimonthly, 2026, "2026-01-31", "2026-03-15", "01-31 02-15 02-28 03-15"},
		{"common practice: 1st and 16th", Semimonthly, 2026, "2026-01-01", "2026-02-16", "01-01 01-16 02-01 02-16"},
		{"the same, begun on the 16th", Semimonthly, 2026, "2026-01-16", "2026-02-16", "01-16 02-01 02-16"},
		{"common practice: 10th and 25th", Semimonthly, 2026, "2026-06-25", "2026-07-31", "06-25 07-10 07-25"},
		{"the 30th stays the 30th", Semimonthly, 2026, "2026-01-30", "2026-03-31", "01-30 02-15 02-28 03-15 03-30"},
		{"the 14th and 29th in a February of 28 days", Semimonthly, 2026, "2026-02-14", "2026-03-31", "02-14 02-28 03-14 03-29"},
		{"calendar 2026: quarter-ends", Quarterly, 2026, "2026-03-31", "", "03-31 06-30 09-30 12-31"},
		{"calendar 2026: quarters from 15 February", Quarterly, 2026, "2026-02-15", "", "02-15 05-15 08-15 11-15"},
		{"calendar 2026: half years from 31 August", Semiannual, 2026, "2026-02-28", "", "02-28 08-31"},
		{"once a year", Annual, 2026, "2026-12-15", "", "12-15"},
		{"once a year, begun years ago on 29 February: the last day", Annual, 2026, "2024-02-29", "", "02-28"},
		{"calendar: Friday 4 September 2026 to Tuesday", Daily, 2026, "2026-09-04", "2026-09-08", "09-04 09-07 09-08"},
		{"calendar: from Saturday 5 September 2026", Daily, 2026, "2026-09-05", "2026-09-08", "09-07 09-08"},
		{"weekly across a month-end", Weekly, 2026, "2026-11-27", "2026-12-11", "11-27 12-04 12-11"},
		{"biweekly, job begun in the year before", Biweekly, 2026, "2025-12-19", "2026-02-01", "01-02 01-16 01-30"},
		{"semimonthly, job begun years ago", Semimonthly, 2026, "2019-05-20", "2026-02-10", "01-05 01-20 02-05"},
		{"quarterly, job begun in the year before", Quarterly, 2026, "2025-11-30", "", "02-28 05-31 08-31 11-30"},
		{"job of the year before", Weekly, 2026, "2025-01-03", "2025-06-30", ""},
		{"job of the year after", Weekly, 2026, "2027-01-01", "", ""},
	}
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			j := Job{Frequency: tt.frequency, FirstPayday: day(t, tt.first), LastPayday: day(t, tt.last), Moved: PaidAsIs}
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

// How many paydays a year holds, paid on the day itself. A year of 365 days is 26 × 14 + 1 days, so it
// holds 27 biweekly paydays only when the first is 1 January, and a leap year
// only when it is 1 or 2 January; the same with 52 × 7 for weekly ones.
func TestPaydayCount(t *testing.T) {
	tests := []struct {
		source    string
		frequency Frequency
		first     string
		want      int
	}{
		{"1 January 2026 + 26 × 14 days = 31 December", Biweekly, "2026-01-01", 27},
		{"2 January 2026 + 26 × 14 days = 1 January 2027", Biweekly, "2026-01-02", 26},
		{"14 January 2026 + 25 × 14 days = 30 December", Biweekly, "2026-01-14", 26},
		{"1 January 2027 + 26 × 14 days = 31 December", Biweekly, "2027-01-01", 27},
		{"2 January 2028, a leap year, + 26 × 14 days = 31 December", Biweekly, "2028-01-02", 27},
		{"3 January 2028 + 26 × 14 days = 1 January 2029", Biweekly, "2028-01-03", 26},
		{"Thursdays of 2026", Weekly, "2026-01-01", 53},
		{"Fridays of 2026", Weekly, "2026-01-02", 52},
		{"Saturdays of 2028, a leap year begun on Saturday", Weekly, "2028-01-01", 53},
		{"Sundays of 2028", Weekly, "2028-01-02", 53},
		{"Mondays of 2028", Weekly, "2028-01-03", 52},
		{"twice a month", Semimonthly, "2026-01-15", 24},
		{"each month", Monthly, "2026-01-31", 12},
		{"job begun on 1 July: 15 July to 31 December", Semimonthly, "2026-07-15", 12},
		{"working days of 2026: 52 weeks of 5, and Thursday 31 December", Daily, "2026-01-01", 261},
		{"working days of 2026, job begun 20 years before", Daily, "2006-01-02", 261},
		{"working days of 2028: 52 weeks of 5; 30 and 31 December are a weekend", Daily, "2028-01-01", 260},
	}
	for _, tt := range tests {
		t.Run(tt.source, func(t *testing.T) {
			first := day(t, tt.first)
			year := first.Year
			if year == 2006 {
				year = 2026
			}
			if got := len(Job{Frequency: tt.frequency, FirstPayday: first, Moved: PaidAsIs}.Paydays(year)); got != tt.want {
				t.Errorf("%d paydays of %v from %s, want %d", got, tt.frequency, tt.first, tt.want)
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
		{"CONTRACT: every payday after the stub's", Biweekly, "2026-01-09", "2026-06-12", "2026-06-26", 14},
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
