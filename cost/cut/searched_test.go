package cut_test

import (
	"testing"

	"example.com/quoin/cost/cut"
)

// How much is looked at, counted by hand. Of 200 × 300 out of 500 × 700 the sums of sides up to 700 are
// 0, 200, 300, 400, 500, 600, 700; peeling comes from 500 to 500, 300, 200, 0 and from 700 to 700, 500,
// 400, 300, 200, 0: 4 × 6 rests, and the bound is met. Of 9 × 12 out of 23 × 35 the sums are 0, 9, 12, 18,
// 21, 24, 27, 30, 33; peeling comes to 21, 12, 9, 0 and 33, 24, 21, 12, 9, 0, and a bound of 7 is not met:
// 9³ ÷ 4 = 182 more.
func TestSearchedByHand(t *testing.T) {
	for _, c := range []struct {
		sheet, piece string
		want         int64
	}{{"500 x 700 mm", "200 x 300 mm", 24}, {"700 x 500 mm", "300 x 200 mm", 24}, {"23 x 35 in", "9 x 12 in", 24 + 182}} {
		if _, got, err := (cut.Sheet{Size: size(c.sheet)}).Search(cut.Cut{Piece: size(c.piece)}); got != c.want || err != nil {
			t.Errorf("%s out of %s: %d, %v, want %d", c.piece, c.sheet, got, err, c.want)
		}
	}
	rail := func(l string, n int64) cut.Rail { return cut.Rail{Length: length(l), Count: n} }
	stick := cut.Stick{Length: length("1 m")}
	for _, c := range []struct {
		rails []cut.Rail
		want  int64
	}{
		{nil, 1},
		{[]cut.Rail{rail("400 mm", 2)}, 3}, // none, one or two left
		{[]cut.Rail{rail("400 mm", 2), rail("300 mm", 2)}, 27},               // 3 × 3 states, and two or fewer of a length out of a stick
		{[]cut.Rail{rail("400 mm", 5), rail("300 mm", 5)}, 36 * 4},           // 6 × 6, and three of 300 at most
		{[]cut.Rail{rail("40 mm", 400), rail("30 mm", 400)}, 1},              // 401 × 401 are not gone through
		{[]cut.Rail{rail("31 mm", 300), rail("29 mm", 300)}, 301 * 301 * 35}, // 34 of 29 at most
	} {
		got, err := stick.Out(c.rails...)
		if err != nil || got.Searched() != c.want {
			t.Errorf("%v: %d, %v, want %d", c.rails, got.Searched(), err, c.want)
		}
	}
}

// Blocks lie within the border, above the grip, and apart: 710 × 520 mm have 700 × 500 within, from 5 and 15
// to 705 and 515 mm, and five pieces of 200 × 300 mm.
func TestBlocksAboveEachOther(t *testing.T) {
	got, err := cut.Sheet{Size: size("710 x 520 mm"), Border: length("5 mm")}.Out(cut.Cut{Piece: size("200 x 300 mm"), Grip: length("10 mm")})
	if err != nil || got.Pieces != 5 {
		t.Fatalf("%v, %v", got, err)
	}
	type rectangle struct{ left, low, right, high float64 }
	var all []rectangle
	for _, b := range got.Blocks {
		x, y, w, h := b.X.Float64(), b.Y.Float64(), b.Pitch.Width().Float64(), b.Pitch.Height().Float64()
		r := rectangle{x, y, x + float64(b.Across)*w, y + float64(b.Down)*h}
		if r.left < 5 || r.low < 15 || r.right > 705 || r.high > 515 {
			t.Errorf("%v is not within", r)
		}
		for _, other := range all {
			if r.left < other.right && other.left < r.right && r.low < other.high && other.low < r.high {
				t.Errorf("%v lies on %v", r, other)
			}
		}
		all = append(all, r)
	}
	if all[0].left != 5 || all[0].low != 15 {
		t.Errorf("the first begins at %v", all[0])
	}
}
