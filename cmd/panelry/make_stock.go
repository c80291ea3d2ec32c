package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/spf13/cobra"

	"panelry/export"
	"panelry/layouts"
)

// stockFlags are the flags of make that go by a stock file.
type stockFlags struct {
	file        string
	most, renew bool
	stock       layouts.Stock
}

func (f *stockFlags) flags(cmd *cobra.Command) {
	cmd.Flags().StringVar(&f.file, "use-stock", "", "a stock file: sheets and offcuts at hand, used before new sheets")
	cmd.Flags().BoolVar(&f.most, "most", false, "make as many cards as the stock allows")
	cmd.Flags().BoolVar(&f.renew, "write-stock", false, "write the stock file anew, with what is left")
	cmd.MarkFlagFilename("use-stock", "toml")
}

// prepare reads the stock and gives it to the design.
func (f *stockFlags) prepare(cmd *cobra.Command, d layouts.Design) (layouts.Design, error) {
	if f.file == "" {
		if f.most || f.renew {
			return d, &usageError{"--most and --write-stock go with --use-stock FILE", ""}
		}
		return d, nil
	}
	data, err := os.ReadFile(f.file)
	if errors.Is(err, fs.ErrNotExist) {
		return d, fmt.Errorf("there is no file %s", f.file)
	}
	if err != nil {
		return d, fmt.Errorf("cannot read %s: %w", f.file, errors.Unwrap(err))
	}
	var problems layouts.Problems
	if f.stock, err = layouts.ReadStock(bytes.NewReader(data), shapesBeside(filepath.Dir(f.file))); errors.As(err, &problems) {
		return d, &designError{f.file, problems}
	} else if err != nil {
		return d, err
	}
	if !f.most {
		return d.UseStock(f.stock, false), nil
	}
	most, err := layouts.CardsFrom(cmd.Context(), d, f.stock)
	if err != nil {
		return d, err
	}
	if most.Cards == 0 {
		return d, fmt.Errorf("the stock makes no card: there is not enough of paper %q", most.Short)
	}
	fmt.Fprintf(cmd.ErrOrStderr(), "panelry: the stock makes %s\n", mostText(most))
	return d.WithCards(most.Cards).UseStock(f.stock, true), nil
}

func mostText(m layouts.Most) string {
	text := counted(m.Cards, "card", "cards")
	switch {
	case m.Short == "":
		return text + ", the most that go in one kit"
	case m.Proved:
		return fmt.Sprintf("%s, proved the most; paper %q runs out first", text, m.Short)
	}
	return fmt.Sprintf("%s, the most that were found; no way makes more than %d; paper %q runs out first", text, m.Bound, m.Short)
}

// write writes the stock file anew.
func (f *stockFlags) write(kit layouts.Kit) error {
	if !f.renew {
		return nil
	}
	if err := export.WriteFile(f.file, kit.LeftOver(f.stock).TOML(), true); err != nil {
		return fmt.Errorf("the kit is made, but the stock file is as it was: %w", err)
	}
	return nil
}

// sheetSizes says what size the sheets of a paper are.
func sheetSizes(kit layouts.Kit, use layouts.PaperUse) string {
	size := ""
	for _, s := range kit.Sheets {
		if s.Paper.Name != use.Paper.Name {
			continue
		}
		text := s.Size.Format(kit.Design.Units)
		if size != "" && size != text {
			return "several sizes"
		}
		size = text
	}
	return size
}
