//go:build unix

package main

import (
	"crypto/sha256"
	"encoding/hex"
	"encoding/json"
	"math/rand"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// kill -9 at any moment leaves the old kit or the new one, whole.
func TestKilledRunLeavesAWholeKit(t *testing.T) {
	t.Parallel()
	binary := filepath.Join(t.TempDir(), "panelry")
	out, err := exec.Command("go", "build", "-o", binary, ".").CombinedOutput()
	require.NoError(t, err, string(out))
	parent := t.TempDir()
	design := strings.Replace(outsideDesigns["halves with pairs"], "cards = 5", "cards = 60", 1)
	file, kit := filepath.Join(parent, "card.toml"), filepath.Join(parent, "kit")
	titles := []string{"Halves", "Other"}
	write := func(title string) *exec.Cmd {
		require.NoError(t, os.WriteFile(file, []byte(strings.Replace(design, "Halves", title, 1)), 0o600))
		return exec.Command(binary, "make", file, "-o", kit)
	}
	start := time.Now()
	require.NoError(t, write(titles[0]).Run())
	took := time.Since(start)
	require.NoError(t, os.WriteFile(filepath.Join(kit, "hers.txt"), []byte("hers"), 0o600))

	random := rand.New(rand.NewSource(1))
	killed := 0
	for i := range 25 {
		cmd := write(titles[(i+1)%2])
		require.NoError(t, cmd.Start())
		time.Sleep(time.Duration(random.Int63n(int64(took))))
		cmd.Process.Kill()
		if cmd.Wait() != nil {
			killed++
		}
		wholeKit(t, kit)
	}
	t.Logf("killed %d of 25 runs", killed)
	require.Positive(t, killed, "no run was killed while it was at work")
}

// wholeKit wants every file that kit.json lists, as it lists it, and hers.
func wholeKit(t *testing.T, dir string) {
	t.Helper()
	data, err := os.ReadFile(filepath.Join(dir, "kit.json"))
	require.NoError(t, err)
	var kit struct {
		Files []struct{ Name, SHA256 string } `json:"files"`
	}
	require.NoError(t, json.Unmarshal(data, &kit))
	require.NotEmpty(t, kit.Files)
	for _, f := range kit.Files {
		data, err := os.ReadFile(filepath.Join(dir, f.Name))
		require.NoError(t, err)
		sum := sha256.Sum256(data)
		require.Equal(t, f.SHA256, hex.EncodeToString(sum[:]), f.Name)
	}
	hers, err := os.ReadFile(filepath.Join(dir, "hers.txt"))
	require.NoError(t, err)
	require.Equal(t, "hers", string(hers))
}
