package page

import (
	"bytes"
	"compress/flate"
	"encoding/base64"
	"net/http"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"

	"panelry/layouts"
)

// Any text comes back from an address as it was.
func TestAddressRoundTrip(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.SliceOfN(rapid.Byte(), 0, 5000).Draw(t, "text")
		back, err := decode(encode(text))
		require.NoError(t, err)
		require.True(t, bytes.Equal(text, back))
	})
}

func TestAddressLimits(t *testing.T) {
	largest := strings.Repeat("#", layouts.MostBytes)
	back, err := decode(encode([]byte(largest)))
	require.NoError(t, err)
	require.Equal(t, largest, string(back))
	_, err = decode(encode([]byte(largest + "#")))
	require.EqualError(t, err, "the design in this link is larger than a design file may be")

	var bomb bytes.Buffer
	w, _ := flate.NewWriter(&bomb, flate.BestCompression)
	for range 1000 {
		w.Write(make([]byte, 1<<20))
	}
	w.Close()
	require.Less(t, bomb.Len(), 2<<20)
	_, err = decode(base64.RawURLEncoding.EncodeToString(bomb.Bytes()))
	require.Error(t, err)
	for _, bad := range []string{"", "!", "AAAA", encode([]byte("title"))[:5]} {
		_, err := decode(bad)
		require.ErrorIs(t, err, errBadLink, bad)
	}
}

// Whatever stands in an address, the answer is a page or a sentence.
func TestDamagedAddresses(t *testing.T) {
	s := serve(t, demoText(t))
	for _, path := range []string{"/d/!!!/", "/d/AAAA/", "/d/-/", "/d/AAAA/kit.zip", "/d/AAAA/files/x", "/d/AAAA/search", "/d/AAAA/design.toml"} {
		status, text := s.get(t, path)
		require.Equal(t, http.StatusBadRequest, status, path)
		require.Contains(t, text, "That did not work")
	}
	status, _ := s.get(t, "/d/"+strings.Repeat("A", 1<<20)+"/")
	require.Contains(t, []int{http.StatusBadRequest, http.StatusRequestHeaderFieldsTooLarge, http.StatusRequestURITooLong}, status)
	status, text := s.get(t, "/d/"+encode([]byte("title = 3\n[card]\nsize = 'US A9'\n"))+"/")
	require.Equal(t, http.StatusOK, status)
	require.Contains(t, text, "Line 1: “title”: write a text in quotes.")
}

func FuzzAddress(f *testing.F) {
	f.Add(encode([]byte(demoText(f))))
	f.Add("-")
	f.Add(encode([]byte("[front]\nlayout='grid'")))
	f.Fuzz(func(t *testing.T, packed string) {
		text, err := decode(packed)
		if err != nil {
			require.Nil(t, text)
			return
		}
		require.LessOrEqual(t, len(text), layouts.MostBytes)
		again, err := decode(encode(text))
		require.NoError(t, err)
		require.True(t, bytes.Equal(text, again))
	})
}
