package page

import (
	"io/fs"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// No part of the style is for a class that the page never gives, and no
// variable of it goes unused.
func TestNoDeadStyle(t *testing.T) {
	style, err := files.ReadFile("style.css")
	require.NoError(t, err)
	given := map[string]bool{"hat": true, "sbg": true, "script": true} // those given by code
	attribute := regexp.MustCompile(`class(?:Name)?(?: = |=)"([^"]*)"`)
	action := regexp.MustCompile(`\{\{.*?\}\}`)
	var sources []string
	for _, f := range [][2]string{{".", "*.go"}, {"templates", "*.html"}, {".", "page.js"}} {
		names, err := fs.Glob(os.DirFS(f[0]), f[1])
		require.NoError(t, err)
		for _, name := range names {
			data, err := os.ReadFile(filepath.Join(f[0], name))
			require.NoError(t, err)
			sources = append(sources, string(data))
		}
	}
	for _, source := range sources {
		for _, found := range attribute.FindAllStringSubmatch(source, -1) {
			for _, class := range strings.Fields(action.ReplaceAllString(found[1], " ")) {
				given[class] = true
			}
		}
	}
	classes := regexp.MustCompile(`\.([a-zA-Z][\w-]*)`).FindAllStringSubmatch(selectorsOf(string(style)), -1)
	require.Greater(t, len(classes), 100)
	for _, class := range classes {
		require.True(t, given[class[1]], class[1])
	}
	for _, variable := range regexp.MustCompile(`(--[\w-]+):`).FindAllStringSubmatch(string(style), -1) {
		require.Contains(t, string(style), "var("+variable[1]+")")
	}
}

// selectorsOf leaves out of a style what stands in its rules, and comments.
func selectorsOf(style string) string {
	style = regexp.MustCompile(`(?s)/\*.*?\*/`).ReplaceAllString(style, "")
	return regexp.MustCompile(`\{[^{}]*\}`).ReplaceAllString(style, " ")
}
