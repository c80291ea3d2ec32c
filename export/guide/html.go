package guide

import (
	"bytes"
	_ "embed"
	"encoding/base64"
	"fmt"
	"html/template"
)

//go:embed guide.html.tmpl
var page string

var pageTemplate = template.Must(template.New("guide").Funcs(template.FuncMap{
	"picture": func(f *Figure) template.URL {
		return template.URL("data:image/svg+xml;base64," + base64.StdEncoding.EncodeToString(f.SVG))
	},
	"anchor": func(i int) string { return fmt.Sprintf("chapter-%d", i+1) },
}).Parse(page))

// HTML writes a guide as one file that asks for nothing else: its pictures
// are in it.
func HTML(d Document) ([]byte, error) {
	var b bytes.Buffer
	if err := pageTemplate.Execute(&b, d); err != nil {
		return nil, fmt.Errorf("the guide cannot be written: %w", err)
	}
	return b.Bytes(), nil
}
