package main

// The page in a browser: what a maker does with it, from a first visit to a
// kit.

import (
	"context"
	"fmt"
	"net"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"panelry/cmd/panelry/page"
)

// visit is a page that is served, with a browser on it.
type visit struct {
	t       *testing.T
	ctx     context.Context
	address string

	mu      sync.Mutex
	trouble []string // exceptions, and errors of the console
	asked   []string // what was requested
	bytes   int64    // and how much came
}

// servePageTest serves the page with a design until the test ends.
func servePageTest(t testing.TB, design []byte) string {
	t.Helper()
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	server := page.New(design, 2).HTTP()
	go server.Serve(listener)
	t.Cleanup(func() { server.Close() })
	return "http://" + listener.Addr().String() + "/"
}

// visitPage opens the page with a design. When the test ends, nothing may
// have gone wrong in the browser, and nothing may have been asked elsewhere.
func visitPage(t *testing.T, design string) *visit {
	t.Helper()
	v := &visit{t: t, ctx: browser(t), address: servePageTest(t, []byte(design))}
	ctx, stop := context.WithTimeout(v.ctx, 3*time.Minute)
	t.Cleanup(stop)
	v.ctx = ctx
	require.NoError(t, chromedp.Listen(ctx, v.note))
	v.do(chromedp.EmulateViewport(1440, 1000))
	v.do(chromedp.Navigate(v.address))
	t.Cleanup(func() {
		v.mu.Lock()
		defer v.mu.Unlock()
		require.Empty(t, v.trouble)
		for _, url := range v.asked {
			require.True(t, strings.HasPrefix(url, v.address) || strings.HasPrefix(url, "data:") || strings.HasPrefix(url, "blob:"), url)
		}
	})
	return v
}

func (v *visit) note(event any) {
	v.mu.Lock()
	defer v.mu.Unlock()
	switch e := event.(type) {
	case *runtime.EventExceptionThrown:
		v.trouble = append(v.trouble, fmt.Sprintf("%s %v", e.ExceptionDetails.Text, e.ExceptionDetails.Exception))
	case *log.EventEntryAdded:
		if e.Entry.Level == "error" || e.Entry.Level == "warning" {
			v.trouble = append(v.trouble, e.Entry.Text+" "+e.Entry.URL)
		}
	case *network.EventRequestWillBeSent:
		v.asked = append(v.asked, e.Request.URL)
	case *network.EventLoadingFinished:
		v.bytes += int64(e.EncodedDataLength)
	}
}

func (v *visit) do(step chromedp.Action[chromedp.Void]) {
	v.t.Helper()
	require.NoError(v.t, chromedp.Do(v.ctx, step))
}

// text evaluates a script that gives a text.
func (v *visit) text(script string) string {
	v.t.Helper()
	got, err := chromedp.Run(v.ctx, chromedp.Evaluate[string]("String("+script+")"))
	require.NoError(v.t, err)
	return got
}

// until waits for a script to become true.
func (v *visit) until(script string) {
	v.t.Helper()
	for end := time.Now().Add(20 * time.Second); ; time.Sleep(10 * time.Millisecond) {
		if v.text(script) == "true" {
			return
		}
		if time.Now().After(end) {
			v.t.Fatalf("never true: %s\naddress: %s\nerrors: %s", script, v.text("location.href.slice(0, 300)"), v.text(`[...document.querySelectorAll(".err")].map(e => e.textContent).join(" | ")`))
		}
	}
}

// press sends keys to what has the focus.
func (v *visit) press(keys string, options ...chromedp.KeyOption) {
	v.t.Helper()
	v.do(chromedp.KeyEvent(keys, options...))
}

// fill types into a field of a key and leaves it.
func (v *visit) fill(key, text string) {
	v.t.Helper()
	v.text(fmt.Sprintf(`(() => { const f = document.getElementsByName(%q)[0]; f.focus(); f.value = %q; f.dispatchEvent(new Event("change", {bubbles: true})); })()`, key, text))
}

func (v *visit) value(key string) string {
	v.t.Helper()
	return v.text(fmt.Sprintf("document.getElementsByName(%q)[0].value", key))
}

// shot writes a picture of the whole page, for eyes.
func (v *visit) shot(name string) {
	v.t.Helper()
	data, err := chromedp.Run(v.ctx, chromedp.FullScreenshot(100))
	require.NoError(v.t, err)
	dir := os.Getenv("PANELRY_SHOTS")
	if dir == "" {
		dir = v.t.TempDir()
	}
	require.NoError(v.t, os.WriteFile(filepath.Join(dir, name+".png"), data, 0o600))
	require.Greater(v.t, len(data), 20_000)
}

// The page at three widths, light and dark: nothing scrolls sideways, and
// pictures are written to look at (to PANELRY_SHOTS, where that is set).
func TestPageShots(t *testing.T) {
	v := visitPage(t, string(demo))
	for _, width := range []int64{320, 390, 720, 820, 1440} {
		for _, scheme := range []string{"light", "dark"} {
			v.do(chromedp.EmulateViewport(width, 900))
			_, err := chromedp.Call(v.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
			require.NoError(t, err)
			v.do(chromedp.Navigate(v.address))
			v.until(`!document.querySelector("[data-trim]")`)
			if width != 320 && width != 720 {
				v.shot(fmt.Sprintf("page-%d-%s", width, scheme))
			}
			require.Equal(t, "", v.text(`(() => {
				const wide = document.documentElement.clientWidth;
				if (document.documentElement.scrollWidth <= wide) return "";
				return [...document.querySelectorAll("body *")].filter(e => e.getBoundingClientRect().right > wide + 1 && !e.closest(".vh, details:not([open]) > :not(summary)")).slice(0, 5).map(e => e.outerHTML.slice(0, 90)).join("\n");
			})()`), "at %d px", width)
		}
	}
}

var _ = slices.Contains[[]string]
