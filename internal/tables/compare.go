package tables

// Change is a figure that two years do not share.
type Change struct {
	Key      string
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
			changes = append(changes, Change{Key: f.Key, Old: value, New: f.Value})
		}
		delete(old, f.Key)
	}
	for _, f := range before {
		if value, left := old[f.Key]; left {
			changes = append(changes, Change{Key: f.Key, Old: value})
		}
	}
	return changes
}
