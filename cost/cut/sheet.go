package cut

import "example.com/quoin"

// Sheet is a sheet as it is bought: of paper, board or glass.
type Sheet struct {
	// Its whole size.
	Size quoin.Size `json:"size" need:"yes"`
	// What cannot be used of it, all round: a deckle, a dented edge.
	Border quoin.Quantity `json:"border,omitzero" range:"[0," dim:"length"`
	// The side along which its fibres run; left out where that is not known.
	Grain Grain `json:"grain,omitempty"`
}

// SheetCut is what comes out of a sheet, and where each piece lies.
type SheetCut struct {
	// Size of the whole sheet.
	Whole quoin.Size `json:"whole"`
	// How many of them.
	Pieces int64 `json:"pieces"`
	// Pieces that lie the same way, side by side.
	Blocks []Block `json:"blocks"`
	// Share of the whole sheet that the trimmed pieces have.
	Used quoin.Rate `json:"used"`
	// The number that no layout of any kind could exceed.
	Bound int64 `json:"bound"`
	// Whether no guillotine layout holds more: the bound is met, pieces may not be turned, or
	// all cuts have been tried. Where it is false, the layout is the best of all that peel off
	// one strip after the other, which has not been found to miss a piece on any sheet small
	// enough to try all cuts.
	Proven bool `json:"proven"`
}

// Block is pieces that lie the same way, side by side. x and y are the distances of its lower
// left corner from that of the sheet, bleeds included.
type Block struct {
	// From the left edge of the sheet to the block.
	X quoin.Quantity `json:"x"`
	// From its lower edge.
	Y quoin.Quantity `json:"y"`
	// Pieces side by side.
	Across int64 `json:"across"`
	// Pieces above each other.
	Down int64 `json:"down"`
	// One of them as it lies, with bleed.
	Piece quoin.Size `json:"piece"`
	// How far the corners of neighbours are apart: the piece and the gutter.
	Pitch quoin.Size `json:"pitch"`
}

// Out returns the layout that gives most pieces. A grid is the better of both ways round: ⌊(W +
// gutter) ÷ (w + gutter)⌋ × ⌊(H + gutter) ÷ (h + gutter)⌋. A guillotine layout is found by a
// search; the field Proven says whether the search shows that there is no better one. The error
// is Problems: not one piece fits, a grain is wanted and that of the sheet is unknown, or
// lengths are too fine.
func (s Sheet) Out(c Cut) (SheetCut, error) {
	p, _, err := s.Search(c)
	return p, err
}

// Search is Out. It also returns how many rests of the sheet, and cuts, the search looked at.
// This is a measure of its time: about a second for 200 million.
func (s Sheet) Search(c Cut) (plan SheetCut, searched int64, err error) {
	f, err := s.field(c)
	if err != nil {
		return SheetCut{}, 0, err
	}
	plan, searched, err = f.plan(c)
	if plan.Whole = s.Size; err != nil {
		return SheetCut{}, searched, err
	}
	return plan, searched, nil
}

// PerPiece returns the share of a sheet that one piece takes: 1 ÷ pieces, and 0 if there are
// none.
func (p SheetCut) PerPiece() quoin.Factor { return onePer(p.Pieces) }

// onePer is 1 ÷ n, 0 where n is.
func onePer(n int64) quoin.Factor {
	if n == 0 {
		return quoin.Factor{}
	}
	return quoin.FactorOf(1).Over(quoin.FactorOf(n))
}

// field is the usable part of a sheet and the piece, in whole units, each
// grown by a gutter: so grown, pieces lie side by side without any.
type field struct {
	ruler
	w, h          int64 // of the usable part
	pieceW        int64
	pieceH        int64
	upright, lain bool // which ways a piece may lie
	gutter        int64
	border, grip  int64
	bleed         int64
	whole         int64 // area of the sheet
}

func (s Sheet) field(c Cut) (field, error) {
	if c.Piece.IsZero() {
		return field{}, noPiece()
	}
	r, n, err := newRuler(s.Size.Width(), s.Size.Height(), c.Piece.Width(), c.Piece.Height(), s.Border, c.Bleed, c.Gutter, c.Grip)
	if err != nil {
		return field{}, err
	}
	w, h, pw, ph, border, bleed, gutter, grip := n[0], n[1], n[2], n[3], n[4], n[5], n[6], n[7]
	f := field{
		ruler: r, w: w - 2*border + gutter, h: h - 2*border - grip + gutter,
		pieceW: pw + 2*bleed + gutter, pieceH: ph + 2*bleed + gutter,
		upright: true, lain: true, gutter: gutter, border: border, grip: grip, bleed: bleed, whole: w * h,
	}
	if c.Grain == "" {
		return f, nil
	}
	if s.Grain == "" {
		return field{}, fault(UnknownGrain, "grain", string(c.Grain)+" grain asked of a sheet whose grain is unknown", "the grain of the sheet", "look which way a torn strip bends")
	}
	f.upright = s.Grain.along(w, h) == c.Grain.along(pw, ph)
	f.lain = !f.upright
	return f, nil
}

func (f field) plan(c Cut) (SheetCut, int64, error) {
	p, searched := SheetCut{Bound: f.bound()}, int64(0)
	blocks := f.grid()
	p.Proven = !f.upright || !f.lain || count(blocks) == p.Bound
	if c.Layout != Grid && !p.Proven {
		blocks, p.Proven, searched = f.guillotine(p.Bound)
	}
	if p.Pieces = count(blocks); p.Pieces == 0 {
		return SheetCut{}, searched, fault(NothingFits, "piece", c.Piece.String()+" out of "+f.size(max(f.w-f.gutter, 1), max(f.h-f.gutter, 1)).String()+" that can be used",
			"a piece that fits", "take a larger sheet, or a smaller border")
	}
	p.Proven = p.Proven || p.Pieces == p.Bound
	trimmed := (f.pieceW - f.gutter - 2*f.bleed) * (f.pieceH - f.gutter - 2*f.bleed)
	p.Used = quoin.FactorOf(p.Pieces).Times(quoin.FactorOf(trimmed)).Over(quoin.FactorOf(f.whole)).Rate()
	for _, b := range blocks {
		p.Blocks = append(p.Blocks, f.drawn(b))
	}
	return p, searched, nil
}

// block is a Block on the field.
type block struct{ x, y, w, h, across, down int64 }

func count(blocks []block) int64 {
	var n int64
	for _, b := range blocks {
		n += b.across * b.down
	}
	return n
}

func (f field) drawn(b block) Block {
	return Block{
		X: f.mm(f.border + b.x), Y: f.mm(f.border + f.grip + b.y), Across: b.across, Down: b.down,
		Piece: f.size(b.w-f.gutter, b.h-f.gutter), Pitch: f.size(b.w, b.h),
	}
}

// grid returns the better of both ways round.
func (f field) grid() []block {
	var best []block
	for _, b := range []block{{w: f.pieceW, h: f.pieceH}, {w: f.pieceH, h: f.pieceW}} {
		if lain := b.w != f.pieceW; lain && !f.lain || !lain && !f.upright || f.w < b.w || f.h < b.h {
			continue
		}
		if b.across, b.down = f.w/b.w, f.h/b.h; b.across*b.down > count(best) {
			best = []block{b}
		}
	}
	return best
}

// bound returns a number that no packing exceeds. However pieces of w × h lie,
// each can be sawn into strips of w × 1, and into strips of h × 1; strips of
// n × 1 leave at least min(r·s, (n−r)(n−s)) of a field uncovered, where r and
// s are what is left of its sides divided by n (F. W. Barnes, Packing the
// maximum number of m × n tiles in a large p × q rectangle, Discrete
// Mathematics 26, 1979).
func (f field) bound() int64 {
	if min(f.w, f.h) < min(f.pieceW, f.pieceH) || max(f.w, f.h) < max(f.pieceW, f.pieceH) {
		return 0
	}
	var lost int64
	for _, n := range []int64{f.pieceW, f.pieceH} {
		r, s := f.w%n, f.h%n
		lost = max(lost, min(r*s, (n-r)*(n-s)))
	}
	return (f.w*f.h - lost) / (f.pieceW * f.pieceH)
}
