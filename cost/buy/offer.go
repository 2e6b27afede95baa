package buy

import "example.com/quoin"

// Offer is a seller's scale of prices for a supply, and how many are needed.
type Offer struct {
	// Pack is what one of what is sold holds: "1 sheet", "50 sheet", "80 ml".
	Pack  quoin.Quantity `json:"pack" need:"yes" range:"(0,"`
	Scale Scale          `json:"scale" need:"yes"`
	Need  int64          `json:"need" need:"yes" range:"[1,1000000]"` // packs
}

// Order is a quantity bought of an offer.
type Order struct {
	Quantity int64        `json:"quantity"`
	Cost     quoin.Amount `json:"cost"` // with freight
	// Left is what is bought beyond the need, and Bound the part of the cost that
	// it has: cost × left ÷ quantity.
	Left  int64        `json:"left"`
	Bound quoin.Amount `json:"bound"`
}

// Cheapest returns the cheapest order that covers the need, and of several the
// smallest. Only the need itself and the turns of the scale can be it. It errs
// as Scale.Check does.
func (o Offer) Cheapest() (Order, error) {
	if err := o.Scale.Check(); err != nil {
		return Order{}, within("scale", err)
	}
	best := o.order(o.Scale.Sold(o.Need))
	for _, n := range o.Scale.Turns() {
		if n < best.Quantity {
			continue
		}
		if other := o.order(n); other.Cost.Cmp(best.Cost) < 0 {
			best = other
		}
	}
	return best, nil
}

func (o Offer) order(n int64) Order {
	left := n - o.Need
	cost := o.Scale.Cost(n)
	return Order{n, cost, left, cost.Times(quoin.FactorOf(left)).Over(quoin.FactorOf(n))}
}

// Dominated is quantities, from one to another, that cost more than Instead,
// which is larger.
type Dominated struct {
	From    int64 `json:"from"`
	To      int64 `json:"to"`
	Instead int64 `json:"instead"`
}

// Dominated returns the quantities that cost more than a larger one, as where
// 12 cost less than 11, in rising order, for a scale that Check accepts.
func (s Scale) Dominated() []Dominated {
	var out []Dominated
	turns, m := s.Turns(), s.multiple()
	instead := int64(0)
	for k := len(turns) - 1; k > 0; k-- {
		if at := turns[k]; instead == 0 || s.Cost(at).Cmp(s.Cost(instead)) <= 0 {
			instead = at
		}
		cost := s.Cost(instead)
		n := least((turns[k]-turns[k-1])/m, func(i int64) bool { return s.Cost(turns[k-1]+i*m).Cmp(cost) > 0 })
		from, to := turns[k-1]+n*m, turns[k]-m
		switch {
		case from > to:
		case len(out) > 0 && out[0].Instead == instead && out[0].From == to+m:
			out[0].From = from
		default:
			out = append([]Dominated{{from, to, instead}}, out...)
		}
	}
	return out
}

// EconomicOrder is how many to order at a time where a demand is spread evenly
// over a year.
type EconomicOrder struct {
	Quantity int64
	Orders   quoin.Factor // in a year: demand ÷ quantity
	Cost     quoin.Amount // of ordering and holding in a year, and of the goods where they have prices
}

// Economic returns the quantity that costs least in a year: demand × each +
// demand ÷ quantity × setup + quantity ÷ 2 × holding, the economic order
// quantity (F. W. Harris, 1913), whole, and of two that cost the same the
// smaller. With a scale, prices count, and each step is tried. Demand, setup
// and holding are above zero; a scale is one that Check accepts, or has no
// steps.
func Economic(demand int64, setup, holding quoin.Amount, scale Scale) EconomicOrder {
	e := economy{demand, setup, holding, scale}
	best := e.at(e.even())
	for _, p := range scale.Steps {
		for _, n := range []int64{max(e.even(), p.From), p.From} {
			if other := e.at(n); other.Cost.Cmp(best.Cost) < 0 {
				best = other
			}
		}
	}
	return best
}

type economy struct {
	demand         int64
	setup, holding quoin.Amount
	scale          Scale
}

func (e economy) at(n int64) EconomicOrder {
	orders := quoin.FactorOf(e.demand).Over(quoin.FactorOf(n))
	cost := e.setup.Times(orders).Add(e.holding.Times(quoin.FactorOf(n)).Over(quoin.FactorOf(2)))
	if len(e.scale.Steps) > 0 {
		cost = cost.Add(e.scale.Goods(n).Times(orders))
	}
	return EconomicOrder{n, orders, cost}
}

// even returns the quantity whose ordering costs about what its holding does:
// the least n beyond which one more costs no less, 2 × demand × setup ≤ n × (n +
// 1) × holding.
func (e economy) even() int64 {
	twice := e.setup.Times(quoin.FactorOf(2 * e.demand))
	return 1 + least(mostSold, func(k int64) bool {
		return e.holding.Times(quoin.FactorOf((k+1)*(k+2))).Cmp(twice) >= 0
	})
}

// within says in what a problem stands.
func within(at string, err error) error {
	p, ok := err.(quoin.Problem)
	if !ok {
		return err
	}
	p.Path = at + "." + p.Path
	return p
}
