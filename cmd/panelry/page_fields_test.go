package main

// What stands in a field after it is left, stepped, refused or passed over.

import (
	"fmt"
	"testing"

	"github.com/chromedp/chromedp/kb"
	"github.com/stretchr/testify/require"
)

// write types into a field of a key, in place of what stands there, and leaves
// it by Tab.
func (v *visit) write(key, text string) {
	v.t.Helper()
	v.text(fmt.Sprintf(`(f => {
		for (let d = f.closest("details"); d; d = d.parentElement.closest("details")) d.open = true;
		f.focus();
		f.select();
		document.execCommand("insertText", false, %q);
	})(document.getElementsByName(%q)[0])`, text, key))
	v.press("\t")
}

// A box of several lines shows, once it is left, what was typed: what is in
// force, or beside its error what is not.
func TestPageTextAreas(t *testing.T) {
	v := visitPage(t, string(demo))
	v.write("title", "Harbour thanks")
	v.until(`document.title === "Harbour thanks · Panelry"`)
	v.until(`document.getElementsByName("title")[0].defaultValue === "Harbour thanks"`)
	require.Equal(t, "Harbour thanks", v.value("title"))

	v.write("front.slant", "//\n//")
	v.until(`document.getElementById("undo").textContent === "Undo slant"`)
	require.Equal(t, "//\n//", v.value("front.slant"))

	v.write("front.papers", "kelp, nosuch")
	v.until(`document.getElementsByName("front.papers")[0].getAttribute("aria-invalid") === "true"`)
	require.Equal(t, "kelp, nosuch", v.value("front.papers"))
	v.write("title", "Another") // and while another changes
	v.until(`document.title === "Another · Panelry"`)
	require.Equal(t, "kelp, nosuch", v.value("front.papers"))
	v.write("front.papers", "gull, tide")
	v.until(`!document.querySelector("[aria-invalid]")`)
	require.Equal(t, "gull, tide", v.value("front.papers"))
	require.Equal(t, "Another", v.value("title"))
}

// Arrow keys, however quick, leave the field and the design at one: also from
// a value that cannot be taken.
func TestPageStepsFromWhatIsRefused(t *testing.T) {
	v := visitPage(t, string(demo))
	v.write("front.margin", "3")
	v.until(`document.getElementsByName("front.margin")[0].getAttribute("aria-invalid") === "true"`)
	v.text(`document.getElementsByName("front.margin")[0].focus()`)
	for range 20 {
		v.press(kb.ArrowDown)
	}
	v.until(`document.getElementsByName("front.margin")[0].value === "1 3/4" && !document.querySelector("[aria-invalid]")`)
	require.Equal(t, changedDemo(`margin = "1/16"`, `margin = "1 3/4"`), string(v.fetch("design.toml")))
	for range 6 {
		v.press(kb.ArrowUp)
	}
	v.until(`document.getElementsByName("front.margin")[0].value === "1 15/16" && !document.querySelector("[aria-invalid]")`)
	require.Equal(t, changedDemo(`margin = "1/16"`, `margin = "1 15/16"`), string(v.fetch("design.toml")))
}
