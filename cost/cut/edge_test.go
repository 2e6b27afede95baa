package cut_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost/cut"
)

// A gripper holds sound paper, beside the border: 100 × 100 mm with a border of 5 mm
// have 90 × 90 mm, and with a grip of 10 mm 90 × 80 mm. Pieces of 45 × 41 mm lie two
// side by side; two above each other take 82 mm. Were the grip a part of the border
// there would be 85 mm.
func TestGripIsLostBesideTheBorder(t *testing.T) {
	sheet := cut.Sheet{Size: size("100 x 100 mm"), Border: length("5 mm")}
	for _, c := range []struct {
		grip   string
		pieces int64
	}{{"0 mm", 4}, {"8 mm", 4}, {"8.1 mm", 2}, {"10 mm", 2}} {
		got, err := sheet.Out(cut.Cut{Piece: size("45 x 41 mm"), Grip: length(c.grip), Layout: cut.Grid})
		if err != nil || got.Pieces != c.pieces {
			t.Errorf("a grip of %s: %d pieces, %v, want %d", c.grip, got.Pieces, err, c.pieces)
		}
	}
}

// Thirds of an inch are no finite decimals, and still three of 3 2/3 in fill 11 in. They do so when
// they were written and read again.
func TestThirdsOfAnInch(t *testing.T) {
	piece := size("3 2/3 x 2 1/3 in")
	for _, p := range []quoin.Size{piece, size(piece.String())} {
		got, err := cut.Sheet{Size: size("11 x 7 in")}.Out(cut.Cut{Piece: p})
		if err != nil || got.Pieces != 9 || got.Used.String() != "100%" {
			t.Errorf("%s: %d pieces, %v, want 9", p, got.Pieces, err)
		}
	}
}

// The fibres of a roll run along its length. On 60 cm × 100 cm a piece of 20 × 30 cm
// with long grain lies along the roll, three in each of three rows; with short grain
// across it, two in each of five. Which way its size is written changes nothing, and
// a square lies either way.
func TestGrainOfARoll(t *testing.T) {
	roll := cut.Roll{Width: length("60 cm"), Length: length("100 cm")}
	for _, c := range []struct {
		piece  string
		grain  cut.Grain
		pieces int64
	}{
		{"20 x 30 cm", cut.Long, 9},
		{"30 x 20 cm", cut.Long, 9},
		{"20 x 30 cm", cut.Short, 10},
		{"30 x 20 cm", cut.Short, 10},
		{"20 x 20 cm", cut.Long, 15},
		{"20 x 20 cm", cut.Short, 15},
	} {
		got, err := roll.Out(cut.Cut{Piece: size(c.piece), Grain: c.grain})
		if err != nil || got.Pieces != c.pieces {
			t.Errorf("%s with %s grain: %d pieces, %v, want %d", c.piece, c.grain, got.Pieces, err, c.pieces)
		}
	}
}

// Behind the last rail no kerf is lost: with a kerf of 5 mm a stick of 1 m gives
// three rails of 330 mm, 330 + 5 + 330 + 5 + 330; of 331 mm it gives two.
func TestNoKerfBehindTheLastRail(t *testing.T) {
	for _, c := range []struct {
		stick, trim, rail string
		sticks            int64
	}{{"1000 mm", "0 mm", "330 mm", 1}, {"1000 mm", "0 mm", "331 mm", 2}, {"1010 mm", "5 mm", "330 mm", 1}, {"1009 mm", "5 mm", "330 mm", 2}} {
		got, err := cut.Stick{Length: length(c.stick), Kerf: length("5 mm"), Trim: length(c.trim)}.Out(cut.Rail{Length: length(c.rail), Count: 3})
		if err != nil || got.Sticks != c.sticks {
			t.Errorf("three of %s: %d sticks of %s, %v, want %d", c.rail, got.Sticks, c.stick, err, c.sticks)
		}
	}
}
