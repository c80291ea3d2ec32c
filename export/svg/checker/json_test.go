package checker

import (
	"bytes"
	"encoding/json"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/export/svg/findings"
)

// small has each kind of value: a layer and none, an id and none, a use, all
// three ways to end, no area, a shape that is not visible.
const small = `<svg xmlns="http://www.w3.org/2000/svg" width="100mm" height="50mm" viewBox="0 0 100 50">
<defs><path id="leaf" d="M 0 0 h 3 v 4 Z"/></defs>
<g id="cut" fill="none" stroke="#000000">
<rect id="card" x="5" y="5" width="40" height="30.5"/>
<use id="first" href="#leaf" x="50" y="10"/>
<path d="M 60 10 h 12 v 5 L 60 10"/>
</g>
<g id="score" fill="none" stroke="#000000"><line id="fold" x1="25" y1="6" x2="25" y2="34"/></g>
<circle id="dot" visibility="hidden" cx="90" cy="10" r="2"/>
</svg>
`

// The whole output, character for character: other programs read it.
func TestJSONGolden(t *testing.T) {
	data, err := JSON([]Named{{"small.svg", Check([]byte(small), Demands{Spacing: 1})}})
	require.NoError(t, err)
	requireGolden(t, "small.json", string(data))
}

// The same by hand for the least file there is.
func TestJSONOfOneShape(t *testing.T) {
	data, err := JSON([]Named{{"a & <b>.svg", Check([]byte(cutLayer(pathOf("a", squareA))), Demands{})}})
	require.NoError(t, err)
	require.Equal(t, `[
  {
    "file": "a \u0026 \u003cb\u003e.svg",
    "ok": true,
    "size_mm": [
      100,
      100
    ],
    "elements": [
      {
        "tag": "path",
        "id": "a",
        "via": "",
        "layer": "cut",
        "bbox_mm": [
          10,
          10,
          20,
          20
        ],
        "closed": "z",
        "length_mm": 80,
        "area_mm2": 400,
        "visible": true
      }
    ],
    "findings": [
      {
        "rule": "layer",
        "clause": "SVG 2 §5.2",
        "severity": "note",
        "message": "layer \"cut\" holds 1 closed outline",
        "line": 2,
        "column": 1,
        "element": "g",
        "at_mm": null
      }
    ]
  }
]
`, string(data))
}

func TestJSONWithoutTrueSize(t *testing.T) {
	r := Check([]byte(`<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 9 9"><path d="M 1 1 h 3 v 3 Z"/></svg>`), Demands{SheetW: 1, SheetH: 1})
	data, err := JSON([]Named{{"a.svg", r}, {"b.svg", Check(nil, Demands{})}})
	require.NoError(t, err)
	requireGolden(t, "no-size.json", string(data))
	var files []map[string]any
	require.NoError(t, json.Unmarshal(data, &files))
	require.Len(t, files, 2)
	for _, f := range files {
		require.Equal(t, false, f["ok"])
		require.Nil(t, f["size_mm"])
		require.Contains(t, f, "size_mm")
		require.Equal(t, []any{}, f["elements"], "an array, if an empty one")
		require.NotEmpty(t, f["findings"])
	}
}

func TestJSONOfNothing(t *testing.T) {
	data, err := JSON(nil)
	require.NoError(t, err)
	require.Equal(t, "[]\n", string(data))
	data, err = JSON([]Named{{}})
	require.NoError(t, err)
	var compact bytes.Buffer
	require.NoError(t, json.Compact(&compact, data))
	require.Equal(t, `[{"file":"","ok":true,"size_mm":null,"elements":[],"findings":[]}]`, compact.String())
}

// One element as it is written, in the cases where it differs.
func TestJSONElements(t *testing.T) {
	tests := map[string]struct{ file, want string }{
		"an open line has no area": {cutLayer(pathOf("a", "M 10 10 l 3 4")),
			`{"tag":"path","id":"a","via":"","layer":"cut","bbox_mm":[10,10,3,4],"closed":"open","length_mm":5,"area_mm2":null,"visible":true}`},
		"touching ends": {cutLayer(pathOf("a", "M 10 10 h 3 v 4 l -3 -4")),
			`{"tag":"path","id":"a","via":"","layer":"cut","bbox_mm":[10,10,3,4],"closed":"touching","length_mm":12,"area_mm2":6,"visible":true}`},
		"no layer and no id": {sheet(`<rect x="1" y="2" width="3" height="4" fill="none"/>`),
			`{"tag":"rect","id":"","via":"","layer":"","bbox_mm":[1,2,3,4],"closed":"z","length_mm":14,"area_mm2":12,"visible":false}`},
		"a layer without a name": {layer(``, `<rect x="1" y="2" width="3" height="4"/>`),
			`{"tag":"rect","id":"","via":"","layer":"","bbox_mm":[1,2,3,4],"closed":"z","length_mm":14,"area_mm2":12,"visible":true}`},
		"a use of a use": {sheet(`<defs><rect id="a" x="1" y="2" width="3" height="4"/><use id="in" href="#a"/></defs><g id="print"><use id="out" href="#in" x="1"/></g>`),
			`{"tag":"rect","id":"a","via":"out/in","layer":"print","bbox_mm":[2,2,3,4],"closed":"z","length_mm":14,"area_mm2":12,"visible":true}`},
		"no digits of binary fractions": {layer(`id="cut"`, `<g transform="scale(0.1)"><rect x="1" y="3" width="7" height="1"/></g>`),
			`{"tag":"rect","id":"","via":"","layer":"cut","bbox_mm":[0.1,0.3,0.7,0.1],"closed":"z","length_mm":1.6,"area_mm2":0.07,"visible":true}`},
		"a circle to the nanometre": {cutLayer(`<circle cx="10" cy="10" r="1"/>`), // 2 pi and pi
			`{"tag":"circle","id":"","via":"","layer":"cut","bbox_mm":[9,9,2,2],"closed":"z","length_mm":6.283185,"area_mm2":3.141593,"visible":true}`},
	}
	for name, c := range tests {
		t.Run(name, func(t *testing.T) {
			data, err := json.Marshal(onlyElement(t, c.file).json())
			require.NoError(t, err)
			require.Equal(t, c.want, string(data))
		})
	}
}

// Whether a file is all right depends on errors alone.
func TestReportOK(t *testing.T) {
	warned := Check([]byte(cutLayer(pathOf("a", "M 10 10 h 20"))), Demands{})
	require.True(t, warned.OK())
	require.Equal(t, []int{1, 1, 0}, []int{warned.Count(findings.Note), warned.Count(findings.Warning), warned.Count(findings.Error)})
	wrong := Check([]byte(cutLayer(pathOf("a", "M 10 10 h 200"))), Demands{})
	require.False(t, wrong.OK())
	require.Equal(t, []int{1, 1, 1}, []int{wrong.Count(findings.Note), wrong.Count(findings.Warning), wrong.Count(findings.Error)})
}

// Every rule, in the order of findings.All, with all six members.
func TestRulesJSON(t *testing.T) {
	data, err := RulesJSON()
	require.NoError(t, err)
	var list []map[string]string
	require.NoError(t, json.Unmarshal(data, &list))
	all := findings.All()
	require.Len(t, list, len(all))
	for i, r := range all {
		require.Equal(t, map[string]string{"rule": r.ID, "group": r.Group, "severity": r.Severity.String(),
			"clause": r.Clause, "meaning": r.Meaning, "advice": r.Advice}, list[i])
	}
	require.Equal(t, byte('\n'), data[len(data)-1])
	require.True(t, bytes.HasPrefix(data, []byte("[\n  {\n    \"rule\": \"no-size\",\n    \"group\": \"size\",\n    \"severity\": \"error\",\n    \"clause\": ")))
}
