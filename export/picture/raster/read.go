package raster

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"io"
	"math"
	"strconv"
	"strings"
)

// element is one element of a picture, with what it takes from its parents.
type element struct {
	tag      string
	attr     map[string]string
	text     string
	children []*element
}

// inherited are the properties that children take over (SVG 2 §13).
var inherited = []string{"fill", "stroke", "stroke-width", "stroke-dasharray", "text-anchor", "font-size", "font-weight"}

// read reads a picture as a tree.
func read(data []byte) (*element, error) {
	decoder := xml.NewDecoder(bytes.NewReader(data))
	var open []*element
	var root *element
	for {
		token, err := decoder.Token()
		if err == io.EOF {
			break
		}
		if err != nil {
			return nil, fmt.Errorf("the picture cannot be read: %w", err)
		}
		switch token := token.(type) {
		case xml.StartElement:
			e := &element{tag: token.Name.Local, attr: map[string]string{}}
			if len(open) > 0 {
				parent := open[len(open)-1]
				parent.children = append(parent.children, e)
				for _, name := range inherited {
					if v, has := parent.attr[name]; has {
						e.attr[name] = v
					}
				}
			} else if root == nil {
				root = e
			}
			for _, a := range token.Attr {
				e.attr[a.Name.Local] = a.Value
			}
			open = append(open, e)
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			if len(open) > 0 {
				open[len(open)-1].text += string(token)
			}
		}
	}
	if root == nil || root.tag != "svg" {
		return nil, fmt.Errorf("the picture is no SVG")
	}
	return root, nil
}

func (e *element) number(name string, otherwise float64) float64 {
	v, err := strconv.ParseFloat(strings.TrimSuffix(e.attr[name], "mm"), 64)
	if err != nil {
		return otherwise
	}
	return v
}

// point is a place in user units.
type point struct{ x, y float64 }

// step is one command of path data.
type step struct {
	command byte // M L C Z
	to      [3]point
}

// farthest is past all that a picture holds, in user units.
const farthest = 1e6

// steps reads path data of the commands M L C Z, a letter for each.
func steps(d string) ([]step, error) {
	words := strings.Fields(strings.NewReplacer("M", " M ", "L", " L ", "C", " C ", "Z", " Z ", ",", " ").Replace(d))
	var list []step
	for i := 0; i < len(words); {
		s := step{command: words[i][0]}
		n, known := map[byte]int{'M': 1, 'L': 1, 'C': 3, 'Z': 0}[s.command]
		if !known || i+2*n >= len(words) || i == 0 && s.command != 'M' {
			return nil, fmt.Errorf("%q in a path is not understood", words[i])
		}
		i++
		for k := range n {
			x, errX := strconv.ParseFloat(words[i], 64)
			y, errY := strconv.ParseFloat(words[i+1], 64)
			if errX != nil || errY != nil || !(math.Abs(x) < farthest && math.Abs(y) < farthest) {
				return nil, fmt.Errorf("%q %q in a path is no place", words[i], words[i+1])
			}
			s.to[k] = point{x, y}
			i += 2
		}
		list = append(list, s)
	}
	return list, nil
}
