package fronts

import (
	"cmp"
	"slices"
	"strconv"

	"panelry/geometry"
)

// A Cell is a region that becomes a panel, drawn without gaps: neighbours
// share their sides, and what lies outside the frame is cut off.
type Cell struct {
	Name    string // "" to be numbered in reading order
	Outline geometry.Outline
	Role    int
	Hand    string
}

// frontFromCells makes a front of cells that no tree of splits can make. The
// cells are clipped to the frame, half a gap larger all round; slivers are
// merged or left out; then every region moves its border in by half a gap
// (an odd gap gets a nanometre more), which brings its outer sides onto the
// frame. So the gap is the same everywhere, square to the sides, and tips
// stand back from a meeting point as a mitre does.
//
// A cell that lies wholly in the frame and has nothing left is a
// [TooSmallError] with the advice in try; one at the border is left out and
// counted.
func frontFromCells(b Brief, cells []Cell, try string) (Front, error) {
	half := (b.Gap + 1) / 2
	window, err := b.Frame.Inset(-half)
	if err != nil {
		return Front{}, err
	}
	regions := clipCells(cells, window)
	front := Front{
		Across: terms([]geometry.Length{b.Frame.W()}, 0),
		Down:   terms([]geometry.Length{b.Frame.H()}, 0),
	}
	if b.Options.Text("slivers") == "merge" {
		regions, front.Slivers.Merged = mergeSlivers(regions, half)
	}
	for _, r := range regions {
		panels, err := r.panels(b, half, try, &front.Slivers)
		if err != nil {
			return Front{}, err
		}
		front.Panels = append(front.Panels, panels...)
	}
	front.number()
	return front, nil
}

// region is a cell, or a part of one, inside the window.
type region struct {
	Cell
	cut bool // the window's border cut it
}

func clipCells(cells []Cell, window geometry.Rect) []region {
	var out []region
	corners := window.Outline().Outer.Points()
	for _, c := range cells {
		if window.ContainsRect(c.Outline.Bounds()) {
			out = append(out, region{c, false})
			continue
		}
		for _, part := range c.Outline.Clip(corners) {
			piece := c
			piece.Outline = part
			out = append(out, region{piece, true})
		}
	}
	return out
}

// panels moves a region's border in by half a gap.
func (r region) panels(b Brief, half geometry.Length, try string, count *Slivers) ([]Panel, error) {
	parts := []geometry.Outline{r.Outline}
	if half > 0 {
		var err error
		if parts, err = r.Outline.Inset(half); err != nil {
			return nil, err
		}
	}
	leaveOut := r.cut && b.Options.Text("slivers") == "leave out"
	var out []Panel
	for _, o := range parts {
		size := o.Bounds().Size()
		if min(size.W, size.H) >= LeastPanel && !(leaveOut && isSliver(o)) {
			out = append(out, Panel{Name: r.Name, Outline: o, Role: r.Role, Hand: r.Hand})
		}
	}
	if r.cut {
		count.LeftOut += max(1, len(parts)) - len(out)
		return out, nil
	}
	if len(out) > 0 {
		return out, nil
	}
	name := r.Name
	if name == "" {
		name = "inside the frame"
	}
	return nil, checkSize(name, geometry.Size{}, b, try)
}

// number names the panels that have no name in reading order, and tells
// panels of one name apart by small letters.
func (f *Front) number() {
	byName := map[string][]int{}
	for i, p := range f.Panels {
		byName[p.Name] = append(byName[p.Name], i)
	}
	for name, list := range byName {
		if name != "" && len(list) == 1 {
			continue
		}
		slices.SortStableFunc(list, func(i, j int) int { return compareReading(f.Panels[i].Outline, f.Panels[j].Outline) })
		for k, i := range list {
			if name == "" {
				f.Panels[i].Name = strconv.Itoa(k + 1)
			} else {
				f.Panels[i].Name = name + partName(k)
			}
		}
	}
	slices.SortStableFunc(f.Panels, func(p, q Panel) int { return compareReading(p.Outline, q.Outline) })
}

// compareReading puts regions in reading order of their centres: from the
// top down, and from the left on one level. Levels of one micrometre are one,
// since centres are rounded.
func compareReading(a, b geometry.Outline) int {
	ca, cb := a.Centre(), b.Centre()
	level := func(p geometry.Point) geometry.Length { return (p.Y + geometry.Micrometre/2) / geometry.Micrometre }
	return cmp.Or(cmp.Compare(level(ca), level(cb)), cmp.Compare(ca.X, cb.X))
}
