package cut

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// points are the sums i·w + j·h up to a length, by their definition.
func points(length, w, h int64) []int64 {
	var out []int64
	for x := range length + 1 {
		for i := int64(0); i*w <= x; i++ {
			if (x-i*w)%h == 0 {
				out = append(out, x)
				break
			}
		}
	}
	return out
}

// However the points of a raster are found, they are those of its definition; below each stands the
// greatest that is left without a side, and how often that side goes into it.
func TestRasterIsItsDefinition(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		side := func(name string, from, to int64) int64 { return rapid.Int64Range(from, to).Draw(t, name) }
		length, w, h := side("length", 0, 500), side("w", 1, 90), side("h", 1, 90)
		want := points(length, w, h)
		if got := summed(length, w, h); !slices.Equal(got, want) {
			t.Fatalf("sums of %d and %d up to %d: %v, want %v", w, h, length, got, want)
		}
		r, ok := newRaster(length, w, h)
		if !ok || !slices.Equal(r.points, want) {
			t.Fatalf("raster of %d and %d up to %d: %v, want %v", w, h, length, r.points, want)
		}
		for i, x := range want {
			if int64(r.countsW[i]) != x/w || int64(r.countsH[i]) != x/h {
				t.Fatalf("%d and %d go into %d %d and %d times", w, h, x, r.countsW[i], r.countsH[i])
			}
			for by, less := range map[int64][]int32{w: r.lessW, h: r.lessH} {
				left := -1 // place of the greatest point up to x − by
				for k, y := range want {
					if y <= x-by {
						left = k
					}
				}
				if w != h && int(less[i]) != left {
					t.Fatalf("%d less %d is point %d, want %d", x, by, less[i], left)
				}
			}
		}
	})
}

// How many points there may be: 3,000; and of a length beyond 60,000 units so many sums.
func TestRasterBounds(t *testing.T) {
	for _, c := range []struct {
		length, w, h int64
		points       int // 0 where there is no raster
	}{
		{2999, 1, 2, 3000},
		{3000, 1, 2, 0},
		{60_000, 600, 900, 200},      // multiples of 300, but 300 itself
		{60_001, 600, 900, 200},      //
		{1_000_000, 3344, 5016, 598}, // 300 × 200 sums, multiples of 1,672 but itself, up to 598
		{1_000_000, 4082, 4082, 0},   // 245 × 245 = 60,025 sums
		{1_000_000, 4099, 4099, 244}, // 244 × 244 = 59,536
		{1_000_000, 3333, 5000, 0},   // 301 × 201
		{1_000_000_000, 1, 1, 0},     //
	} {
		r, ok := newRaster(c.length, c.w, c.h)
		if ok != (c.points > 0) || ok && len(r.points) != c.points {
			t.Errorf("%d by %d and %d: %d points, %t, want %d", c.length, c.w, c.h, len(r.points), ok, c.points)
		}
	}
}

// A field a thousand times as large in finer units, beyond what is gone through unit by unit, is
// laid out alike, after as long a search.
func TestFinerUnitsChangeNothing(t *testing.T) {
	both, large := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		side := func(name string, from, to int64) int64 { return rapid.Int64Range(from, to).Draw(t, name) }
		f, by := bare(side("w", 1, 900), side("h", 1, 900), side("piece w", 20, 300), side("piece h", 20, 300)), side("finer", 50, 3000)
		fine := bare(f.w*by, f.h*by, f.pieceW*by, f.pieceH*by)
		want, proven, searched := f.guillotine(f.bound())
		got, provenToo, searchedToo := fine.guillotine(fine.bound())
		for i := range want {
			want[i].x, want[i].y, want[i].w, want[i].h = want[i].x*by, want[i].y*by, want[i].w*by, want[i].h*by
		}
		if !slices.Equal(got, want) || proven != provenToo || searched != searchedToo {
			t.Fatalf("%+v and %d times as fine: %v, %t, %d; %v, %t, %d", f, by, want, proven, searched, got, provenToo, searchedToo)
		}
		if len(got) > 1 {
			both++
		}
		if max(fine.w, fine.h) > mostSieved && count(got) > 0 {
			large++
		}
	})
	if both == 0 || large == 0 {
		t.Errorf("drawn: %d with more than a block, %d large", both, large)
	}
}

// What is as large as the field fits, what is larger does not, and so many pieces that rests cannot count
// them are laid out as a grid.
func TestFieldsAtTheEnds(t *testing.T) {
	for _, c := range []struct {
		w, h, pieceW, pieceH int64
		bound, pieces        int64
		proven               bool
		searched             int64
	}{
		{10, 10, 20, 30, 0, 0, true, 0},
		{10, 100, 20, 30, 0, 0, false, 2},
		{25, 28, 20, 30, 0, 0, true, 0},
		{30, 10, 30, 10, 1, 1, true, 4 * 2},
		{30, 10, 10, 30, 1, 1, true, 4 * 2},
		{20, 20, 20, 20, 1, 1, true, 4},
		{600, 600, 2, 2, 90_000, 90_000, false, coarseSearched},
		{512, 510, 2, 2, 65_280, 65_280, true, 257 * 256},
	} {
		f := bare(c.w, c.h, c.pieceW, c.pieceH)
		blocks, proven, searched := f.guillotine(f.bound())
		if f.bound() != c.bound || count(blocks) != c.pieces {
			t.Errorf("%v: %d of at most %d", c, count(blocks), f.bound())
		}
		if c.bound > 0 && (proven != c.proven || searched != c.searched) || c.searched == 0 && (!proven || searched != 0) {
			t.Errorf("%v: proven %t, %d searched", c, proven, searched)
		}
	}
}
