package cut_test

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/cost/cut"
)

// A grid of 9 × 12 in gives four out of 23 × 35, a guillotine one more.
func ExampleSheet_Out() {
	sheet := cut.Sheet{Size: quoin.MustSize("23 x 35 in")}
	for _, layout := range []cut.Layout{cut.Grid, cut.Guillotine} {
		p, err := sheet.Out(cut.Cut{Piece: quoin.MustSize("9 x 12 in"), Layout: layout})
		fmt.Printf("%s: %d pieces, %.0f%% used, %v\n", layout, p.Pieces, p.Used, err)
	}
	// Output:
	// grid: 4 pieces, 54% used, <nil>
	// guillotine: 5 pieces, 67% used, <nil>
}

// A layout can be drawn: where each block lies, and how its pieces follow.
func ExampleSheetCut() {
	p, _ := cut.Sheet{Size: quoin.MustSize("700 x 1000 mm")}.Out(cut.Cut{Piece: quoin.MustSize("A4"), Gutter: quoin.MustQuantity("2 mm")})
	for _, b := range p.Blocks {
		fmt.Printf("%d across and %d down of %s, from %s and %s\n", b.Across, b.Down, b.Piece, b.X, b.Y)
	}
	fmt.Println(p.Pieces, p.Bound, p.Proven, "each takes", p.PerPiece().Round(4, quoin.HalfUp))
	// Output:
	// 3 across and 3 down of 210 x 297 mm, from 0 mm and 0 mm
	// 9 10 true each takes 0.1111
}

func ExampleRoll_Out() {
	roll := cut.Roll{Width: quoin.MustQuantity("24 in"), Length: quoin.MustQuantity("50 ft"), Leader: quoin.MustQuantity("4 in")}
	r, err := roll.Out(cut.Cut{Piece: quoin.MustSize("11 x 14 in"), Gutter: quoin.MustQuantity("0.5 in")})
	for _, rows := range r.Rows {
		fmt.Printf("%d rows of %d\n", rows.Rows, rows.Lanes)
	}
	fmt.Println(r.Pieces, err)
	// Output:
	// 41 rows of 2
	// 82 <nil>
}

// Ten frames of 300 × 400 mm in a moulding 20 mm wide, out of sticks of 3 m.
func ExampleStick_Out() {
	stick := cut.Stick{Length: quoin.MustQuantity("3 m"), Kerf: quoin.MustQuantity("3 mm")}
	s, err := stick.Out(cut.Rail{Length: quoin.MustQuantity("340 mm"), Count: 20}, cut.Rail{Length: quoin.MustQuantity("440 mm"), Count: 20})
	fmt.Println(s.Sticks, "sticks, at least", s.Bound, s.Proven, err)
	for _, w := range s.Saws {
		fmt.Println(w.Times, "times", w.Rails, "left", w.Left)
	}
	// Output:
	// 6 sticks, at least 6 true <nil>
	// 3 times [rail: length 440 mm, count 6 rail: length 340 mm, count 1] left 0 mm
	// 1 times [rail: length 440 mm, count 2 rail: length 340 mm, count 6] left 56 mm
	// 1 times [rail: length 340 mm, count 8] left 256 mm
	// 1 times [rail: length 340 mm, count 3] left 1971 mm
}

func ExampleGrain_UnmarshalText() {
	fmt.Println(new(cut.Grain).UnmarshalText([]byte("lang")))
	// Output: found "lang", wanted one of long, short; did you mean long? [unknown_word]
}
