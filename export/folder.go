package export

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"maps"
	"os"
	"path/filepath"
	"slices"
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
	if dir, err = realFolder(dir); err != nil {
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
	if err := putInPlace(fresh, dir); err != nil {
		removeForced(fresh)
		return Report{}, tellPath("put the kit in", dir, err)
	}
	return Report{found.kept, found.removed}, nil
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

// found is what a folder holds before a kit is put there.
type found struct {
	kept    []string               // files to keep
	folders map[string]fs.FileMode // all folders below it, with their modes
	empty   []string               // those without anything in them
	removed int
}

// survey lists what in a folder must be kept, and refuses to write over what
// is not Panelry's own.
func survey(dir string, files []File, force bool) (found, error) {
	info, err := os.Stat(dir)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return found{}, nil
	case err != nil:
		return found{}, tellPath("look into", dir, err)
	case !info.IsDir():
		return found{}, fmt.Errorf("%s is a file; name a folder for the kit", dir)
	}
	own := ownFiles(dir)
	coming := map[string]bool{}
	for _, f := range files {
		coming[f.Name] = true
	}
	out, err := listFolder(dir)
	if err != nil {
		return found{}, err
	}
	all := out.kept
	out.kept = nil
	for _, name := range all {
		path := filepath.Join(dir, filepath.FromSlash(name))
		unchanged := own[name] != "" && own[name] == fileSum(path) || name == KitFile && own != nil
		switch {
		case unchanged:
			out.removed++
		case !coming[name]:
			out.kept = append(out.kept, name)
		case !force:
			return found{}, fmt.Errorf("%s is not as Panelry wrote it, and would be written over; move it away, or use --force", path)
		default:
			out.removed++
		}
	}
	if own == nil && len(out.kept)+len(out.folders) > 0 && !force {
		return found{}, fmt.Errorf("%s holds files and no kit; name a new folder, or use --force to put the kit among them", dir)
	}
	return out, nil
}

// listFolder lists all files (as kept) and folders below a folder.
func listFolder(dir string) (found, error) {
	out := found{folders: map[string]fs.FileMode{}}
	err := filepath.WalkDir(dir, func(path string, entry fs.DirEntry, err error) error {
		if err != nil {
			return tellPath("look into", path, err)
		}
		name, err := filepath.Rel(dir, path)
		if err != nil || name == "." {
			return err
		}
		name = filepath.ToSlash(name)
		if !entry.IsDir() {
			out.kept = append(out.kept, name)
			return nil
		}
		info, err := entry.Info()
		if err != nil {
			return tellPath("look into", path, err)
		}
		out.folders[name] = info.Mode().Perm()
		if inside, err := os.ReadDir(path); err == nil && len(inside) == 0 {
			out.empty = append(out.empty, name)
		}
		return nil
	})
	return out, err
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

// exchangeFolders is a variable so that a test can do without.
var exchangeFolders = exchange

// putInPlace makes fresh the folder dir and removes what was there.
func putInPlace(fresh, dir string) error {
	if _, err := os.Lstat(dir); errors.Is(err, fs.ErrNotExist) {
		return os.Rename(fresh, dir)
	}
	if exchangeFolders(fresh, dir) == nil {
		return removeForced(fresh) // now the old kit
	}
	old := fresh + setAside
	if err := os.Rename(dir, old); err != nil {
		return err
	}
	if err := os.Rename(fresh, dir); err != nil {
		return errors.Join(err, os.Rename(old, dir))
	}
	return removeForced(old)
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
