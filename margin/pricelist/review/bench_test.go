package review_test

import (
	"os"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/review"
)

// sizes is a shop of two sizes in four channels, and the same with its first n supplies
// dearer by a tenth.
func sizes(b *testing.B, n int) (last, now pricelist.Document) {
	last = must(pricelist.Decode(must(os.ReadFile("../testdata/cases/02-two-sizes-four-channels.json"))(b)))(b)
	now = last
	now.Supplies = append(now.Supplies[:0:0], last.Supplies...)
	for i := range n {
		now.Supplies[i].Price = now.Supplies[i].Price.Times(quoin.MustFactor("1.1"))
	}
	return last, now
}

func BenchmarkCompare(b *testing.B) {
	for _, c := range []struct {
		name string
		n    int
	}{{"ThreeChanges", 3}, {"EightChanges", 8}, {"NineChanges", 9}} {
		b.Run(c.name, func(b *testing.B) {
			last, now := sizes(b, c.n)
			for b.Loop() {
				if _, err := review.Compare(last, nil, now, quoin.MustRate("10%")); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkSensitivity(b *testing.B) {
	doc, _ := sizes(b, 0)
	for b.Loop() {
		if _, err := review.Sensitivity(doc, quoin.MustRate("10%")); err != nil {
			b.Fatal(err)
		}
	}
}
