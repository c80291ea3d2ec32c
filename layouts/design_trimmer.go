package layouts

import (
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
	for key, l := range map[string]geometry.Length{"trimmer.pile": out.Pile, "trimmer.kerf": out.Kerf, "trimmer.clean_edge": out.CleanEdge} {
		if l > mostTrimmer {
			in.wrong(key, "%s is more than any trimmer's %s; check its unit", l.Format(in.unit), mostTrimmer.Format(in.unit))
		}
	}
}

// mostTrimmer catches slips of the pen, such as inches for mm.
const mostTrimmer = 2 * geometry.Inch
