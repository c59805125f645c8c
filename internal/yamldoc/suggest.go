package yamldoc

import "example.com/plumbline/internal/words"

// mostListed is the number of keys up to which a message lists them all.
const mostListed = 8

// unknownKey is what is said of a key that is not among the names.
func unknownKey(name string, names []string) words.Text {
	near := nearest(name, names)
	switch {
	case len(names) == 0:
		return words.T("yaml.unknown_none")
	case near != "" && len(names) <= mostListed:
		return words.T("yaml.unknown_near_listed", "near", near, "names", names)
	case near != "":
		return words.T("yaml.unknown_near", "near", near)
	case len(names) <= mostListed:
		return words.T("yaml.unknown_listed", "names", names)
	}
	return words.T("yaml.unknown")
}

// nearest is the name that name was most likely meant to be, or nothing.
func nearest(name string, names []string) string {
	best, least := "", len(name)/3+1
	for _, candidate := range names {
		if max(len(name)-len(candidate), len(candidate)-len(name)) > least {
			continue // so many letters are one too many to begin with
		}
		if d := distance(name, candidate, least); d <= least && (best == "" || d < least) {
			best, least = candidate, d
		}
	}
	return best
}

// distance is the number of letters to insert, remove or replace, or of
// neighbors to exchange, to make b of a; some number above most where it is.
func distance(a, b string, most int) int {
	width := len(b) + 1
	rows := make([]int, 3*width)
	before, last, row := rows[:width], rows[width:2*width], rows[2*width:]
	for j := range last {
		last[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		least := i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			row[j] = min(last[j]+1, row[j-1]+1, last[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], before[j-2]+1)
			}
			least = min(least, row[j])
		}
		if least > most+1 { // an exchange can still take one off the row before this one
			return least
		}
		before, last, row = last, row, before
	}
	return last[len(b)]
}
