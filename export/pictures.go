package export

import (
	"panelry/export/picture"
	"panelry/layouts"
)

func init() {
	register(exporter{"picture", cardPicture})
	register(exporter{"maps", sheetMaps})
}

func cardPicture(kit layouts.Kit) ([]File, error) {
	data, err := picture.Cards(kit, 1)
	return []File{{"picture.svg", data}}, err
}

func sheetMaps(kit layouts.Kit) ([]File, error) {
	files := make([]File, len(kit.Sheets))
	for i, s := range kit.Sheets {
		data, err := picture.SheetMap(kit, s)
		if err != nil {
			return nil, err
		}
		files[i] = File{"maps/" + sheetStem(kit, s) + ".svg", data}
	}
	return files, nil
}
