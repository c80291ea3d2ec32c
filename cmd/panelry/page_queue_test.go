package main

// What is typed quicker than the program answers, or while it is away.

import (
	"fmt"
	"net"
	"net/http"
	"strings"
	"sync/atomic"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"

	"panelry/cmd/panelry/page"
)

// lazyPage serves the page with answers to changes that come late, or not at
// all while it is away.
type lazyPage struct {
	late atomic.Int64 // how long a change takes more, in nanoseconds
	away atomic.Bool
}

func (l *lazyPage) serve(t *testing.T, design string) string {
	t.Helper()
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	server := page.New([]byte(design), 2).HTTP()
	own := server.Handler
	server.Handler = http.HandlerFunc(func(w http.ResponseWriter, r *http.Request) {
		if r.Method == http.MethodPost {
			time.Sleep(time.Duration(l.late.Load()))
			if l.away.Load() {
				panic(http.ErrAbortHandler) // the connection breaks off
			}
		}
		own.ServeHTTP(w, r)
	})
	go server.Serve(listener)
	t.Cleanup(func() { server.Close() })
	return "http://" + listener.Addr().String() + "/"
}

func (l *lazyPage) visit(t *testing.T) *visit {
	t.Helper()
	return visitAt(t, l.serve(t, string(demo)))
}

// changedDemo is the demo with texts in place of others.
func changedDemo(pairs ...string) string {
	text := string(demo)
	for i := 0; i < len(pairs); i += 2 {
		text = strings.Replace(text, pairs[i], pairs[i+1], 1)
	}
	return text
}

// Two fields changed within one answer's time are both changed, each as a
// step of its own.
func TestPageTakesQuickEdits(t *testing.T) {
	lazy := new(lazyPage)
	v := lazy.visit(t)
	lazy.late.Store(int64(300 * time.Millisecond))
	v.fill("front.margin", "3/32")
	v.fill("front.gap", "3/16")
	v.fill("card.base", "side fold")
	require.Equal(t, "3/16", v.value("front.gap"))
	v.until(`document.getElementById("undo").textContent === "Undo fold"`)
	require.Equal(t, []string{"3/32", "3/16", "side fold"}, []string{v.value("front.margin"), v.value("front.gap"), v.value("card.base")})
	require.Equal(t, changedDemo(`margin = "1/16"`, `margin = "3/32"`, `gap = "1/8"`, `gap = "3/16"`, `"top fold"`, `"side fold"`), string(v.fetch("design.toml")))
	v.do(chromedp.Click(chromedp.CSS("#undo")))
	v.until(`document.getElementById("undo").textContent === "Undo gap"`)
}

// What is changed and taken back at once is taken back, and no more.
func TestPageUndoesWhatIsUnderWay(t *testing.T) {
	lazy := new(lazyPage)
	v := lazy.visit(t)
	v.fill("front.gap", "3/16")
	v.until(`document.getElementById("undo").textContent === "Undo gap"`)
	lazy.late.Store(int64(300 * time.Millisecond))
	v.fill("front.margin", "3/32")
	v.text(`history.back()`)
	v.until(`document.getElementById("redo").textContent === "Redo margin"`)
	v.until(`document.getElementsByName("front.margin")[0].value === "1/16"`)
	require.Equal(t, changedDemo(`gap = "1/8"`, `gap = "3/16"`), string(v.fetch("design.toml")))
}

// A link to a place on the page is no step.
func TestPagePlacesAreNoSteps(t *testing.T) {
	v := visitPage(t, string(demo))
	v.fill("front.gap", "3/16")
	v.until(`document.getElementById("undo").textContent === "Undo gap"`)
	v.text(`document.querySelector(".strip a[href='#post']").click()`)
	require.Equal(t, "#post", v.text("location.hash"))
	v.fill("front.margin", "3/32")
	v.until(`document.getElementById("undo").textContent === "Undo margin"`)
	v.do(chromedp.Click(chromedp.CSS("#undo")))
	v.until(`document.getElementById("undo").textContent === "Undo gap"`)
	v.do(chromedp.Click(chromedp.CSS("#undo")))
	v.until(`document.getElementById("undo").disabled`)
	require.Equal(t, string(demo), string(v.fetch("design.toml")))
}

// Held arrow keys step as often as they were pressed.
func TestPageCountsHeldKeys(t *testing.T) {
	lazy := new(lazyPage)
	v := lazy.visit(t)
	lazy.late.Store(int64(150 * time.Millisecond))
	for key, want := range map[string]string{"batch.cards": "18", "front.gap": "3/4"} {
		v.text(`document.getElementsByName("` + key + `")[0].focus()`)
		for range 10 {
			v.press(kb.ArrowUp)
		}
		v.until(`document.getElementsByName("` + key + `")[0].value === "` + want + `"`)
		require.Equal(t, key, v.text("document.activeElement.name"))
	}
	require.Equal(t, changedDemo(`gap = "1/8"`, `gap = "3/4"`, "cards = 8", "cards = 18"), string(v.fetch("design.toml")))
	v.text(`document.getElementsByName("front.gap")[0].focus()`)
	v.text(`(f => { f.value = "1/4"; f.dispatchEvent(new Event("input", {bubbles: true})); })(document.activeElement)`)
	v.press(kb.ArrowUp) // from what is typed
	v.press(kb.ArrowUp)
	v.until(`document.getElementsByName("front.gap")[0].value === "3/8"`)
}

// What is set while the program is away is kept, told of, and sent when it
// answers again.
func TestPageKeepsWhatCannotBeSent(t *testing.T) {
	lazy := new(lazyPage)
	v := lazy.visit(t)
	lazy.away.Store(true)
	v.fill("front.margin", "3/32")
	v.until(`document.getElementById("trouble") !== null`)
	require.Contains(t, v.text(`document.getElementById("trouble").textContent`), "is kept")
	v.fill("front.gap", "3/16")
	v.fill("card.base", "side fold")
	v.text(`document.getElementsByName("batch.cards")[0].focus()`)
	v.press(kb.ArrowUp)
	v.press(kb.ArrowUp)
	lazy.away.Store(false)
	v.until(`document.getElementsByName("batch.cards")[0].value === "10"`)
	v.until(`document.getElementById("trouble") === null`)
	require.Equal(t, changedDemo(`margin = "1/16"`, `margin = "3/32"`, `gap = "1/8"`, `gap = "3/16"`, `"top fold"`, `"side fold"`, "cards = 8", "cards = 10"), string(v.fetch("design.toml")))
	v.mu.Lock()
	defer v.mu.Unlock()
	for _, told := range v.trouble { // the browser logs each try
		require.Contains(t, told, "/set")
	}
	v.trouble = nil
}

// A paper that is chosen while another panel's slip is on its way is given to
// the panel that it was chosen for.
func TestPageGivesAPaperToItsPanel(t *testing.T) {
	lazy := new(lazyPage)
	v := lazy.visit(t)
	choose := `document.querySelector('[data-panel="%s"] path').dispatchEvent(new MouseEvent("click", {bubbles: true, cancelable: true}))`
	v.text(fmt.Sprintf(choose, "A1a"))
	v.until(`document.getElementById("panel-paper") !== null`)
	lazy.late.Store(int64(200 * time.Millisecond))
	v.text(fmt.Sprintf(choose, "B1b"))
	v.text(`(f => { f.value = "gull"; f.dispatchEvent(new Event("change", {bubbles: true})); })(document.getElementById("panel-paper"))`)
	v.until(`document.getElementById("undo").textContent === "Undo paper of A1a"`)
	v.until(`document.getElementById("slip-h").textContent === "Panel B1b" && document.getElementById("panel-paper").name === "panel.paper 1 B1b"`)
	require.Contains(t, string(v.fetch("design.toml")), "by_hand = [\n  [\"gull\", \"tide\", ")
	require.Equal(t, v.text(`document.querySelector("#panel-paper [selected]").textContent`), v.text(`document.getElementById("panel-paper").value`))
}
