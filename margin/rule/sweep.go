package rule

import "math/bits"

// sweep is which pairs have to be met, gone through in rounds: in each, in the order
// of their numbers, those that are marked when their turn comes. So it goes as if
// every round met all pairs, without those at which nothing could move.
type sweep struct {
	marked []uint64
	left   int // how many are marked
	at     int // where this round goes on
	low    int // where the next one begins
}

func newSweep(pairs int) sweep {
	w := sweep{marked: make([]uint64, (pairs+63)/64)}
	w.at, w.low = w.end(), w.end()
	return w
}

func (w *sweep) end() int { return 64 * len(w.marked) }

func (w *sweep) mark(pair int) {
	word, bit := pair/64, uint64(1)<<(pair%64)
	if w.marked[word]&bit != 0 {
		return
	}
	w.marked[word] |= bit
	w.left++
	if pair < w.at {
		w.low = min(w.low, pair)
	}
}

// next takes the next pair of this round; false at the end of it.
func (w *sweep) next() (pair int, ok bool) {
	for w.left > 0 && w.at < w.end() {
		word := w.at / 64
		ahead := w.marked[word] >> (w.at % 64)
		if ahead == 0 {
			w.at = 64 * (word + 1)
			continue
		}
		pair = w.at + bits.TrailingZeros64(ahead)
		w.marked[word] &^= 1 << (pair % 64)
		w.left--
		w.at = pair + 1
		return pair, true
	}
	w.at, w.low = w.low, w.end()
	return 0, false
}

// clear takes away every mark.
func (w *sweep) clear() {
	for w.left > 0 {
		w.next()
	}
	w.at, w.low = w.end(), w.end()
}
