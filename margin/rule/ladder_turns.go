package rule

import "math/bits"

// turns is which pairs have to be met, gone through in rounds: in each, in the order of
// their numbers, those that are marked when their turn comes. So it goes as if every round
// met all pairs, without those at which nothing could move.
type turns struct {
	marked []uint64
	left   int // how many are marked
	at     int // the next one of this round
	low    int // the next round forth has none before it
	// forthAndBack lets every other round go back: along a ladder one end of the prices
	// moves forth, and the other one back.
	forthAndBack, back bool
	sum                uint64 // of the weights of the marked ones, which tells sets of them apart
}

func newTurns(pairs int, forthAndBack bool) turns {
	return turns{marked: make([]uint64, (pairs+63)/64), forthAndBack: forthAndBack}
}

func (t *turns) mark(pair int) {
	word, bit := pair/64, uint64(1)<<(pair%64)
	if t.marked[word]&bit == 0 {
		t.marked[word] |= bit
		t.left++
		t.sum += weight(pair)
		t.low = min(t.low, pair)
	}
}

// weight spreads small numbers over 64 bits.
func weight(pair int) uint64 {
	x := (uint64(pair) + 1) * 0x9e3779b97f4a7c15
	x ^= x >> 29
	return x * 0xbf58476d1ce4e5b9
}

// next takes the next pair of this round; false at the end of it.
func (t *turns) next() (pair int, ok bool) {
	if t.left > 0 {
		pair, ok = t.seek()
	}
	if !ok {
		t.turn()
		return 0, false
	}
	t.marked[pair/64] &^= 1 << (pair % 64)
	t.left--
	t.sum -= weight(pair)
	t.at = pair + 1
	if t.back {
		t.at = pair - 1
	}
	return pair, true
}

// turn begins the next round.
func (t *turns) turn() {
	end := 64*len(t.marked) - 1
	t.back = t.forthAndBack && !t.back
	switch {
	case t.back:
		t.at = end
	case t.left == 0:
		t.at, t.low = 0, end
	default:
		t.at, t.low = t.low, end
	}
}

// clear takes away every mark.
func (t *turns) clear() {
	if t.left > 0 {
		clear(t.marked)
	}
	t.left, t.sum, t.back = 0, 0, t.forthAndBack
	t.turn()
}

// seek returns the next marked pair from at on.
func (t *turns) seek() (pair int, ok bool) {
	if t.back {
		for word := t.at >> 6; word >= 0; word-- {
			behind := t.marked[word]
			if word == t.at>>6 {
				behind &= ^uint64(0) >> (63 - t.at&63)
			}
			if behind != 0 {
				return 64*word + bits.Len64(behind) - 1, true
			}
		}
		return 0, false
	}
	for word := t.at / 64; word < len(t.marked); word++ {
		ahead := t.marked[word]
		if word == t.at/64 {
			ahead &= ^uint64(0) << (t.at % 64)
		}
		if ahead != 0 {
			return 64*word + bits.TrailingZeros64(ahead), true
		}
	}
	return 0, false
}
