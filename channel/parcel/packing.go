package parcel

import "example.com/quoin"

// Packing is a way of packing prints: a tube, a stiff envelope, a box.
type Packing struct {
	// Name of the packing list of each product that may go into it.
	ID string `json:"id" need:"yes"`
	// What people call it.
	Name string `json:"name,omitempty"`
	// The largest sheet that lies flat in it, either way.
	Inside quoin.Size `json:"inside,omitzero" need:"yes" or:"tube"`
	// In its place: the inside length of a tube. Sheets are rolled, with the shorter side along
	// it and the longer one as long as it may be.
	Tube quoin.Quantity `json:"tube,omitzero" range:"(0," dim:"length"`
	// How many prints at most, 1 to 100000.
	Holds int64 `json:"holds" need:"yes" range:"[1,100000]"`
	// The room for a flat stack: with the thickness of a print it too bounds how many go in.
	// Only of what is no tube.
	Depth quoin.Quantity `json:"depth,omitzero" range:"(0," dim:"length"`
	// What it measures closed and empty.
	Outside Sides `json:"outside" need:"yes"`
	// What each print adds to its height.
	Grows quoin.Quantity `json:"grows,omitzero" range:"[0," dim:"length"`
	// What it weighs empty.
	Mass quoin.Quantity `json:"mass" need:"yes" range:"[0," dim:"mass"`
	// How stiff it is, in the words of the tariff: flexible, stiff, rigid.
	Class string `json:"class,omitempty"`
}

// Sides is the outside of a parcel. A tube is measured as the box around it: length, diameter,
// diameter. A tariff sorts sides by length, whichever is called the height.
type Sides struct {
	// The first side.
	Length quoin.Quantity `json:"length" need:"yes" range:"(0," dim:"length"`
	// The second side.
	Width quoin.Quantity `json:"width" need:"yes" range:"(0," dim:"length"`
	// The third side.
	Height quoin.Quantity `json:"height" need:"yes" range:"(0," dim:"length"`
}

// Load is what is sent: what each print is like, and what else lies in every parcel.
type Load struct {
	Sheet quoin.Size `json:"sheet" need:"yes"`
	// Thickness is that of one print, with its sleeve where it has one. Where
	// it is left out, a packing's depth bounds nothing.
	Thickness quoin.Quantity `json:"thickness,omitzero" range:"[0," dim:"length"`
	Mass      quoin.Quantity `json:"mass" need:"yes" range:"[0," dim:"mass"` // of one print
	// Board lies in each parcel once, however many prints it holds.
	Board Board `json:"board,omitzero"`
}

// Board stiffens a parcel. It adds to the mass and takes up depth.
type Board struct {
	// What it weighs.
	Mass quoin.Quantity `json:"mass" need:"yes" range:"[0," dim:"mass"`
	// How thick it is.
	Thickness quoin.Quantity `json:"thickness,omitzero" range:"[0," dim:"length"`
}

// IsZero reports whether there is no board.
func (b Board) IsZero() bool { return b.Mass.IsZero() && b.Thickness.IsZero() }

// Parcel is a packed parcel as a carrier sees it.
type Parcel struct {
	Outside Sides          `json:"outside" need:"yes"`
	Mass    quoin.Quantity `json:"mass" need:"yes" range:"[0," dim:"mass"`
	Class   string         `json:"class,omitempty"`
}

// MostPrints is the greatest number of prints of one shipment that is
// considered.
const MostPrints = 1_000_000

// Room returns how many prints fit into the packing. It is 0 if the sheet is too large.
// Otherwise it is the lesser of Holds and of the prints whose thickness, with the board, is at
// most Depth. It is 0 if sizes are missing or are not lengths.
func (p Packing) Room(l Load) int64 {
	if !p.takes(l.Sheet) || !isLength(p.Depth) || !isLength(l.Thickness) || !isLength(l.Board.Thickness) {
		return 0
	}
	return mostOf(min(p.Holds, MostPrints), func(n int64) bool { return p.deep(l, n) })
}

// deep reports whether so many prints lie in the depth.
func (p Packing) deep(l Load, n int64) bool {
	return p.Depth.IsZero() || mm(l.Thickness).Times(quoin.FactorOf(n)).Add(mm(l.Board.Thickness)).Cmp(mm(p.Depth)) <= 0
}

// takes reports whether a sheet lies in the packing, or in the tube rolled.
func (p Packing) takes(sheet quoin.Size) bool {
	if sheet.IsZero() {
		return false
	}
	if p.Tube.IsZero() {
		return sheet.Fits(p.Inside) || sheet.Turned().Fits(p.Inside)
	}
	return isLength(p.Tube) && (mm(sheet.Width()).Cmp(mm(p.Tube)) <= 0 || mm(sheet.Height()).Cmp(mm(p.Tube)) <= 0)
}

// filled is what so many prints weigh packed, in grams.
func (p Packing) filled(l Load, prints int64) quoin.Factor {
	return grams(p.Mass).Add(grams(l.Mass).Times(quoin.FactorOf(prints))).Add(grams(l.Board.Mass))
}

// Parcel returns the packing with so many prints in it. Its height grows by what each print
// adds. Its mass is in grams, exactly: empty packing + prints × mass of one + board. Check must
// accept the packing and the load.
func (p Packing) Parcel(l Load, prints int64) Parcel {
	out := Parcel{Outside: p.Outside, Mass: quoin.Unit("g").Times(p.filled(l, prints)), Class: p.Class}
	if !p.Grows.IsZero() {
		out.Outside.Height = quoin.Unit("mm").Times(mm(p.Outside.Height).Add(mm(p.Grows).Times(quoin.FactorOf(prints))))
	}
	return out
}

// mm and grams return lengths and masses exactly; 0 where none was given.
func mm(q quoin.Quantity) quoin.Factor    { return q.Number().Times(q.Unit().Size()) }
func grams(q quoin.Quantity) quoin.Factor { return q.Number().Times(q.Unit().Size()) }

// isLength reports whether q is a length, or was not given.
func isLength(q quoin.Quantity) bool { return q.IsZero() || q.Unit().Dimension() == "length" }

func greater(a, b quoin.Factor) quoin.Factor {
	if b.Cmp(a) > 0 {
		return b
	}
	return a
}

// mostOf returns the greatest n from 1 to limit that is accepted, where all below
// an accepted one are; 0 where none is.
func mostOf(limit int64, accepts func(int64) bool) int64 {
	low, high := int64(0), max(limit, 0) // low is accepted, all above high are not
	for low < high {
		middle := high - (high-low)/2
		if accepts(middle) {
			low = middle
		} else {
			high = middle - 1
		}
	}
	return low
}
