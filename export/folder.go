package export

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
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
	dir, err := filepath.Abs(dir)
	if err != nil {
		return Report{}, err
	}
	if real, err := filepath.EvalSymlinks(dir); err == nil {
		dir = real
	}
	if err := recoverFolder(dir); err != nil {
		return Report{}, err
	}
	kept, removed, err := survey(dir, files, force)
	if err != nil {
		return Report{}, err
	}
	fresh, err := os.MkdirTemp(filepath.Dir(dir), scratchPrefix(dir))
	if err != nil {
		return Report{}, tellPath("make a folder beside", dir, err)
	}
	if err := fill(fresh, dir, files, kept); err != nil {
		os.RemoveAll(fresh)
		return Report{}, err
	}
	if err := putInPlace(fresh, dir); err != nil {
		os.RemoveAll(fresh)
		return Report{}, tellPath("put the kit in", dir, err)
	}
	return Report{kept, removed}, nil
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

// survey lists the files in a folder that must be kept, and refuses to
// write over what is not Panelry's own.
func survey(dir string, files []File, force bool) (kept []string, removed int, err error) {
	info, err := os.Stat(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, 0, nil
	case err != nil:
		return nil, 0, tellPath("look into", dir, err)
	case !info.IsDir():
		return nil, 0, fmt.Errorf("%s is a file; name a folder for the kit", dir)
	}
	own := ownFiles(dir)
	coming := map[string]bool{}
	for _, f := range files {
		coming[f.Name] = true
	}
	err = walkFiles(dir, func(name string, entry fs.DirEntry) error {
		if own[name] != "" && own[name] == fileSum(filepath.Join(dir, filepath.FromSlash(name))) || name == KitFile && own != nil {
			removed++
			return nil
		}
		if !coming[name] {
			kept = append(kept, name)
			return nil
		}
		if !force {
			return fmt.Errorf("%s is not as Panelry wrote it, and would be written over; move it away, or use --force", filepath.Join(dir, filepath.FromSlash(name)))
		}
		removed++
		return nil
	})
	if err == nil && own == nil && len(kept) > 0 && !force {
		err = fmt.Errorf("%s holds files and no kit; name a new folder, or use --force to put the kit among them", dir)
	}
	return kept, removed, err
}

// walkFiles calls f for everything below a folder that is not a folder.
func walkFiles(dir string, f func(name string, entry fs.DirEntry) error) error {
	return filepath.WalkDir(dir, func(path string, entry fs.DirEntry, err error) error {
		if err != nil {
			return tellPath("look into", path, err)
		}
		if entry.IsDir() {
			return nil
		}
		name, err := filepath.Rel(dir, path)
		if err != nil {
			return err
		}
		return f(filepath.ToSlash(name), entry)
	})
}

// ownFiles returns the files that a folder's kit.json lists, with their
// sums; nil where there is no readable kit.json.
func ownFiles(dir string) map[string]string {
	data, err := os.ReadFile(filepath.Join(dir, KitFile))
	if err != nil {
		return nil
	}
	var kit struct {
		Format int        `json:"format"`
		Files  []jsonFile `json:"files"`
	}
	if json.Unmarshal(data, &kit) != nil || kit.Format < 1 {
		return nil
	}
	own := map[string]string{}
	for _, f := range kit.Files {
		own[f.Name] = f.SHA256
	}
	return own
}

// fileSum returns a file's sha256 in hexadecimal, "" where it cannot be read
// or is a link.
func fileSum(path string) string {
	if info, err := os.Lstat(path); err != nil || !info.Mode().IsRegular() {
		return ""
	}
	f, err := os.Open(path)
	if err != nil {
		return ""
	}
	defer f.Close()
	sum := sha256.New()
	if _, err := io.Copy(sum, f); err != nil {
		return ""
	}
	return hex.EncodeToString(sum.Sum(nil))
}

// fill writes the new files and takes over those to keep.
func fill(fresh, old string, files []File, kept []string) error {
	mode := fs.FileMode(0o755)
	if info, err := os.Stat(old); err == nil {
		mode = info.Mode().Perm()
	}
	if err := os.Chmod(fresh, mode); err != nil {
		return tellPath("write in", fresh, err)
	}
	for _, f := range files {
		path := filepath.Join(fresh, filepath.FromSlash(f.Name))
		if err := os.MkdirAll(filepath.Dir(path), 0o755); err != nil {
			return tellPath("write", path, err)
		}
		if err := os.WriteFile(path, f.Data, 0o644); err != nil {
			return tellPath("write", path, err)
		}
	}
	for _, name := range kept {
		from, to := filepath.Join(old, filepath.FromSlash(name)), filepath.Join(fresh, filepath.FromSlash(name))
		if err := takeOver(from, to); err != nil {
			return err
		}
	}
	return nil
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

// exchangeFolders is a variable so that a test can do without.
var exchangeFolders = exchange

// putInPlace makes fresh the folder dir and removes what was there.
func putInPlace(fresh, dir string) error {
	if _, err := os.Lstat(dir); errors.Is(err, fs.ErrNotExist) {
		return os.Rename(fresh, dir)
	}
	if exchangeFolders(fresh, dir) == nil {
		return os.RemoveAll(fresh) // now the old kit
	}
	old := fresh + setAside
	if err := os.Rename(dir, old); err != nil {
		return err
	}
	if err := os.Rename(fresh, dir); err != nil {
		return errors.Join(err, os.Rename(old, dir))
	}
	return os.RemoveAll(old)
}

// staleAfter is how old a stopped run's leavings must be to be removed: far
// longer than any run takes to write its files.
const staleAfter = 6 * time.Hour

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
			os.RemoveAll(path)
		}
	}
	return nil
}
