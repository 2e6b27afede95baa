package channel

import "example.com/quoin"

// Settlement is one order settled at a list price, line by line, in the currency that buyers
// pay in. Postage (Fulfilment) is in the shop's currency.
type Settlement struct {
	List         quoin.Amount // the list price, in the shop's currency
	Unit         quoin.Amount // list × (1 + uplift) × each (1 − trade discount), rounded to money, or to a price point
	Count        int64        // items in the order
	Items        quoin.Amount // unit × count × (1 − promotion), rounded to money, less what codes take off
	Discount     quoin.Amount // unit × count − items
	Shipping     quoin.Amount // charged to the buyer, 0 where it is free
	Taxable      quoin.Amount // items, and shipping where it is taxed
	Tax          quoin.Amount // in the price or on top, rounded to money, with that of a surcharge
	Surcharge    quoin.Amount // what the buyer pays extra for how the order is paid, with the tax that prices hold
	SurchargeTax quoin.Amount // the part of Tax that is in the surcharge, or on top of it
	Revenue      quoin.Amount // what is the shop's: without the tax
	Charges      []Charge     // one for each fee, in the order of Terms.Fees
	Fees         quoin.Amount // their totals added up
	Fulfilment   quoin.Amount // postage ÷ (1 − loss)
}

// Settle settles one order of kind i at a list price.
func (t Terms) Settle(i int, list quoin.Amount) Settlement {
	t.has(i)
	e := t.order(&t.kinds[i])
	s := e.sale(listPrice(list))
	out := t.settlement(&t.kinds[i], &s, list)
	out.Charges = make([]Charge, len(t.compiledFees))
	fees := e.fees(&s, func(j int, c Charge) { out.Charges[j] = c })
	out.Fees = quoin.AmountOf(0, t.places).Add(amountOf(fees))
	return out
}

// silent is a trail for sums of which nobody asks how they came about.
var silent = quoin.Silent()

// order is a kind of order of which nobody asks how it comes to what it does.
func (t *Terms) order(k *kind) *order {
	e := &order{Trail: silent, c: t.channel, taxed: &t.channel.Tax, k: k, compiledFees: t.compiledFees, places: t.places}
	return e.locate(quoin.Path{})
}

func listPrice(list quoin.Amount) quoin.Operand { return quoin.Given("", quoin.Path{}, list.Figure()) }

// settlement is an order without its fees.
func (t *Terms) settlement(k *kind, s *sale, list quoin.Amount) Settlement {
	out := Settlement{
		List: list, Count: k.ItemsOr1(), Fulfilment: k.fulfilment.WithPlaces(t.list), Unit: amountOf(s.unit).WithPlaces(t.places), Items: amountOf(s.paid.items),
		Shipping: amountOf(s.paid.shipping), Taxable: amountOf(s.taxable), Tax: amountOf(s.tax), Revenue: amountOf(s.revenue),
		Surcharge: amountOf(s.paid.surcharge), SurchargeTax: amountOf(s.paid.surchargeTax),
	}
	out.Discount = out.Unit.Times(quoin.FactorOf(out.Count)).Sub(out.Items)
	return out
}

// Proceeds is what selling one item brings in and takes away, averaged over the kinds of order,
// in the shop's currency.
type Proceeds struct {
	Revenue    quoin.Amount
	Tax        quoin.Amount
	Fees       quoin.Amount
	Fulfilment quoin.Amount
}

// Proceeds returns what one item brings at a list price. Each figure is Σ share × figure ÷ Σ
// share × items over the kinds of order. It is 0 without orders, as in the zero Terms.
func (t Terms) Proceeds(list quoin.Amount) Proceeds {
	if t.fast != nil {
		if out, ok := t.fast.proceeds(list); ok {
			return out
		}
	}
	return t.exactly(list)
}

// exactly is the definition of Proceeds.
func (t Terms) exactly(list quoin.Amount) Proceeds {
	if t.perOrder.Sign() == 0 {
		return Proceeds{}
	}
	var sum Proceeds
	for i := range t.kinds {
		k := &t.kinds[i]
		e := t.order(k)
		s := e.sale(listPrice(list))
		sum.Revenue = sum.Revenue.Add(amountOf(s.revenue).Times(k.share))
		sum.Tax = sum.Tax.Add(amountOf(s.tax).Times(k.share))
		sum.Fees = sum.Fees.Add(amountOf(e.fees(&s, nil)).Times(k.share))
	}
	item := func(sum quoin.Amount) quoin.Amount { return t.Home(sum).Over(t.perOrder) }
	return Proceeds{Revenue: item(sum.Revenue), Tax: item(sum.Tax), Fees: item(sum.Fees), Fulfilment: t.sent}
}

// Paid returns what the buyer pays in all: items, shipping and surcharge, with tax.
func (s Settlement) Paid() quoin.Amount { return s.Revenue.Add(s.Tax) }
