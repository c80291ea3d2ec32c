package export

import (
	"panelry/export/picture"
	"panelry/export/picture/raster"
	"panelry/layouts"
)

func init() {
	register(exporter{"picture", cardPicture})
	register(exporter{"maps", sheetMaps})
}

// pngWidth is how many pixels wide a kit's PNG is, and mostPictured how many
// cards its picture of the batch shows.
const (
	pngWidth     = 1200
	mostPictured = 60
)

// cardPicture is the first card as SVG and PNG, the batch, and the blocks.
func cardPicture(kit layouts.Kit) ([]File, error) {
	card, err := picture.Cards(kit, 1)
	if err != nil {
		return nil, err
	}
	pixels, err := raster.PNG(card, pngWidth)
	if err != nil {
		return nil, err
	}
	blocks, err := picture.Blocks(kit, picture.Light)
	if err != nil {
		return nil, err
	}
	files := []File{{"picture.svg", card}, {"picture.png", pixels}, {"blocks.svg", blocks}}
	if n := kit.Design.Batch.Cards; n > 1 && n <= mostPictured {
		batch, err := picture.Cards(kit, cardNumbers(n)...)
		if err != nil {
			return nil, err
		}
		files = append(files, File{"batch.svg", batch})
	}
	return files, nil
}

// cardNumbers counts from 1.
func cardNumbers(n int) []int {
	list := make([]int, n)
	for i := range list {
		list[i] = i + 1
	}
	return list
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
