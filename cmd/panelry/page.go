package main

import (
	"context"
	"errors"
	"fmt"
	"net"
	"net/http"
	"os"
	"os/exec"
	"os/signal"
	"path/filepath"
	"runtime"
	"strconv"
	"time"

	"github.com/spf13/cobra"

	"panelry/cmd/panelry/page"
)

const pageHelp = `Page serves a page on this machine only, and opens it in the browser: every
option of a design with the card, its sums and its sheets, and the kit as a
download. The design is in the page's address, so that a bookmark is a design.
Nothing is written to disk. Ctrl-C ends it.

` + aboutDesign + `

Blades cut fingers as well as paper: mind the cutter's manual, and cut out of
children's reach.`

func newPage() *cobra.Command {
	var port int
	var noOpen bool
	cmd := &cobra.Command{
		Use:   "page " + designArgument,
		Short: "Set a design on a page of this machine, and see the card while you do",
		Long:  pageHelp,
		Example: `  panelry page                       begins with the demo
  panelry page card.toml
  panelry page --port 8080 --no-open`,
		Args:              atMostOne("design file"),
		ValidArgsFunction: completeDesign,
		RunE: func(cmd *cobra.Command, args []string) error {
			if port < 0 || port > 65535 {
				return &usageError{fmt.Sprintf("--port %d: write a number from 1 to 65535, or 0 for any that is free", port), ""}
			}
			design, err := pageDesign(cmd, args)
			if err != nil {
				return err
			}
			return servePage(cmd, design, port, !noOpen)
		},
	}
	cmd.Flags().IntVar(&port, "port", 0, "the port to serve on; 0 takes any that is free")
	cmd.Flags().BoolVar(&noOpen, "no-open", false, "print the address, and open no browser")
	return cmd
}

// pageDesign is the text that the page begins with. It is read once, so that
// what is wrong with it is told here; shapes in a file beside it are put in,
// as the page opens no files.
func pageDesign(cmd *cobra.Command, args []string) ([]byte, error) {
	var in input
	d, err := in.read(cmd, args)
	if err != nil {
		return nil, err
	}
	folder := "."
	if len(args) > 0 && args[0] != "-" {
		folder = filepath.Dir(args[0])
	}
	text, kept, err := page.KeepShapes(d, func(name string) ([]byte, error) { return os.ReadFile(filepath.Join(folder, name)) })
	for _, name := range kept {
		fmt.Fprintf(cmd.ErrOrStderr(), "panelry: %s goes into the page's design, as links open no files\n", name)
	}
	return text, err
}

// servePage serves until the context ends or an interrupt comes.
func servePage(cmd *cobra.Command, design []byte, port int, open bool) error {
	listener, err := net.Listen("tcp", net.JoinHostPort("127.0.0.1", strconv.Itoa(port)))
	if err != nil {
		return fmt.Errorf("port %d cannot be used: %w", port, errors.Unwrap(err))
	}
	ctx, stop := signal.NotifyContext(cmd.Context(), os.Interrupt)
	defer stop()
	address := "http://" + listener.Addr().String() + "/"
	fmt.Fprintf(cmd.OutOrStdout(), "%s\nCtrl-C ends it.\n", address)
	if open {
		openBrowser(address)
	}
	server := page.New(design, runtime.GOMAXPROCS(0)).HTTP()
	server.BaseContext = func(net.Listener) context.Context { return ctx }
	go func() {
		<-ctx.Done()
		late, stop := context.WithTimeout(context.Background(), 2*time.Second)
		defer stop()
		if server.Shutdown(late) != nil {
			server.Close()
		}
	}()
	if err := server.Serve(listener); !errors.Is(err, http.ErrServerClosed) {
		return err
	}
	return nil
}

// openBrowser opens an address in the reader's browser, if there is a way to.
func openBrowser(address string) {
	var cmd *exec.Cmd
	switch runtime.GOOS {
	case "darwin":
		cmd = exec.Command("open", address)
	case "windows":
		cmd = exec.Command("rundll32", "url.dll,FileProtocolHandler", address)
	default:
		cmd = exec.Command("xdg-open", address)
	}
	if cmd.Start() == nil {
		go cmd.Wait()
	}
}
