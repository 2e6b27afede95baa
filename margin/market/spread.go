package market

import (
	"math"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/estimate"
)

// Scale says what a spread was taken from.
type Scale string

const (
	ByDeviation Scale = "deviation" // the median absolute deviation
	ByQuartiles Scale = "quartiles" // the distance of the quartiles, where half of the weight or more is at one price
	NoScale     Scale = ""          // nothing to take it from: even the quartiles are the same
)

// Spread is how far prices lie from their centre, in the place of a standard
// deviation. It is 1.4826 × the weighted median of the distances from the
// weighted median, which only half of the weight can spoil, where a quarter
// spoils the distance of the quartiles; that one, ÷ 1.349, stands in where half
// of the weight is at one price. Either is what a standard deviation would be
// of normal prices (Huber, Robust Statistics, 1981, section 5.1; from memory).
type Spread struct {
	Money quoin.Amount `json:"money"`
	// Log is the same of the natural logarithms of prices, to six significant
	// digits: 0.2 is about 20% up or down.
	Log quoin.Factor `json:"log"`
	By  Scale        `json:"by,omitempty"`
	// Quartiles are the prices at 25% and 75%.
	Quartiles quoin.Range[quoin.Amount] `json:"quartiles"`
}

// Codes of outliers.
const (
	FarAbove quoin.Code = "far_above_centre" // more than so many spreads above the centre
	FarBelow quoin.Code = "far_below_centre" // or below it
)

// Outlier is a record whose price is further from the centre than the options
// allow. It stays in: whether it is a mistake or the market, the caller knows.
type Outlier struct {
	Record int          `json:"record"`
	Code   quoin.Code   `json:"code"`
	Price  quoin.Amount `json:"price"`
	// Spreads is the distance of the logarithms ÷ their spread; negative below
	// the centre.
	Spreads quoin.Factor `json:"spreads"`
}

func (c cloud) spread() Spread {
	centre := c.median()
	low, high := c.quantile(percent(25).Factor()), c.quantile(percent(75).Factor())
	s := Spread{Quartiles: quoin.Between(money(low), money(high))}
	apart := c.distances(func(v quoin.Factor) quoin.Factor { return distance(v, centre) }).median()
	if apart.Sign() > 0 {
		s.By = ByDeviation
		s.Money = money(apart.Times(perDeviation()))
		s.Log = c.distances(func(v quoin.Factor) quoin.Factor { return logDistance(v, centre) }).median().Times(perDeviation())
	} else if high.Cmp(low) > 0 {
		s.By = ByQuartiles
		s.Money = money(high.Sub(low).Over(perQuartiles()))
		s.Log = logDistance(high, low).Over(perQuartiles())
	}
	s.Log = estimate.Six(estimate.Float(s.Log)).Or(quoin.Factor{})
	return s
}

func perDeviation() quoin.Factor { return quoin.AmountOf(14826, 4).Ratio(quoin.AmountOf(1, 0)) }
func perQuartiles() quoin.Factor { return quoin.AmountOf(1349, 3).Ratio(quoin.AmountOf(1, 0)) }

func (c cloud) distances(of func(quoin.Factor) quoin.Factor) cloud {
	points := slices.Clone(c.points)
	for i := range points {
		points[i].value = of(points[i].value)
	}
	return cloudOf(points)
}

func distance(a, b quoin.Factor) quoin.Factor {
	if d := a.Sub(b); d.Sign() >= 0 {
		return d
	}
	return b.Sub(a)
}

func logDistance(a, b quoin.Factor) quoin.Factor {
	return estimate.Six(math.Abs(math.Log(estimate.Float(a.Over(b))))).Or(quoin.Factor{})
}

// outlier weighs one price; false where it is none.
func (s Spread) outlier(u WeightedRecord, centre quoin.Amount, limit quoin.Factor) (Outlier, bool) {
	if s.Log.Sign() <= 0 {
		return Outlier{}, false
	}
	away, ok := estimate.Six(math.Log(estimate.Float(u.Price.Ratio(centre))) / estimate.Float(s.Log)).Get()
	o := Outlier{Record: u.Record, Code: FarAbove, Price: u.Price, Spreads: away}
	if away.Sign() < 0 {
		o.Code, away = FarBelow, quoin.Factor{}.Sub(away)
	}
	return o, ok && away.Cmp(limit) > 0
}
