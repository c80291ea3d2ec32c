package main

import (
	"fmt"
	"path/filepath"
	"strings"

	"github.com/spf13/cobra"

	"panelry/export/picture"
	"panelry/export/picture/raster"
	"panelry/layouts"
	"panelry/layouts/wording"
)

const pictureHelp = `Picture draws the finished card, at true size and in its papers' colours, with
each pattern running the way it does on the card; --batch draws every card,
--blocks the parts of each cell pulled apart, --sheet a map of one sheet.

A picture is an SVG; where -o ends in .png, or with --width, it is a PNG so
many pixels wide.

` + aboutDesign + ` The picture
goes to the file named with -o (- is standard output), else to the design's
name with .svg or .png behind it, in this folder.`

// usualWidth is how many pixels wide a PNG is when nothing is said.
const usualWidth = 1200

type pictureFlags struct {
	input
	file, ground  string
	card, sheet   int
	width         int
	batch, blocks bool
	force         bool
}

func newPicture() *cobra.Command {
	var f pictureFlags
	cmd := &cobra.Command{
		Use:   "picture " + designArgument,
		Short: "Write the finished card as a picture in its papers' colours",
		Long:  pictureHelp,
		Example: `  panelry picture                    the demo, into demo.svg
  panelry picture card.toml -o front.svg
  panelry picture card.toml --batch  every card of the batch
  panelry picture card.toml -o card.png --width 2000 --ground dark`,
		Args: atMostOne("design file"),
		RunE: f.run,
	}
	f.flags(cmd)
	flags := cmd.Flags()
	flags.StringVarP(&f.file, "output", "o", "", "the file for the picture: .svg or .png")
	flags.IntVar(&f.card, "card", 1, "which card of the batch, from 1")
	flags.BoolVar(&f.batch, "batch", false, "draw every card of the batch")
	flags.BoolVar(&f.blocks, "blocks", false, "draw each cell once, its parts pulled apart")
	flags.IntVar(&f.sheet, "sheet", 0, "draw the map of that sheet, from 1")
	flags.StringVar(&f.ground, "ground", "light", "light or dark: what cards and blocks lie on")
	flags.IntVar(&f.width, "width", usualWidth, "a PNG so many pixels wide")
	flags.BoolVar(&f.force, "force", false, "write over a file that is there")
	cmd.RegisterFlagCompletionFunc("ground", cobra.FixedCompletions([]string{"light", "dark"}, cobra.ShellCompDirectiveNoFileComp))
	return cmd
}

func (f *pictureFlags) run(cmd *cobra.Command, args []string) error {
	asPNG, err := f.check(cmd)
	if err != nil {
		return err
	}
	plan := f.planCard
	if f.sheet > 0 {
		plan = f.plan
	}
	kit, err := plan(cmd, args)
	if err != nil {
		return err
	}
	data, err := f.draw(kit)
	if err != nil {
		return err
	}
	end := ".svg"
	if asPNG {
		end = ".png"
		if data, err = raster.PNG(data, f.width); err != nil {
			return err
		}
	}
	if f.file == "" {
		f.file = stem(args) + end
	}
	return deliver(cmd, f.file, data, f.force)
}

// check holds the flags against each other, and tells whether they ask for a
// PNG.
func (f *pictureFlags) check(cmd *cobra.Command) (asPNG bool, err error) {
	changed := cmd.Flags().Changed
	var asked []string
	for _, name := range []string{"card", "batch", "blocks", "sheet"} {
		if changed(name) {
			asked = append(asked, "--"+name)
		}
	}
	ext := strings.ToLower(filepath.Ext(f.file))
	switch {
	case f.batch && changed("card"):
		err = &usageError{"--batch draws every card, and --card one; use one of the two", ""}
	case len(asked) > 1:
		err = &usageError{wording.AndPlain(asked) + " ask for different pictures; use one of them", ""}
	case changed("sheet") && f.sheet < 1:
		err = &usageError{fmt.Sprintf("--sheet %d: sheets count from 1", f.sheet), ""}
	case f.ground != "light" && f.ground != "dark":
		err = &usageError{fmt.Sprintf("--ground %s: write light or dark", f.ground), ""}
	case f.ground == "dark" && f.sheet > 0:
		err = &usageError{"--ground dark is for cards and blocks; maps of sheets are to be printed, on light ground", ""}
	case changed("width") && (f.width < 16 || f.width > raster.MostPixels):
		err = &usageError{fmt.Sprintf("--width %d: write 16 to %d pixels", f.width, raster.MostPixels), ""}
	case ext != "" && ext != ".svg" && ext != ".png":
		err = &usageError{fmt.Sprintf("-o %s: the picture is an SVG or a PNG; end its name in .svg or .png", f.file), ""}
	case ext == ".svg" && changed("width"):
		err = &usageError{"--width is for a PNG; an SVG has its true size", ""}
	}
	return ext == ".png" || changed("width"), err
}

func (f *pictureFlags) draw(kit layouts.Kit) ([]byte, error) {
	ground := picture.Light
	if f.ground == "dark" {
		ground = picture.Dark
	}
	switch {
	case f.blocks:
		return picture.Blocks(kit, ground)
	case f.sheet > len(kit.Sheets):
		return nil, &usageError{fmt.Sprintf("--sheet %d: the kit has sheets 1 to %d", f.sheet, len(kit.Sheets)), ""}
	case f.sheet > 0:
		return picture.SheetMap(kit, kit.Sheets[f.sheet-1])
	}
	cards, err := pictured(kit, f.card, f.batch)
	if err != nil {
		return nil, err
	}
	return picture.CardsOn(kit, ground, cards...)
}

// mostPictured is as many cards as one picture can show and still be looked at.
const mostPictured = 200

// pictured lists the cards to draw.
func pictured(kit layouts.Kit, card int, batch bool) ([]int, error) {
	most := kit.Design.Batch.Cards
	if !batch {
		if card < 1 || card > most {
			return nil, &usageError{fmt.Sprintf("--card %d: the batch has cards 1 to %d", card, most), ""}
		}
		return []int{card}, nil
	}
	if most > mostPictured {
		return nil, &usageError{fmt.Sprintf("--batch: %d cards are too many for one picture; at most %d, or pick one with --card", most, mostPictured), ""}
	}
	var cards []int
	for c := range most {
		cards = append(cards, c+1)
	}
	return cards, nil
}
