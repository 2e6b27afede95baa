package quoin

import (
	"cmp"
	"math"
	"math/big"
	"math/bits"
	"slices"

	"example.com/quoin/internal/decimal"
)

// Split divides a into parts in proportion to weights without losing a cent:
// each part is a whole number of units of the last of places, and they sum to
// a exactly. Every part first gets its share rounded toward zero; the units
// left go to the largest remainders, ties to the first (the largest-remainder
// method, also Hamilton's). A negative amount splits as its positive one does.
//
// Places is kept within 0 to 64. It errs, with a Problem, where there are no weights, one is negative, all
// are zero, or a is not a whole number of units.
func (a Amount) Split(places int, weights ...Factor) ([]Amount, error) {
	places = min(max(places, 0), 64)
	if out, ok := a.splitWhole(places, weights); ok {
		return out, nil
	}
	units := a.d.Snap().Rat()
	units.Mul(units, new(big.Rat).SetInt(pow10(places)))
	total, err := weigh(weights)
	if err == nil && !units.IsInt() {
		err = Problem{
			Code: NotSplittable, Severity: Fault, Found: a.String(),
			Wanted: "a whole number of units", Remedy: "round the amount first",
		}
	}
	if err != nil {
		return nil, err
	}
	parts := share(new(big.Int).Abs(units.Num()), weights, total)
	out := make([]Amount, len(parts))
	for i, n := range parts {
		if units.Sign() < 0 {
			n.Neg(n)
		}
		out[i] = Amount{decimal.FromBig(n, -int32(places))}
	}
	return out, nil
}

// splitWhole is Split on 64-bit integers: false where the numbers do not fit, or where
// something is wrong with them.
func (a Amount) splitWhole(places int, weights []Factor) ([]Amount, bool) {
	n, ok := a.d.Snap().Units(places)
	shares, total, fit := wholeWeights(weights)
	if !ok || !fit {
		return nil, false
	}
	units := uint64(max(n, -n))
	parts, rests, left := make([]int64, len(shares)), make([]uint64, len(shares)), units
	order := make([]int, len(shares))
	for i, w := range shares {
		hi, lo := bits.Mul64(units, w)
		quota, rest := bits.Div64(hi, lo, total)
		parts[i], rests[i], order[i] = int64(quota), rest, i
		left -= quota
	}
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(rests[j], rests[i]) })
	for _, i := range order[:left] {
		parts[i]++
	}
	out := make([]Amount, len(parts))
	for i, part := range parts {
		if n < 0 {
			part = -part
		}
		out[i] = Amount{decimal.New(part, -int32(places))}
	}
	return out, true
}

// wholeWeights are weights in units of the finest of them, and their sum, which is above
// 0 and below 2⁶³.
func wholeWeights(weights []Factor) (out []uint64, total uint64, ok bool) {
	places := 0
	for _, w := range weights {
		places = max(places, w.d.Snap().Places())
	}
	out = make([]uint64, len(weights))
	for i, w := range weights {
		n, whole := w.d.Snap().Units(places)
		if !whole || n < 0 || total+uint64(n) > math.MaxInt64 {
			return nil, 0, false
		}
		out[i], total = uint64(n), total+uint64(n)
	}
	return out, total, total > 0
}

func weigh(weights []Factor) (*big.Rat, error) {
	total := new(big.Rat)
	for _, w := range weights {
		if w.Sign() < 0 {
			return nil, Problem{Code: NotSplittable, Severity: Fault, Found: "a weight of " + w.String(), Wanted: "weights of at least 0"}
		}
		total.Add(total, w.d.Snap().Rat())
	}
	if total.Sign() == 0 {
		return nil, Problem{Code: NotSplittable, Severity: Fault, Found: "no weight", Wanted: "at least one weight above 0"}
	}
	return total, nil
}

// share gives out n units by weight, the rest by largest remainder.
func share(n *big.Int, weights []Factor, total *big.Rat) []*big.Int {
	parts := make([]*big.Int, len(weights))
	rests := make([]*big.Rat, len(weights))
	order := make([]int, len(weights))
	left := new(big.Int).Set(n)
	for i, w := range weights {
		quota := new(big.Rat).Mul(new(big.Rat).SetInt(n), w.d.Snap().Rat())
		quota.Quo(quota, total)
		parts[i] = new(big.Int).Quo(quota.Num(), quota.Denom())
		rests[i] = quota.Sub(quota, new(big.Rat).SetInt(parts[i]))
		left.Sub(left, parts[i])
		order[i] = i
	}
	slices.SortStableFunc(order, func(i, j int) int {
		return cmp.Compare(rests[j].Cmp(rests[i]), 0)
	})
	for _, i := range order[:left.Int64()] {
		parts[i].Add(parts[i], big.NewInt(1))
	}
	return parts
}

func pow10(n int) *big.Int {
	return new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(n)), nil)
}
