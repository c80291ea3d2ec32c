package layouts

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io"
	"reflect"
	"slices"
	"strings"

	"github.com/pelletier/go-toml/v2"

	"panelry/geometry"
	"panelry/geometry/nesting"
	"panelry/layouts/cards"
	"panelry/layouts/wording"
)

// MostHeld is how many kinds of sheets and offcuts a stock file may list.
const MostHeld = 2000

// A Stock is the sheets and offcuts at hand.
type Stock struct {
	Units geometry.Unit
	Held  []Held
}

// Held is sheets or offcuts of one paper and size. The size is as the paper
// lies with its pattern up: width, then height.
type Held struct {
	Paper  string
	Size   geometry.Size
	Count  int
	Offcut bool

	// File is the SVG file with the outline of an offcut that is no oblong;
	// Size is the box around it.
	File    string
	Outline geometry.Outline
}

type stockFile struct {
	Units   any        `toml:"units"`
	Sheets  []fileHeld `toml:"sheets"`
	Offcuts []fileHeld `toml:"offcuts"`
}

type fileHeld struct {
	Paper any `toml:"paper"`
	Size  any `toml:"size"`
	Count any `toml:"count"`

	Outline any `toml:"outline"`
}

const eachSizeIsATable = "each size is a table; write [[%s]] on a line of its own and its keys below"

// ReadStock reads and checks a stock file; open fetches the outlines of
// offcuts. Like those of [Read], an error is [Problems] if the file could be
// read at all.
func ReadStock(r io.Reader, open Opener) (Stock, error) {
	data, err := io.ReadAll(io.LimitReader(r, MostBytes+1))
	if err != nil {
		return Stock{}, err
	}
	if p, bad := notText(data); bad {
		return Stock{}, Problems{p}
	}
	data = bytes.TrimPrefix(data, byteOrderMark)
	keys := findKeys(data)
	in := &reading{keyring: keyring{places: keys.places}, open: open}
	for _, u := range keys.unknownIn(reflect.TypeFor[stockFile]()) {
		in.wrong(u.path, "no such key%s", meantKey(u.name, u.known))
	}
	var f stockFile
	var wrong *toml.DecodeError
	switch err := toml.Unmarshal(data, &f); {
	case errors.As(err, &wrong):
		p := unreadable(wrong, data)
		if p.Key == "sheets" || p.Key == "offcuts" {
			p.Text = fmt.Sprintf(eachSizeIsATable, p.Key)
		}
		return Stock{}, Problems{p}
	case err != nil:
		return Stock{}, Problems{{Text: "this cannot be read as a stock file"}}
	}
	if word := in.choice("units", f.Units, "", []string{"in", "mm"}); word != "" {
		in.unit, _ = geometry.ParseUnit(word)
	}
	stock := Stock{Units: in.unit}
	stock.Held = append(in.held("sheets", f.Sheets, false), in.held("offcuts", f.Offcuts, true)...)
	if len(stock.Held) > MostHeld {
		in.wrong("sheets", "%d sizes are too many; at most %d", len(stock.Held), MostHeld)
	}
	if len(in.problems) > 0 {
		in.problems.sort()
		return Stock{}, in.problems
	}
	return stock.merged(), nil
}

func (in *reading) held(table string, list []fileHeld, offcut bool) []Held {
	if _, listed := in.places[table+".0"]; !listed && len(list) > 0 {
		in.wrong(table, eachSizeIsATable, table) // written as one table, which the decoder lets pass
	}
	var out []Held
	for i, f := range list {
		key := fmt.Sprintf("%s.%d", table, i)
		h := Held{Paper: in.paperTitle(key+".paper", f.Paper), Count: in.count(key+".count", f.Count, 1, 0, MostPieces), Offcut: offcut}
		if f.Outline != nil {
			if in.scrap(key, f, &h) {
				out = append(out, h)
			}
			continue
		}
		h.Size = in.size(key+".size", f.Size, cards.ForSheet)
		if h.Size != (geometry.Size{}) && (min(h.Size.W, h.Size.H) <= 0 || max(h.Size.W, h.Size.H) > largestSheet) {
			in.wrong(key+".size", "%s: each side must be more than 0 and at most %s", h.Size.Format(in.unit), largestSheet)
		}
		out = append(out, h)
	}
	return out
}

// scrap reads an offcut that has an outline.
func (in *reading) scrap(key string, f fileHeld, h *Held) bool {
	name, ok := f.Outline.(string)
	switch {
	case !h.Offcut:
		in.wrong(key+".outline", "whole sheets have a size; an outline goes with [[offcuts]]")
		return false
	case f.Size != nil:
		in.wrong(key+".size", "the outline says the size; leave one of the two out")
		return false
	case !ok || name == "":
		in.wrong(key+".outline", "%s: write the name of an SVG file in quotes", wording.Shortly(f.Outline))
		return false
	}
	shapes, err := in.open(name, nil)
	if err != nil {
		in.wrong(key+".outline", "%v", err)
		return false
	}
	if len(shapes) != 1 {
		in.wrong(key+".outline", "%s has %d outlines; an offcut is one, with holes if need be", name, len(shapes))
		return false
	}
	sheet := nesting.Scrap(shapes[0], h.Count)
	h.File, h.Size, h.Outline = name, sheet.Size, sheet.Outline
	if max(h.Size.W, h.Size.H) > largestSheet {
		in.wrong(key+".outline", "%s: each side must be at most %s", h.Size.Format(in.unit), largestSheet)
		return false
	}
	return true
}

// alike reports whether two kinds of offcut or sheet are one.
func (h Held) alike(other Held) bool {
	return h.Paper == other.Paper && h.Size == other.Size && h.Offcut == other.Offcut && h.File == other.File
}

// merged puts what is alike together and the rest in order: sheets before
// offcuts, by paper, the largest first.
func (s Stock) merged() Stock {
	slices.SortStableFunc(s.Held, func(a, b Held) int {
		return cmp.Or(boolCompare(a.Offcut, b.Offcut), cmp.Compare(a.Paper, b.Paper),
			cmp.Compare(areaOf(b.Size), areaOf(a.Size)), cmp.Compare(b.Size.W, a.Size.W), cmp.Compare(a.File, b.File))
	})
	var out []Held
	for _, h := range s.Held {
		if n := len(out); n > 0 && out[n-1].alike(h) {
			out[n-1].Count += h.Count
		} else if h.Count > 0 {
			out = append(out, h)
		}
	}
	s.Held = out
	return s
}

func boolCompare(a, b bool) int {
	switch {
	case a == b:
		return 0
	case b:
		return -1
	}
	return 1
}

func areaOf(s geometry.Size) float64 { return float64(s.W) * float64(s.H) }

// of returns what there is of a paper, the smallest first, so that offcuts are
// used up.
func (s Stock) of(paper string) []Held {
	var out []Held
	for _, h := range s.Held {
		if h.Paper == paper {
			out = append(out, h)
		}
	}
	slices.SortStableFunc(out, func(a, b Held) int { return cmp.Compare(areaOf(a.Size), areaOf(b.Size)) })
	return out
}

// TOML writes the stock as a file that [ReadStock] reads: lengths in
// millimetres are exact in every case, those in inches where they are written
// so.
func (s Stock) TOML() []byte {
	var b strings.Builder
	b.WriteString("# Sheets and offcuts at hand. Sizes are width x height with the pattern up.\n")
	if s.Units != geometry.NoUnit {
		fmt.Fprintf(&b, "units = %q\n", s.Units.String())
	}
	for _, h := range s.Held {
		table := "sheets"
		if h.Offcut {
			table = "offcuts"
		}
		how := fmt.Sprintf("size = \"%s\"", exactSize(h.Size, s.Units))
		if h.File != "" {
			how = "outline = " + tomlText(h.File)
		}
		fmt.Fprintf(&b, "\n[[%s]]\npaper = %s\n%s\ncount = %d\n", table, tomlText(h.Paper), how, h.Count)
	}
	return []byte(b.String())
}

// tomlText quotes a name, which has no control characters.
func tomlText(text string) string {
	return `"` + strings.NewReplacer(`\`, `\\`, `"`, `\"`).Replace(text) + `"`
}

// exactSize writes a size in the unit where that is exact, else in mm.
func exactSize(s geometry.Size, unit geometry.Unit) string {
	if unit != geometry.NoUnit && s.W.FormatsExactly(unit) && s.H.FormatsExactly(unit) {
		return s.Format(unit)
	}
	return s.String()
}
