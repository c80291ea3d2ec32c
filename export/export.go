package export

import (
	"cmp"
	"fmt"
	"slices"

	"panelry/layouts"
	"panelry/layouts/wording"
)

// A File is one file of a kit folder.
type File struct {
	Name string // relative, with forward slashes
	Data []byte
}

// exporter makes one kind of file.
type exporter struct {
	name  string // as callers of Files pick it
	files func(layouts.Kit) ([]File, error)
}

var exporters []exporter

func register(e exporter) {
	exporters = append(exporters, e)
	slices.SortFunc(exporters, func(a, b exporter) int { return cmp.Compare(a.name, b.name) })
}

// kitName is the exporter that lists all others' files, so it comes last.
const kitName = "kit"

// Kinds returns the names that [Files] takes.
func Kinds() []string {
	var names []string
	for _, e := range exporters {
		names = append(names, e.name)
	}
	return append(names, kitName)
}

// Files returns the files of a kit in the order of their names: all kinds,
// or only those named (see [Kinds]). kit.json lists the other files that the
// same call returns.
func Files(kit layouts.Kit, only ...string) ([]File, error) {
	for _, name := range only {
		if !slices.Contains(Kinds(), name) {
			return nil, fmt.Errorf("no kind of file is called %q; write %s", name, wording.Or(Kinds()))
		}
	}
	wanted := func(name string) bool { return len(only) == 0 || slices.Contains(only, name) }
	var files []File
	for _, e := range exporters {
		if !wanted(e.name) {
			continue
		}
		made, err := e.files(kit)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", e.name, err)
		}
		files = append(files, made...)
	}
	slices.SortFunc(files, func(a, b File) int { return cmp.Compare(a.Name, b.Name) })
	if !wanted(kitName) {
		return files, nil
	}
	data, err := kitJSON(kit, files)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", KitFile, err)
	}
	files = append(files, File{KitFile, data})
	slices.SortFunc(files, func(a, b File) int { return cmp.Compare(a.Name, b.Name) })
	return files, nil
}
