package layouts

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"panelry/geometry"
)

// What each tool can do: trade-facts section 5, all common practice without
// a published source.
const (
	// TrimmerBreadth is the narrowest strip that a slide trimmer holds.
	TrimmerBreadth = geometry.Inch / 4
	// KnifeBreadth is the narrowest that a knife cuts along a ruler.
	KnifeBreadth = geometry.Inch / 8
	// SmallPiece is the side under which a piece is hard to hold.
	SmallPiece = geometry.Inch / 2
	// HandAccuracy is how far off a careful cut by hand can be.
	HandAccuracy = geometry.Inch / 32
	// SharpByHand and TooSharpByHand are the angles of tips, in degrees, under
	// which a cut by hand wants care, and is not advised at all.
	SharpByHand, TooSharpByHand = 30.0, 15.0
	// SharpForCutter is the angle under which a drag knife drags the tip.
	SharpForCutter = 20.0
)

// AllTools lists the tools in the order in which they are told.
func AllTools() []Tool { return []Tool{Cutter, Trimmer, Knife} }

// fit is what a tool can do for an outline.
type fit struct {
	refused string // why it cannot cut the piece; "" where it can
	careful string // what to mind; "" for nothing
}

// traits are what decides which tool can cut an outline.
type traits struct {
	convex, straight bool
	holes            bool
	breadth          geometry.Length
	least            geometry.Length // the shorter side of the box
	sharpest         float64         // degrees; 180 where there is no corner
}

func traitsOf(o geometry.Outline) traits {
	box := o.Bounds().Size()
	t := traits{
		convex: o.IsConvex(), straight: o.IsStraight(), holes: len(o.Holes) > 0,
		breadth: o.Breadth(), least: min(box.W, box.H), sharpest: 180,
	}
	for _, a := range o.Angles() {
		t.sharpest = math.Min(t.sharpest, a)
	}
	return t
}

// fit tells what a tool makes of an outline.
func (t traits) fit(tool Tool, unit geometry.Unit) fit {
	if tool == Cutter {
		if t.sharpest < SharpForCutter {
			return fit{careful: fmt.Sprintf("a tip of %.0f degrees, which a drag knife can tear: cut slowly", t.sharpest)}
		}
		return fit{}
	}
	least := KnifeBreadth
	if tool == Trimmer {
		least = TrimmerBreadth
	}
	return t.fitFrom(tool, least, unit)
}

// fitFrom is fit for a tool held by hand that holds what is so broad.
func (t traits) fitFrom(tool Tool, least geometry.Length, unit geometry.Unit) fit {
	switch {
	case !t.straight:
		return fit{refused: "a curve"}
	case tool == Trimmer && t.holes:
		return fit{refused: "a window"}
	case tool == Trimmer && !t.convex:
		return fit{refused: "a dent"}
	case t.breadth < least:
		return fit{refused: fmt.Sprintf("only %s broad, and a %s holds %s", t.breadth.Format(unit), tool, least.Format(unit))}
	case t.sharpest < TooSharpByHand:
		return fit{refused: fmt.Sprintf("a tip of %.0f degrees, too sharp by hand", t.sharpest)}
	case t.sharpest < SharpByHand:
		return fit{careful: fmt.Sprintf("a tip of %.0f degrees: cut it last, with a new blade", t.sharpest)}
	case t.least < SmallPiece:
		return fit{careful: fmt.Sprintf("under %s: cut it from a strip, last", SmallPiece.Format(unit))}
	}
	return fit{}
}

// canCut returns the tools that can cut an outline.
func canCut(o geometry.Outline) []Tool {
	t := traitsOf(o)
	return slices.DeleteFunc(AllTools(), func(tool Tool) bool { return t.fit(tool, geometry.NoUnit).refused != "" })
}

// CornerAngles returns the different angles, in whole degrees and rising, at
// which a straight-edged outline's sides meet: what a trimmer is set to. It
// is empty for outlines with curves.
func CornerAngles(o geometry.Outline) []int {
	if !o.IsStraight() {
		return nil
	}
	var out []int
	for _, a := range o.Tidied().Angles() {
		out = append(out, int(math.Round(a)))
	}
	slices.Sort(out)
	return slices.Compact(out)
}

// toolWarnings tells of kinds that a tool of the design's cannot cut, or
// only with care; panels with the same trouble are told together.
func toolWarnings(kit Kit) []Warning {
	var out []Warning
	var order []string
	places := map[string][]string{}
	note := func(text string, k Kind) {
		if places[text] == nil {
			order = append(order, text)
		}
		places[text] = append(places[text], k.Places...)
	}
	tools := kit.Design.Tools
	for _, k := range kit.Kinds {
		if len(k.Places) == 0 {
			continue
		}
		t := traitsOf(k.Outline)
		for _, tool := range tools {
			switch f := t.fit(tool, kit.Design.Units); {
			case f.refused != "":
				note(fmt.Sprintf("not for the %s: %s; use %s", tool, f.refused, instead(k.Tools)), k)
			case f.careful != "":
				note(fmt.Sprintf("with the %s: %s", tool, f.careful), k)
			}
		}
	}
	for _, text := range order {
		names := slices.Compact(slices.Sorted(slices.Values(places[text])))
		out = append(out, Warning{"tool", namesText(names) + " " + text, "tool"})
	}
	byHand := slices.Contains(tools, Trimmer) || slices.Contains(tools, Knife)
	if m := kit.Design.Front.Margin; byHand && m > 0 && m < HandAccuracy {
		out = append(out, Warning{"thin-margin-by-hand", fmt.Sprintf("front.margin: %s is less than a cut by hand can be off (%s)",
			m.Format(kit.Design.Units), HandAccuracy.Format(kit.Design.Units)), "front.margin"})
	}
	return out
}

// instead names the tools that can do it.
func instead(tools []Tool) string {
	words := make([]string, len(tools))
	for i, t := range tools {
		words[i] = "a " + string(t)
	}
	return strings.Join(words, " or ")
}

// namesText lists a few names, and counts the others.
func namesText(names []string) string {
	const most = 6
	switch {
	case len(names) == 1:
		return "panel " + names[0]
	case len(names) > most:
		return fmt.Sprintf("panels %s and %d more", strings.Join(names[:most], ", "), len(names)-most)
	}
	return "panels " + strings.Join(names, ", ")
}
