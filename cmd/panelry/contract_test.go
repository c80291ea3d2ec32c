package main

import (
	"context"
	"encoding/json"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Exit codes as interfaces.md has them: 0 done, 1 wrong design or file, 2
// wrong flags or arguments.
func TestExitCodes(t *testing.T) {
	for _, c := range []struct {
		args string
		want int
	}{
		{"version", 0}, {"--help", 0}, {"layouts", 0}, {"show", 0},
		{"show nowhere.toml", 1}, {"make nowhere.toml", 1},
		{"mak", 2}, {"show --colour", 2}, {"show a b", 2}, {"show --units ell", 2}, {"make --strict=maybe", 2},
		{"picture --card 9", 2}, {"picture --card abc", 2}, {"picture --card 1 --batch", 2}, {"layouts nothing", 2}, {"version now", 2},
	} {
		t.Run(c.args, func(t *testing.T) {
			t.Chdir(t.TempDir())
			var errs strings.Builder
			require.Equal(t, c.want, run(context.Background(), strings.Fields(c.args), strings.NewReader(""), io.Discard, &errs), errs.String())
			require.NotContains(t, errs.String(), "strconv")
			if c.want > 0 {
				require.True(t, strings.HasPrefix(errs.String(), "panelry: "), errs.String())
			}
		})
	}
}

// checkKit makes a kit of the design that shows most: a folded base, halves
// on paper alike on both sides, patterns that radiate, bleed, colours of its own.
func checkKit(t *testing.T) (dir string, kit map[string]any) {
	t.Helper()
	dir = filepath.Join(t.TempDir(), "kit")
	runOK(t, `
title = "Contract"
units = "in"
[card]
size = "US A2"
base = "top fold"
paper = "base"
[front]
layout = "diagonal halves"
margin = "1/16"
gap = "1/8"
direction = "radiating"
papers = ["first"]
[batch]
cards = 2
[sheets]
bleed = "1/16"
cut_colour = "#112233"
score_colour = "#445566"
print_colour = "#778899"
[[papers]]
name = "base"
sheet = "12 x 14"
colour = "#f0e0d0"
[[papers]]
name = "first"
sheet = "12 x 12"
pattern = "two-way"
sides = "both alike"
colour = "#a1b2c3"
have = 4
`, "make", "-", "-o", dir)
	data, err := os.ReadFile(filepath.Join(dir, "kit.json"))
	require.NoError(t, err)
	require.NoError(t, json.Unmarshal(data, &kit))
	return dir, kit
}

// The keys of kit.json, by interfaces.md, with values worked by hand: US A2
// is 107.95 x 139.7 mm, so the base is 279.4 high with its fold at half.
func TestKitContract(t *testing.T) {
	_, kit := checkKit(t)
	at := func(v any, path ...any) any {
		for _, step := range path {
			switch s := step.(type) {
			case string:
				m, ok := v.(map[string]any)
				require.True(t, ok, "%v", path)
				require.Contains(t, m, s)
				v = m[s]
			case int:
				v = v.([]any)[s]
			}
		}
		return v
	}
	require.Equal(t, 1.0, at(kit, "format"))
	require.Equal(t, []any{0.0, 139.7}, at(kit, "card", "folds", 0, "from_mm"))
	require.Equal(t, []any{107.95, 139.7}, at(kit, "card", "folds", 0, "to_mm"))
	require.Equal(t, "mountain", at(kit, "card", "folds", 0, "kind"))
	require.Equal(t, []any{1.5875, 50.8, 3.175, 50.8, 1.5875}, at(kit, "front", "sums", "across"))
	require.Equal(t, []any{1.5875, 66.675, 3.175, 66.675, 1.5875}, at(kit, "front", "sums", "down"))
	require.Equal(t, `\`, at(kit, "panels", 0, "hand"))
	require.NotZero(t, at(kit, "panels", 0, "pattern_deg"))
	require.Equal(t, 4.0, at(kit, "papers", 1, "have"))
	require.Nil(t, at(kit, "papers", 0, "have"))
	require.Equal(t, []any{"base"}, at(kit, "kinds", 0, "places"))
	turned, over := 0, 0
	for _, s := range at(kit, "sheets").([]any) {
		for _, p := range at(s, "pieces").([]any) {
			if at(p, "turn_deg") != 0.0 {
				turned++
			}
			if p.(map[string]any)["turned_over"] == true {
				over++
			}
		}
	}
	require.Positive(t, turned)
	require.Positive(t, over, `a "/" half and a "\" half of paper alike on both sides are one kind`)
	for _, key := range []string{"title", "units", "totals", "warnings", "files"} {
		require.Contains(t, kit, key)
	}
}

// What the design says of a sheet's looks is on the sheet.
func TestSheetContract(t *testing.T) {
	dir, kit := checkKit(t)
	read := func(i int) string {
		name := kit["sheets"].([]any)[i].(map[string]any)["file"].(string)
		data, err := os.ReadFile(filepath.Join(dir, name))
		require.NoError(t, err)
		return string(data)
	}
	base, first := read(0), read(1)
	require.Contains(t, base, `<g id="score" fill="none" stroke="#445566"`)
	require.Contains(t, base, `<g id="cut" fill="none" stroke="#112233"`)
	require.Contains(t, base, "<title>Sheet 1 of 2: base, 12 x 14 in, outside of the card up</title>")
	require.Contains(t, first, `<g id="print" fill="none" stroke="#778899"`)
	require.Equal(t, 16, strings.Count(first, `fill="#a1b2c3"`), "a bleed for each of 16 halves")
	require.Equal(t, 3, strings.Count(first, `id="mark-`))
	require.Less(t, strings.Index(first, `id="print"`), strings.Index(first, `id="cut"`))
	require.Contains(t, first, `data-card="02" data-panel="B2b" data-paper="first"`)
	shared := runOK(t, strings.Replace(outsideDesigns["shared edges"], "cards = 2", "cards = 1", 1), "make", "-", "-o", filepath.Join(t.TempDir(), "kit"), "--json")
	require.Contains(t, shared, `"spacing_mm": 0`)
}

// layouts --json as interfaces.md has it.
func TestLayoutsContract(t *testing.T) {
	var list []struct {
		Name, Summary string
		Options       []map[string]any
	}
	require.NoError(t, json.Unmarshal([]byte(runOK(t, "", "layouts", "--json")), &list))
	require.Len(t, list, len(layoutNames()))
	for _, l := range list {
		require.NotEmpty(t, l.Summary, l.Name)
		for _, o := range l.Options {
			for _, key := range []string{"name", "kind", "default", "help"} {
				require.Contains(t, o, key, l.Name)
			}
		}
	}
}
