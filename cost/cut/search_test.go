package cut_test

import (
	"testing"

	"example.com/quoin/cost/cut"
)

// BenchmarkSearches lays out what takes longest of each kind of search.
func BenchmarkSearches(b *testing.B) {
	for name, c := range map[string]struct{ sheet, piece string }{
		"coarse":     {"100 x 100 m", "1 x 1.3 mm"},
		"many-rests": {"2900 x 2999 mm", "31 x 43 mm"},
		"most-rests": {"5900 x 5999 mm", "81 x 101 mm"},
		"every-cut":  {"1000 x 1400 mm", "110 x 150 mm"},
		"grid":       {"100 x 100 m", "1 x 1 mm"},
	} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := (cut.Sheet{Size: size(c.sheet)}).Out(cut.Cut{Piece: size(c.piece)}); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	b.Run("sticks", func(b *testing.B) {
		for b.Loop() {
			_, _ = cut.Stick{Length: length("3 m"), Kerf: length("3 mm")}.Out(cut.Rail{Length: length("131 mm"), Count: 300}, cut.Rail{Length: length("167 mm"), Count: 300})
		}
	})
	b.Run("more-sticks", func(b *testing.B) {
		for b.Loop() {
			_, _ = cut.Stick{Length: length("3 m"), Kerf: length("3 mm")}.Out(cut.Rail{Length: length("131 mm"), Count: 40}, cut.Rail{Length: length("167 mm"), Count: 40}, cut.Rail{Length: length("211 mm"), Count: 40})
		}
	})
	b.Run("roll", func(b *testing.B) {
		for b.Loop() {
			_, _ = cut.Roll{Width: length("1118 mm"), Length: length("100 km")}.Out(cut.Cut{Piece: size("311.111 x 431.113 mm")})
		}
	})
}

// What a search goes through grows with the pieces, and not with what needs none.
func TestWhatIsSearched(t *testing.T) {
	search := func(sheet, piece string, layout cut.Layout) int64 {
		t.Helper()
		s, c := cut.Sheet{Size: size(sheet)}, cut.Cut{Piece: size(piece), Layout: layout}
		plan, searched, err := s.Search(c)
		out, err2 := s.Out(c)
		if err != nil || err2 != nil || plan.Pieces != out.Pieces {
			t.Fatalf("%d pieces, %v; %d, %v", plan.Pieces, err, out.Pieces, err2)
		}
		return searched
	}
	few, more, most := search("1000 x 1400 mm", "171 x 223 mm", ""), search("1000 x 1400 mm", "71 x 93 mm", ""), search("2900 x 2999 mm", "31 x 43 mm", "")
	if grid := search("2900 x 2999 mm", "31 x 43 mm", cut.Grid); grid != 0 || few <= 0 || more <= 0 || most <= 100*more || most <= 100*few {
		t.Errorf("%d for a grid, %d, %d and %d rests", grid, few, more, most)
	}
	sticks, err := cut.Stick{Length: length("3 m")}.Out(cut.Rail{Length: length("131 mm"), Count: 300}, cut.Rail{Length: length("167 mm"), Count: 300})
	if n := sticks.Searched(); err != nil || n < 301*301 || n > 4_000_000 {
		t.Errorf("%d trials, %v", n, err)
	}
	one, err := cut.Stick{Length: length("3 m")}.Out(cut.Rail{Length: length("131 mm"), Count: 300})
	if n := one.Searched(); err != nil || n > 301 {
		t.Errorf("%d trials for one length, %v", n, err)
	}
}
