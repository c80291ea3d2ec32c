package export

import "golang.org/x/sys/unix"

// exchange swaps two folders in one step: renamex_np(2), since macOS 10.12.
func exchange(a, b string) error { return unix.RenamexNp(a, b, unix.RENAME_SWAP) }
