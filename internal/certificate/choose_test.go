package certificate

import (
	"reflect"
	"slices"
	"strings"
	"testing"

	"example.com/plumbline/internal/money"
)

func names(r Result) []string {
	all := []string{r.Recommended.Name}
	for _, p := range r.Alternatives {
		all = append(all, p.Name)
	}
	slices.Sort(all)
	return all
}

// Whichever plan is chosen, what is beside it is figured for that plan, the
// others remain to choose from, and choosing the first one again undoes it.
func TestChoose(t *testing.T) {
	for _, name := range demos {
		first := solved(t, demo(t, name))
		kept := slices.Clone(first.Alternatives)
		for _, want := range first.Alternatives {
			r := first
			if err := r.Choose(want.Name); err != nil {
				t.Fatal(err)
			}
			if r.Recommended.Name != want.Name || !r.Recommended.Balance.Equal(want.Balance) {
				t.Errorf("%s: %s with %v stands for %s with %v", name, r.Recommended.Name, r.Recommended.Balance, want.Name, want.Balance)
			}
			if !slices.Equal(names(r), names(first)) {
				t.Errorf("%s: the plans are now %v, were %v", name, names(r), names(first))
			}
			owed := want.Balance.Neg().OrZero()
			if want.NearEnough && want.Name != PlanLasting {
				owed = money.Zero
			}
			if !r.Estimated.Amount.Equal(owed) {
				t.Errorf("%s, %s: %v to pay directly, want %v", name, want.Name, r.Estimated.Amount, owed)
			}
			if r.Underpayment.Safe != want.Harbor.Safe {
				t.Errorf("%s, %s: penalty ruled out %v, want %v", name, want.Name, r.Underpayment.Safe, want.Harbor.Safe)
			}
			if r.January != nil && want.Lasts != r.January.NothingToHandIn() {
				t.Errorf("%s, %s: it lasts %v, January's is %+v", name, want.Name, want.Lasts, r.January.Certificates)
			}
			for i := range kept {
				if first.Alternatives[i].Name != kept[i].Name {
					t.Fatalf("%s: choosing changed the result that it was copied from", name)
				}
			}
			if err := r.Choose(first.Recommended.Name); err != nil {
				t.Fatal(err)
			}
			if !reflect.DeepEqual(r.Warnings, first.Warnings) || !r.Underpayment.Penalty.Equal(first.Underpayment.Penalty) {
				t.Errorf("%s: %s chosen again warns of %v, want %v", name, r.Recommended.Name, r.Warnings, first.Warnings)
			}
		}
	}
}

func TestChooseUnknown(t *testing.T) {
	r := solved(t, demo(t, "two-earners"))
	before := names(r)
	err := r.Choose("cheapest")
	if err == nil {
		t.Fatal("a plan that there is not was chosen")
	}
	for _, n := range append(before, `"cheapest"`) {
		if !strings.Contains(err.Error(), n) {
			t.Errorf("%q does not name %s", err, n)
		}
	}
	if r.Recommended.Name != solved(t, demo(t, "two-earners")).Recommended.Name {
		t.Error("the plan has changed")
	}
}
