package review

import (
	"math/big"
	"slices"

	"example.com/quoin"
)

// Share is what changed inputs moved a floor by.
type Share struct {
	// Inputs are the inputs of changes: one, or several that only stand together, such
	// as a supply and the line that it is used in.
	Inputs []string `json:"inputs"`
	// By is the share in whole minor units: rounded down, and the units that are left
	// given to the largest remainders, of equals the first by name of the input.
	By quoin.Amount `json:"by"`
	// Exact is the share as it comes out, a quotient of 34 digits, and Rounding is By −
	// Exact, always less than a minor unit.
	Exact    quoin.Amount `json:"exact"`
	Rounding quoin.Amount `json:"rounding"`
}

// shares rounds what was split so that it sums to the whole. The last share is what
// the groups did together, where there is such a line; shares of nothing are left
// out.
func (m *mixture) shares(of split, places int) (shares []Share, together *Share) {
	type part struct {
		inputs []string
		sum    *big.Int
	}
	var parts []part
	for g, sum := range of.sums {
		parts = append(parts, part{m.inputs(g), sum})
	}
	slices.SortFunc(parts, func(a, b part) int { return slices.Compare(a.inputs, b.inputs) })
	if of.together != nil {
		parts = append(parts, part{nil, of.together})
	}
	sums := make([]*big.Int, len(parts))
	for i, p := range parts {
		sums[i] = p.sum
	}
	for i, s := range rounded(sums, of.divisor, places) {
		s.Inputs = parts[i].inputs
		switch {
		case parts[i].sum.Sign() == 0:
		case s.Inputs == nil:
			together = &s
		default:
			shares = append(shares, s)
		}
	}
	return shares, together
}

// rounded is sums ÷ divisor in whole minor units, by largest remainder. The sums
// add up to a multiple of the divisor.
func rounded(sums []*big.Int, divisor int64, places int) []Share {
	out := make([]Share, len(sums))
	rests := make([]quoin.Factor, len(sums))
	all := int64(0)
	for i, sum := range sums {
		whole, rest := new(big.Int).DivMod(sum, big.NewInt(divisor), new(big.Int))
		out[i].By = quoin.AmountOf(whole.Int64(), places)
		rests[i] = quoin.FactorOf(rest.Int64())
		all += rest.Int64()
		out[i].Exact = out[i].By.Add(quoin.AmountOf(rest.Int64(), places).Over(quoin.FactorOf(divisor)))
	}
	if left, err := quoin.AmountOf(all/divisor, places).Split(places, rests...); err == nil {
		for i := range out {
			out[i].By = out[i].By.Add(left[i])
		}
	}
	for i := range out {
		out[i].Rounding = out[i].By.Sub(out[i].Exact)
	}
	return out
}
