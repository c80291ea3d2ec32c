package layouts

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"panelry/geometry"
)

// A Direction says which way the patterns of the panels run on the card:
// "upright" (up is up), "radiating" (up points away from the middle of the
// front), "along" (up runs along the panel's longest side), or an angle
// clockwise from upright, "30 deg".
type Direction struct {
	word    string
	degrees float64
}

// Upright is what a design has that says nothing.
var Upright = Direction{word: "upright"}

// ParseDirection reads one of the words or an angle.
func ParseDirection(text string) (Direction, error) {
	text = strings.TrimSpace(text)
	switch text {
	case "upright", "radiating", "along":
		return Direction{word: text}, nil
	}
	for _, unit := range []string{"degrees", "deg", "°"} {
		number, found := strings.CutSuffix(text, unit)
		if !found {
			continue
		}
		d, err := strconv.ParseFloat(strings.TrimSpace(number), 64)
		if err == nil && math.Abs(d) <= 360 {
			return Direction{word: "angle", degrees: geometry.NormalDegrees(d)}, nil
		}
	}
	return Direction{}, fmt.Errorf(`%q is not a direction; write "upright", "radiating", "along" or an angle like "30 deg"`, text)
}

// String writes the direction as a design file has it.
func (d Direction) String() string {
	if d.word == "angle" {
		return strconv.FormatFloat(d.degrees, 'f', -1, 64) + " deg"
	}
	return d.word
}

// Directions lists the words for directions; any angle is one too.
func Directions() []string { return []string{"upright", "radiating", "along"} }

// Degrees returns where the pattern's up points on a panel, clockwise from
// the card's up, for a front with the given middle.
func (d Direction) Degrees(panel geometry.Outline, middle geometry.Point) float64 {
	switch d.word {
	case "angle":
		return d.degrees
	case "radiating":
		return awayFrom(middle, panel.Centre())
	case "along":
		return alongLongest(panel)
	}
	return 0
}

// awayFrom returns the way from the middle to p; a panel in the very middle
// stays upright.
func awayFrom(middle, p geometry.Point) float64 {
	v := p.Sub(middle)
	if v.Len() < float64(geometry.Micrometre) {
		return 0
	}
	return fromUp(v)
}

// fromUp returns a vector's direction clockwise from up, in steps of a
// millionth of a degree so that mirrored panels get mirrored angles.
func fromUp(v geometry.Vector) float64 {
	degrees := math.Atan2(float64(v.X), -float64(v.Y)) * 180 / math.Pi
	return geometry.NormalDegrees(math.Round(degrees*1e6) / 1e6)
}

// alongLongest returns the direction of the longest straight side, the first
// of equals, as it points upwards (to the right, when it is level).
func alongLongest(o geometry.Outline) float64 {
	points := o.Outer.Flatten(geometry.Micrometre)
	var longest geometry.Vector
	for i, p := range points {
		side := points[(i+1)%len(points)].Sub(p)
		if side.Len() > longest.Len()+float64(geometry.Micrometre) {
			longest = side
		}
	}
	if longest.Y > 0 || longest.Y == 0 && longest.X < 0 {
		longest = longest.Neg()
	}
	return fromUp(longest)
}
