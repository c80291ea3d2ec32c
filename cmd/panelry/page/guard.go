package page

import (
	"net"
	"net/http"
	"net/url"
	"strings"
)

// policy lets the page load nothing but its own files, and no script or style
// that stands in the page itself. CSP Level 3.
const policy = "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' data:; connect-src 'self'; " +
	"form-action 'self'; base-uri 'none'; frame-ancestors 'none'"

// mostBody bounds what is sent to the page: a design of the largest size,
// with room for how a form writes it.
const mostBody = 2 << 20

// guard lets through what comes from this machine's own page. A page of
// another site can send a browser here, by a name that it lets point to this
// machine (DNS rebinding) or by a form; both are refused.
func guard(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		h := w.Header()
		h.Set("Content-Security-Policy", policy)
		h.Set("X-Content-Type-Options", "nosniff")
		h.Set("Referrer-Policy", "same-origin") // with none at all a form sends no origin
		h.Set("Cross-Origin-Opener-Policy", "same-origin")
		h.Set("Cross-Origin-Resource-Policy", "same-origin")
		switch {
		case !ownHost(r):
			http.Error(w, "This page answers to its own address on this machine only.", http.StatusForbidden)
			return
		case foreign(r):
			http.Error(w, "Another site asked for this; it is refused.", http.StatusForbidden)
			return
		case r.Method != http.MethodGet && r.Method != http.MethodHead && r.Method != http.MethodPost:
			h.Set("Allow", "GET, HEAD, POST")
			http.Error(w, "Only GET, HEAD and POST are known here.", http.StatusMethodNotAllowed)
			return
		}
		r.Body = http.MaxBytesReader(w, r.Body, mostBody)
		next.ServeHTTP(w, r)
	})
}

// ownHost reports whether a request names this machine and the port that it
// came in by.
func ownHost(r *http.Request) bool {
	host, port, err := net.SplitHostPort(r.Host)
	if err != nil { // a browser leaves out the usual port
		host, port = strings.Trim(r.Host, "[]"), "80"
	}
	if host != "127.0.0.1" && host != "::1" && !strings.EqualFold(host, "localhost") {
		return false
	}
	own, ok := r.Context().Value(http.LocalAddrContextKey).(net.Addr)
	if !ok {
		return false
	}
	_, ownPort, err := net.SplitHostPort(own.String())
	return err == nil && port == ownPort
}

// foreign reports whether another site had the browser ask. Fetch Metadata:
// a typed address and a bookmark say "none"; following a link from elsewhere
// is a navigation, which may look at the page, but not send, and not have a kit
// worked out.
func foreign(r *http.Request) bool {
	if origin := r.Header.Get("Origin"); origin != "" {
		u, err := url.Parse(origin)
		if err != nil || u.Scheme != "http" || u.Host != r.Host {
			return true
		}
	}
	switch r.Header.Get("Sec-Fetch-Site") {
	case "", "same-origin", "none":
		return false
	}
	looks := (r.Method == http.MethodGet || r.Method == http.MethodHead) && isPage(r.URL.Path)
	return !looks || r.Header.Get("Sec-Fetch-Mode") != "navigate" || r.Header.Get("Sec-Fetch-Dest") != "document"
}

// isPage reports whether a path is that of the page: "/", or "/d/.../".
func isPage(path string) bool {
	design, ok := strings.CutPrefix(path, "/d/")
	return path == "/" || ok && design != "" && strings.IndexByte(design, '/') == len(design)-1
}
