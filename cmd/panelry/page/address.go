package page

import (
	"bytes"
	"compress/flate"
	"encoding/base64"
	"errors"
	"io"
	"strings"
	"sync"

	"panelry/layouts"
)

// longestLink is how many letters of a design go into an address. Browsers
// take more; what passes a message or a bookmark unhurt is not much longer.
// Common practice, no source.
const longestLink = 60_000

// inPage stands in an address for a design that is too long for one. The
// page itself then carries it.
const inPage = "-"

// What can be wrong with an address.
var (
	errBadLink  = errors.New("this link is damaged: it holds no design; copy it again, whole")
	errLongLink = errors.New("the design in this link is larger than a design file may be")
)

var packers = sync.Pool{New: func() any {
	w, err := flate.NewWriter(nil, flate.BestCompression)
	if err != nil {
		panic("page: " + err.Error()) // the level is one of its own
	}
	return w
}}

// encode packs the text of a design for an address: compressed, in letters
// that an address may hold (RFC 4648 section 5).
func encode(text []byte) string {
	var b bytes.Buffer
	w := packers.Get().(*flate.Writer) // each holds a megabyte of tables
	defer packers.Put(w)
	w.Reset(&b)
	_, err := w.Write(text)
	if err == nil {
		err = w.Close()
	}
	if err != nil {
		panic("page: " + err.Error()) // a buffer does not fail
	}
	return base64.RawURLEncoding.EncodeToString(b.Bytes())
}

// decode is encode backwards. It unpacks no more than a design file may have.
func decode(packed string) ([]byte, error) {
	data, err := base64.RawURLEncoding.DecodeString(strings.TrimRight(packed, "="))
	if err != nil {
		return nil, errBadLink
	}
	text, err := io.ReadAll(io.LimitReader(flate.NewReader(bytes.NewReader(data)), layouts.MostBytes+1))
	switch {
	case err != nil:
		return nil, errBadLink
	case len(text) > layouts.MostBytes:
		return nil, errLongLink
	}
	return text, nil
}

// place returns the path of a design's address.
func place(packed string) string {
	if len(packed) > longestLink {
		packed = inPage
	}
	return "/d/" + packed + "/"
}
