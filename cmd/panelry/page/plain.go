package page

import "strings"

// plainWords has the words of the page for what the planning says of the
// file: values are chosen or typed here, and stand in no quotes.
var plainWords = strings.NewReplacer(
	`Write the unit, or units = "in" or "mm" at the top`, `Write the unit, or choose one at “Numbers without a unit are”`,
	`use "map", which puts them on the sheet maps`, `choose “on sheet maps”`,
	`or bleed = 0 for this paper`, `or 0 as the bleed of this paper`,
	`try plan = "whole blocks", which keeps to it`, `try the plan “whole blocks”, which keeps to it`,
	`write plan = "by hand"`, `choose “by hand, card by card”`,
	`or sizes = "exact"`, `or the sizes “exact”`,
	`use fit = "fit"`, `choose “fit”`,
	`write size = "US A2", or width and height`, `choose one, or write its width and height`,
	`write sheet = "12 x 12 in" or "ISO A4"`, `write it, like 12 x 12 in or ISO A4`,
	`write sheet = ["12 x 12 in", "6 x 6 in"]`, `write sizes, like 12 x 12 in; 6 x 6 in`,
	`write a list of papers, like ["kelp", "tide"], or a table by panel`, `write papers, like kelp, tide, or by panel, like A1a: kelp, rest: tide`,
	`write a list a card, like [["kelp", "tide"], ["tide", "kelp"]]`, `write the papers of one card a line`,
	`write one list a card`, `write one line a card`,
	`write the papers of each card in a list of its own`, `write the papers of each card on a line of its own`,
	`in the order of panelry show`, `in the order of the panels`,
	`write a layout like "diagonal halves"; panelry layouts lists them`, `choose a front`,
	`write a list of lengths, like ["1/2", "rest", "1/2"]`, `write lengths, like 1/2; rest; 1/2`,
	`one text a row, like ['\/', '/\']`, `like \/ and below it /\`,
	`an SVG file beside the design, in which closed outlines lie at true size`, `the SVG file that the design keeps, in which closed outlines lie at true size`,
	`; left out: `, `; left empty: `,
)
