package picture

import (
	"bytes"
	"context"
	"encoding/xml"
	"flag"
	"io"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/layouts"
	"panelry/layouts/papers"
)

var _ = flag.Bool("update", false, "rewrite golden files (there are none in this package)")

// checkDesign has a title and names that XML must escape.
const checkDesign = `
title = 'Salt & "sand" <two>'
units = "mm"
[card]
size = "ISO A6"
base = "side fold"
paper = "base & fold"
[front]
layout = "strips"
count = 3
direction = "30 deg"
papers = ["a<b"]
[batch]
cards = 3
[[papers]]
name = "base & fold"
sheet = "ISO A3"
[[papers]]
name = "a<b"
sheet = "ISO A4"
drawing = "sprigs"
pattern = "one-way"
colour = "#3d6f8f"
`

func checkKit(t *testing.T) layouts.Kit {
	t.Helper()
	d, err := layouts.Read(strings.NewReader(checkDesign), nil)
	require.NoError(t, err)
	kit, err := layouts.Plan(context.Background(), d)
	require.NoError(t, err)
	return kit
}

// texts reads a picture with encoding/xml and returns its texts by element
// name, and its attributes named so.
func texts(t *testing.T, data []byte, attribute string) (byElement map[string][]string, values []string) {
	t.Helper()
	byElement = map[string][]string{}
	decoder := xml.NewDecoder(bytes.NewReader(data))
	var open []string
	for {
		token, err := decoder.Token()
		if err == io.EOF {
			return byElement, values
		}
		require.NoError(t, err)
		switch token := token.(type) {
		case xml.StartElement:
			open = append(open, token.Name.Local)
			for _, a := range token.Attr {
				if a.Name.Local == attribute {
					values = append(values, a.Value)
				}
			}
		case xml.EndElement:
			open = open[:len(open)-1]
		case xml.CharData:
			if text := strings.TrimSpace(string(token)); text != "" {
				byElement[open[len(open)-1]] = append(byElement[open[len(open)-1]], text)
			}
		}
	}
}

func TestCardsDrawsEveryPanel(t *testing.T) {
	data, err := Cards(checkKit(t), 1, 3)
	require.NoError(t, err)
	found, panels := texts(t, data, "data-panel")
	require.Equal(t, []string{`Salt & "sand" <two>`}, found["title"])
	require.Equal(t, []string{"1", "2", "3", "1", "2", "3"}, panels)
	require.Contains(t, string(data), `patternTransform="rotate(30)"`)
}

func TestCardsRefusesOthers(t *testing.T) {
	for _, card := range []int{0, 4, -1} {
		_, err := Cards(checkKit(t), card)
		require.ErrorContains(t, err, "the batch has cards 1 to 3")
	}
}

func TestSheetMapNamesEveryPiece(t *testing.T) {
	kit := checkKit(t)
	for _, s := range kit.Sheets {
		data, err := SheetMap(kit, s)
		require.NoError(t, err)
		found, _ := texts(t, data, "")
		for _, p := range s.Pieces {
			require.Contains(t, found["text"], p.ID)
		}
	}
}

// A name on a base stands in the middle of its front, wherever it is turned
// to: that is where panels go.
func TestNameStandsOnTheFront(t *testing.T) {
	kit := checkKit(t)
	base := kit.Sheets[0].Pieces[0]
	require.Equal(t, "base", base.Panel)
	front := kit.Card.Base.Front
	moved := front.Outline().Turned(base.Turn)
	whole := kit.Card.Base.Outline.Turned(base.Turn)
	at := base.Outline.Bounds().Min.Sub(whole.Bounds().Min)
	require.Equal(t, moved.Moved(at).Centre(), base.Middle)
}

// WCAG 2.2 has relative luminance; here only which side of the middle a
// colour is on matters: a dark paper gets a lighter drawing, a light one a
// darker.
func TestShade(t *testing.T) {
	tests := []struct{ colour, want string }{
		{"#000000", "#4c4c4c"}, // 30 % of the way to white, 76.5
		{"#ffffff", "#b3b3b3"}, // 30 % of the way to black, 178.5
	}
	for _, test := range tests {
		t.Run(test.colour, func(t *testing.T) { require.Equal(t, test.want, shade(test.colour)) })
	}
}

func TestEveryDrawingHasATile(t *testing.T) {
	for _, d := range papers.Drawings() {
		if _, ok := tiles[papers.Drawing(d)]; !ok {
			require.Equal(t, string(papers.NoDrawing), d)
		}
	}
}

// The same kit gives the same bytes.
func TestPicturesRepeat(t *testing.T) {
	a, err := Cards(checkKit(t), 1, 2, 3)
	require.NoError(t, err)
	b, err := Cards(checkKit(t), 1, 2, 3)
	require.NoError(t, err)
	require.Equal(t, a, b)
}
