package yamldoc

import (
	"bytes"
	"os"
	"testing"
)

func sample(t testing.TB) []byte {
	t.Helper()
	data, err := os.ReadFile("testdata/answers.yaml")
	if err != nil {
		t.Fatal(err)
	}
	return data
}

func parse(t testing.TB, text string) *Document {
	t.Helper()
	d, err := Parse("test.yaml", []byte(text))
	if err != nil {
		t.Fatalf("Parse(%q): %v", text, err)
	}
	return d
}

func TestBytesKeepsTheFile(t *testing.T) {
	data := sample(t)
	if got := parse(t, string(data)).Bytes(); !bytes.Equal(got, data) {
		t.Errorf("Bytes() =\n%s\nwant\n%s", got, data)
	}
}
