package export

import "panelry/layouts"

func init() {
	register(exporter{"design", "design.toml, the design as it was read", func(kit layouts.Kit) ([]File, error) {
		return []File{{"design.toml", kit.Design.Source}}, nil
	}})
}
