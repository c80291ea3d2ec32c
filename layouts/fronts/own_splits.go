package fronts

import (
	"errors"
	"regexp"
	"slices"
	"strings"

	"panelry/geometry"
)

// Own splits: an ordered list of straight splits. Each is a text that names
// the parts to split and where:
//
//	"all upright at half"           all parts, at half of the frame's width
//	"a level at 1/3"                part a, at a third of its height
//	"b upright at 1 1/4 in"         so that its left part is that broad
//	"ab from top left to bottom right"
//	"ba and bb from left 1/4 to right 3/4"
//
// The first split makes parts a and b, in reading order; splitting a part
// puts another a and b behind its name. Panels are called as their parts.
func init() {
	Register(Layout{
		Name:    "own splits",
		Summary: "your own list of straight splits",
		Roles:   "in reading order",
		Options: []Option{{
			Name: "splits", Kind: Rows, Default: []string{"all upright at 2/5", "a level at half", "b from left 2/3 to right 1/3"},
			Help: `the splits in order: "PARTS upright at WHERE", "PARTS level at WHERE" or "PARTS from PLACE to PLACE"`,
		}},
		Divide: divideOwnSplits,
	})
}

// mostSplits is more than a front of [MostCount] by [MostCount] needs by hand.
const mostSplits = 200

var (
	straightSplit = regexp.MustCompile(`^(.+?)\s+(upright|level)\s+at\s+(.+)$`)
	slantedSplit  = regexp.MustCompile(`^(.+?)\s+from\s+(.+?)\s+to\s+(.+)$`)
	sidePlace     = regexp.MustCompile(`^(left|right|top|bottom)\s+(.+)$`)
)

// trySplits is what to change when a part comes out too small.
const trySplits = "use a smaller gap or margin, or other splits"

// splitList is a front in the making.
type splitList struct {
	Brief
	root  *Node
	parts map[string]*Node // those not split yet, by name
}

func divideOwnSplits(b Brief) (Front, error) {
	list := b.Options.Rows("splits")
	if len(list) == 0 || len(list) > mostSplits {
		return Front{}, wrongOption("splits", "write from 1 to %d splits", mostSplits)
	}
	root := &Node{Outline: b.Frame.Outline()}
	s := &splitList{b, root, map[string]*Node{"": root}}
	for i, text := range list {
		err := s.split(strings.TrimSpace(text))
		if errors.As(err, new(*TooSmallError)) {
			return Front{}, err
		}
		if err != nil {
			return Front{}, wrongOption("splits", "item %d, %q: %s", i+1, text, err)
		}
	}
	leaves := root.Leaves()
	sortByReading(leaves)
	names := map[*Node]string{}
	for name, part := range s.parts {
		names[part] = name
	}
	front := Front{Tree: root, Across: terms([]geometry.Length{b.Frame.W()}, 0), Down: terms([]geometry.Length{b.Frame.H()}, 0)}
	var err error
	front.Panels, err = panels(b, leaves, trySplits, func(i int, leaf *Node) Panel {
		return Panel{Name: names[leaf], Role: i}
	})
	return front, err
}

// splitError is a sentence about one split.
type splitError string

func (e splitError) Error() string { return string(e) }

func (s *splitList) split(text string) error {
	if m := straightSplit.FindStringSubmatch(text); m != nil {
		return s.splitParts(m[1], func(box geometry.Rect) (Cut, error) { return s.straight(box, m[2] == "upright", m[3]) })
	}
	if m := slantedSplit.FindStringSubmatch(text); m != nil {
		return s.splitParts(m[1], func(box geometry.Rect) (Cut, error) { return s.slanted(box, m[2], m[3]) })
	}
	return splitError(`write it like "all upright at half", "a level at 1/3" or "b from top left to bottom right"`)
}

// splitParts splits the named parts, or all: then by one line fixed in the
// frame, which must meet some part.
func (s *splitList) splitParts(which string, cut func(geometry.Rect) (Cut, error)) error {
	if which == "all" {
		c, err := cut(s.Frame)
		if err != nil {
			return err
		}
		before := len(s.parts)
		for name, part := range s.snapshot() {
			s.apply(name, part, c)
		}
		if len(s.parts) == before {
			return splitError("this line meets no part")
		}
		return nil
	}
	for _, name := range regexp.MustCompile(`\s*,\s*|\s+and\s+|\s+`).Split(which, -1) {
		part := s.parts[name]
		if part == nil || name == "" {
			return splitError("there is no part " + name + "; there are " + s.names())
		}
		c, err := cut(part.Outline.Bounds())
		if err != nil {
			return err
		}
		if !s.apply(name, part, c) {
			if parts := geometry.SplitAll([]geometry.Outline{part.Outline}, c.Line, 0); len(parts) > 1 {
				return checkSize(name+"a", geometry.Size{}, s.Brief, trySplits) // the gap takes it
			}
			return splitError("this line does not part " + name + " in two")
		}
	}
	return nil
}

func (s *splitList) snapshot() map[string]*Node {
	out := map[string]*Node{}
	for name, part := range s.parts {
		out[name] = part
	}
	return out
}

// apply splits a part and names what comes of it; it reports whether the cut
// parted it in two.
func (s *splitList) apply(name string, part *Node, c Cut) bool {
	part.Split(c)
	if part.Cut == nil || len(part.Parts) != 2 {
		return false
	}
	delete(s.parts, name)
	two := slices.Clone(part.Parts)
	sortByReading(two)
	s.parts[name+"a"], s.parts[name+"b"] = two[0], two[1]
	return true
}

func (s *splitList) names() string {
	var out []string
	for name := range s.parts {
		if name != "" {
			out = append(out, name)
		}
	}
	slices.Sort(out)
	if len(out) == 0 {
		return "no parts yet, so write all"
	}
	return strings.Join(out, ", ")
}

// straight reads where an upright or level split goes: a share of what is
// left beside the gap, or the length of the first part.
func (s *splitList) straight(box geometry.Rect, upright bool, where string) (Cut, error) {
	start, length := box.Min.Y, box.H()
	if upright {
		start, length = box.Min.X, box.W()
	}
	if length < s.Gap+2*LeastPanel {
		return Cut{}, checkSize("a", geometry.Size{W: length - s.Gap - LeastPanel, H: length}, s.Brief, trySplits)
	}
	var first geometry.Length
	if share, err := readShare(where); err == nil {
		first = share.Of(length - s.Gap)
	} else if first, err = geometry.ParseLength(where, geometry.NoUnit); err != nil {
		return Cut{}, splitError(where + ` is no place; write a share like "half" or "1/3", or a length with its unit`)
	}
	if first <= 0 || first >= length-s.Gap {
		return Cut{}, splitError("leaves nothing on one side")
	}
	return Cut{gapBefore(Brief{Frame: box, Gap: s.Gap}, start+first+s.Gap, upright), s.Gap}, nil
}

// slanted reads two places on a part's border.
func (s *splitList) slanted(box geometry.Rect, from, to string) (Cut, error) {
	a, err := borderPlace(box, from)
	if err != nil {
		return Cut{}, err
	}
	z, err := borderPlace(box, to)
	if err != nil {
		return Cut{}, err
	}
	if a == z {
		return Cut{}, splitError("both places are the same")
	}
	return Cut{geometry.Line{A: a, B: z}, evenGap(s.Brief)}, nil
}

// borderPlace reads "top left" or "left 1/4": a share of the side from its top
// or its left end.
func borderPlace(box geometry.Rect, text string) (geometry.Point, error) {
	if place, err := readPlace(text); err == nil {
		return place.In(box), nil
	}
	m := sidePlace.FindStringSubmatch(text)
	if m == nil {
		return geometry.Point{}, splitError(text + ` is no place; write "top left", "right" or "left 1/4"`)
	}
	share, err := readShare(m[2])
	if err != nil {
		return geometry.Point{}, splitError(m[2] + ` is no share; write it like 1/4 or 40 %`)
	}
	p := geometry.Point{X: box.Min.X + share.Of(box.W()), Y: box.Min.Y + share.Of(box.H())}
	switch m[1] {
	case "left":
		p.X = box.Min.X
	case "right":
		p.X = box.Max.X
	case "top":
		p.Y = box.Min.Y
	default:
		p.Y = box.Max.Y
	}
	return p, nil
}
