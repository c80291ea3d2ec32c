package export

import (
	"cmp"
	"slices"
)

// Listed adds a kit.json that lists the files of a folder that is no whole
// kit, so that a second run knows which are its own.
func Listed(title string, files []File) ([]File, error) {
	files = slices.Clone(files)
	slices.SortFunc(files, func(a, b File) int { return cmp.Compare(a.Name, b.Name) })
	list, err := encodeJSON(struct {
		Format int        `json:"format"`
		Title  string     `json:"title"`
		Files  []jsonFile `json:"files"`
	}{Format, title, filesJSON(files)})
	return append(files, File{KitFile, list}), err
}
