package page

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// paperless is the demo without its papers, and with or without their names.
func paperlessText(t require.TestingT, named bool) string {
	text, _, _ := strings.Cut(demoText(t), "[[papers]]")
	if !named {
		var kept []string
		for _, line := range strings.Split(text, "\n") {
			if !strings.HasPrefix(line, "paper = ") && !strings.HasPrefix(line, "papers = ") {
				kept = append(kept, line)
			}
		}
		text = strings.Join(kept, "\n")
	}
	return text
}

// Without papers the card is drawn in greys, with its sums, and what is wrong
// stands beside the papers.
func TestWithoutPapers(t *testing.T) {
	for _, named := range []bool{true, false} {
		text := paperlessText(t, named)
		s := serve(t, text)
		p := s.set(t, text)
		require.Equal(t, 8, strings.Count(p.Sections["card"], `data-panel="`))
		require.Contains(t, p.Sections["card"], "Both add up exactly")
		require.Contains(t, errorsIn(p.Sections["batch"]), "There are no papers yet, so the card is drawn in greys; add one.")
		require.Equal(t, 1, strings.Count(p.Sections["batch"], "drawn in greys"))
		require.Contains(t, p.Sections["strip"], "in 0 papers")
		for name, section := range p.Sections {
			if name != "batch" {
				require.Empty(t, errorsIn(section), name)
			}
			require.NotContains(t, section, "grey 1<")
		}
		p = s.set(t, text, "front.margin", "1/8") // the rest can be set meanwhile
		require.Equal(t, "margin", p.Undo)
		p = s.set(t, text, "front.margin", "9")
		require.True(t, p.Refused)
		for _, step := range [][]string{{"batch.plan", "by hand"}, {"~v", "panel=A1a", "panel.paper 1 A1a", "grey 2"}, {"~v", "panel=A1a", "panel.way 1 A1a", "along"}} {
			require.NotContains(t, textOf(t, s.set(t, text, step...)), "grey")
		}
		p = s.set(t, text, "~do", "paper.add")
		require.Equal(t, "a new paper", p.Undo, p.Status)
		d, err := read([]byte(textOf(t, p)))
		require.NoError(t, err)
		require.Len(t, d.Papers, map[bool]int{true: 9, false: 1}[named])
	}
	broken := strings.Replace(paperlessText(t, true), `margin = "1/16"`, `margin = "x"`, 1)
	p := serve(t, broken).set(t, broken)
	require.Contains(t, errorsIn(p.Sections["card"]), "is not a length")
}
