package page

import (
	"crypto/sha256"
	"errors"
	"fmt"
	"net/http"
	"net/url"
	"strconv"
	"strings"

	"panelry/export/picture"
	"panelry/geometry"
	"panelry/layouts/fronts"
)

// A sample is one picture of the gallery.
type sample struct {
	Name string
	Link string // of the picture
	Now  bool
}

// shownFronts is how many fronts of the gallery are shown at once.
const shownFronts = 12

// gallery lists all fronts, with pictures at the card's size, margin and gap.
// The first are those that are shown at once. Own shapes are among them only
// when there are some.
func (s *state) gallery() (first, others []sample) {
	now := s.layout().Name
	for _, l := range fronts.All() {
		if l.Name == ownShapes && now != ownShapes {
			continue
		}
		one := sample{Name: l.Name, Link: s.sampleLink(l.Name), Now: l.Name == now}
		if len(first) < shownFronts {
			first = append(first, one)
		} else {
			others = append(others, one)
		}
	}
	return first, others
}

// ownShapes is the front that a file is uploaded for.
const ownShapes = "own shapes"

// WantsShapes reports that a maker's own shapes are the front, or were chosen
// to be, so that the upload stands beside the choice.
func (p *pageData) WantsShapes() bool {
	_, wrong := p.errors["shapes"]
	return wrong || p.layout().Name == ownShapes || p.errors["front.layout"].typed == ownShapes
}

// sampleLink names a picture by all that it shows, so that a browser may keep
// it.
func (s *state) sampleLink(name string) string {
	d := s.design
	q := url.Values{"l": {name}}
	for key, l := range map[string]geometry.Length{"w": d.Card.Size.W, "h": d.Card.Size.H, "m": d.Front.Margin, "g": d.Front.Gap} {
		q.Set(key, strconv.FormatInt(int64(l), 10))
	}
	return "/front.svg?" + q.Encode()
}

// greys are what the gallery shows the roles of panels in: shapes are
// compared, not colours.
var greys = []string{"#4d565d", "#8b9297", "#b4b7b5", "#d9d7d0"}

// serveFront answers with the picture of one front.
func (sv *Server) serveFront(w http.ResponseWriter, r *http.Request) {
	q := r.URL.Query()
	length := func(key string) geometry.Length {
		n, err := strconv.ParseInt(q.Get(key), 10, 64)
		if err != nil || n < 0 || n > int64(geometry.Metre) {
			return -1
		}
		return geometry.Length(n)
	}
	size := geometry.Size{W: length("w"), H: length("h")}
	margin, gap := length("m"), length("g")
	l, ok := fronts.Find(q.Get("l"))
	if !ok || size.W < geometry.Millimetre || size.H < geometry.Millimetre || margin < 0 || gap < 0 {
		http.Error(w, "There is no such front.", http.StatusNotFound)
		return
	}
	done, err := sv.desk.turn(r.Context())
	if err != nil {
		return
	}
	defer done()
	body := frontPicture(l, size, margin, gap)
	tag := fmt.Sprintf(`"%x"`, sha256.Sum256([]byte(body)))
	w.Header().Set("Content-Type", "image/svg+xml")
	w.Header().Set("Cache-Control", "private, max-age=86400")
	w.Header().Set("ETag", tag)
	w.Write([]byte(body))
}

// whyNot says in a few short lines why a front is not drawn.
func whyNot(err error) []string {
	if errors.As(err, new(*fronts.OptionError)) {
		return []string{"wants more", "to be said", "first"}
	}
	return []string{"cannot be", "made at", "this size"}
}

// frontPicture draws a front in greys. One that cannot be made at this size
// is an empty card with a dotted edge and the reason in it.
func frontPicture(l fronts.Layout, size geometry.Size, margin, gap geometry.Length) string {
	var b strings.Builder
	fmt.Fprintf(&b, `<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 %s %s">`, num(mm(size.W)), num(mm(size.H)))
	front, err := sampleFront(l, size, margin, gap)
	if err != nil {
		w, h := mm(size.W), mm(size.H)
		fmt.Fprintf(&b, `<rect width="%s" height="%s" fill="#fdfcf9" stroke="#555b60" stroke-width="%s" stroke-dasharray="%s %s"/><g fill="#555b60" font-family="sans-serif" font-size="%s" text-anchor="middle">`,
			num(w), num(h), num(w/50), num(w/50), num(w/25), num(w/9))
		for i, line := range whyNot(err) {
			fmt.Fprintf(&b, `<text x="%s" y="%s">%s</text>`, num(w/2), num(h/2+w/7*float64(i-1)), line)
		}
		b.WriteString(`</g></svg>`)
		return b.String()
	}
	fmt.Fprintf(&b, `<rect width="%s" height="%s" fill="#fdfcf9"/>`, num(mm(size.W)), num(mm(size.H)))
	roles := make([][]geometry.Outline, len(greys))
	for _, p := range front.Panels {
		role := p.Role % len(greys)
		roles[role] = append(roles[role], p.Outline)
	}
	for i, list := range roles {
		if len(list) > 0 {
			fmt.Fprintf(&b, `<path fill="%s" d="%s"/>`, greys[i], picture.PathData(list...))
		}
	}
	b.WriteString(`</svg>`)
	return b.String()
}

func sampleFront(l fronts.Layout, size geometry.Size, margin, gap geometry.Length) (fronts.Front, error) {
	frame, err := geometry.RectFromSize(geometry.Point{}, size).Inset(margin)
	if err != nil {
		return fronts.Front{}, err
	}
	front, err := l.Divide(fronts.Brief{Frame: frame, Gap: gap, Options: l.Defaults(), Unit: geometry.Inches})
	if err == nil && len(front.Panels) == 0 {
		err = errors.New("nothing")
	}
	return front, err
}
