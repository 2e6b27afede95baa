package rule

import (
	"fmt"
	"math"
	"math/big"

	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// SizeRatio compares sizes: the price of each product of the rule ÷ the price of the one before
// lies between two bounds. A bound that is not given does not apply. With at least 1.4 and an A4
// at 20.00, A3 costs 28.00 or more. If the rule names no products, each design, or each that it
// names, is a ladder of its own. The rule by itself allows a product any price, because it
// compares pairs.
type SizeRatio struct {
	// The multiple is not below this; without bound where it is not given.
	AtLeast quoin.Optional[quoin.Factor] `json:"at_least,omitzero" range:"[0,"`
	// The multiple is not above this; without bound where it is not given.
	AtMost quoin.Optional[quoin.Factor] `json:"at_most,omitzero" range:"[0,"`
	// How the products of a design follow each other: by the area of the sheet, or of the image
	// where there is none (also where it is not given), or as they are listed. Only without
	// products.
	Order LadderOrder `json:"order,omitempty"`
}

// LadderOrder says how the products of a design are sorted on a ladder.
type LadderOrder string

const (
	BySize LadderOrder = "size"   // by the area of Item.Size, the smallest first; also when empty
	Listed LadderOrder = "listed" // as the products come
)

// UnmarshalText reads size or listed.
func (o *LadderOrder) UnmarshalText(text []byte) error { return form.SetWord(o, text, BySize, Listed) }

// String returns step.
func (SizeRatio) String() string { return "size_ratio" }

func (SizeRatio) about() subject { return pairs }

func (SizeRatio) asks(Item, []Offer) asker { return limits(nil) }

// HoldsBetween reports whether the next size may have its price if the size before has its.
func (k SizeRatio) HoldsBetween(before, next quoin.Amount) bool {
	least, low := k.AtLeast.Get()
	most, high := k.AtMost.Get()
	return !(low && next.Cmp(before.Times(least)) < 0) && !(high && next.Cmp(before.Times(most)) > 0)
}

// Up returns the prices that the next size may have if the size before has one of a set of
// prices. The error is a Problem, if the prices break into too many runs.
func (k SizeRatio) Up(before Set) (Set, error) { return newClimb(k).reach(before, up) }

// Down returns the prices that the size before may have if the next size has one of a set of
// prices. It errs as Up does.
func (k SizeRatio) Down(next Set) (Set, error) { return newClimb(k).reach(next, down) }

// climb is a SizeRatio made ready to be followed from size to size.
type climb struct {
	bounds   [2][2]bound // by direction: for the least price there, and for the greatest
	kind     climbing
	touch    *big.Rat // see touching
	touchOne int64    // that for neighbouring prices
}

// bound is one bound of a step: the price that it leads to is so many times another.
type bound struct {
	times *fraction // nil where it binds nothing
	end   int       // of the prices that it bounds
}

const (
	lowEnd  = 0 // the least price
	highEnd = 1 // the greatest
)

// reach returns the end that the bound leads to from a price.
func (b bound) reach(i, n int64) int64 {
	if b.end == lowEnd {
		return b.times.ceil(i, n)
	}
	return b.times.floor(i, n)
}

// climbing is how the bounds of a step stand to each other.
type climbing uint8

const (
	oneBound  climbing = iota // or none
	crossed                   // nothing is between them
	same                      // each price reaches one at most
	twoBounds                 // each price reaches a run
)

func newClimb(k SizeRatio) *climb {
	least, low := k.AtLeast.Get()
	most, high := k.AtMost.Get()
	c := new(climb)
	c.bind(up, lowEnd, k.AtLeast)
	c.bind(up, highEnd, k.AtMost)
	switch {
	case high && most.Sign() <= 0:
		c.kind = crossed // since no price is 0
	case !low || !high || least.Sign() == 0:
	case least.Cmp(most) > 0:
		c.kind = crossed
	case least.Equal(most):
		c.kind = same
	default:
		c.kind = twoBounds
		c.touch = new(big.Rat).Quo(least.Rat(), new(big.Rat).Sub(most.Rat(), least.Rat()))
		c.touchOne = c.touching(1)
	}
	return c
}

// bind sets a bound, and its inverse of the other size; none that is 0.
func (c *climb) bind(way direction, end int, by quoin.Optional[quoin.Factor]) {
	if times, given := by.Get(); given && times.Sign() > 0 {
		r := times.Rat()
		c.bounds[way][end] = bound{newFraction(r.Num(), r.Denom()), end}
		c.bounds[1-way][1-end] = bound{newFraction(r.Denom(), r.Num()), 1 - end}
	}
}

// from returns the run that a price reaches.
func (c *climb) from(i, n int64, way direction) run {
	r := run{1, n}
	if low := c.bounds[way][lowEnd].times; low != nil {
		r.first = low.ceil(i, n)
	}
	if high := c.bounds[way][highEnd].times; high != nil {
		r.last = high.floor(i, n)
	}
	return r
}

// reach is the union of what the set's prices reach. Each price reaches a run,
// and from some price on the runs of neighbours touch, so that the rest of a
// run is one. Where both bounds are the same they never do; those prices are
// the set's, scaled.
func (c *climb) reach(s Set, way direction) (Set, error) {
	out := Set{grid: s.grid}
	if r, ok := c.single(s, way); ok {
		out.add(r)
		return out, nil
	}
	switch c.kind {
	case crossed:
		return out, nil
	case same:
		times := c.bounds[way][lowEnd].times
		return s.scaled(times.a, times.b), nil
	}
	return c.spread(s, way)
}

// single is what a set reaches where that is one run, or none; false where it may be
// more.
func (c *climb) single(s Set, way direction) (run, bool) {
	n := s.grid.Len()
	switch {
	case s.IsEmpty():
		return run{1, 0}, true
	case c.kind == oneBound:
		// The end of the set nearest to the bound reaches farthest.
		a, b := c.from(s.first(), n, way), c.from(s.last(), n, way)
		return run{min(a.first, b.first), max(a.last, b.last)}, true
	case c.kind == twoBounds && len(s.runs) == 1 && s.first() >= c.touching(s.comb.gap()):
		return run{c.from(s.first(), n, way).first, c.from(s.last(), n, way).last}, true
	}
	return run{}, false
}

// touching returns the index from which on prices that are gap apart reach
// runs that touch: least × (i + gap) ≤ most × i.
func (c *climb) touching(gap int64) int64 {
	if gap == 1 && c.touchOne > 0 {
		return c.touchOne
	}
	t := new(big.Rat).Mul(c.touch, new(big.Rat).SetInt64(gap))
	n := new(big.Int).Quo(t.Num(), t.Denom())
	if n.Add(n, big.NewInt(1)); !n.IsInt64() {
		return math.MaxInt64
	}
	return n.Int64()
}

func (c *climb) spread(s Set, way direction) (Set, error) {
	out, n, touch := Set{grid: s.grid}, s.grid.Len(), c.touching(s.comb.gap())
	tried := 0
	for _, r := range s.runs {
		for i := r.first; i <= r.last; i = s.comb.next(i + 1) {
			if i >= touch {
				out.add(run{c.from(i, n, way).first, c.from(r.last, n, way).last})
				break
			}
			out.add(c.from(i, n, way))
			if tried++; tried > mostTeeth {
				return Set{}, tooFine(fmt.Sprintf("a step so narrow that more than %d prices have to be told apart", mostTeeth))
			}
		}
	}
	return out, nil
}

// scaled returns the prices a ÷ b times those of s.
func (s Set) scaled(a, b *big.Int) Set {
	n := s.grid.Len()
	out := Set{grid: s.grid, comb: s.comb.scaled(a, b, n)}
	for _, r := range s.runs {
		first := new(big.Int).Add(big.NewInt(r.first-1), b)
		first.Quo(first, b)
		last := new(big.Int).Quo(big.NewInt(r.last), b)
		first.Mul(first, a)
		last.Mul(last, a)
		if !first.IsInt64() || first.Int64() > n {
			continue
		}
		end := n
		if last.IsInt64() {
			end = min(n, last.Int64())
		}
		out.add(run{first.Int64(), end})
	}
	return out
}
