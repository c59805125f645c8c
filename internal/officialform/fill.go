package officialform

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"

	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"

	"example.com/plumbline/internal/words"
)

// fill sets every field of the plan and takes out what would show something
// else: the XFA packet, which viewers that know it prefer to the fields, and
// the usage rights and scripts that belong to the packet.
func (f *form) fill(plan []setting) error {
	acro, err := f.pdf.DereferenceDict(f.pdf.RootDict["AcroForm"])
	if err != nil {
		return errDamaged
	}
	var tooLong []words.Text
	for _, s := range plan {
		d := f.fields[s.field].dict
		switch {
		case s.box:
			state := types.Name("Off")
			if s.check {
				state = types.Name(s.on)
			}
			d["V"], d["AS"] = state, state
		case s.text == "":
			delete(d, "V")
			delete(d, "AP")
		default:
			look, fits, err := f.look(acro, d, s.text)
			if err != nil {
				return err
			}
			if !fits {
				tooLong = append(tooLong, words.T("form.too_long", "line", s.line, "text", clip(s.text)))
				continue
			}
			d["V"] = types.StringLiteral(s.text)
			d["AP"] = types.Dict{"N": look}
		}
	}
	if len(tooLong) > 0 {
		return words.Fail("form.cannot", "why", tooLong)
	}
	delete(acro, "XFA")
	delete(acro, "SigFlags")
	delete(acro, "NeedAppearances")
	delete(f.pdf.RootDict, "Perms")
	delete(f.pdf.RootDict, "Extensions")
	names, err := f.pdf.DereferenceDict(f.pdf.RootDict["Names"])
	if err != nil {
		return errDamaged
	}
	delete(names, "JavaScript")
	return nil
}

// clearPerson takes out a name, an address or a social security number that is
// on the form, and reports whether there was any.
func (f *form) clearPerson() bool {
	cleared := false
	for what, name := range f.layout.LeftAlone {
		if d := f.fields[name].dict; strings.HasPrefix(what, "1") && d["V"] != nil {
			text, err := f.pdf.DereferenceText(d["V"])
			cleared = cleared || err != nil || strings.TrimSpace(text) != ""
			delete(d, "V")
			delete(d, "AP")
		}
	}
	return cleared
}

// appearance is how a field's text is to be set: /Font size Tf, then the color.
var appearance = regexp.MustCompile(`^\s*/(\S+)\s+([0-9.]+)\s+Tf\s+([0-9. ]+(?:g|rg|k))\s*$`)

// side is the space kept free at each side of a field's text, in points.
const side = 2

// look draws a field's text as the field itself asks for it: font, size, color
// and alignment (ISO 32000-1, 12.7.3.3). It says whether the text fits.
func (f *form) look(acro, d types.Dict, text string) (ref types.IndirectRef, fits bool, err error) {
	da, err := f.pdf.DereferenceText(d["DA"])
	m := appearance.FindStringSubmatch(da)
	if err != nil || m == nil {
		return ref, false, errDamaged
	}
	name, color := m[1], m[3]
	size, err := strconv.ParseFloat(m[2], 64)
	if err != nil || size <= 0 {
		return ref, false, errDamaged
	}
	font, err := f.font(acro, name)
	if err != nil {
		return ref, false, err
	}
	rect, err := f.pdf.DereferenceArray(d["Rect"])
	if err != nil || len(rect) != 4 {
		return ref, false, errDamaged
	}
	var corner [4]float64
	for i := range rect {
		var ok bool
		if corner[i], ok = number(rect[i]); !ok {
			return ref, false, errDamaged
		}
	}
	width, height := corner[2]-corner[0], corner[3]-corner[1]
	length, err := f.textWidth(font, text, size)
	if err != nil {
		return ref, false, err
	}
	maxLen := d.IntEntry("MaxLen")
	if length > width-2*side || size > height || maxLen != nil && len(text) > *maxLen {
		return ref, false, nil
	}

	x := float64(side)
	switch q := d.IntEntry("Q"); {
	case q != nil && *q == 1:
		x = (width - length) / 2
	case q != nil && *q == 2:
		x = width - side - length
	}
	const capHeight = 0.718 // of the form's Helvetica, and of what viewers put in its place
	y := (height - capHeight*size) / 2
	content := fmt.Sprintf("/Tx BMC\nq\n1 1 %s %s re W n\nBT\n/%s %s Tf %s\n%s %s Td\n(%s) Tj\nET\nQ\nEMC\n",
		points(width-2), points(height-2), name, m[2], color, points(x), points(y), text)
	sd, err := f.pdf.NewStreamDictForBuf([]byte(content))
	if err != nil {
		return ref, false, err
	}
	sd.Dict["Type"] = types.Name("XObject")
	sd.Dict["Subtype"] = types.Name("Form")
	sd.Dict["BBox"] = types.Array{types.Integer(0), types.Integer(0), types.Float(width), types.Float(height)}
	sd.Dict["Resources"] = types.Dict{"Font": types.Dict{name: font}}
	if err := sd.Encode(); err != nil {
		return ref, false, err
	}
	made, err := f.pdf.IndRefForNewObject(*sd)
	if err != nil {
		return ref, false, err
	}
	return *made, true, nil
}

// font finds the form's font by the name that fields call it.
func (f *form) font(acro types.Dict, name string) (types.Object, error) {
	resources, err := f.pdf.DereferenceDict(acro["DR"])
	if err != nil {
		return nil, errDamaged
	}
	fonts, err := f.pdf.DereferenceDict(resources["Font"])
	if err != nil || fonts[name] == nil {
		return nil, errDamaged
	}
	return fonts[name], nil
}

// textWidth is the length of a text in points, by the font's own widths.
func (f *form) textWidth(font types.Object, text string, size float64) (float64, error) {
	d, err := f.pdf.DereferenceDict(font)
	if err != nil {
		return 0, errDamaged
	}
	first := d.IntEntry("FirstChar")
	widths, err := f.pdf.DereferenceArray(d["Widths"])
	if err != nil || first == nil {
		return 0, errDamaged
	}
	var sum float64
	for _, c := range []byte(text) {
		i := int(c) - *first
		if i < 0 || i >= len(widths) {
			return 0, errDamaged
		}
		w, ok := number(widths[i])
		if !ok {
			return 0, errDamaged
		}
		sum += w
	}
	return sum * size / 1000, nil
}

// points writes a length as PDF does, to a thousandth of a point.
func points(v float64) string {
	return strings.TrimSuffix(strings.TrimRight(strconv.FormatFloat(v, 'f', 3, 64), "0"), ".")
}
