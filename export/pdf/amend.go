package pdf

import (
	"bytes"
	"fmt"
	"slices"
	"strconv"
)

// What fpdf cannot say is put into the finished file: how a viewer prints,
// the processing steps of the layers, and each page's bleed box. The file is
// our own, so its form is known: one cross-reference table of 20-byte entries
// (ISO 32000-1 §7.5.4), objects as fpdf writes them.

// insertion is text that goes in front of a place.
type insertion struct {
	at   int
	text string
}

// amend inserts viewer preferences, processing steps a layer, and boxes a
// page, and moves the table of places with them.
func amend(data []byte, steps []string, boxes []string) ([]byte, error) {
	catalog := bytes.Index(data, []byte("/Type /Catalog"))
	if catalog < 0 {
		return nil, fmt.Errorf("the PDF has no catalog")
	}
	// ISO 32000-1 §12.2, table 150: no scaling by the viewer.
	list := []insertion{{catalog, "/ViewerPreferences <</PrintScaling /None /DisplayDocTitle true>>\n"}}
	layers := places(data, "/Type /OCG /Name")
	if len(layers) != len(steps) {
		return nil, fmt.Errorf("the PDF has %d layers and not %d", len(layers), len(steps))
	}
	for i, at := range layers {
		if steps[i] != "" {
			list = append(list, insertion{at, steps[i] + " "})
		}
	}
	pages := places(data, "<</Type /Page\n")
	if len(pages) != len(boxes) {
		return nil, fmt.Errorf("the PDF has %d pages and not %d", len(pages), len(boxes))
	}
	for i, at := range pages {
		if boxes[i] != "" {
			list = append(list, insertion{at + len("<</Type /Page\n"), boxes[i] + "\n"})
		}
	}
	return insert(data, list)
}

// places finds all of a word outside streams, which fpdf packs.
func places(data []byte, word string) []int {
	var list []int
	for from := 0; ; {
		i := bytes.Index(data[from:], []byte(word))
		if i < 0 {
			return list
		}
		list = append(list, from+i)
		from += i + len(word)
	}
}

// insert puts the texts in, and mends the cross-reference table.
func insert(data []byte, list []insertion) ([]byte, error) {
	slices.SortFunc(list, func(a, b insertion) int { return a.at - b.at })
	shift := func(place int) int {
		by := 0
		for _, in := range list {
			if in.at <= place {
				by += len(in.text)
			}
		}
		return place + by
	}
	start := bytes.LastIndex(data, []byte("startxref\n"))
	if start < 0 {
		return nil, fmt.Errorf("the PDF has no startxref")
	}
	number, _, _ := bytes.Cut(data[start+len("startxref\n"):], []byte("\n"))
	table, err := strconv.Atoi(string(number))
	if err != nil || table >= len(data) || !bytes.HasPrefix(data[table:], []byte("xref\n0 ")) {
		return nil, fmt.Errorf("the PDF's table of places was not found")
	}
	var out bytes.Buffer
	from := 0
	for _, in := range list {
		out.Write(data[from:in.at])
		out.WriteString(in.text)
		from = in.at
	}
	out.Write(data[from:table])
	for _, line := range bytes.SplitAfter(data[table:start], []byte("\n")) {
		if place, found := bytes.CutSuffix(line, []byte(" 00000 n \n")); found {
			at, err := strconv.Atoi(string(place))
			if err != nil {
				return nil, fmt.Errorf("the PDF's table of places cannot be read: %w", err)
			}
			line = fmt.Appendf(nil, "%010d 00000 n \n", shift(at))
		}
		out.Write(line)
	}
	fmt.Fprintf(&out, "startxref\n%d\n%%%%EOF\n", shift(table))
	return out.Bytes(), nil
}
