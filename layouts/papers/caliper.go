package papers

import (
	"fmt"
	"math"

	"panelry/geometry"
)

// bulk is how many thousandths of a millimetre a paper is thick for each gram
// per square metre: 1.3 is usual for uncoated paper, 0.9 for gloss. From
// memory; tests hold it against thicknesses that printers' and sellers'
// pages give.
const bulk = 1.3

// EstimatedCaliper returns how thick an uncoated paper of that weight is about:
// a thousandth of a millimetre for each gram per square metre, times 1.3.
// Gloss is a third thinner, so a measured caliper goes before it: measure a
// pile of ten and divide.
func EstimatedCaliper(gsm float64) geometry.Length {
	return geometry.Length(math.Round(gsm * bulk * float64(geometry.Micrometre)))
}

// Thickness returns the paper's caliper, or the estimate where only its
// weight is known; 0 where neither is.
func (p Paper) Thickness() (caliper geometry.Length, estimated bool) {
	if p.Caliper > 0 {
		return p.Caliper, false
	}
	return EstimatedCaliper(p.GSM), p.GSM > 0
}

// CaliperDoubt says, in a sentence, that a caliper and a weight contradict
// each other: that one is more than twice what the other leads to expect. It
// is "" where they agree or one is not known.
func (p Paper) CaliperDoubt(unit geometry.Unit) string {
	if p.Caliper <= 0 || p.GSM <= 0 {
		return ""
	}
	usual := EstimatedCaliper(p.GSM)
	way := "thick"
	switch {
	case p.Caliper > 2*usual:
	case 2*p.Caliper < usual:
		way = "thin"
	default:
		return ""
	}
	return fmt.Sprintf("a caliper of %s is very %s for %.0f gsm, which is usually about %s; is one of the two wrong?",
		thin(p.Caliper, unit), way, p.GSM, thin(usual, unit))
}

// thin writes a thickness: to the hundredth of a millimetre or to the
// thousandth of an inch, which the trade calls a point.
func thin(l geometry.Length, unit geometry.Unit) string {
	if unit == geometry.Inches {
		return l.Decimal(unit, 3) + " in"
	}
	return l.Decimal(geometry.Millimetres, 2) + " mm"
}
