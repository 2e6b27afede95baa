package compare

// integers is what one would write by hand: cents in int64, rates in thousandths,
// each division rounded half up. No sum of it is below zero before it is rounded.
func integers() Peer {
	fees, table, costs := Settlement(), Table(), Costs()
	return Peer{
		Name: "int64",
		Settle: func(cents int64) int64 {
			net := cents
			for i := range fees {
				net -= halfUp(cents*fees[i].PerMille, 1000) + fees[i].Fixed
			}
			return net
		},
		Sheet: func(list [Sizes]int64) (out [Results]int64) {
			for s, price := range list {
				for c := range table {
					out[s*Channels+c] = table[c].left(price) - costs[s]
				}
			}
			return out
		},
	}
}

func halfUp(a, b int64) int64 { return (2*a + b) / (2 * b) }

// left is the contribution before the cost of the item.
func (c *Channel) left(list int64) int64 {
	items := halfUp(list*(1000-c.Discount), 1000)
	paid := items
	if items < c.FreeFrom {
		paid += c.Shipping
	}
	var tax int64
	if c.InPrice {
		tax = halfUp(paid*c.Tax, 1000+c.Tax)
	} else {
		tax = halfUp(paid*c.Tax, 1000)
		paid += tax
	}
	commission := halfUp(items*c.Commission, 1000)
	payment := halfUp(paid*c.Payment.PerMille, 1000) + c.Payment.Fixed
	return paid - tax - commission - payment - c.Postage
}
