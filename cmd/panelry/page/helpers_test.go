package page

import (
	"encoding/json"
	"io"
	"net/http"
	"net/http/httptest"
	"net/url"
	"os"
	"strings"

	"github.com/stretchr/testify/require"
)

// demoText is the design that the page begins with.
func demoText(t require.TestingT) string {
	data, err := os.ReadFile("../demo/slipway.toml")
	require.NoError(t, err)
	return string(data)
}

// site is a page that is served.
type site struct {
	*httptest.Server
	client *http.Client
}

type cleaner interface {
	require.TestingT
	Cleanup(func())
}

func serve(t cleaner, design string) *site {
	s := httptest.NewServer(New([]byte(design), 2).Handler())
	t.Cleanup(s.Close)
	client := s.Client()
	client.CheckRedirect = func(*http.Request, []*http.Request) error { return http.ErrUseLastResponse }
	return &site{s, client}
}

// get asks for a path and returns the status and the body.
func (s *site) get(t require.TestingT, path string) (int, string) {
	answer, err := s.client.Get(s.URL + path)
	require.NoError(t, err)
	return body(t, answer)
}

func body(t require.TestingT, answer *http.Response) (int, string) {
	defer answer.Body.Close()
	data, err := io.ReadAll(answer.Body)
	require.NoError(t, err)
	return answer.StatusCode, string(data)
}

// post sends a form without script, and returns the answer.
func (s *site) post(t require.TestingT, path string, form url.Values) *http.Response {
	answer, err := s.client.PostForm(s.URL+path, form)
	require.NoError(t, err)
	return answer
}

// set sends a form as the script does.
func (s *site) set(t require.TestingT, design string, pairs ...string) parts {
	form := url.Values{fieldDesign: {encode([]byte(design))}}
	for i := 0; i < len(pairs); i += 2 {
		form.Set(pairs[i], pairs[i+1])
	}
	request, err := http.NewRequest(http.MethodPost, s.URL+"/set", strings.NewReader(form.Encode()))
	require.NoError(t, err)
	request.Header.Set("Content-Type", "application/x-www-form-urlencoded")
	request.Header.Set("Accept", "application/json")
	answer, err := s.client.Do(request)
	require.NoError(t, err)
	status, text := body(t, answer)
	require.Equal(t, http.StatusOK, status, text)
	var p parts
	require.NoError(t, json.Unmarshal([]byte(text), &p))
	return p
}

// textOf is the design in an answer.
func textOf(t require.TestingT, p parts) string {
	text, err := decode(p.Design)
	require.NoError(t, err)
	return string(text)
}

// changed is the demo with texts in place of others.
func changed(t require.TestingT, pairs ...string) string {
	text := demoText(t)
	for i := 0; i < len(pairs); i += 2 {
		require.Contains(t, text, pairs[i])
		text = strings.Replace(text, pairs[i], pairs[i+1], 1)
	}
	return text
}
