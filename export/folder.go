package export

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"strings"
	"time"
)

// A Report tells what writing a folder did besides.
type Report struct {
	Kept    []string // files in the folder that are not of this kit, in order
	Removed int      // files of the earlier kit that were taken away or replaced
}

// WriteFolder puts the files in a folder: all of them or, after any error,
// none. They are written to a new folder beside the target, which then takes
// the target's place in one step (in two on systems that cannot exchange
// folders; a run that was stopped between them is put right by the next).
//
// A folder that holds a kit loses those files that its kit.json lists, if
// they are as they were written; all else is kept and reported. A file that
// would be written over although it was changed or never was Panelry's, and
// a folder with files but without a kit.json, are refused unless force is
// set; force replaces such files and still keeps all others.
func WriteFolder(dir string, files []File, force bool) (Report, error) {
	dir, err := whereFolder(dir)
	if err != nil {
		return Report{}, err
	}
	if err := recoverFolder(dir); err != nil {
		return Report{}, err
	}
	found, err := survey(dir, files, force)
	if err != nil {
		return Report{}, err
	}
	fresh, err := os.MkdirTemp(filepath.Dir(dir), scratchPrefix(dir))
	if err != nil {
		return Report{}, tellPath("make a folder beside", dir, err)
	}
	if err := fill(fresh, dir, files, found); err != nil {
		os.RemoveAll(fresh)
		return Report{}, err
	}
	if err := takeModes(fresh, dir, found.folders); err != nil {
		removeForced(fresh)
		return Report{}, err
	}
	rescue := func(old string) error { return found.rescue(old, dir) }
	if err := putInPlace(fresh, dir, rescue); err != nil {
		removeForced(fresh)
		return Report{}, tellPath("put the kit in", dir, err)
	}
	return Report{found.kept, found.removed}, nil
}

// FolderReady tells what WriteFolder would refuse whatever the files are, so
// that it is known before the work of making them.
func FolderReady(dir string, force bool) error {
	dir, err := whereFolder(dir)
	if err == nil {
		_, err = survey(dir, nil, force)
	}
	return err
}

// whereFolder returns the folder itself, and refuses one that cannot be.
func whereFolder(dir string) (string, error) {
	dir, err := filepath.Abs(dir)
	if err != nil {
		return "", err
	}
	if dir, err = realFolder(dir); err != nil {
		return "", err
	}
	if info, err := os.Stat(filepath.Dir(dir)); err != nil || !info.IsDir() {
		return "", fmt.Errorf("there is no folder %s to put %s in; make it first", filepath.Dir(dir), filepath.Base(dir))
	}
	return dir, nil
}

// realFolder follows links to the folder itself, and refuses a link that
// leads nowhere, and a folder that the program was started in or below: it
// would be pulled away from under whoever stands there.
func realFolder(dir string) (string, error) {
	real, err := filepath.EvalSymlinks(dir)
	if err != nil {
		if _, err := os.Lstat(dir); err == nil {
			return "", fmt.Errorf("%s is a link that leads nowhere; name another folder", dir)
		}
		return dir, nil
	}
	here, err := os.Getwd()
	if err != nil {
		return real, nil
	}
	if here, err = filepath.EvalSymlinks(here); err == nil && within(real, here) {
		return "", fmt.Errorf("%s is the folder that you are in, and a kit takes its folder's place; go out of it, or name another", dir)
	}
	return real, nil
}

// within reports whether a path is a folder or lies below it.
func within(folder, path string) bool {
	relative, err := filepath.Rel(folder, path)
	return err == nil && relative != ".." && !strings.HasPrefix(relative, ".."+string(filepath.Separator))
}

// scratchPrefix begins the names of folders that are being written for dir.
func scratchPrefix(dir string) string { return "." + filepath.Base(dir) + ".panelry-" }

// setAside ends the name of an old kit that is being replaced in two steps.
const setAside = ".old"

// tellPath puts a system's error in a sentence.
func tellPath(what, path string, err error) error {
	var pathError *fs.PathError
	var linkError *os.LinkError
	switch {
	case errors.As(err, &pathError):
		err = pathError.Err
	case errors.As(err, &linkError):
		err = linkError.Err
	}
	return fmt.Errorf("cannot %s %s: %w", what, path, err)
}

// exchangeFolders is a variable so that a test can do without.
var exchangeFolders = exchange

// putInPlace makes fresh the folder dir and removes what was there, once
// rescue has taken over from it what was saved there meanwhile. What cannot be
// rescued or removed stays in the folder set aside.
func putInPlace(fresh, dir string, rescue func(old string) error) error {
	if _, err := os.Lstat(dir); errors.Is(err, fs.ErrNotExist) {
		return os.Rename(fresh, dir)
	}
	old := fresh
	if exchangeFolders(fresh, dir) != nil {
		old = fresh + setAside
		if err := os.Rename(dir, old); err != nil {
			return err
		}
		if err := os.Rename(fresh, dir); err != nil {
			return errors.Join(err, os.Rename(old, dir))
		}
	}
	if rescue(old) == nil { // the kit is in place; leavings are no failure
		removeForced(old)
	}
	return nil
}

// staleAfter is how old a stopped run's leavings must be to be removed: far
// longer than any run takes to write its files.
const staleAfter = time.Hour

// recoverFolder puts right what stopped runs left beside a folder: an old
// kit that had been set aside goes back where no kit is, and other leavings
// are removed once they are old enough for nobody to be at work in them.
// They hold nothing that is not also in the folder.
func recoverFolder(dir string) error {
	parent := filepath.Dir(dir)
	entries, err := os.ReadDir(parent)
	if err != nil {
		return nil // told when the new folder cannot be made
	}
	for _, e := range entries {
		if !e.IsDir() || !strings.HasPrefix(e.Name(), scratchPrefix(dir)) {
			continue
		}
		path := filepath.Join(parent, e.Name())
		if _, err := os.Lstat(dir); errors.Is(err, fs.ErrNotExist) && strings.HasSuffix(path, setAside) {
			if err := os.Rename(path, dir); err != nil {
				return tellPath("put back", dir, err)
			}
			continue
		}
		if info, err := e.Info(); err == nil && time.Since(info.ModTime()) > staleAfter {
			removeForced(path)
		}
	}
	return nil
}
