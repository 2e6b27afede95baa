package cut

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"
)

// allCuts is the most pieces of w × h, turned as it suits, that guillotine cuts
// at every unit give of each field up to most × most.
func allCuts(most, w, h int) [][]int64 {
	f := make([][]int64, most+1)
	for x := range f {
		f[x] = make([]int64, most+1)
	}
	for x := range f {
		for y := range f {
			var best int64
			if x >= w && y >= h || x >= h && y >= w {
				best = 1
			}
			for c := 1; c <= x/2; c++ {
				best = max(best, f[c][y]+f[x-c][y])
			}
			for c := 1; c <= y/2; c++ {
				best = max(best, f[x][c]+f[x][y-c])
			}
			f[x][y] = best
		}
	}
	return f
}

func bare(w, h, pieceW, pieceH int64) field {
	return field{ruler: ruler{1}, w: w, h: h, pieceW: pieceW, pieceH: pieceH, upright: true, lain: true, whole: w * h}
}

// Every sheet up to 48 × 48 and every piece up to 12 × 12: peeling gives what
// all cuts at every unit give, and no bound is below it.
func TestGuillotineAgainstAllCuts(t *testing.T) {
	const most, largest = 48, 12
	for w := 1; w <= largest; w++ {
		for h := w; h <= largest; h++ {
			want := allCuts(most, w, h)
			r, ok := newRaster(most, int64(w), int64(h))
			if !ok {
				t.Fatalf("no raster for %d × %d", w, h)
			}
			for x := range want {
				for y := range want {
					if got := newRests(r, int64(x), int64(y)).left(int64(x), int64(y)); got != want[x][y] {
						t.Fatalf("%d × %d out of %d × %d: %d, all cuts give %d", w, h, x, y, got, want[x][y])
					}
					if x > 0 && y > 0 && bare(int64(x), int64(y), int64(w), int64(h)).bound() < want[x][y] {
						t.Fatalf("%d × %d out of %d × %d: bound %d, and %d fit", w, h, x, y, bare(int64(x), int64(y), int64(w), int64(h)).bound(), want[x][y])
					}
				}
			}
		}
	}
}

// Cuts at raster points alone give as much as cuts at every unit.
func TestEveryCutAgainstAllCuts(t *testing.T) {
	for _, piece := range [][2]int{{3, 7}, {5, 8}, {4, 6}, {7, 11}, {9, 10}, {6, 6}} {
		const most = 60
		want := allCuts(most, piece[0], piece[1])
		r, _ := newRaster(most, int64(piece[0]), int64(piece[1]))
		for x := 0; x <= most; x += 3 {
			for y := x; y <= most; y += 7 {
				if got := r.everyCut(r.at(int64(x)), r.at(int64(y))); got != want[x][y] {
					t.Errorf("%v out of %d × %d: %d, all cuts give %d", piece, x, y, got, want[x][y])
				}
			}
		}
	}
}

// What is laid out can be cut with a guillotine: the blocks lie apart inside
// the field, and cuts from edge to edge separate them.
func TestLayoutsCanBeCut(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := func(name string, from, to int64) int64 { return rapid.Int64Range(from, to).Draw(t, name) }
		f := bare(side("w", 1, 1200), side("h", 1, 1200), side("piece w", 5, 400), side("piece h", 5, 400))
		blocks, _, _ := f.guillotine(f.bound())
		if n := count(blocks); n < count(f.grid()) || n > f.bound() {
			t.Fatalf("%d pieces, a grid gives %d and the bound is %d", n, count(f.grid()), f.bound())
		}
		for _, b := range blocks {
			if b.across < 1 || b.down < 1 || b.x < 0 || b.y < 0 || b.x+b.across*b.w > f.w || b.y+b.down*b.h > f.h {
				t.Fatalf("%+v is not in %d × %d", b, f.w, f.h)
			}
		}
		if !separable(blocks) {
			t.Fatalf("no cuts separate %+v", blocks)
		}
	})
}

func separable(blocks []block) bool {
	if len(blocks) <= 1 {
		return true
	}
	for _, side := range []func(block) (int64, int64){
		func(b block) (int64, int64) { return b.x, b.x + b.across*b.w },
		func(b block) (int64, int64) { return b.y, b.y + b.down*b.h },
	} {
		for _, at := range blocks {
			_, cut := side(at)
			var before, after []block
			for _, b := range blocks {
				switch from, to := side(b); {
				case to <= cut:
					before = append(before, b)
				case from >= cut:
					after = append(after, b)
				}
			}
			if len(before) > 0 && len(after) > 0 && len(before)+len(after) == len(blocks) {
				return separable(before) && separable(after)
			}
		}
	}
	return false
}

// A larger field never gives fewer, and turning it, or the piece, changes
// nothing.
func TestGuillotineLaws(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := func(name string, from, to int64) int64 { return rapid.Int64Range(from, to).Draw(t, name) }
		f := bare(side("w", 1, 900), side("h", 1, 900), side("piece w", 10, 300), side("piece h", 10, 300))
		most := func(f field) int64 {
			blocks, _, _ := f.guillotine(f.bound())
			return count(blocks)
		}
		n := most(f)
		for what, g := range map[string]field{
			"turned":           bare(f.h, f.w, f.pieceW, f.pieceH),
			"the piece turned": bare(f.w, f.h, f.pieceH, f.pieceW),
		} {
			if got := most(g); got != n {
				t.Fatalf("%s gives %d instead of %d", what, got, n)
			}
		}
		if got := most(bare(f.w+side("wider", 0, 50), f.h+side("higher", 0, 50), f.pieceW, f.pieceH)); got < n {
			t.Fatalf("a larger field gives %d instead of %d", got, n)
		}
	})
}

// Where there are too many raster points the layout is still one, and says that
// it may not be the best.
func TestCoarseLayouts(t *testing.T) {
	f := bare(2_000_000, 1_414_211, 2_111, 3_037)
	blocks, proven, _ := f.guillotine(f.bound())
	if count(blocks) < count(f.grid()) || count(blocks) > f.bound() || !separable(blocks) || proven {
		t.Errorf("%d pieces, a grid gives %d and the bound is %d; proven %t", count(blocks), count(f.grid()), f.bound(), proven)
	}
}

func BenchmarkGuillotine(b *testing.B) {
	for _, c := range [][4]int64{
		{700, 1000, 210, 297},
		{1189, 1682, 105, 148},
		{2000, 2000, 101, 143},
		{2000, 2000, 37, 53},
		{2000, 2000, 20, 31},
		{1999, 1987, 20, 21},
		{2000, 1998, 7, 9},
	} {
		f := bare(c[0], c[1], c[2], c[3])
		b.Run(fmt.Sprintf("%dx%d-out-of-%dx%d", c[2], c[3], c[0], c[1]), func(b *testing.B) {
			for b.Loop() {
				f.guillotine(f.bound())
			}
		})
	}
}
