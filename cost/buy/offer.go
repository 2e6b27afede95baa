package buy

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Offer is a seller's price list for a supply, and how many packs are needed.
type Offer struct {
	// Pack is what one of what is sold holds: "1 sheet", "50 sheet", "80 ml".
	Pack  quoin.Quantity `json:"pack" need:"yes" range:"(0,"`
	Scale Scale          `json:"scale" need:"yes"`
	Need  int64          `json:"need" need:"yes" range:"[1,1000000]"` // packs
}

// Order is a quantity that is bought from an offer.
type Order struct {
	Quantity int64        `json:"quantity"`
	Cost     quoin.Amount `json:"cost"` // with freight
	// Left is what is bought beyond the need, and Bound the part of the cost that
	// it has: cost × left ÷ quantity.
	Left  int64        `json:"left"`
	Bound quoin.Amount `json:"bound"`
}

// Cheapest returns the cheapest order that covers the need, and the smallest of equally cheap
// ones. With 3.39 each, 2.44 from 15 on and a need of 14, it is 15 for 36.60. Only the need
// itself and the turns of the scale are tried; nothing else can be cheapest. It errs as
// Scale.Check does, and if there is no need.
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

// Cover finds the cheapest quantity of a scale that covers a need. It is prepared once for many
// needs.
type Cover struct {
	scale table
	turns []int64
	// cheapest is for each turn the cheapest one from it on, of several the smallest.
	cheapest []int64
}

// Cover prepares the scale. Check must accept it.
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

// Quantity returns the cheapest quantity on sale that covers a need, and the smallest of
// equally cheap ones: 15 for a need of 14 if 15 cost less. Only the need itself and the turns
// of the scale are tried.
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

// DominatedQuantities are quantities, from one to another, that cost more than the larger
// quantity Instead.
type DominatedQuantities struct {
	From    int64 `json:"from"`
	To      int64 `json:"to"`
	Instead int64 `json:"instead"`
}

// Dominated returns the quantities that cost more than a larger one, in rising order. If 11
// cost 37.29 and 15 cost 36.60, then 11 is one. Check must accept the scale.
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

// EconomicOrder is how many to order at a time if a demand is spread evenly over a year.
type EconomicOrder struct {
	Quantity int64
	Orders   quoin.Factor // in a year: demand ÷ quantity
	Cost     quoin.Amount // of ordering and holding in a year, and of the goods where they have prices
}

// Economic returns the quantity with the lowest yearly cost, the economic order quantity (F. W.
// Harris, 1913):
//
//	demand ÷ quantity × (setup + cost of the quantity with freight) + quantity ÷ 2 × holding
//
// It is a whole number up to 1,000,000, and the smaller of two with the same cost. With a scale
// it is a quantity on sale. Demand, setup and holding must be above zero. The scale must be one
// that Check accepts, or have no steps; then the cost of goods is left out.
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
