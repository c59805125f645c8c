package officialform

import (
	"slices"

	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
)

// Split parts a form that Fill has filled: the page to hand in, which is all that
// an employer may see, and the worksheets, which are the person's alone. The
// worksheets show other jobs, other income and deductions, so that a form is
// never to be handed over whole. worksheets is nil where no line of theirs is
// filled in.
//
// Each part is a file of its own: nothing of the other can still be found in it.
// The structure that readers aloud go by spans all pages and is left out.
func Split(filled []byte) (handIn, worksheets []byte, err error) {
	defer func() {
		if r := recover(); r != nil {
			handIn, worksheets, err = nil, nil, errDamaged
		}
	}()
	f, err := open(filled)
	if err != nil {
		return nil, nil, err
	}
	some := f.worksheetFilled()
	if handIn, err = f.only(func(page int) bool { return page == 1 }); err != nil || !some {
		return handIn, nil, err
	}
	if f, err = open(filled); err != nil {
		return nil, nil, err
	}
	worksheets, err = f.only(func(page int) bool { return page > 1 })
	return handIn, worksheets, err
}

// worksheetFilled reports whether a line of a worksheet has an amount.
func (f *form) worksheetFilled() bool {
	for line, name := range f.layout.Lines {
		if onWorksheet(line) && f.fields[name].dict["V"] != nil {
			return true
		}
	}
	return false
}

// onWorksheet reports whether a line is of a worksheet: mj.1, dw.3a.
func onWorksheet(line string) bool { return slices.Contains([]byte(line), '.') }

// only is the form with some of its pages.
func (f *form) only(keep func(page int) bool) ([]byte, error) {
	var pages types.Array
	widgets := map[int]bool{}
	root, err := f.pdf.DereferenceDict(f.pdf.RootDict["Pages"])
	if err != nil || root == nil {
		return nil, errDamaged
	}
	for n := 1; n <= f.pdf.PageCount; n++ {
		d, ref, inherited, err := f.pdf.PageDict(n, false)
		if err != nil || d == nil || ref == nil || inherited == nil {
			return nil, errDamaged
		}
		if !keep(n) {
			continue
		}
		if err := f.loosen(d, widgets); err != nil {
			return nil, err
		}
		if d["Resources"] == nil && inherited.Resources != nil {
			d["Resources"] = inherited.Resources
		}
		if d["MediaBox"] == nil && inherited.MediaBox != nil {
			d["MediaBox"] = inherited.MediaBox.Array()
		}
		d["Parent"] = f.pdf.RootDict["Pages"]
		pages = append(pages, *ref)
	}
	for key := range root {
		delete(root, key)
	}
	root["Type"], root["Kids"], root["Count"] = types.Name("Pages"), pages, types.Integer(len(pages))
	acro, err := f.pdf.DereferenceDict(f.pdf.RootDict["AcroForm"])
	if err != nil {
		return nil, errDamaged
	}
	fields, err := f.fieldsOn(acro["Fields"], widgets)
	if err != nil {
		return nil, err
	}
	acro["Fields"] = fields
	delete(acro, "CO")
	for key := range f.pdf.RootDict {
		if !slices.Contains([]string{"Type", "Version", "Pages", "AcroForm", "Lang", "ViewerPreferences"}, key) {
			delete(f.pdf.RootDict, key) // may lead to the other pages
		}
	}
	return f.write()
}

// loosen takes out of a page what leads to others, and notes the places of
// fields that are on it.
func (f *form) loosen(page types.Dict, widgets map[int]bool) error {
	for _, key := range []string{"B", "StructParents", "Tabs", "AA", "PieceInfo", "Metadata"} {
		delete(page, key)
	}
	annotations, err := f.pdf.DereferenceArray(page["Annots"])
	if err != nil {
		return errDamaged
	}
	var kept types.Array
	for _, a := range annotations {
		d, err := f.pdf.DereferenceDict(a)
		if err != nil {
			return errDamaged
		}
		ref, ok := a.(types.IndirectRef)
		if kind := d.Subtype(); !ok || kind == nil || *kind != "Widget" {
			continue // links lead to other pages
		}
		widgets[ref.ObjectNumber.Value()] = true
		kept = append(kept, a)
	}
	page["Annots"] = kept
	return nil
}

// fieldsOn is a list of fields without those that have no place on the pages
// kept.
func (f *form) fieldsOn(o types.Object, widgets map[int]bool) (types.Array, error) {
	list, err := f.pdf.DereferenceArray(o)
	if err != nil {
		return nil, errDamaged
	}
	var kept types.Array
	for _, kid := range list {
		ref, ok := kid.(types.IndirectRef)
		d, err := f.pdf.DereferenceDict(kid)
		if !ok || err != nil {
			return nil, errDamaged
		}
		if d["Kids"] == nil {
			if widgets[ref.ObjectNumber.Value()] {
				kept = append(kept, kid)
			}
			continue
		}
		kids, err := f.fieldsOn(d["Kids"], widgets)
		if err != nil {
			return nil, err
		}
		if d["Kids"] = kids; len(kids) > 0 {
			kept = append(kept, kid)
		}
	}
	return kept, nil
}
