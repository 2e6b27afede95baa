package cut

import (
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// oneByOne is what coarse says, by laying each out.
func oneByOne(f field) []block {
	best := f.grid()
	for kind := range 4 {
		w, h := f.w, f.h
		for n := int64(1); n <= mostStrips; n++ {
			s := f.strips(0, 0, f.w, f.h)[kind]
			if w, h = s.rest(w, h); w < 0 || h < 0 {
				break
			}
			rest := f
			rest.w, rest.h = w, h
			blocks := rest.grid()
			for i := range blocks {
				blocks[i].x, blocks[i].y = f.w-w, f.h-h
			}
			if s.column {
				s.across = n
			} else {
				s.down = n
			}
			if blocks = append(blocks, s.block); count(blocks) > count(best) {
				best = blocks
			}
		}
	}
	return best
}

func TestCoarseIsOneByOne(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := func(name string, from, to int64) int64 { return rapid.Int64Range(from, to).Draw(t, name) }
		f := field{w: n("w", 1, 900), h: n("h", 1, 900), pieceW: n("piece w", 1, 60), pieceH: n("piece h", 1, 60), upright: true, lain: true}
		if got, want := f.coarse(), oneByOne(f); !slices.Equal(got, want) {
			t.Fatalf("%+v: %v, want %v", f, got, want)
		}
	})
}
