package export

import "panelry/layouts"

func init() {
	register(exporter{"design", func(kit layouts.Kit) ([]File, error) {
		return []File{{"design.toml", kit.Design.Source}}, nil
	}})
}
