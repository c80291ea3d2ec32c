package cards

// Sources of the ISO and JIS tables.
const (
	iso216  = "ISO 216, table as in public copies"
	iso269  = "ISO 269, table as in public copies"
	din678  = "DIN 678-1 (1998), as quoted by a public list"
	pwg5101 = "PWG 5101.1 media size names"

	// What goes into which C envelope.
	guideHolds  = iso269 + "; what it holds from a university's envelope guide"
	memoryHolds = iso269 + "; what it holds from memory"
)

// isoA is the A series. A card this size is a sheet of the next size up,
// folded once.
var isoA = []NamedSize{
	named("ISO A3", ForCard|ForSheet, "297 x 420 mm", iso216),
	named("ISO A4", ForCard|ForSheet, "210 x 297 mm", iso216),
	named("ISO A5", ForCard|ForSheet, "148 x 210 mm", iso216),
	named("ISO A6", ForCard|ForSheet, "105 x 148 mm", iso216),
	named("ISO A7", ForCard|ForSheet, "74 x 105 mm", iso216),
	named("ISO A8", ForCard|ForSheet, "52 x 74 mm", iso216),
}

// isoB is the B series; B4, B5 and B6 are also the outsides of envelopes.
var isoB = []NamedSize{
	named("ISO B3", ForCard|ForSheet, "353 x 500 mm", iso216),
	named("ISO B4", ForCard|ForSheet|ForEnvelope, "250 x 353 mm", iso216+"; as an envelope from a paper-size list"),
	named("ISO B5", ForCard|ForSheet|ForEnvelope, "176 x 250 mm", iso216+"; as an envelope from a paper-size list"),
	named("ISO B6", ForCard|ForSheet|ForEnvelope, "125 x 176 mm", iso216+"; as an envelope from a paper-size list"),
	named("ISO B7", ForCard|ForSheet, "88 x 125 mm", iso216),
	named("ISO B8", ForCard|ForSheet, "62 x 88 mm", iso216),
}

// isoC holds the envelopes of the C series and their two oblong fellows.
var isoC = []NamedSize{
	envelope("ISO C3", "324 x 458 mm", "297 x 420 mm", memoryHolds),
	envelope("ISO C4", "229 x 324 mm", "210 x 297 mm", guideHolds),
	envelope("ISO C5", "162 x 229 mm", "148 x 210 mm", guideHolds),
	envelope("ISO C6", "114 x 162 mm", "105 x 148 mm", guideHolds),
	envelope("ISO C7", "81 x 114 mm", "74 x 105 mm", memoryHolds),
	envelope("ISO C8", "57 x 81 mm", "52 x 74 mm", memoryHolds),
	envelope("DL", "110 x 220 mm", "99 x 210 mm", din678+"; what it holds from a university's envelope guide"),
	envelope("C6/C5", "114 x 229 mm", "", din678),
}

// jis holds the Japanese B series, which is larger than ISO B, and the
// postcard.
var jis = []NamedSize{
	named("JIS B4", ForCard|ForSheet, "257 x 364 mm", pwg5101),
	named("JIS B5", ForCard|ForSheet, "182 x 257 mm", pwg5101),
	named("JIS B6", ForCard|ForSheet, "128 x 182 mm", pwg5101),
	named("JIS B7", ForCard|ForSheet, "91 x 128 mm", pwg5101),
	named("Hagaki", ForCard, "100 x 148 mm", pwg5101+" (Japanese postcard)"),
}
