package channel

import "example.com/quoin"

// Payment is what the buyer of one order pays, in parts.
type Payment struct {
	Count    int64 // items in the order
	Items    quoin.Amount
	Shipping quoin.Amount
	Tax      quoin.Amount // on top; 0 where prices hold it
	Discount quoin.Amount // what promotions took off the items
	// Surcharge is what the buyer pays extra for how the order is paid, and SurchargeTax the tax in it; 0 where tax is
	// on top.
	Surcharge, SurchargeTax quoin.Amount
	// Within is the rate of the tax that prices hold, and ShippingTaxed says that
	// shipping holds it too.
	Within        quoin.Rate
	ShippingTaxed bool
	unreduced     quoin.Amount // items before the discount of a shop on consignment
}

// Charge is one fee on one order, step by step. If several orders are charged together, the
// fields from Computed to Tax are for all of them.
type Charge struct {
	// The first three are of the whole order, with others in it; the rest is what own items bear.
	Base     quoin.Amount // the parts named, added up
	Computed quoin.Amount // rate of the base, or tiers, plus fixed, less the tax that it owes
	Bounded  quoin.Amount // not less than AtLeast, then not more than AtMost
	Rounded  quoin.Amount // to money
	Tax      quoin.Amount // on the fee, rounded to money
	Total    quoin.Amount // (rounded + tax) ÷ over × share, not rounded
}

// noOrder is what the order of a fee by itself says, and noKind its kind: nothing.
var (
	noOrder Order
	noKind  = kind{source: &noOrder}
)

// Charge returns the fee on one order, rounded to so many places: each line in turn, as the
// fields of Charge say. A fee that is only expected is not rounded.
func (f Fee) Charge(p Payment, places int) Charge {
	tax := Tax{Rate: p.Within, InPrice: true, OnShipping: p.ShippingTaxed}
	e := order{Trail: silent, taxed: &tax, k: &noKind, places: places}
	if !p.Within.IsZero() {
		e.k = &kind{source: &noOrder, tax: p.Within}
	}
	money := func(a quoin.Amount) quoin.Operand { return quoin.Given("", quoin.Path{}, a.Figure()) }
	parts := paid{items: money(p.Items), shipping: money(p.Shipping), tax: money(p.Tax), discount: money(p.Discount), surcharge: money(p.Surcharge), surchargeTax: money(p.SurchargeTax), unreduced: money(p.unreduced)}
	_, c := e.fee(&compiledFee{Fee: f}, quoin.Path{}, &parts, quoin.FactorOf(p.Count).Named(""))
	return c.Charge
}

// together is what the orders that are charged together come to.
func (f Fee) together(a quoin.Amount) quoin.Amount {
	if f.OrdersTogether.IsZero() {
		return a
	}
	return a.Times(f.OrdersTogether)
}

// parts are what is added up as the base.
func (f Fee) parts() []Part {
	if len(f.Of) == 0 {
		return []Part{Items}
	}
	return f.Of
}

// holdsTax reports whether a part holds the tax that prices hold.
func (p Part) holdsTax(onShipping bool) bool {
	return p == Items || p == Discount || p == unreduced || p == Shipping && onShipping
}

// each is an amount that the fee names, as it is for all that is charged together:
// once, or for each item of count in every order.
func (f Fee) each(a quoin.Amount, count quoin.Factor) quoin.Amount {
	if f.Per == quoin.PerItem {
		return f.together(a.Times(count))
	}
	return a
}

// reached is the highest tier that the base comes up to, −1 below all.
func (f Fee) reached(base quoin.Amount, count quoin.Factor) int {
	for i := range f.Tiers {
		if base.Cmp(f.each(f.Tiers[i].From, count)) < 0 {
			return i - 1
		}
	}
	return len(f.Tiers) - 1
}

// slope is the rate at which the fee grows just above the base.
func (f Fee) slope(base quoin.Amount, count quoin.Factor) quoin.Rate {
	if len(f.Tiers) == 0 {
		return f.Rate
	}
	if last := f.reached(base, count); last >= 0 {
		return f.Tiers[last].Rate
	}
	return quoin.Rate{}
}
