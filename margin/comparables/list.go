package comparables

import (
	"math/big"
	"math/bits"

	"example.com/quoin"
	"example.com/quoin/internal/int128"
)

// List is the records of one product, to be ranked in several ways. Records are sorted by
// logarithms: of their prices, on the basis of their own sizes, and of how much larger the
// product is. Powers would take a thousand times as long. The logarithms are computed once for
// all rankings, so a List is not safe for concurrent use.
type List struct {
	records []Record
	of      quoin.Size // of the product

	asks [2][]int64 // as they are, and on a basis without size; nowhere where nothing is left
	size []int64    // of the product ÷ its own; nowhere where one is not known
	odd  bool       // some price is not above zero, so that it has no logarithm
}

// NewList returns a list of records of a product. Size is the size of the product, or zero if
// it is unknown. The list keeps the records as they are.
func NewList(records []Record, size quoin.Size) *List { return &List{records: records, of: size} }

// nowhere is no logarithm.
const nowhere = -1 << 62

// logPlaces is how many binary places logarithms have. They are off by a few thousands
// of the last.
const logPlaces = 52

// fewKeys is up to how many comparables logarithms are no gain, unless prices are powers.
const fewKeys = 64

// ready makes the logarithms, once.
func (l *List) ready() *List {
	if l.size != nil {
		return l
	}
	n := len(l.records)
	l.asks, l.size = [2][]int64{make([]int64, n), make([]int64, n)}, make([]int64, n)
	own, sizes := int64(nowhere), make(map[areaKey]int64)
	if !l.of.IsZero() {
		own = logOf(l.of.Area().Number().Rat())
	}
	for i := range l.records {
		r := &l.records[i]
		l.asks[0][i], l.asks[1][i], l.size[i] = logOf(r.Price.Rat()), nowhere, nowhere
		l.odd = l.odd || r.Price.Sign() <= 0
		if bare, ok := r.Bare(); ok {
			l.asks[1][i] = logOf(bare.Rat()) - logOf(r.Tax.OnePlus().Rat())
		}
		if own == nowhere || r.Size.IsZero() {
			continue
		}
		number := r.Size.Area().Number()
		key := keyOf(number)
		area, known := sizes[key]
		if !known {
			area = logOf(number.Rat())
			sizes[key] = area
		}
		l.size[i] = own - area
	}
	return l
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

// keys are the logarithms of the prices of comparables on a basis, but for the
// tax that all of them are to hold; nowhere where one cannot be brought there. Nil where they
// are no gain, or the exponent is no short number.
func (l *List) keys(b *Basis) []int64 {
	exponent, sized := quoin.Factor{}, false
	if b != nil {
		exponent, sized = b.Exponent.Get()
	}
	if len(l.records) <= fewKeys && (!sized || exponent.Rat().IsInt()) || l.ready().odd {
		return nil
	}
	if b == nil {
		return l.asks[0]
	}
	if !sized {
		return l.asks[1]
	}
	e := exponent.Rat()
	if !e.Num().IsInt64() || !e.Denom().IsInt64() {
		return nil
	}
	num, over := e.Num().Int64(), uint64(e.Denom().Int64())
	out := make([]int64, len(l.size))
	for i, size := range l.size {
		out[i] = nowhere
		if l.asks[1][i] == nowhere || size == nowhere {
			continue
		}
		hi, lo := bits.Mul64(uint64(max(size, -size)), uint64(max(num, -num)))
		if hi >= over {
			return nil
		}
		times, _ := bits.Div64(hi, lo, over)
		if times > 1<<61 {
			return nil
		}
		out[i] = l.asks[1][i] + int64(times)
		if (size < 0) != (num < 0) {
			out[i] = l.asks[1][i] - int64(times)
		}
	}
	return out
}
