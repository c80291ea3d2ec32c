package export

import (
	"errors"
	"flag"
	"os"
	"path/filepath"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

var _ = flag.Bool("update", false, "rewrite golden files (there are none in this package)")

// kitOf returns files that make a kit of the given texts.
func kitOf(texts map[string]string) []File {
	files := []File{}
	list := ""
	for name, text := range texts {
		files = append(files, File{name, []byte(text)})
		if list != "" {
			list += ","
		}
		list += `{"name":"` + name + `","sha256":"` + sumOf(text) + `"}`
	}
	return append(files, File{KitFile, []byte(`{"format":1,"files":[` + list + `]}`)})
}

func sumOf(text string) string {
	dir, _ := os.MkdirTemp("", "sum")
	defer os.RemoveAll(dir)
	path := filepath.Join(dir, "f")
	os.WriteFile(path, []byte(text), 0o600)
	return fileSum(path)
}

// contents returns all files below a folder with their texts, and the names
// of whatever else is there.
func contents(t *testing.T, dir string) map[string]string {
	t.Helper()
	out := map[string]string{}
	list, err := listFolder(dir)
	require.NoError(t, err)
	for _, name := range list.kept {
		data, err := os.ReadFile(filepath.Join(dir, name))
		require.NoError(t, err)
		out[name] = string(data)
	}
	return out
}

// sha256 of "abc": FIPS 180-4's example, as NIST publishes it.
func TestFileSum(t *testing.T) {
	require.Equal(t, "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad", sumOf("abc"))
	require.Empty(t, fileSum(filepath.Join(t.TempDir(), "nothing")))
}

func TestWriteFolder(t *testing.T) {
	ways := map[string]func(a, b string) error{
		"exchanged":    exchange,
		"in two steps": func(string, string) error { return errors.ErrUnsupported },
	}
	for name, way := range ways {
		t.Run(name, func(t *testing.T) {
			exchangeFolders = way
			defer func() { exchangeFolders = exchange }()
			dir := filepath.Join(t.TempDir(), "kit")
			first := kitOf(map[string]string{"a.txt": "one", "sub/b.txt": "two"})
			_, err := WriteFolder(dir, first, false)
			require.NoError(t, err)
			require.NoError(t, os.WriteFile(filepath.Join(dir, "hers.txt"), []byte("hers"), 0o600))
			second := kitOf(map[string]string{"a.txt": "three", "c.txt": "four"})
			report, err := WriteFolder(dir, second, false)
			require.NoError(t, err)
			require.Equal(t, []string{"hers.txt"}, report.Kept)
			require.Equal(t, 3, report.Removed)
			found := contents(t, dir)
			delete(found, KitFile)
			require.Equal(t, map[string]string{"a.txt": "three", "c.txt": "four", "hers.txt": "hers"}, found)
			onlyFolder(t, filepath.Dir(dir), "kit")
		})
	}
}

// onlyFolder wants nothing but one folder in a folder.
func onlyFolder(t *testing.T, parent, name string) {
	t.Helper()
	entries, err := os.ReadDir(parent)
	require.NoError(t, err)
	require.Len(t, entries, 1)
	require.Equal(t, name, entries[0].Name())
}

// A file of hers that is only listed in a forged kit.json, or a link, is not
// taken for Panelry's own; names in kit.json that lead out of the folder do
// nothing.
func TestWriteFolderTrustsNoForgedList(t *testing.T) {
	parent := t.TempDir()
	dir := filepath.Join(parent, "kit")
	require.NoError(t, os.Mkdir(dir, 0o755))
	outside := filepath.Join(parent, "outside.txt")
	require.NoError(t, os.WriteFile(outside, []byte("abc"), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, KitFile), []byte(
		`{"format":1,"files":[{"name":"../outside.txt","sha256":"`+sumOf("abc")+`"},{"name":"link","sha256":"`+sumOf("abc")+`"}]}`), 0o600))
	require.NoError(t, os.Symlink(outside, filepath.Join(dir, "link")))
	report, err := WriteFolder(dir, kitOf(map[string]string{"a": "a"}), false)
	require.NoError(t, err)
	require.Equal(t, []string{"link"}, report.Kept)
	target, err := os.Readlink(filepath.Join(dir, "link"))
	require.NoError(t, err)
	require.Equal(t, outside, target)
	data, err := os.ReadFile(outside)
	require.NoError(t, err)
	require.Equal(t, "abc", string(data))
}

// A failing write leaves the old kit and nothing else.
func TestWriteFolderFailsWhole(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "kit")
	_, err := WriteFolder(dir, kitOf(map[string]string{"a": "old"}), false)
	require.NoError(t, err)
	// A file cannot also be a folder.
	_, err = WriteFolder(dir, []File{{"a", []byte("new")}, {"a/b", []byte("new")}}, false)
	require.ErrorContains(t, err, "cannot write")
	require.Equal(t, "old", contents(t, dir)["a"])
	onlyFolder(t, filepath.Dir(dir), "kit")
}

// Her folders stay too, empty ones included, with their modes.
func TestWriteFolderKeepsFolders(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "kit")
	_, err := WriteFolder(dir, kitOf(map[string]string{"sheets/a": "a"}), false)
	require.NoError(t, err)
	require.NoError(t, os.MkdirAll(filepath.Join(dir, "hers", "empty"), 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "hers", "note"), []byte("note"), 0o600))
	require.NoError(t, os.Chmod(filepath.Join(dir, "hers"), 0o700))
	require.NoError(t, os.Chmod(filepath.Join(dir, "sheets"), 0o555))
	_, err = WriteFolder(dir, kitOf(map[string]string{"sheets/b": "b"}), false)
	require.NoError(t, err)
	require.DirExists(t, filepath.Join(dir, "hers", "empty"))
	info, err := os.Stat(filepath.Join(dir, "hers"))
	require.NoError(t, err)
	require.Equal(t, os.FileMode(0o700), info.Mode().Perm())
	require.FileExists(t, filepath.Join(dir, "sheets", "b"))
	require.NoFileExists(t, filepath.Join(dir, "sheets", "a"))
	onlyFolder(t, filepath.Dir(dir), "kit")
	require.NoError(t, os.Chmod(filepath.Join(dir, "sheets"), 0o755)) // for the clean-up
}

// What is saved in the folder while the kit is being made is taken over.
func TestWriteFolderRescuesWhatCameMeanwhile(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "kit")
	_, err := WriteFolder(dir, kitOf(map[string]string{"a": "old"}), false)
	require.NoError(t, err)
	exchangeFolders = func(a, b string) error { // saved in the last moment
		require.NoError(t, os.WriteFile(filepath.Join(b, "late.txt"), []byte("late"), 0o600))
		return exchange(a, b)
	}
	defer func() { exchangeFolders = exchange }()
	_, err = WriteFolder(dir, kitOf(map[string]string{"a": "new"}), false)
	require.NoError(t, err)
	found := contents(t, dir)
	require.Equal(t, "late", found["late.txt"])
	require.Equal(t, "new", found["a"])
	onlyFolder(t, filepath.Dir(dir), "kit")
}

// The folder that somebody stands in is not pulled away.
func TestWriteFolderRefusesWhereYouAre(t *testing.T) {
	parent := t.TempDir()
	below := filepath.Join(parent, "kit", "sheets")
	require.NoError(t, os.MkdirAll(below, 0o755))
	t.Chdir(below)
	for _, dir := range []string{".", "..", parent} {
		_, err := WriteFolder(dir, kitOf(map[string]string{"a": "a"}), true)
		require.ErrorContains(t, err, "is the folder that you are in")
	}
	_, err := WriteFolder("below", kitOf(map[string]string{"a": "a"}), false)
	require.NoError(t, err)
}

func TestWriteFolderRefusesADeadLink(t *testing.T) {
	link := filepath.Join(t.TempDir(), "link")
	require.NoError(t, os.Symlink("nowhere", link))
	_, err := WriteFolder(link, kitOf(map[string]string{"a": "a"}), true)
	require.ErrorContains(t, err, "is a link that leads nowhere")
}

func TestRecoverFolder(t *testing.T) {
	parent := t.TempDir()
	dir := filepath.Join(parent, "kit")
	// As a run leaves it that is stopped between its two renames.
	require.NoError(t, os.MkdirAll(filepath.Join(parent, scratchPrefix(dir)+"1"+setAside), 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(parent, scratchPrefix(dir)+"1"+setAside, "hers"), []byte("hers"), 0o600))
	require.NoError(t, recoverFolder(dir))
	require.Equal(t, map[string]string{"hers": "hers"}, contents(t, dir))

	// Young leavings may be somebody's at work, old ones go.
	young, old := filepath.Join(parent, scratchPrefix(dir)+"2"), filepath.Join(parent, scratchPrefix(dir)+"3")
	other := filepath.Join(parent, ".other.panelry-3")
	for _, d := range []string{young, old, other} {
		require.NoError(t, os.Mkdir(d, 0o755))
	}
	long := time.Now().Add(-2 * staleAfter)
	require.NoError(t, os.Chtimes(old, long, long))
	require.NoError(t, os.Chtimes(other, long, long))
	require.NoError(t, recoverFolder(dir))
	require.DirExists(t, young)
	require.NoDirExists(t, old)
	require.DirExists(t, other)
}

func TestWriteFile(t *testing.T) {
	path := filepath.Join(t.TempDir(), "f.svg")
	require.NoError(t, WriteFile(path, []byte("one"), false))
	require.ErrorContains(t, WriteFile(path, []byte("two"), false), "is there already")
	require.NoError(t, WriteFile(path, []byte("three"), true))
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	require.Equal(t, "three", string(data))
	require.ErrorContains(t, WriteFile(filepath.Dir(path), nil, true), "is a folder")
	onlyFolder(t, filepath.Dir(path), "f.svg")
}

// breakLines only adds white space, and takes no bracket in a text for one.
func TestBreakLines(t *testing.T) {
	compact := `{"a":[1,2.5],"b":[{"c":"x, [y] {\"z\\"}],"d":{},"e":[],"f":[[1,2],[3]]}`
	want := `{
  "a": [1, 2.5],
  "b": [
    {
      "c": "x, [y] {\"z\\"
    }
  ],
  "d": {},
  "e": [],
  "f": [
    [1, 2],
    [3]
  ]
}`
	require.Equal(t, want, string(breakLines([]byte(compact))))
}

func TestFileWord(t *testing.T) {
	tests := []struct{ name, want string }{
		{"kelp", "kelp"},
		{"Sea Glass (blue)", "sea-glass-blue"},
		{"../../etc", "etc"},
		{"Grün & Weiß", "gruen-weiss"},
		{"Café crème", "cafe-creme"},
		{"海", "paper"},
		{"a very long name indeed of forty letters or more", "a-very-long-name-indeed-of-forty-letters"},
	}
	for _, test := range tests {
		t.Run(test.name, func(t *testing.T) { require.Equal(t, test.want, fileWord(test.name)) })
	}
}
