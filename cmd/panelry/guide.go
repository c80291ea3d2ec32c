package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"panelry/export"
)

const guideHelp = `Guide writes how to make the card: what you need, all sizes in fractions and
millimetres, cutting, putting together with a picture a step, the batch,
cautions, and how the design was checked. guide.html is one file that works
offline and prints well; guide.md is the same for a post, with its pictures
in the folder guide beside it.

--teacher adds minutes a step, a run sheet, kit labels, left-handed pictures
and advice for young hands.

` + aboutDesign + ` The guide
goes to the folder named with -o, else to the design's name with -guide
behind it, in this folder.`

func newGuide() *cobra.Command {
	var in input
	var dir string
	var teacher, force bool
	cmd := &cobra.Command{
		Use:   "guide " + designArgument,
		Short: "Write the making guide as HTML and as Markdown",
		Long:  guideHelp,
		Example: `  panelry guide                      the demo, into demo-guide
  panelry guide card.toml -o spring-guide
  panelry guide card.toml --teacher`,
		Args: atMostOne("design file"),
		RunE: func(cmd *cobra.Command, args []string) error {
			kit, err := in.plan(cmd, args)
			if err != nil {
				return err
			}
			files, err := export.GuideFiles(kit, teacher)
			if err != nil {
				return err
			}
			if files, err = export.Listed(kit.Design.Title, files); err != nil {
				return err
			}
			if dir == "" {
				dir = stem(args) + "-guide"
			}
			if _, err := export.WriteFolder(dir, files, force); err != nil {
				return err
			}
			_, err = fmt.Fprintf(cmd.OutOrStdout(), "%s in %s\n", counted(len(files), "file", "files"), dir)
			return err
		},
	}
	in.flags(cmd)
	cmd.Flags().StringVarP(&dir, "output", "o", "", "the folder for the guide")
	cmd.Flags().BoolVar(&teacher, "teacher", false, "the teacher's edition")
	cmd.Flags().BoolVar(&force, "force", false, "write over files in the folder that are not as Panelry wrote them")
	return cmd
}
