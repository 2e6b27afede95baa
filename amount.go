package quoin

import (
	"cmp"
	"database/sql/driver"
	"fmt"
	"math"
	"math/big"
	"math/bits"
	"slices"

	"example.com/quoin/internal/decimal"
)

// Amount is money, in the currency of whatever it belongs to: a price, a cost, a fee. It may be
// negative and may have any number of places. Round rounds it to the currency's minor unit.
// Compare amounts with Equal and Cmp: 17.5 and 17.50 are the same amount. == would tell them
// apart, so it does not compile.
type Amount struct{ d decimal.Decimal }

// ParseAmount reads plain decimal text such as "17.50" or "-3", with at most
// 12 digits before the point and 8 after it. The error is a Problem.
func ParseAmount(s string) (Amount, error) {
	var d decimal.Decimal
	err := amountForm.read(&d, s, false)
	return Amount{d}, err
}

// MustAmount is ParseAmount for literals in programs and tests; it panics
// where ParseAmount errs.
func MustAmount(s string) Amount { return must("MustAmount", ParseAmount, s) }

// AmountOf returns units × 10^−places: AmountOf(1750, 2) is 17.50. Places is
// kept within 0 to 64.
func AmountOf(units int64, places int) Amount {
	return Amount{decimal.New(units, -int32(min(max(places, 0), 64)))}
}

// Units returns a in units of the last of places: 17.50 is 1750 with 2 places. It returns false
// if a is not a whole number of units, does not fit in 64 bits, or is a quotient that does not
// end.
func (a Amount) Units(places int) (int64, bool) { return a.d.Units(places) }

// UnitsDown returns a in units of the last of places, cut toward zero: 17.509 is 1750 with 2
// places. A quotient that does not end is cut as it is, and not snapped first as by Round, so it
// may come out a unit lower. It returns false if the result does not fit in 64 bits.
func (a Amount) UnitsDown(places int) (int64, bool) { return a.d.Cut(places) }

// Places returns how many digits after the point a is written with.
func (a Amount) Places() int { return a.d.Places() }

// WithPlaces returns a, written with at least so many digits after the point: 7.5 with 2 is
// written 7.50. Places is kept within 0 to 64.
func (a Amount) WithPlaces(places int) Amount { return Amount{a.d.WithPlaces(places)} }

// Add returns a + b, exactly.
func (a Amount) Add(b Amount) Amount { return Amount{a.d.Add(b.d)} }

// Sub returns a − b, exactly.
func (a Amount) Sub(b Amount) Amount { return Amount{a.d.Sub(b.d)} }

// Neg returns −a.
func (a Amount) Neg() Amount { return Amount{a.d.Neg()} }

// Times returns a × f, exactly.
func (a Amount) Times(f Factor) Amount { return Amount{a.d.Mul(f.d)} }

// Part returns the share r of a, exactly: a × r. 7.4% of 20.00 is 1.48.
func (a Amount) Part(r Rate) Amount { return Amount{a.d.Mul(r.d)} }

// Over returns a ÷ f to 34 significant digits. It panics if f is 0.
func (a Amount) Over(f Factor) Amount { return Amount{quotient("Amount.Over", a.d, f.d)} }

// Ratio returns how many times b goes into a, to 34 significant digits: a ÷ b. It panics if b
// is 0.
func (a Amount) Ratio(b Amount) Factor { return Factor{quotient("Amount.Ratio", a.d, b.d)} }

// Share returns a as a share of b, to 34 significant digits: a ÷ b. A margin is
// gross.Share(revenue). It panics if b is 0.
func (a Amount) Share(b Amount) Rate { return Rate{quotient("Amount.Share", a.d, b.d)} }

// Mod returns the remainder of a ÷ b, with the sign of a: 17.50 by 1.00 leaves 0.50. It panics
// if b is 0.
func (a Amount) Mod(b Amount) Amount {
	if b.IsZero() {
		panic(byZero("Amount.Mod"))
	}
	return Amount{a.d.Rem(b.d)}
}

// Round returns a with exactly places digits after the point, rounded once.
func (a Amount) Round(places int, how Rounding) Amount { return Amount{a.d.Round(places, how.mode())} }

// Snap returns a as it is compared: rounded to 12 places, half to even, if it came out of a
// quotient that does not end. Otherwise it returns a unchanged.
func (a Amount) Snap() Amount {
	if !a.IsGiven() {
		return AmountOf(0, 0)
	}
	return Amount{a.d.Snap()}
}

// Cmp returns −1, 0 or +1 as a is less than, equal to or greater than b.
func (a Amount) Cmp(b Amount) int { return a.d.Cmp(b.d) }

// Equal reports whether a and b are the same money: 17.5 equals 17.50.
func (a Amount) Equal(b Amount) bool { return a.d.Cmp(b.d) == 0 }

// Sign returns −1, 0 or +1.
func (a Amount) Sign() int { return a.d.Sign() }

// IsZero reports whether a is 0.
func (a Amount) IsZero() bool { return a.d.Sign() == 0 }

// IsGiven reports whether a was read, built or computed, even as 0: MustAmount("0") is given,
// Amount{} is not. It tells a missing field from one that holds 0. In every other way the zero
// value is 0.
func (a Amount) IsGiven() bool { return a.d.Made() }

// Rat returns a as a fraction.
func (a Amount) Rat() *big.Rat { return a.d.Rat() }

// Float64 returns the nearest float, for drawing only: 17.50 is 17.5. It is not exact, and sums
// of floats are not money. Beyond 10^308 it is infinite.
func (a Amount) Float64() float64 {
	f, _ := a.d.Rat().Float64()
	return f
}

// String returns plain decimal text. It has at least as many digits after the point as a was
// given, built or rounded with, usually those of the currency's minor unit, and more only if
// they are not zeros. A sum has the most digits of its parts; a product or quotient has those
// of the money in it: 24.00 × 7.5% is 1.80, and 20.00 ÷ 32 is 0.625. An amount that came out of
// a quotient is written as it is compared, to 12 places.
func (a Amount) String() string { return a.d.String() }

// Format serves fmt: %v, %s and %q as String, %f with a precision rounded
// half away from zero, all with a width.
func (a Amount) Format(s fmt.State, verb rune) { format(s, verb, "Amount", a.d, a.String()) }

// MarshalText returns String.
func (a Amount) MarshalText() ([]byte, error) { return []byte(a.String()), nil }

// AppendText writes String behind b.
func (a Amount) AppendText(b []byte) ([]byte, error) { return a.d.Append(b), nil }

// UnmarshalText reads back what MarshalText wrote: at most 1,000 digits before the point and
// 1,000 after it, more than any sum has. For what a person wrote, use ParseAmount, which has
// closer bounds. The error is a Problem.
func (a *Amount) UnmarshalText(text []byte) error { return amountForm.setText(&a.d, text) }

// MarshalJSON returns String as a JSON string.
func (a Amount) MarshalJSON() ([]byte, error) { return a.AppendJSON(nil) }

// AppendJSON is MarshalJSON behind b.
func (a Amount) AppendJSON(b []byte) ([]byte, error) {
	b, err := a.AppendText(append(b, '"'))
	return append(b, '"'), err
}

// UnmarshalJSON reads a JSON string as UnmarshalText does, and a JSON number, which
// MarshalJSON never writes, from its digits with the bounds of ParseAmount.
func (a *Amount) UnmarshalJSON(data []byte) error { return amountForm.setJSON(&a.d, data) }

// MarshalBinary writes a with all its digits, also for gob. It comes back unchanged, even as a
// quotient that does not end.
func (a Amount) MarshalBinary() ([]byte, error) { return a.AppendBinary(nil) }

// AppendBinary is MarshalBinary behind b.
func (a Amount) AppendBinary(b []byte) ([]byte, error) { return a.d.AppendBinary(b), nil }

// UnmarshalBinary reads what MarshalBinary wrote. The error is a Problem.
func (a *Amount) UnmarshalBinary(data []byte) error { return amountForm.setBinary(&a.d, data) }

// Value stores a as text, for numeric columns.
func (a Amount) Value() (driver.Value, error) { return a.String(), nil }

// Scan reads back what Value stored: text, numeric and integer columns. Floats are
// refused, and so is NULL, which an Optional takes.
func (a *Amount) Scan(src any) error { return scanText(src, amountForm.what, a.UnmarshalText) }

// Split divides a into parts in proportion to weights, without losing a cent. Each part is a
// whole number of units of the last of places, and the parts add up to a exactly. Every part
// first gets its share rounded toward zero. The units that are left go to the largest
// remainders, of equal ones to the first (the largest-remainder method, also Hamilton's). 1.00
// by three equal weights is 0.34, 0.33 and 0.33. A negative amount splits as its positive one
// does.
//
// Places is kept within 0 to 64. The error is a Problem: there are no weights, one is negative,
// all are zero, or a is not a whole number of units.
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
	slices.SortStableFunc(order, func(i, j int) int { return cmp.Compare(rests[j].Cmp(rests[i]), 0) })
	for _, i := range order[:left.Int64()] {
		parts[i].Add(parts[i], big.NewInt(1))
	}
	return parts
}

func pow10(n int) *big.Int { return new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(n)), nil) }
