package review

import (
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

// shares rounds what was split so that it sums to the whole, and says what the groups did
// together. Shares of nothing are left out.
func (m *mixture) shares(of split, places int) (shares []Share, together *Share) {
	parts := make([]deed, len(of.sums), len(of.sums)+1)
	for g, sum := range of.sums {
		parts[g] = deed{m.inputs(g), sum}
	}
	slices.SortFunc(parts, func(a, b deed) int { return slices.Compare(a.inputs, b.inputs) })
	for _, s := range rounded(append(parts, deed{nil, of.together}), quoin.FactorOf(of.divisor), places) {
		switch {
		case s.Exact.IsZero():
		case s.Inputs == nil:
			together = &s
		default:
			shares = append(shares, s)
		}
	}
	return shares, together
}

// deed is what some inputs did, times a divisor.
type deed struct {
	inputs []string
	sum    quoin.Amount
}

// rounded is parts ÷ divisor in whole minor units, by largest remainder. The parts add up to a
// multiple of the divisor.
func rounded(parts []deed, divisor quoin.Factor, places int) []Share {
	out, rests := make([]Share, len(parts)), make([]quoin.Factor, len(parts))
	unit := quoin.AmountOf(1, places).Times(divisor)
	var all quoin.Amount
	for i, p := range parts {
		rest := p.sum.Mod(unit)
		if rest.Sign() < 0 {
			rest = rest.Add(unit)
		}
		by := p.sum.Sub(rest).Over(divisor).Round(places, quoin.HalfUp)
		out[i] = Share{Inputs: p.inputs, By: by, Exact: by.Add(rest.Over(divisor))}
		rests[i], all = rest.Figure().Factor(), all.Add(rest)
	}
	if left, err := all.Over(divisor).Round(places, quoin.HalfUp).Split(places, rests...); err == nil {
		for i := range out {
			out[i].By = out[i].By.Add(left[i])
		}
	}
	for i := range out {
		out[i].Rounding = out[i].By.Sub(out[i].Exact)
	}
	return out
}
