package certificate

import (
	"strings"
	"testing"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/tables"
	"example.com/plumbline/internal/words"
)

// Every state gets a sentence that names it, and its form where it has one. The
// state's own word decides; the table is that of taxtables/states.yaml.
func TestEveryStateGetsItsSentence(t *testing.T) {
	y := year(t, 2026)
	states, err := y.States()
	if err != nil {
		t.Fatal(err)
	}
	for _, rule := range states.All {
		h := household.Household{TaxYear: 2026, Jobs: []household.Job{{State: rule.Code}}}
		got, err := StateCertificates(h, y)
		if err != nil || len(got) != 1 {
			t.Fatalf("%v: %v, %v", rule.Code, got, err)
		}
		said := words.English().Say(got[0].Text)
		if rule.Form != "" && !strings.Contains(said, "Form "+rule.Form) {
			t.Errorf("%v: %s", rule.Code, said)
		}
		if name := words.English().Say(rule.Code.Name()); !strings.Contains(strings.ToLower(said), strings.ToLower(name)) || strings.Contains(name, "state.") {
			t.Errorf("%v: the name is %q", rule.Code, name)
		}
		if (rule.ResidentsOf != nil) != strings.Contains(said, "If you live in ") {
			t.Errorf("%v, with agreements %+v: %s", rule.Code, rule.ResidentsOf, said)
		}
	}
	for code, want := range map[string]string{
		"GA": "Georgia has its own form, Form G-4: ask payroll for it.",
		"TX": "Texas has no income tax on wages: nothing to hand in for the state.",
		"UT": "Utah goes by the federal Form W-4: nothing more to hand in.",
		"CO": "Colorado goes by the federal Form W-4: nothing more to hand in. You may use its own Form DR 0004 too.",
		"NJ": "New Jersey has its own form, Form NJ-W4: ask payroll for it. If you live in Pennsylvania, ask whether you pay that tax at home instead.",
		"DC": "The District of Columbia has its own form, Form D-4: ask payroll for it. If you live in Maryland or Virginia, ask whether you pay that tax at home instead.",
	} {
		got, _ := StateCertificates(household.Household{Jobs: []household.Job{{State: stateNamed(t, code)}}}, y)
		if said := words.English().Say(got[0].Text); said != want {
			t.Errorf("%s: %s\nwant %s", code, said, want)
		}
	}
}

// A state has the name that the language gives it.
func TestStatesInSpanish(t *testing.T) {
	spanish, ok := words.In("es")
	if !ok {
		t.Fatal("there is no Spanish")
	}
	for code, want := range map[string]string{
		"NY": "Nueva York tiene su propio formulario, el IT-2104: pídalo en la oficina de nómina.",
		"NJ": "Nueva Jersey tiene su propio formulario, el NJ-W4: pídalo en la oficina de nómina. Si vive en Pensilvania, pregunte si paga ese impuesto donde vive.",
		"DC": "El Distrito de Columbia tiene su propio formulario, el D-4: pídalo en la oficina de nómina. Si vive en Maryland o Virginia, pregunte si paga ese impuesto donde vive.",
	} {
		got, _ := StateCertificates(household.Household{Jobs: []household.Job{{State: stateNamed(t, code)}}}, year(t, 2026))
		if said := spanish.Say(got[0].Text); said != want {
			t.Errorf("%s: %s\nwant %s", code, said, want)
		}
	}
}

func stateNamed(t *testing.T, code string) (s household.State) {
	t.Helper()
	if err := s.UnmarshalText([]byte(code)); err != nil {
		t.Fatal(err)
	}
	return s
}

// A state is named once, with all jobs done there. A job without one is taken to
// be in the state of the same person's other job; a pension and the spouse's job
// are not.
func TestStateOfEachJob(t *testing.T) {
	ga, tx := stateNamed(t, "GA"), stateNamed(t, "TX")
	h := household.Household{Status: household.MarriedFilingJointly, Jobs: []household.Job{
		{Name: "A", State: ga},
		{Name: "B"},
		{Name: "C", Earner: household.OfSpouse},
		{Name: "D", State: tx},
		{Name: "E", Kind: household.Pension},
	}}
	got, err := StateCertificates(h, year(t, 2026))
	if err != nil || len(got) != 2 || got[0].State != ga || len(got[0].Jobs) != 2 || got[1].State != tx || len(got[1].Jobs) != 1 {
		t.Errorf("got %+v, %v; want Georgia for A and B, Texas for D", got, err)
	}
	if got, err := StateCertificates(household.Household{Jobs: []household.Job{{}}}, &tables.Year{}); err != nil || got != nil {
		t.Errorf("with no state known: %+v, %v", got, err)
	}
}
