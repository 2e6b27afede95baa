package compare

import (
	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
)

// ofQuoin is the library itself: orders settled and sales weighed by their plans.
func ofQuoin() Peer {
	var sales [Sizes][Channels]*margin.Plan
	for s, row := range quoinSales() {
		for c, sale := range row {
			plan, ok := sale.Plan()
			if !ok {
				panic("a sale of the price sheet has no plan")
			}
			sales[s][c] = plan
		}
	}
	plan, ok := quoinTerms().Plan()
	if !ok {
		panic("the terms of the settlement have no plan")
	}
	return Peer{
		Name: "quoin",
		Settle: func(cents int64) int64 {
			var u channel.Units
			plan.SettleInto(&u, 0, uint64(cents)) // fits at every price of the comparison
			return int64(u.Revenue) - int64(u.Fees)
		},
		Sheet: func(list [Sizes]int64) (out [Results]int64) {
			for s, cents := range list {
				for c, plan := range sales[s] {
					out[s*Channels+c], _ = plan.Contribution(uint64(cents)) // sure, as costs are exact
				}
			}
			return out
		},
	}
}

// ofQuoinLines is the library with every line of a settlement, in decimals, and
// whole statements of them.
func ofQuoinLines() Peer {
	terms, sales := quoinTerms(), quoinSales()
	lines := ofQuoin()
	lines.Name = "quoin, each line"
	lines.Settle = func(cents int64) int64 {
		s := terms.Settle(0, quoin.AmountOf(cents, 2))
		return quoinCents(s.Revenue.Sub(s.Fees))
	}
	lines.Sheet = func(list [Sizes]int64) (out [Results]int64) {
		for s, cents := range list {
			price := quoin.AmountOf(cents, 2)
			for c := range sales[s] {
				out[s*Channels+c] = quoinCents(sales[s][c].At(price).Contribution)
			}
		}
		return out
	}
	return lines
}

// quoinTerms returns the terms of the settlement as the library has them.
func quoinTerms() channel.Terms {
	var c channel.Channel
	for _, f := range Settlement() {
		c.Fees = append(c.Fees, quoinFee(f))
	}
	return c.Terms(quoin.MustCurrency("EUR"))
}

func quoinSales() (out [Sizes][Channels]margin.Sale) {
	currency, table := quoin.MustCurrency("EUR"), Table()
	for s, cost := range Costs() {
		for c := range table {
			goods := margin.Goods{PerItem: quoin.AmountOf(cost, 2)}
			out[s][c] = margin.NewSale(table[c].quoin().Terms(currency), goods)
		}
	}
	return out
}

func (c *Channel) quoin() channel.Channel {
	payment := quoinFee(c.Payment)
	payment.Of = []channel.Part{channel.Items, channel.Shipping, channel.SalesTax}
	return channel.Channel{
		TradeDiscount: []quoin.Rate{quoinRate(c.Discount)},
		Tax:           channel.Tax{Rate: quoinRate(c.Tax), InPrice: c.InPrice, OnShipping: true},
		Fees:          []channel.Fee{quoinFee(Fee{PerMille: c.Commission}), payment},
		Orders: []channel.Order{{
			Shipping: quoin.AmountOf(c.Shipping, 2),
			FreeFrom: quoin.Some(quoin.AmountOf(c.FreeFrom, 2)),
			Postage:  quoin.AmountOf(c.Postage, 2),
		}},
	}
}

func quoinFee(f Fee) channel.Fee {
	return channel.Fee{Rate: quoinRate(f.PerMille), Fixed: quoin.AmountOf(f.Fixed, 2)}
}

func quoinRate(perMille int64) quoin.Rate {
	return quoin.AmountOf(perMille, 3).Share(quoin.AmountOf(1, 0))
}

func quoinCents(a quoin.Amount) int64 {
	cents, _ := a.Round(2, quoin.HalfUp).Units(2) // whole, being rounded
	return cents
}
