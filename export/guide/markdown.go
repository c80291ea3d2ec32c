package guide

import (
	"fmt"
	"strings"
	"unicode"
)

// Markdown writes a guide as CommonMark with tables (a GitHub extension that
// most readers have), and returns the pictures that go beside it.
func Markdown(d Document) (text []byte, pictures []*Figure) {
	m := &marks{}
	m.line("# " + escape(d.Title))
	m.line(escape(d.Subtitle))
	for _, c := range d.Chapters {
		m.line("## " + escape(c.Title))
		for _, p := range c.Parts {
			m.part(p)
		}
	}
	return []byte(strings.TrimRight(m.b.String(), "\n") + "\n"), m.pictures
}

type marks struct {
	b        strings.Builder
	pictures []*Figure
}

// line writes a block and the empty line behind it.
func (m *marks) line(text string) { m.b.WriteString(text + "\n\n") }

func (m *marks) part(p Part) {
	switch {
	case p.Text != "":
		m.line(escape(p.Text))
	case p.Caution != "":
		m.line("> **" + escape(p.Caution) + "**")
	case p.Heading != "":
		m.line("### " + escape(p.Heading))
	case p.List != nil:
		for _, point := range p.List {
			m.b.WriteString("- " + escape(point) + "\n")
		}
		m.b.WriteString("\n")
	case p.Steps != nil:
		for i, s := range p.Steps {
			number := fmt.Sprintf("%d. ", i+1)
			m.line(number + escape(s.Text))
			if s.Figure != nil {
				m.line(strings.Repeat(" ", len(number)) + m.figure(s.Figure))
			}
		}
	case p.Table != nil:
		m.table(*p.Table)
	case p.Figure != nil:
		m.line(m.figure(p.Figure))
	}
}

func (m *marks) figure(f *Figure) string {
	m.pictures = append(m.pictures, f)
	return fmt.Sprintf("![%s](%s)", escape(f.Alt), f.Name)
}

func (m *marks) table(t Table) {
	m.line(escape(t.Caption) + ":")
	row := func(cells []string) {
		m.b.WriteString("|")
		for _, c := range cells {
			m.b.WriteString(" " + escape(c) + " |")
		}
		m.b.WriteString("\n")
	}
	row(t.Header)
	m.b.WriteString("|" + strings.Repeat("---|", len(t.Header)) + "\n")
	for _, r := range t.Rows {
		row(r)
	}
	m.b.WriteString("\n")
}

// escape keeps a text from being taken for marks: CommonMark 0.31 §2.4 lets
// a backslash stand before any ASCII punctuation. White space becomes one
// space, so that a text stays one line.
func escape(text string) string {
	var b strings.Builder
	for _, r := range strings.Join(strings.Fields(text), " ") {
		if strings.ContainsRune("\\`*_{}[]<>#|~&", r) {
			b.WriteByte('\\')
		}
		if !unicode.IsControl(r) {
			b.WriteRune(r)
		}
	}
	out := b.String()
	if len(out) > 0 && strings.ContainsRune("-+=", rune(out[0])) {
		return "\\" + out
	}
	if digits := strings.TrimLeft(out, "0123456789"); len(digits) < len(out) && digits != "" && (digits[0] == '.' || digits[0] == ')') {
		return out[:len(out)-len(digits)] + "\\" + digits
	}
	return out
}
