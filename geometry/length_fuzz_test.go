package geometry_test

import (
	"testing"

	"panelry/geometry"
)

// Reading never panics, and what is read is within the limit, prints and
// reads back to the same.

func FuzzParseLength(f *testing.F) {
	for _, seed := range []string{
		"", "4 1/4", "4-1/4", "4¼", "1/8 in", `2 5/8"`, "3.2 mm", "3,2 cm", "1,250", "-1/8 in", "−3 mm",
		"1⁄8″", "--1/4", "1/0", "100000 mm", "99999999999999999999999999", "İİİİ mm", "\xff¼", ".", "5.",
	} {
		f.Add(seed, int(geometry.Inches))
		f.Add(seed, int(geometry.NoUnit))
	}
	f.Fuzz(func(t *testing.T, text string, unit int) {
		l, err := geometry.ParseLength(text, geometry.Unit(uint(unit)%4))
		if err != nil {
			if l != 0 {
				t.Fatalf("%q gives %v and an error", text, l)
			}
			return
		}
		if l.Abs() > geometry.Limit {
			t.Fatalf("%q gives %v, past the limit", text, l)
		}
		again, err := geometry.ParseLength(l.String(), geometry.NoUnit)
		if err != nil || again != l {
			t.Fatalf("%q gives %v, and that gives %v, %v", text, l, again, err)
		}
	})
}

func FuzzParseSize(f *testing.F) {
	for _, seed := range []string{
		"", "x", "12 x 12 in", "210x297mm", "4¼×5½ in", "4 1/4 in x 50 mm", "12 X", "1 x 1 x 1", "-1 x 2 cm", "×\xff",
	} {
		f.Add(seed, int(geometry.Millimetres))
		f.Add(seed, int(geometry.NoUnit))
	}
	f.Fuzz(func(t *testing.T, text string, unit int) {
		s, err := geometry.ParseSize(text, geometry.Unit(uint(unit)%4))
		if err != nil {
			if s != (geometry.Size{}) {
				t.Fatalf("%q gives %v and an error", text, s)
			}
			return
		}
		again, err := geometry.ParseSize(s.String(), geometry.NoUnit)
		if err != nil || again != s {
			t.Fatalf("%q gives %v, and that gives %v, %v", text, s, again, err)
		}
	})
}
