// Package markup reads a file as XML 1.0 and keeps the place of everything
// in it, so that a finding can say its line and column.
//
// It knows nothing of SVG. [New] takes what a careful program writes and
// refuses the rest; [Open] takes what can be found in the wild (other
// encodings, a byte order mark, compressed files, entities) within limits
// that no file can get past, and lists what it met.
package markup
