package fronts

import (
	"cmp"
	"fmt"
	"slices"
)

// A Layout is one way to divide a front.
type Layout struct {
	Name    string // as the design file has it: "diagonal halves"
	Summary string // one line
	Options []Option
	// Roles says how papers in turn are given to the panels, in one line.
	Roles string
	// Divide makes the front. Its errors are sentences about the design: an
	// [OptionError], or for a panel that would be too small a [TooSmallError].
	Divide func(Brief) (Front, error)
}

var registered []Layout

// Register adds a layout when the program starts. A second layout of one
// name, or a default that cannot be read, is a bug and panics.
func Register(l Layout) {
	if _, ok := Find(l.Name); ok {
		panic("fronts: two layouts are called " + l.Name)
	}
	for _, o := range l.Options {
		if o.Default == nil {
			continue
		}
		if _, err := o.read(o.Default, 0); err != nil {
			panic(fmt.Sprintf("fronts: %s: option %s: %v", l.Name, o.Name, err))
		}
	}
	divide := l.Divide
	l.Divide = func(b Brief) (Front, error) {
		front, err := divide(b)
		if err == nil && len(front.Panels) == 0 { // all were slivers, and left out
			err = &TooSmallError{Panel: "1", Unit: b.Unit, Try: "use a smaller gap or margin, or fewer pieces"}
		}
		if err != nil {
			return Front{}, err
		}
		return front, nil
	}
	registered = append(registered, l)
	slices.SortFunc(registered, func(a, b Layout) int { return cmp.Compare(a.Name, b.Name) })
}

// All returns the layouts in the order of their names.
func All() []Layout { return slices.Clone(registered) }

// Find returns the layout of that name.
func Find(name string) (Layout, bool) {
	i := slices.IndexFunc(registered, func(l Layout) bool { return l.Name == name })
	if i < 0 {
		return Layout{}, false
	}
	return registered[i], true
}

// Option returns the layout's option of that name.
func (l Layout) Option(name string) (Option, bool) {
	i := slices.IndexFunc(l.Options, func(o Option) bool { return o.Name == name })
	if i < 0 {
		return Option{}, false
	}
	return l.Options[i], true
}
