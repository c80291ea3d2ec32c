package svg

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/geometry"
)

// small is a sheet as somebody might write it by hand; the cases below
// change one thing in it. The root starts in line 1, the layer in line 2,
// its path in line 4.
const small = `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="50mm" viewBox="0 0 100 50">
<g id="cut" fill="none" stroke="#000000" stroke-width="0.1">
  <title>Cut</title>
  <path d="M 1 1 L 9 1 L 9 9 Z" data-card="07"/>
</g>
</svg>
`

func TestReadSmall(t *testing.T) {
	want := Drawing{Size: size(100, 50), Layers: []Layer{{
		ID: Cut, Title: "Cut", Stroke: "#000000",
		Shapes: []Shape{{Rings: []geometry.Ring{ring("1,1 9,1 9,9")}, Attributes: []Attribute{{"data-card", "07"}}}},
	}}}
	same := map[string]string{
		"as it stands":      small,
		"a declaration":     `<?xml version="1.0" encoding="UTF-8" standalone="no"?>` + "\n" + small,
		"comments":          "<!-- a --><!-- b -->" + strings.ReplaceAll(small, ">\n", "><!-- <path/> -->\n"),
		"line ends":         strings.ReplaceAll(small, "\n", "\r\n"),
		"single quotes":     strings.ReplaceAll(small, `"`, `'`),
		"zeros and commas":  strings.ReplaceAll(small, `"0 0 100 50"`, `" 0,-0 +100.0,050 "`),
		"references":        strings.ReplaceAll(small, "M 1 1", "&#x4D; 1&#32;1"),
		"marked characters": strings.ReplaceAll(small, "Cut</", "<![CDATA[C]]>ut</"),
		"a prefix": strings.NewReplacer("xmlns=", "xmlns:xlink=\"http://www.w3.org/1999/xlink\" xmlns=").
			Replace(small),
		"closed by a tag": strings.Replace(small, `"/>`, `"> </path>`, 1),
	}
	for name, data := range same {
		t.Run(name, func(t *testing.T) {
			got, err := Read([]byte(data))
			require.NoError(t, err)
			require.Equal(t, want, got)
		})
	}
}

func TestReadRefuses(t *testing.T) {
	const layer = "\n<g id=\"cut\" fill=\"none\" stroke=\"#000000\" stroke-width=\"0.1\"><title>Cut</title><path d=\"M 2 2 L 3 3\"/></g>"
	path := func(text string) [2]string { return [2]string{`data-card="07"/>`, text + `/>`} }
	data := func(d string) [2]string { return [2]string{"M 1 1 L 9 1 L 9 9 Z", d} }
	tests := map[string]struct {
		change [2]string // what is replaced, by what
		want   string
	}{
		// The size of a sheet: SVG 2 §8.9 (units), §8.12 (no size of its own), CSS Values 3 §5.2.
		"no width":       {[2]string{` width="100mm"`, ""}, `line 1, column 1: the root has no width, so the sheet has no true size; write it like width="304.8mm"`},
		"no height":      {[2]string{` height="50mm"`, ""}, `line 1, column 1: the root has no height, so the sheet has no true size; write it like height="304.8mm"`},
		"no unit":        {[2]string{`"100mm"`, `"100"`}, `line 1, column 48: width "100": is not in millimetres; write it like 304.8mm`},
		"px":             {[2]string{`"100mm"`, `"100px"`}, `line 1, column 48: width "100px": is not in millimetres; write it like 304.8mm`},
		"inches":         {[2]string{`"50mm"`, `"2in"`}, `line 1, column 63: height "2in": is not in millimetres; write it like 304.8mm`},
		"percent":        {[2]string{`"50mm"`, `"100%"`}, `line 1, column 63: height "100%": is not in millimetres; write it like 304.8mm`},
		"space inside":   {[2]string{`"50mm"`, `"50 mm"`}, `line 1, column 63: height "50 mm": is not a number followed by mm; write it like 304.8mm`},
		"width 0":        {[2]string{`"100mm"`, `"0mm"`}, `line 1, column 1: sheet size 0 x 50 mm: width and height must be above 0`},
		"width negative": {[2]string{`"100mm"`, `"-1mm"`}, `line 1, column 1: sheet size -1 x 50 mm: width and height must be above 0`},
		// SVG 2 §8.6: four numbers; §8.2: they scale the drawing.
		"no viewBox":          {[2]string{` viewBox="0 0 100 50"`, ""}, `line 1, column 1: the root has no viewBox; write viewBox="0 0 100 50"`},
		"viewBox in px":       {[2]string{`"0 0 100 50"`, `"0 0 200 100"`}, `line 1, column 78: viewBox "0 0 200 100" differs from the size of the sheet; write "0 0 100 50"`},
		"viewBox moved":       {[2]string{`"0 0 100 50"`, `"1 0 100 50"`}, `line 1, column 78: viewBox "1 0 100 50" differs from the size of the sheet; write "0 0 100 50"`},
		"viewBox off by 1 nm": {[2]string{`"0 0 100 50"`, `"0 0 100 50.000001"`}, `line 1, column 78: viewBox "0 0 100 50.000001" differs from the size of the sheet; write "0 0 100 50"`},
		"viewBox of five":     {[2]string{`"0 0 100 50"`, `"0 0 100 50 0"`}, `line 1, column 78: viewBox "0 0 100 50 0" differs from the size of the sheet; write "0 0 100 50"`},
		"viewBox empty":       {[2]string{`"0 0 100 50"`, `""`}, `line 1, column 78: viewBox "" differs from the size of the sheet; write "0 0 100 50"`},
		"viewBox with unit":   {[2]string{`"0 0 100 50"`, `"0 0 100mm 50mm"`}, `line 1, column 85: viewBox: found 'm' where a number should stand`},
		"viewbox":             {[2]string{`viewBox`, `viewbox`}, `line 1, column 69: attribute viewbox has no place in the <svg> of a sheet, which takes xmlns, xmlns:xlink, width, height, viewBox`},
		"aspect":              {[2]string{` viewBox`, ` preserveAspectRatio="none" viewBox`}, `line 1, column 69: attribute preserveAspectRatio has no place in the <svg> of a sheet, which takes xmlns, xmlns:xlink, width, height, viewBox`},

		// Namespaces.
		"no namespace":        {[2]string{` xmlns="http://www.w3.org/2000/svg"`, ""}, `line 1, column 1: <svg> is not in the namespace of SVG; write xmlns="http://www.w3.org/2000/svg" in the root`},
		"wrong namespace":     {[2]string{"2000/svg", "2000/SVG"}, `line 1, column 1: element <svg> is from the unknown namespace "http://www.w3.org/2000/SVG"; delete it`},
		"namespace declared":  {[2]string{" xmlns=", ` xmlns:x="http://example.org/x" xmlns=`}, `line 1, column 6: attribute xmlns:x is from another namespace; delete it`},
		"xlink is not xlink":  {[2]string{" xmlns=", ` xmlns:xlink="http://example.org/x" xmlns=`}, `line 1, column 6: xmlns:xlink="http://example.org/x": it must be "http://www.w3.org/1999/xlink"`},
		"foreign element":     {[2]string{"  <path", "  <x:path"}, `line 4, column 3: element <path> is from the unknown namespace "x"; delete it`},
		"foreign attribute":   {path(`x:label="a"`), `line 4, column 33: attribute x:label is from another namespace; delete it`},
		"xml attribute":       {path(`xml:space="preserve"`), `line 4, column 33: attribute xml:space is from another namespace; delete it`},
		"namespace in a path": {path(`xmlns="http://www.w3.org/2000/svg"`), `line 4, column 33: attribute xmlns has no place in the <path> of a sheet, which takes d, fill, stroke, id, data-*`},

		// Elements and attributes outside the subset.
		"use":               {[2]string{"</g>", "<use href=\"#a\"/></g>"}, `line 5, column 1: element <use> where <path> should stand; a sheet holds only svg, title, desc, g and path`},
		"text element":      {[2]string{"</g>", "<text>A1</text></g>"}, `line 5, column 1: element <text> where <path> should stand; a sheet holds only svg, title, desc, g and path`},
		"style element":     {[2]string{"\n<g", "\n<style>path{}</style><g"}, `line 2, column 1: element <style> where <g> should stand; a sheet holds only svg, title, desc, g and path`},
		"rect":              {[2]string{"  <path", "  <rect"}, `line 4, column 3: element <rect> where <path> should stand; a sheet holds only svg, title, desc, g and path`},
		"path in the root":  {[2]string{"</svg>", "<path/></svg>"}, `line 6, column 1: element <path> where <g> should stand; a sheet holds only svg, title, desc, g and path`},
		"group in a group":  {[2]string{"  <path", "  <g><path"}, `line 4, column 3: element <g> where <path> should stand; a sheet holds only svg, title, desc, g and path`},
		"title of a path":   {[2]string{`"/>`, `"><title>a</title></path>`}, `line 4, column 48: element <title> inside a <path>`},
		"other root":        {[2]string{"<svg", "<html"}, `line 1, column 1: element <html> where <svg> should stand; a sheet holds only svg, title, desc, g and path`},
		"transform":         {path(`transform="scale(2)"`), `line 4, column 33: attribute transform has no place in the <path> of a sheet, which takes d, fill, stroke, id, data-*`},
		"transform of all":  {[2]string{" width", ` transform="scale(2)" width`}, `line 1, column 41: attribute transform has no place in the <svg> of a sheet, which takes xmlns, xmlns:xlink, width, height, viewBox`},
		"style":             {[2]string{`id="cut"`, `style="x" id="cut"`}, `line 2, column 4: attribute style has no place in the <g> of a sheet, which takes id, fill, stroke, stroke-width, data-*`},
		"class":             {path(`class="x"`), `line 4, column 33: attribute class has no place in the <path> of a sheet, which takes d, fill, stroke, id, data-*`},
		"title with class":  {[2]string{"<title>", `<title class="x">`}, `line 3, column 10: attribute class has no place in the <title> of a sheet, which takes none`},
		"attribute twice":   {path(`data-a="1" data-a="2"`), `line 4, column 44: attribute data-a is given twice`},
		"d twice":           {path(`d="M 0 0"`), `line 4, column 33: attribute d is given twice`},
		"no white space":    {path(`data-a="1"data-b="2"`), `line 4, column 43: white space is missing before an attribute`},
		"line break":        {path("data-a=\"1\n2\""), `line 4, column 33: attribute data-a: a tab or a line break in the value; write a space`},
		"stroke of a path":  {path(`stroke="#000000"`), `line 4, column 33: only a filled path has a stroke of its own, which is none`},
		"fill none":         {path(`fill="none"`), `line 4, column 39: fill "none": write a colour as # and six hexadecimal digits, such as #009E73`},
		"fill and stroke":   {path(`fill="#ffffff"`), `line 4, column 3: <path> needs stroke="none"`},
		"filled, stroked":   {path(`fill="#ffffff" stroke="#ffffff"`), `line 4, column 56: stroke "#ffffff": it must be "none" here`},
		"no d":              {[2]string{`d="M 1 1 L 9 1 L 9 9 Z" `, ""}, `line 4, column 3: the path has no d, so it draws nothing`},
		"layer filled":      {[2]string{`fill="none"`, `fill="#000000"`}, `line 2, column 19: fill "#000000": it must be "none" here`},
		"layer fill left":   {[2]string{` fill="none"`, ``}, `line 2, column 1: <g> needs fill="none"`},
		"layer stroke left": {[2]string{` stroke="#000000"`, ``}, `line 2, column 1: the layer has no stroke; write a colour such as stroke="#000000"`},
		"stroke width":      {[2]string{`"0.1"`, `"1px"`}, `line 2, column 56: stroke-width "1px": it must be "0.1" here`},
		"colour by name":    {[2]string{`"#000000"`, `"black"`}, `line 2, column 1: layer cut: stroke "black": write a colour as # and six hexadecimal digits, such as #009E73`},
		"unknown layer":     {[2]string{`"cut"`, `"layer1"`}, `line 2, column 1: layer "layer1": a sheet has the layers cut, score and print`},
		"layer without id":  {[2]string{` id="cut"`, ``}, `line 2, column 1: layer "": a sheet has the layers cut, score and print`},
		"layer twice":       {[2]string{"\n</svg>", layer + "</svg>"}, `line 6, column 1: layer cut: id "cut" is used twice in the sheet`},
		"id of a layer":     {path(`id="cut"`), `line 4, column 3: path: id "cut" is used twice in the sheet`},
		"no layer title":    {[2]string{"<title>Cut</title>", ""}, `line 2, column 1: layer cut: has no title; give it one, such as "Score lines"`},
		"empty title":       {[2]string{"<title>Cut</title>", "<title/>"}, `line 3, column 3: an empty <title>; leave it out or write a text`},
		"tag in a title":    {[2]string{"Cut<", "<b/>Cut<"}, `line 3, column 10: element <b> inside a <title>, which holds only text`},
		"title too late":    {[2]string{"</g>", "<title>a</title></g>"}, `line 5, column 1: element <title> where <path> should stand; a sheet holds only svg, title, desc, g and path`},
		"desc before title": {[2]string{"\n<g", "\n<desc>a</desc><title>b</title><g"}, `line 2, column 15: element <title> where <g> should stand; a sheet holds only svg, title, desc, g and path`},
		"empty layer":       {[2]string{`<path d="M 1 1 L 9 1 L 9 9 Z" data-card="07"/>`, ""}, `line 2, column 1: layer cut holds no path; leave it out`},
		"loose text":        {[2]string{"</g>", "A1a</g>"}, `line 5, column 1: text "A1a": only a title and a desc hold text`},

		// Path data.
		"relative":          {data("M 1 1 l 9 1"), `line 4, column 18: path data: path command l: a sheet has only the absolute commands M, L, C and Z`},
		"exponent":          {data("M 1e1 1"), `line 4, column 14: path data: number 1e1: has an exponent; a sheet writes plain decimals`},
		"in line 2 of d":    {data("M 1 1\nL 9 x"), `line 5, column 5: path data: found 'x' where a number should stand`},
		"behind references": {data("M 1&#32;1 l 2 2"), `line 4, column 12: path data: path command l: a sheet has only the absolute commands M, L, C and Z`},
		"nothing in d":      {data(""), `line 4, column 3: path (07): an empty path: holds no outline and no line; leave the shape out`},
		"only a start":      {data("M 1 1"), `line 4, column 3: path (07): line 1: an empty path: only a start and nowhere to go; leave it out`},
		"closed start":      {data("M 1 1 Z"), `line 4, column 3: path (07): outline 1: an empty path: has no sides; leave it out`},
		"ring behind line":  {data("M 1 1 L 2 2 M 1 1 L 9 1 L 9 9 Z"), `line 4, column 12: a closed outline behind an open line; write the outlines first`},
		"outside":           {data("M 1 1 L 9 1 L 9 51 Z"), `line 4, column 3: path (07): outline 1: reaches (9, 51) mm, outside the sheet of 100 x 50 mm`},

		// XML itself.
		"doctype":          {[2]string{"<svg", "<!DOCTYPE svg><svg"}, `line 1, column 1: DOCTYPE and other declarations have no place here; delete it`},
		"two roots":        {[2]string{"</svg>", "</svg>\n <svg/>"}, `line 7, column 2: a second root element <svg>; a file has one`},
		"text behind":      {[2]string{"</svg>", "</svg>\n x"}, `line 7, column 2: text outside the root element: "x\n"`},
		"text before":      {[2]string{"<svg", "x<svg"}, `line 1, column 1: text outside the root element: "x"`},
		"space by number":  {[2]string{"<svg", "&#32;<svg"}, `line 1, column 1: text outside the root element: "&#32;"`},
		"style sheet":      {[2]string{"<svg", `<?xml-stylesheet href="a"?><svg`}, `line 1, column 1: processing instruction <?xml-stylesheet?> has no place here; delete it`},
		"declaration late": {[2]string{"<svg", ` <?xml version="1.0"?><svg`}, `line 1, column 2: the XML declaration must be the first thing in the file`},
		"other encoding":   {[2]string{"<svg", `<?xml version="1.0" encoding="latin1"?><svg`}, `line 1, column 40: the file is declared to be in another encoding; save it as UTF-8`},
		"other XML":        {[2]string{"<svg", `<?xml version="1.1"?><svg`}, `line 1, column 22: not well-formed XML: unsupported version "1.1"; only version 1.0 is supported`},
		"byte order mark":  {[2]string{"<svg", "\uFEFF<svg"}, `line 1, column 1: the file starts with a byte order mark; save it as UTF-8 without one`},
		"not UTF-8":        {[2]string{"Cut<", "é\xff<"}, `line 3, column 11: the byte 0xff is not UTF-8; save the file as UTF-8`},
		"control":          {[2]string{"Cut<", "\x07<"}, `line 3, column 11: not well-formed XML: illegal character code U+0007`},
		"entity":           {[2]string{"Cut<", "&nbsp;<"}, `line 3, column 16: not well-formed XML: invalid character entity &nbsp;`},
		"tags crossed":     {[2]string{"</g>", "</svg>"}, `line 5, column 7: not well-formed XML: element <g> closed by </svg>`},
		"cut off":          {[2]string{"\n</svg>\n", ""}, `line 5, column 5: not well-formed XML: unexpected EOF`},
		"columns count characters": {[2]string{`d="M`, `data-a="ééé" d="m`},
			`line 4, column 25: path data: path command m: a sheet has only the absolute commands M, L, C and Z`},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			require.Equal(t, 1, strings.Count(small, test.change[0]), "the case changes one place")
			_, err := Read([]byte(strings.Replace(small, test.change[0], test.change[1], 1)))
			require.EqualError(t, err, test.want)
		})
	}
}

func TestReadNothing(t *testing.T) {
	for data, want := range map[string]string{
		"":                       "line 1, column 1: the file holds no element; an SVG file has one <svg>",
		"\n <!-- a -->":          "line 2, column 12: the file holds no element; an SVG file has one <svg>",
		"cut":                    `line 1, column 1: text outside the root element: "cut"`,
		"\x00":                   "line 1, column 2: not well-formed XML: illegal character code U+0000",
		"<":                      "line 1, column 2: not well-formed XML: unexpected EOF",
		strings.Repeat("<g>", 9): "line 1, column 1: element <g> where <svg> should stand; a sheet holds only svg, title, desc, g and path",
	} {
		_, err := Read([]byte(data))
		require.EqualError(t, err, want)
	}
}
