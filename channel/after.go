package channel

import "example.com/quoin"

// refunding says what of each fee stays where orders are given back: of what goes
// with the price, what is not given back; of the channel's fees by rate, what no
// refund brings back.
func (c Channel) refunding(levies []levy) {
	back := c.After.Returned.Of(c.After.Part.Or(whole)).Of(c.After.Fees)
	for i := range levies {
		l := &levies[i]
		switch {
		case l.withPrice():
			l.stays = quoin.Some(c.After.Share().Complement())
		case l.way == "" && (!l.Rate.IsZero() || len(l.Tiers) > 0) && !c.After.Fees.IsZero():
			l.stays = quoin.Some(back.Complement())
		}
	}
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
			rate: func(e *order, at quoin.Path) quoin.Operand { return r.ExplainShare(e.Trail, at) },
		})
	}
	if each := r.Abroad(c.Home()).PerOrder(); !each.IsZero() {
		out = append(out, levy{
			Fee: Fee{Name: "returns and disputes", Fixed: each, Expected: true}, way: "after",
			fixed: func(e *order, at quoin.Path) quoin.Operand {
				if c.Abroad == nil {
					return r.ExplainPerOrder(e.Trail, at)
				}
				return r.ExplainPerOrderAbroad(e.Trail, at, e.exchange())
			},
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
	if c.After == nil {
		return zero("back on sale")
	}
	return c.After.ExplainBackOnSale(t.On(""), at.Sub("returns", -1))
}

// Lost returns the share of goods that is lost on the way or in a shop that has
// them on consignment: 1 − (1 − loss) × (1 − the shop's loss).
func (c Channel) Lost() quoin.Rate {
	if c.Consignment == nil || c.Consignment.Loss.IsZero() {
		return c.Loss
	}
	return quoin.FactorOf(1).Sub(c.Loss.Complement().Times(c.Consignment.Loss.Complement())).Rate()
}
