package main

// The terminal's voice. Results go to standard output. Everything else goes
// to standard error, a line each, behind "panelry: ": errors as they are,
// warnings behind "worth knowing: ", and after an error a hint where there
// is something to try, behind "panelry: hint: ". No capital letter at the
// start and no full stop at the end. A place in a file comes first, as
// file:line:column.

import (
	"errors"
	"fmt"
	"io"

	"panelry/layouts"
)

// Exit codes.
const (
	exitDone  = 0
	exitWrong = 1 // something in the design, the stock or a file
	exitUsage = 2 // flags or arguments
)

// usageError is a mistake in flags or arguments.
type usageError struct {
	text string
	hint string
}

func (e *usageError) Error() string { return e.text }

// hintedError is any other error with something to try.
type hintedError struct {
	error
	hint string
}

// designError is what is wrong with a design file.
type designError struct {
	name     string // of the file
	problems layouts.Problems
}

func (e *designError) Error() string { return e.name + ": " + e.problems.Error() }

// report prints an error and returns the exit code that goes with it.
func report(stderr io.Writer, err error) int {
	var usage *usageError
	var hinted *hintedError
	var design *designError
	switch {
	case err == nil:
		return exitDone
	case errors.As(err, &usage):
		fmt.Fprintf(stderr, "panelry: %s\n", usage.text)
		if usage.hint != "" {
			fmt.Fprintf(stderr, "panelry: hint: %s\n", usage.hint)
		}
		return exitUsage
	case errors.As(err, &design):
		for _, p := range design.problems {
			separator := ": "
			if p.Line > 0 {
				separator = ":"
			}
			fmt.Fprintf(stderr, "panelry: %s%s%s\n", design.name, separator, p.Error())
		}
	case errors.As(err, &hinted):
		fmt.Fprintf(stderr, "panelry: %s\npanelry: hint: %s\n", hinted.error, hinted.hint)
	default:
		fmt.Fprintf(stderr, "panelry: %v\n", err)
	}
	return exitWrong
}

// counted writes a number with its word: "1 card", "8 cards".
func counted(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return fmt.Sprintf("%d %s", n, many)
}
