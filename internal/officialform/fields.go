package officialform

import (
	"strings"

	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/model"
	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"

	"example.com/plumbline/internal/words"
)

// field is one fillable field together with its one place on a page.
type field struct {
	dict types.Dict
	kind string     // Tx text, Btn box, Sig signature
	on   types.Dict // of a box: its appearances by state
}

// hasState says whether a box can show the state.
func (f field) hasState(state string) bool {
	_, ok := f.on[state]
	return ok
}

// maxFieldDepth is how deep fields may be nested. The form nests four.
const maxFieldDepth = 20

// readFields collects the file's fields by their full names, the names of a
// field's ancestors and its own joined by periods (ISO 32000-1, 12.7.3.2).
func readFields(pdf *model.Context) (map[string]field, error) {
	none := refusal(words.T("form.no_fields"))
	acro, err := pdf.DereferenceDict(pdf.RootDict["AcroForm"])
	if err != nil {
		return nil, errDamaged
	}
	if acro == nil {
		return nil, none
	}
	w := fieldWalk{pdf: pdf, seen: map[int]bool{}, found: map[string]field{}}
	if err := w.kids(acro["Fields"], "", "", 0); err != nil {
		return nil, err
	}
	if len(w.found) == 0 {
		return nil, none
	}
	return w.found, nil
}

// fieldWalk goes through the tree of fields once.
type fieldWalk struct {
	pdf   *model.Context
	seen  map[int]bool // object numbers, against a tree that returns into itself
	found map[string]field
}

func (w *fieldWalk) kids(o types.Object, parent, kind string, depth int) error {
	list, err := w.pdf.DereferenceArray(o)
	if err != nil || depth > maxFieldDepth {
		return errDamaged
	}
	for _, kid := range list {
		ref, ok := kid.(types.IndirectRef)
		if !ok || w.seen[ref.ObjectNumber.Value()] {
			return errDamaged
		}
		w.seen[ref.ObjectNumber.Value()] = true
		d, err := w.pdf.DereferenceDict(ref)
		if err != nil || d == nil {
			return errDamaged
		}
		if err := w.field(d, parent, kind, depth); err != nil {
			return err
		}
	}
	return nil
}

func (w *fieldWalk) field(d types.Dict, parent, kind string, depth int) error {
	var name string
	if t, ok := d["T"]; ok {
		text, err := w.pdf.DereferenceText(t)
		if err != nil {
			return errDamaged
		}
		name = strings.TrimPrefix(parent+"."+text, ".")
	}
	if ft := d.NameEntry("FT"); ft != nil {
		kind = *ft
	}
	if kids, ok := d["Kids"]; ok {
		return w.kids(kids, name, kind, depth+1)
	}
	if _, twice := w.found[name]; twice {
		return errDamaged
	}
	f := field{dict: d, kind: kind}
	if kind == "Btn" {
		looks, err := w.pdf.DereferenceDict(d["AP"])
		if err != nil {
			return errDamaged
		}
		if f.on, err = w.pdf.DereferenceDict(looks["N"]); err != nil {
			return errDamaged
		}
	}
	w.found[name] = f
	return nil
}
