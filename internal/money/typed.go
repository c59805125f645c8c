package money

import (
	"regexp"
	"strconv"
	"strings"
)

// Per is the time that an amount is for.
type Per int8

// The times that people name.
const (
	Unsaid Per = iota
	PerHour
	PerWeek
	PerMonth
	PerYear
)

// Typed is an amount as a person typed it.
type Typed struct {
	Amount Amount
	Per    Per
}

var (
	perPattern = regexp.MustCompile(`^(.*[0-9.].*?)\s*(?:/|\bper\b|\ba\b|\ban\b|\beach\b)\s*([a-z]+)\.?$`)
	perNames   = map[string]Per{
		"h": PerHour, "hr": PerHour, "hour": PerHour,
		"w": PerWeek, "wk": PerWeek, "week": PerWeek,
		"m": PerMonth, "mo": PerMonth, "mon": PerMonth, "month": PerMonth,
		"y": PerYear, "yr": PerYear, "year": PerYear, "annum": PerYear,
	}
	adverbs      = map[string]Per{"hourly": PerHour, "weekly": PerWeek, "monthly": PerMonth, "yearly": PerYear, "annually": PerYear}
	timesPattern = regexp.MustCompile(`^(.*?)\s*[x×*]\s*([0-9]{1,3})$`)
	spaced       = regexp.MustCompile(`^[0-9]{1,3}([ ' \x{2019}][0-9]{3})+(\.[0-9]+)?$`)
	// A comma before the cents, or points between the thousands: in English both
	// mean something else, so they are questioned and never read.
	elsewhere = regexp.MustCompile(`^[0-9]{1,3}(\.[0-9]{3})+(,[0-9]{1,2})?$|^[0-9]+,[0-9]{1,2}$`)
)

// ReadTyped reads an amount as people type it: all that Parse reads, and $48k,
// 48,000/yr, 650 a month, 650 x 3, 9000., 1 200, about 9000. What it cannot read
// it names in a *Fault: "comma" for a number that means one thing here and
// another elsewhere (1.200,50), "part" for a part that is no number or time,
// else the faults of Parse.
func ReadTyped(text string) (Typed, error) {
	var t Typed
	s := strings.ToLower(strings.TrimSpace(text))
	for _, before := range []string{"about ", "around ", "approximately ", "roughly ", "~"} {
		s = strings.TrimSpace(strings.TrimPrefix(s, before))
	}
	for adverb, per := range adverbs {
		if rest, ok := strings.CutSuffix(s, " "+adverb); ok {
			s, t.Per = strings.TrimSpace(rest), per
		}
	}
	if m := perPattern.FindStringSubmatch(s); m != nil && t.Per == Unsaid {
		per, known := perNames[m[2]]
		if !known {
			return t, &Fault{"part", m[2]}
		}
		s, t.Per = m[1], per
	}
	times := int64(1)
	if m := timesPattern.FindStringSubmatch(s); m != nil {
		s = m[1]
		times, _ = strconv.ParseInt(m[2], 10, 64)
	}
	for _, after := range []string{" dollars", " dollar", " usd", " bucks"} {
		s = strings.TrimSpace(strings.TrimSuffix(s, after))
	}
	a, err := readNumber(s)
	if err != nil {
		return t, err
	}
	t.Amount = a.Times(int(times))
	return t, nil
}

// readNumber is one number as people type it.
func readNumber(s string) (Amount, error) {
	negative := strings.HasPrefix(s, "-")
	s = strings.TrimSpace(strings.TrimPrefix(strings.TrimPrefix(s, "-"), "$"))
	thousands := strings.HasSuffix(s, "k")
	s = strings.TrimSpace(strings.TrimSuffix(s, "k"))
	switch {
	case elsewhere.MatchString(s):
		return Zero, &Fault{"comma", s}
	case spaced.MatchString(s):
		s = strings.NewReplacer(" ", "", "'", "", " ", "", "’", "").Replace(s)
	}
	if len(s) > 1 {
		s = strings.TrimSuffix(s, ".")
	}
	a, err := Parse(s)
	if err != nil {
		if part := strings.TrimLeft(s, "0123456789,. "); part != "" && part != s {
			return Zero, &Fault{"part", part}
		}
		return Zero, err
	}
	if thousands {
		a = a.Times(1000)
	}
	if negative {
		a = a.Neg()
	}
	return a, nil
}
