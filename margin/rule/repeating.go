package rule

import (
	"fmt"
	"math/big"
	"math/bits"
	"slices"
	"sort"
)

// comb is a pattern that repeats: the indexes i with i mod period among the
// teeth, which are sorted. A nil comb holds every index.
type comb struct {
	period int64
	teeth  []int64
	widest int64 // see gap; 0 where it was not worked out
}

// mostTeeth bounds what patterns may come to together.
const mostTeeth = 1 << 20

func (c *comb) has(i int64) bool {
	if c == nil {
		return true
	}
	_, ok := slices.BinarySearch(c.teeth, i%c.period)
	return ok
}

// next returns the least member at or after i. The comb has teeth.
func (c *comb) next(i int64) int64 {
	if c == nil {
		return i
	}
	start, at := i-i%c.period, sort.Search(len(c.teeth), func(j int) bool { return c.teeth[j] >= i%c.period })
	if at == len(c.teeth) {
		return start + c.period + c.teeth[0]
	}
	return start + c.teeth[at]
}

// prev returns the greatest member at or before i, below 0 where there is none.
func (c *comb) prev(i int64) int64 {
	if c == nil {
		return i
	}
	start, at := i-i%c.period, sort.Search(len(c.teeth), func(j int) bool { return c.teeth[j] > i%c.period })
	if at == 0 {
		return start - c.period + c.teeth[len(c.teeth)-1]
	}
	return start + c.teeth[at-1]
}

// lastNeighbour returns the end of the run of neighbours that starts at the
// member i, at most last.
func (c *comb) lastNeighbour(i, last int64) int64 {
	for i < last && c.has(i+1) {
		at, _ := slices.BinarySearch(c.teeth, (i+1)%c.period)
		next := c.teeth[at:]
		// Neighbours are as far apart as their places are.
		run := sort.Search(len(next), func(j int) bool { return next[j]-next[0] > int64(j) })
		i += int64(run)
	}
	return min(i, last)
}

// gap returns the greatest distance between members that follow each other.
func (c *comb) gap() int64 {
	if c == nil {
		return 1
	}
	if c.widest > 0 {
		return c.widest
	}
	gap := c.period - c.teeth[len(c.teeth)-1] + c.teeth[0]
	for i := 1; i < len(c.teeth); i++ {
		gap = max(gap, c.teeth[i]-c.teeth[i-1])
	}
	return gap
}

func (c *comb) equal(d *comb) bool {
	if c == nil || d == nil || c == d {
		return c == d
	}
	return c.period == d.period && slices.Equal(c.teeth, d.teeth)
}

// newComb makes a comb of any period for indexes up to n. One that does not
// repeat by then keeps only the teeth it has by then.
func newComb(period *big.Int, teeth []*big.Int, n int64) *comb {
	p := n + 1
	if period.IsInt64() && period.Int64() <= n {
		p = period.Int64()
	}
	var of []int64
	for _, t := range teeth {
		if t.IsInt64() && t.Int64() < p {
			of = append(of, t.Int64())
		}
	}
	return combOf(p, of)
}

// combOf makes a comb of teeth below a period, in any order.
func combOf(period int64, teeth []int64) *comb {
	slices.Sort(teeth)
	c := &comb{period: period, teeth: slices.Compact(teeth)}
	switch len(c.teeth) {
	case 0:
		return never
	case int(period):
		return nil
	}
	c.widest = c.gap()
	return c
}

// never stands for a pattern without a member on the grid: index 0, which is
// no price, in a period longer than any grid.
var never = &comb{period: 1 << 62, teeth: []int64{0}}

// mostSifted bounds the indexes of one comb that are gone through for those in another.
const mostSifted = 1 << 22

// and returns the indexes in both combs, up to n. It errs where they are too many.
func (c *comb) and(d *comb, n int64) (*comb, error) {
	if c == nil || c.equal(d) {
		return d, nil
	}
	if d == nil {
		return c, nil
	}
	if d.upTo(n) < c.upTo(n) {
		c, d = d, c
	}
	m := newMeeting(c.period, d.period, n)
	if m.period > n && c.upTo(n) <= mostSifted {
		return c.sifted(d, n)
	}
	return c.met(d, m)
}

// sifted returns the indexes up to n that are in both, one by one.
func (c *comb) sifted(d *comb, n int64) (*comb, error) {
	var in []int64
	for from := int64(0); from <= n; from += c.period {
		for _, t := range c.teeth {
			if i := from + t; i <= n && d.has(i) {
				in = append(in, i)
			}
		}
		if len(in) > mostTeeth {
			return nil, tooManyEndings()
		}
	}
	return combOf(n+1, in), nil
}

func tooManyEndings() error {
	return tooFine(fmt.Sprintf("more than %d endings, taken together", mostTeeth))
}

// met returns, for each pair of teeth that agree in the common divisor of the periods,
// the one tooth of the Chinese remainder.
func (c *comb) met(d *comb, m meeting) (*comb, error) {
	byRest := make(map[int64][]int64)
	for _, t := range d.teeth {
		byRest[t%m.divisor] = append(byRest[t%m.divisor], t)
	}
	pairs := 0
	for _, a := range c.teeth {
		if pairs += len(byRest[a%m.divisor]); pairs > mostTeeth {
			return nil, tooManyEndings()
		}
	}
	teeth := make([]int64, 0, pairs)
	for _, a := range c.teeth {
		for _, b := range byRest[a%m.divisor] {
			if t, ok := m.tooth(a, b); ok {
				teeth = append(teeth, t)
			}
		}
	}
	return combOf(m.period, teeth), nil
}

// meeting is where two periods p and q meet.
type meeting struct {
	p       int64
	period  int64 // their least common multiple, or n + 1 where that is above n
	divisor int64
	rest    int64 // q ÷ divisor
	inverse int64 // of p ÷ divisor, modulo rest
}

func newMeeting(p, q, n int64) meeting {
	g := new(big.Int).GCD(nil, nil, big.NewInt(p), big.NewInt(q)).Int64()
	m := meeting{p: p, period: n + 1, divisor: g, rest: q / g}
	if hi, lo := bits.Mul64(uint64(p), uint64(m.rest)); hi == 0 && lo <= uint64(n) {
		m.period = int64(lo)
	}
	m.inverse = inverse(big.NewInt(p/g), big.NewInt(m.rest)).Int64()
	return m
}

// tooth returns the x below the period with x ≡ a (mod p) and x ≡ b (mod q); false where
// there is none below it.
func (m meeting) tooth(a, b int64) (int64, bool) {
	t := (b - a) / m.divisor % m.rest
	if t < 0 {
		t += m.rest
	}
	hi, lo := bits.Mul64(uint64(t), uint64(m.inverse))
	_, times := bits.Div64(hi, lo, uint64(m.rest))
	hi, lo = bits.Mul64(times, uint64(m.p))
	lo, carry := bits.Add64(lo, uint64(a), 0)
	return int64(lo), hi+carry == 0 && lo < uint64(m.period)
}

// inverse returns the inverse of a modulo n, 0 where n is 1.
func inverse(a, n *big.Int) *big.Int {
	if n.IsInt64() && n.Int64() == 1 {
		return new(big.Int)
	}
	return new(big.Int).ModInverse(a, n)
}

// scaled returns the comb of the indexes i × a ÷ b for i in c with b dividing
// i, where a and b have no common divisor, and index up to n.
func (c *comb) scaled(a, b *big.Int, n int64) *comb {
	if c == nil {
		c = &comb{period: 1, teeth: []int64{0}}
	}
	p := big.NewInt(c.period)
	g := new(big.Int).GCD(nil, nil, b, p)
	each := new(big.Int).Quo(p, g)
	inv := inverse(new(big.Int).Mod(new(big.Int).Quo(b, g), each), each)
	var teeth []*big.Int
	for _, t := range c.teeth {
		q, r := new(big.Int).QuoRem(big.NewInt(t), g, new(big.Int))
		if r.Sign() != 0 {
			continue
		}
		q.Mul(q, inv).Mod(q, each)
		teeth = append(teeth, q.Mul(q, a))
	}
	return newComb(each.Mul(each, a), teeth, n)
}

// patterns is what pairs of patterns come to together, or why they cannot be put together.
type patterns map[[2]*comb]pattern

type pattern struct {
	of  *comb
	err error
}

// mostTogether bounds how many pairs are remembered.
const mostTogether = 1 << 10

// and is Set.and, which puts the same patterns together once.
func (p patterns) and(a, b Set) (Set, error) {
	if a.comb == nil || b.comb == nil || a.comb == b.comb {
		return a.and(b)
	}
	both, known := p[[2]*comb{a.comb, b.comb}]
	if !known {
		both.of, both.err = a.comb.and(b.comb, a.grid.Len())
		if len(p) == mostTogether {
			clear(p)
		}
		p[[2]*comb{a.comb, b.comb}] = both
	}
	if both.err != nil {
		return Set{}, both.err
	}
	return a.meet(b.runs, both.of), nil
}
