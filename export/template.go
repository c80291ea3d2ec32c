package export

import (
	"panelry/export/pdf"
	"panelry/layouts"
)

// TemplateFile is the true-scale template in a kit.
const TemplateFile = "template.pdf"

func init() {
	register(exporter{"template", func(kit layouts.Kit) ([]File, error) {
		data, _, err := pdf.Template(kit, "")
		return []File{{TemplateFile, data}}, err
	}})
}
