package page

import (
	"bytes"
	"encoding/json"
	"fmt"
	"mime/multipart"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/export"
	"panelry/layouts"
)

// send uploads a file, as the page's forms do.
func (s *site) send(t require.TestingT, design, name, text string, script bool) (int, string, *http.Response) {
	var b bytes.Buffer
	form := multipart.NewWriter(&b)
	require.NoError(t, form.WriteField(fieldDesign, encode([]byte(design))))
	part, err := form.CreateFormFile("file", name)
	require.NoError(t, err)
	_, err = part.Write([]byte(text))
	require.NoError(t, err)
	require.NoError(t, form.Close())
	request, err := http.NewRequest(http.MethodPost, s.URL+"/open", &b)
	require.NoError(t, err)
	request.Header.Set("Content-Type", form.FormDataContentType())
	if script {
		request.Header.Set("Accept", "application/json")
	}
	answer, err := s.client.Do(request)
	require.NoError(t, err)
	status, got := body(t, answer)
	return status, got, answer
}

func (s *site) sent(t require.TestingT, design, name, text string) parts {
	status, got, _ := s.send(t, design, name, text, true)
	require.Equal(t, http.StatusOK, status, got)
	var p parts
	require.NoError(t, json.Unmarshal([]byte(got), &p))
	return p
}

func TestOpenADesign(t *testing.T) {
	s := serve(t, demoText(t))
	other := strings.Replace(demoText(t), "Slipway", "Harbour", 1) + "# a last word\n"
	p := s.sent(t, demoText(t), "other.toml", other)
	require.Equal(t, other, textOf(t, p))
	require.Equal(t, "opening of other.toml", p.Undo)
	more := strings.Replace(other, "[card]", "[card]\nhinge = \"left\" # mine", 1) + "[notes]\nlast = 3\n"
	p = s.sent(t, demoText(t), "more.toml", more)
	require.False(t, p.Refused, p.Status)
	require.Equal(t, more, textOf(t, p))
	require.Contains(t, p.Sections["head"], "Keys that this page does not know are kept as they are: card.hinge, notes.")
	p = s.set(t, more, "front.gap", "1/4")
	require.Equal(t, strings.Replace(more, `gap = "1/8"`, `gap = "1/4"`, 1), textOf(t, p))
	_, saved := s.get(t, place(p.Design)+"files/design.toml")
	require.Equal(t, textOf(t, p), saved, "also in the kit")
	_, err := read([]byte(more))
	require.ErrorContains(t, err, "no such key", "as the command line says")
	_, _, answer := s.send(t, demoText(t), "other.toml", other, false)
	require.Equal(t, http.StatusSeeOther, answer.StatusCode)

	p = s.sent(t, demoText(t), "bad.toml", strings.Replace(other, "margin", "marign", 1))
	require.True(t, p.Refused)
	require.Equal(t, demoText(t), textOf(t, p), "the design stays")
	require.Contains(t, errorsIn(p.Sections["head"]), "bad.toml cannot be opened. Line 18: front.marign:")
	status, _, _ := s.send(t, demoText(t), "large.toml", strings.Repeat("#", layouts.MostBytes+1), true)
	require.Equal(t, http.StatusRequestEntityTooLarge, status)
}

const twoLeaves = `<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="40mm" viewBox="0 0 60 40">
<path d="M0 0H25V40H0Z"/><path d="M30 0C50 0 60 20 60 40L30 40Z"/></svg>
`

// Shapes are kept in the design, so that its link, its file and the command
// line all draw them, and no file is opened.
func TestOwnShapes(t *testing.T) {
	s := serve(t, demoText(t))
	p := s.sent(t, demoText(t), "two leaves.svg", twoLeaves)
	require.False(t, p.Refused, p.Status)
	text := textOf(t, p)
	require.Contains(t, text, "[shapes]\n\"two leaves.svg\" = '''\n<svg")
	require.Contains(t, text, `layout = "own shapes"`)
	require.NotContains(t, text, "slant")
	d, err := read([]byte(text))
	require.NoError(t, err)
	require.Len(t, d.Front.Shapes, 2)
	p = s.sent(t, text, "one.svg", strings.Replace(twoLeaves, "H25", "H20", 1))
	require.False(t, p.Refused, p.Status)

	p = s.sent(t, demoText(t), "none.svg", "<svg/>")
	require.True(t, p.Refused)
	require.Contains(t, errorsIn(p.Sections["card"]), "none.svg: line 1")

	linked := strings.Replace(text, `shapes = "two leaves.svg"`, `shapes = "../../etc/passwd"`, 1)
	status, got := s.get(t, place(encode([]byte(linked))))
	require.Equal(t, http.StatusOK, status)
	require.Contains(t, got, "the page opens no files")
}

// Whoever chooses own shapes for the front is shown where to give them.
func TestOwnShapesAreAskedFor(t *testing.T) {
	s := serve(t, demoText(t))
	for _, pairs := range [][]string{{"front.layout", "own shapes"}, {"~do", "choose front.layout=own shapes"}} {
		p := s.set(t, demoText(t), pairs...)
		require.True(t, p.Refused)
		saying, _, _ := strings.Cut(p.Sections["card"], `class="more"`)
		require.Contains(t, errorsIn(saying), "Choose the SVG file that has them, here below.")
		require.Contains(t, saying, `id="own-file"`)
		require.Equal(t, 1, strings.Count(p.Sections["card"], `id="own-file"`))
		require.Contains(t, saying, `<option selected>own shapes</option>`)
	}
	plain := s.set(t, demoText(t)).Sections["card"]
	saying, _, _ := strings.Cut(plain, `class="more"`)
	require.NotContains(t, saying, "own-file")
	require.Contains(t, plain, "own-file")
}

// A design that is too long for an address stays in the page, and its files
// can be taken.
func TestLongDesign(t *testing.T) {
	var long strings.Builder
	long.WriteString(demoText(t))
	for i := range 6000 {
		fmt.Fprintf(&long, "# %x\n", keyOf([]byte(fmt.Sprint(i)))[:16])
	}
	s := serve(t, demoText(t))
	p := s.set(t, long.String(), "front.gap", "1/4")
	require.Equal(t, "/d/-/", p.Address)
	require.Contains(t, p.Sections["head"], "This design is too long for a link; save it as a file.")
	require.Equal(t, strings.Replace(long.String(), `gap = "1/8"`, `gap = "1/4"`, 1), textOf(t, p))
	answer := s.post(t, "/set", url.Values{fieldDesign: {p.Design}, "front.gap": {"1/8"}})
	status, text := body(t, answer)
	require.Equal(t, http.StatusOK, status)
	require.Contains(t, text, `action="/take"`)
	answer = s.post(t, "/take", url.Values{fieldDesign: {p.Design}, "~file": {"design.toml"}})
	_, text = body(t, answer)
	require.Equal(t, textOf(t, p), text)
	answer = s.post(t, "/take", url.Values{fieldDesign: {p.Design}})
	require.Equal(t, "application/zip", answer.Header.Get("Content-Type"))
	answer.Body.Close()
}

// Files of the kit by name; what is no file of it is not found.
func TestFiles(t *testing.T) {
	s := serve(t, demoText(t))
	at := place(encode([]byte(demoText(t))))
	for _, name := range []string{"sheets/sheet-05-kelp.svg", "template.pdf", "guide.html", "kit.json", "maps/sheet-01-chalk.svg", "batch.svg", "pieces.csv", "design.toml", "aids/spacers.svg", "kits.md"} {
		answer, err := s.client.Get(s.URL + at + "files/" + name)
		require.NoError(t, err)
		status, _ := body(t, answer)
		require.Equal(t, http.StatusOK, status, name)
		require.Contains(t, answer.Header.Get("Content-Disposition"), "attachment")
	}
	for _, name := range []string{"nothing", "sheets/../kit.json", "sheets/sheet-99-kelp.svg", "%2e%2e/x"} {
		status, _ := s.get(t, at+"files/"+name)
		require.Contains(t, []int{http.StatusNotFound, http.StatusTemporaryRedirect, http.StatusMovedPermanently}, status, name)
	}
	status, text := s.get(t, place(encode([]byte(strings.Replace(demoText(t), `"1/16"`, `"x"`, 1))))+"kit.zip")
	require.Equal(t, http.StatusUnprocessableEntity, status)
	require.Contains(t, text, "There is no kit yet")
}

// Every file of the kit is listed with what it is for, and can be taken.
func TestAllFilesAreListed(t *testing.T) {
	s := serve(t, demoText(t))
	at := place(encode([]byte(demoText(t))))
	_, text := s.get(t, at+"?files=1&trim=1")
	work, err := look(t.Context(), []byte(demoText(t)))
	require.NoError(t, err)
	made, err := export.Files(work.kit)
	require.NoError(t, err)
	for _, f := range made {
		require.Contains(t, text, `href="files/`+f.Name+`"`)
		require.NotEmpty(t, purpose(f.Name), f.Name)
	}
	require.Contains(t, text, "Set the stop at 11 in")
}
