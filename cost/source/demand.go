package source

import (
	"cmp"
	"math/big"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Demand is how many prints may be asked for. It is given in one of three ways: evenly from low
// to high, about a mean with a standard deviation (normal distribution), or as cases with their
// shares.
type Demand struct {
	// The fewest.
	Low int64 `json:"low,omitzero" range:"[0,1000000]"`
	// The most of them.
	High int64 `json:"high,omitzero" range:"[0,1000000]"`
	// The mean of a normal distribution.
	Mean quoin.Factor `json:"mean,omitzero" range:"[0,"`
	// Its standard deviation.
	Deviation quoin.Factor `json:"deviation,omitzero" range:"[0,"`
	// Numbers of prints with their shares, which sum to 1.
	Cases []Case `json:"cases,omitempty" most:"1000"`
}

// Case is one number of prints that may be asked for.
type Case struct {
	// How many of them.
	Prints quoin.Optional[int64] `json:"prints" need:"yes" range:"[0,1000000]"`
	// How often that is.
	Share quoin.Rate `json:"share" need:"yes" range:"[0,1]"`
}

// IsZero reports whether no demand was given.
func (d Demand) IsZero() bool { return d.High == 0 && d.Mean.IsZero() && len(d.Cases) == 0 }

// BadDemand is the code of a demand that is none, or more than one.
const BadDemand quoin.Code = "bad_demand"

// Check returns everything that is wrong with the demand, at once: values that its fields do
// not take. If there are none, it also looks for a demand that is given in no way or in
// several, a low above its high, and shares that do not add up to 1. The error is
// quoin.Problems.
func (d Demand) Check() error {
	if ps := form.Computed(d).All(); len(ps) > 0 {
		return ps
	}
	p := quoin.Problem{Code: BadDemand, Severity: quoin.Fault, Wanted: "low and high, or mean and deviation, or cases whose shares sum to 100%"}
	ways := 0
	for _, given := range []bool{d.High > 0, d.Mean.Sign() > 0, len(d.Cases) > 0} {
		if given {
			ways++
		}
	}
	var sum quoin.Rate
	for _, c := range d.Cases {
		sum = sum.Add(c.Share)
	}
	switch {
	case ways != 1:
		p.Found = quoin.FactorOf(int64(ways)).String() + " ways of giving it"
	case d.High > 0 && d.Low > d.High:
		p.Found = "a low above the high"
	case d.Mean.Sign() > 0 && d.Deviation.Sign() <= 0:
		p.Found = "a mean without a deviation"
	case len(d.Cases) > 0 && !sum.Equal(quoin.MustRate("100%")):
		p.Found = "shares that sum to " + sum.String()
	default:
		return nil
	}
	return quoin.Problems{p}
}

// CriticalRatio returns how often demand should stay below the order: short ÷ (short + over),
// the newsvendor's ratio. Short is the loss of one print too few, over that of one too many.
// 18.00 and 2.00 give 90%. It returns false if the two together are not above zero.
func CriticalRatio(short, over quoin.Amount) (quoin.Rate, bool) {
	both := short.Add(over)
	if short.Sign() < 0 || over.Sign() < 0 || both.Sign() <= 0 {
		return quoin.Rate{}, false
	}
	return short.Share(both), true
}

// Quantile returns the number that demand does not exceed with probability p, not rounded.
// Check must accept the demand. It is low + p × (high − low); or mean + z × deviation, with z
// to 15 places; or the first case at which the shares of this and all lower cases reach p. For
// a normal demand, p is kept a millionth away from 0 and 1.
func (d Demand) Quantile(p quoin.Rate) quoin.Factor {
	switch {
	case len(d.Cases) > 0:
		return quoin.FactorOf(d.ofCases(p))
	case d.High > 0:
		return quoin.FactorOf(d.Low).Add(quoin.FactorOf(d.High - d.Low).Times(p.Factor()))
	}
	return d.Mean.Add(normalQuantile(p).Times(d.Deviation))
}

func (d Demand) ofCases(p quoin.Rate) int64 {
	var sum quoin.Rate
	cases := slices.SortedStableFunc(slices.Values(d.Cases), func(a, b Case) int { return cmp.Compare(a.Prints.Or(0), b.Prints.Or(0)) })
	for _, c := range cases {
		if sum = sum.Add(c.Share); sum.Cmp(p) >= 0 {
			return c.Prints.Or(0)
		}
	}
	return cases[len(cases)-1].Prints.Or(0)
}

// Order returns how many prints to order: the Quantile of the critical ratio, rounded up, at
// least 0.
func (d Demand) Order(ratio quoin.Rate) int64 {
	n := d.Quantile(ratio).Round(0, quoin.Up)
	if n.Sign() <= 0 {
		return 0
	}
	return n.Rat().Num().Int64()
}

// LeftOver returns how many of n prints are left over on average. For an even demand it is (n −
// low)² ÷ 2(high − low). For cases it is the sum of share × what is left. For a normal demand
// it is deviation × (z × Φ(z) + φ(z)); with a deviation of 0 it is what n exceeds the mean by.
func (d Demand) LeftOver(n int64) quoin.Factor {
	switch {
	case len(d.Cases) > 0:
		var sum quoin.Factor
		for _, c := range d.Cases {
			sum = sum.Add(c.Share.Factor().Times(quoin.FactorOf(max(n-c.Prints.Or(0), 0))))
		}
		return sum
	case d.High > d.Low:
		below := min(max(n-d.Low, 0), d.High-d.Low)
		beyond := quoin.FactorOf(max(n-d.High, 0))
		return quoin.FactorOf(below).Times(quoin.FactorOf(below)).Over(quoin.FactorOf(2 * (d.High - d.Low))).Add(beyond)
	case d.High > 0:
		return quoin.FactorOf(max(n-d.High, 0))
	}
	if d.Deviation.IsZero() {
		beyond := quoin.FactorOf(n).Sub(d.Mean)
		if beyond.Sign() < 0 {
			return quoin.Factor{}
		}
		return beyond
	}
	z := fixed(quoin.FactorOf(n).Sub(d.Mean).Over(d.Deviation))
	density, below := normal(z)
	standard := new(big.Int).Add(mul(z, below), density)
	return d.Deviation.Times(factor(standard))
}
