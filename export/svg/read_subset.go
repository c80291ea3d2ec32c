package svg

import (
	"slices"
	"strings"

	"panelry/export/svg/markup"
)

const (
	svgNamespace   = "http://www.w3.org/2000/svg"
	xlinkNamespace = "http://www.w3.org/1999/xlink" // svgo declares it always
)

// subset is all that a sheet holds: for each element the attributes that the
// reader knows, and those that it hands on as the maker's own, in the order
// of the file. "data-*" stands for every name by [isDataName].
var subset = map[string]struct{ known, own []string }{
	"svg":   {known: []string{"xmlns", "xmlns:xlink", "width", "height", "viewBox"}},
	"title": {},
	"desc":  {},
	"g":     {known: []string{"id", "fill", "stroke", "stroke-width"}, own: []string{"data-*"}},
	"path":  {known: []string{"d", "fill", "stroke"}, own: []string{"id", "data-*"}},
}

// attributeSet is the attributes of one element of the subset.
type attributeSet struct {
	known map[string]markup.Attribute
	own   []Attribute
}

func (s attributeSet) value(name string) string { return s.known[name].Value }

// attributesOf makes sure that a tag is the element that should stand there
// and has no attribute outside the subset.
func (r *sheetReader) attributesOf(tag markup.Token, want string) (attributeSet, error) {
	set := attributeSet{known: map[string]markup.Attribute{}}
	if err := r.element(tag, want); err != nil {
		return set, err
	}
	allowed := subset[want]
	for _, a := range tag.Attrs {
		name := a.Name
		if isDataName(name) {
			name = "data-*"
		}
		switch {
		case slices.Contains(allowed.known, name):
			set.known[name] = a
		case strings.Contains(name, ":"):
			return set, r.Fault(a.At, "attribute %s is from another namespace; delete it", markup.Shorten(name))
		case !slices.Contains(allowed.own, name):
			return set, r.Fault(a.At, "attribute %s has no place in the <%s> of a sheet, which takes %s",
				markup.Shorten(name), want, takes(append(slices.Clone(allowed.known), allowed.own...)))
		case strings.ContainsAny(a.Raw, "\t\r\n"): // XML 1.0 §3.3.3 makes spaces of them
			return set, r.Fault(a.At, "attribute %s: a tab or a line break in the value; write a space", a.Name)
		default:
			set.own = append(set.own, Attribute{a.Name, a.Value})
		}
	}
	return set, nil
}

func takes(names []string) string {
	if len(names) == 0 {
		return "none"
	}
	return strings.Join(names, ", ")
}

// element makes sure that a tag is the element that should stand there.
func (r *sheetReader) element(tag markup.Token, want string) error {
	name := markup.Shorten(tag.Name)
	switch {
	case tag.Space == "" && tag.Name == want:
		return r.Fault(tag.At, "<%s> is not in the namespace of SVG; write xmlns=%q in the root", name, svgNamespace)
	case tag.Space != svgNamespace && tag.Space != "":
		return r.Fault(tag.At, "element <%s> is from the unknown namespace %q; delete it", name, markup.Shorten(tag.Space))
	case tag.Name != want:
		return r.Fault(tag.At, "element <%s> where <%s> should stand; a sheet holds only svg, title, desc, g and path", name, want)
	}
	return nil
}
