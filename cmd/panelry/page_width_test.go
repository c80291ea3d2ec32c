package main

// How wide the page is.

import (
	"fmt"
	"strconv"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"

	"panelry/layouts/fronts"
)

// tooWide names what stands out of the page at the right, or scrolls sideways
// within it.
const tooWide = `(() => {
	const wide = document.documentElement.clientWidth, out = [];
	if (document.documentElement.scrollWidth > wide) out.push("the page is " + document.documentElement.scrollWidth);
	for (const e of document.querySelectorAll("body *")) {
		if (e.closest(".vh, .skip, svg, details:not([open]) > :not(summary)") || !e.checkVisibility()) continue;
		const b = e.getBoundingClientRect();
		if (b.width > 0 && (b.right > wide + 1 || b.left < -1)) out.push(Math.round(b.left) + " to " + Math.round(b.right) + " " + e.outerHTML.slice(0, 90));
	}
	return out.slice(0, 6).join("\n");
})()`

// cutChoices names choices that are or would be cut off: those whose letters
// take more room than their field can have between its paddings.
const cutChoices = `(() => {
	const pen = document.createElement("canvas").getContext("2d"), out = new Set();
	for (const e of document.querySelectorAll("select.blank")) {
		if (!e.checkVisibility() || e.name.startsWith("papers.") && !e.name.startsWith("papers.0.")) continue;
		const now = getComputedStyle(e), wide = now.fieldSizing === "content" ? e.parentElement.clientWidth : e.clientWidth;
		const room = wide - parseFloat(now.paddingLeft) - parseFloat(now.paddingRight);
		pen.font = now.fontWeight + " " + now.fontSize + " " + now.fontFamily;
		for (const o of e.options) {
			const wants = pen.measureText(o.textContent).width;
			if (wants > room + 1) out.add(e.name + ": " + o.textContent + ", " + Math.round(wants) + " px in " + Math.round(room));
		}
	}
	return [...out].join("\n");
})()`

// crowded names places of the strip whose names come close to one another.
const crowded = `(() => {
	const box = e => { const r = document.createRange(); r.selectNodeContents(e); return r.getBoundingClientRect(); };
	const all = [...document.querySelectorAll(".strip b > span")].filter(e => getComputedStyle(e).position !== "absolute" && e.checkVisibility()), out = [];
	for (const [i, e] of all.entries()) if (i && box(e).left - box(all[i - 1]).right < 6) out.push(all[i - 1].textContent + " " + Math.round(box(e).left - box(all[i - 1]).right) + " " + e.textContent);
	return all.length < 6 ? "only " + all.length : out.join("; ");
})()`

// overlapping names lengths beside the card that lie on one another.
const overlapping = `(() => {
	const all = [...document.querySelectorAll("svg.card > g:first-of-type text")].map(e => [e.textContent, e.getBoundingClientRect()]), out = [];
	for (const [i, [a, b]] of all.entries()) for (const [c, d] of all.slice(i + 1)) {
		if (b.right > d.left + 1 && d.right > b.left + 1 && b.bottom > d.top + 3 && d.bottom > b.top + 3) out.push(a + " on " + c);
	}
	return out.join("; ");
})()`

// The letters beside a card are of one size whatever its shape, and lie apart.
func TestPageLettersOfACard(t *testing.T) {
	v := visitPage(t, string(demo))
	v.do(chromedp.EmulateViewport(1280, 900))
	height := func() float64 {
		h, err := strconv.ParseFloat(v.text(`document.querySelector("svg.card text.total").getBoundingClientRect().height`), 64)
		require.NoError(t, err)
		return h
	}
	usual := height()
	v.fill("front.slant", "")
	v.until(`document.querySelectorAll(".slants").length === 1 && document.getElementById("undo").textContent === "Undo slant"`)
	for _, size := range [][2]string{{"3", "8"}, {"8", "3"}, {"2", "6"}, {"5", "5"}, {"2", "2"}} {
		for i, key := range []string{"card.width", "card.height"} {
			v.fill(key, size[i])
			v.until(fmt.Sprintf(`document.getElementsByName(%q)[0].defaultValue === %q`, key, size[i]))
		}
		require.InDelta(t, usual, height(), 0.12*usual, "%v", size)
		require.Empty(t, v.text(overlapping), "%v", size)
		v.fill("front.columns", "3")
		v.until(`document.getElementsByName("front.columns")[0].defaultValue === "3"`)
		require.Equal(t, "12", v.text(`document.querySelectorAll("svg.card a").length`))
		require.Empty(t, v.text(overlapping), "%v in three", size)
		v.fill("front.columns", "2")
		v.until(`document.getElementsByName("front.columns")[0].defaultValue === "2"`)
	}
}

// Nothing scrolls sideways, whatever the front and the width, with all that
// folds opened; and the title is never cut.
func TestPageIsNoWiderThanItsWindow(t *testing.T) {
	v := visitPage(t, string(demo))
	at := func(what string, widths ...int64) {
		v.text(`document.querySelectorAll("details").forEach(d => d.open = true)`)
		for _, width := range widths {
			v.do(chromedp.EmulateViewport(width, 900))
			assert.Empty(t, v.text(tooWide), "%s at %d px", what, width)
			assert.Equal(t, "true", v.text(`(f => f.scrollWidth <= f.clientWidth && f.scrollHeight <= f.clientHeight + 4)(document.getElementsByName("title")[0])`), "the title is cut at %d px", width)
		}
	}
	for _, width := range []int64{320, 390, 820, 1280, 1440} {
		v.do(chromedp.EmulateViewport(width, 900))
		v.text(`document.querySelectorAll("details").forEach(d => d.open = true)`)
		assert.Empty(t, v.text(cutChoices), "at %d px", width)
		assert.Empty(t, v.text(crowded), "at %d px", width)
	}
	at("the demo", 320, 360, 390, 414, 480, 560, 640, 650, 720, 820, 840, 960, 1024, 1200, 1210, 1300, 1440)
	made := 0
	for _, l := range fronts.All() {
		v.fill("front.layout", l.Name)
		v.until(`document.getElementById("part-card").textContent !== window.before`)
		if v.text(`document.querySelector("#part-card .err") === null`) == "true" {
			at(l.Name, 320, 390, 1440)
			assert.Empty(t, v.text(overlapping), l.Name)
			made++
		}
		v.text(`window.before = document.getElementById("part-card").textContent`)
	}
	require.Greater(t, made, 25)
	v.do(chromedp.Navigate(v.address + "?u=mm"))
	at("in mm", 320, 390, 820, 1440)
}
