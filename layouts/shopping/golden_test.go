package shopping_test

import "flag"

// go test ./... -update works in every package, also where there is nothing
// to rewrite.
var _ = flag.Bool("update", false, "rewrite golden files (there are none in this package)")
