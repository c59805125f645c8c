package officialform

import (
	"bytes"
	"compress/zlib"
	"io"
	"regexp"

	"example.com/plumbline/internal/words"
)

// Limits on what is unpacked of a file, before the PDF library sees it: the
// library has limits for each stream, and a file may have very many. The
// published forms unpack to less than a tenth of this.
const (
	maxUnpacked = 32 << 20 // bytes of all streams together
	maxStreams  = 5000
)

var errTooMuch = refusal(words.T("form.unpacks"))

// packedTwice finds streams that are packed in a way that no form is: twice
// over, or by filters that this check cannot follow.
var packedTwice = regexp.MustCompile(`/(?:Filter|F)\s*\[[^\]]*?Decode\s*/|/LZW|/RunLength|/Filter[^>]{0,40}#`)

// bounded refuses a file whose streams unpack to more than any form does. It
// unpacks them one by one, into nothing.
func bounded(file []byte) error {
	if packedTwice.Match(file) {
		return errTooMuch
	}
	left, streams := int64(maxUnpacked), 0
	for rest := file; ; {
		_, after, found := bytes.Cut(rest, []byte("stream"))
		if !found {
			return nil
		}
		rest = after
		data := bytes.TrimLeft(after[:min(2, len(after))], "\r\n")
		data = after[min(2, len(after))-len(data):]
		r, err := zlib.NewReader(bytes.NewReader(data))
		if err != nil {
			continue // of another kind, or the word in a text
		}
		n, _ := io.Copy(io.Discard, io.LimitReader(r, left+1))
		left -= n
		if streams++; left < 0 || streams > maxStreams {
			return errTooMuch
		}
	}
}
