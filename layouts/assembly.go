package layouts

import (
	"fmt"
	"strings"

	"panelry/geometry"
	"panelry/layouts/wording"
)

// An AssemblyStep puts one panel on the base. It is measured from edges of
// the card and from panels that lie already, never from one that does not.
type AssemblyStep struct {
	Panel  int      // of the card's panels
	Edges  []string // of the card, along which it lies: "left", "top", "right", "bottom"
	Beside []int    // panels that lie already, a gap away
	Text   string
}

// assemblySlack is how far a panel may be from its margin or its neighbour
// and still count as beside it: half a millimetre, as far as eyes can tell.
const assemblySlack = geometry.Millimetre / 2

// Assembly returns the steps that put a card's panels on its base: a panel
// along two edges first, then always the one that is held by most of what
// lies already, the earlier panel first.
func (k Kit) Assembly() []AssemblyStep {
	panels := k.Card.Panels
	beside := neighbours(panels, k.Design.Front.Gap)
	edges := make([][]string, len(panels))
	held := make([]int, len(panels))
	for i, p := range panels {
		edges[i] = alongEdges(p.Outline.Bounds(), k.Card.Frame)
		held[i] = len(edges[i])
	}
	placed := make([]bool, len(panels))
	steps := make([]AssemblyStep, 0, len(panels))
	for range panels {
		next := -1
		for i := range panels {
			if !placed[i] && (next < 0 || held[i] > held[next]) {
				next = i
			}
		}
		s := AssemblyStep{Panel: next, Edges: edges[next]}
		placed[next] = true
		for _, n := range beside[next] {
			if !placed[n] {
				held[n]++
			} else {
				s.Beside = append(s.Beside, n)
			}
		}
		s.Text = k.assemblyText(s)
		steps = append(steps, s)
	}
	return steps
}

// neighbours lists, for each panel, those about a gap away.
func neighbours(panels []Panel, gap geometry.Length) [][]int {
	list := make([][]int, len(panels))
	reach := gap + assemblySlack
	for i, p := range panels {
		box := p.Outline.Bounds()
		for j := i + 1; j < len(panels); j++ {
			other := panels[j].Outline.Bounds()
			far := other.Min.X-box.Max.X > reach || box.Min.X-other.Max.X > reach ||
				other.Min.Y-box.Max.Y > reach || box.Min.Y-other.Max.Y > reach
			if !far && !geometry.Apart(p.Outline, panels[j].Outline, reach) {
				list[i], list[j] = append(list[i], j), append(list[j], i)
			}
		}
	}
	return list
}

// alongEdges names the edges of the frame along which a box lies.
func alongEdges(box, frame geometry.Rect) []string {
	var names []string
	for _, e := range []struct {
		name string
		off  geometry.Length
	}{
		{"left", box.Min.X - frame.Min.X}, {"top", box.Min.Y - frame.Min.Y},
		{"right", frame.Max.X - box.Max.X}, {"bottom", frame.Max.Y - box.Max.Y},
	} {
		if e.off.Abs() < assemblySlack {
			names = append(names, e.name)
		}
	}
	return names
}

// assemblyText says a step in words.
func (k Kit) assemblyText(s AssemblyStep) string {
	p := k.Card.Panels[s.Panel]
	text := "Panel " + p.Name + ": "
	switch margin := k.Design.Front.Margin; {
	case len(s.Edges) > 0 && margin > 0:
		text += fmt.Sprintf("keep it %s from the card's %s", margin.Format(k.Design.Units), edgeWords(s.Edges))
	case len(s.Edges) > 0:
		text += "lay it flush with the card's " + edgeWords(s.Edges)
	case len(s.Beside) == 0:
		box := p.Outline.Bounds()
		text += fmt.Sprintf("draw the card's two centre lines lightly in pencil first; its left tip lies %s from the card's left edge, its top %s from the top edge",
			box.Min.X.Format(k.Design.Units), box.Min.Y.Format(k.Design.Units))
	default:
		return text + k.besideText(s)
	}
	if len(s.Beside) > 0 {
		text += ", and " + k.besideText(s)
	}
	return text
}

func edgeWords(edges []string) string {
	if len(edges) == 1 {
		return edges[0] + " edge"
	}
	return wording.AndPlain(edges) + " edges"
}

// mostBeside is how many neighbours a step names.
const mostBeside = 3

func (k Kit) besideText(s AssemblyStep) string {
	var names []string
	for _, n := range s.Beside[:min(mostBeside, len(s.Beside))] {
		names = append(names, k.Card.Panels[n].Name)
	}
	list := wording.AndPlain(names)
	if k.Design.Front.Gap == 0 {
		return "edge to edge with " + list
	}
	return strings.Join([]string{"the spacer strip", k.Design.Front.Gap.Format(k.Design.Units), "wide between it and", list}, " ")
}
