package picture

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/layouts"
)

func TestLikely(t *testing.T) {
	kit := checkKit(t)
	data, err := Likely(kit, []layouts.Card{kit.Card, kit.Card, kit.Card}, "three alike")
	require.NoError(t, err)
	require.Equal(t, 3, strings.Count(string(data), `id="likely-`))
	require.Equal(t, 3*len(kit.Card.Panels), strings.Count(string(data), "data-panel="))
	require.Contains(t, string(data), "<desc>three alike</desc>")
	_, err = Likely(kit, nil, "")
	require.Error(t, err)
}
