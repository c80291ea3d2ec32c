package markup

import (
	"errors"
	"fmt"
	"strings"

	"github.com/stretchr/testify/require"
)

// readAll returns every token up to and with the end of the file, or up to
// the first error.
func readAll(t *Tokens) ([]Token, error) {
	var all []Token
	for {
		token, err := t.Next()
		if err != nil {
			return all, err
		}
		all = append(all, token)
		if token.Kind == EndOfFile {
			return all, nil
		}
	}
}

// written shows tokens in one line each, with their line and column.
func written(t *Tokens, all []Token) []string {
	var out []string
	for _, token := range all {
		text := t.Places([]int{token.At})[0].String() + " "
		name := token.Name
		if token.Space != "" {
			name = "{" + token.Space + "}" + name
		}
		switch token.Kind {
		case EndOfFile:
			text += "end"
		case StartTag:
			text += "<" + name
			for _, a := range token.Attrs {
				text += fmt.Sprintf(" %s=%q", a.Name, a.Value)
			}
			text += ">"
		case EndTag:
			text += "</" + name + ">"
		case Characters:
			text += fmt.Sprintf("%q", token.Text)
		case Instruction:
			text += "<?" + name + " " + token.Text + "?>"
		}
		out = append(out, text)
	}
	return out
}

func (p Place) String() string { return fmt.Sprintf("%d:%d", p.Line, p.Column) }

// strict and open read a text to its end, and return it as written shows it,
// with the fault in the last line.
func strict(text string) []string {
	tokens, err := New([]byte(text))
	return transcript(tokens, err)
}

func open(data string) []string {
	tokens, _, err := Open([]byte(data))
	return transcript(tokens, err)
}

func transcript(tokens *Tokens, err error) []string {
	var all []Token
	var out []string
	if err == nil {
		all, err = readAll(tokens)
		out = written(tokens, all)
	}
	if err != nil {
		if _, ok := errors.AsType[*Fault](err); !ok {
			return append(out, "not a Fault: "+err.Error())
		}
		out = append(out, err.Error())
	}
	return out
}

// last is the last line of a transcript: the end, or the fault.
func last(lines []string) string { return lines[len(lines)-1] }

// checkSound holds whatever came out of a reading against what is always
// true of it: errors are Faults with a place, tags balance, places do not
// run backwards.
func checkSound(t require.TestingT, tokens *Tokens, all []Token, err error) {
	if err != nil {
		var fault *Fault
		require.ErrorAs(t, err, &fault)
		require.GreaterOrEqual(t, fault.Line, 1)
		require.GreaterOrEqual(t, fault.Column, 1)
		require.NotEmpty(t, fault.Text)
	}
	if tokens == nil {
		return
	}
	var stack []string
	at := 0
	for _, token := range all {
		require.GreaterOrEqual(t, token.At, at)
		at = token.At
		switch token.Kind {
		case StartTag:
			stack = append(stack, token.Space+" "+token.Name)
			require.LessOrEqual(t, len(stack), MostDeep)
			for _, a := range token.Attrs {
				require.Greater(t, a.At, at)
				require.Equal(t, a.Name, tokens.text[a.At:a.At+len(a.Name)])
				require.Equal(t, a.Raw, tokens.text[a.Inner:a.Inner+len(a.Raw)])
				require.Equal(t, tokens.text[a.Inner-1], tokens.text[a.Inner+len(a.Raw)], "quotation marks around the value")
			}
		case EndTag:
			require.NotEmpty(t, stack)
			require.Equal(t, stack[len(stack)-1], token.Space+" "+token.Name)
			stack = stack[:len(stack)-1]
		case Characters:
			require.NotEmpty(t, stack, "text outside the root")
			require.True(t, strings.HasPrefix(tokens.text[token.At:], token.Raw))
		}
	}
	if err == nil {
		require.Empty(t, stack)
		require.Equal(t, EndOfFile, all[len(all)-1].Kind)
	}
}
