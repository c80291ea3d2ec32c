package page

import (
	"fmt"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// An error speaks of what was changed, and as the maker writes lengths. The
// widest margin that it names can be had, and one mark more cannot.
func TestComplaints(t *testing.T) {
	s := serve(t, demoText(t))
	for _, c := range []struct{ key, typed, want string }{
		{"front.margin", "2 1/16", "A margin of 2 1/16 in leaves too little for the panels. At this size and gap the widest margin is 1 15/16 in."},
		{"front.margin", "2 1/8", "Two margins of 2 1/8 in leave nothing of 4 1/4 in; use less than 2 1/8 in."},
		{"front.gap", "2", "at this size and margin the widest gap is 1 13/16 in."},
		{"papers.1.sheet", "1 x 1", "it is about 1 59/64 x 2 33/64 in, and a sheet of 1 x 1 in has 1/2 x 1/2 in to use"},
		{"papers.1.sheet", "1.0 x 1.0", "it is 1.9214 x 2.5219 in, and"},
	} {
		p := s.set(t, demoText(t), c.key, c.typed)
		require.True(t, p.Refused)
		require.Contains(t, p.Status, c.want)
	}
	require.False(t, s.set(t, demoText(t), "front.margin", "1 15/16").Refused)
	require.True(t, s.set(t, demoText(t), "front.margin", "2").Refused)
}

// What is worth knowing is told in fractions too, where the design has those.
func TestWarningsInFractions(t *testing.T) {
	s := serve(t, demoText(t))
	text := strings.Replace(demoText(t), `tool = "cutter"`, `tool = "trimmer"`, 1)
	text = strings.Replace(text, "columns = 2\nrows = 2\nslant = ", "columns = 13\nrows = 2\n# ", 1)
	p := s.set(t, text)
	require.Contains(t, p.Sections["card"]+p.Sections["sheets"], "about <span class=\"fr\">")
	require.NotRegexp(t, `[0-9]\.[0-9]+ in[ ;,.]`, worthOf(p))
	decimal := s.set(t, strings.Replace(text, `gap = "1/8"`, `gap = "0.125"`, 1))
	require.Regexp(t, `[0-9]\.[0-9]+ in`, worthOf(decimal))
}

// worthOf cuts out what is worth knowing.
func worthOf(p parts) string {
	var b strings.Builder
	for _, section := range p.Sections {
		for _, part := range strings.Split(section, `class="note"`)[1:] {
			told, _, _ := strings.Cut(part, "</div>")
			b.WriteString(told)
		}
	}
	return b.String()
}

// An emptied field shows the value in force.
func TestEmptiedFields(t *testing.T) {
	s := serve(t, demoText(t))
	p := s.set(t, demoText(t), "front.margin", "")
	require.Equal(t, "margin", p.Undo)
	require.Contains(t, p.Sections["card"], `value="1/8" placeholder="1/8" inputmode="text" spellcheck="false" form="set" autocomplete="off" name="front.margin"`)
}

// Everything that is wrong with a file is told, however much it is.
func TestAllProblemsOfAFile(t *testing.T) {
	s := serve(t, demoText(t))
	var bad strings.Builder
	for i := range 9 {
		fmt.Fprintf(&bad, "[[papers]]\nname = \"p%d\"\nsheet = \"x\"\n", i)
	}
	p := s.sent(t, demoText(t), "bad.toml", demoText(t)+bad.String())
	require.True(t, p.Refused)
	for i := range 9 {
		require.Contains(t, p.Sections["head"], fmt.Sprintf("papers %d (p%d): sheet: ", i+10, i))
	}
	require.Contains(t, p.Sections["head"], "<summary>And 6 more</summary>")
	status, text := s.get(t, place(encode([]byte(demoText(t)+bad.String())))+"kit.zip")
	require.Equal(t, 422, status)
	require.Contains(t, text, "papers 18 (p8): sheet: ")
}
