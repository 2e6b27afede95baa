package cut

import "example.com/quoin"

// Roll is a roll of paper or canvas. Its fibres run along its length.
type Roll struct {
	// Its width.
	Width quoin.Quantity `json:"width" need:"yes" range:"(0," dim:"length"`
	// Its length.
	Length quoin.Quantity `json:"length" need:"yes" range:"(0," dim:"length"`
	// Lost at its beginning.
	Leader quoin.Quantity `json:"leader,omitzero" range:"[0," dim:"length"`
	// Lost at its end.
	Tail quoin.Quantity `json:"tail,omitzero" range:"[0," dim:"length"`
	// Lost along both sides.
	Edge quoin.Quantity `json:"edge,omitzero" range:"[0," dim:"length"`
}

// Rows are rows of pieces across a roll that lie the same way.
type Rows struct {
	// How many rows.
	Rows int64 `json:"rows"`
	// Pieces in each.
	Lanes int64 `json:"lanes"`
	// One of them, across and along, with bleed.
	Piece quoin.Size `json:"piece"`
	// How far the corners of neighbours are apart: the piece and the gutter.
	Pitch quoin.Size `json:"pitch"`
}

// RollCut is what comes out of a roll.
type RollCut struct {
	// Width of the whole roll.
	Width quoin.Quantity `json:"width"`
	// Its length.
	Length quoin.Quantity `json:"length"`
	// How many of them.
	Pieces int64 `json:"pieces"`
	// Rows that lie the same way.
	Rows []Rows `json:"rows"`
	// Share of the roll that the trimmed pieces have.
	Used quoin.Rate `json:"used"`
	// What is left of its length, beyond leader and tail.
	Left quoin.Quantity `json:"left"`
}

// Out returns the rows that give most pieces. In a row all pieces lie the same way, and there
// are ⌊(width + gutter) ÷ (piece + gutter)⌋ of them. Rows of both ways may follow each other.
// Gutters are between pieces only, not at the ends. The grip is lost once, at the beginning.
// The error is Problems, if not one piece fits or lengths are too fine.
func (r Roll) Out(c Cut) (RollCut, error) {
	if c.Piece.IsZero() {
		return RollCut{}, noPiece()
	}
	u, n, err := newRuler(r.Width, r.Length, c.Piece.Width(), c.Piece.Height(), r.Leader, r.Tail, r.Edge, c.Bleed, c.Gutter, c.Grip)
	if err != nil {
		return RollCut{}, err
	}
	width, length, pw, ph, leader, tail, edge, bleed, gutter, grip := n[0], n[1], n[2], n[3], n[4], n[5], n[6], n[7], n[8], n[9]
	across, along := width-2*edge+gutter, length-leader-tail-grip+gutter
	upright := row{pw + 2*bleed + gutter, ph + 2*bleed + gutter, 0}
	lain := row{upright.h, upright.w, 0}
	upright.lanes, lain.lanes = max(across/upright.w, 0), max(across/lain.w, 0)
	if c.Grain != "" { // the fibres of a roll stand, as those of an upright sheet of long grain
		if c.Grain.along(pw, ph) {
			lain.lanes = 0
		} else {
			upright.lanes = 0
		}
	}
	if c.Layout == Grid {
		upright, lain = better(along, upright, lain)
	}
	a, b := best(along, upright, lain)
	if a*upright.lanes+b*lain.lanes == 0 {
		return RollCut{}, fault(NothingFits, "piece", c.Piece.String()+" out of a roll "+r.Width.String()+" wide", "a piece that fits", "take a wider roll, or a smaller edge")
	}
	out := RollCut{Width: r.Width, Length: r.Length, Pieces: a*upright.lanes + b*lain.lanes, Left: u.mm(along - a*upright.h - b*lain.h)}
	for _, rows := range []struct {
		row
		n int64
	}{{upright, a}, {lain, b}} {
		if rows.n > 0 {
			out.Rows = append(out.Rows, Rows{rows.n, rows.lanes, u.size(rows.w-gutter, rows.h-gutter), u.size(rows.w, rows.h)})
		}
	}
	out.Used = quoin.FactorOf(out.Pieces).Times(quoin.FactorOf(pw)).Times(quoin.FactorOf(ph)).
		Over(quoin.FactorOf(width)).Over(quoin.FactorOf(length)).Rate()
	return out, nil
}

// PerPiece returns the share of a roll that one piece takes: 1 ÷ pieces, and 0 if there are
// none.
func (r RollCut) PerPiece() quoin.Factor { return onePer(r.Pieces) }

// row is a row of pieces grown by a gutter: w across, h along.
type row struct{ w, h, lanes int64 }

// better keeps the way round that yields more by itself.
func better(along int64, a, b row) (row, row) {
	if along/a.h*a.lanes >= along/b.h*b.lanes {
		b.lanes = 0
	} else {
		a.lanes = 0
	}
	return a, b
}

// best returns how many rows of each kind yield most of a length. Of the kind
// that yields less for its length fewer are needed than the other is long, in
// units: as many rows of the better kind take the place of that many.
func best(along int64, a, b row) (ofA, ofB int64) {
	if along <= 0 || a.lanes == 0 && b.lanes == 0 {
		return 0, 0
	}
	if a.lanes*b.h < b.lanes*a.h {
		ofB, ofA = best(along, b, a)
		return ofA, ofB
	}
	var most int64
	for n := int64(0); n*b.h <= along && n < a.h && n <= mostStrips; n++ {
		m := (along - n*b.h) / a.h
		if count := m*a.lanes + n*b.lanes; count > most {
			most, ofA, ofB = count, m, n
		}
		if b.lanes == 0 {
			break
		}
	}
	return ofA, ofB
}
