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
)

// found is what a folder holds before a kit is put there.
type found struct {
	kept    []string               // files to keep
	folders map[string]fs.FileMode // all folders below it, with their modes
	empty   []string               // those without anything in them
	removed int
	seen    map[string]bool // all files there were
}

// rescue takes over from the old folder what was saved there after the
// survey.
func (f found) rescue(old, dir string) error {
	now, err := listFolder(old)
	if err != nil {
		return err
	}
	for _, name := range now.kept {
		if f.seen[name] {
			continue
		}
		from, to := filepath.Join(old, filepath.FromSlash(name)), filepath.Join(dir, filepath.FromSlash(name))
		if _, err := os.Lstat(to); err == nil {
			return fmt.Errorf("%s is there twice", name)
		}
		if err := takeOver(from, to); err != nil {
			return err
		}
	}
	return nil
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
	out.kept, out.seen = nil, map[string]bool{}
	for _, name := range all {
		out.seen[name] = true
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
