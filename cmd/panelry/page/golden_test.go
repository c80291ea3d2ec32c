package page

import "flag"

var _ = flag.Bool("update", false, "rewrite golden files (there are none in this package)")
