package layouts_test

import (
	"context"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"

	"panelry/layouts"
)

// A search that is stopped in the middle keeps the best so far, of papers too
// whose turn had not come; one that goes on to the end is Plan.
func TestPlanWatched(t *testing.T) {
	d := mustRead(t, strings.Replace(sample, "cards = 2", "cards = 60", 1)+"")
	want, err := layouts.Plan(context.Background(), d)
	require.NoError(t, err)
	var last layouts.Progress
	got, err := layouts.PlanWatched(context.Background(), d, want, func(p layouts.Progress) {
		require.GreaterOrEqual(t, p.Done, last.Done)
		last = p
	})
	require.NoError(t, err)
	require.Equal(t, want.Sheets, got.Sheets)
	require.Equal(t, 1.0, last.Done)
	require.Equal(t, len(want.Sheets), last.Sheets)

	ctx, stop := context.WithCancel(context.Background())
	stop()
	got, err = layouts.PlanWatched(ctx, d, want, func(layouts.Progress) {})
	require.NoError(t, err)
	require.NotEmpty(t, got.Sheets)
}
