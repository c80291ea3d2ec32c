package main

import (
	"bufio"
	"context"
	"io"
	"net"
	"net/http"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

// The command prints the address of a page that answers, on this machine
// only, with the design it was given, and ends when it is told to.
func TestPageCommand(t *testing.T) {
	ctx, stop := context.WithCancel(context.Background())
	defer stop()
	out, write := io.Pipe()
	ended := make(chan int, 1)
	design := strings.Replace(string(demo), "Slipway", "Harbour", 1)
	go func() {
		ended <- run(ctx, []string{"page", "--no-open", "-"}, strings.NewReader(design), write, io.Discard)
	}()
	address, err := bufio.NewReader(out).ReadString('\n')
	require.NoError(t, err)
	go io.Copy(io.Discard, out)
	address = strings.TrimSpace(address)
	require.True(t, strings.HasPrefix(address, "http://127.0.0.1:"), address)
	answer, err := http.Get(address)
	require.NoError(t, err)
	body, err := io.ReadAll(answer.Body)
	answer.Body.Close()
	require.NoError(t, err)
	require.Equal(t, http.StatusOK, answer.StatusCode)
	require.Contains(t, string(body), "Harbour thank-you")
	stop()
	select {
	case code := <-ended:
		require.Zero(t, code)
	case <-time.After(10 * time.Second):
		t.Fatal("it goes on")
	}
}

// Shapes in a file beside the design are put into the page's design.
func TestPageWithShapesBeside(t *testing.T) {
	dir := t.TempDir()
	design := strings.NewReplacer(`layout = "diagonal halves"`, "layout = \"own shapes\"\nshapes = \"leaves.svg\"", "columns = 2\n", "", "rows = 2\n", "", `slant = `, "# ").Replace(string(demo))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "card.toml"), []byte(design), 0o600))
	require.NoError(t, os.WriteFile(filepath.Join(dir, "leaves.svg"), []byte("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"60mm\" height=\"40mm\" viewBox=\"0 0 60 40\">\r\n<path d=\"M0 0H25V40H0Z\"/><path d=\"M30 0H60V40H30Z\"/></svg>"), 0o600))
	ctx, stop := context.WithCancel(context.Background())
	out, write := io.Pipe()
	ended := make(chan int, 1)
	go func() {
		ended <- run(ctx, []string{"page", "--no-open", filepath.Join(dir, "card.toml")}, strings.NewReader(""), write, io.Discard)
		write.Close()
	}()
	address, err := bufio.NewReader(out).ReadString('\n')
	require.NoError(t, err)
	go io.Copy(io.Discard, out)
	answer, err := http.Get(strings.TrimSpace(address))
	require.NoError(t, err)
	body, err := io.ReadAll(answer.Body)
	answer.Body.Close()
	require.NoError(t, err)
	require.Equal(t, 2, strings.Count(string(body), `data-panel="`))
	require.NotContains(t, string(body), "opens no files")
	stop()
	require.Zero(t, <-ended)
}

// A port that is taken is told in a sentence.
func TestPagePortTaken(t *testing.T) {
	listener, err := net.Listen("tcp", "127.0.0.1:0")
	require.NoError(t, err)
	defer listener.Close()
	_, port, err := net.SplitHostPort(listener.Addr().String())
	require.NoError(t, err)
	var told strings.Builder
	require.Equal(t, 1, run(context.Background(), []string{"page", "--no-open", "--port", port}, strings.NewReader(""), io.Discard, &told))
	require.Contains(t, told.String(), "port "+port+" cannot be used: ")
}
