package fronts

import (
	"fmt"
	"math"
	"math/big"
	"strings"

	"panelry/geometry"
	"panelry/layouts/wording"
)

// A Share is an exact part of a whole, from 0 to 1.
type Share struct{ part *big.Rat }

// Of returns that part of a length, to the nearest nanometre.
func (s Share) Of(l geometry.Length) geometry.Length {
	product := new(big.Rat).Mul(s.part, new(big.Rat).SetInt64(int64(l)))
	nearest, _ := new(big.Float).SetRat(product).Float64()
	return geometry.Length(math.Round(nearest)) // under 2^53 nm the float64 is exact enough
}

// Float returns the share as a number.
func (s Share) Float() float64 { f, _ := s.part.Float64(); return f }

// shareWords are the shares that have names.
var shareWords = map[string]*big.Rat{
	"half": big.NewRat(1, 2), "third": big.NewRat(1, 3), "quarter": big.NewRat(1, 4),
}

// readShare reads "1/3", "half", "40 %" or 0.4.
func readShare(value any) (Share, error) {
	wrong := fmt.Errorf("%s: write a share like \"1/3\", \"half\", \"40 %%\" or 0.4", wording.Shortly(value))
	text, ok := lengthText(value)
	if !ok || len(text) > 24 {
		return Share{}, wrong
	}
	if part, ok := shareWords[text]; ok {
		return Share{part}, nil
	}
	number, percent := strings.CutSuffix(text, "%")
	number = strings.TrimSpace(number)
	if strings.Trim(number, "0123456789./") != "" {
		return Share{}, wrong
	}
	part, ok := new(big.Rat).SetString(number)
	if !ok {
		return Share{}, wrong
	}
	if percent {
		part.Quo(part, big.NewRat(100, 1))
	}
	if part.Sign() < 0 || part.Cmp(big.NewRat(1, 1)) > 0 {
		return Share{}, wrong
	}
	return Share{part}, nil
}

// A Place is a place in the frame: shares of its width and height from its
// top left.
type Place struct{ Across, Down Share }

// In returns the place in a frame.
func (p Place) In(frame geometry.Rect) geometry.Point {
	return geometry.Point{X: frame.Min.X + p.Across.Of(frame.W()), Y: frame.Min.Y + p.Down.Of(frame.H())}
}

// placeWords are the places that have names, by columns and rows of halves.
var placeWords = []string{
	"top left", "top", "top right",
	"left", "middle", "right",
	"bottom left", "bottom", "bottom right",
}

// readPlace reads one of the words, or a list of two shares.
func readPlace(value any) (Place, error) {
	if text, ok := value.(string); ok {
		for i, word := range placeWords {
			if word == text {
				return Place{Share{big.NewRat(int64(i%3), 2)}, Share{big.NewRat(int64(i/3), 2)}}, nil
			}
		}
	}
	list, ok := value.([]any)
	if !ok || len(list) != 2 {
		return Place{}, fmt.Errorf("%s: write %s, or two shares like [\"1/2\", \"1/3\"], across and down", wording.Shortly(value), wording.Or(placeWords))
	}
	across, err := readShare(list[0])
	if err != nil {
		return Place{}, err
	}
	down, err := readShare(list[1])
	return Place{across, down}, err
}

// readAngle reads "30 deg", "30" or 30, in degrees clockwise.
func readAngle(value any) (float64, error) {
	text, ok := lengthText(value)
	for _, unit := range []string{"degrees", "deg", "°"} {
		text = strings.TrimSuffix(text, unit)
	}
	var degrees float64
	if n, err := fmt.Sscanf(strings.TrimSpace(text)+" .", "%g .", &degrees); !ok || err != nil || n != 1 || math.Abs(degrees) > 360 {
		return 0, fmt.Errorf("%s: write an angle like \"30 deg\"", wording.Shortly(value))
	}
	return degrees, nil
}

func readLength(value any, unit geometry.Unit) (geometry.Length, error) {
	text, ok := lengthText(value)
	if !ok {
		return 0, fmt.Errorf("write a length, like \"1/8\" or \"3.2 mm\"")
	}
	length, err := geometry.ParseLength(text, unit)
	if err == nil && (length < 0 || length > geometry.Metre) {
		err = fmt.Errorf("%q: write a length from 0 to 1 m", text)
	}
	return length, err
}

// Length returns a Length option's value, 0 when absent.
func (o Options) Length(name string) geometry.Length { l, _ := o[name].(geometry.Length); return l }

// Degrees returns an Angle option's value, 0 when absent.
func (o Options) Degrees(name string) float64 { d, _ := o[name].(float64); return d }

// Share returns a Portion option's value; ok is false when absent.
func (o Options) Share(name string) (share Share, ok bool) { share, ok = o[name].(Share); return }

// Place returns a Spot option's value; ok is false when absent.
func (o Options) Place(name string) (place Place, ok bool) { place, ok = o[name].(Place); return }
