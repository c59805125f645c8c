package officialform

import (
	"bytes"
	"compress/flate"
	"compress/zlib"
	"encoding/binary"
	"fmt"
	"io"
	"runtime"
	"strings"
	"testing"
)

// The file to hand in has page 1 and its entries, and nothing that was on the
// worksheets, in any object.
func TestSplit(t *testing.T) {
	for _, k := range known {
		year := k.year
		lines := map[string]string{"3": "2,200", "4c": "98", "mj.1": "31415", "mj.4": "271"}
		whole, _, err := Fill(blankForm(t, year), Entries{FilingStatus: "single", Lines: lines})
		if err != nil {
			t.Fatal(err)
		}
		handIn, worksheets, err := Split(whole)
		if err != nil {
			t.Fatal(err)
		}
		first, rest := everything(t, handIn), everything(t, worksheets)
		for _, secret := range []string{"31415", "271", "f3_01", "Page3"} {
			if strings.Contains(first, secret) {
				t.Errorf("%d: the employer's file holds %q", year, secret)
			}
		}
		for _, own := range []string{"2,200", "98"} {
			if !strings.Contains(first, "("+own+")") {
				t.Errorf("%d: the employer's file lacks %s", year, own)
			}
		}
		if !strings.Contains(rest, "(31415)") || strings.Contains(rest, "f1_") {
			t.Errorf("%d: the worksheets are wrong", year)
		}
		for name, want := range map[string]int{string(handIn): 1, string(worksheets): k.pages - 1} {
			pdf, err := readPDF([]byte(name))
			if err != nil || pdf.PageCount != want {
				t.Errorf("%d: %v, want %d pages", year, err, want)
			}
		}
		again, _, err := Split(whole)
		if err != nil || !bytes.Equal(again, handIn) {
			t.Errorf("%d: split again it differs, %v", year, err)
		}
	}
	whole, _, err := Fill(blankForm(t, 2026), Entries{FilingStatus: "single"})
	if err != nil {
		t.Fatal(err)
	}
	if _, worksheets, err := Split(whole); err != nil || worksheets != nil {
		t.Errorf("worksheets though none is filled in: %v", err)
	}
}

// everything is every object of a file, its streams unpacked.
func everything(t *testing.T, file []byte) string {
	t.Helper()
	pdf, err := readPDF(file)
	if err != nil {
		t.Fatal(err)
	}
	var b strings.Builder
	for n, e := range pdf.Table {
		if e == nil || e.Free || e.Object == nil {
			continue
		}
		fmt.Fprintf(&b, "%d: %v\n", n, e.Object)
		if sd, _, err := pdf.DereferenceStreamDict(e.Object); err == nil && sd != nil {
			if sd.Decode() == nil {
				b.Write(sd.Content)
			}
		}
	}
	return b.String()
}

// packedZeros are so many megabytes of zeros as zlib packs them. A megabyte is
// packed once, and its blocks repeated: they end on a byte, and what they refer to
// before them is zeros in every place.
func packedZeros(megabytes int) []byte {
	var block bytes.Buffer
	w, _ := flate.NewWriter(&block, flate.BestCompression) // the level is one
	w.Write(make([]byte, 1<<20))
	w.Flush()
	packed := append([]byte{0x78, 0x9c}, bytes.Repeat(block.Bytes(), megabytes)...)
	packed = append(packed, 0x03, 0x00) // a last block, empty
	const prime = 65521                 // of Adler-32, whose second sum counts the zeros
	return binary.BigEndian.AppendUint32(packed, uint32(megabytes<<20%prime)<<16|1)
}

// What the test below says it packs is what unpacks.
func TestPackedZeros(t *testing.T) {
	r, err := zlib.NewReader(bytes.NewReader(packedZeros(3)))
	if err != nil {
		t.Fatal(err)
	}
	if got, err := io.ReadAll(r); err != nil || !bytes.Equal(got, make([]byte, 3<<20)) {
		t.Errorf("%d bytes, %v", len(got), err)
	}
}

// A small file cannot make the program take much memory: streams that unpack to
// a gigabyte, one or many, are refused before they are unpacked.
func TestHostileFormIsBounded(t *testing.T) {
	one, many := packedZeros(1<<10), packedZeros(4)
	stream := func(n int, data []byte, filter string) string {
		return fmt.Sprintf("%d 0 obj\n<</Filter %s/Length %d>>\nstream\n%s\nendstream\nendobj\n", n, filter, len(data), data)
	}
	var lots strings.Builder
	for n := 10; n < 250; n++ {
		lots.WriteString(stream(n, many, "/FlateDecode"))
	}
	blank := string(blankForm(t, 2026))
	end := strings.LastIndex(blank, "startxref")
	for name, objects := range map[string]string{
		"one stream":   stream(9000, one, "/FlateDecode"),
		"many streams": lots.String(),
		"packed twice": stream(9000, packedZeros(1), "[/FlateDecode /FlateDecode]"),
		"another way":  stream(9000, packedZeros(1), "/LZWDecode"),
	} {
		file := []byte(blank[:end] + objects + blank[end:])
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, err := Identify(file)
		runtime.ReadMemStats(&after)
		if err == nil || !strings.Contains(err.Error(), "unpacks to far more") {
			t.Errorf("%s: %v", name, err)
		}
		if took := (after.TotalAlloc - before.TotalAlloc) >> 20; took > 20 {
			t.Errorf("%s: took %d MB for a file of %d KB", name, took, len(file)>>10)
		}
	}
}
