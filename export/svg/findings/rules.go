package findings

// Clauses that several rules rest on. Clause numbers are those of the W3C
// texts that findings.go names; "measured" is what a web browser and librsvg did
// with files of our own. A clause is never what makes a file right or wrong
// here: the checks in reader and checker are.
const (
	xml10     = "XML 1.0"
	practice  = "common practice, no source"
	disagree  = "readers disagree, measured"
	cutterOwn = "common practice, no source: a cutter follows every line that it is sent"
)

func rule(group, id string, severity Severity, clause, meaning, advice string) *Rule {
	r := &Rule{ID: id, Severity: severity, Clause: clause, Group: group, Meaning: meaning, Advice: advice}
	all = append(all, r)
	return r
}

// Size: whether the sheet has a true size, and the same for every reader.
var (
	NoSize = rule("size", "no-size", Error, "SVG 2 §8.12, §7.8",
		"without a width and a height the sheet is as large as whatever shows it", `write both on the root like width="210mm" height="297mm"`)
	OneSided = rule("size", "one-sided-size", Error, "SVG 2 §8.12",
		"with one side only, some readers follow the window and some the proportions", "write both width and height in mm")
	PercentSize = rule("size", "percent-size", Error, "SVG 2 §8.12",
		"a percentage is a share of the window, not a size", "write width and height in mm")
	BadSize = rule("size", "bad-size", Error, "CSS Values 4 §6, SVG 2 §8.9",
		"a width or height that cannot be read counts as not given", "write a number with mm directly behind it")
	ZeroSize = rule("size", "zero-size", Error, "SVG 2 §8.2",
		"a sheet without width or height shows nothing", "write the sheet's true size")
	WindowUnit = rule("size", "window-unit", Error, "CSS Values 4 §5.1.2",
		"the unit follows the window that shows the file", "write mm")
	FontUnit = rule("size", "font-unit", Error, "CSS Values 4 §5.1.1",
		"the unit follows a font, or a font size that each reader may choose", "write mm")
	StyledSize = rule("size", "styled-size", Error, "SVG 2 §7.8, "+disagree,
		"web browsers let a style set the sheet's size, other readers go by the attributes", "write the size as width and height attributes and take it out of the style")
	CalculatedLength = rule("size", "calculated-length", Error, "CSS Values 4 §10, "+disagree,
		"web browsers work out calc(), other readers refuse the file", "write the result as one number")
	PixelSize = rule("size", "pixel-size", Warning, "CSS Values 4 §6.2",
		"px are 96 to the inch by the standard, and 90 or 72 in other programs", "write the size in mm or in")
	PaperScale = rule("size", "paper-scale", Error, "CSS Values 4 §6.2; ISO 216, US sheet sizes",
		"the sheet is a known paper size at 72 or 90 px to the inch where the standard has 96, so it comes out too small", "if the sheet is another one, state its size in mm")
	NoViewBox = rule("size", "no-view-box", Warning, "SVG 2 §8.6",
		"without a viewBox one user unit is 1/96 inch by the standard, and other programs take 1/90 or 1/72", "add a viewBox that gives the sheet's size in user units")
	VoidViewBox = rule("size", "void-view-box", Error, "SVG 2 §8.6, "+disagree,
		"a viewBox that is not four numbers is dropped by some readers and mended by others", `write it like viewBox="0 0 210 297"`)
	ZeroViewBox = rule("size", "zero-view-box", Error, "SVG 2 §8.6",
		"a viewBox without width or height shows nothing", "write the sheet's size in user units")
	ViewBoxCase = rule("size", "view-box-case", Error, "XML 1.0 §2.3, SVG 2 §8.6",
		"names are case-sensitive: only viewBox is read", "write viewBox")
	Aspect = rule("size", "aspect", Warning, "SVG 2 §8.7",
		"the viewBox has other proportions than the sheet, so the drawing is moved, shrunk or stretched", "give both the same proportions")
	BadAspect = rule("size", "bad-aspect-ratio", Error, "SVG 2 §8.7, "+disagree,
		"web browsers drop a preserveAspectRatio that is not right, other readers guess", "delete it")
	RootTransform = rule("size", "root-transform", Error, "SVG 2 §8.5, "+disagree,
		"web browsers transform the whole sheet, other readers do not", "put the transform on a group inside")
	RootHidden = rule("size", "root-hidden", Error, "SVG 2 §3.2, "+disagree,
		"display none on the root hides everything for some readers only", "delete it")
)

// Reading: what the file says, and whether all readers read the same.
var (
	XML = rule("reading", "xml", Error, xml10+" §2.1",
		"the file cannot be read as XML, or is too large to be read", "")
	NotSVG = rule("reading", "not-svg", Error, "SVG 2 §5.1.1",
		"the file is XML, but not an SVG drawing", `the root must be <svg xmlns="http://www.w3.org/2000/svg">`)
	TooMuch = rule("reading", "too-much", Error, practice,
		"the drawing grows beyond what can be read in reasonable time", "draw each shape once")
	Prefix = rule("reading", "undeclared-prefix", Error, "Namespaces in XML 1.0 §5",
		"web browsers stop reading at a prefix that is not declared", "declare it on the root or delete it")
	ByteOrderMark = rule("reading", "byte-order-mark", Note, xml10+" §4.3.3",
		"some machines do not take a byte order mark", "save the file as UTF-8 without one")
	Encoding = rule("reading", "encoding", Warning, xml10+" §4.3.3",
		"every reader takes UTF-8, not every one other encodings", "save the file as UTF-8")
	Packed = rule("reading", "compressed", Warning, "SVG 2 §1.5; RFC 1952",
		"machines often take only plain SVG", "unpack it")
	Doctype = rule("reading", "doctype", Note, "SVG 2 appendix on changes: SVG 2 has no DTD",
		"a DOCTYPE does nothing in a drawing", "")
	Entities = rule("reading", "entities", Error, xml10+" §4.4, "+disagree,
		"many readers drop what a file's own entities stand for", "write out what they stand for")
	Declarations = rule("reading", "declarations", Error, xml10+" §2.8, "+disagree,
		"a DOCTYPE can add attributes or text that some readers never see", "delete the DOCTYPE")
	DuplicateID = rule("reading", "duplicate-id", Error, "SVG 2 §5.11.1",
		"an id names one element; what refers to it may get another one", "give each element an id of its own")
	UnknownElement = rule("reading", "unknown-element", Note, "SVG 2 §5.1.1",
		"an element that SVG does not have is not drawn, nor what stands in it", "")
	BadLength = rule("reading", "bad-length", Error, "SVG 2 §8.9, CSS Values 4 §6",
		"a length that cannot be read counts as not given", "write a plain number")
	NegativeLength = rule("reading", "negative-length", Error, "SVG 2 §7, §10",
		"a size below zero counts as not given", "write a size above zero")
	Percent = rule("reading", "percent", Error, "SVG 2 §8.9, "+disagree,
		"a percentage needs a viewBox to refer to", "write plain numbers")
	StyledGeometry = rule("reading", "styled-geometry", Error, "SVG 2 §6.6, §7; "+disagree,
		"web browsers let a style change this shape's size or place, other readers do not", "write it as an attribute")
	StyledHiding = rule("reading", "styled-hiding", Error, "SVG 2 §6.6, "+disagree,
		"what a style hides may be drawn and cut by readers that do not follow styles", "delete what should not be drawn")
	StyleSheet = rule("reading", "style-sheet", Warning, "SVG 2 §6.2",
		"many machines ignore style sheets", "write what matters as attributes")
	StyleUnknown = rule("reading", "style-unknown", Error, "CSS Syntax 3, Selectors 4",
		"a style that is not understood here may change sizes elsewhere", "delete it")
	StyleSheetOutside = rule("reading", "style-sheet-outside", Error, "SVG 2 §6.3",
		"what stands in another file cannot be known", "delete it")
	BadTransform = rule("reading", "bad-transform", Error, "SVG 1.1 §7.6, css-transforms-1",
		"one mistake voids the whole transform, so the shape lies somewhere else", "write it like translate(10 5) rotate(30)")
	TransformSpace = rule("reading", "transform-space", Warning, "SVG 1.1 §7.6, css-transforms-1",
		"a space before the bracket is taken by some readers only", "delete the space")
	StyledTransform = rule("reading", "styled-transform", Error, "css-transforms-1 §5, "+disagree,
		"web browsers follow a transform in a style, or its origin, other readers do not", "write it as a transform attribute")
	FlatTransform = rule("reading", "flat-transform", Error, "css-transforms-1 §5",
		"a transform that flattens everything leaves nothing to draw", "correct or delete it")
	UseMissing = rule("reading", "use-missing", Error, "SVG 2 §5.5",
		"what a use refers to is not there, so nothing is drawn", "correct or delete it")
	UseCycle = rule("reading", "use-cycle", Error, "SVG 2 §5.5",
		"a use inside what it refers to draws nothing", "delete it")
	UseOutside = rule("reading", "use-outside", Error, "SVG 2 §5.5",
		"what stands in another file cannot be known", "draw it in this file")
	SymbolPoint = rule("reading", "symbol-point", Error, "SVG 2 §5.4, "+disagree,
		"refX and refY of a symbol are followed by some readers only", "move the drawing in place of them")
	Language = rule("reading", "language", Error, "SVG 2 §5.6",
		"what is drawn depends on the language of whoever opens the file", "keep one version only")
	Script = rule("reading", "script", Error, "SVG 2 §15",
		"a script can change the drawing in readers that run it", "delete it")
	Animation = rule("reading", "animation", Error, "SVG 2 §1.3; SMIL Animation",
		"an animation moves the drawing in some readers", "delete it")
	Indirect = rule("reading", "indirect", Note, practice,
		"some machines do not draw nested svg, symbol and use", "write each shape out where it lies")
	PathError = rule("reading", "path-error", Error, "SVG 2 §9.5.4",
		"a path is drawn up to its first mistake, and not at all by some readers", "correct the path data")
	PointsError = rule("reading", "points-error", Error, "SVG 2 §10.6, "+disagree,
		"readers do not agree on points that are not pairs of numbers", "correct the points")
	OneRadius = rule("reading", "one-radius", Warning, "SVG 2 §10.4, SVG 1.1 §9.4",
		"an ellipse with one radius is a circle by SVG 2 and nothing by SVG 1.1", "write both radii")
	DrawsNothing = rule("reading", "draws-nothing", Warning, "SVG 2 §9.3, §10",
		"the element draws nothing", "delete it")
	FarCoordinate = rule("reading", "far-coordinate", Error, practice+": 100 m is far beyond any sheet",
		"the shape reaches more than 100 m", "correct its coordinates")
)

// Outlines: whether each can be cut as a shape.
var (
	OpenOutline = rule("outlines", "open-outline", Warning, "SVG 2 §9.3.4",
		"an open line in a cut layer is a slit: nothing comes free", "close it with Z, or move it to a score layer")
	NearlyClosed = rule("outlines", "nearly-closed", Error, "SVG 2 §9.3.4",
		"the outline ends a little beside its start, so the piece hangs on", "end it on its start and close it with Z")
	Touching = rule("outlines", "touching-ends", Warning, "SVG 2 §9.3.4",
		"the outline returns to its start without Z: a machine may leave it open", "put Z behind it")
	SelfCrossing = rule("outlines", "self-crossing", Error, practice,
		"the outline crosses itself, so the piece falls apart", "draw it without the crossing")
	ZeroLength = rule("outlines", "zero-length", Warning, practice,
		"a segment without length: the blade may stop and dig in", "delete the repeated point")
	ShortSegment = rule("outlines", "short-segment", Warning, practice,
		"a segment under 0.01 mm: the blade stutters", "draw the edge in one piece")
	Spike = rule("outlines", "spike", Error, practice,
		"the line turns back on itself: the blade cuts the same edge twice", "delete the spike")
	HoleDirection = rule("outlines", "hole-direction", Warning, "SVG 2 §13.4.2 (fill-rule nonzero)",
		"the hole runs the same way round as the outline around it, so it is filled when painted", "reverse the hole")
)

// Cutting: whether all of it can be cut from one sheet.
var (
	OffSheet = rule("cutting", "off-sheet", Error, "SVG 2 §8.2",
		"the shape reaches beyond the sheet", "move it onto the sheet")
	InEdge = rule("cutting", "in-edge", Error, "the edge asked for",
		"the shape lies in the edge that should stay free", "move it inwards")
	WrongSheet = rule("cutting", "wrong-sheet", Error, "the sheet asked for",
		"the file is made for a sheet of another size", "use that sheet, or set the file's size")
	DoubledEdge = rule("cutting", "doubled-edge", Error, practice,
		"two lines lie on one another: the second pass tears the paper", "where a shape stands there twice, delete one; where two pieces share an edge, cut it once or move them apart")
	CrossingOutlines = rule("cutting", "crossing-outlines", Error, practice,
		"two outlines cross, so both pieces are spoilt", "move them apart")
	TooClose = rule("cutting", "too-close", Error, "the spacing asked for",
		"the pieces lie closer than the spacing", "move them apart")
	Hidden = rule("cutting", "hidden", Warning, "SVG 2 §3.2, §13.2, §13.3",
		"the shape is not to be seen, but a machine may cut it all the same", "delete it")
	Text = rule("cutting", "text", Error, "SVG 2 §11",
		"a machine cannot cut text, or cuts another font", "turn it into paths, or move it to a print layer")
	Image = rule("cutting", "image", Warning, "SVG 2 §12",
		"a picture cannot be cut", "move it to a print layer or delete it")
	ForeignObject = rule("cutting", "foreign-object", Error, "SVG 2 §12",
		"what stands in a foreign object cannot be cut, and few readers show it", "delete it")
	Clipped = rule("cutting", "clipped", Error, "CSS Masking 1",
		"a clip, a mask or a filter changes what is to be seen; a machine cuts the whole shape", "draw the shape as it should be cut")
	OutsideViewport = rule("cutting", "outside-viewport", Warning, "SVG 2 §3.4.3 (overflow)",
		"a part of the shape lies outside its nested viewport and is not shown, but a machine may cut it", "draw only what should be cut")
	Dashes = rule("cutting", "dashes", Warning, "SVG 2 §13.5.6",
		"dashes are paint: a machine cuts the whole line", "for a perforation draw each dash as a line of its own")
	DanglingEnd = rule("cutting", "dangling-end", Error, practice,
		"a line of the shared edges ends at no other line, so it cuts into a piece", "end it on another line")
	ThinFace = rule("cutting", "thin-piece", Warning, practice,
		"the shared edges close a piece less than half a millimetre wide", "move the edges apart or leave one out")
	NotCompared = rule("cutting", "not-compared", Warning, practice,
		"the drawing has more lines than can be compared with one another", "split it into several sheets")
)

// Layers: what is in which group.
var (
	LayerContents = rule("layers", "layer", Note, "SVG 2 §5.2",
		"what a group at the top of the file holds", "")
	Faces = rule("layers", "shared-edges", Note, practice,
		"how many pieces the shared edges close", "")
	Unlayered = rule("layers", "unlayered", Warning, practice,
		"shapes outside the layers cut, score and print are taken for cuts", "put each into a group with the id cut, score or print")
	EmptyLayer = rule("layers", "empty-layer", Note, practice,
		"a layer that draws nothing", "delete it")
)
