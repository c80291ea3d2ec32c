package export

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
)

// fill writes the new files and takes over those to keep. What it cannot do
// is told with the names that the files would have had in the end.
func fill(fresh, old string, files []File, have found) error {
	for _, f := range files {
		name := filepath.FromSlash(f.Name)
		err := os.MkdirAll(filepath.Join(fresh, filepath.Dir(name)), 0o755)
		if err == nil {
			err = os.WriteFile(filepath.Join(fresh, name), f.Data, 0o644)
		}
		if err != nil {
			return tellPath("write", filepath.Join(old, name), err)
		}
	}
	for _, name := range have.empty {
		if err := os.MkdirAll(filepath.Join(fresh, filepath.FromSlash(name)), 0o755); err != nil {
			return tellPath("keep the folder", filepath.Join(old, name), err)
		}
	}
	for _, name := range have.kept {
		from, to := filepath.Join(old, filepath.FromSlash(name)), filepath.Join(fresh, filepath.FromSlash(name))
		if err := takeOver(from, to); err != nil {
			return err
		}
	}
	return nil
}

// takeModes gives folders the modes that they had before, the deepest first;
// a new kit's folder is readable by all.
func takeModes(fresh, old string, folders map[string]fs.FileMode) error {
	names := slices.Sorted(maps.Keys(folders))
	slices.Reverse(names)
	for _, name := range names {
		path := filepath.Join(fresh, filepath.FromSlash(name))
		if err := os.Chmod(path, folders[name]); err != nil && !errors.Is(err, fs.ErrNotExist) {
			return tellPath("keep the folder", filepath.Join(old, name), err)
		}
	}
	mode := fs.FileMode(0o755)
	if info, err := os.Stat(old); err == nil {
		mode = info.Mode().Perm()
	}
	if err := os.Chmod(fresh, mode); err != nil {
		return tellPath("write in", old, err)
	}
	return nil
}

// removeForced removes a folder even where folders in it must not be written
// to.
func removeForced(dir string) error {
	filepath.WalkDir(dir, func(path string, entry fs.DirEntry, err error) error {
		if err == nil && entry.IsDir() {
			os.Chmod(path, 0o755)
		}
		return nil
	})
	return os.RemoveAll(dir)
}

// takeOver gives a file a second name, or copies it where that cannot be.
func takeOver(from, to string) error {
	if err := os.MkdirAll(filepath.Dir(to), 0o755); err != nil {
		return tellPath("keep", from, err)
	}
	info, err := os.Lstat(from)
	if err != nil {
		return tellPath("keep", from, err)
	}
	if info.Mode()&fs.ModeSymlink != 0 {
		target, err := os.Readlink(from)
		if err == nil {
			err = os.Symlink(target, to)
		}
		if err != nil {
			return tellPath("keep", from, err)
		}
		return nil
	}
	if !info.Mode().IsRegular() {
		return fmt.Errorf("%s is no plain file; move it out of the kit's folder", from)
	}
	if os.Link(from, to) == nil {
		return nil
	}
	return copyFile(from, to, info)
}

func copyFile(from, to string, info fs.FileInfo) error {
	in, err := os.Open(from)
	if err != nil {
		return tellPath("keep", from, err)
	}
	defer in.Close()
	out, err := os.OpenFile(to, os.O_CREATE|os.O_EXCL|os.O_WRONLY, info.Mode().Perm())
	if err != nil {
		return tellPath("keep", from, err)
	}
	_, err = io.Copy(out, in)
	if err := errors.Join(err, out.Close(), os.Chtimes(to, info.ModTime(), info.ModTime())); err != nil {
		return tellPath("keep", from, err)
	}
	return nil
}
