//go:build !linux && !darwin

package export

import "errors"

// exchange cannot be had here in one step.
func exchange(a, b string) error { return errors.ErrUnsupported }
