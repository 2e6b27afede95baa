package cost

import (
	"example.com/quoin"
	"example.com/quoin/cost/cut"
	"example.com/quoin/cost/frame"
	"example.com/quoin/cost/ink"
	"example.com/quoin/internal/prose"
)

// Sizes are the sizes of a print that lines of its bill may use, and the path of the print.
type Sizes struct {
	Image, Sheet, Mat, Frame quoin.Size
	At                       quoin.Path
}

// Of returns one of the sizes, or the zero Size if it is not known.
func (s Sizes) Of(part cut.Part) quoin.Size {
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
	UnknownSize quoin.Code = "unknown_size" // a size that the product does not give
	NotCut      quoin.Code = "not_cut"      // something cut out of what is neither a sheet nor a roll
)

// DerivedQuantity is a quantity that is computed from other fields of a line, and how.
type DerivedQuantity struct {
	Quantity quoin.Quantity
	// Explain computes its number on a trail, for a line that stands at a path.
	Explain func(t *quoin.Trail, at quoin.Path) quoin.Operand
	// Piece is the size of what is cut.
	Piece quoin.Size
	// Sheet, Roll and Sticks say what comes out where something is cut, and how.
	Sheet  *cut.SheetCut
	Roll   *cut.RollCut
	Sticks *cut.Sticks
	// Searched is how many rests of sheets, and ways to cut sticks, may have been gone
	// through for it: what it took time for, about a second for 200 million.
	Searched int64
}

// Follows reports whether the quantity of the line is computed, from a cut, ink, moulding,
// width plus height or an area.
func (l *BillLine) Follows() bool {
	return l.quantityField() != "quantity"
}

// Work returns the quantity of the line for a print of some sizes and the line's supply: the
// given one, or the computed one. The error is quoin.Problems, with paths such as cut.piece.
func (l BillLine) Work(s Supply, sizes Sizes) (DerivedQuantity, error) {
	var w DerivedQuantity
	var err error
	at := "cut"
	switch {
	case l.Ink != nil && s.Yearly != nil:
		return DerivedQuantity{}, quoin.Problems{{
			Code: HoldsUpkeep, Severity: quoin.Fault, Path: "ink", Found: "ink and its upkeep, of a supply that is known by the year",
			Wanted: "a quantity of 1 print, or an area", Remedy: "what was spent in a year holds cleaning and upkeep already",
		}}
	case l.Cut != nil:
		w, err = l.cutOut(s, sizes)
	case l.Ink != nil:
		at = "ink"
		w, err = inked(*l.Ink, sizes)
	case l.Moulding != nil:
		at = "moulding"
		w, err = moulded(*l.Moulding, s, sizes)
	case l.WidthPlusHeight != nil:
		at = "width_plus_height"
		w, err = united(*l.WidthPlusHeight, sizes)
	case l.Area != "":
		return l.area(s, sizes)
	default:
		return DerivedQuantity{Quantity: l.Quantity, Explain: func(t *quoin.Trail, at quoin.Path) quoin.Operand {
			return quoin.Given("quantity", at.Field("quantity"), l.Quantity.Figure())
		}}, nil
	}
	if err != nil {
		return DerivedQuantity{}, quoin.InField(at).Locate(err)
	}
	return w, nil
}

// cutOut is the share of a sheet or a roll that one piece takes.
func (l BillLine) cutOut(s Supply, sizes Sizes) (DerivedQuantity, error) {
	c := *l.Cut
	if c.Of != "" {
		if c.Piece = sizes.Of(c.Of); c.Piece.IsZero() {
			return DerivedQuantity{}, noSize(c.Of)
		}
	}
	switch {
	case s.Sheet != nil:
		p, searched, err := s.Sheet.Search(c)
		if err != nil {
			return DerivedQuantity{}, err
		}
		return DerivedQuantity{Searched: searched, Quantity: s.Quantity.Unit().Times(p.PerPiece()), Piece: c.Piece, Sheet: &p, Explain: p.Explain}, nil
	case s.Roll != nil:
		r, err := s.Roll.Out(c)
		if err != nil {
			return DerivedQuantity{}, err
		}
		return DerivedQuantity{Quantity: s.Quantity.Unit().Times(r.PerPiece()), Piece: c.Piece, Roll: &r, Explain: r.Explain}, nil
	}
	return DerivedQuantity{}, quoin.Problems{{
		Code: NotCut, Severity: quoin.Fault, Found: "a cut of " + prose.Quoted(s.ID) + ", which is neither sheet nor roll",
		Wanted: "a supply that says what sheet, or what roll, one of it is",
	}}
}

func noSize(part cut.Part) error {
	return quoin.Problems{{
		Code: UnknownSize, Severity: quoin.Fault, Path: "of", Found: "a product that does not give its " + string(part), Wanted: "that size of the product, or a size here",
	}}
}

// inked is the ink of one print.
func inked(u ink.Use, sizes Sizes) (DerivedQuantity, error) {
	own := !u.Image.IsZero()
	if !own {
		u.Image = sizes.Image
	}
	v, err := u.Volume()
	return DerivedQuantity{Quantity: v, Explain: func(t *quoin.Trail, at quoin.Path) quoin.Operand {
		at = at.Inside("ink")
		return u.Explain(t, at, either(own, at.Field("image"), sizes.At.Field("image")))
	}}, err
}

// moulded is the moulding of one frame: of a stick, or by length.
func moulded(m frame.Moulding, s Supply, sizes Sizes) (DerivedQuantity, error) {
	own := !m.Glass.IsZero()
	if !own {
		m.Glass = sizes.Frame
	}
	if s.Stick != nil {
		per, sticks, err := m.PerFrame(*s.Stick)
		return DerivedQuantity{Searched: sticks.Searched(), Quantity: s.Quantity.Unit().Times(per), Sticks: &sticks, Explain: func(t *quoin.Trail, at quoin.Path) quoin.Operand {
			return m.ExplainSticks(t, at.Inside("moulding"), sticks)
		}}, err
	}
	length, err := m.Length()
	return DerivedQuantity{Quantity: length, Explain: func(t *quoin.Trail, at quoin.Path) quoin.Operand {
		at = at.Inside("moulding")
		return m.Explain(t, at, either(own, at.Field("glass"), sizes.At.Field("frame")))
	}}, err
}

// united is a size counted in united inches.
func united(u frame.United, sizes Sizes) (DerivedQuantity, error) {
	own := u.Of == ""
	if !own {
		if u.Size = sizes.Of(u.Of); u.Size.IsZero() {
			return DerivedQuantity{}, noSize(u.Of)
		}
	}
	inches, err := u.Inches()
	return DerivedQuantity{Quantity: inches, Explain: func(t *quoin.Trail, at quoin.Path) quoin.Operand {
		at = at.Inside("width_plus_height")
		return u.Explain(t, at, either(own, at.Field("size"), sizes.At.Field(string(u.Of))))
	}}, err
}

// either is the path of a size that the line gives itself, or of the print's.
func either(own bool, line, print quoin.Path) quoin.Path {
	if own {
		return line
	}
	return print
}
