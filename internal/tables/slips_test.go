package tables

import (
	"maps"
	"slices"
	"strings"
	"testing"
	"testing/fstest"
)

// Each row makes mistakes in the table of 2026, and Check names these figures and
// no others.
func TestSlipsAreBlamedAlone(t *testing.T) {
	for _, tt := range []struct {
		slip     string
		old, new string // a pair of lines each, of the whole file
		want     map[string]string
	}{
		{
			"wage base that is no multiple of 300", `amount: "184500"`, `amount: "184550"`,
			map[string]string{"social_security_tax.wage_base.amount": "tables.not_rounded"},
		},
		{
			"deferral that is no multiple of 500", `limit: "24500"`, `limit: "24050"`,
			map[string]string{"self_employed_plans.deferral.limit": "tables.not_rounded"},
		},
		{
			"late catch-up that is not 11,250 and a multiple of 500", `late_catch_up: "11250"`, `late_catch_up: "11500"`,
			map[string]string{"self_employed_plans.deferral.late_catch_up": "tables.not_rounded"},
		},
		{
			"additions that are no multiple of 1,000", `limit: "72000"`, `limit: "72500"`,
			map[string]string{"self_employed_plans.additions.limit": "tables.not_rounded"},
		},
		{
			"Hawaii's step before it is rounded", `each_more: "6330"`, `each_more: "6325"`,
			map[string]string{"premium_tax_credit.poverty_line.hawaii.each_more": "tables.misfit"},
		},
		{
			"line 1g", `married_filing_jointly: "12900"`, `married_filing_jointly: "12600"`,
			map[string]string{"payroll.line_1g.married_filing_jointly": "tables.misfit"},
		},
		{
			"one of two amounts that alone share an index", `self_only: "4400"`, `self_only: "4500"`,
			map[string]string{"adjustments.health_savings.self_only": "tables.unsure", "adjustments.health_savings.family": "tables.unsure"},
		},
		{
			"one of them is not rounded as the law has it", `self_only: "4400"`, `self_only: "4410"`,
			map[string]string{"adjustments.health_savings.self_only": "tables.misfit"},
		},
		{
			// The joint deduction, payroll's and the form's follow from it, and are right.
			"what others follow from", `    single: "16100"
    married_filing_jointly: "32200"
    married_filing_separately`, `    single: "16200"
    married_filing_jointly: "32200"
    married_filing_separately`,
			map[string]string{"standard_deduction.basic.single": "tables.misfit"},
		},
		{
			"a gap between two rows", `first: "0.0660", last: "0.0844"`, `first: "0.0606", last: "0.0844"`,
			map[string]string{"premium_tax_credit.applicable_percentage.rows[3].first": "tables.row_begins"},
		},
		{
			"interest of seven percent and a half", `{from: 2026-07-01, rate: "0.07"}`, `{from: 2026-07-01, rate: "0.075"}`,
			map[string]string{"underpayment.interest.rates[1].rate": "tables.whole_percent"},
		},
		{
			"interest in points", `{from: 2026-07-01, rate: "0.07"}`, `{from: 2026-07-01, rate: "0.7"}`,
			map[string]string{"underpayment.interest.rates[1].rate": "tables.whole_percent"},
		},
		{
			"interest from the middle of a quarter", `{from: 2026-07-01, rate: "0.07"}`, `{from: 2026-08-01, rate: "0.07"}`,
			map[string]string{"underpayment.interest.rates[1].from": "tables.no_quarter"},
		},
		{
			"what has come true", "    - from: 2027\n      source: \"Rev. Proc. 2026-24", "    - from: 2026\n      source: \"Rev. Proc. 2026-24",
			map[string]string{"later_years.changes[0]": "tables.has_come"},
		},
	} {
		t.Run(tt.slip, func(t *testing.T) {
			whole := text(t, 2026)
			if !strings.Contains(whole, tt.old) {
				t.Fatalf("the table of 2026 has no %q", tt.old)
			}
			problems := Check(fstest.MapFS{"2026.yaml": {Data: []byte(strings.Replace(whole, tt.old, tt.new, 1))}})
			got := map[string]string{}
			for _, p := range problems {
				got[p.Key] = p.What.Code
			}
			if !maps.Equal(got, tt.want) {
				t.Errorf("blamed:\n%v", problems)
			}
		})
	}
}

// A file that is not in order is checked all the same where it is: a key that
// nobody knows, an amount that cannot be read, and a slip of the pen are told at
// once, and what depends on the first two is not blamed.
func TestStructuralMistakesHideNothing(t *testing.T) {
	data := strings.NewReplacer(
		"aged_from: 65", "aged_form: 65",
		`{over: "24800", rate: "0.12"}`, `{over: "24.800,00", rate: "0.12"}`,
		`amount: "184500"`, `amount: "184550"`,
		`cap: "17670"`, `cap: "17760"`,
	).Replace(text(t, 2026))
	var got []string
	problems := Check(fstest.MapFS{"2026.yaml": {Data: []byte(data)}})
	for _, p := range problems {
		got = append(got, p.Key)
	}
	slices.Sort(got)
	want := []string{
		"adoption_credit.cap", "senior_deduction.aged_form", "senior_deduction.aged_from",
		"social_security_tax.wage_base.amount", "standard_deduction.aged_form", "standard_deduction.aged_from",
		"rate_schedules.by_status.married_filing_jointly[1].over", "rate_schedules.by_status.qualifying_surviving_spouse[1].over",
	}
	for _, key := range want {
		if !slices.Contains(got, key) {
			t.Errorf("%s is not named", key)
		}
	}
	for _, key := range got {
		if !slices.Contains(want, key) {
			t.Errorf("%s is blamed:\n%v", key, problems)
		}
	}
}

// One published figure in a table that is otherwise projected, and rounded as no
// level of prices gives it: it is named, and the year after can be projected.
func TestNoLevelGivesTheFigure(t *testing.T) {
	for _, key := range []string{"self_only", "family"} {
		data := text(t, 2026)
		data = strings.Replace(data, key+`: "4400"`, key+`: "4410"`, 1)
		data = strings.Replace(data, key+`: "8750"`, key+`: "8760"`, 1)
		files := fstest.MapFS{"2026.yaml": {Data: []byte(data)}}
		if problems := Check(files); len(problems) != 1 || problems[0].Key != "adjustments.health_savings."+key || !problems[0].Says("tables.misfit") {
			t.Errorf("%s: blamed:\n%v", key, problems)
		}
	}
	data := strings.NewReplacer(`self_only: "4400"`, `self_only: "4410"`, `family: "8750"`, `family: "8760"`).Replace(text(t, 2026))
	if _, err := ForYear(fstest.MapFS{"2026.yaml": {Data: []byte(data)}}, 2027, nil); err != nil {
		t.Error(err)
	}
}
