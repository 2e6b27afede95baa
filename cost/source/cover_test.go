package source_test

import (
	"testing"

	"pgregory.net/rapid"
)

// What so many prints cost is the least of any order that covers them, by trying all
// orders up to far beyond the last price.
func TestQuotesAgainstEveryOrder(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		q := drawQuote(t, "house")
		needed := rapid.Int64Range(1, 260).Draw(t, "needed")
		best, least := int64(0), q.Scale.Cost(1)
		for n := needed; n <= 2500; n++ {
			if q.Scale.Sold(n) != n {
				continue // which is not sold
			}
			if cost := q.Scale.Cost(n); best == 0 || cost.Cmp(least) < 0 {
				best, least = n, cost
			}
		}
		if got := q.Ordered(needed); got != best {
			t.Fatalf("%d needed: %d are ordered, for %s; %d cost %s\n%+v", needed, got, q.Scale.Cost(got), best, least, q.Scale)
		}
		if want := least.Add(q.Setup).Add(q.Proof); !q.Cost(needed).Equal(want) {
			t.Fatalf("%d needed cost %s, want %s", needed, q.Cost(needed), want)
		}
	})
}
