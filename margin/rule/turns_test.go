package rule_test

import (
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin/margin/rule"
)

// In each round marked pairs come in the order of their numbers, or back in every other round: what is
// marked ahead comes in this round, and what is marked behind in the next. Equal sets of marks have
// equal sums, and others have others.
func TestTurnsGoRound(t *testing.T) {
	taken, behind, backward := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		n := rapid.SampledFrom([]int{1, 7, 63, 64, 65, 128, 130, 200}).Draw(t, "pairs")
		both := rapid.Bool().Draw(t, "forth and back")
		r := rule.NewRounds(n, both)
		marked, at, back := make([]bool, n), 0, false // at is the next one of this round
		begins := false                               // a round
		sums := make(map[uint64]string)
		for range 150 {
			switch rapid.IntRange(0, 40).Draw(t, "move") {
			case 0:
				r.Clear()
				clear(marked)
				at, back, begins = 0, false, false
			case 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12, 13, 14:
				if begins && r.Left() > 0 {
					break // pairs are marked while others are met, and before the first round
				}
				pair := rapid.IntRange(0, n-1).Draw(t, "pair")
				if r.Mark(pair); back && pair > at || !back && pair < at {
					behind++
				}
				marked[pair] = true
			default:
				want, step := at, 1
				if back {
					step = -1
				}
				for want >= 0 && want < n && !marked[want] {
					want += step
				}
				wanted := want >= 0 && want < n
				got, ok := r.Next()
				begins = !ok
				if ok != wanted || ok && got != want {
					t.Fatalf("of %v from %d, back %t: %d, %t, want %d, %t", marked, at, back, got, ok, want, wanted)
				}
				if !ok {
					back, at = both && !back, 0
					if back {
						at = n - 1
					}
					break
				}
				taken++
				if marked[got] = false; back {
					backward++
					at = got - 1
				} else {
					at = got + 1
				}
			}
			left, key := 0, ""
			for p, in := range marked {
				if in {
					left++
					key += string(rune('0' + p))
				}
			}
			if of, known := sums[r.Sum()]; r.Left() != left || known && of != key {
				t.Fatalf("%d are left of %v", r.Left(), marked)
			}
			sums[r.Sum()] = key
		}
	})
	if taken < 500 || behind < 100 || backward < 100 {
		t.Errorf("only %d taken, %d of them marked behind, %d on the way back", taken, behind, backward)
	}
}
