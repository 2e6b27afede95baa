package rule

import (
	"fmt"
	"math/big"
	"slices"
	"sort"

	"example.com/quoin"
)

// comb is a pattern that repeats: the indexes i with i mod period among the
// teeth, which are sorted. A nil comb holds every index.
type comb struct {
	period int64
	teeth  []int64
}

// mostTeeth bounds what patterns may come to together.
const mostTeeth = 1 << 20

// TooFine is the code of rules whose allowed prices, together, break into more
// separate runs than can be told apart in reasonable time.
const TooFine quoin.Code = "too_many_runs"

func tooFine(what string) error {
	return quoin.Problem{
		Code: TooFine, Severity: quoin.Fault, Found: what,
		Wanted: "prices that fall into fewer runs", Remedy: "lower price_limit, or loosen the rule",
	}
}

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
		i++
	}
	return i
}

// gap returns the greatest distance between members that follow each other.
func (c *comb) gap() int64 {
	if c == nil {
		return 1
	}
	gap := c.period - c.teeth[len(c.teeth)-1] + c.teeth[0]
	for i := 1; i < len(c.teeth); i++ {
		gap = max(gap, c.teeth[i]-c.teeth[i-1])
	}
	return gap
}

func (c *comb) equal(d *comb) bool {
	if c == nil || d == nil {
		return c == d
	}
	return c.period == d.period && slices.Equal(c.teeth, d.teeth)
}

// newComb makes a comb of any period for indexes up to n. One that does not
// repeat by then keeps only the teeth it has by then.
func newComb(period *big.Int, teeth []*big.Int, n int64) *comb {
	c := &comb{period: n + 1}
	if period.IsInt64() && period.Int64() <= n {
		c.period = period.Int64()
	}
	for _, t := range teeth {
		if t.IsInt64() && t.Int64() < c.period {
			c.teeth = append(c.teeth, t.Int64())
		}
	}
	slices.Sort(c.teeth)
	c.teeth = slices.Compact(c.teeth)
	if c.period == int64(len(c.teeth)) {
		return nil
	}
	if len(c.teeth) == 0 {
		return never
	}
	return c
}

// never stands for a pattern without a member on the grid: index 0, which is
// no price, in a period longer than any grid.
var never = &comb{period: 1 << 62, teeth: []int64{0}}

// and returns the indexes in both combs: for each pair of teeth that agree in
// the common divisor of the periods, the one tooth of the Chinese remainder.
func (c *comb) and(d *comb, n int64) (*comb, error) {
	if c == nil || c.equal(d) {
		return d, nil
	}
	if d == nil {
		return c, nil
	}
	m := newMeeting(c.period, d.period)
	byRest := make(map[int64][]int64)
	for _, t := range d.teeth {
		byRest[t%m.divisor] = append(byRest[t%m.divisor], t)
	}
	var teeth []*big.Int
	for _, a := range c.teeth {
		for _, b := range byRest[a%m.divisor] {
			if len(teeth) == mostTeeth {
				return nil, tooFine(fmt.Sprintf("more than %d endings, taken together", mostTeeth))
			}
			teeth = append(teeth, m.tooth(a, b))
		}
	}
	return newComb(m.period, teeth, n), nil
}

// meeting is where two periods p and q meet.
type meeting struct {
	p, period *big.Int // period is their least common multiple
	divisor   int64
	rest      *big.Int // q ÷ divisor
	inverse   *big.Int // of p ÷ divisor, modulo rest
}

func newMeeting(p, q int64) meeting {
	g := new(big.Int).GCD(nil, nil, big.NewInt(p), big.NewInt(q))
	m := meeting{p: big.NewInt(p), divisor: g.Int64(), rest: big.NewInt(q / g.Int64())}
	m.period = new(big.Int).Mul(m.p, m.rest)
	m.inverse = inverse(big.NewInt(p/m.divisor), m.rest)
	return m
}

// tooth returns the x below the period with x ≡ a (mod p) and x ≡ b (mod q).
func (m meeting) tooth(a, b int64) *big.Int {
	t := big.NewInt((b - a) / m.divisor)
	t.Mul(t, m.inverse).Mod(t, m.rest)
	return t.Mul(t, m.p).Add(t, big.NewInt(a))
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
