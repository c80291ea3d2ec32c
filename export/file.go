package export

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// WriteFile puts one file in place whole, or not at all: it is written
// beside the target and then renamed. A file that is there is refused unless
// force is set.
func WriteFile(path string, data []byte, force bool) error {
	if info, err := os.Stat(path); err == nil {
		if info.IsDir() {
			return fmt.Errorf("%s is a folder; name a file", path)
		}
		if !force {
			return fmt.Errorf("%s is there already; name another file, or use --force to write over it", path)
		}
	}
	temp, err := os.CreateTemp(filepath.Dir(path), "."+filepath.Base(path)+".panelry-")
	if err != nil {
		return tellPath("write", path, err)
	}
	_, err = temp.Write(data)
	err = errors.Join(err, temp.Chmod(fs.FileMode(0o644)), temp.Close())
	if err == nil && !force {
		err = os.Link(temp.Name(), path) // fails when somebody else was quicker
		if err == nil {
			return os.Remove(temp.Name())
		}
		if errors.Is(err, fs.ErrExist) {
			os.Remove(temp.Name())
			return fmt.Errorf("%s is there already; name another file, or use --force to write over it", path)
		}
		err = nil // no links on this file system
	}
	if err == nil {
		err = os.Rename(temp.Name(), path)
	}
	if err != nil {
		os.Remove(temp.Name())
		return tellPath("write", path, err)
	}
	return nil
}
