package page

import (
	"net/http"
	"net/url"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/layouts"
)

// One change is one change of the text: everything else stays.
func TestChanges(t *testing.T) {
	s := serve(t, demoText(t))
	for name, c := range map[string]struct {
		pairs     []string
		old, with string
		undo      string
	}{
		"a length":            {[]string{"front.margin", "3/32"}, `margin = "1/16"`, `margin = "3/32"`, "margin"},
		"with its unit":       {[]string{"front.gap", "3.2 mm"}, `gap = "1/8"`, `gap = "3.2 mm"`, "gap"},
		"a number":            {[]string{"batch.cards", "16"}, `cards = 8`, `cards = 16`, "cards"},
		"a choice":            {[]string{"card.base", "side fold"}, `base = "top fold"`, `base = "side fold"`, "fold"},
		"of a paper":          {[]string{"papers.1.colour", "#4f6b4b"}, `"#4f6b4a"`, `"#4f6b4b"`, "colour of kelp"},
		"a new key":           {[]string{"papers.3.have", "4"}, "[[papers]]\nname = \"buoy\"", "[[papers]]\nhave = 4\nname = \"buoy\"", "sheets at hand of buoy"},
		"a new table":         {[]string{"sheets.edge", "3/8"}, "pattern = \"one-way\"\n", "pattern = \"one-way\"\n\n[sheets]\nedge = \"3/8\"\n", "edge"},
		"as it was":           {[]string{"front.margin", "1/16"}, "", "", ""},
		"a step":              {[]string{"~do", "step front.margin 1"}, `margin = "1/16"`, `margin = "1/8"`, "margin"},
		"a step of a number":  {[]string{"~do", "step batch.cards -1"}, `cards = 8`, `cards = 7`, "cards"},
		"stops at nothing":    {[]string{"~do", "step front.margin -4"}, `margin = "1/16"`, `margin = "0"`, "margin"},
		"a turned cut":        {[]string{"~do", "slant 1,0"}, `['\/', '/\']`, `['\\', '/\']`, "turn of a cut"},
		"in the other unit":   {[]string{"~v", "u=mm", "front.margin", "2"}, `margin = "1/16"`, `margin = "2 mm"`, "margin"},
		"looked at in mm":     {[]string{"~v", "u=mm", "front.margin", "1.588"}, "", "", ""},
		"paper of a panel":    {[]string{"~v", "panel=A1a", "panel.way 1 A1a", "30 deg"}, "[front]\n", "[front]\ndirection = {\"A1a\" = \"30 deg\", rest = \"upright\"}\n", "direction of A1a"},
		"a paper down":        {[]string{"~do", "paper.down 0"}, "", "", "order of chalk"},
		"chosen together":     {[]string{"~do", "choose front.margin=1/8|front.gap=1/4"}, "margin = \"1/16\"\ngap = \"1/8\"", "margin = \"1/8\"\ngap = \"1/4\"", "gap and margin"},
		"own size":            {[]string{"card.width", "5"}, "size = \"US A2\"              # 4 1/4 x 5 1/2 in when closed\norientation = \"upright\"\n", "", "width"},
		"nobody's key":        {[]string{"front.nothing", "5", "papers.99.name", "x", "x", "y"}, "", "", ""},
		"a name, everywhere":  {[]string{"papers.0.name", "chalk's"}, "", "", "name of chalk"},
		"nobody's button":     {[]string{"~do", "burn everything"}, "", "", ""},
		"a step out of reach": {[]string{"~do", "step front.margin 999999"}, "", "", ""},
	} {
		t.Run(name, func(t *testing.T) {
			p := s.set(t, demoText(t), c.pairs...)
			require.Equal(t, c.undo, p.Undo, p.Status)
			require.False(t, p.Refused)
			if c.old != "" && name != "own size" {
				require.Contains(t, demoText(t), c.old)
				require.Equal(t, strings.Replace(demoText(t), c.old, c.with, 1), textOf(t, p))
			}
			if c.undo == "" {
				require.Equal(t, demoText(t), textOf(t, p))
			}
		})
	}
}

func TestOwnSizeOfACard(t *testing.T) {
	s := serve(t, demoText(t))
	text := textOf(t, s.set(t, demoText(t), "card.width", "5"))
	require.NotContains(t, text, "US A2")
	require.Contains(t, text, "width = \"5\"\n")
	require.Contains(t, text, "height = \"5 1/2 in\"\n")
	back := textOf(t, s.set(t, text, "card.size", "ISO A6"))
	require.Contains(t, back, `size = "ISO A6"`)
	require.NotContains(t, back, "width")
}

func TestRenamedPaper(t *testing.T) {
	s := serve(t, demoText(t))
	text := textOf(t, s.set(t, demoText(t), "papers.1.name", "sea weed"))
	require.Contains(t, text, `papers = ["sea weed", "tide"`)
	text = textOf(t, s.set(t, text, "papers.0.name", "lime"))
	require.Contains(t, text, `paper = "lime"`)
}

func TestPapersAddedAndTakenOut(t *testing.T) {
	s := serve(t, demoText(t))
	added := s.set(t, demoText(t), "~do", "paper.add", "batch.cards", "9")
	text := textOf(t, added)
	require.Contains(t, text, "\"samphire\", \"paper 10\"]")
	require.Contains(t, text, "[[papers]]\nname = \"paper 10\"\nsheet = \"6 x 6 in\"\n")
	require.Contains(t, text, "cards = 9")
	back := s.set(t, text, "~do", "paper.drop 9")
	require.Equal(t, "taking out paper 10", back.Undo)
	require.NotContains(t, textOf(t, back), "paper 10")
	refused := s.set(t, demoText(t), "~do", "paper.drop 0")
	require.True(t, refused.Refused)
	require.Contains(t, refused.Sections["batch"], "The base is cut from chalk; choose another paper for the base first.")
}

// The plan "by hand" begins with the papers as they were.
func TestByHand(t *testing.T) {
	s := serve(t, demoText(t))
	changed := s.set(t, demoText(t), "~v", "panel=B1b&card=3", "panel.paper 2 A1a", "gull") // whatever is looked at by now
	require.Equal(t, "card=3&panel=B1b", changed.View)
	text := textOf(t, changed)
	d, err := read([]byte(text))
	require.NoError(t, err)
	require.Equal(t, "by hand", d.Batch.Plan)
	require.Len(t, d.Batch.ByHand, 8)
	require.Equal(t, "gull", d.Batch.ByHand[1].Papers[0])
	require.Equal(t, "kelp", d.Batch.ByHand[0].Papers[0])
	again := textOf(t, s.set(t, text, "batch.plan", "in turn"))
	require.NotContains(t, again, "by_hand")
}

// A plan by hand goes with the number of cards, its field shows as soon as it
// is chosen, and papers that it names are told of when they are to go.
func TestPlanByHand(t *testing.T) {
	s := serve(t, demoText(t))
	p := s.set(t, demoText(t), "batch.plan", "by hand")
	require.Contains(t, p.Sections["batch"], `name="batch.by_hand"`)
	text := textOf(t, p)
	for cards, want := range map[string]string{"9": "kelp", "7": ""} {
		p = s.set(t, text, "batch.cards", cards)
		require.False(t, p.Refused, p.Status)
		d, err := read([]byte(textOf(t, p)))
		require.NoError(t, err)
		if want != "" {
			require.Equal(t, d.Batch.ByHand[0], d.Batch.ByHand[8])
		}
		require.Len(t, d.Batch.ByHand, d.Batch.Cards)
	}
	comma := textOf(t, s.set(t, text, "papers.1.name", "kelp, dark: a"))
	p = s.set(t, comma, "batch.cards", "3")
	require.False(t, p.Refused, p.Status)
	require.Contains(t, p.Sections["batch"], "&#34;kelp, dark: a&#34;, tide")
	require.Contains(t, s.set(t, text).Sections["card"], "“Papers of the panels” has no effect: “Papers by hand, one card a line” names all papers.")
	p = s.set(t, text, "~do", "paper.drop 2")
	require.True(t, p.Refused)
	require.Equal(t, "The plan by hand has tide on every card; write another paper there first, or choose another plan.", p.Status)
	p = s.set(t, strings.Replace(demoText(t), `["kelp", "tide", "buoy", "sandbar", "gull", "lantern", "harbour", "samphire"]`, `{A1a="gull", rest="kelp"}`, 1), "~do", "paper.drop 5")
	require.Equal(t, "Gull is the paper of A1a; give them another first.", p.Status)
	broken := strings.Replace(demoText(t), `plan = "in turn"`, `plan = "by hand"`, 1)
	require.Contains(t, s.set(t, broken).Sections["batch"], `name="batch.by_hand"`, "where it is missing too")
	require.Equal(t, "cards 1, 2 and 5", someOf([]string{"1", "2", "5"}, 8))
	require.Equal(t, "card 1", someOf([]string{"1"}, 8))
}

// What cannot be taken leaves the design as it is, and stands beside its
// field with what was typed; of several changes the others are taken.
func TestRefusedChanges(t *testing.T) {
	s := serve(t, demoText(t))
	p := s.set(t, demoText(t), "front.margin", "1/6th", "front.gap", "3/16")
	require.True(t, p.Refused)
	require.Equal(t, strings.Replace(demoText(t), `gap = "1/8"`, `gap = "3/16"`, 1), textOf(t, p))
	require.Contains(t, p.Sections["card"], `value="1/6th"`)
	require.Contains(t, p.Sections["card"], `is not a length`)
	require.Contains(t, p.Sections["card"], `The card still shows 1/16.`)
	quiet := s.set(t, demoText(t), "front.margin", "1/", "~typing", "1")
	require.Empty(t, quiet.Sections, "half a number is no error yet")

	require.Equal(t, "A paper needs a name.", s.set(t, demoText(t), "papers.1.name", " ").Status)

	answer := s.post(t, "/set", url.Values{fieldDesign: {encode([]byte(demoText(t)))}, "front.margin": {"9"}})
	status, text := body(t, answer)
	require.Equal(t, http.StatusUnprocessableEntity, status)
	require.Contains(t, errorsIn(text), "Two margins of 9 in leave nothing")
}

// What could not be taken is tried again with each change, told as long as it
// cannot be, and taken when it can.
func TestStillWrong(t *testing.T) {
	s := serve(t, demoText(t))
	p := s.set(t, demoText(t), "batch.cards", "9", "~wrong", "front.gap=2")
	require.False(t, p.Refused)
	require.Equal(t, "cards", p.Undo)
	require.Equal(t, []string{"front.gap=2"}, p.Wrong)
	require.Contains(t, p.Sections["card"], `value="2" placeholder="1/8"`)
	require.NotContains(t, p.Status, "gap is")
	p = s.set(t, demoText(t), "~wrong", "front.gap=3/16", "batch.cards", "9")
	require.Equal(t, "several changes", p.Undo)
	require.Empty(t, p.Wrong)
	p = s.set(t, demoText(t), "~wrong", "front.gap=2", "front.gap", "1/4")
	require.Empty(t, p.Wrong)
	p = s.set(t, demoText(t), "~wrong", "nobody=2")
	require.Equal(t, demoText(t), textOf(t, p))
}

// Without script a form brings a new address, and the address the design.
func TestFormWithoutScript(t *testing.T) {
	s := serve(t, demoText(t))
	answer := s.post(t, "/set", url.Values{fieldDesign: {encode([]byte(demoText(t)))}, fieldView: {"u=mm&card=3"}, "front.margin": {"2"}, "batch.cards": {"8"}})
	require.Equal(t, http.StatusSeeOther, answer.StatusCode)
	to := answer.Header.Get("Location")
	require.True(t, strings.HasSuffix(to, "/?card=3&u=mm"), to)
	status, text := s.get(t, to)
	require.Equal(t, http.StatusOK, status)
	require.Contains(t, text, `value="2"`)
	status, saved := s.get(t, strings.Split(to, "?")[0]+"design.toml")
	require.Equal(t, http.StatusOK, status)
	require.Equal(t, strings.Replace(demoText(t), `margin = "1/16"`, `margin = "2 mm"`, 1), saved)
}

// A round by form, address and file: whatever is typed into whichever fields,
// the file that is saved reads, opens again as itself, and says what the
// fields say; and nothing but the changed keys differs.
func TestFormAddressFile(t *testing.T) {
	s := serve(t, demoText(t))
	typed := map[string][]string{
		"front.margin":  {"0", "1/16", "1/8", "3.2 mm", ".125", "1/6th", "-1", ""},
		"front.gap":     {"1/8", "0", "3 mm", "9", "x"},
		"batch.cards":   {"1", "8", "13", "0", "many"},
		"title":         {"A title", `"quoted" \ and 'so'`, "ü 🌊", "a\nb", ""},
		"card.size":     {"US A2", "ISO A6", "", "nothing"},
		"card.width":    {"4", "5 1/2", "100 mm", "99 m"},
		"card.base":     {"flat", "side fold", "upside down"},
		"front.layout":  {"grid", "strips", "diagonal halves", "log cabin", "none"},
		"papers.2.name": {"tide", "kelp", "low tide", `a"b`},
		"units":         {"in", "mm", ""},
		"tool":          {"cutter", "trimmer, knife", "scissors"},
		"batch.plan":    {"same", "in turn", "by hand"},
		"sheets.edge":   {"0", "1/4", "20", ""},
	}
	keys := sortedKeys(typed)
	rapid.Check(t, func(t *rapid.T) {
		text := demoText(t)
		for range rapid.IntRange(1, 5).Draw(t, "steps") {
			key := rapid.SampledFrom(keys).Draw(t, "key")
			p := s.set(t, text, key, rapid.SampledFrom(typed[key]).Draw(t, "typed"))
			next := textOf(t, p)
			if p.Undo == "" {
				require.Equal(t, text, next, "nothing happened")
			}
			_, err := read([]byte(next))
			require.NoError(t, err, next)
			require.Contains(t, next, "# The built-in demo", "comments stay")
			text = next
		}
		again := s.set(t, text)
		require.Equal(t, text, textOf(t, again))
		status, saved := s.get(t, place(again.Design)+"design.toml")
		require.Equal(t, http.StatusOK, status)
		require.Equal(t, text, saved)

		// All fields sent as they stand change nothing.
		work, err := look(t.Context(), []byte(text))
		require.NoError(t, err)
		st := newState(work, view{})
		fields := map[string]string{}
		for _, key := range layouts.Keys() {
			key = strings.Replace(key, "*", "2", 1)
			c, ok := controlFor(key, st.layout())
			require.True(t, ok)
			fields[key] = st.shown(c)
		}
		require.Empty(t, st.changesOf(fields))
	})
}

// Whatever a form says, the answer is a page, a redirection or a sentence.
func FuzzForm(f *testing.F) {
	f.Add("front.margin", "1/8", "step front.margin 1", "panel=A1a")
	f.Add("papers.1.name", "\x00", "paper.drop 1", "card=99&sheet=9999")
	f.Add("front.slant", "[\"", "slant 0,0", "u=mm")
	f.Add("batch.by_hand", "a\nb", "choose batch.cards=3|x", "fit=1 x 1&nice=1")
	design := demoText(f)
	sv := New([]byte(design), 2)
	f.Fuzz(func(t *testing.T, key, typed, button, looked string) {
		work, err := sv.desk.work(t.Context(), []byte(design))
		require.NoError(t, err)
		q, _ := url.ParseQuery(looked)
		s := newState(work, viewFrom(q))
		r, _ := http.NewRequest(http.MethodPost, "/set", nil)
		next, _, err := sv.apply(r, s, map[string]string{key: typed}, button)
		require.NoError(t, err)
		require.True(t, next.reads, "%s", next.text)
		for _, name := range []string{"head", "card"} {
			_, _, err = sv.section(newPage(next), name)
			require.NoError(t, err)
		}
	})
}

// errorsIn cuts the sentences of errors out of a page.
func errorsIn(text string) string {
	var out []string
	for _, part := range strings.Split(text, `class="err"`)[1:] {
		end := strings.Index(part, "</p>")
		out = append(out, part[:max(0, end)])
	}
	return strings.Join(out, "\n")
}

// A design that cannot be read is put right on the page, step by step; what
// is wrong stands at its field.
func TestPutRight(t *testing.T) {
	s := serve(t, demoText(t))
	text := strings.NewReplacer(`margin = "1/16"`, `margin = "3"`, `colour = "#3d6f8f"`, `colour = "teal"`, `sheet = "12 x 12 in"`, "").Replace(demoText(t))
	p := s.set(t, text)
	require.Contains(t, errorsIn(p.Sections["card"]), "Two margins of 3 in leave nothing")
	require.Contains(t, errorsIn(p.Sections["batch"]), "write a colour like")
	for _, step := range [][2]string{{"papers.2.colour", "#3d6f8f"}, {"front.margin", "1/16"}, {"papers.0.sheet", "12 x 12 in"}} {
		p = s.set(t, text, step[0], step[1])
		require.False(t, p.Refused, p.Status)
		require.NotEmpty(t, p.Undo)
		text = textOf(t, p)
	}
	_, err := read([]byte(text))
	require.NoError(t, err)
	require.Contains(t, p.Sections["card"], `<svg class="card"`)
}
