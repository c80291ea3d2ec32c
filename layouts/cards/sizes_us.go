package cards

// Sources of the North American tables.
const (
	tradeChart = "trade chart"
	sizeList   = "paper-size list"
	fromMemory = "from memory"
	practice   = "common practice, no source"
)

// usCards are the flat cards for the announcement envelopes below.
var usCards = []NamedSize{
	named("US A1", ForCard, "3 1/2 x 4 7/8 in", tradeChart+"; another gives 3 1/2 x 4 3/4 in"),
	named("US A2", ForCard, "4 1/4 x 5 1/2 in", tradeChart+"; another gives 4 1/8 x 5 1/2 in"),
	named("US A4", ForCard, "4 x 6 in", fromMemory),
	named("US A6", ForCard, "4 1/2 x 6 1/4 in", tradeChart),
	named("US A7", ForCard, "5 x 7 in", tradeChart),
	named("US A8", ForCard, "5 1/4 x 7 7/8 in", tradeChart),
	named("US A9", ForCard, "5 1/2 x 8 1/2 in", fromMemory),
	named("US A10", ForCard, "5 3/4 x 9 1/4 in", tradeChart),
	named("US Slimline", ForCard, "3 1/2 x 8 1/2 in", practice+"; a trade chart has up to 3 5/8 x 8 5/8 in"),
}

// usEnvelopes are the outsides; makers may be 1/16 in off (trade chart).
var usEnvelopes = []NamedSize{
	envelope("US A1 envelope", "3 5/8 x 5 1/8 in", "3 1/2 x 4 7/8 in", tradeChart),
	envelope("US A2 envelope", "4 3/8 x 5 3/4 in", "4 1/4 x 5 1/2 in", tradeChart),
	envelope("US A4 envelope", "4 1/4 x 6 1/4 in", "4 x 6 in", fromMemory),
	envelope("US A6 envelope", "4 3/4 x 6 1/2 in", "4 1/2 x 6 1/4 in", tradeChart+" (four agree; a fifth prints 5 3/4 in)"),
	envelope("US A7 envelope", "5 1/4 x 7 1/4 in", "5 x 7 in", tradeChart),
	envelope("US A8 envelope", "5 1/2 x 8 1/8 in", "5 1/4 x 7 7/8 in", tradeChart),
	envelope("US A9 envelope", "5 3/4 x 8 3/4 in", "5 1/2 x 8 1/2 in", sizeList+"; what it holds from memory"),
	envelope("US A10 envelope", "6 x 9 1/2 in", "5 3/4 x 9 1/4 in", tradeChart),
	envelope("US Slimline envelope", "3 7/8 x 8 7/8 in", "3 1/2 x 8 1/2 in", tradeChart+"; what it holds is common practice"),
	envelope("No. 9", "3 7/8 x 8 7/8 in", "", tradeChart),
	envelope("No. 10", "4 1/8 x 9 1/2 in", "4 x 9 in", tradeChart+"; what it holds is common practice"),
	envelope("Monarch", "3 7/8 x 7 1/2 in", "", pwg5101),
}

// usSheets are the sheets of the office and the copy shop. Craft sheets are
// called by their numbers: 12 x 12 in.
var usSheets = []NamedSize{
	named("Letter", ForSheet, "8 1/2 x 11 in", sizeList),
	named("Legal", ForSheet, "8 1/2 x 14 in", fromMemory),
	named("Tabloid", ForSheet, "11 x 17 in", sizeList),
}
