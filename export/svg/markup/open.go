package markup

import (
	"bytes"
	"compress/gzip"
	"encoding/binary"
	"fmt"
	"io"
	"regexp"
	"strings"
	"unicode"
	"unicode/utf16"
)

// MostBytes is the longest file that [Open] takes, unpacked: with all that
// is made of it, it stays within 256 MB.
const MostBytes = 16 << 20

// mostAttributes is how many equals signs a file may have: each attribute
// takes far more room than it takes in the file.
const mostAttributes = 500_000

// An Oddity is what [Open] met and took, though not every reader does.
type Oddity struct {
	Kind OddityKind
	Text string
	Place
}

// An OddityKind says what an [Oddity] is.
type OddityKind int

const (
	ByteOrderMark OddityKind = iota
	Encoding                 // not UTF-8
	Packed                   // compressed with gzip
	Doctype                  // a DOCTYPE that declares nothing of its own
	Entities                 // a DOCTYPE that declares entities, which were resolved
	Declarations             // a DOCTYPE that declares more, which was not read
)

// Open reads a file as it may be found: it unpacks what gzip has compressed,
// turns UTF-16, ISO 8859-1 and Windows-1252 into UTF-8, and resolves the
// entities that a DOCTYPE declares inside the file, up to [MostExpanded]
// bytes. Nothing outside the file is ever read. What it cannot take is a
// [Fault].
func Open(data []byte) (*Tokens, []Oddity, error) {
	var odd []Oddity
	whole := newTokens("", "", nil, false)
	if bytes.HasPrefix(data, []byte{0x1f, 0x8b}) {
		unpacked, err := unpack(data)
		if err != nil {
			return nil, nil, whole.Fault(0, "the file starts as one compressed with gzip but cannot be unpacked: %s", err)
		}
		data, odd = unpacked, append(odd, Oddity{Packed, "the file is compressed with gzip", start})
	}
	if len(data) > MostBytes {
		return nil, nil, whole.Fault(0, "the file is longer than %d MB, the most that is read", MostBytes>>20)
	}
	text, more, err := decode(data)
	if err != nil {
		return nil, nil, whole.Fault(0, "%s", err)
	}
	odd = append(odd, more...)
	t := newTokens(text, text, nil, false)
	if err := t.checkUTF8(); err != nil {
		return nil, nil, err
	}
	if strings.Count(text, "=") > mostAttributes {
		return nil, nil, t.Fault(0, "the file has more than %d attributes, the most that are read", mostAttributes)
	}
	expanded, pieces, more, err := t.expand()
	if err != nil {
		return nil, nil, err
	}
	return newTokens(text, expanded, pieces, false), append(odd, more...), nil
}

// start is the place of what bears on the whole file.
var start = Place{1, 1}

func unpack(data []byte) ([]byte, error) {
	r, err := gzip.NewReader(bytes.NewReader(data))
	if err != nil {
		return nil, err
	}
	return io.ReadAll(io.LimitReader(r, MostBytes+1))
}

// declared finds the encoding in an XML declaration (XML 1.0 §2.8, §4.3.3).
var declared = regexp.MustCompile(`^<\?xml[ \t\r\n][^>]*?encoding[ \t\r\n]*=[ \t\r\n]*["']([A-Za-z][A-Za-z0-9._-]*)["']`)

// decode turns a file into UTF-8, by its byte order mark or by what it
// declares.
func decode(data []byte) (string, []Oddity, error) {
	switch {
	case bytes.HasPrefix(data, []byte("\uFEFF")):
		return string(data[3:]), []Oddity{{ByteOrderMark, "the file starts with a byte order mark", start}}, nil
	case bytes.HasPrefix(data, []byte{0xff, 0xfe}):
		return decodeUTF16(data[2:], binary.LittleEndian)
	case bytes.HasPrefix(data, []byte{0xfe, 0xff}):
		return decodeUTF16(data[2:], binary.BigEndian)
	}
	match := declared.FindSubmatch(data[:min(len(data), 1000)])
	if match == nil {
		return string(data), nil, nil
	}
	name := string(match[1])
	switch strings.ToLower(name) {
	case "utf-8", "utf8", "us-ascii", "ascii":
		return string(data), nil, nil
	case "iso-8859-1", "latin1", "windows-1252", "cp1252":
		var b strings.Builder
		for _, c := range data {
			if 0x80 <= c && c < 0xa0 {
				b.WriteRune(windows1252[c-0x80])
			} else {
				b.WriteRune(rune(c))
			}
		}
		return b.String(), []Oddity{{Encoding, "the file is in the encoding " + name, start}}, nil
	}
	return "", nil, fmt.Errorf("the file is declared to be in the encoding %s, which is not read here; save it as UTF-8", name)
}

// windows1252 is what the bytes 0x80 to 0x9f stand for; web browsers read
// ISO 8859-1 the same way. Source: WHATWG Encoding Standard, index
// windows-1252.
var windows1252 = [32]rune{
	0x20AC, 0x81, 0x201A, 0x0192, 0x201E, 0x2026, 0x2020, 0x2021, 0x02C6, 0x2030, 0x0160, 0x2039, 0x0152, 0x8D, 0x017D, 0x8F,
	0x90, 0x2018, 0x2019, 0x201C, 0x201D, 0x2022, 0x2013, 0x2014, 0x02DC, 0x2122, 0x0161, 0x203A, 0x0153, 0x9D, 0x017E, 0x0178,
}

func decodeUTF16(data []byte, order binary.ByteOrder) (string, []Oddity, error) {
	if len(data)%2 != 0 {
		return "", nil, fmt.Errorf("the file is in UTF-16 and ends within a character; save it as UTF-8")
	}
	units := make([]uint16, len(data)/2)
	for i := range units {
		units[i] = order.Uint16(data[2*i:])
	}
	text := utf16.Decode(units)
	for i, at := 0, 0; i < len(text); i++ {
		if text[i] == unicode.ReplacementChar && units[at] != unicode.ReplacementChar {
			return "", nil, fmt.Errorf("the file is in UTF-16 and holds half a character; save it as UTF-8")
		}
		at += utf16.RuneLen(text[i])
	}
	return string(text), []Oddity{{Encoding, "the file is in the encoding UTF-16", start}}, nil
}
