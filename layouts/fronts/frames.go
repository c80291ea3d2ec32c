package fronts

import (
	"strconv"

	"panelry/geometry"
)

// Frames: oblongs within each other, each a frame round the next, the last
// one whole. They are counted inwards. The frames are equally broad, and the
// innermost is at least as broad as two of them.
//
//	+-----------+
//	| +-------+ |
//	| | +---+ | |
//	| | |   | | |
//	| | +---+ | |
//	| +-------+ |
//	+-----------+
func init() {
	Register(Layout{
		Name:    "frames",
		Summary: "oblong frames within each other round a whole middle",
		Roles:   "inwards, one after the other",
		Options: []Option{
			{Name: "count", Kind: Count, Default: 3, Most: 12, Help: "how many panels there are, the middle included"},
			{Name: "breadth", Kind: Length, Help: "how broad each frame is; left out: half as broad as the middle"},
		},
		Divide: divideFrames,
	})
}

func divideFrames(b Brief) (Front, error) {
	count, breadth := b.Options.Count("count"), b.Options.Length("breadth")
	short := min(b.Frame.W(), b.Frame.H())
	if breadth == 0 {
		breadth = (short - geometry.Length(2*(count-1))*b.Gap) / geometry.Length(2*count)
	}
	const try = "use a smaller gap or margin, or fewer or narrower frames"
	if err := checkSize("1", geometry.Size{W: breadth, H: breadth}, b, try); err != nil {
		return Front{}, err
	}
	front := Front{}
	box := b.Frame
	for i := range count {
		name := strconv.Itoa(i + 1)
		if err := checkSize(name, box.Size(), b, try); err != nil {
			return Front{}, err
		}
		panel := Panel{Name: name, Outline: box.Outline(), Role: i}
		if i < count-1 {
			window, err := box.Inset(breadth)
			if err != nil {
				return Front{}, checkSize(name, geometry.Size{}, b, try)
			}
			panel.Outline.Holes = []geometry.Ring{window.Outline().Outer.Reversed()}
			if box, err = window.Inset(b.Gap); err != nil {
				return Front{}, checkSize(strconv.Itoa(i+2), geometry.Size{}, b, try)
			}
		}
		front.Panels = append(front.Panels, panel)
	}
	front.Across = cabinTerms(b.Frame.W(), breadth, b.Gap, count-1)
	front.Down = cabinTerms(b.Frame.H(), breadth, b.Gap, count-1)
	return front, nil
}
