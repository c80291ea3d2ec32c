package nesting_test

import "flag"

// The flag lets `go test ./... -update` run over all packages.
var _ = flag.Bool("update", false, "rewrite golden files (there are none in this package)")
