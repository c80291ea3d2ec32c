package findings

import "flag"

// Nothing here is rewritten by -update, but every package knows it.
var _ = flag.Bool("update", false, "rewrite golden files")
