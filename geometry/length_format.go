package geometry

// finestMark is the finest mark that rulers carry: 1/64 in.
const finestMark = Inch / 64

// Format writes l with its unit for a sentence or a table: in inches as a
// ruler fraction where l falls exactly on a mark of 1/64 in ("2 5/8 in"),
// else with four decimals ("1.9214 in"); in other units with up to three
// decimals ("48.804 mm"). NoUnit is taken as millimetres.
func (l Length) Format(u Unit) string {
	switch u {
	case Inches:
		if l%finestMark == 0 {
			mark, _ := l.OnRuler(finestMark)
			return mark
		}
		return l.Decimal(Inches, 4) + " in"
	case NoUnit:
		u = Millimetres
	}
	return l.Decimal(u, 3) + " " + u.String()
}

// FormatsExactly reports whether [Length.Format] writes all of l, rather than
// rounding it.
func (l Length) FormatsExactly(u Unit) bool {
	switch u {
	case Inches:
		return l%finestMark == 0 || l%(Inch/10_000) == 0
	case Centimetres:
		return l%(Centimetre/1000) == 0
	}
	return l%Micrometre == 0
}

// Format writes the size with its unit, as [Length.Format] does:
// "4 1/4 x 5 1/2 in".
func (s Size) Format(u Unit) string {
	if u == NoUnit {
		u = Millimetres
	}
	w := s.W.Format(u)
	return w[:len(w)-len(u.String())-1] + " x " + s.H.Format(u)
}
