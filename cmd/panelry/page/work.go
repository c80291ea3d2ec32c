package page

import (
	"bytes"
	"context"
	"crypto/sha256"
	"errors"
	"fmt"
	"strings"
	"sync"

	"panelry/export/svg/checker"
	"panelry/geometry"
	"panelry/layouts"
	"panelry/layouts/papers"
)

// worked is what follows from the text of a design.
type worked struct {
	text     []byte
	packed   string            // for the address
	raw      map[string]string // the values of the file
	design   layouts.Design    // as read; with quick effort, for a look
	problems layouts.Problems  // what is wrong with it
	unknown  []string          // keys that are kept, and mean nothing here
	reads    bool              // it could be read: design holds
	drawn    bool              // the card could be worked out: kit.Card holds
	planned  bool              // the sheets too
	kit      layouts.Kit
	searched bool // with the effort that the design asks for

	trimOnce sync.Once
	cuts     *trimmed
	stopped  bool // the search was stopped before its end
}

// thorough reports whether the design asks for more than a quick search.
func (w *worked) thorough() bool {
	return w.reads && w.design.Sheets.Effort != "quick"
}

// shapesKept reads only the shapes that a design keeps: a link must never
// read a file of this machine.
func shapesKept(name string, kept []byte) ([]geometry.Outline, error) {
	if kept == nil {
		return nil, fmt.Errorf("the page opens no files, and %q is not kept in the design; choose the SVG file here, and it is kept", name)
	}
	shapes, err := checker.Shapes(kept)
	if err != nil {
		return nil, fmt.Errorf("%s: %w", name, err)
	}
	return shapes, nil
}

// read reads a design as the command line does.
func read(text []byte) (layouts.Design, error) {
	return layouts.ReadIn(geometry.NoUnit, bytes.NewReader(text), shapesKept)
}

// look works a design out with a quick search, whatever effort it asks for.
func look(ctx context.Context, text []byte) (*worked, error) {
	w := &worked{text: text, packed: encode(text), raw: layouts.RawValues(text)}
	d, err := read(text)
	if err != nil {
		var clear []byte
		if clear, w.unknown = layouts.WithoutUnknown(text); len(w.unknown) > 0 {
			d, err = read(clear)
			d.Source = text
		}
	}
	if err != nil {
		w.design.Papers = papersNamed(w.raw)
		err = w.note(err)
		if err == nil && len(w.design.Papers) == 0 {
			inGreys(ctx, w)
		}
		return w, err
	}
	w.design, w.reads = d, true
	quick := d
	quick.Sheets.Effort = "quick"
	w.searched = d.Sheets.Effort == "quick"
	kit, err := layouts.Plan(ctx, quick)
	w.kit, w.drawn, w.planned = kit, len(kit.Card.Panels) > 0, err == nil
	return w, w.note(err)
}

// papersNamed lists the papers of a design that cannot be read, by their
// names alone, so that what is wrong with them can be put right on the page.
func papersNamed(raw map[string]string) []papers.Paper {
	var list []papers.Paper
	for i := range layouts.MostPapers {
		before := fmt.Sprintf("papers.%d.", i)
		there := false
		for key := range raw {
			there = there || strings.HasPrefix(key, before)
		}
		if !there {
			break
		}
		value, _ := layouts.ReadValue(raw[before+"name"])
		name, _ := value.(string)
		if name == "" {
			name = fmt.Sprintf("paper %d", i+1)
		}
		list = append(list, papers.Paper{Name: name})
	}
	return list
}

// note keeps problems; any other error is one of the work itself.
func (w *worked) note(err error) error {
	if problems := (layouts.Problems{}); errors.As(err, &problems) {
		w.problems = problems
		return nil
	}
	return err
}

// desk keeps what was worked out last, and lets only a few designs be worked
// out at once.
type desk struct {
	turns chan struct{} // for looks and files
	longs chan struct{} // for long searches, so that looks need not wait for them

	mu    sync.Mutex
	order []string // the keys, the last used at the end
	done  map[string]*worked
	bytes int
}

// Limits of the desk.
const (
	mostKept      = 256
	mostKeptBytes = 64 << 20
)

func newDesk(atOnce int) *desk {
	return &desk{turns: make(chan struct{}, atOnce), longs: make(chan struct{}, atOnce), done: map[string]*worked{}}
}

// turn waits for a turn to work something out; done gives it back.
func (d *desk) turn(ctx context.Context) (done func(), err error) { return turnOf(ctx, d.turns) }

// longTurn is a turn for what takes minutes.
func (d *desk) longTurn(ctx context.Context) (done func(), err error) { return turnOf(ctx, d.longs) }

func turnOf(ctx context.Context, turns chan struct{}) (done func(), err error) {
	select {
	case turns <- struct{}{}:
		return func() { <-turns }, nil
	case <-ctx.Done():
		return nil, ctx.Err()
	}
}

func keyOf(text []byte) string {
	sum := sha256.Sum256(text)
	return string(sum[:])
}

// work returns what follows from a design, worked out now or before.
func (d *desk) work(ctx context.Context, text []byte) (*worked, error) {
	key := keyOf(text)
	if w := d.get(key); w != nil {
		return w, nil
	}
	done, err := d.turn(ctx)
	if err != nil {
		return nil, err
	}
	defer done()
	if w := d.get(key); w != nil {
		return w, nil
	}
	w, err := look(ctx, text)
	if err != nil {
		return nil, err
	}
	d.put(w)
	return w, nil
}

func (d *desk) get(key string) *worked {
	d.mu.Lock()
	defer d.mu.Unlock()
	w := d.done[key]
	if w != nil {
		d.touch(key)
	}
	return w
}

func (d *desk) touch(key string) {
	for i, k := range d.order {
		if k == key {
			d.order = append(append(d.order[:i:i], d.order[i+1:]...), key)
			return
		}
	}
	d.order = append(d.order, key)
}

// put keeps a result, in place of an older one of the same text.
func (d *desk) put(w *worked) {
	key := keyOf(w.text)
	d.mu.Lock()
	defer d.mu.Unlock()
	if old := d.done[key]; old != nil {
		d.bytes -= old.weight()
	}
	d.done[key] = w
	d.bytes += w.weight()
	d.touch(key)
	for len(d.order) > mostKept || d.bytes > mostKeptBytes && len(d.order) > 1 {
		oldest := d.order[0]
		d.order = d.order[1:]
		d.bytes -= d.done[oldest].weight()
		delete(d.done, oldest)
	}
}

// weight is about how many bytes a result takes.
func (w *worked) weight() int {
	pieces := len(w.kit.Card.Panels) * 40
	for _, s := range w.kit.Sheets {
		pieces += len(s.Pieces)
	}
	return 10*len(w.text) + 600*pieces + 4096
}
