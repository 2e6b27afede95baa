package rule

import (
	"math/big"
	"math/bits"

	"example.com/quoin"
	"example.com/quoin/internal/int128"
)

// marketKeys are the comparables of an item with logarithms of what they ask, on the basis of
// their own sizes, and of how much larger the item is: by these they are put in order
// without powers, which take a thousand times as long. They are made once for all rules.
type marketKeys struct {
	of   *Item
	asks [2][]int64 // as they are, and on a basis without size; nowhere where nothing is left
	size []int64    // of the item ÷ its own; nowhere where one is not known
	odd  bool       // some price is not above zero, so that it has no logarithm
}

// nowhere is no logarithm.
const nowhere = -1 << 62

// logPlaces is how many binary places logarithms have. They are off by a few thousands
// of the last.
const logPlaces = 52

// fewKeys is up to how many comparables logarithms are no gain, unless prices are powers.
const fewKeys = 64

// ready makes the logarithms, once.
func (m *marketKeys) ready() *marketKeys {
	if m.size != nil {
		return m
	}
	n := len(m.of.Comparables)
	m.asks, m.size = [2][]int64{make([]int64, n), make([]int64, n)}, make([]int64, n)
	own, sizes := int64(nowhere), make(map[areaKey]int64)
	if !m.of.Size.IsZero() {
		own = logOf(m.of.Size.Area().Number().Rat())
	}
	for i, c := range m.of.Comparables {
		m.asks[0][i], m.asks[1][i], m.size[i] = logOf(c.Price.Rat()), nowhere, nowhere
		m.odd = m.odd || c.Price.Sign() <= 0
		if bare, ok := c.bare(); ok {
			m.asks[1][i] = logOf(bare.Rat()) - logOf(c.Tax.OnePlus().Rat())
		}
		if own == nowhere || c.Size.IsZero() {
			continue
		}
		number := c.Size.Area().Number()
		key := keyOf(number)
		area, known := sizes[key]
		if !known {
			area = logOf(number.Rat())
			sizes[key] = area
		}
		m.size[i] = own - area
	}
	return m
}

// logOf is the logarithm to base 2 of a number above zero.
func logOf(x *big.Rat) int64 { return logOfInt(x.Num()) - logOfInt(x.Denom()) }

// logOfInt is the logarithm to base 2 with logPlaces binary places, cut.
func logOfInt(n *big.Int) int64 {
	if n.Sign() <= 0 {
		return nowhere
	}
	length := n.BitLen()
	var m uint64
	if length > 64 {
		m = new(big.Int).Rsh(n, uint(length-64)).Uint64()
	} else {
		m = n.Uint64() << (64 - length)
	}
	return int64(length-1)<<logPlaces | int128.Log2(m, logPlaces)
}

// keys are the logarithms of the prices of comparables on the rule's basis, but for the
// tax that all of them are to hold; nowhere where one cannot be brought there. False where
// they are no gain, or the exponent is no short number.
func (m *marketKeys) keys(b *Basis) ([]int64, bool) {
	exponent, sized := quoin.Factor{}, false
	if b != nil {
		exponent, sized = b.Exponent.Get()
	}
	if len(m.of.Comparables) <= fewKeys && (!sized || exponent.Rat().IsInt()) || m.ready().odd {
		return nil, false
	}
	if b == nil {
		return m.asks[0], true
	}
	if !sized {
		return m.asks[1], true
	}
	e := exponent.Rat()
	if !e.Num().IsInt64() || !e.Denom().IsInt64() {
		return nil, false
	}
	num, over := e.Num().Int64(), uint64(e.Denom().Int64())
	out := make([]int64, len(m.size))
	for i, size := range m.size {
		out[i] = nowhere
		if m.asks[1][i] == nowhere || size == nowhere {
			continue
		}
		hi, lo := bits.Mul64(uint64(max(size, -size)), uint64(max(num, -num)))
		if hi >= over {
			return nil, false
		}
		times, _ := bits.Div64(hi, lo, over)
		if times > 1<<61 {
			return nil, false
		}
		out[i] = m.asks[1][i] + int64(times)
		if (size < 0) != (num < 0) {
			out[i] = m.asks[1][i] - int64(times)
		}
	}
	return out, true
}
