package channel

import "example.com/quoin"

// Settlement is one order settled at a list price, line by line.
type Settlement struct {
	List       quoin.Amount // the list price
	Unit       quoin.Amount // list × (1 + uplift) × each (1 − trade discount), rounded to money
	Count      int64        // items in the order
	Items      quoin.Amount // unit × count × (1 − promotion), rounded to money
	Shipping   quoin.Amount // charged to the buyer, 0 where it is free
	Taxable    quoin.Amount // items, and shipping where it is taxed
	Tax        quoin.Amount // in the price or on top, rounded to money
	Revenue    quoin.Amount // what is the shop's: without the tax
	Charges    []Charge     // one for each fee, in their order
	Fees       quoin.Amount // their totals added up
	Fulfilment quoin.Amount // postage ÷ (1 − loss)
}

// Settle settles one order of kind i at a list price.
func (t Terms) Settle(i int, list quoin.Amount) Settlement {
	s := t.sale(i, list)
	s.Charges = make([]Charge, len(t.fees))
	for j, f := range t.fees {
		s.Charges[j] = f.Charge(s.paid(t.inPrice), t.places)
		s.Fees = s.Fees.Add(s.Charges[j].Total)
	}
	return s
}

// sale settles everything but the fees.
func (t Terms) sale(i int, list quoin.Amount) Settlement {
	k := &t.kinds[i]
	s := Settlement{List: list, Count: k.ItemsOr1(), Fulfilment: k.fulfilment}
	s.Unit = t.unit(list)
	s.Items = t.items(k, s.Unit)
	s.Shipping = k.shipping(s.Items)
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

func (t Terms) unit(list quoin.Amount) quoin.Amount {
	return list.Times(t.keep).Round(t.places, quoin.HalfUp)
}

func (t Terms) items(k *kind, unit quoin.Amount) quoin.Amount {
	return unit.Times(k.take).Round(t.places, quoin.HalfUp)
}

func (k *kind) shipping(items quoin.Amount) quoin.Amount {
	if from, given := k.FreeFrom.Get(); given && items.Cmp(from) >= 0 {
		return quoin.Amount{}
	}
	return k.Shipping
}

func (s Settlement) paid(inPrice bool) Paid {
	p := Paid{Count: s.Count, Items: s.Items, Shipping: s.Shipping, Tax: s.Tax}
	if inPrice {
		p.Tax = quoin.Amount{}
	}
	return p
}

// Takings is what selling one item brings in and takes away, averaged over the
// kinds of order.
type Takings struct {
	Revenue    quoin.Amount
	Tax        quoin.Amount
	Fees       quoin.Amount
	Fulfilment quoin.Amount
}

// Takings returns what one item brings at a list price: each figure is
// Σ share × figure ÷ Σ share × items over the kinds of order.
func (t Terms) Takings(list quoin.Amount) Takings {
	var sum Takings
	for i, k := range t.kinds {
		s := t.sale(i, list)
		paid := s.paid(t.inPrice)
		for _, f := range t.fees {
			s.Fees = s.Fees.Add(f.Charge(paid, t.places).Total)
		}
		sum.Revenue = sum.Revenue.Add(s.Revenue.Times(k.share))
		sum.Tax = sum.Tax.Add(s.Tax.Times(k.share))
		sum.Fees = sum.Fees.Add(s.Fees.Times(k.share))
		sum.Fulfilment = sum.Fulfilment.Add(s.Fulfilment.Times(k.share))
	}
	return Takings{
		Revenue:    sum.Revenue.Over(t.perOrder),
		Tax:        sum.Tax.Over(t.perOrder),
		Fees:       sum.Fees.Over(t.perOrder),
		Fulfilment: sum.Fulfilment.Over(t.perOrder),
	}
}
