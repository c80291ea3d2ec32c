package page

import (
	"bytes"
	"compress/gzip"
	"encoding/json"
	"html"
	"io"
	"net/http"
	"strconv"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// fetched is one answer: what came over the wire, and what it says.
type fetched struct {
	*http.Response
	wire, body []byte
}

// fetch asks as a browser does, and unpacks the answer by hand.
func (s *site) fetch(t require.TestingT, method, path string, header ...string) fetched {
	request, err := http.NewRequest(method, s.URL+path, nil)
	require.NoError(t, err)
	for i := 0; i < len(header); i += 2 {
		request.Header.Set(header[i], header[i+1])
	}
	answer, err := s.client.Transport.RoundTrip(request)
	require.NoError(t, err)
	defer answer.Body.Close()
	f := fetched{Response: answer}
	f.wire, err = io.ReadAll(answer.Body)
	require.NoError(t, err)
	if f.body = f.wire; answer.Header.Get("Content-Encoding") == "gzip" {
		unpacked, err := gzip.NewReader(bytes.NewReader(f.wire))
		require.NoError(t, err)
		f.body, err = io.ReadAll(unpacked)
		require.NoError(t, err)
	}
	if method == http.MethodGet && answer.ContentLength >= 0 {
		require.Equal(t, answer.Header.Get("Content-Length"), strconv.Itoa(len(f.wire)), path)
	}
	return f
}

// The page with all that a first visit loads, every picture and the straight
// cuts that come later too, weighs less than 300 kB, compressed or not.
func TestPageWeight(t *testing.T) {
	s := serve(t, demoText(t))
	wire, whole := 0, 0
	load := func(path string, header ...string) string {
		f := s.fetch(t, http.MethodGet, path, append(header, "Accept-Encoding", "gzip, deflate, br, zstd")...)
		require.Equal(t, http.StatusOK, f.StatusCode, path)
		wire += len(f.wire)
		whole += len(f.body)
		return string(f.body)
	}
	pictures := func(at, text string) (n int) {
		for _, p := range strings.Split(text, `<img src="`)[1:] {
			link, _, _ := strings.Cut(p, `"`)
			if link = html.UnescapeString(link); !strings.HasPrefix(link, "/") {
				link = at + link
			}
			load(link)
			n++
		}
		return n
	}
	at := place(encode([]byte(demoText(t))))
	text := load(at)
	for _, path := range []string{"/style.css", "/page.js", "/queue.js"} {
		load(path)
	}
	require.Equal(t, 35, pictures(at, text))
	var p parts
	later := load(at+"?trim=1&", "Accept", "application/json")
	require.NoError(t, json.Unmarshal([]byte(later), &p))
	require.Equal(t, []string{"cuts"}, sortedKeys(p.Sections), "nothing that the page has already")
	require.Greater(t, pictures(at, p.Sections["cuts"]), 5)
	t.Logf("%d bytes, %d of them over the wire", whole, wire)
	require.Less(t, whole, 300_000)
	require.Less(t, wire, 90_000)
}

// What is compressed says so, and how long it is; what a maker keeps is never
// compressed, nor what is small, nor for those who do not take it.
func TestSqueezed(t *testing.T) {
	s := serve(t, demoText(t))
	at := place(encode([]byte(demoText(t))))
	for _, c := range []struct {
		path, takes string
		want, vary  string
	}{
		{at, "gzip", "gzip", "Accept-Encoding"},
		{at, "br, gzip;q=0.5", "gzip", "Accept-Encoding"},
		{at, "gzip;q=0", "", "Accept-Encoding"},
		{at, "identity", "", "Accept-Encoding"},
		{"/page.js", "gzip", "gzip", "Accept-Encoding"},
		{"/front.svg?l=grid&w=100000000&h=100000000&m=0&g=0", "gzip", "", "Accept-Encoding"},
		{at + "files/guide.html?look=1", "gzip", "gzip", "Accept-Encoding"},
		{at + "kit.zip", "gzip", "", ""},
		{at + "design.toml", "gzip", "", ""},
		{at + "files/picture.png?look=1", "gzip", "", ""},
	} {
		f := s.fetch(t, http.MethodGet, c.path, "Accept-Encoding", c.takes)
		require.Equal(t, http.StatusOK, f.StatusCode)
		require.Equal(t, []string{c.want, c.vary}, []string{f.Header.Get("Content-Encoding"), f.Header.Get("Vary")}, "%s %s", c.path, c.takes)
		plain := s.fetch(t, http.MethodGet, c.path, "Accept-Encoding", "identity")
		require.Equal(t, plain.body, f.body, c.path)
	}
	head := s.fetch(t, http.MethodHead, at, "Accept-Encoding", "gzip")
	require.Equal(t, http.StatusOK, head.StatusCode)
	require.Empty(t, head.wire)
	part := s.fetch(t, http.MethodGet, "/page.js", "Accept-Encoding", "gzip", "Range", "bytes=0-9")
	require.Equal(t, http.StatusPartialContent, part.StatusCode)
	require.Equal(t, `"use stric`, string(part.wire))
	late := s.fetch(t, http.MethodGet, at+"?card=x%", "Accept-Encoding", "gzip")
	require.Equal(t, http.StatusOK, late.StatusCode)
	lost := s.fetch(t, http.MethodGet, "/d/!!/", "Accept-Encoding", "gzip")
	require.Equal(t, http.StatusBadRequest, lost.StatusCode)
	require.Contains(t, string(lost.body), "This link is damaged")
}
