package cut_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost/cut"
)

func size(s string) quoin.Size       { return quoin.MustSize(s) }
func length(s string) quoin.Quantity { return quoin.MustQuantity(s) }

func out(t *testing.T, sheet, piece string, layout cut.Layout) cut.SheetCut {
	t.Helper()
	p, err := cut.Sheet{Size: size(sheet)}.Out(cut.Cut{Piece: size(piece), Layout: layout})
	if err != nil {
		t.Fatalf("%s out of %s: %v", piece, sheet, err)
	}
	return p
}

func TestPublishedSheets(t *testing.T) {
	for _, c := range []struct {
		source           string
		sheet, piece     string
		grid, guillotine int64
		bound            int64  // by area; 0 where none is published
		used             string // per cent, rounded as published; empty where none is
		usedPlaces       int
		layout           cut.Layout
	}{
		{"a print-buying guide (address not kept)", "23 x 35 in", "8.5 x 11 in", 8, 8, 0, "93%", 0, cut.Guillotine},
		{"the same", "23 x 35 in", "9 x 12 in", 4, 5, 0, "67%", 0, cut.Guillotine},
		{"a vocational examination for printers (Polish)", "A3", "A6", 8, 8, 0, "", 0, ""},
		{"an essay on paper economy, amateur press", "25 x 38 in", "7 x 10 in", 10, 12, 13, "73.68%", 2, cut.Grid},
		{"the same", "28 x 42 in", "10 x 14 in", 8, 8, 0, "95%", 0, cut.Guillotine},
		{"The Art and Practice of Silver Printing: halves", "18 x 22 in", "11 x 18 in", 2, 2, 2, "100%", 0, ""},
		{"The Art and Practice of Silver Printing: quarters", "18 x 22 in", "9 x 11 in", 4, 4, 4, "100%", 0, ""},
		{"merchants' cutting tables (from memory)", "25 x 38 in", "8.5 x 11 in", 8, 8, 10, "", 0, ""},
		{"worked case of the trade", "32 x 40 in", "16 x 20 in", 4, 4, 0, "", 0, ""},
	} {
		grid, best := out(t, c.sheet, c.piece, cut.Grid), out(t, c.sheet, c.piece, cut.Guillotine)
		if grid.Pieces != c.grid || best.Pieces != c.guillotine || !best.Proven {
			t.Errorf("%s: %s out of %s: %d in a grid and %d by guillotine, want %d and %d", c.source, c.piece, c.sheet, grid.Pieces, best.Pieces, c.grid, c.guillotine)
		}
		if area := size(c.sheet).Area().Number().Over(size(c.piece).Area().Number()); c.bound != 0 && !area.Round(0, quoin.Down).Equal(quoin.FactorOf(c.bound)) {
			t.Errorf("%s: the area of %s in %s, want %d", c.source, area, c.sheet, c.bound)
		}
		used := best.Used
		if c.layout == cut.Grid {
			used = grid.Used
		}
		if got := used.Round(c.usedPlaces).String(); c.used != "" && got != c.used {
			t.Errorf("%s: %s used of %s, want %s", c.source, got, c.sheet, c.used)
		}
	}
	// The examination asks for 1,000 of A6.
	if sheets := quoin.FactorOf(1000).Times(out(t, "A3", "A6", "").PerPiece()); !sheets.Equal(quoin.FactorOf(125)) {
		t.Errorf("1,000 A6 take %s sheets of A3, want 125", sheets)
	}
}

// A worked case of the trade: 32 × 40 in of board give four of 16 × 20; with
// an inch of the edge dented all round, two. At 12.00 a board that inch costs
// 3.00 for each: 6.00 instead of 3.00.
func TestPublishedDentedEdge(t *testing.T) {
	board, mat := cut.Sheet{Size: size("32 x 40 in"), Border: length("1 in")}, cut.Cut{Piece: size("16 x 20 in")}
	p, err := board.Out(mat)
	if err != nil || p.Pieces != 2 {
		t.Errorf("%d out of a dented board, %v, want 2", p.Pieces, err)
	}
	board.Border = quoin.Quantity{}
	whole, err := board.Out(mat)
	if err != nil || whole.Pieces != 4 {
		t.Errorf("%d out of a whole board, %v, want 4", whole.Pieces, err)
	}
	price := quoin.MustAmount("12.00")
	if cost := price.Times(p.PerPiece()).Sub(price.Times(whole.PerPiece())); !cost.Equal(quoin.MustAmount("3.00")) {
		t.Errorf("the dented inch costs %s, want 3.00", cost)
	}
}

// A worked case of the trade: a roll of 24 in × 50 ft, ½ in between pieces and
// 4 in lost at the ends, one orientation for all rows.
func TestPublishedRolls(t *testing.T) {
	roll := cut.Roll{Width: length("24 in"), Length: length("50 ft"), Leader: length("2 in"), Tail: length("2 in")}
	for piece, want := range map[string]int64{"8 x 10 in": 140, "11 x 14 in": 82, "16 x 20 in": 36} {
		r, err := roll.Out(cut.Cut{Piece: size(piece), Gutter: length("0.5 in"), Layout: cut.Grid})
		if err != nil || r.Pieces != want || len(r.Rows) != 1 {
			t.Errorf("%s: %+v, %v, want %d", piece, r, err, want)
		}
		mixed, err := roll.Out(cut.Cut{Piece: size(piece), Gutter: length("0.5 in")})
		if err != nil || mixed.Pieces < want {
			t.Errorf("%s: %d with rows of both kinds, %v", piece, mixed.Pieces, err)
		}
	}
}

func TestPublishedSticks(t *testing.T) {
	// A framing course (address not kept): for 16 × 20 in with a moulding of 2 in,
	// a rail of 20 and one of 24 take 44⅛ in of each 4-ft stick: two sticks.
	s := cut.Stick{Length: length("4 ft"), Kerf: length("0.125 in")}
	p, err := s.Out(cut.Rail{Length: length("20 in"), Count: 2}, cut.Rail{Length: length("24 in"), Count: 2})
	if err != nil || p.Sticks != 2 || len(p.Saws) != 1 || fmt.Sprint(p.Saws[0].Rails) != "[rail: length 24 in, count 1 rail: length 20 in, count 1]" {
		t.Errorf("%+v, %v, want two sticks cut alike", p, err)
	}
	// Of 48 in, 20 + 24 and a cut between them leave 3⅞, and a last cut takes ⅛.
	if left, _ := p.Saws[0].Left.In("in"); !left.Equal(length("3.75 in")) {
		t.Errorf("%s left, want 3.75 in", left)
	}
	// Math Forum, cutting equal strips: a 14-in board, 3-in strips, 1-in kerf.
	s = cut.Stick{Length: length("14 in"), Kerf: length("1 in")}
	p, err = s.Out(cut.Rail{Length: length("3 in"), Count: 3})
	if err != nil || p.Sticks != 1 {
		t.Errorf("three strips take %d boards, %v, want 1", p.Sticks, err)
	}
	if left, _ := p.Saws[0].Left.In("in"); !left.Equal(length("2 in")) {
		t.Errorf("%s left, want 2 in", left)
	}
	if p, err = s.Out(cut.Rail{Length: length("3 in"), Count: 4}); err != nil || p.Sticks != 2 {
		t.Errorf("four strips take %d boards, %v, want 2", p.Sticks, err)
	}
}
