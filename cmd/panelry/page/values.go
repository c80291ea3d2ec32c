package page

import (
	"maps"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"panelry/layouts"
)

// tomlOf writes what was typed as the value of a design file; "" takes the
// key out. old is the value that stands there now, so that a number stays a
// number.
func (c control) tomlOf(typed, old string) string {
	typed = strings.TrimSpace(typed)
	if typed == "" {
		return ""
	}
	if c.Kind != asText && c.Kind != asColour && strings.ContainsAny(typed[:1], "[{") {
		return typed // as the file has it
	}
	switch c.Kind {
	case asYes:
		if typed == "true" || typed == "false" {
			return typed
		}
	case asCount:
		if wholeNumber.MatchString(typed) {
			return typed
		}
	case asNumber, asPercent, asLength:
		if plainNumber.MatchString(typed) && (c.Kind != asLength || old != "" && !strings.ContainsAny(old[:1], `"'`)) {
			return typed
		}
	case asTools, asSizes, asNumbers, asLengths, asRows:
		return c.listOf(typed)
	case asPapers, asWays:
		return namesOrTable(typed, c.Kind == asWays)
	case asDeal:
		var rows []string
		for _, line := range strings.Split(typed, "\n") {
			if line = strings.TrimSpace(line); line != "" {
				rows = append(rows, namesOrTable(line, false))
			}
		}
		return "[\n  " + strings.Join(rows, ",\n  ") + "]"
	}
	return layouts.QuoteText(typed)
}

var (
	wholeNumber = regexp.MustCompile(`^(0|[1-9][0-9]{0,17})$`)
	plainNumber = regexp.MustCompile(`^(0|[1-9][0-9]{0,14})(\.[0-9]{1,9})?$`)
)

// listOf writes a list; one item alone stands without brackets, except where
// the file wants a list always.
func (c control) listOf(typed string) string {
	between := ";"
	switch c.Kind {
	case asTools:
		between = ","
	case asRows:
		between = "\n"
	}
	var items []string
	for _, item := range strings.Split(typed, between) {
		if item = strings.TrimSpace(item); item == "" {
			continue
		}
		if c.Kind == asNumbers && plainNumber.MatchString(item) {
			items = append(items, item)
		} else {
			items = append(items, layouts.QuoteText(item))
		}
	}
	if always := c.Kind == asRows || c.Kind == asLengths; len(items) == 1 && !always {
		return items[0]
	}
	return "[" + strings.Join(items, ", ") + "]"
}

// namesOrTable writes "kelp, tide" as a list and "A1a: kelp, rest: tide" as a
// table. Of directions a single one stands alone. A name in quotes may hold
// commas and colons.
func namesOrTable(typed string, single bool) string {
	var items []string
	table := len(outside(typed, ":")) > 1
	for _, item := range outside(typed, ",\n") {
		pair := outside(item, ":")
		switch item = strings.TrimSpace(item); {
		case item == "":
		case table && len(pair) > 1:
			items = append(items, quotedName(pair[0])+" = "+quotedName(strings.Join(pair[1:], ":")))
		default:
			items = append(items, quotedName(item))
		}
	}
	switch {
	case table:
		return "{" + strings.Join(items, ", ") + "}"
	case single && len(items) == 1:
		return items[0]
	}
	return "[" + strings.Join(items, ", ") + "]"
}

// nameInQuotes finds what is typed in quotes where a name begins.
var nameInQuotes = regexp.MustCompile(`(?:^|[,:\n])[ \t]*("(?:[^"\\\n]|\\.)*")`)

// outside cuts a text at some letters that stand outside of quotes.
func outside(text, letters string) (parts []string) {
	from := 0
	quotes := nameInQuotes.FindAllStringSubmatchIndex(text, -1)
	for at, r := range text {
		in := slices.ContainsFunc(quotes, func(q []int) bool { return q[2] <= at && at < q[3] })
		if !in && strings.ContainsRune(letters, r) {
			parts = append(parts, text[from:at])
			from = at + 1
		}
	}
	return append(parts, text[from:])
}

// quotedName quotes a name for the file, that was typed with quotes or without.
func quotedName(typed string) string {
	typed = strings.TrimSpace(typed)
	if nameInQuotes.FindString(typed) == typed {
		if value, ok := layouts.ReadValue(typed); ok {
			typed, _ = value.(string)
		}
	}
	return layouts.QuoteText(typed)
}

// nameInList writes a name as quotedName reads it, in quotes where it needs
// them.
func nameInList(name string) string {
	if name == "" || strings.TrimSpace(name) != name || strings.ContainsAny(name, ",:\"\r\n") || strings.ContainsAny(name[:1], "[{") {
		return `"` + inQuotes.Replace(name) + `"`
	}
	return name
}

var inQuotes = strings.NewReplacer(`\`, `\\`, `"`, `\"`, "\n", `\n`, "\r", `\r`)

// typedOf is tomlOf backwards: how a value of the file stands in its field.
// What no field can show stands there as the file has it.
func (c control) typedOf(value string) string {
	read, ok := layouts.ReadValue(value)
	if !ok {
		return value
	}
	text, ok := c.textOf(read)
	if !ok || strings.ContainsAny(text, "\r") || !c.Wide && strings.Contains(text, "\n") {
		return value
	}
	return text
}

func (c control) textOf(value any) (string, bool) {
	switch v := value.(type) {
	case string:
		return v, true
	case bool:
		return strconv.FormatBool(v), true
	case int64:
		return strconv.FormatInt(v, 10), true
	case float64:
		return strconv.FormatFloat(v, 'f', -1, 64), true
	case []any:
		if c.Kind == asPapers {
			return namesText(v)
		}
		between := map[kind]string{asTools: ", ", asRows: "\n", asDeal: "\n"}[c.Kind]
		if between == "" {
			between = "; "
		}
		var items []string
		for _, item := range v {
			inner := c
			inner.Kind = asPapers
			if c.Kind != asDeal {
				inner.Kind = asText
			}
			text, ok := inner.textOf(item)
			if !ok || inner.Kind == asText && strings.ContainsAny(text, strings.TrimSpace(between)+":\n") {
				return "", false
			}
			items = append(items, text)
		}
		return strings.Join(items, between), c.Kind != asText
	case map[string]any:
		if c.Kind != asPapers && c.Kind != asWays {
			return "", false
		}
		var items []string
		for _, key := range slices.Sorted(maps.Keys(v)) {
			text, ok := v[key].(string)
			if !ok {
				return "", false
			}
			items = append(items, nameInList(key)+": "+nameInList(text))
		}
		return strings.Join(items, ", "), true
	}
	return "", false
}

// namesText writes a list of names as namesOrTable reads it.
func namesText(list []any) (string, bool) {
	var items []string
	for _, item := range list {
		name, ok := item.(string)
		if !ok {
			return "", false
		}
		items = append(items, nameInList(name))
	}
	return strings.Join(items, ", "), true
}
