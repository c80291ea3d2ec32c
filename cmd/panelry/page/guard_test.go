package page

import (
	"context"
	"net"
	"net/http"
	"net/url"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// Only this machine's own page is answered.
func TestGuard(t *testing.T) {
	s := serve(t, demoText(t))
	host := strings.TrimPrefix(s.URL, "http://")
	_, port, _ := strings.Cut(host, ":")
	for name, c := range map[string]struct {
		method string
		host   string
		header map[string]string
		want   int
	}{
		"own address":              {"GET", host, nil, http.StatusOK},
		"localhost":                {"GET", "localhost:" + port, nil, http.StatusOK},
		"IPv6":                     {"GET", "[::1]:" + port, nil, http.StatusOK},
		"another name":             {"GET", "cards.example:" + port, nil, http.StatusForbidden},
		"a name like ours":         {"GET", "127.0.0.1.example:" + port, nil, http.StatusForbidden},
		"another port":             {"GET", "127.0.0.1:1", nil, http.StatusForbidden},
		"no port":                  {"GET", "127.0.0.1", nil, http.StatusForbidden},
		"own origin":               {"GET", host, map[string]string{"Origin": "http://" + host}, http.StatusOK},
		"another origin":           {"GET", host, map[string]string{"Origin": "http://cards.example"}, http.StatusForbidden},
		"another port's origin":    {"GET", host, map[string]string{"Origin": "http://127.0.0.1:1"}, http.StatusForbidden},
		"secure origin":            {"GET", host, map[string]string{"Origin": "https://" + host}, http.StatusForbidden},
		"no origin at all":         {"POST", host, map[string]string{"Origin": "null"}, http.StatusForbidden},
		"a link from elsewhere":    {"GET", host, map[string]string{"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "navigate", "Sec-Fetch-Dest": "document"}, http.StatusOK},
		"a frame elsewhere":        {"GET", host, map[string]string{"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "navigate", "Sec-Fetch-Dest": "iframe"}, http.StatusForbidden},
		"a picture elsewhere":      {"GET", host, map[string]string{"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "no-cors"}, http.StatusForbidden},
		"another port's picture":   {"GET", host, map[string]string{"Sec-Fetch-Site": "same-site", "Sec-Fetch-Mode": "no-cors"}, http.StatusForbidden},
		"a form from elsewhere":    {"POST", host, map[string]string{"Sec-Fetch-Site": "cross-site", "Sec-Fetch-Mode": "navigate", "Sec-Fetch-Dest": "document"}, http.StatusForbidden},
		"a typed address":          {"GET", host, map[string]string{"Sec-Fetch-Site": "none"}, http.StatusOK},
		"a method of another kind": {"PUT", host, nil, http.StatusMethodNotAllowed},
	} {
		t.Run(name, func(t *testing.T) {
			request, err := http.NewRequest(c.method, s.URL+place(encode([]byte(demoText(t)))), nil)
			require.NoError(t, err)
			request.Host = c.host
			for key, value := range c.header {
				request.Header.Set(key, value)
			}
			answer, err := s.client.Do(request)
			require.NoError(t, err)
			status, _ := body(t, answer)
			require.Equal(t, c.want, status)
			require.Equal(t, policy, answer.Header.Get("Content-Security-Policy"))
			require.Equal(t, "nosniff", answer.Header.Get("X-Content-Type-Options"))
			require.Equal(t, "same-origin", answer.Header.Get("Referrer-Policy"))
			require.Empty(t, answer.Header.Get("Access-Control-Allow-Origin"))
		})
	}
}

// A link from elsewhere leads to the page, and has nothing else worked out.
func TestLinksFromElsewhere(t *testing.T) {
	s := serve(t, demoText(t))
	at := place(encode([]byte(demoText(t))))
	for path, want := range map[string]int{"/": http.StatusSeeOther, at: http.StatusOK, at + "?card=2": http.StatusOK,
		at + "kit.zip": http.StatusForbidden, at + "files/guide.html": http.StatusForbidden, at + "search": http.StatusForbidden, "/d/": http.StatusForbidden} {
		f := s.fetch(t, http.MethodGet, path, "Sec-Fetch-Site", "cross-site", "Sec-Fetch-Mode", "navigate", "Sec-Fetch-Dest", "document")
		require.Equal(t, want, f.StatusCode, path)
	}
}

// On the usual port a browser names none.
func TestHostWithoutPort(t *testing.T) {
	for host, want := range map[string]bool{"127.0.0.1": true, "localhost": true, "[::1]": true, "cards.example": false, "127.0.0.1:81": false, "127.0.0.1:80": true, "": false} {
		r, err := http.NewRequest(http.MethodGet, "http://x/", nil)
		require.NoError(t, err)
		r.Host = host
		ctx := context.WithValue(r.Context(), http.LocalAddrContextKey, net.Addr(&net.TCPAddr{IP: net.IPv4(127, 0, 0, 1), Port: 80}))
		require.Equal(t, want, ownHost(r.WithContext(ctx)), host)
	}
}

// The page holds no script and no style of its own, and reaches nowhere else.
func TestPageKeepsToItsPolicy(t *testing.T) {
	s := serve(t, demoText(t))
	_, text := s.get(t, place(encode([]byte(demoText(t))))+"?panel=B1b&nice=1&fit=2+x+2")
	for _, bad := range []string{" style=", "<style", " onclick", "javascript:", "<script>", "http://", "https://"} {
		require.NotContains(t, text, bad)
	}
	require.Less(t, len(text), 250_000)
}

// A body larger than a design can be is refused, and a damaged form answered.
func TestBodies(t *testing.T) {
	s := serve(t, demoText(t))
	for name, c := range map[string]struct {
		kind, body string
		want       int
	}{
		"too large":      {"application/x-www-form-urlencoded", "~d=" + strings.Repeat("A", mostBody), http.StatusRequestEntityTooLarge},
		"no design":      {"application/x-www-form-urlencoded", "front.margin=1", http.StatusBadRequest},
		"damaged":        {"application/x-www-form-urlencoded", "%zz=%", http.StatusBadRequest},
		"cut off parts":  {"multipart/form-data; boundary=x", "--x\r\nContent-Disposition: form-data; name=\"~d\"\r\n\r\nAA", http.StatusBadRequest},
		"no boundary":    {"multipart/form-data", "x", http.StatusBadRequest},
		"another kind":   {"text/plain", "~d=AA", http.StatusBadRequest},
		"a bomb in form": {"application/x-www-form-urlencoded", url.Values{fieldDesign: {encode(make([]byte, 50<<20))}}.Encode(), http.StatusBadRequest},
	} {
		for _, path := range []string{"/set", "/open", "/take"} {
			t.Run(name+path, func(t *testing.T) {
				answer, err := s.client.Post(s.URL+path, c.kind, strings.NewReader(c.body))
				require.NoError(t, err)
				status, text := body(t, answer)
				require.Equal(t, c.want, status, text)
			})
		}
	}
}
