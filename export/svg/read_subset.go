package svg

import (
	"slices"
	"strings"
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
	known map[string]attribute
	own   []Attribute
}

func (s attributeSet) value(name string) string { return s.known[name].value }

// attributesOf makes sure that a tag is the element that should stand there
// and has no attribute outside the subset.
func (r *sheetReader) attributesOf(tag token, want string) (attributeSet, error) {
	set := attributeSet{known: map[string]attribute{}}
	if err := r.element(tag, want); err != nil {
		return set, err
	}
	allowed := subset[want]
	for _, a := range tag.attrs {
		name := a.name
		if isDataName(name) {
			name = "data-*"
		}
		switch {
		case slices.Contains(allowed.known, name):
			set.known[name] = a
		case strings.Contains(name, ":"):
			return set, r.fault(a.at, "attribute %s is from another namespace; delete it", shorten(name))
		case !slices.Contains(allowed.own, name):
			return set, r.fault(a.at, "attribute %s has no place in the <%s> of a sheet, which takes %s",
				shorten(name), want, takes(append(slices.Clone(allowed.known), allowed.own...)))
		case strings.ContainsAny(a.raw, "\t\r\n"): // XML 1.0 §3.3.3 makes spaces of them
			return set, r.fault(a.at, "attribute %s: a tab or a line break in the value; write a space", a.name)
		default:
			set.own = append(set.own, Attribute{a.name, a.value})
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
func (r *sheetReader) element(tag token, want string) error {
	name := shorten(tag.name)
	switch {
	case tag.space == "" && tag.name == want:
		return r.fault(tag.at, "<%s> is not in the namespace of SVG; write xmlns=%q in the root", name, svgNamespace)
	case tag.space != svgNamespace && tag.space != "":
		return r.fault(tag.at, "element <%s> is from the unknown namespace %q; delete it", name, shorten(tag.space))
	case tag.name != want:
		return r.fault(tag.at, "element <%s> where <%s> should stand; a sheet holds only svg, title, desc, g and path", name, want)
	}
	return nil
}
