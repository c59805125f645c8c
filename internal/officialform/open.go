package officialform

import (
	"bytes"
	"errors"
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"github.com/pdfcpu/pdfcpu/pkg/api"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"

	"example.com/plumbline/internal/words"
)

// The PDF library would otherwise make a folder of its own in the home folder.
func init() { api.DisableConfigDir() }

// form is a file that is one of the editions known.
type form struct {
	pdf    *model.Context
	layout layout
	fields map[string]field
}

// open reads a file and finds out which edition it is.
func open(blank []byte) (*form, error) {
	if err := notPDF(blank); err != nil {
		return nil, err
	}
	if err := bounded(blank); err != nil {
		return nil, err
	}
	known, err := layouts()
	if err != nil {
		return nil, err
	}
	pdf, err := readPDF(blank)
	if err != nil {
		return nil, err
	}
	fields, err := readFields(pdf)
	if err != nil {
		return nil, err
	}
	if err := notSigned(pdf, fields); err != nil {
		return nil, err
	}
	l, err := recognize(pdf, known)
	if err != nil {
		return nil, err
	}
	if pdf.PageCount != l.Pages {
		return nil, refusal(words.T("form.pages", "edition", l.heading(), "has", pdf.PageCount, "of", l.Pages))
	}
	if err := l.fits(fields); err != nil {
		return nil, err
	}
	return &form{pdf: pdf, layout: l, fields: fields}, nil
}

// readPDF reads and validates a file, with limits far above the form's own
// size and nothing looked up outside it.
//
// The library puts a damaged file together again from what is left of it and
// says nothing. Such a form may lack a page's text, so the mark of the end must
// be there, and every object that another one names.
func readPDF(blank []byte) (*model.Context, error) {
	if !bytes.Contains(blank[max(0, len(blank)-1024):], []byte("%%EOF")) {
		return nil, errDamaged
	}
	conf := model.NewDefaultConfiguration()
	conf.Offline = true
	conf.Optimize = false
	conf.Limits.MaxStreamBytes = MaxSize
	conf.Limits.MaxDecodeBytes = maxUnpacked
	conf.Limits.MaxObjectCount = 20_000
	conf.Limits.MaxXRefEntries = 20_000
	conf.Limits.MaxObjectStreamCount = 20_000
	conf.Limits.MaxObjectStreamFirst = 1 << 20

	errEncrypted := refusal(words.T("form.encrypted"))
	pdf, err := api.ReadContext(bytes.NewReader(blank), conf)
	switch {
	case err == nil && pdf.Encrypt != nil, errors.Is(err, pdfcpu.ErrWrongPassword):
		return nil, errEncrypted
	case err != nil && bytes.Contains(blank, []byte("/Encrypt")):
		return nil, errEncrypted
	case err != nil:
		return nil, errDamaged
	}
	if !complete(pdf) { // before validation, which drops what cannot be found
		return nil, errDamaged
	}
	if err := api.ValidateContext(pdf); err != nil {
		return nil, errDamaged
	}
	return pdf, nil
}

// complete says whether every reference that can be reached from the document's
// catalog leads to an object.
func complete(pdf *model.Context) bool {
	seen := map[int]bool{}
	waiting := []types.Object{*pdf.Root}
	for len(waiting) > 0 {
		o := waiting[len(waiting)-1]
		waiting = waiting[:len(waiting)-1]
		switch o := o.(type) {
		case types.IndirectRef:
			n := o.ObjectNumber.Value()
			if seen[n] {
				continue
			}
			seen[n] = true
			target, err := pdf.Dereference(o)
			if err != nil || target == nil {
				return false
			}
			waiting = append(waiting, target)
		case types.StreamDict:
			waiting = append(waiting, o.Dict)
		case types.Dict:
			waiting = slices.AppendSeq(waiting, maps.Values(o))
		case types.Array:
			waiting = append(waiting, o...)
		}
	}
	return true
}

// notSigned refuses a file that somebody signed or certified: a change would
// break the signature. The usage rights that the agency's own files carry
// (Perms, UR3) are nobody's signature; they are dropped on writing.
func notSigned(pdf *model.Context, fields map[string]field) error {
	errSigned := refusal(words.T("form.signed"))
	if perms, err := pdf.DereferenceDict(pdf.RootDict["Perms"]); err != nil {
		return errDamaged
	} else if _, certified := perms["DocMDP"]; certified {
		return errSigned
	}
	for _, f := range fields {
		if _, signed := f.dict["V"]; signed && f.kind == "Sig" {
			return errSigned
		}
	}
	return nil
}

// recognize finds the edition by what the pages themselves say: the title on
// the first and the heading with its year on the others.
func recognize(pdf *model.Context, known []layout) (layout, error) {
	text, err := pageTexts(pdf)
	if err != nil {
		return layout{}, err
	}
	names := make([]string, len(known))
	for i, l := range known {
		names[i] = l.heading()
	}
	wrong := func(found words.Text) error {
		return words.Fail("form.refused", "found", found, "do", words.T("form.use", "editions", names))
	}

	titled := slices.ContainsFunc(known, func(l layout) bool {
		return strings.Contains(text[0], squeeze(l.Title)) && strings.Contains(text[0], squeeze(l.Form))
	})
	if !titled {
		if title := strings.TrimSpace(pdf.Title); title != "" {
			return layout{}, wrong(words.T("form.other_titled", "title", clip(title)))
		}
		return layout{}, wrong(words.T("form.other"))
	}
	years := headingYears(strings.Join(text, "\n"))
	if len(years) != 1 {
		return layout{}, wrong(words.T("form.years", "n", len(years), "years", yearTexts(years)))
	}
	for _, l := range known {
		if l.Year == years[0] {
			return l, nil
		}
	}
	return layout{}, wrong(words.T("form.unknown_edition", "year", strconv.Itoa(years[0])))
}

// heading is what is at the head of every page after the first, without
// its spaces.
var heading = regexp.MustCompile(`FormW-4\(([0-9]{4})\)`)

// headingYears is the years that headings name, each once, rising.
func headingYears(text string) []int {
	var years []int
	for _, m := range heading.FindAllStringSubmatch(text, -1) {
		if year, err := strconv.Atoi(m[1]); err == nil {
			years = append(years, year)
		}
	}
	slices.Sort(years)
	return slices.Compact(years)
}

func yearTexts(years []int) []string {
	texts := make([]string, len(years))
	for i, year := range years {
		texts[i] = strconv.Itoa(year)
	}
	return texts
}

// fits holds the edition's fields against the file's: the same names, and each
// of the kind that the edition expects.
func (l layout) fits(fields map[string]field) error {
	var missing, surplus, other []string
	want := l.fields()
	for _, name := range want {
		if _, ok := fields[name]; !ok {
			missing = append(missing, name)
		}
	}
	for name := range fields {
		if _, ok := slices.BinarySearch(want, name); !ok {
			surplus = append(surplus, name)
		}
	}
	for _, b := range l.Boxes {
		if f, ok := fields[b.Field]; ok && !(f.kind == "Btn" && f.hasState(b.On)) {
			other = append(other, b.Field)
		}
	}
	for _, name := range l.Lines {
		if f, ok := fields[name]; ok && f.kind != "Tx" {
			other = append(other, name)
		}
	}
	if len(missing)+len(surplus)+len(other) == 0 {
		return nil
	}
	return refusal(words.T("form.fields", "edition", l.heading(), "missing", len(missing), "surplus", len(surplus), "other", len(other),
		"one", clip(slices.Min(slices.Concat(missing, surplus, other)))))
}

// number reads an integer or a real.
func number(o types.Object) (float64, bool) {
	switch n := o.(type) {
	case types.Integer:
		return float64(n), true
	case types.Float:
		return float64(n), true
	}
	return 0, false
}
