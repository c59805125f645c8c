package tables

import (
	"errors"
	"io/fs"
	"math/big"
	"slices"
	"strings"
	"testing"
	"testing/fstest"

	"example.com/plumbline/internal/household"
	"example.com/plumbline/internal/money"
	"example.com/plumbline/internal/published"
	"example.com/plumbline/internal/yamldoc"
	"example.com/plumbline/taxtables"
)

// through2026 are the yearly tables of which 2026 is the last.
func through2026(t testing.TB) fs.FS {
	t.Helper()
	return published.Through(taxtables.Files, 2026)
}

func projected(t testing.TB, year int, rise *money.Rate) *Year {
	t.Helper()
	y, err := ForYear(through2026(t), year, rise)
	if err != nil {
		t.Fatal(err)
	}
	return y
}

func values(y *Year) map[string]string {
	all := map[string]string{}
	for _, f := range y.Figures() {
		all[f.Key] = f.Value
	}
	return all
}

// Two tax publishers projected the standard deductions of 2027 as 33,200, 16,600
// and 24,900. By IRC 63(c)(7) the index over its base year, which is the level
// that 2025 was figured with, is then at least 33,200/31,500 and less than
// 33,250/31,500: [1.053968, 1.055556). The rise that the table of 2026 assumes is
// the middle of it over the level of 2026.
func TestAssumedRise(t *testing.T) {
	y := shipped(t, 2026)
	middle := half(new(big.Rat).Add(big.NewRat(33_200, 31_500), big.NewRat(33_250, 31_500)))
	level := new(big.Rat).Mul(middle, y.Prices.August[2024].r)
	rise := level.Quo(level, y.levels()[0].Middle())
	if got, want := rise.Sub(rise, big.NewRat(1, 1)).FloatString(4), y.AssumedRise().Text(); got != want {
		t.Errorf("the middle of the interval is a rise of %s, the table assumes %s", got, want)
	}
}

// What 2027 is projected to be. The figures that the law has set already are
// those of their sources; the others are worked out by hand from the index of
// 2026, 310.806 to 310.81, after a rise of 3.13%: 320.54, over the index of 2017,
// 242.585, a ratio of 1.32134.
func TestProjected2027(t *testing.T) {
	y := projected(t, 2027, nil)
	if p := y.Projected; y.Year != 2027 || p == nil || p.From != 2026 || p.Rise.Text() != "0.0313" {
		t.Errorf("the year %d, %+v", y.Year, y.Projected)
	}
	got := values(y)
	for _, tt := range []struct{ key, want, why string }{
		{"standard_deduction.basic.married_filing_jointly", "33200", "two tax publishers, September 2026"},
		{"standard_deduction.basic.single", "16600", "the same"},
		{"standard_deduction.basic.head_of_household", "24900", "the same"},
		{"itemized_deductions.state_local_taxes.cap.single", "40804", "IRC 164(b)(7): 40,000 × 1.01 × 1.01"},
		{"itemized_deductions.state_local_taxes.phase_down_from.single", "510050", "the same: 500,000 × 1.01 × 1.01"},
		{"itemized_deductions.state_local_taxes.cap.married_filing_separately", "20402", "half"},
		{"adjustments.health_savings.self_only", "4500", "Rev. Proc. 2026-24"},
		{"adjustments.health_savings.family", "9000", "Rev. Proc. 2026-24"},
		{"social_security_tax.wage_base.amount", "192300", "Social Security Administration, October 2026"},
		{"savers_credit.contribution_cap", "0", "SECURE 2.0 sec. 103"},
		{"rate_schedules.by_status.single[6].over", "660650", "500,000 × 0.32134 = 160,670, down to 25: 160,650"},
		{"rate_schedules.by_status.head_of_household[3].over", "109000", "82,500 × 0.32134 = 26,510, down to 50: 26,500"},
		{"capital_gains.zero_rate_up_to.married_filing_jointly", "102000", "77,200 × 0.32134 = 24,807, down to 50: 24,800"},
		{"capital_gains.zero_rate_up_to.single", "51000", "half"},
		{"child_tax_credit.per_child", "2300", "2,200 × (320.54 / 303.895 - 1) = 120, down to 100"},
		{"child_tax_credit.refundable_cap_per_child", "1800", "1,400 × 0.32134 = 449, down to 100: 400"},
		{"alternative_minimum_tax.phase_out_from.single", "515650", "half of 1,000,000 × 1.0313 = 1,031,300"},
		{"self_employed_plans.deferral.late_catch_up", "11750", "11,250 × (320.54 / 303.895 - 1) = 616, down to 500"},
		{"qualified_business_income.minimum_deduction", "410", "400 × 0.0313 = 12.5, down to 5: 10"},
		{"underpayment.installments.due", "2027-04-15, 2027-06-15, 2027-09-15, 2028-01-18", "January 15, 2028 is a Saturday; Monday is Martin Luther King's birthday"},
		{"payroll.certificate_effective.exemption.renewed_by", "2028-02-15", "a Tuesday"},
		{"payroll.nonresident_addition.current_certificate.weekly", "319.20", "16,600 / 52 = 319.23"},
		{"form_w4.step_3a_per_child", "2300", "as on the return"},
		{"form_w4.worksheet_standard_deduction.head_of_household", "24900", "as on the return"},
		{"tips_deduction.cap.single", "25000", "IRC 224(h): through 2028"},
		{"net_investment_income_tax.over.single", "200000", "IRC 1411: not indexed"},
	} {
		if got[tt.key] != tt.want {
			t.Errorf("%s: %s, want %s (%s)", tt.key, got[tt.key], tt.want, tt.why)
		}
	}
	if p := y.Prove(); len(p.Misfits) > 0 {
		t.Errorf("the projection does not follow its own rules: %v", p.Misfits)
	}
	// What is decoded is what is listed.
	if got := y.StandardDeduction.Basic.Single; !got.Equal(money.Dollars(16_600)) {
		t.Errorf("the deduction is %v", got)
	}
	if rows := y.Percentage(household.CertificateSingle, false); !rows[1].AtLeast.Equal(money.Dollars(8_000)) { // 16,600 - 8,600
		t.Errorf("payroll's tables begin at %v", rows[1].AtLeast)
	}
	if got := shipped(t, 2026).StandardDeduction.Basic.Single; !got.Equal(money.Dollars(16_100)) {
		t.Errorf("projecting changes the year it is made from: %v", got)
	}
}

// Each projected figure says so, and its group names what it was made from;
// what is published or fixed keeps its own source.
func TestProjectedSources(t *testing.T) {
	want := map[string]struct {
		basis  Basis
		source string
	}{
		"standard_deduction.basic.single":         {Projecting, "IRC 63(c), (f); P.L. 119-21 sec. 70102; Rev. Proc. 2025-32 sec. 4.14 projected"},
		"standard_deduction.aged_from":            {Found, "IRC 63(c), (f); P.L. 119-21 sec. 70102; Rev. Proc. 2025-32 sec. 4.14 projected"},
		"adjustments.health_savings.family":       {Found, "Rev. Proc. 2026-24 sec. 3.01(1)"},
		"net_investment_income_tax.rate":          {Found, "IRC 1411; Instructions for Form 8960"},
		"adjustments.educator_expenses.cap":       {Projecting, "IRC 62(a)(2)(D), (d); Rev. Proc. 2025-32 projected"},
		"form_w4.multiple_jobs.single.rows[0].at": {"", ""},
	}
	for _, f := range projected(t, 2027, nil).Figures() {
		if w, named := want[f.Key]; named && (f.Basis != w.basis || f.Citation.Source != w.source) {
			t.Errorf("%s: %s, %q, want %s, %q", f.Key, f.Basis, f.Citation.Source, w.basis, w.source)
		}
		if f.Indexed && f.Basis == Memory {
			t.Errorf("%s is said to be %s", f.Key, f.Basis)
		}
	}
}

// Steps that the law has dated come in their year, over several years too.
func TestProjectedAhead(t *testing.T) {
	for _, tt := range []struct {
		year      int
		key, want string
	}{
		{2028, "tips_deduction.cap.single", "25000"}, // IRC 224(h)
		{2029, "tips_deduction.cap.single", "0"},
		{2029, "overtime_deduction.cap.married_filing_jointly", "0"},
		{2029, "car_loan_deduction.cap.single", "0"},
		{2029, "senior_deduction.each.single", "0"},
		{2029, "itemized_deductions.state_local_taxes.cap.single", "41624.1604"}, // 40,000 × 1.01^4
		{2030, "itemized_deductions.state_local_taxes.cap.single", "10000"},      // IRC 164(b)(7)(A)
		{2030, "itemized_deductions.state_local_taxes.cap.married_filing_separately", "5000"},
		{2028, "savers_credit.contribution_cap", "0"},
		{2028, "social_security_tax.wage_base.amount", "198300"}, // 192,300 × 1.0313 = 198,319, to the nearest 300
		{2028, "adjustments.health_savings.self_only", "4650"},   // the middle of 2027's interval is 4,500: × 1.0313 = 4,641
		{2028, "underpayment.installments.due", "2028-04-18, 2028-06-15, 2028-09-15, 2029-01-16"},
		{2028, "underpayment.interest.rates[0].rate", "0.07"}, // that of the last quarter of 2026, in each quarter
		{2029, "underpayment.interest.rates[0].rate", "0.07"},
	} {
		y := projected(t, tt.year, nil)
		if got := values(y)[tt.key]; got != tt.want {
			t.Errorf("%d: %s: %s, want %s", tt.year, tt.key, got, tt.want)
		}
		if y.Projected.From != 2026 {
			t.Errorf("%d is projected from %d", tt.year, y.Projected.From)
		}
	}
	// The rise of the year before goes on: twice 3.13% over 310.81 is 330.57,
	// 1.36269 times 2017's: 500,000 × 0.36269 = 181,345, down to 25.
	if got := values(projected(t, 2028, nil))["rate_schedules.by_status.single[6].over"]; got != "681325" {
		t.Errorf("2028: the top bracket begins at %s", got)
	}
}

func TestProjectedForAnotherRise(t *testing.T) {
	zero, more := rate(t, "0"), rate(t, "0.026")
	if got := projected(t, 2027, &zero).StandardDeduction.Basic.Single; !got.Equal(money.Dollars(16_100)) {
		t.Errorf("without a rise: %v", got)
	}
	// 310.81 × 1.026 / 303.895 = 1.04935; × 15,750 = 16,527, down to 50.
	if got := projected(t, 2027, &more).StandardDeduction.Basic.Single; !got.Equal(money.Dollars(16_500)) {
		t.Errorf("with 2.6%%: %v", got)
	}
	for _, year := range []int{2024, 2032} {
		if _, err := ForYear(through2026(t), year, nil); !errors.Is(err, ErrNoTable) {
			t.Errorf("%d: %v, want no table", year, err)
		}
	}
	if _, err := Project(shipped(t, 2026), 2026, zero); err == nil {
		t.Error("a year is projected from itself")
	}
}

// The year after a started table can be projected, to the same figures as without
// the table, since none of them is published yet: January's certificate needs it.
func TestProjectedFromAStartedTable(t *testing.T) {
	started, err := Start(through2026(t), 2026, nil)
	if err != nil {
		t.Fatal(err)
	}
	y, err := Load(fstest.MapFS{"2027.yaml": {Data: started}}, 2027)
	if err != nil {
		t.Fatal(err)
	}
	next, err := Project(y, 2028, y.AssumedRise())
	if err != nil {
		t.Fatal(err)
	}
	if differs := Compare(projected(t, 2028, nil), next); len(differs) > 0 {
		t.Errorf("it differs from the projection without the table: %v", differs)
	}
}

// A started table is the projection, marked; written over, it is published.
func TestStart(t *testing.T) {
	started, err := Start(through2026(t), 2026, nil)
	if err != nil {
		t.Fatal(err)
	}
	files := fstest.MapFS{"2027.yaml": {Data: started}}
	y, err := Load(files, 2027)
	if err != nil {
		t.Fatal(err)
	}
	want := projected(t, 2027, nil)
	if differs := Compare(want, y); len(differs) > 0 {
		t.Errorf("loaded again, it differs: %v", differs)
	}
	if y.Projected == nil || y.Projected.From != 2026 || y.Projected.Rise.Text() != "0.0313" {
		t.Errorf("projected: %+v", y.Projected)
	}
	listed := want.Figures()
	for i, f := range y.Figures() {
		if w := listed[i]; f.Basis != w.Basis && f.Group != "later_years.rise" {
			t.Errorf("%s is %s, want %s", f.Key, f.Basis, w.Basis)
		}
	}
	// A year started from this one is marked once.
	if after, err := Start(files, 2027, nil); err != nil || strings.Contains(string(after), mark+mark) {
		t.Errorf("what is started from a started year is marked twice, or not at all: %v", err)
	}
	marked := map[string]bool{}
	for _, p := range Check(files) {
		if !strings.HasPrefix(p.What.Code, "tables.marked") || p.Line == 0 {
			t.Errorf("a problem beside the marks: %v", p)
		}
		marked[p.Key] = true
	}
	for _, key := range []string{"standard_deduction.basic.single", "standard_deduction.source", "standard_deduction.basis", "underpayment.interest.rates[0].rate", "tax_table.note", "tax_table.source", "later_years.rise.share", "later_years.rise.note"} {
		if !marked[key] {
			t.Errorf("%s is not marked", key)
		}
	}
	for _, key := range []string{"year", "adjustments.health_savings.family", "adjustments.health_savings.self_only", "standard_deduction.basic.married_filing_jointly", "form_w4.multiple_jobs.single.rows[3].cells[4]", "rate_schedules.by_status.single[1].rate", "tips_deduction.source", "standard_deduction.aged_from"} {
		if marked[key] {
			t.Errorf("%s is marked, though it is known", key)
		}
	}
	for _, line := range strings.Split(text(t, 2026), "\n") {
		if strings.HasPrefix(line, "#") && !strings.Contains(string(started), line+"\n") {
			t.Errorf("a comment is lost: %s", line)
		}
	}

	over := writtenOver(t, started)
	files["2027.yaml"] = &fstest.MapFile{Data: []byte(over)}
	if p := Check(files); len(p) != 1 || p[0].Key != "projected" {
		t.Errorf("written over, problems: %v", p)
	}
	files["2027.yaml"].Data = []byte(over[:strings.Index(over, "projected:\n")])
	if p := Check(files); len(p) > 0 {
		t.Errorf("finished, problems: %v", p)
	}
}

// writtenOver is a started table with everything in it taken as published.
func writtenOver(t *testing.T, started []byte) string {
	t.Helper()
	doc, err := yamldoc.Parse("2027.yaml", started)
	if err != nil {
		t.Fatal(err)
	}
	for _, key := range doc.Keys() {
		text, _ := doc.Get(key)
		group, isBasis := strings.CutSuffix(key, ".basis")
		switch bare, marked := strings.CutSuffix(text, mark); {
		case marked:
			err = doc.Set(key, bare)
		case isBasis && text == string(Projecting):
			_, memory := doc.Get(group + ".memory[0]")
			_, derived := doc.Get(group + ".derived[0]")
			known := Found
			if memory || derived {
				known = Mixed
			}
			err = doc.Set(key, string(known))
		}
		if err != nil {
			t.Fatal(err)
		}
	}
	return string(doc.Bytes())
}

// Once a published figure is written over a projected one, those that follow from
// it are brought up to date; what is marked and what is written stays.
func TestUpdate(t *testing.T) {
	started, err := Start(through2026(t), 2026, nil)
	if err != nil {
		t.Fatal(err)
	}
	written := strings.Replace(string(started), `single: "16600 projected"`, `single: "16700" # Rev. Proc. 2026-99`, 1)
	if written == string(started) {
		t.Fatal("no projected deduction to write over")
	}
	behind := 0
	for _, p := range Check(fstest.MapFS{"2027.yaml": {Data: []byte(written)}}) {
		if p.Says("tables.behind") {
			behind++
		}
	}
	if behind != 1 {
		t.Errorf("%d problems count what is behind, want 1", behind)
	}
	updated, err := Update(fstest.MapFS{"2027.yaml": {Data: []byte(written)}}, 2027)
	if err != nil {
		t.Fatal(err)
	}
	y, err := Load(fstest.MapFS{"2027.yaml": {Data: updated}}, 2027)
	if err != nil {
		t.Fatal(err)
	}
	got := values(y)
	for key, want := range map[string]string{
		"standard_deduction.basic.single":                                "16700",
		"standard_deduction.basic.married_filing_jointly":                "33400",
		"standard_deduction.basic.qualifying_surviving_spouse":           "33400",
		"payroll.built_in_standard_deduction.married_filing_jointly":     "33400",
		"payroll.nonresident_addition.current_certificate.monthly":       "1391.70", // 16,700 / 12 = 1,391.67
		"form_w4.worksheet_standard_deduction.married_filing_separately": "16700",
		"standard_deduction.basic.head_of_household":                     "24900",
	} {
		if got[key] != want {
			t.Errorf("%s: %s, want %s", key, got[key], want)
		}
	}
	for _, want := range []string{`single: "16700" # Rev. Proc. 2026-99`, `head_of_household: "24900 projected"`} {
		if !strings.Contains(string(updated), want) {
			t.Errorf("no %q in the updated file", want)
		}
	}
	if again, err := Update(fstest.MapFS{"2027.yaml": {Data: updated}}, 2027); err != nil || string(again) != string(updated) {
		t.Errorf("updated again, it changes: %v", err)
	}
	if _, err := Update(taxtables.Files, 2026); !errors.Is(err, ErrFinished) {
		t.Errorf("a published year is updated: %v", err)
	}
}

func BenchmarkProject(b *testing.B) {
	last, err := Load(taxtables.Files, 2026)
	if err != nil {
		b.Fatal(err)
	}
	for b.Loop() {
		if _, err := Project(last, 2027, last.AssumedRise()); err != nil {
			b.Fatal(err)
		}
	}
}

func FuzzLoad(f *testing.F) {
	f.Add([]byte(text(f, 2025)))
	f.Add([]byte("year: 2025\nrate_schedules: {by_status: {single: []}, source: projected}\n"))
	for _, tt := range broken {
		f.Add([]byte("year: 2025\n" + tt.group + ":\n  " + tt.new + "\n"))
	}
	f.Fuzz(func(t *testing.T, data []byte) {
		files := fstest.MapFS{"2025.yaml": {Data: data}}
		y, err := Load(files, 2025)
		checked := Check(files)
		if err != nil {
			problems, ok := err.(yamldoc.Problems)
			if !ok || !tellsAll(checked, problems) {
				t.Fatalf("Load gives\n%v\nCheck\n%v", err, checked)
			}
			return
		}
		y.Figures()
		if started, err := Start(files, 2025, nil); err == nil && len(checked) == 0 {
			if _, err := Load(fstest.MapFS{"2026.yaml": {Data: started}}, 2026); err != nil {
				t.Fatalf("what is started does not load: %v", err)
			}
		}
	})
}

// A started table may be left half filled. Figures that are right are not
// blamed for those that are still projected, nor the other way round, and a slip
// among those filled in is named.
func TestHalfFilledTable(t *testing.T) {
	started, err := Start(through2026(t), 2026, nil)
	if err != nil {
		t.Fatal(err)
	}
	doc, err := yamldoc.Parse("2027.yaml", started)
	if err != nil {
		t.Fatal(err)
	}
	set := func(key, text string) {
		if err := doc.Set(key, text); err != nil {
			t.Fatal(err)
		}
	}
	misfits := func() (keys []string) {
		for _, p := range Check(fstest.MapFS{"2027.yaml": {Data: doc.Bytes()}}) {
			if p.What.Code == "tables.misfit" {
				keys = append(keys, p.Key)
			}
		}
		return keys
	}
	rise, filled := money.Percent(5), 0
	for key, published := range values(projected(t, 2027, &rise)) {
		if strings.HasPrefix(key, "rate_schedules.by_status.") && strings.HasSuffix(key, ".over") && !strings.Contains(key, "[0]") {
			set(key, published)
			filled++
		}
	}
	if keys := misfits(); len(keys) > 0 || filled < 24 {
		t.Errorf("of %d right figures, these are blamed: %v", filled, keys)
	}
	const key = "rate_schedules.by_status.single[1].over"
	if set(key, "14000"); !slices.Contains(misfits(), key) {
		t.Errorf("a slip at %s leads to %v", key, misfits())
	}
}
