package export

import (
	"panelry/export/pdf"
	"panelry/layouts"
)

// templateName is the true-scale template in a kit.
const templateName = "template.pdf"

func init() {
	register(exporter{"template", func(kit layouts.Kit) ([]File, error) {
		data, _, err := pdf.Template(kit, "")
		return []File{{templateName, data}}, err
	}})
}
