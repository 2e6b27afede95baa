package pricelist

// blocks collects lots that were cut out of a text, so that many of them are handed on at once.
// None of them waits for more to be read: what is collected is handed on before.
type blocks struct {
	hand   func(work) bool
	decide func(*rawLot) (Answer, error)
	lots   []rawLot
	size   int  // of their texts
	ended  bool // the loop over the answers has
	// What is kept of the text stands in few pieces of memory, many lots one behind the other.
	text   []byte
	placed []placed
}

const (
	blockSize = 32 << 10 // bytes of text after which lots are handed on
	blockLots = 64
)

func newBlocks(from *reading, hand func(work) bool, decide func(*rawLot) (Answer, error)) *blocks {
	b := &blocks{hand: hand, decide: decide}
	from.before = b.flush
	return b
}

// keep returns a copy of a text that stays.
func (b *blocks) keep(text []byte) []byte {
	if len(text) > cap(b.text)-len(b.text) {
		b.text = make([]byte, 0, max(blockSize, len(text)))
	}
	from := len(b.text)
	b.text = append(b.text, text...)
	return b.text[from:len(b.text):len(b.text)]
}

// one returns a list of one product.
func (b *blocks) one(p placed) []placed {
	if len(b.placed) == cap(b.placed) {
		b.placed = make([]placed, 0, blockLots)
	}
	n := len(b.placed)
	b.placed = append(b.placed, p)
	return b.placed[n : n+1 : n+1]
}

// add adds a lot; false where the loop over the answers has ended.
func (b *blocks) add(l rawLot) bool {
	if b.lots == nil {
		b.lots = make([]rawLot, 0, blockLots)
	}
	b.lots = append(b.lots, l)
	if b.size += l.size; b.size < blockSize && len(b.lots) < blockLots {
		return true
	}
	return b.flush()
}

// flush hands on what was collected; false where the loop over the answers has ended.
func (b *blocks) flush() bool {
	lots := b.lots
	if b.lots, b.size = nil, 0; lots != nil && !b.ended {
		b.ended = !b.hand(work{len(lots), func(i int) (Answer, error) { return b.decide(&lots[i]) }})
	}
	return !b.ended
}
