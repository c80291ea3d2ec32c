package layouts

import (
	"maps"
	"slices"
	"strings"

	"panelry/geometry"
	"panelry/layouts/fronts"
	"panelry/layouts/wording"
)

func (in *reading) front() {
	values, front := in.file.Front, &in.design.Front
	front.Margin = in.notNegative("front.margin", values["margin"], in.usual())
	front.Gap = in.notNegative("front.gap", values["gap"], in.usual())
	in.directions(values["direction"])
	front.OnRuler = in.choice("front.sizes", values["sizes"], in.usualSizes(), []string{exactSizes, rulerSizes}) == rulerSizes
	front.Exact = values["sizes"] != nil && !front.OnRuler
	in.frontPapers(values["papers"])
	in.layout(values)
	size := in.design.Card.Size
	if least := min(size.W, size.H); least > 0 && 2*front.Margin >= least {
		in.wrong("front.margin", "two margins of %s leave nothing of %s; use less than %s",
			front.Margin.Format(in.unit), least.Format(in.unit), (least / 2).Format(in.unit))
	}
}

// directions reads one direction for all panels, or a table by panel.
func (in *reading) directions(value any) {
	front := &in.design.Front
	front.Direction = Upright
	table, ok := value.(map[string]any)
	if !ok {
		front.Direction = in.direction("front.direction", value)
		return
	}
	front.DirectionOf = map[string]Direction{}
	for _, panel := range slices.Sorted(maps.Keys(table)) {
		front.DirectionOf[panel] = in.direction("front.direction."+panel, table[panel])
	}
	if rest, ok := front.DirectionOf["rest"]; ok {
		front.Direction = rest
		delete(front.DirectionOf, "rest")
	}
}

func (in *reading) direction(key string, value any) Direction {
	direction, err := ParseDirection(in.text(key, value, "upright"))
	if err != nil {
		in.wrong(key, "%v", err)
		return Upright
	}
	return direction
}

// shapes checks what the design keeps of files with shapes: texts by name.
func (in *reading) shapes() {
	for _, name := range slices.Sorted(maps.Keys(in.file.Shapes)) {
		if _, ok := in.file.Shapes[name].(string); !ok {
			in.wrong("shapes."+name, "write the text of an SVG file, between three single quotes")
		}
	}
}

// The words of front.sizes.
const (
	exactSizes = "exact"
	rulerSizes = "on the ruler"
)

// usualSizes is "on the ruler" where the design names a ruler and every tool
// is held by hand: a cutter cuts any size.
func (in *reading) usualSizes() string {
	if in.file.Ruler != nil && !slices.Contains(in.design.Tools, Cutter) {
		return rulerSizes
	}
	return exactSizes
}

// usual is the margin and the gap of a design that does not say: common
// practice, no source.
func (in *reading) usual() geometry.Length {
	if in.unit == geometry.Millimetres {
		return 3 * geometry.Millimetre
	}
	return geometry.Inch / 8
}

// layout finds the layout and reads its options.
func (in *reading) layout(values map[string]any) {
	var names []string
	for _, l := range fronts.All() {
		names = append(names, l.Name)
	}
	name := in.text("front.layout", values["layout"], "")
	layout, ok := fronts.Find(name)
	switch _, isText := values["layout"].(string); {
	case values["layout"] == nil:
		in.wrong("front.layout", `missing; write a layout like "diagonal halves"; panelry layouts lists them`)
	case isText && !ok:
		in.wrong("front.layout", "no layout is called %q%s; panelry layouts lists them", name, strings.TrimSuffix(wording.Meant(name, names), "?"))
	}
	if !ok {
		return
	}
	front := &in.design.Front
	front.Layout, front.Options = layout, layout.Defaults()
	known := slices.Clone(frontKeys)
	for _, o := range layout.Options {
		known = append(known, o.Name)
	}
	for _, key := range slices.Sorted(maps.Keys(values)) {
		value := values[key]
		if !slices.Contains(known, key) {
			in.wrong("front."+key, "%q has no such key%s", name, meantKey(key, known))
			continue
		}
		if slices.Contains(frontKeys, key) {
			continue
		}
		read, err := layout.ReadOption(key, value, in.unit)
		if err != nil {
			in.wrong("front."+key, "%v", err)
			continue
		}
		front.Options[key] = read
		if o, _ := layout.Option(key); o.Kind == fronts.File {
			in.openShapes("front."+key, read.(string))
		}
	}
}

// openShapes fetches the outlines in a file.
func (in *reading) openShapes(key, name string) {
	if in.open == nil {
		in.wrong(key, "this design takes shapes from a file, which is not allowed here")
		return
	}
	var text []byte
	if kept, ok := in.file.Shapes[name].(string); ok {
		text = []byte(kept)
	}
	shapes, err := in.open(name, text)
	if err != nil {
		in.wrong(key, "%v", err)
		return
	}
	in.design.Front.Shapes = shapes
}

// frontPapers reads papers in turn, or by panel.
func (in *reading) frontPapers(value any) {
	front := &in.design.Front
	switch v := value.(type) {
	case nil:
		for _, name := range paperNames(in.design.Papers) {
			if name != in.design.Card.Paper {
				front.Papers = append(front.Papers, name)
			}
		}
	case string:
		front.Papers = []string{in.paperName("front.papers", v)}
	case []any:
		for _, item := range v {
			front.Papers = append(front.Papers, in.paperName("front.papers", item))
		}
	case map[string]any:
		front.ByPanel, front.Papers = in.papersByPanel("front.papers", v)
	default:
		in.wrong("front.papers", `write a list of papers, like ["kelp", "tide"], or a table by panel`)
		return
	}
	if len(front.Papers) == 0 && len(front.ByPanel) == 0 {
		in.wrong("front.papers", "there is no paper for the panels; name one, and describe it under [[papers]]")
	}
}

// papersByPanel reads a table of papers by panel, and the one for the rest.
func (in *reading) papersByPanel(key string, table map[string]any) (byPanel map[string]string, rest []string) {
	byPanel = map[string]string{}
	for _, panel := range slices.Sorted(maps.Keys(table)) {
		byPanel[panel] = in.paperName(key+"."+panel, table[panel])
	}
	if name, ok := byPanel["rest"]; ok {
		rest = []string{name}
		delete(byPanel, "rest")
	}
	return byPanel, rest
}

// paperName reads the name of a paper that must be described.
func (in *reading) paperName(key string, value any) string {
	if value == nil {
		in.wrong(key, "missing; name the paper, and describe it under [[papers]]")
		return ""
	}
	if _, ok := value.(string); !ok {
		in.wrong(key, "write the name of a paper in quotes")
		return ""
	}
	name := in.text(key, value, "")
	known := slices.DeleteFunc(paperNames(in.design.Papers), func(name string) bool { return name == "" })
	if name == "" || !slices.Contains(known, name) {
		in.wrong(key, "no paper is called %q%s", name, meantPaper(name, known))
	}
	return name
}

func meantPaper(name string, known []string) string {
	if len(known) == 0 {
		return "; describe it under [[papers]]"
	}
	return meantKey(name, known)
}
