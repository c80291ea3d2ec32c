package layouts

import (
	"fmt"

	"panelry/geometry"
)

// TrimmerSettings describe the trimmer that straight cuts are planned for.
type TrimmerSettings struct {
	Longest    geometry.Length // the longest cut; 0 when not said: any
	Narrowest  geometry.Length // the narrowest strip that it holds
	Pile       geometry.Length // how thick a pile it cuts; 0 for one sheet at a time
	Kerf       geometry.Length // what a cut takes away: 0 for blades
	CleanEdge  geometry.Length // trimmed off each sheet first, to measure from; 0 for none
	LeftHanded bool            // pictures for somebody who cuts with the left hand
}

// The hands of [trimmer].
const (
	rightHand = "right"
	leftHand  = "left"
)

func (in *reading) trimmer() {
	t, out := in.file.Trimmer, &in.design.Trimmer
	out.Longest = in.notNegative("trimmer.longest", t.Longest, 0)
	out.Narrowest = in.notNegative("trimmer.narrowest", t.Narrowest, TrimmerBreadth)
	out.Pile = in.notNegative("trimmer.pile", t.Pile, 0)
	out.Kerf = in.notNegative("trimmer.kerf", t.Kerf, 0)
	out.CleanEdge = in.notNegative("trimmer.clean_edge", t.CleanEdge, 0)
	out.LeftHanded = in.choice("trimmer.hand", t.Hand, rightHand, []string{rightHand, leftHand}) == leftHand
	if key, complaint := out.Check(in.unit); complaint != "" {
		in.wrong("trimmer."+key, "%s", complaint)
	}
}

// Check says which key of the settings is more than any trimmer has, and why;
// nothing where all are likely.
func (t TrimmerSettings) Check(unit geometry.Unit) (key, complaint string) {
	for _, l := range []struct {
		key    string
		length geometry.Length
	}{{"pile", t.Pile}, {"kerf", t.Kerf}, {"clean_edge", t.CleanEdge}} {
		if l.length > mostTrimmer {
			return l.key, fmt.Sprintf("%s is more than any trimmer's %s; check its unit", l.length.Format(unit), mostTrimmer.Format(unit))
		}
	}
	return "", ""
}

// mostTrimmer catches slips of the pen, such as inches for mm.
const mostTrimmer = 2 * geometry.Inch
