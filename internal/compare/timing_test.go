package compare

import (
	"testing"

	"example.com/quoin"
)

func BenchmarkSettle(b *testing.B) {
	for _, p := range Peers() {
		b.Run(p.Name, p.TimeSettle)
	}
}

func BenchmarkSheet(b *testing.B) {
	for _, p := range Peers() {
		b.Run(p.Name, p.TimeSheet)
	}
}

// BenchmarkHandOver is what quoin's times hold only because cents are handed in
// and out of each peer: an Amount out of an integer, and an integer out of it.
func BenchmarkHandOver(b *testing.B) {
	b.ReportAllocs()
	cents := int64(500)
	for b.Loop() {
		quoinCents(quoin.AmountOf(cents, 2))
		cents = next(cents)
	}
}

func TestNextStaysWithinItsPrices(t *testing.T) {
	seen := map[int64]bool{}
	for cents := int64(500); !seen[cents]; cents = next(cents) {
		if cents < 500 || cents > 20000 {
			t.Fatalf("%d cents", cents)
		}
		seen[cents] = true
	}
	if len(seen) != 19501 {
		t.Errorf("%d prices before the first comes again, want all 19501", len(seen))
	}
}
