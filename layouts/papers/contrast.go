package papers

import (
	"math"
	"slices"
	"strconv"
)

// Contrast returns the contrast ratio of two colours "#rrggbb", from 1 to 21:
// Web Content Accessibility Guidelines 2.2, "contrast ratio" and "relative
// luminance" of its glossary.
func Contrast(a, b string) float64 {
	la, lb := luminance(a), luminance(b)
	return (max(la, lb) + 0.05) / (min(la, lb) + 0.05)
}

func luminance(colour string) float64 {
	rgb, _ := strconv.ParseUint(colour[1:], 16, 32) // the design's reader lets nothing else pass
	channel := func(shift uint) float64 {
		c := float64(rgb>>shift&0xff) / 255
		if c <= 0.04045 {
			return c / 12.92
		}
		return math.Pow((c+0.055)/1.055, 2.4)
	}
	return 0.2126*channel(16) + 0.7152*channel(8) + 0.0722*channel(0)
}

// ClearContrast is the ratio from which shapes stand out from each other:
// WCAG 2.2, success criterion 1.4.11, non-text contrast.
const ClearContrast = 3.0

// keepsContrast reports whether a colour stands out from another as another
// did: as much as before, or clearly.
func keepsContrast(stand, was, against string) bool {
	const rounding = 1e-9
	return Contrast(stand, against) >= math.Min(Contrast(was, against), ClearContrast)-rounding
}

// caliperBand is how much the calipers of papers that stand in for each other
// may differ: two points, two thousandths of an inch. Common practice, no
// source.
const caliperBand = 2 * 25_400 // nm

// Substitutes returns those of a list of papers that can stand in for one:
// of the same size of sheet, in its caliper band, with a pattern that may
// be turned as much and sides as alike, and whose colour keeps the contrast to
// every paper that lies beside it. Papers without a colour, a caliper or a weight
// stand in for none, since nothing is known of them.
func Substitutes(p Paper, list, beside []Paper) []Paper {
	thick, _ := p.Thickness()
	if p.Colour == "" || thick == 0 {
		return nil
	}
	var out []Paper
	for _, q := range list {
		other, _ := q.Thickness()
		if q.Name == p.Name || q.Colour == "" || other == 0 || q.Sheet != p.Sheet || (other-thick).Abs() > caliperBand {
			continue
		}
		if p.usual().Freer(q.usual()) || p.BothAlike && !q.BothAlike {
			continue
		}
		clashes := slices.ContainsFunc(beside, func(r Paper) bool {
			return r.Name == q.Name || !keepsContrast(q.Shown(), p.Shown(), r.Shown())
		})
		if !clashes {
			out = append(out, q)
		}
	}
	return out
}

// usual returns the pattern, plain where nothing is said.
func (p Paper) usual() Pattern {
	if p.Pattern == "" {
		return Plain
	}
	return p.Pattern
}
