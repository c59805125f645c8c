package officialform

import (
	"bytes"
	"compress/zlib"
	"crypto/md5"
	"encoding/binary"
	"fmt"
	"io"
	"maps"
	"slices"
	"strconv"

	"github.com/pdfcpu/pdfcpu/pkg/pdfcpu/types"
)

// write writes the whole file again: only the objects that can still be reached,
// so that nothing taken out or overwritten stays behind in it, and no time of
// writing, so that equal entries give equal bytes. The PDF library's own writer
// stamps the time and a random identifier.
//
// The file is of PDF 1.7 with object streams (ISO 32000-1, 7.5.7 and 7.5.8).
func (f *form) write() ([]byte, error) {
	w := &writer{form: f, number: map[int]int{}}
	root, err := w.encode(*f.pdf.Root)
	if err != nil {
		return nil, err
	}
	trailer := "/Type/XRef/Root " + root
	if f.pdf.Info != nil {
		info, err := w.encode(*f.pdf.Info)
		if err != nil {
			return nil, err
		}
		trailer += "/Info " + info
	}
	w.out.WriteString("%PDF-1.7\n%\xe2\xe3\xcf\xd3\n")
	for len(w.queue) > 0 {
		old := w.queue[0]
		w.queue = w.queue[1:]
		if err := w.object(old); err != nil {
			return nil, err
		}
	}
	if err := w.flush(); err != nil {
		return nil, err
	}
	return w.finish(trailer)
}

// perStream is the most objects in one object stream.
const perStream = 200

// entry is where an object is: in the file, or in an object stream.
type entry struct {
	kind  byte // 1 in the file, 2 in an object stream
	where int  // offset in the file, or the object stream's number
	index int  // within the object stream
}

type writer struct {
	form    *form
	out     bytes.Buffer
	number  map[int]int // new object numbers by old
	queue   []int       // old numbers, met and not yet written
	entries []entry     // by new number less one
	packed  []string    // objects that wait for the next object stream
	packing []int       // their new numbers
}

// add counts one more object and returns its number.
func (w *writer) add() int {
	w.entries = append(w.entries, entry{})
	return len(w.entries)
}

func (w *writer) object(old int) error {
	n := w.number[old]
	o, err := w.form.pdf.Dereference(*types.NewIndirectRef(old, 0))
	if err != nil || o == nil {
		return errDamaged
	}
	sd, ok := o.(types.StreamDict)
	if !ok {
		text, err := w.encode(o)
		if err != nil {
			return err
		}
		w.packed, w.packing = append(w.packed, text), append(w.packing, n)
		if len(w.packed) == perStream {
			return w.flush()
		}
		return nil
	}
	if err := whole(sd); err != nil {
		return err
	}
	d := maps.Clone(sd.Dict)
	d["Length"] = types.Integer(len(sd.Raw))
	head, err := w.encode(d)
	if err != nil {
		return err
	}
	w.stream(n, head, sd.Raw)
	return nil
}

// whole refuses a stream whose data cannot be read to the end and compared with
// its checksum. The library reads what it can of a damaged file and says
// nothing; the copy would then lack a part of the form.
func whole(sd types.StreamDict) error {
	if len(sd.FilterPipeline) == 0 || sd.FilterPipeline[0].Name != "FlateDecode" {
		return nil
	}
	z, err := zlib.NewReader(bytes.NewReader(sd.Raw))
	if err != nil {
		return errDamaged
	}
	if _, err := io.CopyN(io.Discard, z, 4*MaxSize); err != io.EOF {
		return errDamaged
	}
	return nil
}

// stream writes a stream at the end of the file.
func (w *writer) stream(n int, head string, body []byte) {
	w.entries[n-1] = entry{kind: 1, where: w.out.Len()}
	fmt.Fprintf(&w.out, "%d 0 obj\n%s\nstream\n", n, head)
	w.out.Write(body)
	w.out.WriteString("\nendstream\nendobj\n")
}

// flush writes the waiting objects as one object stream.
func (w *writer) flush() error {
	if len(w.packed) == 0 {
		return nil
	}
	n := w.add()
	var index, body bytes.Buffer
	for i, text := range w.packed {
		w.entries[w.packing[i]-1] = entry{kind: 2, where: n, index: i}
		fmt.Fprintf(&index, "%d %d ", w.packing[i], body.Len())
		body.WriteString(text + "\n")
	}
	data, err := deflate(append(index.Bytes(), body.Bytes()...))
	if err != nil {
		return err
	}
	w.stream(n, fmt.Sprintf("<</Type/ObjStm/N %d/First %d/Filter/FlateDecode/Length %d>>", len(w.packed), index.Len(), len(data)), data)
	w.packed, w.packing = nil, nil
	return nil
}

// finish writes the cross-reference stream and the end of the file.
func (w *writer) finish(trailer string) ([]byte, error) {
	sum := md5.Sum(w.out.Bytes())
	id := fmt.Sprintf("<%x>", sum)
	first := id
	if old := w.form.pdf.ID; len(old) > 0 { // the first part stays through every change of a file
		switch old := old[0].(type) {
		case types.HexLiteral, types.StringLiteral:
			first = old.PDFString()
		}
	}
	at := w.out.Len()
	n := w.add()
	w.entries[n-1] = entry{kind: 1, where: at}
	table := []byte{0, 0, 0, 0, 0, 0xff, 0xff} // object 0, the head of the free ones
	for _, e := range w.entries {
		table = append(table, e.kind)
		table = binary.BigEndian.AppendUint32(table, uint32(e.where))
		table = binary.BigEndian.AppendUint16(table, uint16(e.index))
	}
	data, err := deflate(table)
	if err != nil {
		return nil, err
	}
	w.stream(n, fmt.Sprintf("<<%s/Size %d/W[1 4 2]/ID[%s%s]/Filter/FlateDecode/Length %d>>", trailer, n+1, first, id, len(data)), data)
	fmt.Fprintf(&w.out, "startxref\n%d\n%%%%EOF\n", at)
	return w.out.Bytes(), nil
}

func deflate(data []byte) ([]byte, error) {
	var out bytes.Buffer
	z := zlib.NewWriter(&out)
	if _, err := z.Write(data); err != nil {
		return nil, err
	}
	if err := z.Close(); err != nil {
		return nil, err
	}
	return out.Bytes(), nil
}

// encode writes an object as text. A reference met for the first time gets the
// next number, and its object is put in the queue.
func (w *writer) encode(o types.Object) (string, error) {
	switch o := o.(type) {
	case nil:
		return "null", nil
	case types.IndirectRef:
		old := o.ObjectNumber.Value()
		if entry, ok := w.form.pdf.FindTableEntryLight(old); !ok || entry.Free {
			return "", errDamaged // a piece of the file is missing
		}
		if w.number[old] == 0 {
			w.number[old] = w.add()
			w.queue = append(w.queue, old)
		}
		return fmt.Sprintf("%d 0 R", w.number[old]), nil
	case types.Dict:
		text := "<<"
		for _, key := range slices.Sorted(maps.Keys(o)) {
			value, err := w.encode(o[key])
			if err != nil {
				return "", err
			}
			text += types.Name(key).PDFString() + " " + value
		}
		return text + ">>", nil
	case types.Array:
		text := "["
		for _, item := range o {
			value, err := w.encode(item)
			if err != nil {
				return "", err
			}
			text += value + " "
		}
		return text + "]", nil
	case types.Float:
		return strconv.FormatFloat(o.Value(), 'f', -1, 64), nil
	case types.Name, types.StringLiteral, types.HexLiteral, types.Integer, types.Boolean:
		return o.PDFString(), nil
	}
	return "", errDamaged
}
