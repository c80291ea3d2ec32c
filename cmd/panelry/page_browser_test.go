package main

// The page in a browser: what a maker does with it, from a first visit to a
// kit.

import (
	"context"
	"crypto/sha256"
	"encoding/base64"
	"fmt"
	"io"
	"net"
	"net/http"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/cdproto/emulation"
	"github.com/chromedp/cdproto/log"
	"github.com/chromedp/cdproto/network"
	"github.com/chromedp/cdproto/runtime"
	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
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

// visitPage opens the page with a design.
func visitPage(t *testing.T, design string) *visit {
	t.Helper()
	return visitAt(t, servePageTest(t, []byte(design)))
}

// visitAt opens a page that is served. When the test ends, nothing may have
// gone wrong in the browser, and nothing may have been asked elsewhere.
func visitAt(t *testing.T, address string) *visit {
	t.Helper()
	v := &visit{t: t, ctx: browser(t), address: address}
	ctx, stop := context.WithTimeout(v.ctx, time.Minute)
	t.Cleanup(stop)
	v.ctx = ctx
	require.NoError(t, chromedp.Listen(ctx, v.note))
	_, err := chromedp.Call(ctx, emulation.SetFocusEmulationEnabled, emulation.SetFocusEmulationEnabledParams{Enabled: true})
	require.NoError(t, err)
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
	if os.Getenv("PANELRY_SHOTS") == "" {
		return
	}
	for i := range 6 { // in parts that an eye can take in
		at := v.text(fmt.Sprintf("(scrollTo(0, %d), Math.round(scrollY) === %d)", i*1800, i*1800))
		if at != "true" {
			break
		}
		data, err := chromedp.Run(v.ctx, chromedp.CaptureScreenshot())
		require.NoError(v.t, err)
		require.NoError(v.t, os.WriteFile(filepath.Join(dir, fmt.Sprintf("%s-%d.png", name, i)), data, 0o600))
	}
}

// The page light and dark: nothing scrolls sideways. Where PANELRY_SHOTS names a
// folder, it is looked at in more widths, and pictures are written there for
// eyes; TestPageIsNoWiderThanItsWindow has all widths in light.
func TestPageShots(t *testing.T) {
	v := visitPage(t, string(demo))
	widths := []int64{390}
	if os.Getenv("PANELRY_SHOTS") != "" {
		widths = []int64{320, 390, 720, 820, 1440}
	}
	for _, width := range widths {
		for _, scheme := range []string{"light", "dark"} {
			v.do(chromedp.EmulateViewport(width, 1800))
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

// A first visit ends in a kit, of which every sheet is the command line's to
// the byte; so is the kit after some changes.
func TestPageKitIsTheCommandLines(t *testing.T) {
	v := visitPage(t, string(demo))
	for _, change := range []bool{false, true} {
		if change {
			v.fill("front.margin", "3/32")
			v.until(`document.querySelector(".sums td .fr").textContent === "3/32"`)
			v.fill("batch.cards", "5")
			v.until(`document.getElementsByName("batch.cards")[0].value === "5" && document.querySelectorAll(".deck li").length === 5`)
		}
		v.until(`!document.querySelector("[data-search]")`) // the command line searches to the end
		design := v.fetch("design.toml")
		zipped := v.fetch("kit.zip")
		dir := t.TempDir()
		runOK(t, string(design), "make", "-", "--zip", filepath.Join(dir, "kit.zip"))
		want, err := os.ReadFile(filepath.Join(dir, "kit.zip"))
		require.NoError(t, err)
		require.Equal(t, want, zipped)
		if !change {
			require.Equal(t, string(demo), string(design))
		}
	}
}

// fetch gets a file of the page's design, as the browser would.
func (v *visit) fetch(name string) []byte {
	v.t.Helper()
	got, err := chromedp.Run(v.ctx, chromedp.Evaluate[string](fmt.Sprintf(`fetch(%q).then(r => r.blob()).then(b => new Promise(done => { const f = new FileReader(); f.onload = () => done(f.result.split(",")[1]); f.readAsDataURL(b); }))`, name), chromedp.EvalAwaitPromise))
	require.NoError(v.t, err)
	data, err := base64.StdEncoding.DecodeString(got)
	require.NoError(v.t, err)
	return data
}

// Undo, redo and the link: each step is one entry of the history, and a link
// brings the same design to a new tab.
func TestPageUndoAndLink(t *testing.T) {
	v := visitPage(t, string(demo))
	v.fill("front.gap", "3/16")
	v.until(`document.getElementById("undo").textContent === "Undo gap"`)
	v.fill("card.base", "side fold")
	v.until(`document.getElementById("undo").textContent === "Undo fold"`)
	link := v.text("location.href")

	v.do(chromedp.Click(chromedp.CSS("#undo")))
	v.until(`document.getElementsByName("card.base")[0].value === "top fold"`)
	require.Equal(t, "3/16", v.value("front.gap"))
	require.Equal(t, "Redo fold", v.text(`document.getElementById("redo").textContent`))
	v.do(chromedp.Click(chromedp.CSS("#undo")))
	v.until(`document.getElementsByName("front.gap")[0].value === "1/8"`)
	v.until(`document.getElementById("undo").disabled`)
	require.Equal(t, string(demo), string(v.fetch("design.toml")))
	v.do(chromedp.Click(chromedp.CSS("#redo")))
	v.until(`document.getElementsByName("front.gap")[0].value === "3/16"`)

	v.do(chromedp.Navigate(link))
	require.Equal(t, "side fold", v.value("card.base"))
	require.Contains(t, string(v.fetch("design.toml")), "# The built-in demo", "comments stay")
}

// What cannot be taken is told beside its field, the card stays, and what was
// typed stays in the field.
func TestPageErrors(t *testing.T) {
	v := visitPage(t, string(demo))
	for _, c := range []struct{ key, typed, want string }{
		{"front.margin", "1/6th", "not a length"},
		{"front.gap", "2", "the widest gap is"},
		{"batch.cards", "many", "write a whole number from 1 to 10000"},
		{"papers.1.name", "tide", "are both called"},
		{"sheets.edge", "-1", "less than nothing"},
		{"front.columns", "61", "write a whole number from 1 to 60"},
	} {
		before := v.text("location.href")
		v.fill(c.key, c.typed)
		field := fmt.Sprintf("document.getElementsByName(%q)[0]", c.key)
		v.until(field + `.getAttribute("aria-invalid") === "true"`)
		told := v.text(`(() => { const f = ` + field + `; return f.getAttribute("aria-describedby").split(" ").map(id => document.getElementById(id).textContent).join(" "); })()`)
		require.Contains(t, told, c.want)
		require.Equal(t, c.typed, v.value(c.key))
		require.Equal(t, before, v.text("location.href"))
		require.Equal(t, "8", v.text(`document.querySelectorAll("svg.card a").length`))
		v.press(kb.Escape) // takes it back
		v.until(`!document.querySelector("[aria-invalid]")`)
	}
}

// What could not be taken stays beside its field while others change, and is
// taken as soon as it can be.
func TestPageErrorsStay(t *testing.T) {
	v := visitPage(t, string(demo))
	v.fill("front.margin", "1 15/16")
	v.until(`document.getElementById("undo").textContent === "Undo margin"`)
	v.fill("front.gap", "1/2")
	v.until(`document.getElementsByName("front.gap")[0].getAttribute("aria-invalid") === "true"`)
	v.fill("title", "Another")
	v.until(`document.getElementById("undo").textContent === "Undo title of the design"`)
	require.Equal(t, "1/2", v.value("front.gap"))
	require.Equal(t, "true", v.text(`document.getElementsByName("front.gap")[0].getAttribute("aria-invalid")`))
	v.text(`document.querySelector("[value='step batch.cards 1']").click()`) // a button, too
	v.until(`document.getElementsByName("batch.cards")[0].value === "9"`)
	require.Equal(t, "1/2", v.value("front.gap"))
	v.fill("front.margin", "1/8")
	v.until(`!document.querySelector("[aria-invalid]")`)
	require.Equal(t, changedDemo(`margin = "1/16"`, `margin = "1/8"`, `gap = "1/8"`, `gap = "1/2"`, "Slipway thank-you", "Another", "cards = 8", "cards = 9"), string(v.fetch("design.toml")))
	v.fill("front.gap", "9")
	v.until(`document.querySelector("[aria-invalid]") !== null`)
	v.do(chromedp.Click(chromedp.CSS("#undo"))) // a step back forgets it
	v.until(`!document.querySelector("[aria-invalid]")`)
}

// A field that is emptied shows what then holds: the usual.
func TestPageEmptiedField(t *testing.T) {
	v := visitPage(t, string(demo))
	v.fill("front.margin", "")
	v.until(`document.getElementById("undo").textContent === "Undo margin"`)
	v.until(`document.getElementsByName("front.margin")[0].value === "1/8"`)
	v.fill("front.margin", "") // and again, when nothing changes
	v.until(`document.getElementsByName("front.margin")[0].value === "1/8"`)
	require.Equal(t, "1/8", v.text(`document.getElementsByName("front.margin")[0].placeholder`))
}

// A click on a panel opens its slip; its paper and the way of its pattern
// change there.
func TestPagePanel(t *testing.T) {
	v := visitPage(t, string(demo))
	v.text(`document.querySelector('[data-panel="B1b"] path').dispatchEvent(new MouseEvent("click", {bubbles: true, cancelable: true}))`)
	v.until(`document.activeElement.textContent === "Panel B1b"`)
	v.fill("panel.way 1 B1b", "along")
	v.until(`document.getElementById("undo").textContent === "Undo direction of B1b"`)
	require.Contains(t, string(v.fetch("design.toml")), `direction = {"B1b" = "along", rest = "upright"}`)
	v.fill("panel.paper 1 B1b", "gull")
	v.until(`document.getElementById("undo").textContent === "Undo paper of B1b"`)
	v.until(`document.getElementsByName("batch.plan")[0].value === "by hand"`)
	require.Equal(t, "true", v.text(`document.getElementsByName("batch.by_hand")[0].checkVisibility()`))
	require.Contains(t, v.value("batch.by_hand"), "gull, gull")
	v.press("\x1b")
	v.until(`document.activeElement.dataset.panel === "B1b" && !document.getElementById("panel")`)
}

// Everything by keyboard: arrow keys step by the ruler, Tab reaches every
// control, the card is one stop with arrow keys inside, and a kit is taken.
func TestPageByKeyboard(t *testing.T) {
	v := visitPage(t, string(demo))
	v.press("\t")
	require.Equal(t, "Go to the card", v.text("document.activeElement.textContent"))
	v.text(`document.getElementsByName("front.margin")[0].focus()`)
	v.press(kb.ArrowUp)
	v.until(`document.getElementsByName("front.margin")[0].value === "1/8"`)
	v.press(kb.ArrowDown)
	v.until(`document.getElementsByName("front.margin")[0].value === "1/16"`)
	v.press(kb.ArrowDown)
	v.press(kb.ArrowDown)
	v.until(`document.getElementsByName("front.margin")[0].value === "0"`)
	require.Equal(t, "front.margin", v.text("document.activeElement.name"), "the focus stays")

	v.text(`document.querySelector("svg.card a[tabindex='0']").focus()`)
	require.Equal(t, "1", v.text(`document.querySelectorAll("svg.card a[tabindex='0']").length`))
	v.press(kb.End)
	require.Equal(t, "B2b", v.text("document.activeElement.dataset.panel"))
	v.press(kb.ArrowUp)
	last := v.text("document.activeElement.dataset.panel")
	require.NotEqual(t, "B2b", last)
	v.press(kb.Enter)
	v.until(`document.activeElement.textContent === "Panel ` + last + `"`)
	v.press("\t")
	require.Equal(t, "panel.paper 1 "+last, v.text("document.activeElement.name"))

	// Tab goes through every control that shows, in the order of the page.
	v.do(chromedp.Navigate(v.address))
	v.until(`!document.querySelector("[data-trim]")`)
	want := strings.Split(v.text(`[...document.querySelectorAll("a, button, input, select, textarea, summary")].filter(e => e.tabIndex >= 0 && !(e.type === "radio" && !e.checked) && !e.disabled && e.type !== "hidden" && e.checkVisibility({contentVisibilityAuto: true}) && !e.closest("details:not([open]) > :not(summary)")).map(e => e.name || e.textContent.trim().slice(0, 20) || e.id).join("\n")`), "\n")
	var got []string
	for range want {
		v.press("\t")
		got = append(got, v.text(`(e => e.name || e.textContent.trim().slice(0, 20) || e.id)(document.activeElement)`))
	}
	require.Equal(t, want, got)
	require.Greater(t, len(got), 100)
}

// A long search is told of and can be stopped; what it found stays.
func TestPageStopsASearch(t *testing.T) {
	design := strings.Replace(string(demo), "[batch]\ncards = 8", "[sheets]\neffort = \"thorough\"\n\n[batch]\ncards = 37", 1)
	v := visitPage(t, design)
	v.until(`document.getElementById("stop") !== null`)
	v.until(`document.getElementById("search-text").textContent.includes("Best so far")`)
	start := time.Now()
	v.do(chromedp.Click(chromedp.CSS("#stop")))
	v.until(`document.getElementById("again") !== null`)
	require.Less(t, time.Since(start), 10*time.Second)
	require.Contains(t, v.text(`document.getElementById("part-sheets").textContent`), "Stopped at")
	require.NotEmpty(t, v.fetch("kit.zip"))

	v.do(chromedp.Click(chromedp.CSS("#again"))) // taking the kit ends it too
	v.until(`document.getElementById("stop") !== null`)
	v.until(`document.getElementById("search-text").textContent.includes("Best so far")`)
	v.text(`document.getElementById("zip").click()`)
	v.until(`document.getElementById("again") !== null`)
}

// axe-core of the npm registry finds no violation, WCAG 2.2 and best
// practices among its rules, light and dark, with a slip and an error shown.
func TestPageHasNoAxeViolation(t *testing.T) {
	axe, err := os.ReadFile(filepath.Join(nodeModule(t, "axe-core"), "axe.min.js"))
	require.NoError(t, err)
	v := visitPage(t, string(demo))
	for _, scheme := range []string{"light", "dark"} {
		_, err := chromedp.Call(v.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Features: []*emulation.MediaFeature{{Name: "prefers-color-scheme", Value: scheme}}})
		require.NoError(t, err)
		v.do(chromedp.Navigate(v.address))
		v.until(`!document.querySelector("[data-trim]")`)
		v.text(`document.querySelectorAll("details").forEach(d => d.open = true)`)
		v.fill("front.margin", "1/6th")
		v.until(`document.querySelector("[aria-invalid]") !== null`)
		v.text(`document.querySelector('[data-panel="B1b"] path').dispatchEvent(new MouseEvent("click", {bubbles: true, cancelable: true}))`)
		v.until(`document.getElementById("panel") !== null`)
		_, err = chromedp.Run(v.ctx, chromedp.Evaluate[bool](string(axe)+"; true"))
		require.NoError(t, err)
		told, err := chromedp.Run(v.ctx, chromedp.Evaluate[string](`axe.run({runOnly: ["wcag2a", "wcag2aa", "wcag21a", "wcag21aa", "wcag22aa", "best-practice"]}).then(r => r.passes.length + " passes\n" + r.violations.map(v => v.id + ": " + v.nodes.slice(0, 4).map(n => n.html.slice(0, 160) + " " + n.failureSummary.slice(0, 200)).join("; ")).join("\n"))`, chromedp.EvalAwaitPromise))
		require.NoError(t, err)
		passes, violations, _ := strings.Cut(told, "\n")
		require.Empty(t, violations, scheme)
		t.Log(scheme, passes)
	}
}

// How long a changed margin takes from the key to the frame that shows it, and
// the first paint: told with -v, not judged, as the machine may have other work
// (100 and 500 ms are wished for).
func TestPageSpeed(t *testing.T) {
	v := visitPage(t, string(demo))
	v.until(`!document.querySelector("[data-trim]")`)
	paint := v.text(`performance.getEntriesByName("first-contentful-paint")[0].startTime`)
	got, err := chromedp.Run(v.ctx, chromedp.Evaluate[string](`(async () => {
		const field = document.getElementsByName("front.margin")[0], times = [];
		field.focus();
		for (let i = 0; i < 60; i++) {
			const start = performance.now(), before = document.querySelector("svg.card path.pan").getAttribute("d");
			field.dispatchEvent(new KeyboardEvent("keydown", {key: i % 8 < 4 ? "ArrowUp" : "ArrowDown", bubbles: true, cancelable: true}));
			while (document.querySelector("svg.card path.pan").getAttribute("d") === before) {
				if (performance.now() - start > 3000) return "never: " + i;
				await new Promise(requestAnimationFrame);
			}
			await new Promise(requestAnimationFrame);
			times.push(performance.now() - start);
			await new Promise(done => setTimeout(done, 30));
		}
		times.sort((a, b) => a - b);
		return times[30].toFixed(0) + " " + times[57].toFixed(0);
	})()`, chromedp.EvalAwaitPromise))
	require.NoError(t, err)
	t.Logf("first paint after %s ms; a changed margin (p50, p95): %s ms", paint, got)
	v.mu.Lock()
	t.Logf("%d requests so far, %d bytes", len(v.asked), v.bytes)
	v.mu.Unlock()
	require.NotContains(t, got, "never")
}

// Without script a maker sets, sees and takes the same.
func TestPageWithoutScript(t *testing.T) {
	v := visitPage(t, string(demo))
	_, err := chromedp.Call(v.ctx, emulation.SetScriptExecutionDisabled, emulation.SetScriptExecutionDisabledParams{Value: true})
	require.NoError(t, err)
	v.do(chromedp.Navigate(v.address))
	v.do(chromedp.SetValue(chromedp.CSS(`[name="front.margin"]`), "3/32"))
	v.do(chromedp.SetValue(chromedp.CSS(`[name="batch.cards"]`), "many"))
	v.do(chromedp.Click(chromedp.CSS(`#card .no-script .btn`)))
	v.until(`document.readyState === "complete" && document.querySelector("[name='batch.cards'][aria-invalid]") !== null`)
	require.Equal(t, "3/32", v.value("front.margin"))
	v.do(chromedp.Click(chromedp.CSS(`svg.card a[data-panel="A1a"] .pan`)))
	v.until(`document.readyState === "complete" && document.getElementById("panel") !== null`)
	v.do(chromedp.SetValue(chromedp.CSS(`[name="panel.way 1 A1a"]`), "along"))
	v.do(chromedp.Click(chromedp.CSS(`#panel .btn`)))
	v.until(`document.readyState === "complete" && document.querySelector("[name='panel.way 1 A1a'] option[selected]").value === "along"`)
	v.do(chromedp.Click(chromedp.CSS(`.gal input[value="choose front.layout=chevron"]`)))
	v.do(chromedp.Click(chromedp.CSS(`#gallery .btn`)))
	v.until(`document.readyState === "complete" && document.getElementsByName("front.bands").length === 1`)
	v.do(chromedp.Click(chromedp.CSS(`[data-unit="mm"]`)))
	v.until(`document.readyState === "complete" && document.querySelector("[data-unit='mm'][aria-current]") !== null`)
	require.Equal(t, "2.381", v.value("front.margin"))

	// The browser logs the answer 422 to the form that could not be taken.
	v.mu.Lock()
	defer v.mu.Unlock()
	require.Len(t, v.trouble, 1)
	require.Contains(t, v.trouble[0], "422")
	v.trouble = nil
}

// Inches and mm change how lengths are shown and not the design; what is
// typed in mm is kept as such.
func TestPageUnits(t *testing.T) {
	v := visitPage(t, string(demo))
	v.do(chromedp.Click(chromedp.CSS(`[data-unit="mm"]`)))
	v.until(`document.getElementsByName("front.margin")[0].value === "1.588"`)
	require.Contains(t, v.text(`document.querySelector(".sums").textContent`), "107.95")
	require.Equal(t, string(demo), string(v.fetch("design.toml")))
	v.text(`document.getElementsByName("front.margin")[0].focus()`)
	v.press(kb.ArrowUp)
	v.until(`document.getElementsByName("front.margin")[0].value === "2"`)
	require.Equal(t, strings.Replace(string(demo), `margin = "1/16"`, `margin = "2 mm"`, 1), string(v.fetch("design.toml")))
	v.do(chromedp.Click(chromedp.CSS(`[data-unit="in"]`)))
	v.until(`document.getElementsByName("front.margin")[0].value === "2 mm"`)
}

// On a phone the buttons at both ends of a blank step it.
func TestPageOnAPhone(t *testing.T) {
	v := visitPage(t, string(demo))
	v.do(chromedp.EmulateViewport(390, 844, chromedp.EmulateMobile, chromedp.EmulateTouch))
	v.do(chromedp.Navigate(v.address))
	v.do(chromedp.Click(chromedp.CSS(`button[value="step front.gap 1"]`)))
	v.until(`document.getElementsByName("front.gap")[0].value === "3/16"`)
	v.do(chromedp.Click(chromedp.CSS(`button[value="step batch.cards -1"]`)))
	v.until(`document.querySelectorAll(".deck li").length === 7`)
	require.Equal(t, "", v.text(`[...document.querySelectorAll("a, button, input:not([type=hidden]), select, summary")].filter(e => {
		const b = e.getBoundingClientRect();
		return e.checkVisibility() && b.width > 0 && !e.closest(".vh, svg, p, .skip") && !e.classList.contains("vh") && !e.classList.contains("skip") && (b.width < 24 || b.height < 24);
	}).map(e => e.outerHTML.slice(0, 80)).join("\n")`), "targets of 24 px")
}

// A margin and gap on the ruler, and one that gives a panel a size, are at
// hand; each offer is one step.
func TestPageNiceAndFit(t *testing.T) {
	v := visitPage(t, string(demo))
	v.do(chromedp.Click(chromedp.CSS(`a[href*="nice=1"]`)))
	v.until(`document.querySelectorAll(".offers button").length > 1`)
	v.do(chromedp.Click(chromedp.CSS(`.offers li:nth-child(2) button`)))
	v.until(`document.getElementsByName("front.sizes")[0].value === "on the ruler"`)
	v.text(`(f => { f.focus(); f.value = "2 x 2 1/2"; f.blur(); })(document.getElementById("fit"))`)
	v.fill("batch.cards", "9") // half typed, it stays
	v.until(`document.getElementById("cardname").textContent.startsWith("Card 1 of 9")`)
	require.Equal(t, "2 x 2 1/2", v.text(`document.getElementById("fit").value`))
	v.text(`document.getElementById("fit").form.requestSubmit()`)
	v.until(`document.querySelectorAll(".offers button").length > 0`)
}

// The page prints whole: no buttons, and nothing wider than the paper.
func TestPagePrints(t *testing.T) {
	v := visitPage(t, string(demo))
	v.until(`!document.querySelector("[data-trim]")`)
	data, err := chromedp.Run(v.ctx, chromedp.PrintToPDF())
	require.NoError(t, err)
	require.Greater(t, len(data), 20_000)
	_, err = chromedp.Call(v.ctx, emulation.SetEmulatedMedia, emulation.SetEmulatedMediaParams{Media: "print"})
	require.NoError(t, err)
	v.do(chromedp.EmulateViewport(700, 1000))
	require.Equal(t, "0", v.text(`[...document.querySelectorAll("button, .strip, .slip")].filter(e => e.checkVisibility() && !e.classList.contains("vh") && e.getBoundingClientRect().width > 1).length`))
	v.shot("print")
}

// A design file is opened by its button, an SVG file of shapes becomes the
// front, and each is one step that can be undone, also after a reload.
func TestPageOpens(t *testing.T) {
	v := visitPage(t, string(demo))
	dir := t.TempDir()
	other := strings.Replace(string(demo), "Slipway", "Harbour", 1) + "# the end\n"
	require.NoError(t, os.WriteFile(filepath.Join(dir, "other.toml"), []byte(other), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "two.svg"), []byte(`<svg xmlns="http://www.w3.org/2000/svg" width="60mm" height="40mm" viewBox="0 0 60 40"><path d="M0 0H25V40H0Z"/><path d="M30 0C50 0 60 20 60 40L30 40Z"/></svg>`), 0o600))
	v.text(`document.getElementsByName("front.margin")[0].focus()`)
	v.press("x")
	v.fill("front.margin", "9")
	v.until(`document.querySelector("[aria-invalid]") !== null`)
	require.NoError(t, os.WriteFile(filepath.Join(dir, "bad.toml"), []byte("title = "), 0o600))
	v.do(chromedp.SetUploadFiles(chromedp.CSS("#open-file"), []string{filepath.Join(dir, "bad.toml")}))
	v.until(`document.getElementById("part-head").textContent.includes("bad.toml cannot be opened")`)
	require.Equal(t, "9 true", v.text(`(f => f.value + " " + f.getAttribute("aria-invalid"))(document.getElementsByName("front.margin")[0])`))
	require.Equal(t, "front.margin", v.text("document.activeElement.name"))
	v.do(chromedp.SetUploadFiles(chromedp.CSS("#open-file"), []string{filepath.Join(dir, "other.toml")}))
	v.until(`document.title === "Harbour thank-you · Panelry"`)
	require.Equal(t, "1/16 null", v.text(`(f => f.value + " " + f.getAttribute("aria-invalid"))(document.getElementsByName("front.margin")[0])`))
	require.Equal(t, other, string(v.fetch("design.toml")))
	require.Equal(t, "0", v.text(`document.getElementById("open-file").files.length`), "the same can be chosen again")
	for what, taken := range map[string]string{"text/plain": "false", "file": "true"} { // text can be dropped into a field
		require.Equal(t, taken, v.text(`(() => {
			const data = new DataTransfer();
			"`+what+`" === "file" ? data.items.add(new File(["x"], "x.toml")) : data.setData("text/plain", "1/8");
			return !document.getElementsByName("front.gap")[0].dispatchEvent(new DragEvent("dragover", {bubbles: true, cancelable: true, dataTransfer: data}));
		})()`), what)
	}
	v.do(chromedp.SetUploadFiles(chromedp.CSS("#own-file"), []string{filepath.Join(dir, "two.svg")}))
	v.until(`document.querySelectorAll("svg.card a").length === 2`)
	require.Equal(t, "Undo shapes of two.svg", v.text(`document.getElementById("undo").textContent`))
	v.do(chromedp.Reload())
	v.until(`document.readyState === "complete" && document.getElementById("undo").textContent === "Undo shapes of two.svg"`)
	v.do(chromedp.Click(chromedp.CSS("#undo")))
	v.until(`document.querySelectorAll("svg.card a").length === 8`)
	v.do(chromedp.Click(chromedp.CSS("#undo")))
	v.until(`document.title === "Slipway thank-you · Panelry"`)
	require.Equal(t, string(demo), string(v.fetch("design.toml")))
}

// A design too long for a link says so, can be changed, and saved.
func TestPageWithALongDesign(t *testing.T) {
	v := visitPage(t, string(demo))
	var long strings.Builder
	long.WriteString(string(demo))
	for i := range 6000 {
		fmt.Fprintf(&long, "# %x\n", sha256.Sum256([]byte{byte(i), byte(i >> 8)}))
	}
	file := filepath.Join(t.TempDir(), "long.toml")
	require.NoError(t, os.WriteFile(file, []byte(long.String()[:240_000]+"\n"), 0o600))
	v.do(chromedp.SetUploadFiles(chromedp.CSS("#open-file"), []string{file}))
	v.until(`document.body.textContent.includes("This design is too long for a link; save it as a file.")`)
	require.Equal(t, "/d/-/", v.text("location.pathname"))
	v.fill("front.gap", "1/4")
	v.until(`document.getElementById("undo").textContent === "Undo gap"`)
	v.do(chromedp.Click(chromedp.CSS("#undo")))
	v.until(`document.getElementsByName("front.gap")[0].value === "1/8"`)
	require.Equal(t, "1", v.text(`document.querySelectorAll("form[action='/take']").length`))
	asks := `!dispatchEvent(new Event("beforeunload", {cancelable: true}))` // the browser asks when it is prevented
	require.Equal(t, "true", v.text(asks), "a reload would lose it")
	v.text(`addEventListener("submit", e => e.preventDefault(), {once: true})`)
	v.text(`document.querySelector("form[action='/take'] [value='design.toml']").click()`)
	require.Equal(t, "false", v.text(asks), "it is saved")
	v.fill("front.gap", "1/4")
	v.until(`document.getElementById("undo").textContent === "Undo gap"`)
	require.Equal(t, "true", v.text(asks), "not as it is now")
	v.text(`HTMLFormElement.prototype.submit = function () { window.sent = new URL(this.action).pathname + " " + new FormData(this).get("~file") + " " + (new FormData(this).get("~d") === document.getElementsByName("~d")[0].value); }`)
	v.text(`document.getElementById("save").click()`)
	require.Equal(t, "/take design.toml true", v.text("window.sent"))
	require.Equal(t, "false", v.text(asks), "it is saved at the top too")
}

// html-validate of the npm registry finds nothing by the HTML standard, by
// accessibility, or in the document as a whole, with all parts shown.
func TestPageIsValidHTML(t *testing.T) {
	validator := filepath.Join(nodeModule(t, "html-validate"), "bin", "html-validate.mjs")
	node := outsideTool(t, "node", anyProgram, "node", "nodejs")
	answer, err := http.Get(servePageTest(t, demo))
	require.NoError(t, err)
	answer.Body.Close()
	for _, look := range []string{"", "?panel=B1b&trim=1&nice=1&files=1&fit=2+x+2&u=mm&card=2&sheet=5"} {
		answer, err := http.Get(answer.Request.URL.String() + look)
		require.NoError(t, err)
		text, err := io.ReadAll(answer.Body)
		answer.Body.Close()
		require.NoError(t, err)
		file := filepath.Join(t.TempDir(), "page.html")
		require.NoError(t, os.WriteFile(file, text, 0o600))
		// The page's own files need no hash of their content beside them.
		out, err := exec.Command(node, validator, "--preset", "standard,a11y,document", "--rule", "require-sri:off", file).CombinedOutput()
		require.NoError(t, err, string(out[:min(len(out), 3000)]))
	}
}
