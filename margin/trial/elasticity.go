package trial

import (
	"math"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/estimate"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
)

// Point is what sold at a price: a count, or sales per exposure.
type Point struct {
	Price quoin.Amount `json:"price" range:"[0,"`
	Sales quoin.Factor `json:"sales" range:"[0,"`
}

// Elasticity returns the arc elasticity from one point to another, by the midpoint
// method: the change in sales as a share of their mean, over the change in price
// as a share of its mean (Principles of Economics, OpenStax, 5.1). It is
// above zero where more was sold at the higher price. It is exact to 34 digits,
// and the same both ways round. None where both prices are the same, both sales
// are zero, or a figure is negative.
func Elasticity(from, to Point) (e quoin.Optional[quoin.Factor]) {
	price, sales := from.Price.Add(to.Price), from.Sales.Add(to.Sales)
	negative := from.Price.Sign() < 0 || to.Price.Sign() < 0 || from.Sales.Sign() < 0 || to.Sales.Sign() < 0
	if negative || from.Price.Equal(to.Price) || sales.IsZero() {
		return e
	}
	// (Δq ÷ Σq) ÷ (Δp ÷ Σp) with one division
	up := to.Price.Sub(from.Price).Ratio(quoin.AmountOf(1, 0)).Times(sales)
	return quoin.Some(to.Sales.Sub(from.Sales).Times(price.Ratio(quoin.AmountOf(1, 0))).Over(up))
}

// SlopeOptions is how SlopeOf goes about it.
type SlopeOptions struct {
	// Confidence is 95% where none is given.
	Confidence quoin.Optional[quoin.Rate] `json:"confidence,omitzero" range:"[0.5,0.9999]"`
	// AddHalf adds half a sale at every price, so that one without sales has a
	// logarithm too. Otherwise there is no slope where nothing sold at some price.
	AddHalf bool `json:"add_half,omitzero"`
}

// Slope is the elasticity over all prices: the slope of log sales per exposure
// against log price.
type Slope struct {
	// Elasticity is none where Why says so.
	Elasticity quoin.Optional[quoin.Factor] `json:"elasticity,omitzero"`
	// Interval is none with fewer than three prices.
	Interval quoin.Optional[quoin.Range[quoin.Factor]] `json:"interval,omitzero"`
	// Error is the standard error of the slope, none with fewer than three prices.
	Error  quoin.Optional[quoin.Factor] `json:"error,omitzero"`
	Why    []SlopeMark                  `json:"why,omitempty"`
	Prices []AtPrice                    `json:"prices"`
}

// AtPrice is all that sold at one price.
type AtPrice struct {
	Price    quoin.Amount `json:"price"`
	Units    int64        `json:"units"`
	Exposure quoin.Factor `json:"exposure"`
}

// SlopeMark says why a slope or its interval is not given.
type SlopeMark string

const (
	OnePrice  SlopeMark = "one_price"  // no slope through one price
	TwoPrices SlopeMark = "two_prices" // a slope, and nothing to tell its error from: try a third
	ZeroSales SlopeMark = "zero_sales" // nothing sold at some price, and no half is added
)

// SlopeOf fits log(units ÷ exposure) on log price by least squares, weighted by
// units, since the logarithm of a Poisson count has a variance of nearly 1 ÷
// count. The interval is Student's t of prices − 2 degrees of freedom (Draper and
// Smith, Applied Regression Analysis, chapters 1 and 2; from memory). It assumes
// one elasticity over all prices tried, and that nothing else changed from one to
// the next; its sign is whatever the data say.
//
// All periods are of one product, channel, kind of exposure and occasion. The
// error is Problems: periods that differ in these, or faults in them, and a price
// of zero.
func SlopeOf(ps []Period, o SlopeOptions) (Slope, error) {
	if err := checkSlope(ps, o); err != nil {
		return Slope{}, err
	}
	s := Slope{Prices: byPrice(ps)}
	half := 0.0
	if o.AddHalf {
		half = 0.5
	}
	var x, y, w []float64
	for _, p := range s.Prices {
		n := float64(p.Units) + half
		x, y, w = append(x, math.Log(estimate.Float(p.Price))), append(y, math.Log(n)-math.Log(estimate.Float(p.Exposure))), append(w, n)
	}
	switch {
	case len(x) == 1:
		s.Why = append(s.Why, OnePrice)
	case slices.Contains(w, 0):
		s.Why = append(s.Why, ZeroSales)
	default:
		l, _ := estimate.Through(x, y, w, float64(len(x)))
		s.Elasticity = estimate.Six(l.Slope)
		if len(x) == 2 {
			s.Why = append(s.Why, TwoPrices)
			break
		}
		room := l.SlopeError * estimate.StudentBeyond(level(o.Confidence), float64(len(x)-2))
		s.Error, s.Interval = estimate.Six(l.SlopeError), estimate.Between(l.Slope-room, l.Slope+room)
	}
	return s, nil
}

func checkSlope(ps []Period, o SlopeOptions) error {
	c := checking()
	c.confidence(o.Confidence)
	c.list("periods", ps)
	for i, p := range ps[:min(len(ps), mostPeriods)] {
		at := form.In("periods").At(i)
		if p.Product != ps[0].Product {
			c.fault(MixedProducts, at.Field("product"), prose.Quoted(p.Product), "one product throughout, "+prose.Quoted(ps[0].Product))
		}
		if like(p) != like(ps[0]) {
			c.fault(UnlikePeriods, at, "another channel, kind of exposure or occasion than periods[0]", "one of each")
		}
		if p.Price.IsGiven() && p.Price.IsZero() {
			c.fault(quoin.OutOfRange, at.Field("price"), "0", "a value above 0, since its logarithm is taken")
		}
	}
	return c.err()
}

// byPrice puts together what sold at one price, the lowest first.
func byPrice(ps []Period) []AtPrice {
	sorted := slices.Clone(ps)
	slices.SortStableFunc(sorted, func(p, q Period) int { return p.Price.Cmp(q.Price) })
	var out []AtPrice
	for _, p := range sorted {
		if n := len(out); n == 0 || !out[n-1].Price.Equal(p.Price) {
			out = append(out, AtPrice{Price: p.Price})
		}
		last := &out[len(out)-1]
		last.Units += p.Units
		last.Exposure = last.Exposure.Add(p.Exposure.Number)
	}
	return out
}
