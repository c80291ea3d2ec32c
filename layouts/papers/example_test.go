package papers_test

import (
	"fmt"

	"panelry/geometry"
	"panelry/layouts/papers"
)

func Example() {
	for _, text := range []string{"176 gsm", "80 lb cover", "110 lb"} {
		gsm, err := papers.ParseWeight(text)
		if err != nil {
			fmt.Println(err)
			continue
		}
		letter := geometry.Size{W: 17 * geometry.Inch / 2, H: 11 * geometry.Inch}
		fmt.Printf("%s: %.1f gsm, a sheet of 8 1/2 x 11 in weighs %.1f g\n", text, gsm, papers.SheetMass(letter, gsm))
	}
	// Output:
	// 176 gsm: 176.0 gsm, a sheet of 8 1/2 x 11 in weighs 10.6 g
	// 80 lb cover: 216.3 gsm, a sheet of 8 1/2 x 11 in weighs 13.0 g
	// 110 lb can be index (199 gsm) or cover (297 gsm): write 110 lb index or 110 lb cover
}
