package household

import (
	"strings"
	"testing"
	"time"

	"example.com/plumbline/internal/words"
)

func TestReadTypedDays(t *testing.T) {
	past := DayTyped{Today: On(2026, time.November, 20), Year: 2026}
	ahead, birth := past, past
	ahead.Ahead, birth.Birth = true, true
	for _, tt := range []struct {
		text string
		as   DayTyped
		want Date
	}{
		{"2026-06-15", past, On(2026, 6, 15)},
		{"6/15/2026", past, On(2026, 6, 15)},
		{"6-15-2026", past, On(2026, 6, 15)},
		{"11/13/26", past, On(2026, 11, 13)},
		{"11/13", past, On(2026, 11, 13)},
		{"Aug 14", past, On(2026, 8, 14)},
		{"August 14th, 2026", past, On(2026, 8, 14)},
		{"14 Aug 2026", past, On(2026, 8, 14)},
		{"the 14th of August", past, On(2026, 8, 14)},
		{"Sept 4", past, On(2026, 9, 4)},
		{"Fri June 12", past, On(2026, 6, 12)},
		{"Friday, 6/12/26", past, On(2026, 6, 12)},
		{"May the 4th", past, On(2026, 5, 4)},
		{"Tues. the 14th", past, On(2026, 11, 14)},
		{"the 15th", past, On(2026, 11, 15)},
		{"the 25th", past, On(2026, 10, 25)},
		{"the 25th", ahead, On(2026, 11, 25)},
		{"15th", ahead, On(2026, 12, 15)},
		{"the 31st", past, On(2026, 10, 31)},
		{"Aug 14 1990", birth, On(1990, 8, 14)},
		{"8/14/90", birth, On(1990, 8, 14)},
		{"3/2/20", birth, On(2020, 3, 2)},
		{"1990", birth, On(1990, 7, 1)},
	} {
		if got, err := tt.as.Read(tt.text, words.English()); err != nil || got != tt.want {
			t.Errorf("%q is %v (%v), want %v", tt.text, got, err, tt.want)
		}
	}
	for text, part := range map[string]string{
		"13/45/2026": "13", "2/30/2026": "30", "Foo 12": "foo", "the 32nd": "32", "soon": "soon", "12/1/3026": "3026", "": "",
	} {
		if got, err := past.Read(text, words.English()); err == nil || !strings.Contains(err.Error(), part) {
			t.Errorf("%q is %v (%v), want an error that names %q", text, got, err, part)
		}
	}
}

// A birth date without its year is not taken to be of this one.
func TestBirthNeedsItsYear(t *testing.T) {
	for _, text := range []string{"Aug 14", "8/14", "the 14th"} {
		if got, err := (DayTyped{Today: On(2026, time.November, 20), Year: 2026, Birth: true}).Read(text, words.English()); err == nil {
			t.Errorf("%q is %v, want an error", text, got)
		}
	}
}

// Whatever is typed, the day read is one of the calendar.
func FuzzReadTypedDay(f *testing.F) {
	for _, s := range []string{"2026-06-15", "11/13/26", "Aug 14", "the 15th", "13/45/2026", "30 Feb", "1990"} {
		f.Add(s, true)
		f.Add(s, false)
	}
	f.Fuzz(func(t *testing.T, s string, birth bool) {
		d, err := DayTyped{Today: On(2026, time.November, 20), Year: 2026, Birth: birth}.Read(s, words.English())
		if err != nil {
			return
		}
		var again Date
		if err := again.UnmarshalText([]byte(d.String())); err != nil || again != d {
			t.Errorf("%q is %v, which is no day (%v)", s, d, err)
		}
	})
}
