package export

import (
	"fmt"
	"slices"
	"strings"

	"panelry/layouts"
	"panelry/layouts/shopping"
)

func init() {
	register(exporter{"kits", kitsFile})
}

// kitsFile is what to put into the bag of each card, as Markdown: a checklist,
// a label and the pieces of each kit paper by paper, then the spare sets,
// which papers can stand in for which, and papers that come out uneven.
func kitsFile(kit layouts.Kit) ([]File, error) {
	list, err := shopping.For(kit)
	if err != nil {
		return nil, err
	}
	swaps := kit.Swaps()
	b, panels := kit.Design.Batch, len(kit.Card.Panels)
	var text strings.Builder
	fmt.Fprintf(&text, "# %s: kits\n\n%s, one a card. Each holds 1 base, %s and 1 envelope.\n",
		kit.Design.Title, some(b.Cards, "kit", "kits"), some(panels, "panel", "panels"))
	if b.Spares > 0 {
		fmt.Fprintf(&text, "%s to spare, without a base.\n", some(b.Spares, "set of panels", "sets of panels"))
	}
	if swaps.Even != nil {
		fmt.Fprintf(&text, "\nPapers cut alike: %s.\n", swaps.Even)
	}
	text.WriteString("\n" + kitChecklist)
	if stand := standIns(list); stand != "" {
		text.WriteString("\n## When a piece is missing\n\n" + stand)
	}
	for _, c := range swaps.Cards {
		label := kit.CardLabel(c.Card)
		if c.Card > b.Cards {
			fmt.Fprintf(&text, "\n## Spare set %s: %s\n\n", label, some(panels, "piece", "pieces"))
		} else {
			fmt.Fprintf(&text, "\n## Kit %s of %d: %s\n\n", label, b.Cards, some(panels+1, "piece", "pieces"))
			fmt.Fprintf(&text, "- [ ] %s: base\n", markdown(kit.Design.Card.Paper))
		}
		for _, p := range kit.Design.Papers {
			var places []string
			for i, paper := range c.Papers {
				if paper == p.Name {
					places = append(places, kit.Card.Panels[i].Name)
				}
			}
			if len(places) > 0 {
				fmt.Fprintf(&text, "- [ ] %s: %s\n", markdown(p.Name), strings.Join(places, ", "))
			}
		}
	}
	return []File{{"kits.md", []byte(text.String())}}, nil
}

// kitChecklist is what to look at before kits are handed out.
const kitChecklist = `## Before they go out

- [ ] One card is made up from its kit as a trial.
- [ ] Each bag is counted: the number stands on its label below.
- [ ] Patterns that run one way have their arrow on the sheet map.
- [ ] Glue, tape or foam pads go with the kits; knives and blades do not go to children.
`

func standIns(list shopping.List) string {
	var text strings.Builder
	for _, s := range list.Papers {
		if len(s.StandIns) > 0 {
			names := slices.Clone(s.StandIns)
			for i := range names {
				names[i] = markdown(names[i])
			}
			fmt.Fprintf(&text, "- %s: %s can stand in\n", markdown(s.Paper.Name), strings.Join(names, ", "))
		}
	}
	return text.String()
}

// markdown escapes a name where Markdown gives a character a meaning.
func markdown(name string) string {
	return markdownEscapes.Replace(name)
}

var markdownEscapes = strings.NewReplacer(`\`, `\\`, "`", "\\`", "*", `\*`, "_", `\_`, "[", `\[`, "]", `\]`, "<", `\<`, "#", `\#`, "|", `\|`)

// some writes a number with its word.
func some(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
