package yamldoc

import (
	"testing"

	"github.com/google/go-cmp/cmp"
	"github.com/google/go-cmp/cmp/cmpopts"
	"pgregory.net/rapid"
)

func TestEncode(t *testing.T) {
	no := false
	d, err := Encode("out.yaml", book{
		Year: 2031, Title: "no", Signed: &no, Rows: []row{{Over: "0"}, {}},
		Names: map[string]int{"b": 0, "a": 1}, Parts: &parts{},
		Basic: group[dollars]{Values: map[color]dollars{1: "5"}},
	})
	if err != nil {
		t.Fatal(err)
	}
	const want = `year: 2031
title: "no"
signed: false
rows:
  - over: 0
  - {}
basic:
  values:
    blue: 5
names:
  a: 1
  b: 0
parts: {}
`
	if got := string(d.Bytes()); got != want {
		t.Errorf("Encode wrote\n%s\nwant\n%s", got, want)
	}
}

func TestEncodeErrors(t *testing.T) {
	for _, tt := range []struct {
		book book
		want string
	}{
		{book{Title: "\x00"}, "out.yaml: title: the text holds a control character (U+0000); remove it"},
		{book{Names: map[string]int{"": 1}}, "out.yaml: names: a key has no name"},
	} {
		if _, err := Encode("out.yaml", tt.book); err == nil || err.Error() != tt.want {
			t.Errorf("Encode: %v, want %s", err, tt.want)
		}
	}
}

func TestEncodeThenDecode(t *testing.T) {
	text := rapid.StringOf(rapid.RuneFrom([]rune(" \n\tabz0189-+.:#'\"\\[]{},&*!|>%@~éß€"))).Filter(func(s string) bool { return len(s) <= maxText })
	name := text.Filter(func(s string) bool { return nameFault(s) == "" })
	amount := rapid.Custom(func(t *rapid.T) dollars {
		return dollars(rapid.StringMatching(`[0-9]{1,6}(\.[0-9]{2})?`).Draw(t, "amount"))
	})
	period := rapid.Custom(func(t *rapid.T) span {
		from := rapid.IntRange(-5, 5).Draw(t, "from")
		return span{from, from + rapid.IntRange(0, 5).Draw(t, "length")}
	})
	rapid.Check(t, func(t *rapid.T) {
		want := book{
			Year:  rapid.IntRange(1, 9999).Draw(t, "year"),
			Title: text.Draw(t, "title"),
			Final: rapid.Bool().Draw(t, "final"),
			Small: rapid.Uint8().Draw(t, "small"),
			Names: rapid.MapOf(name, rapid.Int()).Draw(t, "names"),
			Rows: rapid.SliceOf(rapid.Custom(func(t *rapid.T) row {
				return row{amount.Draw(t, "over"), amount.Draw(t, "rate")}
			})).Draw(t, "rows"),
			Basic: group[dollars]{
				sourced{"x" + text.Draw(t, "source")},
				rapid.MapOf(rapid.SampledFrom([]color{0, 1}), amount).Draw(t, "values"),
			},
			Signed: rapid.Ptr(rapid.Bool(), true).Draw(t, "signed"),
		}
		if rapid.Bool().Draw(t, "with parts") {
			want.Parts = &parts{First: period.Draw(t, "first"), Second: span{20, 21}}
		}
		d, err := Encode("test.yaml", want)
		if err != nil {
			t.Fatal(err)
		}
		again, err := Parse("test.yaml", d.Bytes())
		if err != nil {
			t.Fatalf("%v in\n%s", err, d.Bytes())
		}
		for _, d := range []*Document{d, again} {
			var got book
			if problems := d.Decode(&got); problems.Err() != nil {
				t.Fatalf("%v in\n%s", problems, d.Bytes())
			}
			if diff := cmp.Diff(want, got, cmp.AllowUnexported(group[dollars]{}), cmpopts.EquateEmpty()); diff != "" {
				t.Fatalf("(-want +got):\n%s", diff)
			}
		}
	})
}
