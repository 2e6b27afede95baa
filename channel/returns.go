package channel

import "example.com/quoin"

// refunding says what of each fee stays where orders are given back: of what goes
// with the price, what is not given back; of the channel's fees by rate, what no
// refund brings back.
func (c Channel) refunding(compiledFees []compiledFee) {
	back := c.Returns.Returned.Of(c.Returns.Part.Or(whole)).Of(c.Returns.Fees)
	for i := range compiledFees {
		l := &compiledFees[i]
		switch {
		case l.withPrice():
			l.stays = quoin.Some(c.Returns.Share().Complement())
		case l.way == "" && (!l.Rate.IsZero() || len(l.Tiers) > 0) && !c.Returns.Fees.IsZero():
			l.stays = quoin.Some(back.Complement())
		}
	}
}

// afterwards is what refunds and disputes take of an order on average.
func (c Channel) afterwards() []compiledFee {
	r := *c.Returns
	of := []Part{Items}
	if r.Shipping {
		of = append(of, Shipping)
	}
	if r.Surcharge {
		of = append(of, Surcharged)
	}
	var out []compiledFee
	if share := r.Share(); !share.IsZero() {
		out = append(out, compiledFee{
			Fee: Fee{Name: "refunds", Rate: share, Of: of, WithoutTax: true, Expected: true}, way: "returns", asTaxed: true,
			rate: func(e *order, at quoin.Path) quoin.Operand { return r.ExplainShare(e.Trail, at) },
		})
	}
	if each := r.Abroad(c.Home()).PerOrder(); !each.IsZero() {
		out = append(out, compiledFee{
			Fee: Fee{Name: "returns and disputes", Fixed: each, Expected: true}, way: "returns",
			fixed: func(e *order, at quoin.Path) quoin.Operand {
				if c.ForeignCurrency == nil {
					return r.ExplainPerOrder(e.Trail, at)
				}
				return r.ExplainPerOrderAbroad(e.Trail, at, e.exchange())
			},
		})
	}
	return out
}

// Back returns the share of the sold goods that come back and are sold again.
func (c Channel) Back() quoin.Rate {
	if c.Returns == nil {
		return quoin.Rate{}
	}
	return c.Returns.BackOnSale()
}

// ExplainBack explains Back. The channel stands at a path.
func (c Channel) ExplainBack(t *quoin.Trail, at quoin.Path) quoin.Operand {
	if c.Returns == nil {
		return zero("back on sale")
	}
	return c.Returns.ExplainBackOnSale(t.On(""), at.Sub("returns", -1))
}

// Lost returns the share of goods that is lost on the way or in a consignment shop: 1 − (1 −
// loss) × (1 − the shop's loss). 2% and 5% is 6.9%.
func (c Channel) Lost() quoin.Rate {
	if c.Consignment == nil || c.Consignment.LostPieces.IsZero() {
		return c.LostParcels
	}
	return quoin.FactorOf(1).Sub(c.LostParcels.Complement().Times(c.Consignment.LostPieces.Complement())).Rate()
}
