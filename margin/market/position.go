package market

import (
	"example.com/quoin"
	"example.com/quoin/internal/estimate"
)

// Bounds is between which prices one lies. An end that is not given is one that
// the data do not bound.
type Bounds struct {
	Low  quoin.Optional[quoin.Amount] `json:"low,omitzero"`
	High quoin.Optional[quoin.Amount] `json:"high,omitzero"`
}

// Quantile is the price below which a share of the comparables lies.
type Quantile struct {
	Share  quoin.Rate   `json:"share"`
	Price  quoin.Amount `json:"price"`
	Bounds Bounds       `json:"bounds"`
}

// Position is where a price stands among the comparables.
type Position struct {
	Price quoin.Amount `json:"price"`
	// Percentile is the share of the weight below the price, and half of that at
	// it.
	Percentile quoin.Rate              `json:"percentile"`
	Interval   quoin.Range[quoin.Rate] `json:"interval"`
}

// Position says where a price on the summary's basis stands; it is not given
// where the summary refuses a point, or for a price that is not above 0.
//
// The interval is Wilson's score interval for the percentile on the effective
// number of sellers (Wilson, Journal of the American Statistical Association 22
// (1927) 209–212), rounded to six significant digits: all shares that the
// percentile is no further from than the normal quantile times √(share × (1 −
// share) ÷ effective). It takes the sellers for a fair draw from the market. How
// uncertain the exponent of area is, is not in it.
func (s Summary) Position(price quoin.Amount) quoin.Optional[Position] {
	if !s.speaks() || price.Sign() <= 0 {
		return quoin.Optional[Position]{}
	}
	n := s.Effective.Or(quoin.Factor{})
	at := s.cloud().rank(number(price)).Rate()
	low, high := estimate.Wilson(estimate.Float(at.Factor()), estimate.Float(n), estimate.Float(s.Confidence.Factor()))
	ends, ok := estimate.Between(low, high).Get()
	if !ok {
		return quoin.Optional[Position]{}
	}
	return quoin.Some(Position{price, at, quoin.Between(ends.Low.Rate(), ends.High.Rate())})
}

// speaks reports whether the summary has a point, as Summarize makes it: one made
// by hand may hold anything.
func (s Summary) speaks() bool {
	sure := Options{Confidence: quoin.Some(s.Confidence)}.Check() == nil
	n, ok := s.Effective.Get()
	return ok && n.Cmp(quoin.FactorOf(1)) >= 0 && !s.Centre.IsZero() && len(s.Used) > 0 && sure
}

// PriceAt is the price at a percentile from 0% to 100%; it is not given where
// the summary refuses a point. Sorted by price, a point's position is (weight
// before it + half its own) ÷ all; between positions the price is interpolated,
// outside them it is that at the end. A point is the records of one seller at one
// venue and price: a seller at two venues has two, also at one price. With equal
// weights this is type 5 of Hyndman and Fan, "Sample quantiles in statistical
// packages", The American Statistician 50 (1996) 361–365, which is Hazen's. It is
// exact but for quotients, cut at 34 digits.
//
// The bounds are prices that were seen: the ends of the interval of order
// statistics (David and Nagaraja, Order Statistics, 3rd ed. 2003, section 7.1;
// from memory), taken to weights by the share of them below each price, as Woodruff
// does (Journal of the American Statistical Association 47 (1952) 635–646; from
// memory), and to the effective number of sellers; where weights are so uneven
// that the price itself would lie outside, it is the end. For a median at 95% it
// takes six sellers of the same weight to have any. How uncertain the exponent
// of area is, is not in them.
func (s Summary) PriceAt(share quoin.Rate) quoin.Optional[Quantile] {
	if !s.speaks() || share.Sign() < 0 || share.Factor().Cmp(quoin.FactorOf(1)) > 0 {
		return quoin.Optional[Quantile]{}
	}
	return quoin.Some(s.at(s.cloud(), share))
}

func (s Summary) at(c cloud, share quoin.Rate) Quantile {
	low, high := c.bounds(estimate.Float(share.Factor()), estimate.Float(s.Confidence.Factor()), estimate.Float(s.Effective.Or(quoin.Factor{})))
	v := c.quantile(share.Factor())
	if low.Or(v).Cmp(v) > 0 {
		low = quoin.Some(v)
	}
	if high.Or(v).Cmp(v) < 0 {
		high = quoin.Some(v)
	}
	return Quantile{share, money(v), Bounds{amount(low), amount(high)}}
}

func amount(f quoin.Optional[quoin.Factor]) quoin.Optional[quoin.Amount] {
	if v, ok := f.Get(); ok {
		return quoin.Some(money(v))
	}
	return quoin.Optional[quoin.Amount]{}
}
