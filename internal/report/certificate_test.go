package report

import (
	"bytes"
	"fmt"
	"testing"
)

func TestCertificate(t *testing.T) {
	for _, name := range demos {
		page := Certificate(solved(t, demo(t, name)))
		for _, width := range []int{80, 60} {
			t.Run(fmt.Sprint(name, width), func(t *testing.T) {
				var b bytes.Buffer
				if err := Text(&b, page, width); err != nil {
					t.Fatal(err)
				}
				golden(t, fmt.Sprintf("certificate/%s-%d.txt", name, width), b.Bytes())
			})
		}
	}
}
