package pricelist

import (
	"fmt"
	"strconv"

	"example.com/quoin"
	"example.com/quoin/cost"
	"example.com/quoin/cost/cut"
	"example.com/quoin/cost/frame"
	"example.com/quoin/cost/paper"
)

// DerivedLine is the quantity that was computed for one line of a bill. If something is cut,
// one of sheet, roll and sticks says where each piece lies.
type DerivedLine struct {
	// Where the line stands.
	Path string `json:"path"`
	// Id of its supply.
	Supply string `json:"supply"`
	// How much a print takes of it.
	Quantity quoin.Quantity `json:"quantity"`
	// What comes out of a sheet.
	Sheet *cut.SheetCut `json:"sheet,omitempty"`
	// What comes out of a roll.
	Roll *cut.RollCut `json:"roll,omitempty"`
	// How sticks are cut.
	Sticks *cut.Sticks `json:"sticks,omitempty"`
	// What a piece weighs, where the supply has a grammage.
	Mass quoin.Quantity `json:"mass,omitzero"`
	// What the border of the sheet that cannot be used adds to a piece; not there without one.
	Edge quoin.Optional[quoin.Amount] `json:"edge,omitzero"`
}

// Machine is what a machine adds to each started print, and the number of prints that its cost
// is spread over.
type Machine struct {
	// Id of the machine.
	ID string `json:"id"`
	// How much of it.
	PerPrint quoin.Amount `json:"per_print"`
	// The prints that its loss in value was spread over.
	Volume quoin.Factor `json:"volume"`
}

// layout is all that a cut, or the sawing of a frame, depends on.
type layout struct {
	sheet    cut.Sheet
	roll     cut.Roll
	stick    cut.Stick
	cut      cut.Cut
	moulding frame.Moulding
	unit     quoin.Unit
}

// layoutOf is the layout of a line that is searched for; false where none is,
// or where a size is missing.
func layoutOf(l cost.BillLine, s cost.Supply, sizes cost.Sizes) (layout, bool) {
	key := layout{sheet: of(s.Sheet), roll: of(s.Roll), stick: of(s.Stick), cut: of(l.Cut), moulding: of(l.Moulding), unit: s.Quantity.Unit()}
	switch {
	case l.Cut != nil && (s.Sheet != nil || s.Roll != nil):
		if key.cut.Of != "" {
			key.cut.Piece, key.cut.Of = sizes.Of(key.cut.Of), ""
		}
		return key, !key.cut.Piece.IsZero()
	case l.Moulding != nil && s.Stick != nil:
		if key.moulding.Glass.IsZero() {
			key.moulding.Glass = sizes.Frame
		}
		return key, !key.moulding.Glass.IsZero()
	}
	return layout{}, false
}

// key writes all that a layout depends on behind b, each thing on a line of its own.
func (l *layout) key(b []byte) []byte {
	for _, s := range [...]quoin.Size{l.sheet.Size, l.cut.Piece, l.moulding.Glass} {
		b, _ = s.AppendText(b) // no size is refused
		b = append(b, '\n')
	}
	for _, q := range [...]quoin.Quantity{
		l.sheet.Border, l.roll.Width, l.roll.Length, l.roll.Leader, l.roll.Tail, l.roll.Edge, l.stick.Length, l.stick.Kerf, l.stick.Trim,
		l.cut.Bleed, l.cut.Gutter, l.cut.Grip, l.moulding.Width, l.moulding.Rabbet, l.moulding.Allowance, l.moulding.Least,
	} {
		if !q.IsZero() {
			b, _ = q.AppendText(b) // nor a quantity
		}
		b = append(b, '\n')
	}
	for _, word := range [...]string{string(l.sheet.Grain), string(l.cut.Of), string(l.cut.Grain), string(l.cut.Layout), string(l.unit)} {
		b = append(append(b, word...), '\n')
	}
	return strconv.AppendInt(b, l.moulding.Together, 10)
}

const (
	mostLayouts = 500 // that are remembered from lot to lot
	// mostSearched bounds what seeking all different layouts of a document, or of a lot, takes time for:
	// the rests of sheets, and the ways to cut sticks, that are gone through, about as many
	// as the pieces of a sheet times themselves.
	mostSearched = 300_000_000
)

// layouts remembers what has been laid out, so that a document at the ends of its ranges
// need not be laid out again, nor a lot that is cut like one before it.
type layouts struct {
	known    map[string]*laidOut // by what key writes of a layout
	lot      int                 // the lot that is being decided
	searched int64               // what seeking its layouts takes so far, remembered ones too
}

// laidOut is what a layout came to, and the last lot that sought it.
type laidOut struct {
	cost.DerivedQuantity
	lot int
}

func newLayouts() *layouts { return &layouts{known: make(map[string]*laidOut)} }

// next begins with a further lot, and forgets what has piled up.
func (l *layouts) next() {
	l.lot++
	l.searched = 0
	if len(l.known) > mostLayouts {
		clear(l.known)
	}
}

// work works out a line, once for all lines that are cut alike.
func (w *worker) work(l cost.BillLine, s cost.Supply, sizes cost.Sizes) (cost.DerivedQuantity, error) {
	laid, sought := layoutOf(l, s, sizes)
	if !sought {
		return l.Work(s, sizes)
	}
	var room [256]byte
	key := laid.key(room[:0])
	found, known := w.memory.layouts.known[string(key)]
	if known && found.lot == w.memory.layouts.lot {
		return found.DerivedQuantity, nil
	}
	if w.memory.layouts.searched > mostSearched {
		return cost.DerivedQuantity{}, quoin.Problem{
			Code: quoin.TooMany, Severity: quoin.Fault, Found: fmt.Sprintf("layouts for which %d rests of sheets and ways to cut sticks were gone through so far", w.memory.layouts.searched),
			Wanted: fmt.Sprintf("at most %d in a document", mostSearched), Remedy: `cut fewer pieces at a time, choose the layout "grid", or decide products in several documents`,
		}
	}
	if !known {
		worked, err := l.Work(s, sizes)
		if err != nil {
			w.memory.layouts.searched += worked.Searched
			return worked, err
		}
		found = &laidOut{DerivedQuantity: worked}
		w.memory.layouts.known[string(key)] = found
	}
	found.lot = w.memory.layouts.lot
	w.memory.layouts.searched += found.Searched
	return found.DerivedQuantity, nil
}

// of is what a pointer points to, the zero value where it does to nothing.
func of[T any](p *T) T {
	if p == nil {
		var zero T
		return zero
	}
	return *p
}

// shown is what the answer says of a line that was worked out.
func (w *worker) shown(at quoin.Path, l cost.BillLine, s cost.Supply, sizes cost.Sizes, worked cost.DerivedQuantity) DerivedLine {
	m := DerivedLine{Path: at.String(), Supply: l.Supply, Quantity: worked.Quantity, Sheet: worked.Sheet, Roll: worked.Roll, Sticks: worked.Sticks}
	if !s.Grammage.IsZero() && !worked.Piece.IsZero() {
		m.Mass, _ = paper.Mass(worked.Piece, s.Grammage) // the unit has been checked
	}
	if worked.Sheet == nil || s.Sheet.Border.Sign() == 0 {
		return m
	}
	unit, err := s.UnitCost()
	bare := *s.Sheet
	bare.Border = quoin.Quantity{}
	s.Sheet = &bare
	whole, err2 := w.work(l, s, sizes)
	if err == nil && err2 == nil {
		m.Edge = quoin.Some(unit.Amount.Times(worked.Quantity.Number().Sub(whole.Quantity.Number())))
	}
	return m
}
