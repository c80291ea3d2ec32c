package page

import (
	"bytes"
	"compress/gzip"
	"net/http"
	"strconv"
	"strings"
	"sync"
)

// leastSqueezed is what is worth compressing: less fits one packet as it is.
const leastSqueezed = 1024

// squeezed compresses what a page loads (RFC 9110 sections 8.4 and 12.5.3):
// text, to be looked at, for a browser that takes gzip. Files that are saved,
// news of a search and answers to changes go as they are: the first are the
// reader's byte for byte, and the others must not wait.
func squeezed(next http.Handler) http.Handler {
	return http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.Method != http.MethodGet && r.Method != http.MethodHead {
			next.ServeHTTP(w, r)
			return
		}
		press := &presser{ResponseWriter: w, takes: r.Method == http.MethodGet && takesGzip(r)}
		next.ServeHTTP(press, r)
		press.finish()
	})
}

// takesGzip reads Accept-Encoding: gzip is named, and not with q=0.
func takesGzip(r *http.Request) bool {
	for _, one := range strings.Split(r.Header.Get("Accept-Encoding"), ",") {
		name, weight, _ := strings.Cut(one, ";")
		if strings.TrimSpace(name) == "gzip" {
			q, err := strconv.ParseFloat(strings.TrimPrefix(strings.TrimSpace(weight), "q="), 64)
			return strings.TrimSpace(weight) == "" || err == nil && q > 0
		}
	}
	return false
}

// presser holds an answer back until it is whole, where it is to be
// compressed, and lets everything else through.
type presser struct {
	http.ResponseWriter
	takes  bool
	begun  bool // the status is known
	held   bool // the body is kept in buffer
	status int
	buffer bytes.Buffer
}

// Unwrap lets a response controller reach the writer within.
func (p *presser) Unwrap() http.ResponseWriter { return p.ResponseWriter }

func (p *presser) WriteHeader(status int) {
	if p.begun {
		return
	}
	p.begun = true
	h := p.Header()
	if mayShrink(h, status) {
		h.Add("Vary", "Accept-Encoding")
		if p.takes {
			p.held, p.status = true, status
			return
		}
		h.Del("Content-Length") // which is another one for those who take gzip
	}
	p.ResponseWriter.WriteHeader(status)
}

// mayShrink reports whether an answer is a whole text to be looked at.
func mayShrink(h http.Header, status int) bool {
	kind, _, _ := strings.Cut(h.Get("Content-Type"), ";")
	text := kind == "application/json" || kind == "image/svg+xml" || strings.HasPrefix(kind, "text/") && kind != "text/event-stream"
	whole := status >= 200 && status != http.StatusNoContent && status != http.StatusPartialContent && status != http.StatusNotModified
	return text && whole && h.Get("Content-Disposition") == "" && h.Get("Content-Encoding") == ""
}

func (p *presser) Write(data []byte) (int, error) {
	if !p.begun {
		p.WriteHeader(http.StatusOK)
	}
	if p.held {
		return p.buffer.Write(data)
	}
	return p.ResponseWriter.Write(data)
}

var pressers = sync.Pool{New: func() any { return gzip.NewWriter(nil) }}

// finish sends what was held back, compressed where that is shorter.
func (p *presser) finish() {
	if !p.held {
		return
	}
	body := p.buffer.Bytes()
	if len(body) >= leastSqueezed {
		var small bytes.Buffer
		press := pressers.Get().(*gzip.Writer)
		press.Reset(&small)
		press.Write(body) // a buffer does not fail
		press.Close()
		pressers.Put(press)
		if small.Len() < len(body) {
			p.Header().Set("Content-Encoding", "gzip")
			p.Header().Del("Accept-Ranges")
			body = small.Bytes()
		}
	}
	p.Header().Set("Content-Length", strconv.Itoa(len(body)))
	p.ResponseWriter.WriteHeader(p.status)
	p.ResponseWriter.Write(body) // who does not read to the end has gone
}
