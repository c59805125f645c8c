package officialform

import (
	"bytes"
	"compress/zlib"
	"fmt"
	"io"
	"regexp"
	"strconv"
	"strings"
	"testing"
)

// A second reader of PDF files, for tests alone: it shares nothing with the
// library that fills the form nor with the writer. It reads files whose
// cross-reference is one stream (ISO 32000-1, 7.5.8), and fails the test on
// anything else.

type (
	pdfName string
	pdfRef  int
	pdfDict map[string]any
)

type pdfStream struct {
	dict pdfDict
	body []byte
}

type pdfReader struct {
	t       *testing.T
	data    []byte
	trailer pdfDict
	entries [][3]int
}

func newPDFReader(t *testing.T, data []byte) *pdfReader {
	t.Helper()
	r := &pdfReader{t: t, data: data}
	at := bytes.LastIndex(data, []byte("startxref"))
	if at < 0 {
		t.Fatal("no startxref")
	}
	offset, err := strconv.Atoi(strings.Fields(string(data[at:]))[1])
	if err != nil {
		t.Fatal(err)
	}
	xref := r.at(offset).(pdfStream)
	r.trailer = xref.dict
	var w [3]int
	for i, n := range xref.dict["W"].([]any) {
		w[i] = int(n.(float64))
	}
	table := r.inflate(xref)
	for len(table) > 0 {
		var e [3]int
		for i := range e {
			for range w[i] {
				e[i] = e[i]<<8 | int(table[0])
				table = table[1:]
			}
		}
		r.entries = append(r.entries, e)
	}
	if want := int(xref.dict["Size"].(float64)); len(r.entries) != want {
		t.Fatalf("%d entries in the cross-reference stream of size %d", len(r.entries), want)
	}
	return r
}

func (r *pdfReader) inflate(s pdfStream) []byte {
	r.t.Helper()
	if s.dict["Filter"] == nil {
		return s.body
	}
	filter := s.dict["Filter"]
	if list, ok := filter.([]any); ok && len(list) == 1 {
		filter = list[0]
	}
	if filter != pdfName("FlateDecode") || s.dict["DecodeParms"] != nil {
		r.t.Fatalf("a stream with filter %v", s.dict["Filter"])
	}
	z, err := zlib.NewReader(bytes.NewReader(s.body))
	if err != nil {
		r.t.Fatal(err)
	}
	out, err := io.ReadAll(z)
	if err != nil {
		r.t.Fatal(err)
	}
	return out
}

// at reads the object that is at an offset of the file.
func (r *pdfReader) at(offset int) any {
	r.t.Helper()
	p := &pdfParser{t: r.t, data: r.data, i: offset}
	p.value()
	p.value()
	p.word("obj")
	v := p.value()
	d, ok := v.(pdfDict)
	p.space()
	if !ok || !bytes.HasPrefix(p.data[p.i:], []byte("stream\n")) {
		return v
	}
	start := p.i + len("stream\n")
	end := start + int(d["Length"].(float64))
	if !bytes.HasPrefix(r.data[end:], []byte("\nendstream")) {
		r.t.Fatalf("the stream at %d has a wrong length", offset)
	}
	return pdfStream{d, r.data[start:end]}
}

// get follows references.
func (r *pdfReader) get(v any) any {
	r.t.Helper()
	ref, ok := v.(pdfRef)
	if !ok {
		return v
	}
	switch e := r.entries[ref]; e[0] {
	case 1:
		return r.at(e[1])
	case 2:
		s := r.get(pdfRef(e[1])).(pdfStream)
		p := &pdfParser{t: r.t, data: r.inflate(s)}
		var offset int
		for range e[2] + 1 {
			if number := int(p.value().(float64)); number == int(ref) {
				offset = int(p.value().(float64))
			} else {
				p.value()
			}
		}
		p.i = int(s.dict["First"].(float64)) + offset
		return p.value()
	}
	r.t.Fatalf("reference %d to a free object", ref)
	return nil
}

func (r *pdfReader) dict(v any) pdfDict {
	d, _ := r.get(v).(pdfDict)
	return d
}

// fields collects the form's fields by full name.
func (r *pdfReader) fields() map[string]pdfDict {
	found := map[string]pdfDict{}
	acro := r.dict(r.dict(r.trailer["Root"])["AcroForm"])
	var walk func(v any, parent string)
	walk = func(v any, parent string) {
		for _, kid := range r.get(v).([]any) {
			d := r.dict(kid)
			name := strings.TrimPrefix(parent+"."+d["T"].(string), ".")
			if kids, ok := d["Kids"]; ok {
				walk(kids, name)
			} else {
				found[name] = d
			}
		}
	}
	walk(acro["Fields"], "")
	return found
}

// look is what a text field's normal appearance draws, or "".
func (r *pdfReader) look(field pdfDict) string {
	n, ok := r.get(r.dict(field["AP"])["N"]).(pdfStream)
	if !ok {
		return ""
	}
	return string(r.inflate(n))
}

type pdfParser struct {
	t    *testing.T
	data []byte
	i    int
}

var (
	pdfReference = regexp.MustCompile(`^\d+\s+\d+\s+R\b`)
	pdfWord      = regexp.MustCompile(`^[^\s()<>\[\]{}/%]+`)
	pdfUTF16     = regexp.MustCompile(`[0-9A-F]{4}`)
	pdfHex       = regexp.MustCompile(`#[0-9A-Fa-f]{2}`)
)

func (p *pdfParser) space() {
	for p.i < len(p.data) && strings.IndexByte(" \t\r\n\x00\f", p.data[p.i]) >= 0 {
		p.i++
	}
}

func (p *pdfParser) word(want string) {
	p.t.Helper()
	if got := p.value(); got != want {
		p.t.Fatalf("found %v at %d, want %q", got, p.i, want)
	}
}

func (p *pdfParser) value() any {
	p.t.Helper()
	p.space()
	rest := p.data[p.i:]
	switch {
	case bytes.HasPrefix(rest, []byte("<<")):
		p.i += 2
		d := pdfDict{}
		for p.space(); !bytes.HasPrefix(p.data[p.i:], []byte(">>")); p.space() {
			key := string(p.value().(pdfName))
			d[key] = p.value()
		}
		p.i += 2
		return d
	case rest[0] == '[':
		p.i++
		list := []any{}
		for p.space(); p.data[p.i] != ']'; p.space() {
			list = append(list, p.value())
		}
		p.i++
		return list
	case rest[0] == '<':
		end := bytes.IndexByte(rest, '>')
		p.i += end + 1
		if text, ok := strings.CutPrefix(string(rest[1:end]), "FEFF"); ok { // UTF-16, of which names here use ASCII alone
			return pdfUTF16.ReplaceAllStringFunc(text, func(h string) string {
				b, _ := strconv.ParseUint(h, 16, 16)
				return string(rune(b))
			})
		}
		return string(rest[:end+1])
	case rest[0] == '(':
		depth, i := 0, 0
		for ; ; i++ {
			if rest[i] == '\\' {
				i++
			} else if rest[i] == '(' {
				depth++
			} else if rest[i] == ')' {
				if depth--; depth == 0 {
					break
				}
			}
		}
		p.i += i + 1
		return string(rest[1:i])
	case rest[0] == '/':
		name := pdfWord.Find(rest[1:])
		p.i += 1 + len(name)
		return pdfName(pdfHex.ReplaceAllStringFunc(string(name), func(h string) string {
			b, _ := strconv.ParseUint(h[1:], 16, 8)
			return string([]byte{byte(b)})
		}))
	}
	if m := pdfReference.Find(rest[:min(len(rest), 30)]); m != nil {
		p.i += len(m)
		n, _ := strconv.Atoi(strings.Fields(string(m))[0])
		return pdfRef(n)
	}
	w := string(pdfWord.Find(rest))
	if w == "" {
		p.t.Fatalf("nothing to read at %d", p.i)
	}
	p.i += len(w)
	if f, err := strconv.ParseFloat(w, 64); err == nil {
		return f
	}
	return w
}

// madeUpPDF writes a small file from its objects' texts, numbered from 1, of
// which the first is the catalog.
func madeUpPDF(objects ...string) []byte {
	var out bytes.Buffer
	out.WriteString("%PDF-1.7\n")
	var offsets []int
	for i, text := range objects {
		offsets = append(offsets, out.Len())
		fmt.Fprintf(&out, "%d 0 obj\n%s\nendobj\n", i+1, text)
	}
	at := out.Len()
	fmt.Fprintf(&out, "xref\n0 %d\n0000000000 65535 f \n", len(objects)+1)
	for _, o := range offsets {
		fmt.Fprintf(&out, "%010d 00000 n \n", o)
	}
	fmt.Fprintf(&out, "trailer\n<</Size %d/Root 1 0 R>>\nstartxref\n%d\n%%%%EOF\n", len(objects)+1, at)
	return out.Bytes()
}
