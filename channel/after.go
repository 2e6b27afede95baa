package channel

import "example.com/quoin"

// feesStay is the share of fees by rate that no refund brings back.
func (c Channel) feesStay() quoin.Optional[quoin.Factor] {
	if c.After == nil || c.After.Fees.IsZero() {
		return quoin.Optional[quoin.Factor]{}
	}
	return quoin.Some(c.After.Returned.Of(c.After.Part.Or(whole)).Of(c.After.Fees).Complement())
}

// givenBack is what a shop or a house keeps of a price: of what is given back it
// keeps nothing.
func (c Channel) givenBack(levies []levy) []levy {
	if c.After == nil {
		return levies
	}
	for i := range levies {
		if !levies[i].Expected {
			levies[i].stays, levies[i].sides = quoin.Some(c.After.Share().Complement()), true
		}
	}
	return levies
}

// afterwards is what refunds and disputes take of an order on average.
func (c Channel) afterwards() []levy {
	if c.After == nil {
		return nil
	}
	r := *c.After
	of := []Part{Items}
	if r.Shipping {
		of = append(of, Shipping)
	}
	var out []levy
	if share := r.Share(); !share.IsZero() {
		out = append(out, levy{
			Fee: Fee{Name: "refunds", Rate: share, Of: of, Net: true, Expected: true}, way: "after",
			rate: func(e explainer, at quoin.Path) quoin.Operand { return r.ExplainShare(e.Trail, at) },
		})
	}
	if each := r.PerOrder(); !each.IsZero() {
		out = append(out, levy{
			Fee: Fee{Name: "returns and disputes", Fixed: each, Expected: true}, way: "after",
			fixed: func(e explainer, at quoin.Path) quoin.Operand { return r.ExplainPerOrder(e.Trail, at) },
		})
	}
	return out
}

// Back returns the share of the goods sold that come back and are sold again.
func (c Channel) Back() quoin.Rate {
	if c.After == nil {
		return quoin.Rate{}
	}
	return c.After.BackOnSale()
}

// ExplainBack explains Back. The channel stands at a path.
func (c Channel) ExplainBack(t *quoin.Trail, at quoin.Path) quoin.Operand {
	return c.After.ExplainBackOnSale(t.On(""), at.Sub("after", -1))
}

// Lost returns the share of goods that is lost on the way or in a shop that has
// them on consignment: 1 − (1 − loss) × (1 − the shop's loss).
func (c Channel) Lost() quoin.Rate {
	if c.Consignment == nil || c.Consignment.Loss.IsZero() {
		return c.Loss
	}
	return quoin.FactorOf(1).Sub(c.Loss.Complement().Times(c.Consignment.Loss.Complement())).Rate()
}
