// Package page is the local web page of panelry: a design is set in words,
// with the card, its sums and its sheets beside them.
//
// # How it works
//
// All that the page knows is the text of a design file. The address holds it
// (address.go), so that a bookmark is a design and the browser's own history
// takes steps back. A control on the page is named by its key of the design
// file (controls.go); what is typed into it becomes a change of that one key
// in the text (edit.go), by layouts.Rewrite, so that comments and keys that
// the page does not show stay. The text is then read and planned by the same
// calls as on the command line (work.go), and the sections of the page are
// drawn from that (page.go, card.go, sheets.go ...).
//
// Without script every change is a form that is sent and answered with a new
// address. With script (page.js) the same form is sent in the background, and
// the sections that changed come back. Changes that are made before the answer
// wait for it (queue.js), so that each is made to the newest design.
//
// Start with [New] and its [Server.Handler].
package page
