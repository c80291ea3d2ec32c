package layouts

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode"
	"unicode/utf8"

	"github.com/pelletier/go-toml/v2"
)

// file is the design file as TOML has it. Values are kept as they came, so
// that each can be judged in the maker's words; [front] takes any key,
// because each layout has options of its own.
type file struct {
	Title   any            `toml:"title"`
	Units   any            `toml:"units"`
	Ruler   any            `toml:"ruler"`
	Tool    any            `toml:"tool"`
	Card    fileCard       `toml:"card"`
	Front   map[string]any `toml:"front"`
	Batch   fileBatch      `toml:"batch"`
	Sheets  fileSheets     `toml:"sheets"`
	Trimmer fileTrimmer    `toml:"trimmer"`
	Shop    fileShop       `toml:"shop"`
	Papers  []filePaper    `toml:"papers"`
	Shapes  map[string]any `toml:"shapes"`
}

type fileCard struct {
	Size        any `toml:"size"`
	Width       any `toml:"width"`
	Height      any `toml:"height"`
	Orientation any `toml:"orientation"`
	Base        any `toml:"base"`
	Paper       any `toml:"paper"`
}

type fileBatch struct {
	Cards  any `toml:"cards"`
	Plan   any `toml:"plan"`
	Spares any `toml:"spares"`
	ByHand any `toml:"by_hand"`
}

type fileShop struct {
	Extra     any `toml:"extra"`
	Envelope  any `toml:"envelope"`
	Adhesive  any `toml:"adhesive"`
	Inset     any `toml:"inset"`
	Roll      any `toml:"roll"`
	RollPrice any `toml:"roll_price"`
	PadEvery  any `toml:"pad_every"`
	Pack      any `toml:"pack"`
	PackPrice any `toml:"pack_price"`
}

type fileSheets struct {
	Edge    any `toml:"edge"`
	Spacing any `toml:"spacing"`
	Bleed   any `toml:"bleed"`
	Labels  any `toml:"labels"`
	Effort  any `toml:"effort"`
	Seed    any `toml:"seed"`
	InHoles any `toml:"in_holes"`

	CutColour   any `toml:"cut_colour"`
	ScoreColour any `toml:"score_colour"`
	PrintColour any `toml:"print_colour"`
}

type fileTrimmer struct {
	Longest   any `toml:"longest"`
	Narrowest any `toml:"narrowest"`
	Pile      any `toml:"pile"`
	Kerf      any `toml:"kerf"`
	CleanEdge any `toml:"clean_edge"`
	Hand      any `toml:"hand"`
}

type filePaper struct {
	Name      any `toml:"name"`
	Sheet     any `toml:"sheet"`
	Measured  any `toml:"measured"`
	Have      any `toml:"have"`
	Most      any `toml:"most_panels"`
	Colour    any `toml:"colour"`
	Drawing   any `toml:"drawing"`
	Pattern   any `toml:"pattern"`
	PatternUp any `toml:"pattern_up"`
	Sides     any `toml:"sides"`
	Grain     any `toml:"grain"`
	GSM       any `toml:"gsm"`
	Weight    any `toml:"weight"`
	Caliper   any `toml:"caliper"`
	Price     any `toml:"price"`
	Edge      any `toml:"edge"`
	Spacing   any `toml:"spacing"`
	Bleed     any `toml:"bleed"`
}

// frontKeys are the keys of [front] that every layout has.
var frontKeys = []string{"layout", "margin", "gap", "papers", "direction", "sizes"}

// byteOrderMark is what some editors put before a text in UTF-8.
var byteOrderMark = []byte("\xef\xbb\xbf")

// decode reads TOML strictly. What cannot be read as TOML at all, or has a
// value where a table belongs, is one problem. Unknown keys are left to the
// caller, who finds them among the keys of the file.
func decode(data []byte) (file, *fileKeys, Problems) {
	if p, bad := notText(data); bad {
		return file{}, nil, Problems{p}
	}
	data = bytes.TrimPrefix(data, byteOrderMark)
	keys := findKeys(data)
	decoder := toml.NewDecoder(bytes.NewReader(data))
	if len(keys.unknown()) == 0 { // the decoder takes seconds over a long list of them
		decoder.DisallowUnknownFields()
	}
	var f file
	err := decoder.Decode(&f)
	var wrong *toml.DecodeError
	switch {
	case errors.As(err, &wrong):
		return file{}, nil, Problems{unreadable(wrong, data)}
	case err != nil:
		return file{}, nil, Problems{{Text: "this cannot be read as a design file"}}
	}
	return f, keys, nil
}

func notText(data []byte) (Problem, bool) {
	if len(data) > MostBytes {
		return Problem{Text: fmt.Sprintf("larger than %d bytes; is this a design file?", MostBytes)}, true
	}
	for i, at := 0, (place{1, 1}); i < len(data); {
		r, size := utf8.DecodeRune(data[i:])
		if r == utf8.RuneError && size == 1 || r == 0 {
			return Problem{Line: at.line, Column: at.column, Text: "not a text file; a design is a TOML file in UTF-8"}, true
		}
		at.column += size
		if r == '\n' {
			at = place{at.line + 1, 1}
		}
		i += size
	}
	return Problem{}, false
}

// tables are the keys that are tables, besides [[papers]].
var tables = []string{"card", "front", "batch", "sheets", "trimmer", "shop", "shapes"}

// unreadable puts the parser's complaint in other words: its own can name
// types of the program.
func unreadable(e *toml.DecodeError, data []byte) Problem {
	line, column := e.Position()
	key := oneLine(strings.Join(e.Key(), "."), mostKeyText)
	complaint := strings.TrimPrefix(e.Error(), "toml: ")
	about := func(parts ...string) bool {
		return slices.ContainsFunc(parts, func(part string) bool { return strings.Contains(complaint, part) })
	}
	switch {
	case about("already"):
		return Problem{line, column, key, "this stands in the file before; write it once", key}
	case slices.Contains(tables, key):
		return Problem{line, column, key, fmt.Sprintf("this is a table; write [%s] on a line of its own and its keys below", key), key}
	case key == "papers":
		return Problem{line, column, key, eachPaperIsATable, key}
	case about("64-bit", "strconv"):
		return Problem{line, column, key, "this is no number that can be read, or too large a one", key}
	case about("cannot decode", "cannot store", "cannot be stored"):
		return Problem{line, column, key, "something else belongs here", key}
	}
	text := "this is not TOML"
	lines := strings.Split(string(data), "\n")
	if about("escape") {
		return Problem{line, column, "", text + `; put a text with \ in single quotes, like '\/'`, ""}
	}
	if line >= 1 && line <= len(lines) {
		if advice := slipAdvice(lines[line-1]); advice != "" {
			return Problem{line, column, "", text + "; " + advice, ""}
		}
	}
	return Problem{line, column, "", text + " (" + oneLine(complaint, mostProblemText) + ")", ""}
}

// slipAdvice says what to write in place of a line that sets a key to
// something that is no TOML value, for the slips that are likely; else "".
func slipAdvice(line string) string {
	key, value, found := strings.Cut(line, "=")
	key, value = strings.TrimSpace(key), strings.TrimSpace(value)
	if !found || value == "" {
		return ""
	}
	switch first := value[0]; {
	case strings.ContainsAny(value, "“”„‘’"):
		return `use straight quotes, " or '`
	case (first == '"' || first == '\'') && strings.Count(value, value[:1])%2 == 1:
		return "the quote that ends the text is missing"
	case first >= '0' && first <= '9' && strings.ContainsAny(value, "xX×"):
		return `put sizes in quotes, like size = "4 1/4 x 5 1/2"`
	case first >= '0' && first <= '9' && strings.Contains(value, ","):
		return `write decimals with a point, or in quotes`
	case first >= '0' && first <= '9' && strings.ContainsAny(value, "/ "):
		return `put fractions in quotes, like margin = "1/16"`
	case unicode.IsLetter(rune(first)):
		return fmt.Sprintf("put texts in quotes, like %s = %q", oneLine(key, mostKeyText), "top fold")
	}
	return ""
}
