package page

import (
	"context"
	"fmt"
	"time"

	"panelry/geometry"
	"panelry/layouts/sums"
)

// niceTime is how long to look for nicer margins and gaps.
const niceTime = 3 * time.Second

// A nicer margin and gap, as a button.
type nicer struct{ Do, Text string }

// Nicer offers margins and gaps that put every size on the ruler.
func (p *pageData) Nicer() []nicer {
	if !p.drawn || !p.nice {
		return nil
	}
	wish := sums.NiceWish{Tolerance: geometry.Inch / 16, Most: 3}
	if p.design.Units == geometry.Millimetres {
		wish.Tolerance = geometry.Millimetre * 3 / 2
	}
	d := p.design
	d.Sheets.Effort = "quick"
	ctx, stop := context.WithTimeout(context.Background(), niceTime)
	defer stop()
	choices, err := sums.Nice(ctx, d, wish)
	if err != nil {
		return nil
	}
	var out []nicer
	for _, c := range choices {
		sizes := "exact"
		if c.OnRuler {
			sizes = "on the ruler"
		}
		do := fmt.Sprintf("choose front.margin=%s|front.gap=%s|front.sizes=%s", p.exact(c.Margin), p.exact(c.Gap), sizes)
		text := fmt.Sprintf("margin %s, gap %s, sizes %s", c.Margin.Format(p.show()), c.Gap.Format(p.show()), sizes)
		if c.OffRuler > 0 {
			text += fmt.Sprintf(", %s beside a mark", counted(c.OffRuler, "size", "sizes"))
		}
		out = append(out, nicer{do, text})
	}
	return out
}

// NiceLink asks for them.
func (p *pageData) NiceLink() string {
	v := p.view
	v.nice = true
	return p.link(v, "h-sums")
}

// AskedNice and AskedFit report what was asked for.
func (p *pageData) AskedNice() bool  { return p.nice }
func (p *pageData) AskedFit() string { return p.fit }

// FitPanel is the panel whose size is asked about: that of the slip, else the
// first.
func (p *pageData) FitPanel() string {
	if panel := p.openPanel(); panel != nil {
		return panel.Name
	}
	return p.kit.Card.Panels[0].Name
}

// Fitting answers which margin, gap or card gives a panel the asked size.
func (p *pageData) Fitting() (list []nicer) {
	if !p.drawn || p.fit == "" {
		return nil
	}
	size, err := geometry.ParseSize(p.fit, p.show())
	if err != nil {
		return []nicer{{"", p.told(err.Error())}}
	}
	answers, err := sums.Solve(p.design, sums.Target{Panel: p.FitPanel(), Size: size})
	if err != nil {
		return []nicer{{"", p.told(err.Error())}}
	}
	for _, a := range answers {
		if a.Why != "" {
			continue
		}
		do := fmt.Sprintf("choose front.margin=%s|front.gap=%s", p.exact(a.Margin), p.exact(a.Gap))
		text := fmt.Sprintf("margin %s, gap %s", a.Margin.Format(p.show()), a.Gap.Format(p.show()))
		if a.Card != p.design.Card.Size {
			do += fmt.Sprintf("|card.width=%s|card.height=%s", p.exact(a.Card.W), p.exact(a.Card.H))
			text += ", card " + a.Card.Format(p.show())
		}
		if !a.Exact() {
			text += fmt.Sprintf("; the panel is then %s", a.Got.Format(p.show()))
		}
		list = append(list, nicer{do, text})
	}
	if len(list) == 0 {
		list = []nicer{{"", "No margin, gap or card makes it that size."}}
	}
	return list
}

// Slants are the cells of diagonal halves, for turning their cuts.
type slantCell struct {
	Do, Name string
	Rising   bool
}

// Slants returns rows of cells; none where the front has no such.
func (p *pageData) Slants() [][]slantCell {
	var out [][]slantCell
	for r, row := range p.slants() {
		var cells []slantCell
		for c, mark := range row {
			cells = append(cells, slantCell{fmt.Sprintf("slant %d,%d", c, r), fmt.Sprintf("%c%d", 'A'+c, r+1), mark == '/'})
		}
		out = append(out, cells)
	}
	return out
}
