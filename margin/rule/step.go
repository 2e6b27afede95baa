package rule

import (
	"fmt"
	"math/big"

	"example.com/quoin"
)

// Step is the ladder between sizes: each next product of the rule's Products
// costs a multiple of the one before, between two bounds; a bound not given
// does not bind. Where the rule names no products, each design, or each that it
// names, is a ladder of its own. A Step speaks of pairs, so by itself it allows a
// product any price.
type Step struct {
	AtLeast quoin.Optional[quoin.Factor] `json:"at_least,omitzero" range:"[0,"`
	AtMost  quoin.Optional[quoin.Factor] `json:"at_most,omitzero" range:"[0,"`
	// Order is how the products of a design follow each other. Those of Products
	// follow as they are listed there.
	Order Order `json:"order,omitempty"`
}

// Order says how the products of a design follow each other on a ladder.
type Order string

const (
	BySize Order = "size"   // by the area of Item.Size, the smallest first; also when empty
	Listed Order = "listed" // as the products come
)

// UnmarshalText reads size or listed.
func (o *Order) UnmarshalText(text []byte) (err error) {
	*o, err = quoin.Word(string(text), BySize, Listed)
	return err
}

// String returns step.
func (Step) String() string { return "step" }

func (k Step) allowed(it Item, _ []Offer) (Set, error) { return All(it.Grid), nil }

// HoldsBetween reports whether the next size may have a price beside the
// price of the one before.
func (k Step) HoldsBetween(before, next quoin.Amount) bool {
	least, low := k.AtLeast.Get()
	most, high := k.AtMost.Get()
	return !(low && next.Cmp(before.Times(least)) < 0) && !(high && next.Cmp(before.Times(most)) > 0)
}

// Up returns the prices the next size may have where the one before has one
// of a set, and Down the other way round. They err, with a Problem, where the
// prices break into too many runs.
func (k Step) Up(before Set) (Set, error) {
	n := before.grid.Len()
	low, high := multiplier(k.AtLeast), multiplier(k.AtMost)
	return k.reach(before, true, func(i int64) run {
		r := run{1, n}
		if low != nil {
			r.first = low.ceil(i, n)
		}
		if high != nil {
			r.last = high.floor(i, n)
		}
		return r
	})
}

// Down returns the prices the size before may have; see Up.
func (k Step) Down(next Set) (Set, error) {
	n := next.grid.Len()
	low, high := multiplier(k.AtLeast), multiplier(k.AtMost)
	return k.reach(next, false, func(i int64) run {
		r := run{1, n}
		if low != nil && low.a.Sign() > 0 {
			r.last = low.inverse().floor(i, n)
		}
		if high != nil && high.a.Sign() == 0 {
			return run{1, 0}
		}
		if high != nil {
			r.first = high.inverse().ceil(i, n)
		}
		return r
	})
}

// fraction multiplies indexes by a ÷ b: exactly, since the prices of one grid
// stand to each other as their indexes do.
type fraction struct{ a, b *big.Int }

func multiplier(f quoin.Optional[quoin.Factor]) *fraction {
	v, given := f.Get()
	if !given {
		return nil
	}
	r := v.Rat()
	return &fraction{r.Num(), r.Denom()}
}

func (f *fraction) inverse() *fraction { return &fraction{f.b, f.a} }

// floor returns ⌊i × a ÷ b⌋, at most n.
func (f *fraction) floor(i, n int64) int64 {
	p := big.NewInt(i)
	p.Mul(p, f.a).Quo(p, f.b)
	if !p.IsInt64() {
		return n
	}
	return min(p.Int64(), n)
}

// ceil returns ⌈i × a ÷ b⌉, at least 1 and at most n + 1.
func (f *fraction) ceil(i, n int64) int64 {
	p := big.NewInt(i)
	p.Mul(p, f.a).Add(p, f.b).Sub(p, big.NewInt(1)).Quo(p, f.b)
	if !p.IsInt64() {
		return n + 1
	}
	return min(max(p.Int64(), 1), n+1)
}

// reach is the union of what the set's prices reach. Each price reaches a run,
// and from some price on the runs of neighbours touch, so that the rest of a
// run is one. Where both bounds are the same they never do; those prices are
// the set's, scaled.
func (k Step) reach(s Set, up bool, from func(int64) run) (Set, error) {
	out := Set{grid: s.grid}
	if s.IsEmpty() {
		return out, nil
	}
	least, low := k.AtLeast.Get()
	most, high := k.AtMost.Get()
	if !low || !high || least.Sign() == 0 {
		// One bound only: the end of the set nearest to it reaches farthest.
		a, b := from(s.first()), from(s.last())
		out.add(run{min(a.first, b.first), max(a.last, b.last)})
		return out, nil
	}
	switch c := least.Cmp(most); {
	case c > 0:
		return out, nil
	case c == 0:
		return s.scaled(least.Rat(), up), nil
	}
	return s.spread(touching(least, most, s.comb.gap()), from)
}

// touching returns the index from which on prices that are gap apart reach
// runs that touch: least × (i + gap) ≤ most × i.
func touching(least, most quoin.Factor, gap int64) *big.Int {
	t := new(big.Rat).Quo(least.Rat(), new(big.Rat).Sub(most.Rat(), least.Rat()))
	t.Mul(t, new(big.Rat).SetInt64(gap))
	n := new(big.Int).Quo(t.Num(), t.Denom())
	return n.Add(n, big.NewInt(1))
}

func (s Set) spread(touch *big.Int, from func(int64) run) (Set, error) {
	out := Set{grid: s.grid}
	tried := 0
	for _, r := range s.runs {
		for i := r.first; i <= r.last; i = s.comb.next(i + 1) {
			if touch.IsInt64() && i >= touch.Int64() {
				out.add(run{from(i).first, from(r.last).last})
				break
			}
			out.add(from(i))
			if tried++; tried > mostTeeth {
				return Set{}, tooFine(fmt.Sprintf("a step so narrow that more than %d prices have to be told apart", mostTeeth))
			}
		}
	}
	return out, nil
}

// scaled returns the prices f times (or, downward, 1/f times) those of s.
func (s Set) scaled(f *big.Rat, up bool) Set {
	a, b := f.Num(), f.Denom()
	if !up {
		a, b = b, a
	}
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
