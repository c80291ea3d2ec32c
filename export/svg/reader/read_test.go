package reader

import (
	"bytes"
	"compress/gzip"
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/export/svg/findings"
)

// Each body stands on the sheet of 100 x 50 mm with half a millimetre to the
// unit; each want is a drawn element with its box in mm. Boxes are by hand
// from the clause named.
func TestElements(t *testing.T) {
	const symbol = `<symbol id="s" viewBox="0 0 10 10"><rect id="r" width="10" height="10"/></symbol>`
	const r = `<rect id="r" x="10" y="20" width="30" height="40"/>` // [5, 10, 15, 20]
	nested := func(attributes string) string {
		return `<svg ` + attributes + `><rect id="r" width="100" height="100"/></svg>`
	}
	tests := map[string]struct {
		body string
		want []string
	}{
		"nothing": {"", []string{}},
		"a rect":  {r, []string{"rect#r 5 10 15 20"}},
		"order":   {`<g><path d="M0 0H2"/></g><rect width="2" height="2"/><line x2="2"/>`, []string{"path 0 0 1 0", "rect 0 0 1 1", "line 0 0 1 0 unseen unfilled"}},

		// SVG 2 §10.2 to §10.7, the shapes.
		"circle":                {`<circle cx="20" cy="30" r="10"/>`, []string{"circle 5 10 10 10"}},
		"ellipse":               {`<ellipse cx="20" cy="30" rx="10" ry="4"/>`, []string{"ellipse 5 13 10 4"}},
		"ellipse, one radius":   {`<ellipse rx="10" ry="auto"/><ellipse ry="6"/>`, []string{"ellipse -5 -5 10 10", "ellipse -3 -3 6 6"}},
		"polyline and polygon":  {`<polyline points="0,0 10 10,20-10"/><polygon points="0 0 10 0 10 10"/>`, []string{"polyline 0 -5 10 10", "polygon 0 0 5 5"}},
		"an odd point":          {`<polyline points="0 0 10 10 20"/>`, []string{"polyline 0 0 5 5"}},
		"points that are none":  {`<polygon points="0 0 10 10 x"/>`, []string{}},
		"no size":               {`<rect/><rect width="5"/><rect width="0" height="5"/><circle/><circle r="0"/><ellipse rx="5" ry="0"/><ellipse/><path/><polygon points="5 5"/><path d=" none "/><path d="M1 1"/>`, []string{}},
		"size below zero":       {`<rect width="-5" height="5"/><circle r="-5"/><ellipse rx="-5"/>`, []string{}},
		"radius below zero":     {`<ellipse rx="-5" ry="5"/>`, []string{"ellipse -2.5 -2.5 5 5"}},
		"line":                  {`<line x1="10" y1="20" x2="30" y2="4" stroke="red"/>`, []string{"line 5 2 10 8 unfilled stroked"}},
		"a stroke of any width": {`<rect width="4" height="4" stroke="red" stroke-width="50"/>`, []string{"rect 0 0 2 2 stroked"}},

		// §8.9: percentages refer to the viewport, the rest to its diagonal.
		"percent":           {`<rect x="50%" y="50%" width="10%" height="10%"/>`, []string{"rect 50 25 10 5"}},
		"percent of circle": {`<circle cx="50%" cy="50%" r="10%"/>`, []string{"circle 42.094 17.094 15.811 15.811"}},
		"percent inside":    {`<svg viewBox="0 0 10 20" x="10" width="100" height="50" preserveAspectRatio="none"><rect width="50%" height="50%"/></svg>`, []string{"rect 5 0 25 12.5"}},
		"mm inside":         {`<rect width="25.4mm" height="1in"/>`, []string{"rect 0 0 48 48"}}, // 96 units of 0.5 mm
		"em":                {`<g font-size="10"><g font-size="2em"><rect width="4em" height="1em"/></g></g>`, []string{"rect 0 0 40 10"}},
		"rem":               {`<g font-size="10"><rect width="1rem" height="2rem"/></g>`, []string{"rect 0 0 8 16"}}, // 16 px by custom
		"font sizes":        {`<g font-size="large"><rect width="5em" height="1em" font-size="50%"/></g>`, []string{"rect 0 0 24 4.8"}},
		"window":            {`<rect width="5vw" height="5"/><circle r="1" cx="1vh"/><ellipse rx="1" ry="1ex"/><line x1="1ch"/>` + r, []string{"rect#r 5 10 15 20"}},

		// §5.2 and §5.6: groups, links and switch.
		"groups":           {`<g id="one">` + r + `<g id="two">` + r + `</g></g><a>` + r + `</a>`, []string{"rect#r 5 10 15 20 in one", "rect#r 5 10 15 20 in one", "rect#r 5 10 15 20"}},
		"defs":             {`<defs>` + r + `</defs><clipPath>` + r + `</clipPath><mask>` + r + `</mask><pattern>` + r + `</pattern><marker>` + r + `</marker><symbol>` + r + `</symbol><metadata>` + r + `</metadata>`, []string{}},
		"unknown elements": {`<panel>` + r + `</panel><x:g xmlns:x="http://example.org/x">` + r + `</x:g>`, []string{}},
		"switch":           {`<switch><rect systemLanguage="de" width="2" height="2"/><circle systemLanguage="fr, en-GB" r="2"/><line/></switch>`, []string{"circle -1 -1 2 2"}},
		"switch, none":     {`<switch><rect systemLanguage="de" width="2" height="2"/><rect requiredExtensions="x" width="2" height="2"/></switch>`, []string{}},
		"switch, first":    {`<switch><title>a</title>` + r + `<circle r="2"/></switch>`, []string{"rect#r 5 10 15 20"}},
		"switch, hidden":   {`<switch><rect display="none" width="2" height="2"/><circle r="2"/></switch>`, []string{}},
		"language outside": {`<rect systemLanguage="de" width="2" height="2"/><rect systemLanguage="EN" width="4" height="4"/><g requiredExtensions="">` + r + `</g>`, []string{"rect 0 0 2 2"}},

		// §8.8 and §5.1: nested viewports.
		"nested, default size": {nested(`viewBox="0 0 100 100"`), []string{"rect#r 25 0 50 50"}},
		"nested in units":      {nested(`x="10mm" y="5mm" width="20mm" height="20mm" viewBox="0 0 100 100"`), []string{"rect#r 18.898 9.449 37.795 37.795"}},
		"nested, no viewBox":   {nested(`x="20" y="10" width="100" height="100"`), []string{"rect#r 10 5 50 50"}},
		"nested, too small":    {nested(`x="20" width="50" height="100"`), []string{"rect#r 10 0 50 50 outside"}},
		"nested, not clipped":  {nested(`width="50" height="50" overflow="visible"`), []string{"rect#r 0 0 50 50"}},
		"nested, slice":        {nested(`width="50" height="20" viewBox="0 0 100 100" preserveAspectRatio="xMidYMid slice"`), []string{"rect#r 0 -7.5 25 25 outside"}},
		"nested, zero":         {nested(`width="0"`) + nested(`height="0"`) + nested(`viewBox="0 0 0 5"`), []string{}},
		"nested, below zero":   {nested(`width="-5" height="50%"`), []string{"rect#r 0 0 50 50 outside"}},
		"nested, unknown size": {nested(`width="5vw"`) + nested(`x="5ch"`), []string{}},
		"twice nested":         {`<svg width="100" height="100"><svg x="90" width="100" height="100"><rect width="20" height="5"/><rect width="10" height="5"/></svg></svg>`, []string{"rect 45 0 10 2.5 outside", "rect 45 0 5 2.5"}},
		"nested, transformed":  {nested(`transform="translate(20 0)" width="100" height="100"`), []string{"rect#r 10 0 50 50"}},

		// §5.5: use.
		"use":                   {`<defs>` + r + `</defs><use href="#r" x="20" y="-20"/>`, []string{"rect#r via use 15 0 15 20"}},
		"use, old":              {`<defs>` + r + `</defs><use id="u" xlink:href="#r"/>`, []string{"rect#r via u 5 10 15 20"}},
		"use, both":             {`<defs>` + r + `<circle id="c" r="2"/></defs><use xlink:href="#r" href="#c"/>`, []string{"circle#c via use -1 -1 2 2"}},
		"use, transform first":  {`<defs><rect id="r" x="1" y="2" width="9" height="8"/></defs><use href="#r" x="10" y="5" transform="scale(2)"/>`, []string{"rect#r via use 11 7 9 8"}},
		"use, no size of rect":  {`<defs>` + r + `</defs><use href="#r" width="5" height="5"/>`, []string{"rect#r via use 5 10 15 20"}},
		"use of a group":        {`<defs><g id="g"><g>` + r + `</g></g></defs><g id="l"><use href="#g" x="2"/></g>`, []string{"rect#r via use 6 10 15 20 in l"}},
		"use of a use":          {`<defs>` + r + `<use id="u" href="#r" x="2"/></defs><use id="v" href="#u" x="2"/>`, []string{"rect#r via v/u 7 10 15 20"}},
		"use, drawn twice":      {r + `<use href="#r" x="10"/>`, []string{"rect#r 5 10 15 20", "rect#r via use 10 10 15 20"}},
		"use of what is hidden": {`<g display="none">` + r + `</g><use href="#r"/><rect id="h" display="none" width="2" height="2"/><use href="#h"/>`, []string{"rect#r via use 5 10 15 20"}},
		"use, inherited":        {`<defs>` + r + `</defs><use href="#r" fill="none" stroke="red"/>`, []string{"rect#r via use 5 10 15 20 unfilled stroked"}},
		"symbol":                {symbol + `<use href="#s" x="20" y="10" width="40" height="20"/>`, []string{"rect#r via use 15 5 10 10"}},
		"symbol, no size":       {symbol + `<use href="#s" x="20" y="10"/>`, []string{"rect#r via use 35 5 50 50"}},
		"symbol's own size":     {`<symbol id="s" width="20" height="20" viewBox="0 0 10 10"><circle cx="5" cy="5" r="5"/></symbol><use href="#s"/><use href="#s" width="40"/>`, []string{"circle via use 0 0 10 10", "circle via use 5 0 10 10"}},
		"symbol, zero":          {symbol + `<use href="#s" width="0"/>`, []string{}},
		"symbol, hidden":        {`<symbol id="s" display="none">` + r + `</symbol><use href="#s"/>`, []string{}},
		"symbol, transformed":   {`<symbol id="s" transform="translate(10 0)">` + r + `</symbol><use href="#s"/>`, []string{"rect#r via use 10 10 15 20"}},
		"use of an svg":         {`<defs><svg id="s" width="20" height="20" viewBox="0 0 10 10"><circle cx="5" cy="5" r="5"/></svg></defs><use href="#s"/><use href="#s" width="60" height="60"/>`, []string{"circle via use 0 0 10 10", "circle via use 0 0 30 30"}},
		"use of nothing":        {`<use/><use href=""/><use href="#none"/><use href="a.svg#r"/><use href="#n"/><title id="n"/>` + r, []string{"rect#r 5 10 15 20"}},
		"use of itself":         {`<use id="u" href="#u"/><g id="g"><use href="#g"/>` + r + `</g><use id="a" href="#b"/><use id="b" href="#a"/>`, []string{"rect#r 5 10 15 20 in g"}},
		"use, size unknown":     {r + `<use href="#r" x="1vw"/>`, []string{"rect#r 5 10 15 20"}},

		// §3.2, §13.2: what is drawn, and what of it is seen.
		"display":              {`<g display="none">` + r + `</g><rect width="2" height="2" display="none"/><rect width="4" height="4" display="inline"/>`, []string{"rect 0 0 2 2"}},
		"display by style":     {`<rect width="2" height="2" style="display:None"/><rect style="display:block" width="4" height="4" display="none"/>`, []string{"rect 0 0 2 2"}},
		"visibility":           {`<g visibility="hidden">` + r + `<rect width="2" height="2" visibility="visible"/></g><rect width="4" height="4" visibility="COLLAPSE"/>`, []string{"rect#r 5 10 15 20 unseen", "rect 0 0 1 1", "rect 0 0 2 2 unseen"}},
		"opacity":              {`<g opacity="0"><rect width="2" height="2" opacity="1"/></g><rect width="2" height="2" opacity="0.1"/><rect width="2" height="2" opacity="0%"/>`, []string{"rect 0 0 1 1 unseen", "rect 0 0 1 1", "rect 0 0 1 1 unseen"}},
		"fill":                 {`<g fill="none"><rect width="2" height="2"/><rect width="2" height="2" fill="red"/><rect width="2" height="2" fill="inherit"/></g><rect width="2" height="2" fill="transparent"/><rect width="2" height="2" fill-opacity="0.0"/>`, []string{"rect 0 0 1 1 unseen unfilled", "rect 0 0 1 1", "rect 0 0 1 1 unseen unfilled", "rect 0 0 1 1 unseen unfilled", "rect 0 0 1 1 unseen unfilled"}},
		"stroke":               {`<g fill="none" stroke="red"><rect width="2" height="2"/><rect width="2" height="2" stroke-width="0"/><rect width="2" height="2" stroke-opacity="0"/><rect width="2" height="2" stroke="none"/></g>`, []string{"rect 0 0 1 1 unfilled stroked", "rect 0 0 1 1 unseen unfilled", "rect 0 0 1 1 unseen unfilled", "rect 0 0 1 1 unseen unfilled"}},
		"no width in em":       {`<rect width="2" height="2" fill="none" stroke="red" stroke-width="0em"/>`, []string{"rect 0 0 1 1 unseen unfilled"}},
		"dashes":               {`<g stroke-dasharray="4 2"><line x2="2"/><line x2="2" stroke-dasharray="none"/></g><line x2="2" stroke-dasharray="0 0.0"/>`, []string{"line 0 0 1 0 unseen unfilled dashed", "line 0 0 1 0 unseen unfilled", "line 0 0 1 0 unseen unfilled"}},
		"fill-rule":            {`<g fill-rule="evenodd"><rect width="2" height="2"/><rect width="2" height="2" fill-rule="nonzero"/></g>`, []string{"rect 0 0 1 1 evenodd", "rect 0 0 1 1"}},
		"clips":                {`<g clip-path="url(#a)"><rect width="2" height="2"/></g><rect width="2" height="2" mask="url(#a)"/><rect width="2" height="2" filter="url(#a)"/><rect width="2" height="2" filter="none"/>`, []string{"rect 0 0 1 1 clipped", "rect 0 0 1 1 clipped", "rect 0 0 1 1 clipped", "rect 0 0 1 1"}},
		"style of the outside": {`<style>.k{fill:none;stroke:red} #c .k{stroke-dasharray:1 1}</style><g id="c"><rect class="k" width="2" height="2"/></g>`, []string{"rect 0 0 1 1 in c unfilled stroked dashed"}},

		// SVG 1.1 §7.6; the numbers by hand.
		"rotate about":     {`<g transform="rotate(90 25 40)">` + r + `</g>`, []string{"rect#r 2.5 12.5 20 15"}},
		"skewX":            {`<rect x="10" y="20" width="30" height="40" transform="skewX(30)"/>`, []string{"rect 10.774 10 26.547 20"}},
		"matrix":           {`<rect x="10" y="20" width="30" height="40" transform="matrix(.8 .6 -.6 .8 40 5)"/>`, []string{"rect 6 13.5 24 25"}},
		"list":             {`<rect x="10" y="20" width="30" height="40" transform="translate(20,10),rotate(15) scale(.5)"/>`, []string{"rect 8.533 10.477 9.833 11.6"}},
		"turned ellipse":   {`<ellipse rx="40" ry="10" transform="translate(100 50) rotate(30)"/>`, []string{"ellipse 32.5 14.103 35 21.794"}},
		"one mistake":      {`<rect width="2" height="2" transform="translate(9) rotate(5deg)"/>`, []string{"rect 0 0 1 1"}},
		"flat":             {`<rect width="2" height="2" transform="scale(0)"/><rect width="2" height="2" transform="matrix(1 2 2 4 0 0)"/><g transform="scale(1 0)">` + r + `</g>`, []string{}},
		"far beyond":       {strings.Repeat(`<g transform="scale(1e38)">`, 9) + r + strings.Repeat("</g>", 9), []string{}},
		"beyond all paper": {`<rect width="300000" height="2"/>`, []string{"rect 0 0 150000 1"}},

		// css-transforms-1 §8, §10; css-transforms-2 §6 for the single ones.
		"transform by style":  {`<rect width="4" height="2" style="transform:translate(2px,1px) scale(2)" transform="scale(9)"/>`, []string{"rect 1 0.5 4 2"}},
		"percent of the view": {`<rect width="4" height="2" style="transform:translate(50%,50%)"/>`, []string{"rect 50 25 2 1"}},
		"none by style":       {`<rect width="4" height="2" style="transform:none" transform="scale(9)"/>`, []string{"rect 0 0 2 1"}},
		"void style":          {`<rect width="4" height="2" style="transform:scale(2px)" transform="scale(2)"/>`, []string{"rect 0 0 4 2"}},
		"unknown style":       {`<rect width="4" height="2" style="transform:var(--a)"/><rect width="4" height="2" style="offset-path:ray(1deg)"/>`, []string{}},
		"origin":              {`<rect x="10" width="4" height="2" transform="scale(2)" transform-origin="10 0"/>`, []string{"rect 5 0 4 2"}},
		"origin in percent":   {`<rect x="100" y="50" width="4" height="2" style="transform-origin:50% 50%" transform="rotate(180)"/>`, []string{"rect 48 24 2 1"}},
		"fill-box":            {`<rect x="10" y="10" width="4" height="2" style="transform:rotate(90deg);transform-origin:50% 50%;transform-box:fill-box"/>`, []string{"rect 5.5 4.5 1 2"}},
		"fill-box, percent":   {`<rect x="10" y="10" width="4" height="2" style="transform:translate(100%,100%);transform-box:fill-box"/>`, []string{"rect 7 6 2 1"}},
		"fill-box of a group": {`<g transform="translate(0 20)"><g style="transform:scale(2);transform-origin:right bottom;transform-box:fill-box"><rect width="4" height="2"/><rect x="6" width="4" height="2"/></g></g>`, []string{"rect -5 9 4 2", "rect 1 9 4 2"}},
		"fill-box, flat":      {`<rect width="4" height="2" style="transform:scale(0);transform-box:fill-box"/>`, []string{}},
		"single ones":         {`<rect width="10" height="10" style="translate:10px 20px;rotate:90deg;scale:2"/>`, []string{"rect -5 10 10 10"}},
		"nothing inside":      {`<g style="transform:scale(2);transform-box:fill-box"/>`, []string{}},

		// SVG 2 §7: geometry by style.
		"size by style":   {`<rect width="4" height="2" style="width:8px;x:2px"/>`, []string{"rect 1 0 4 1"}},
		"d by style":      {`<path d="M0 0H2" style="d:path('M0 0H20')"/><path d="M0 0H2" style="d:none"/><path d="M0 0H2" style="d:path('M0 0H20 X')"/><path d="M0 0H2" style="d:5"/>`, []string{"path 0 0 10 0", "path 0 0 1 0", "path 0 0 1 0"}},
		"radius by style": {`<circle r="4" style="r:calc(1px + 1px)"/>`, []string{"circle -1 -1 2 2"}},
		"void by style":   {`<rect width="4" height="2" style="width:furlong"/><rect width="4" height="2" style="width:-1px"/>`, []string{"rect 0 0 2 1", "rect 0 0 2 1"}},
		"var by style":    {`<rect width="4" height="2" style="width:var(--a)"/>`, []string{}},
		"calc below zero": {`<rect width="calc(1px - 2px)" height="2"/>`, []string{}},
		"auto by style":   {`<rect width="4" height="2" rx="1" style="rx:auto"/><rect width="4" height="2" style="width:auto"/>`, []string{"rect 0 0 2 1"}},
	}
	for name, test := range tests {
		t.Run(name, func(t *testing.T) {
			f, found := readSheet(test.body)
			require.True(t, f.Sized)
			require.Equal(t, test.want, elements(f), "%v", found.Findings())
		})
	}
}

// The size of the sheet, by SVG 2 §8.12 and CSS Values 4 §6.2, and where the
// rect of 30 x 40 at (10, 20) ends up: SVG 2 §8.2.
func TestSheets(t *testing.T) {
	const none = "no size"
	for root, want := range map[string]string{
		`width="100mm" height="50mm" viewBox="0 0 200 100"`:                                             "100 x 50: rect 5 10 15 20",
		`width="400Q" height="200q" viewBox="0 0 400 200"`:                                              "100 x 50: rect 2.5 5 7.5 10",
		`width="4in" height="5.08cm" viewBox="0 0 4 2"`:                                                 "101.6 x 50.8: rect 254 508 762 1016",
		`width="300" height="200px" viewBox="0 0 300 200"`:                                              "79.375 x 52.917 px: rect 2.646 5.292 7.938 10.583",
		`width="72pt" height="6pc"`:                                                                     "25.4 x 25.4: rect 2.646 5.292 7.938 10.583",
		`width=" 100MM " height="+5.0E1Mm" viewBox="0 0 200 100"`:                                       "100 x 50: rect 5 10 15 20",
		`width="10em" height="5rem" font-size="10mm" viewBox="0 0 200 100"`:                             "100 x 50: rect 5 10 15 20",
		`width="calc(50mm + 2cm)" height="35mm" viewBox="0 0 200 100"`:                                  "70 x 35: rect 3.5 7 10.5 14",
		`width="100mm" height="50mm" viewBox="0 0 -200 100"`:                                            "100 x 50: rect 2.646 5.292 7.938 10.583",
		`width="100mm" height="50mm" viewbox="0 0 200 100"`:                                             "100 x 50: rect 2.646 5.292 7.938 10.583",
		`width="100mm" height="50mm" viewBox="0 0 200 0"`:                                               "100 x 50:",
		`width="0mm" height="50mm" viewBox="0 0 200 100"`:                                               "0 x 50:",
		`width="100mm" height="50mm" viewBox="0 0 200 100" display="none"`:                              "100 x 50:",
		`width="100mm" height="50mm" viewBox="0 0 200 100" style="display:NONE"`:                        "100 x 50:",
		`width="100mm" height="50mm" viewBox="0 0 200 100" requiredExtensions="x"`:                      "100 x 50:",
		`width="100mm" height="50mm" viewBox="0 0 200 100" x="50" y="60"`:                               "100 x 50: rect 5 10 15 20",
		`width="100mm" height="50mm" viewBox="10 20 200 100"`:                                           "100 x 50: rect 0 0 15 20",
		`width="100mm" height="100mm" viewBox="0 0 200 100"`:                                            "100 x 100: rect 5 35 15 20",
		`width="100mm" height="100mm" viewBox="0 0 200 100" preserveAspectRatio="xMaxYMax slice"`:       "100 x 100: rect -90 20 30 40",
		`width="100mm" height="50mm" viewBox="0 0 200 100" style="width:50mm;height:25mm"`:              "50 x 25: rect 2.5 5 7.5 10",
		`width="100mm" height="50mm" viewBox="0 0 100 50" style="max-width:60mm"`:                       "60 x 50: rect 6 22 18 24",
		`width="100mm" height="50mm" viewBox="0 0 100 50" style="min-height:100mm;max-height:9mm"`:      "100 x 100: rect 10 45 30 40",
		`width="100mm" height="50mm" viewBox="0 0 200 100" style="max-width:none;margin:5px"`:           "100 x 50: rect 5 10 15 20",
		`width="100mm" height="50mm" viewBox="0 0 200 100" style="width:-5mm"`:                          "100 x 50: rect 5 10 15 20",
		`width="100mm" height="50mm" viewBox="0 0 200 100" transform="rotate(180)"`:                     "100 x 50: rect 80 20 15 20",
		`width="100mm" height="50mm" viewBox="0 0 200 100" transform="scale(2)" transform-origin="0 0"`: "100 x 50: rect 10 20 30 40",
		`height="50mm" viewBox="0 0 200 100"`:                                                           none,
		`width="100mm" viewBox="0 0 200 100"`:                                                           none,
		`viewBox="0 0 200 100"`:                                                                         none,
		`width="auto" height="50mm"`:                                                                    none,
		`width="100%" height="50mm"`:                                                                    none,
		`width="calc(1mm + 5%)" height="50mm"`:                                                          none,
		`width="100vw" height="50mm"`:                                                                   none,
		`width="100ex" height="50mm"`:                                                                   none,
		`width="100 mm" height="50mm"`:                                                                  none,
		`width="100furlong" height="50mm"`:                                                              none,
		`width="-100mm" height="50mm"`:                                                                  none,
		`width="" height="50mm"`:                                                                        none,
		`width="100mm" height="50mm" viewBox="0 0 200 100" style="zoom:2"`:                              none,
		`width="100mm" height="50mm" viewBox="0 0 200 100" style="padding:2mm"`:                         none,
		`width="100mm" height="50mm" viewBox="0 0 200 100" style="max-width:50%"`:                       none,
		`width="100mm" height="50mm" viewBox="0 0 200 100" style="width:auto"`:                          none,
		`width="100mm" height="50mm" viewBox="0 0 200 100" style="width:var(--a)"`:                      none,
	} {
		t.Run(root, func(t *testing.T) {
			var found findings.List
			f := Read([]byte(`<svg xmlns="http://www.w3.org/2000/svg" `+root+`><rect x="10" y="20" width="30" height="40"/></svg>`), &found)
			if want == none {
				require.False(t, f.Sized)
				require.Empty(t, f.Elements)
				require.Zero(t, f.W)
				require.True(t, hasError(&found))
				return
			}
			require.True(t, f.Sized)
			got := number(f.W) + " x " + number(f.H)
			if strings.Contains(want, "px") {
				require.True(t, f.InPixels)
				got += " px"
			} else if !strings.Contains(root, "calc") {
				require.False(t, f.InPixels)
			}
			require.Equal(t, want, strings.TrimRight(got+": "+strings.Join(elements(f), ";"), " "))
		})
	}
}

func TestLayersAndOthers(t *testing.T) {
	f, _ := readSheet(`<title>sheet</title>
<g id="cut" data-edges="shared"><desc>not this</desc><title> Cut
lines </title><title>nor this</title><g id="inner"><path d="M0 0H2"/></g><text id="t">a</text></g>
<defs><g id="no"/></defs>
<image id="i"/>
<g><switch><foreignObject/></switch></g>
<g id="hidden" display="none"><text/></g>
<svg><g id="deep"/></svg>
<use href="#t"/>`)
	require.Len(t, f.Layers, 3)
	cut := f.Layers[0]
	require.Equal(t, Layer{ID: "cut", Title: "Cut\nlines", Shared: true, At: len(sheet) + len("<title>sheet</title>\n")}, *cut)
	require.Equal(t, "", f.Layers[1].ID)
	require.False(t, f.Layers[1].Shared)
	require.Equal(t, "hidden", f.Layers[2].ID)
	require.Same(t, cut, f.Elements[0].Layer)
	require.Equal(t, "path", f.Elements[0].Label())

	var others []string
	for _, o := range f.Others {
		layer := "none"
		if o.Layer != nil {
			layer = "layer " + o.Layer.ID
		}
		others = append(others, o.Label()+" in "+layer)
	}
	require.Equal(t, []string{"text#t in layer cut", "image#i in none", "foreignObject in layer ", "text#t in none"}, others)
	require.Equal(t, "path", Element{Tag: "path"}.Label())
	require.Equal(t, "path#a", Element{Tag: "path", ID: "a"}.Label())
}

// A segment keeps its kind through all maps: what is a circle in the file is
// four arcs and a closing line on the sheet, with its true length.
func TestElementsKeepTheirCurves(t *testing.T) {
	f, _ := readSheet(`<g transform="scale(2 .5) rotate(30)"><circle r="10"/></g><path d="M0 0Q10 20 20 0Z"/>`)
	kinds := ""
	for _, s := range f.Elements[0].Path.Segments() {
		kinds += string(rune(s.Kind))
	}
	require.Equal(t, "AAAAZ", kinds)
	// In mm: a circle of 5 mm drawn out to half axes of 10 and 2.5 mm.
	require.InDelta(t, perimeter(10, 2.5), f.Elements[0].Path.Length(), 1e-6)
	require.InDelta(t, 25*3.141592653589793, area(f.Elements[0].Path), 1e-9)
	require.Equal(t, "-10 -2.5 20 5", boxText(f.Elements[0].Bounds))
	require.InDelta(t, parabola(10, 5)+10, f.Elements[1].Path.Length(), 1e-6)
}

func TestReadWithoutFindings(t *testing.T) {
	f, found := readSheet(`<g id="cut" fill="none" stroke="#000000" stroke-width="0.1"><title>Cut</title><path d="M 1 1 L 9 1 L 9 9 Z"/></g>`)
	require.Empty(t, found.Findings())
	require.Equal(t, []string{"path 0.5 0.5 4 4 in cut unfilled stroked"}, elements(f))
}

// spoilt is one document for each way to break a rule of reading and size.
// Where a case has no root, the body stands on the usual sheet and starts in
// line 2, column 1; lines and columns are counted by hand.
var spoilt = map[string]struct {
	rule         *findings.Rule
	root, body   string
	line, column int
}{
	// The root starts in line 1, column 1, its attributes in line 2.
	"no size":              {findings.NoSize, `viewBox="0 0 2 1"`, ``, 1, 1},
	"both auto":            {findings.NoSize, `width="auto" height="auto"`, ``, 1, 1},
	"width only":           {findings.OneSided, `width="2mm" viewBox="0 0 2 1"`, ``, 1, 1},
	"height only":          {findings.OneSided, `height="2mm" viewBox="0 0 2 1"`, ``, 1, 1},
	"percent":              {findings.PercentSize, `width="100%" height="1mm"`, ``, 2, 1},
	"percent in a sum":     {findings.PercentSize, `height="1mm" width="calc(1mm + 1%)"`, ``, 2, 14},
	"no unit like that":    {findings.BadSize, `width="2furlong" height="1mm"`, ``, 2, 1},
	"below zero":           {findings.BadSize, `width="2mm" height="-1mm"`, ``, 2, 13},
	"zero":                 {findings.ZeroSize, `width="0" height="1mm"`, ``, 1, 1},
	"window":               {findings.WindowUnit, `width="50vw" height="1mm"`, ``, 2, 1},
	"window inside":        {findings.WindowUnit, ``, `<rect x="1vh" width="2" height="2"/>`, 2, 7},
	"font":                 {findings.FontUnit, `width="2mm" height="5ex"`, ``, 2, 13},
	"font inside":          {findings.FontUnit, ``, `<rect width="1ch" height="2"/>`, 2, 7},
	"em without a font":    {findings.FontUnit, ``, `<rect width="1em" height="2"/>`, 2, 7},
	"rem without a font":   {findings.FontUnit, ``, `<g font-size="5"><rect width="1rem" height="2"/></g>`, 2, 24},
	"size by style":        {findings.StyledSize, `width="2mm" height="1mm" style="width:3mm"`, ``, 2, 26},
	"most by style":        {findings.StyledSize, `width="2mm" height="1mm" style="max-height:3mm"`, ``, 2, 26},
	"zoom by style":        {findings.StyledSize, `width="2mm" height="1mm" style="zoom:2"`, ``, 2, 26},
	"margin by style":      {findings.StyledSize, `width="2mm" height="1mm" style="margin:2px"`, ``, 2, 26},
	"calc":                 {findings.CalculatedLength, `width="calc(1mm + 1mm)" height="1mm"`, ``, 2, 1},
	"calc inside":          {findings.CalculatedLength, ``, `<circle r="max(1px, 2px)"/>`, 2, 9},
	"px":                   {findings.PixelSize, `width="20" height="1mm" viewBox="0 0 2 1"`, ``, 2, 1},
	"no viewBox":           {findings.NoViewBox, `width="2mm" height="1mm"`, ``, 1, 1},
	"viewBox of three":     {findings.VoidViewBox, `width="2mm" height="1mm" viewBox="0 0 2"`, ``, 2, 40},
	"viewBox below zero":   {findings.VoidViewBox, `width="2mm" height="1mm" viewBox="0 0 -2 1"`, ``, 2, 35},
	"viewBox inside":       {findings.VoidViewBox, ``, `<svg viewBox="0 0 a 1"/>`, 2, 19},
	"viewBox of a symbol":  {findings.VoidViewBox, ``, `<symbol id="s" viewBox="&#48; 0 a 1"/><use href="#s"/>`, 2, 25}, // behind a reference: where the value starts
	"viewBox of nothing":   {findings.ZeroViewBox, `width="2mm" height="1mm" viewBox="0 0 0 1"`, ``, 1, 1},
	"and inside":           {findings.ZeroViewBox, ``, `<g><svg viewBox="0 0 1 0"/></g>`, 2, 4},
	"viewbox":              {findings.ViewBoxCase, `width="2mm" height="1mm" viewbox="0 0 2 1"`, ``, 2, 26},
	"proportions":          {findings.Aspect, `width="2mm" height="1mm" viewBox="0 0 2 1.01"`, ``, 1, 1},
	"xmidymid":             {findings.BadAspect, `width="2mm" height="1mm" viewBox="0 0 2 1" preserveAspectRatio="xmidymid"`, ``, 2, 44},
	"defer inside":         {findings.BadAspect, ``, `<svg preserveAspectRatio="defer xMidYMid"/>`, 2, 6},
	"root turned":          {findings.RootTransform, `width="2mm" height="1mm" viewBox="0 0 2 1" transform="rotate(5)"`, ``, 1, 1},
	"root turned by style": {findings.RootTransform, `width="2mm" height="1mm" viewBox="0 0 2 1" style="rotate:5deg"`, ``, 1, 1},
	"root hidden":          {findings.RootHidden, `width="2mm" height="1mm" viewBox="0 0 2 1" display="none"`, ``, 2, 44},

	"elements":              {findings.UnknownElement, ``, `<g><panel/></g>`, 2, 4},
	"length":                {findings.BadLength, ``, `<rect width="x" height="2"/>`, 2, 7},
	"length with space":     {findings.BadLength, ``, `<line x1="5 mm"/>`, 2, 7},
	"radius below zero":     {findings.NegativeLength, ``, `<circle r="-1"/>`, 2, 9},
	"percent, no viewBox":   {findings.Percent, `width="2mm" height="1mm"`, `<rect width="5%" height="2"/>`, 2, 32},
	"x by style":            {findings.StyledGeometry, ``, `<rect style="x:2px" width="2" height="2"/>`, 2, 7},
	"x by style sheet":      {findings.StyledGeometry, ``, `<style>rect{x:2px}</style><g><rect width="2" height="2"/></g>`, 2, 30},
	"d by style":            {findings.StyledGeometry, ``, `<path style="d:path('M0 0H2')"/>`, 2, 7},
	"d none by style":       {findings.StyledGeometry, ``, `<path d="M0 0H2" style="d:none"/>`, 2, 18},
	"hidden by style":       {findings.StyledHiding, ``, `<g><rect style="display:none"/></g>`, 2, 10},
	"unseen by style":       {findings.StyledHiding, ``, `<g style="visibility:hidden"/>`, 2, 4},
	"style sheet":           {findings.StyleSheet, ``, `<g><style/></g>`, 2, 4},
	"style sheet in defs":   {findings.StyleSheet, ``, `<defs><style/></defs>`, 2, 7},
	"media print":           {findings.StyleUnknown, ``, `<style>@media print{}</style>`, 2, 1},
	"nth-child":             {findings.StyleUnknown, ``, `<defs><style>g:lang(xxxx){x:1px}</style></defs>`, 2, 7},
	"undeclared prefix":     {findings.Prefix, ``, `<g><x:g/></g>`, 2, 4},
	"attribute's prefix":    {findings.Prefix, ``, `<g x:a="1"/>`, 2, 4},
	"id twice":              {findings.DuplicateID, ``, `<g id="a"/><g id="a"/>`, 2, 15},
	"transform":             {findings.BadTransform, ``, `<g transform="rotate(5deg)"/>`, 2, 23},
	"transform by style":    {findings.BadTransform, ``, `<g style="transform:rotate(5)"/>`, 2, 4},
	"along a path":          {findings.BadTransform, ``, `<g><rect style="offset-path:ray(1deg)"/></g>`, 2, 4},
	"translate (":           {findings.TransformSpace, ``, `<g transform="translate (5)"/>`, 2, 4},
	"transformed by style":  {findings.StyledTransform, ``, `<g id="a" style="transform:scale(2)"/>`, 2, 11},
	"scaled by style":       {findings.StyledTransform, ``, `<g id="a" style="scale:2"/>`, 2, 11},
	"an origin":             {findings.StyledTransform, ``, `<g transform="scale(2)" transform-origin="5 5"/>`, 2, 25},
	"a box":                 {findings.StyledTransform, ``, `<g transform="scale(2)" transform-box="fill-box"/>`, 2, 25},
	"flat":                  {findings.FlatTransform, ``, `<g><g transform="scale(0 1)"/></g>`, 2, 4},
	"flat in its own box":   {findings.FlatTransform, ``, `<g><g style="transform:scale(0);transform-box:fill-box"/></g>`, 2, 4},
	"use of nothing":        {findings.UseMissing, ``, `<use/>`, 2, 1},
	"use of none":           {findings.UseMissing, ``, `<use x="2" href="#none"/>`, 2, 12},
	"use of itself":         {findings.UseCycle, ``, `<g id="g"><use href="#g"/></g>`, 2, 16},
	"use of each other":     {findings.UseCycle, ``, `<use id="a" href="#b"/><use id="b" href="#a"/>`, 2, 36},
	"use of another file":   {findings.UseOutside, ``, `<use href="a.svg#b"/>`, 2, 6},
	"refX":                  {findings.SymbolPoint, ``, `<symbol id="s" refX="5"/><use href="#s"/>`, 2, 1},
	"refY":                  {findings.SymbolPoint, ``, `<symbol id="s" refY="5"/><use href="#s"/>`, 2, 1},
	"language":              {findings.Language, ``, `<switch><g systemLanguage="de"/></switch>`, 2, 12},
	"script":                {findings.Script, ``, `<g><script/></g>`, 2, 4},
	"script in defs":        {findings.Script, ``, `<defs><script/></defs>`, 2, 7},
	"animation":             {findings.Animation, ``, `<rect><animate/></rect>`, 2, 7},
	"animation of a use":    {findings.Animation, ``, `<use href="#a"><set/></use>`, 2, 16},
	"animation of a group":  {findings.Animation, ``, `<g><animateTransform/></g>`, 2, 4},
	"nested":                {findings.Indirect, ``, `<g><svg/></g>`, 2, 4},
	"use":                   {findings.Indirect, ``, `<rect id="r"/><use href="#r"/>`, 2, 15},
	"path data":             {findings.PathError, ``, `<path d="M1 1L2 2X"/>`, 2, 18},
	"path data in line 3":   {findings.PathError, ``, "<path d=\"M1 1\nL2 2X\"/>", 3, 5},
	"path data by style":    {findings.PathError, ``, `<path style="d:path('M1 1 X')"/>`, 2, 7},
	"odd points":            {findings.PointsError, ``, `<polyline points="1 1 2"/>`, 2, 24},
	"bad points":            {findings.PointsError, ``, `<polygon points="1 1 2 x"/>`, 2, 24},
	"comma behind points":   {findings.PointsError, ``, `<polygon points="1 1 2 2,"/>`, 2, 26},
	"one radius":            {findings.OneRadius, ``, `<g><ellipse rx="5"/></g>`, 2, 4},
	"nothing drawn":         {findings.DrawsNothing, ``, `<g><rect/></g>`, 2, 4},
	"no viewport":           {findings.DrawsNothing, ``, `<g><svg width="0"/></g>`, 2, 4},
	"far":                   {findings.FarCoordinate, ``, `<g><rect width="300000" height="2"/></g>`, 2, 4},
	"beyond all numbers":    {findings.FarCoordinate, ``, strings.Repeat(`<g transform="scale(1e38)">`, 9) + strings.Repeat("</g>", 9), 2, 1 + 8*27},
	"a use of a use":        {findings.TooMuch, ``, manyUses(70), 2, 1 + 9*25 + 26 + 54*27},
	"too many uses":         {findings.TooMuch, ``, `<g id="g0">` + strings.Repeat("<g/>", 1000) + `</g>` + strings.Repeat(`<use href="#g0"/>`, 110), 2, 12 + 4*((mostVisits-1001)%1002-2)},
	"text behind":           {findings.XML, ``, `</svg>x<svg>`, 2, 7},
	"not closed":            {findings.XML, ``, `<g>`, 3, 7},
	"style sheet elsewhere": {findings.StyleSheetOutside, ``, `<?xml-stylesheet href="a.css"?>`, 2, 1},
}

// manyUses is a chain of uses, each of the one behind it.
func manyUses(n int) string {
	var b strings.Builder
	for i := range n {
		fmt.Fprintf(&b, `<use id="u%d" href="#u%d"/>`, i, i+1)
	}
	return b.String()
}

func findingsIn(data []byte) *findings.List {
	var found findings.List
	Read(data, &found)
	return &found
}

// spoiltFiles are the rules that a whole file breaks.
func spoiltFiles(t *testing.T) map[string]struct {
	rule         *findings.Rule
	file         []byte
	line, column int
} {
	const svg = `<svg xmlns="http://www.w3.org/2000/svg" width="2mm" height="1mm" viewBox="0 0 2 1"/>`
	var packed bytes.Buffer
	w := gzip.NewWriter(&packed)
	_, err := w.Write([]byte(svg))
	require.NoError(t, err)
	require.NoError(t, w.Close())
	utf16 := []byte{0xff, 0xfe}
	for _, c := range []byte(svg) {
		utf16 = append(utf16, c, 0)
	}
	return map[string]struct {
		rule         *findings.Rule
		file         []byte
		line, column int
	}{
		"nothing":           {findings.XML, []byte(""), 1, 1},
		"no XML":            {findings.NotSVG, []byte("sheet"), 1, 1},
		"not SVG":           {findings.NotSVG, []byte("<!-- a -->\n<html/>"), 2, 1},
		"no namespace":      {findings.NotSVG, []byte(`<svg viewBox="0 0 2 1"/>`), 1, 1},
		"another namespace": {findings.NotSVG, []byte(`<svg xmlns="http://www.w3.org/2000/SVG"/>`), 1, 1},
		"byte order mark":   {findings.ByteOrderMark, []byte("\uFEFF" + svg), 1, 1},
		"latin1":            {findings.Encoding, []byte(`<?xml version="1.0" encoding="ISO-8859-1"?>` + svg), 1, 1},
		"utf-16":            {findings.Encoding, utf16, 1, 1},
		"gzip":              {findings.Packed, packed.Bytes(), 1, 1},
		// Without a place: a DOCTYPE is cut out of the text before it is read.
		"doctype":              {findings.Doctype, []byte(`<!DOCTYPE svg PUBLIC "a" "b">` + svg), 0, 0},
		"entities":             {findings.Entities, []byte(" \n" + ` <!DOCTYPE svg [<!ENTITY a "b">]>` + svg), 0, 0},
		"declarations":         {findings.Declarations, []byte(`<!DOCTYPE svg [<!ATTLIST rect width CDATA "5">]>` + svg), 0, 0},
		"style sheet in front": {findings.StyleSheetOutside, []byte(`<?xml-stylesheet href="a.css"?>` + svg), 1, 1},
		"too many styles": {findings.TooMuch, []byte(strings.Replace(svg, "/>", "><style>"+strings.Repeat("a *{x:1px}", 4900)+"</style>"+strings.Repeat("<g/>", 2000)+"</svg>", 1)),
			1, 1},
	}
}

func TestFindings(t *testing.T) {
	check := func(t *testing.T, found *findings.List, rule *findings.Rule, line, column int) {
		t.Helper()
		var places []string
		for _, f := range found.Findings() {
			if f.Rule == rule {
				places = append(places, fmt.Sprintf("line %d, column %d", f.Line, f.Column))
			}
		}
		if line > 0 {
			require.Contains(t, places, fmt.Sprintf("line %d, column %d", line, column), "%s: %v", rule.ID, found.Findings())
		}
		require.Positive(t, found.Count(rule))
	}
	for name, test := range spoilt {
		t.Run(name, func(t *testing.T) {
			document := sheet + test.body + "\n</svg>"
			if test.root != "" {
				document = `<svg xmlns="http://www.w3.org/2000/svg"` + "\n" + test.root + ">" + test.body + "</svg>"
			}
			check(t, findingsIn([]byte(document)), test.rule, test.line, test.column)
		})
	}
	for name, test := range spoiltFiles(t) {
		t.Run("file: "+name, func(t *testing.T) {
			check(t, findingsIn(test.file), test.rule, test.line, test.column)
		})
	}
}

// elsewhere are the rules of reading and size that the checker applies, not
// the reader.
var elsewhere = map[string]bool{"paper-scale": true}

// Every rule of the groups size and reading is broken by some case above,
// and no rule of another group but clipped is the reader's to find.
func TestEveryRuleIsFound(t *testing.T) {
	broken := map[string]bool{}
	for _, s := range spoilt {
		broken[s.rule.ID] = true
	}
	for _, s := range spoiltFiles(t) {
		broken[s.rule.ID] = true
	}
	for _, rule := range findings.All() {
		if rule.Group == "size" || rule.Group == "reading" {
			require.Equal(t, !elsewhere[rule.ID], broken[rule.ID], "rule %s", rule.ID)
		}
	}
	_, found := readSheet(`<g><rect clip-path="url(#a)" width="2" height="2"/></g>`)
	require.Len(t, found.Findings(), 1)
	f := found.Findings()[0]
	require.Equal(t, "clipped rect 2:10", fmt.Sprintf("%s %s %d:%d", f.Rule.ID, f.Element, f.Line, f.Column))
}

// An entity's use is where what it stands for has its place.
func TestFindingsBehindEntities(t *testing.T) {
	var found findings.List
	f := Read([]byte("<!DOCTYPE svg [<!ENTITY r '<rect width=\"x\" height=\"2\"/>'>\n<!ENTITY w \"2mm\">]>\n"+
		`<svg xmlns="http://www.w3.org/2000/svg" width="&w;" height="1mm" viewBox="0 0 2 1">`+"\n &r;</svg>"), &found)
	require.Equal(t, 2.0, f.W)
	for _, one := range found.Findings() {
		if one.Rule == findings.BadLength {
			require.Equal(t, "rect 4:2", fmt.Sprintf("%s %d:%d", one.Element, one.Line, one.Column))
			return
		}
	}
	require.Fail(t, "the length is not found", "%v", found.Findings())
}
