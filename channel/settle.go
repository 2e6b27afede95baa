package channel

import (
	"example.com/quoin"
	"example.com/quoin/channel/promo"
)

// Settlement is one order settled at a list price, line by line, in the currency
// that buyers pay in; fulfilment is in the shop's.
type Settlement struct {
	List       quoin.Amount // the list price, in the shop's currency
	Unit       quoin.Amount // list × (1 + uplift) × each (1 − trade discount), rounded to money, or to a tag
	Count      int64        // items in the order
	Items      quoin.Amount // unit × count × (1 − promotion), rounded to money, less what codes take off
	Discount   quoin.Amount // unit × count − items
	Shipping   quoin.Amount // charged to the buyer, 0 where it is free
	Taxable    quoin.Amount // items, and shipping where it is taxed
	Tax        quoin.Amount // in the price or on top, rounded to money
	Revenue    quoin.Amount // what is the shop's: without the tax
	Charges    []Charge     // one for each fee, in the order of Terms.Fees
	Fees       quoin.Amount // their totals added up
	Fulfilment quoin.Amount // postage ÷ (1 − loss)

	unreduced quoin.Amount // items before the discount of a shop on consignment
}

// Settle settles one order of kind i at a list price.
func (t Terms) Settle(i int, list quoin.Amount) Settlement {
	t.has(i)
	s := t.sale(i, list)
	s.Charges = make([]Charge, len(t.levies))
	paid := t.paid(&t.kinds[i], &s)
	for j := range t.levies {
		s.Charges[j] = t.levies[j].charge(&t.kinds[i], paid, t.places)
		s.Fees = s.Fees.Add(s.Charges[j].Total)
	}
	return s
}

// sale settles everything but the fees.
func (t Terms) sale(i int, list quoin.Amount) Settlement {
	k := &t.kinds[i]
	s := Settlement{List: list, Count: k.ItemsOr1(), Fulfilment: k.fulfilment.WithPlaces(t.list)}
	s.Unit = t.unit(k, list)
	gross := t.items(k, s.Unit)
	s.unreduced = t.left(k, s.Unit, gross, k.given())
	s.Items = s.unreduced
	if k.reduced {
		s.Items = t.left(k, s.Unit, gross, len(k.offers))
	}
	s.Discount = s.Unit.Times(quoin.FactorOf(s.Count)).Sub(s.Items)
	s.Shipping = k.shipping(gross, s.Items)
	s.Taxable = s.Items
	if k.onShipping {
		s.Taxable = s.Items.Add(s.Shipping)
	}
	s.Revenue = s.Items.Add(s.Shipping)
	if t.inPrice {
		s.Tax = s.Taxable.Part(k.tax).Over(k.tax.OnePlus()).Round(t.places, quoin.HalfUp)
		s.Revenue = s.Revenue.Sub(s.Tax)
	} else {
		s.Tax = s.Taxable.Part(k.tax).Round(t.places, quoin.HalfUp)
	}
	return s
}

// unit is what one item costs here: a price that can be asked.
func (t Terms) unit(k *kind, list quoin.Amount) quoin.Amount {
	unit := list.Times(k.keep)
	if t.tag != nil {
		return t.tag.Nearest(unit).WithPlaces(t.places)
	}
	return unit.Round(t.places, quoin.HalfUp)
}

// items is what the items come to before codes.
func (t Terms) items(k *kind, unit quoin.Amount) quoin.Amount {
	return unit.Times(k.take).Round(t.places, quoin.HalfUp)
}

// left is what the items still come to after the first n codes.
func (t Terms) left(k *kind, unit, gross quoin.Amount, n int) quoin.Amount {
	left := gross
	for _, o := range k.offers[:n] {
		left = left.Sub(o.OnOne(left, gross, unit, k.ItemsOr1(), t.places))
	}
	return left
}

func (k *kind) shipping(gross, items quoin.Amount) quoin.Amount {
	if k.FreeTest == promo.Before {
		items = gross
	}
	if from, given := k.FreeFrom.Get(); given && items.Cmp(from) >= 0 {
		return quoin.Amount{}
	}
	return k.Shipping
}

func (t Terms) paid(k *kind, s *Settlement) Paid {
	p := Paid{Count: s.Count, Items: s.Items, Shipping: s.Shipping, Tax: s.Tax, Discount: s.Discount, unreduced: s.unreduced}
	if t.inPrice {
		p.Tax, p.Within, p.ShippingTaxed = quoin.Amount{}, k.tax, k.onShipping
	}
	return p
}

// Takings is what selling one item brings in and takes away, averaged over the
// kinds of order, in the shop's currency.
type Takings struct {
	Revenue    quoin.Amount
	Tax        quoin.Amount
	Fees       quoin.Amount
	Fulfilment quoin.Amount
}

// Takings returns what one item brings at a list price: each figure is
// Σ share × figure ÷ Σ share × items over the kinds of order. It is nothing where there are
// no orders, as in the zero Terms.
func (t Terms) Takings(list quoin.Amount) Takings {
	if t.fast != nil {
		if out, ok := t.fast.takings(list); ok {
			return out
		}
	}
	return t.exactly(list)
}

// exactly is the definition of Takings.
func (t Terms) exactly(list quoin.Amount) Takings {
	if t.perOrder.Sign() == 0 {
		return Takings{}
	}
	var sum Takings
	for i := range t.kinds {
		k := &t.kinds[i]
		s := t.sale(i, list)
		paid := t.paid(k, &s)
		for j := range t.levies {
			s.Fees = s.Fees.Add(t.levies[j].charge(k, paid, t.places).Total)
		}
		sum.Revenue = sum.Revenue.Add(s.Revenue.Times(k.share))
		sum.Tax = sum.Tax.Add(s.Tax.Times(k.share))
		sum.Fees = sum.Fees.Add(s.Fees.Times(k.share))
	}
	item := func(sum quoin.Amount) quoin.Amount { return t.Home(sum).Over(t.perOrder) }
	return Takings{Revenue: item(sum.Revenue), Tax: item(sum.Tax), Fees: item(sum.Fees), Fulfilment: t.sent}
}

// Paid returns what the buyer pays in all: items and shipping, with the tax in
// them or on top.
func (s Settlement) Paid() quoin.Amount { return s.Revenue.Add(s.Tax) }
