package main

// Where the focus is after what had it has gone.

import (
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"
)

// focus is what has the focus, in words.
func (v *visit) focus() string {
	v.t.Helper()
	return v.text(`(e => e.name && e.name !== "~do" ? e.name : e.textContent.trim().slice(0, 40))(document.activeElement)`)
}

// The gallery is one stop, and its arrow keys choose, however quick.
func TestPageGallery(t *testing.T) {
	v := visitPage(t, string(demo))
	v.text(`document.querySelector("#gallery input:checked").focus()`)
	now := v.text(`document.activeElement.value`)
	require.Equal(t, "choose front.layout=diagonal halves", now)
	for range 3 {
		v.press(kb.ArrowRight)
	}
	last := v.text(`document.activeElement.value.slice("choose front.layout=".length)`)
	require.NotEqual(t, "diagonal halves", last)
	v.until(`document.getElementsByName("front.layout")[0].value === "` + last + `"`)
	require.Equal(t, last, v.text(`document.querySelector("#gallery input:checked").closest("label").textContent`))
	require.Equal(t, "1", v.text(`document.querySelectorAll("#gallery input:checked").length`))
	require.Equal(t, "choose front.layout="+last, v.text("document.activeElement.value"))
	v.press("\t")
	require.Contains(t, v.focus(), "Show the other")
	v.text(`document.getElementById("more-fronts").open = true`)
	v.text(`document.querySelector("#gallery [value$='pinwheel']").closest("label").click()`)
	v.until(`document.getElementsByName("front.layout")[0].value === "pinwheel"`)
	v.do(chromedp.Click(chromedp.CSS("#undo")))
	v.until(`document.getElementsByName("front.layout")[0].value !== "pinwheel"`)
	require.Equal(t, v.value("front.layout"), v.text(`document.querySelector("#gallery input:checked").closest("label").textContent`))
}

// A button that goes away, or that makes something, gives the focus on.
func TestPageKeepsTheFocus(t *testing.T) {
	v := visitPage(t, changedDemo("[batch]\ncards = 8", "[sheets]\neffort = \"thorough\"\n\n[batch]\ncards = 37"))
	v.until(`document.getElementById("stop") !== null && document.getElementById("search-text").textContent.includes("Best so far")`)
	v.text(`document.getElementById("stop").focus()`)
	v.press(kb.Enter)
	v.until(`document.getElementById("again") !== null`)
	require.Equal(t, "Search on", v.focus())
	v.press(kb.Enter)
	v.until(`document.getElementById("stop") !== null`)
	require.Contains(t, v.focus(), "Stop and keep")

	v.fill("sheets.effort", "quick")
	v.until(`document.getElementById("undo").textContent === "Undo how long to search"`)
	v.text(`document.querySelector("[value='paper.add']").focus()`)
	v.press(kb.Enter)
	v.until(`document.getElementById("undo").textContent === "Undo a new paper"`)
	v.until(`document.getElementsByName("papers.9.name").length === 1`)
	require.Equal(t, "papers.9.name", v.focus())
	v.text(`document.getElementById("more-9").open = true`)
	v.text(`document.querySelector("[value='paper.up 9']").focus()`)
	v.press(kb.Enter)
	v.until(`document.getElementsByName("papers.8.name")[0].value === "paper 10"`)
	require.Equal(t, "paper.up 8", v.text(`document.activeElement.value`))
	v.text(`document.querySelector("[value='paper.drop 8']").focus()`)
	v.press(kb.Enter)
	v.until(`document.getElementById("undo").textContent === "Undo taking out paper 10"`)
	v.until(`document.getElementsByName("papers.9.name").length === 0`)
	require.Equal(t, "Colour, sheet, weight and price of samph", v.focus())
	require.NotEqual(t, "BODY", v.text("document.activeElement.nodeName"))

	v.text(`document.getElementById("more-2").open = true`)
	v.text(`document.querySelector("[value='paper.drop 2']").focus()`)
	v.fill("batch.plan", "by hand")
	v.until(`document.getElementById("undo").textContent === "Undo plan of the papers"`)
	v.text(`document.querySelector("[value='paper.drop 2']").focus()`)
	v.press(kb.Enter) // tide, which the plan names
	v.until(`document.getElementById("part-batch").textContent.includes("The plan by hand has tide")`)
	require.Equal(t, "paper.drop 2", v.text(`document.activeElement.value`))
	require.Equal(t, "true", v.text(`document.getElementById("more-2").open`))

	v.text(`document.querySelector('a[href*="nice=1"]').focus()`)
	v.press(kb.Enter)
	v.until(`document.querySelectorAll(".offers button").length > 1`)
	require.Equal(t, "true", v.text(`document.activeElement === document.querySelector(".offers button")`))
	v.press(kb.Enter)
	v.until(`document.querySelectorAll(".offers button").length === 0`)
	require.Contains(t, v.focus(), "Find a margin and gap")
	require.Regexp(t, "^Undo .*(gap|margin|sizes)", v.text(`document.getElementById("undo").textContent`))
}
