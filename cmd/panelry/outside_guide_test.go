package main

// The guide against a validator, an accessibility checker, a browser and a
// CommonMark library.

import (
	"encoding/json"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"

	"github.com/chromedp/chromedp"
	"github.com/stretchr/testify/require"
	"github.com/yuin/goldmark"
	"github.com/yuin/goldmark/ast"
	"github.com/yuin/goldmark/extension"
	"github.com/yuin/goldmark/text"
)

// nodeModule returns the folder of a module of the npm registry, below the
// one that PANELRY_NODE_MODULES names; .ci/run installs them.
func nodeModule(t *testing.T, name string) string {
	t.Helper()
	folder := filepath.Join(os.Getenv("PANELRY_NODE_MODULES"), name)
	if _, err := os.Stat(folder); os.Getenv("PANELRY_NODE_MODULES") != "" && err == nil {
		return folder
	}
	if os.Getenv("PANELRY_REQUIRE_TOOLS") == "1" {
		t.Fatalf("PANELRY_NODE_MODULES has no %s, and PANELRY_REQUIRE_TOOLS is 1", name)
	}
	t.Skipf("PANELRY_NODE_MODULES has no %s, so this check against it is skipped", name)
	return ""
}

// guideDesigns are the demo, one for the trimmer, and one with a title and
// names that HTML and Markdown must escape, right to left too.
func guideDesigns(t *testing.T) map[string]string {
	t.Helper()
	trimmer := strings.Replace(outsideDesigns["halves with pairs"], `units = "in"`, "units = \"in\"\ntool = \"trimmer\"", 1)
	odd := strings.NewReplacer(`title = "Halves"`, `title = "שלום <b>*two*</b> & _three_ 🌊"`, `"first"`, `"a|b <i>"`).Replace(outsideDesigns["halves with pairs"])
	return map[string]string{"demo": "", "trimmer": trimmer, "odd": odd}
}

func writeGuide(t *testing.T, design string) string {
	t.Helper()
	dir := filepath.Join(t.TempDir(), "guide")
	args := []string{"guide", "--teacher", "-o", dir}
	if design != "" {
		args = append(args, "-")
	}
	runOK(t, design, args...)
	return dir
}

// html-validate of the npm registry finds nothing by the HTML standard, by
// accessibility, or in the document as a whole.
func TestGuideIsValidHTML(t *testing.T) {
	t.Parallel()
	validator := filepath.Join(nodeModule(t, "html-validate"), "bin", "html-validate.mjs")
	node := outsideTool(t, "node", anyProgram, "node", "nodejs")
	for name, design := range guideDesigns(t) {
		t.Run(name, func(t *testing.T) {
			out, err := exec.Command(node, validator, "--preset", "standard,a11y,document", filepath.Join(writeGuide(t, design), "guide.html")).CombinedOutput()
			require.NoError(t, err, string(out))
		})
	}
}

// printLook makes the rules for print hold on the screen too.
const printLook = `for (const sheet of document.styleSheets) for (const rule of sheet.cssRules)
	if (rule instanceof CSSMediaRule && rule.media.mediaText == "print") rule.media.mediaText = "all";`

// pageFacts are what a browser sees: requests that left the file, pictures
// that do not show, and, as printed on a page of 180 x 250 mm (96 px to the
// inch), those that would be cut off.
const pageFacts = `(() => { ` + printLook + `
	const images = [...document.images], wide = document.querySelector("main").getBoundingClientRect().width;
	return JSON.stringify({
		requests: performance.getEntriesByType("resource").map(e => e.name).filter(n => !n.startsWith("data:")),
		images: images.length,
		broken: images.filter(i => !i.complete || i.naturalWidth == 0 || !i.alt).length,
		clipped: images.filter(i => i.getBoundingClientRect().height > 250 / 25.4 * 96 || i.getBoundingClientRect().width > wide + 1
			|| getComputedStyle(i.closest("figure")).breakInside != "avoid").length,
	});
})()`

func TestGuideInABrowser(t *testing.T) {
	ctx := browser(t)
	for name, design := range guideDesigns(t) {
		t.Run(name, func(t *testing.T) {
			require.NoError(t, chromedp.Do(ctx, chromedp.EmulateViewport(680, 1000)))
			require.NoError(t, chromedp.Do(ctx, chromedp.Navigate("file://"+filepath.ToSlash(filepath.Join(writeGuide(t, design), "guide.html")))))
			told, err := chromedp.Run(ctx, chromedp.Evaluate[string](pageFacts))
			require.NoError(t, err)
			var facts struct {
				Requests                []string
				Images, Broken, Clipped int
			}
			require.NoError(t, json.Unmarshal([]byte(told), &facts))
			require.Empty(t, facts.Requests)
			require.Greater(t, facts.Images, 8)
			require.Zero(t, facts.Broken)
			require.Zero(t, facts.Clipped)
		})
	}
}

// axe-core of the npm registry finds no violation of its rules, WCAG 2.2 and
// best practices among them.
func TestGuideHasNoAxeViolation(t *testing.T) {
	axe, err := os.ReadFile(filepath.Join(nodeModule(t, "axe-core"), "axe.min.js"))
	require.NoError(t, err)
	ctx := browser(t)
	for name, design := range guideDesigns(t) {
		t.Run(name, func(t *testing.T) {
			require.NoError(t, chromedp.Do(ctx, chromedp.Navigate("file://"+filepath.ToSlash(filepath.Join(writeGuide(t, design), "guide.html")))))
			_, err := chromedp.Run(ctx, chromedp.Evaluate[bool](string(axe)+"; true"))
			require.NoError(t, err)
			told, err := chromedp.Run(ctx, chromedp.Evaluate[string](`axe.run().then(r => JSON.stringify({
				passes: r.passes.length,
				violations: r.violations.map(v => v.id + ": " + v.nodes.map(n => n.html.slice(0, 80)).join("; ")),
			}))`, chromedp.EvalAwaitPromise))
			require.NoError(t, err)
			var result struct {
				Passes     int
				Violations []string
			}
			require.NoError(t, json.Unmarshal([]byte(told), &result))
			require.Greater(t, result.Passes, 10)
			require.Empty(t, result.Violations)
		})
	}
}

// A CommonMark library reads the Markdown: every picture is there, nothing is
// taken for HTML, and the text of a title comes through as it was.
func TestGuideIsCommonMark(t *testing.T) {
	for name, design := range guideDesigns(t) {
		t.Run(name, func(t *testing.T) {
			dir := writeGuide(t, design)
			source, err := os.ReadFile(filepath.Join(dir, "guide.md"))
			require.NoError(t, err)
			tree := goldmark.New(goldmark.WithExtensions(extension.Table)).Parser().Parse(text.NewReader(source))
			pictures, tables := 0, 0
			require.NoError(t, ast.Walk(tree, func(n ast.Node, entering bool) (ast.WalkStatus, error) {
				switch n := n.(type) {
				case *ast.Image:
					if entering {
						pictures++
						require.FileExists(t, filepath.Join(dir, filepath.FromSlash(string(n.Destination))))
					}
				case *ast.RawHTML, *ast.HTMLBlock, *ast.CodeBlock, *ast.Emphasis:
					if e, strong := n.(*ast.Emphasis); !strong || e.Level != 2 { // cautions are strong
						t.Errorf("%s in the Markdown", n.Kind())
					}
				}
				if entering && n.Kind().String() == "Table" {
					tables++
				}
				return ast.WalkContinue, nil
			}))
			require.Greater(t, pictures, 8)
			require.Greater(t, tables, 4)
			if name == "odd" {
				var heading strings.Builder
				require.NoError(t, goldmark.Convert([]byte(strings.SplitN(string(source), "\n", 2)[0]), &heading))
				require.Equal(t, "<h1>שלום &lt;b&gt;*two*&lt;/b&gt; &amp; _three_ 🌊</h1>\n", heading.String())
			}
		})
	}
}
