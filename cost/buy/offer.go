package buy

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Offer is a seller's scale of prices for a supply, and how many are needed.
type Offer struct {
	// What one of what is sold holds: "1 sheet", "50 sheet", "80 ml".
	Pack quoin.Quantity `json:"pack" need:"yes" range:"(0,"`
	// The prices.
	Scale Scale `json:"scale" need:"yes"`
	// How many packs are needed.
	Need int64 `json:"need" need:"yes" range:"[1,1000000]"`
}

// Order is a quantity bought of an offer.
type Order struct {
	// How many packs.
	Quantity int64 `json:"quantity"`
	// What they cost, with freight.
	Cost quoin.Amount `json:"cost"`
	// Packs beyond the need.
	Left int64 `json:"left"`
	// The part of the cost that those have: cost × left ÷ quantity.
	Bound quoin.Amount `json:"bound"`
}

// Cheapest returns the cheapest order that covers the need, and of several the
// smallest. Only the need itself and the turns of the scale can be it. It errs
// as Scale.Check does, and where there is no need.
func (o Offer) Cheapest() (Order, error) {
	var k form.Collector
	k.AddAll(form.In("scale"), o.Scale.Check())
	if o.Need < 1 {
		k.Add(form.In("need"), fault(quoin.OutOfRange, "", quoin.FactorOf(o.Need).String(), "a value of at least 1"))
	}
	if err := k.All().Err(); err != nil {
		return Order{}, err
	}
	return o.order(o.Scale.Cover().Quantity(o.Need)), nil
}

// Cover is a scale made ready to find the cheapest quantity that covers a need.
type Cover struct {
	scale table
	turns []int64
	// cheapest is for each turn the cheapest one from it on, of several the smallest.
	cheapest []int64
}

// Cover makes ready a scale that Check accepts.
func (s Scale) Cover() Cover {
	c := Cover{scale: s.table()}
	c.turns = c.scale.turns()
	c.cheapest = slices.Clone(c.turns)
	for i := len(c.turns) - 2; i >= 0; i-- {
		if after := c.cheapest[i+1]; c.Cost(after).Cmp(c.Cost(c.turns[i])) < 0 {
			c.cheapest[i] = after
		}
	}
	return c
}

// Cost returns what a quantity costs with freight, as Scale.Cost does.
func (c Cover) Cost(quantity int64) quoin.Amount { return c.scale.cost(quantity) }

// Quantity returns the cheapest quantity that is sold and covers a need, of several
// the smallest: 15 where 14 are needed and 15 cost less. Only the need itself and
// the turns of the scale can be it.
func (c Cover) Quantity(need int64) int64 {
	own := c.scale.Sold(need)
	i, _ := slices.BinarySearch(c.turns, own)
	if i == len(c.turns) {
		return own
	}
	if more := c.cheapest[i]; c.Cost(more).Cmp(c.Cost(own)) < 0 {
		return more
	}
	return own
}

func (o Offer) order(n int64) Order {
	left := n - o.Need
	cost := o.Scale.Cost(n)
	return Order{n, cost, left, cost.Times(quoin.FactorOf(left)).Over(quoin.FactorOf(n))}
}

// DominatedQuantities is quantities, from one to another, that cost more than Instead,
// which is larger.
type DominatedQuantities struct {
	// The first of them.
	From int64 `json:"from"`
	// The last of them.
	To int64 `json:"to"`
	// The larger one.
	Instead int64 `json:"instead"`
}

// Dominated returns the quantities that cost more than a larger one, as where
// 12 cost less than 11, in rising order, for a scale that Check accepts.
func (s Scale) Dominated() []DominatedQuantities {
	var out []DominatedQuantities // from the greatest down
	t, m := s.table(), s.multiple()
	turns := t.turns()
	instead := int64(0)
	for k := len(turns) - 1; k > 0; k-- {
		if at := turns[k]; instead == 0 || t.cost(at).Cmp(t.cost(instead)) <= 0 {
			instead = at
		}
		cost := t.cost(instead)
		n := least((turns[k]-turns[k-1])/m, func(i int64) bool { return t.cost(turns[k-1]+i*m).Cmp(cost) > 0 })
		from, to := turns[k-1]+n*m, turns[k]-m
		switch last := len(out) - 1; {
		case from > to:
		case last >= 0 && out[last].Instead == instead && out[last].From == to+m:
			out[last].From = from
		default:
			out = append(out, DominatedQuantities{from, to, instead})
		}
	}
	slices.Reverse(out)
	return out
}

// EconomicOrder is how many to order at a time where a demand is spread evenly
// over a year.
type EconomicOrder struct {
	Quantity int64
	Orders   quoin.Factor // in a year: demand ÷ quantity
	Cost     quoin.Amount // of ordering and holding in a year, and of the goods where they have prices
}

// Economic returns the quantity that costs least in a year: demand ÷ quantity ×
// (setup + what the quantity costs, with freight) + quantity ÷ 2 × holding, the
// economic order quantity (F. W. Harris, 1913), whole, up to 1,000,000, and of
// two that cost the same the smaller. Of a scale it is a quantity that is sold.
// Demand, setup and holding are above zero; a scale is one that Check accepts,
// or has no steps, which leaves the goods out.
func Economic(demand int64, setup, holding quoin.Amount, scale Scale) EconomicOrder {
	if len(scale.Steps) == 0 {
		scale = Scale{Steps: []PriceBreak{{From: 1}}}
	}
	e := economy{quoin.FactorOf(demand), setup, holding, scale}
	turns, m := scale.Turns(), scale.multiple()
	var best EconomicOrder
	for i, first := range turns {
		last := max(first, mostSold/m*m)
		if i+1 < len(turns) {
			last = turns[i+1] - m
		}
		other := e.at(e.even(first, last))
		if i == 0 || other.Cost.Cmp(best.Cost) < 0 {
			best = other
		}
	}
	return best
}

type economy struct {
	demand         quoin.Factor
	setup, holding quoin.Amount
	scale          Scale
}

func (e economy) at(n int64) EconomicOrder {
	held := e.holding.Times(quoin.FactorOf(n)).Over(quoin.FactorOf(2))
	spent := e.order(n).Times(e.demand).Over(quoin.FactorOf(n))
	return EconomicOrder{n, e.demand.Over(quoin.FactorOf(n)), spent.Add(held)}
}

// order returns what one order of n costs.
func (e economy) order(n int64) quoin.Amount { return e.setup.Add(e.scale.Cost(n)) }

// even returns the best quantity between two turns, where an order costs a fixed
// sum and so much for each: a year's cost falls until ordering costs about what
// holding does, and rises from there.
func (e economy) even(first, last int64) int64 {
	m := e.scale.multiple()
	return first + m*least((last-first)/m, func(k int64) bool { return e.rises(first+k*m, first+k*m+m) })
}

// rises reports whether orders of next, which is more than n, cost no less in a
// year: both sides times 2 × n × next, so that nothing is divided.
func (e economy) rises(n, next int64) bool {
	a, b, twice := quoin.FactorOf(n), quoin.FactorOf(next), e.demand.Times(quoin.FactorOf(2))
	ab := a.Times(b)
	now := e.order(n).Times(twice).Times(b).Add(e.holding.Times(ab).Times(a))
	then := e.order(next).Times(twice).Times(a).Add(e.holding.Times(ab).Times(b))
	return then.Cmp(now) >= 0
}
