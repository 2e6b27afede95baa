package cut_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/cost/cut"
	"example.com/quoin/internal/problemtest"
)

func TestSheets(t *testing.T) {
	for _, c := range []struct {
		what   string
		sheet  cut.Sheet
		cut    cut.Cut
		pieces int64
	}{
		{"A4 out of A2", cut.Sheet{Size: size("A2")}, cut.Cut{Piece: size("A4")}, 4},
		{"with a gutter they no longer fit", cut.Sheet{Size: size("A2")}, cut.Cut{Piece: size("A4"), Gutter: length("3 mm")}, 2},
		{"but out of SRA2 with one", cut.Sheet{Size: size("SRA2")}, cut.Cut{Piece: size("A4"), Gutter: length("3 mm")}, 4},
		{"with bleed too: 216 × 303 twice over", cut.Sheet{Size: size("SRA2")}, cut.Cut{Piece: size("A4"), Bleed: length("3 mm")}, 4},
		{"and 34 mm for the gripper", cut.Sheet{Size: size("SRA2")}, cut.Cut{Piece: size("A4"), Bleed: length("3 mm"), Grip: length("34 mm")}, 4},
		{"a little more, and the second two are one that lies", cut.Sheet{Size: size("SRA2")}, cut.Cut{Piece: size("A4"), Bleed: length("3 mm"), Grip: length("34.1 mm")}, 3},
		{"a border of 9 mm", cut.Sheet{Size: size("SRA2"), Border: length("9 mm")}, cut.Cut{Piece: size("A4")}, 4},
		{"a border of 15.1 mm", cut.Sheet{Size: size("SRA2"), Border: length("15.1 mm")}, cut.Cut{Piece: size("A4")}, 2},
		{"9 × 12 of grain along, out of 23 × 35", cut.Sheet{Size: size("23 x 35 in"), Grain: cut.Long}, cut.Cut{Piece: size("9 x 12 in"), Grain: cut.Long}, 4},
		{"and across: ⌊23/12⌋ × ⌊35/9⌋", cut.Sheet{Size: size("23 x 35 in"), Grain: cut.Long}, cut.Cut{Piece: size("9 x 12 in"), Grain: cut.Short}, 3},
		{"a grain that nobody asks for", cut.Sheet{Size: size("23 x 35 in"), Grain: cut.Long}, cut.Cut{Piece: size("9 x 12 in")}, 5},
		{"the sheet itself", cut.Sheet{Size: size("A4")}, cut.Cut{Piece: size("297 x 210 mm")}, 1},
	} {
		p, err := c.sheet.Out(c.cut)
		if err != nil || p.Pieces != c.pieces {
			t.Errorf("%s: %d, %v, want %d", c.what, p.Pieces, err, c.pieces)
		}
	}
}

// Out of 23 × 35 in a column of two 9 × 12 that stand and one of three that lie:
// 9 + 12 of the width, 24 and 27 of the height.
func TestBlocksAreWhereTheyLie(t *testing.T) {
	p, err := cut.Sheet{Size: size("23 x 35 in"), Border: length("0 in")}.Out(cut.Cut{Piece: size("9 x 12 in")})
	if err != nil {
		t.Fatal(err)
	}
	got := ""
	for _, b := range p.Blocks {
		x, _ := b.X.In("in")
		y, _ := b.Y.In("in")
		got += fmt.Sprintf("%d × %d of %.0f x %.0f at %.0f, %.0f; ", b.Across, b.Down, inches(b.Piece.Width()), inches(b.Piece.Height()), x, y)
	}
	if want := "1 × 2 of 9 x 12 at 0, 0; 1 × 3 of 12 x 9 at 9, 0; "; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	grip, err := cut.Sheet{Size: size("SRA2"), Border: length("5 mm")}.Out(cut.Cut{Piece: size("A3"), Grip: length("10 mm"), Bleed: length("2 mm"), Layout: cut.Grid})
	if err != nil || len(grip.Blocks) != 1 {
		t.Fatal(grip, err)
	}
	b := grip.Blocks[0]
	if !b.X.Equal(length("5 mm")) || !b.Y.Equal(length("15 mm")) || !b.Piece.Equal(size("424 x 301 mm")) || b.Down != 2 {
		t.Errorf("%+v", b)
	}
}

func inches(q quoin.Quantity) quoin.Factor {
	in, err := q.In("in")
	if err != nil {
		return quoin.Factor{}
	}
	return in.Number()
}

func TestCutsRefused(t *testing.T) {
	a4 := cut.Sheet{Size: size("A4")}
	for what, c := range map[string]struct {
		make func() error
		code quoin.Code
	}{
		"too large a piece":  {func() error { _, err := a4.Out(cut.Cut{Piece: size("A3")}); return err }, cut.NothingFits},
		"no piece":           {func() error { _, err := a4.Out(cut.Cut{}); return err }, quoin.MissingField},
		"no piece of a roll": {func() error { _, err := (cut.Roll{}).Out(cut.Cut{}); return err }, quoin.MissingField},
		"a border of all of it": {func() error {
			_, err := cut.Sheet{Size: size("A4"), Border: length("10 cm")}.Out(cut.Cut{Piece: size("A6")})
			return err
		}, cut.NothingFits},
		"an unknown grain": {func() error { _, err := a4.Out(cut.Cut{Piece: size("A6"), Grain: cut.Long}); return err }, cut.UnknownGrain},
		"no length":        {func() error { _, err := a4.Out(cut.Cut{Piece: size("A6"), Gutter: length("3 kg")}); return err }, quoin.UnitMismatch},
		"lengths too fine": {func() error {
			_, err := a4.Out(cut.Cut{Piece: size("A6"), Gutter: length("0.000000000001 mm")})
			return err
		}, cut.TooFine},
		"too narrow a roll": {func() error {
			_, err := cut.Roll{Width: length("20 cm"), Length: length("10 m")}.Out(cut.Cut{Piece: size("A4")})
			return err
		}, cut.NothingFits},
		"too short a stick": {func() error {
			_, err := cut.Stick{Length: length("1 m")}.Out(cut.Rail{Length: length("1.1 m"), Count: 1})
			return err
		}, cut.NothingFits},
		"no rail": {func() error {
			_, err := cut.Stick{Length: length("1 m")}.Out(cut.Rail{Length: length("0 m"), Count: 1})
			return err
		}, cut.NothingFits},
		"too many rails": {func() error {
			_, err := cut.Stick{Length: length("1 m")}.Out(cut.Rail{Length: length("1 cm"), Count: 100_001})
			return err
		}, quoin.TooMany},
		"rails below none": {func() error {
			_, err := cut.Stick{Length: length("1 m")}.Out(cut.Rail{Length: length("1 cm"), Count: -1})
			return err
		}, quoin.OutOfRange},
	} {
		err := c.make()
		if p := problemtest.Only(err); p.Code != c.code || p.Severity != quoin.Fault || p.Found == "" || p.Wanted == "" {
			t.Errorf("%s: %v, want %s", what, err, c.code)
		}
	}
}

// Law 5 and more: units, and turning the sheet with the piece, change nothing.
func TestSheetLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		mm := func(name string, from, to int) quoin.Quantity {
			return quoin.MustQuantity(fmt.Sprintf("%d mm", rapid.IntRange(from, to).Draw(t, name)))
		}
		s := must(quoin.NewSize(mm("width", 100, 900), mm("height", 100, 900)))
		c := cut.Cut{Piece: must(quoin.NewSize(mm("piece width", 10, 300), mm("piece height", 10, 300))), Gutter: mm("gutter", 0, 5), Bleed: mm("bleed", 0, 3)}
		border := mm("border", 0, 20)
		p, err := cut.Sheet{Size: s, Border: border}.Out(c)
		if err != nil {
			return
		}
		inInches, _ := c.Gutter.In("cm")
		other := cut.Cut{Piece: c.Piece.Turned(), Gutter: inInches, Bleed: c.Bleed}
		q, err := cut.Sheet{Size: s.Turned(), Border: border}.Out(other)
		if err != nil || q.Pieces != p.Pieces || q.Bound != p.Bound {
			t.Fatalf("%d, turned and in other units %d of %d, %v", p.Pieces, q.Pieces, q.Bound, err)
		}
		if p.Used.Sign() <= 0 || p.Used.Cmp(quoin.MustRate("100%")) > 0 {
			t.Fatalf("%s used", p.Used)
		}
		explained(t, p.PerPiece(), p.Explain)
	})
}

func explained(t *rapid.T, want quoin.Factor, explain func(*quoin.Trail, quoin.Path) quoin.Operand) {
	trail := quoin.NewTrail(2)
	if got := explain(trail, quoin.InField("quantity")); !got.Value.Factor().Equal(want) {
		t.Fatalf("explained as %s, computed as %s", got.Value, want)
	}
	if err := quoin.Replay(trail.Steps()); err != nil {
		t.Fatal(err)
	}
}

func must[T any](v T, err error) T {
	if err != nil {
		panic(err)
	}
	return v
}

// Rows of two kinds against every number of each.
func TestRollsAgainstEveryMix(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := func(name string, from, to int64) int64 { return rapid.Int64Range(from, to).Draw(t, name) }
		width, long, w, h, g := n("width", 20, 120), n("length", 20, 400), n("w", 5, 60), n("h", 5, 60), n("gutter", 0, 4)
		q := func(n int64) quoin.Quantity { return quoin.MustQuantity(fmt.Sprintf("%d mm", n)) }
		roll := cut.Roll{Width: q(width), Length: q(long)}
		got, err := roll.Out(cut.Cut{Piece: must(quoin.NewSize(q(w), q(h))), Gutter: q(g)})
		var want int64
		lanes := func(piece int64) int64 { return (width + g) / (piece + g) }
		for a := int64(0); a*(h+g) <= long+g; a++ {
			for b := int64(0); a*(h+g)+b*(w+g) <= long+g; b++ {
				want = max(want, a*lanes(w)+b*lanes(h))
			}
		}
		if got.Pieces != want || (err == nil) != (want > 0) {
			t.Fatalf("%d pieces, %v, every mix gives %d", got.Pieces, err, want)
		}
		if err == nil {
			explained(t, got.PerPiece(), got.Explain)
		}
	})
}

// Sticks against trying every way of cutting them, one stick after the other.
func TestSticksAgainstEveryWay(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		kerf := rapid.IntRange(0, 3).Draw(t, "kerf")
		var rails []cut.Rail
		var lengths []int
		for range rapid.IntRange(1, 3).Draw(t, "lengths") {
			l, n := rapid.IntRange(8, 60).Draw(t, "length"), rapid.IntRange(1, 3).Draw(t, "count")
			rails = append(rails, cut.Rail{Length: quoin.MustQuantity(fmt.Sprintf("%d mm", l)), Count: int64(n)})
			for range n {
				lengths = append(lengths, l)
			}
		}
		stick := rapid.IntRange(60, 130).Draw(t, "stick")
		s := cut.Stick{Length: quoin.MustQuantity(fmt.Sprintf("%d mm", stick)), Kerf: quoin.MustQuantity(fmt.Sprintf("%d mm", kerf))}
		got, err := s.Out(rails...)
		if err != nil {
			t.Fatal(err)
		}
		if want := fewest(lengths, nil, stick+kerf, kerf); got.Sticks != int64(want) || !got.Proven {
			t.Fatalf("%d sticks, proven %t, every way gives %d", got.Sticks, got.Proven, want)
		}
		var cutOut int64
		for _, w := range got.Saws {
			for _, r := range w.Rails {
				cutOut += w.Times * r.Count
			}
		}
		if cutOut != int64(len(lengths)) {
			t.Fatalf("%d rails come out of %+v, want %d", cutOut, got.Saws, len(lengths))
		}
	})
}

// fewest puts each rail into every stick that has room, or a new one.
func fewest(rails, rooms []int, stick, kerf int) int {
	if len(rails) == 0 {
		return len(rooms)
	}
	best := len(rails) + len(rooms)
	for i, room := range rooms {
		if room >= rails[0]+kerf {
			rooms[i] -= rails[0] + kerf
			best = min(best, fewest(rails[1:], rooms, stick, kerf))
			rooms[i] = room
		}
	}
	return min(best, fewest(rails[1:], append(rooms[:len(rooms):len(rooms)], stick-rails[0]-kerf), stick, kerf))
}

func BenchmarkRoll(b *testing.B) {
	roll := cut.Roll{Width: length("24 in"), Length: length("50 ft"), Leader: length("2 in"), Tail: length("2 in")}
	for b.Loop() {
		if _, err := roll.Out(cut.Cut{Piece: size("8 x 10 in"), Gutter: length("0.5 in")}); err != nil {
			b.Fatal(err)
		}
	}
}

func BenchmarkSticks(b *testing.B) {
	s := cut.Stick{Length: length("3 m"), Kerf: length("3 mm")}
	for b.Loop() {
		if _, err := s.Out(cut.Rail{Length: length("420 mm"), Count: 20}, cut.Rail{Length: length("557 mm"), Count: 20}); err != nil {
			b.Fatal(err)
		}
	}
}
