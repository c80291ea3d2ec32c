package page

import (
	"archive/zip"
	"bytes"
	"fmt"
	"net/http"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// hardText is a design that asks for a search of a minute or more.
func hardText(t require.TestingT) string {
	return strings.NewReplacer("cards = 8", "cards = 37", "[batch]", "[sheets]\neffort = \"thorough\"\n\n[batch]").Replace(demoText(t))
}

// sheetsIn counts the sheets of a zipped kit.
func sheetsIn(t require.TestingT, data string) (n int) {
	kit, err := zip.NewReader(bytes.NewReader([]byte(data)), int64(len(data)))
	require.NoError(t, err)
	for _, f := range kit.File {
		if strings.Contains(f.Name, "sheets/") {
			n++
		}
	}
	return n
}

// A kit waits for no search, whether one is under way or not, and the page
// then shows its sheets and says so.
func TestKitWaitsForNothing(t *testing.T) {
	at := place(encode([]byte(hardText(t))))
	for _, search := range []bool{false, true} {
		s := serve(t, hardText(t))
		_, text := s.get(t, at)
		require.Contains(t, text, "Nothing here waits for the longer search")
		if search {
			answer, err := s.client.Get(s.URL + at + "search")
			require.NoError(t, err)
			defer answer.Body.Close()
			line := make([]byte, 200)
			n, err := answer.Body.Read(line)
			require.NoError(t, err)
			require.Contains(t, string(line[:n]), "Best so far")
		}
		start := time.Now()
		status, data := s.get(t, at+"kit.zip")
		require.Equal(t, http.StatusOK, status)
		require.Less(t, time.Since(start), 15*time.Second)
		_, text = s.get(t, at)
		require.Contains(t, text, "have the best that the stopped search found")
		require.Contains(t, text, fmt.Sprintf("Stopped at %d sheets.", sheetsIn(t, data)))
	}
}

// Who asks to wait gets the search of the design.
func TestKitThatWaits(t *testing.T) {
	s := serve(t, demoText(t))
	at := place(encode([]byte(demoText(t))))
	status, _ := s.get(t, at+"kit.zip?wait=1")
	require.Equal(t, http.StatusOK, status)
	_, text := s.get(t, at)
	require.NotContains(t, text, "Stopped at")
	require.NotContains(t, text, "data-search")
}
