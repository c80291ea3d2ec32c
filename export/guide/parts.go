package guide

// A Chapter is one headed part of a guide.
type Chapter struct {
	Title string
	Parts []Part
}

// A Part is one block of a chapter: exactly one of its fields is set.
type Part struct {
	Text    string
	Caution string
	Heading string
	List    []string // points
	Steps   []Step   // numbered
	Table   *Table
	Figure  *Figure
}

// A Step is a numbered step with its picture, or without one.
type Step struct {
	Text   string
	Figure *Figure
}

// A Table has a header, and rows that begin with what they are about.
type Table struct {
	Caption string
	Header  []string
	Rows    [][]string
}

// A Figure is an SVG picture.
type Figure struct {
	Name  string // of its file beside the Markdown: "guide/step-01.svg"
	Alt   string
	SVG   []byte
	Small bool
}

// A Document is a whole guide.
type Document struct {
	Title    string
	Subtitle string
	Chapters []Chapter
}
