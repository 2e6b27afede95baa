package cost

import (
	"example.com/quoin"
	"example.com/quoin/cost/cut"
)

// Sizes are those of a print that its bill may speak of.
type Sizes struct{ Image, Sheet, Mat, Frame quoin.Size }

// of returns one of the sizes; zero where it is not known.
func (s Sizes) of(part cut.Part) quoin.Size {
	switch part {
	case cut.Image:
		return s.Image
	case cut.Paper:
		return s.Sheet
	case cut.Mat:
		return s.Mat
	case cut.Glass:
		return s.Frame
	}
	return quoin.Size{}
}

// Codes of lines whose quantity cannot be worked out.
const (
	UnknownSize quoin.Code = "unknown_size"
	NotCut      quoin.Code = "not_cut"
)

// Worked is a quantity that follows from other fields of a line, and how.
type Worked struct {
	Quantity quoin.Quantity
	// Explain computes its number on a trail, for a line that stands at a path.
	Explain func(t *quoin.Trail, at quoin.Path) quoin.Operand
	// Plan or Run is what comes out where something is cut.
	Plan cut.Plan
	Run  cut.Run
}

// Follows reports whether the quantity of the line follows from what stands in
// its place.
func (l Line) Follows() bool { return !l.Cut.IsZero() }

// Work returns the quantity of a line that Follows, for a print of some sizes
// and the line's supply. The error is a Problem.
func (l Line) Work(s Supply, sizes Sizes) (Worked, error) {
	w, err := l.cutOut(s, sizes)
	if err != nil {
		return Worked{}, within("cut", err)
	}
	return w, nil
}

// cutOut is the share of a sheet or a roll that one piece takes.
func (l Line) cutOut(s Supply, sizes Sizes) (Worked, error) {
	c := l.Cut
	if c.Of != "" {
		c.Piece = sizes.of(c.Of)
		if c.Piece.IsZero() {
			return Worked{}, quoin.Problem{
				Code: UnknownSize, Severity: quoin.Fault, Path: "of", Found: "a product without the size " + string(c.Of), Wanted: "that size of the product, or a piece",
			}
		}
	}
	switch {
	case !s.Sheet.Size.IsZero():
		p, err := s.Sheet.Out(c)
		if err != nil {
			return Worked{}, err
		}
		return Worked{Quantity: s.Quantity.Unit().Times(p.PerPiece()), Plan: p, Explain: p.Explain}, nil
	case !s.Roll.Width.IsZero():
		r, err := s.Roll.Out(c)
		if err != nil {
			return Worked{}, err
		}
		return Worked{Quantity: s.Quantity.Unit().Times(r.PerPiece()), Run: r, Explain: r.Explain}, nil
	}
	return Worked{}, quoin.Problem{
		Code: NotCut, Severity: quoin.Fault, Found: "a cut of " + quoin.Quoted(l.Supply) + ", which is neither sheet nor roll",
		Wanted: "a supply that says what sheet, or what roll, one of it is",
	}
}
