package tables

import (
	"math/big"
	"strings"
)

// Change is a figure that two years do not share.
type Change struct {
	Group    string // that cites it
	Key      string // the full key
	Old, New string // as in the files; empty where the year has no such figure
}

// Compare lists the figures in which two years differ: those of b in the order
// of its file, then those that only a has.
func Compare(a, b *Year) []Change {
	old := map[string]string{}
	before := a.Figures()
	for _, f := range before {
		old[f.Key] = f.Value
	}
	var changes []Change
	for _, f := range b.Figures() {
		value, both := old[f.Key]
		if !both || value != f.Value {
			changes = append(changes, Change{Group: f.Group, Key: f.Key, Old: value, New: f.Value})
		}
		delete(old, f.Key)
	}
	for _, f := range before {
		if value, left := old[f.Key]; left {
			changes = append(changes, Change{Group: f.Group, Key: f.Key, Old: value})
		}
	}
	return changes
}

// Percent is by how much the figure changes, like "+3.1%"; nothing where it is
// no number, or was none or zero.
func (c Change) Percent() string {
	old, isOld := new(big.Rat).SetString(c.Old)
	now, isNew := new(big.Rat).SetString(c.New)
	if !isOld || !isNew || old.Sign() == 0 {
		return ""
	}
	share := now.Quo(now, old)
	share.Sub(share, big.NewRat(1, 1)).Mul(share, big.NewRat(100, 1))
	text := share.FloatString(1)
	if share.Sign() > 0 {
		text = "+" + text
	}
	return text + "%"
}

// List is how many elements a list has, and how many of them change; zero for a
// figure that is no list in both years.
func (c Change) List() (changed, of int) {
	old, now := strings.Split(c.Old, ", "), strings.Split(c.New, ", ")
	if len(now) < 2 || len(old) != len(now) {
		return 0, 0
	}
	for i := range now {
		if old[i] != now[i] {
			changed++
		}
	}
	return changed, len(now)
}
