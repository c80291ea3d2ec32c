package main

// What the reader makes of files against what a web browser makes of them.

import (
	"context"
	"encoding/json"
	"fmt"
	"math"
	"math/rand"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"

	"panelry/export/svg/checker"
)

// chromium is one browser for all tests, started by the first that wants one.
var chromium struct {
	start sync.Once
	ctx   context.Context
	err   error
	stop  func()
}

// endChromium ends it, if it was started.
func endChromium() {
	if chromium.stop != nil {
		chromium.stop()
	}
}

// browser opens a window of its own in Chromium, with storage of its own, that
// lives as long as the test. The first action must run without a deadline, or
// the browser dies with it.
func browser(t *testing.T) context.Context {
	t.Helper()
	program := outsideTool(t, "chromium", func(string) bool { return true }, "chromium", "chromium-browser", "google-chrome")
	chromium.start.Do(func() {
		var home string
		if home, chromium.err = os.MkdirTemp("", "panelry-test-"); chromium.err != nil {
			return
		}
		options := append(chromedp.DefaultExecAllocatorOptions[:], chromedp.ExecPath(program), chromedp.NoSandbox, chromedp.DisableGPU,
			chromedp.Flag("disable-quic", true), chromedp.UserDataDir(home))
		allocator, stopAll := chromedp.NewExecAllocator(context.Background(), options...)
		ctx, stop := chromedp.NewContext(allocator)
		chromium.ctx, chromium.stop = ctx, func() { stop(); stopAll(); os.RemoveAll(home) }
		chromium.err = chromedp.Do(ctx, chromedp.Navigate("about:blank"))
	})
	require.NoError(t, chromium.err)
	ctx, stop := chromedp.NewContext(chromium.ctx, chromedp.WithNewBrowserContext())
	t.Cleanup(stop)
	require.NoError(t, chromedp.Do(ctx, chromedp.Navigate("about:blank")))
	return ctx
}

// measureShapes returns, for the root and then each drawn shape, the box in
// mm: getBBox, whose four corners getScreenCTM takes to the screen, at 96 px
// to the inch (SVG 2 §4.5.1, §8.11; CSS Values 4 §6.2). It only holds for
// boxes that are not turned, or shapes that fill the corners of theirs.
const measureShapes = `(() => {
	const mm = 25.4 / 96, out = [];
	const root = document.documentElement.getBoundingClientRect();
	out.push(["svg", 0, 0, root.width * mm, root.height * mm]);
	for (const e of document.querySelectorAll("path, rect, circle, ellipse, line, polyline, polygon")) {
		const b = e.getBBox(), m = e.getScreenCTM();
		const x = [], y = [];
		for (const [px, py] of [[b.x, b.y], [b.x + b.width, b.y], [b.x, b.y + b.height], [b.x + b.width, b.y + b.height]]) {
			x.push(m.a * px + m.c * py + m.e);
			y.push(m.b * px + m.d * py + m.f);
		}
		const left = Math.min(...x), top = Math.min(...y);
		out.push([e.localName, left * mm, top * mm, (Math.max(...x) - left) * mm, (Math.max(...y) - top) * mm]);
	}
	return JSON.stringify(out);
})()`

type measured struct {
	tag string
	box []float64
}

func measure(t *testing.T, ctx context.Context, path string) []measured {
	t.Helper()
	ctx, stop := context.WithTimeout(ctx, time.Minute)
	defer stop()
	whole, err := filepath.Abs(path)
	require.NoError(t, err)
	require.NoError(t, chromedp.Do(ctx, chromedp.Navigate("file://"+filepath.ToSlash(whole))))
	text, err := chromedp.Run(ctx, chromedp.Evaluate[string](measureShapes))
	require.NoError(t, err)
	var rows [][]any
	require.NoError(t, json.Unmarshal([]byte(text), &rows))
	var list []measured
	for _, r := range rows {
		m := measured{tag: r[0].(string)}
		for _, v := range r[1:] {
			m.box = append(m.box, v.(float64))
		}
		list = append(list, m)
	}
	return list
}

// compareShapes holds the reader's boxes against the browser's. The browser
// counts in single precision and snaps the root to 1/64 px; its arcs are
// cubics, up to 3.6e-4 of the radius short, and a radius can be several times
// as long as the box that the arc fills; straight shapes get no such slack.
func compareShapes(t *testing.T, ctx context.Context, path string, arcs float64) int {
	t.Helper()
	data, err := os.ReadFile(path)
	require.NoError(t, err)
	r := checker.Check(data, checker.Demands{})
	shapes := measure(t, ctx, path)
	require.InDelta(t, r.W, shapes[0].box[2], 0.01)
	require.InDelta(t, r.H, shapes[0].box[3], 0.01)
	shapes = shapes[1:]
	require.Len(t, r.Elements, len(shapes), path)
	for i, e := range r.Elements {
		want := shapes[i]
		require.Equal(t, want.tag, e.Tag)
		got := []float64{e.Bounds.Min.X, e.Bounds.Min.Y, e.Bounds.W(), e.Bounds.H()}
		tolerance := 0.02 + arcs*math.Max(want.box[2], want.box[3])
		require.InDeltaSlice(t, want.box, got, tolerance, "%s: %v, not %v", e.Label(), got, want.box)
	}
	return len(shapes)
}

// Chromium on every sheet that the check designs and the demo make.
func TestSheetsAgainstBrowser(t *testing.T) {
	ctx := browser(t)
	sheets, shapes := 0, 0
	for _, kit := range writtenKits(t) {
		files, err := filepath.Glob(filepath.Join(kit, "sheets", "*.svg"))
		require.NoError(t, err)
		for _, f := range files {
			shapes += compareShapes(t, ctx, f, 0)
			sheets++
		}
	}
	require.Greater(t, sheets, 10)
	t.Logf("%d sheets with %d shapes", sheets, shapes)
}

// Chromium on path data that a seeded generator makes up, with all commands,
// numbers packed in every way and nested viewports and groups around.
func TestRandomPathsAgainstBrowser(t *testing.T) {
	ctx := browser(t)
	for seed := range int64(6) {
		path := filepath.Join(t.TempDir(), "paths.svg")
		require.NoError(t, os.WriteFile(path, []byte(randomPaths(rand.New(rand.NewSource(seed)), 300)), 0o600))
		require.Equal(t, 300, compareShapes(t, ctx, path, 1e-3))
	}
}

// randomPaths writes a drawing of n paths.
func randomPaths(random *rand.Rand, n int) string {
	var b strings.Builder
	b.WriteString(`<svg xmlns="http://www.w3.org/2000/svg" width="4in" height="80mm" viewBox="-5 10 300 150" preserveAspectRatio="xMaxYMin slice">`)
	groups := []string{
		`<g transform="translate(3 -4) scale(.7,1.3)">%s</g>`,
		`<svg x="10%%" y="5mm" width="50%%" height="60" viewBox="0 0 120 80" preserveAspectRatio="xMinYMid">%s</svg>`,
		`<g transform="matrix(0 1 -1 0 40 20)scale(-1 1)">%s</g>`,
		`<a><g>%s</g></a>`,
	}
	for i := range n {
		path := fmt.Sprintf(`<path id="p%d" d="%s"/>`, i, randomPath(random))
		fmt.Fprintf(&b, groups[i%len(groups)], path)
	}
	b.WriteString("</svg>")
	return b.String()
}

func randomPath(random *rand.Rand) string {
	number := func() string {
		f := 100*random.Float64() - 20
		return [...]string{
			fmt.Sprintf("%.0f", f), fmt.Sprintf("%.3f", f), fmt.Sprintf("%.2e", f), fmt.Sprintf("%+.1f", f),
			strings.Replace(fmt.Sprintf("%.4f", math.Mod(f, 1)), "0.", ".", 1),
		}[random.Intn(5)]
	}
	var b strings.Builder
	pair := func(more string) {
		b.WriteString(more + number() + [...]string{" ", ",", " , ", "\n"}[random.Intn(4)] + number() + " ")
	}
	pair("M")
	for range 1 + random.Intn(6) {
		command := string("LlHhVvCcSsQqTtAaZ"[random.Intn(17)])
		switch strings.ToLower(command) {
		case "z":
			b.WriteString("Z L" + number() + " " + number())
		case "h", "v":
			b.WriteString(command + number())
		case "a":
			fmt.Fprintf(&b, "%s%.1f %.1f %s %d%d", command, 1+30*random.Float64(), 1+30*random.Float64(), number(), random.Intn(2), random.Intn(2))
			pair("")
		default:
			b.WriteString(command)
			pairs := map[string]int{"l": 1, "t": 1, "s": 2, "q": 2, "c": 3}[strings.ToLower(command)]
			for range pairs * (1 + random.Intn(2)) {
				pair("")
			}
		}
	}
	return b.String()
}
