package cut

import (
	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Cut is what is cut out of a sheet or a roll, and how.
type Cut struct {
	// Piece is the size of one piece when it is trimmed. Of names it in its place
	// where a bill cuts one of the sizes of its product; who costs the bill looks
	// it up.
	Piece quoin.Size `json:"piece,omitzero" need:"yes" or:"of"`
	Of    Part       `json:"of,omitempty"`
	// Bleed is printed beyond the trim on every side of a piece, and cut off.
	Bleed quoin.Quantity `json:"bleed,omitzero" range:"[0," dim:"length"`
	// Gutter is lost between two pieces: the space that a double cut trims away,
	// or what a saw takes.
	Gutter quoin.Quantity `json:"gutter,omitzero" range:"[0," dim:"length"`
	// Grip is what the gripper, or the clamp, needs along the lower edge.
	Grip quoin.Quantity `json:"grip,omitzero" range:"[0," dim:"length"`
	// Grain is how the fibres are to run in a piece, along its longer or its
	// shorter side; empty where that does not matter, and pieces may be turned.
	Grain Grain `json:"grain,omitempty"`
	// Layout is guillotine, also when empty, or grid.
	Layout Layout `json:"layout,omitempty"`
}

// Part is one of the sizes of a print: image, sheet, mat or frame.
type Part string

const (
	Image Part = "image" // what is printed
	Paper Part = "sheet" // the trimmed paper
	Mat   Part = "mat"   // the outside of the mat board
	Glass Part = "frame" // the glass and backing, by which frames are sold
)

// UnmarshalText reads image, sheet, mat or frame. The error is a Problem.
func (p *Part) UnmarshalText(text []byte) error {
	return form.SetWord(p, text, Image, Paper, Mat, Glass)
}

// Grain is the side along which the fibres of paper run.
type Grain string

const (
	Long  Grain = "long"  // along the longer side
	Short Grain = "short" // along the shorter side
)

// UnmarshalText reads long or short. The error is a Problem.
func (g *Grain) UnmarshalText(text []byte) error { return form.SetWord(g, text, Long, Short) }

// Layout is how pieces may lie on a sheet.
type Layout string

const (
	Guillotine Layout = "guillotine" // any layout of cuts from edge to edge, pieces turned as it suits
	Grid       Layout = "grid"       // all pieces the same way, in rows and columns
)

// UnmarshalText reads guillotine or grid. The error is a Problem.
func (l *Layout) UnmarshalText(text []byte) error { return form.SetWord(l, text, Guillotine, Grid) }

// Codes of pieces that cannot be cut as asked.
const (
	NothingFits  quoin.Code = "nothing_fits"  // not one piece out of a sheet, a roll or a stick
	UnknownGrain quoin.Code = "unknown_grain" // a grain asked of a sheet whose grain is not given
)

func fault(code quoin.Code, at, found, wanted, remedy string) error {
	return quoin.Problems{{Code: code, Severity: quoin.Fault, Path: at, Found: found, Wanted: wanted, Remedy: remedy}}
}

func noPiece() error {
	return fault(quoin.MissingField, "piece", "nothing", "the field piece", "give the size of a piece")
}

// along reports whether the fibres run along the height of a width × height
// that has this grain; a square has none to speak of, and counts as upright.
func (g Grain) along(width, height int64) bool { return (height >= width) == (g == Long) }
