package channel

import "example.com/quoin"

// Terms is a channel made ready to settle orders in a currency.
type Terms struct {
	id       string
	places   int
	keep     quoin.Factor // of the list price, before rounding to a unit price
	kinds    []kind
	fees     []Fee
	inPrice  bool
	perOrder quoin.Factor // items in an average order, Σ share × items
}

// kind is one kind of order with what does not depend on the price.
type kind struct {
	Order
	share      quoin.Factor
	take       quoin.Factor // items × (1 − promotion)
	tax        quoin.Rate
	within     quoin.Factor // t ÷ (1 + t): the share of a price that is tax in it
	onShipping bool
	fulfilment quoin.Amount
}

// Terms compiles the channel for a currency. It takes the fields as they are:
// a document is checked when it is read, and shares that sum to nothing count
// as equal.
func (c Channel) Terms(currency quoin.Currency) Terms {
	t := Terms{id: c.ID, places: currency.Digits(), keep: c.Uplift.OnePlus(), fees: c.Fees, inPrice: c.Tax.InPrice}
	for _, d := range c.TradeDiscount {
		t.keep = t.keep.Times(d.Complement())
	}
	orders := c.Orders
	if len(orders) == 0 {
		orders = []Order{{}}
	}
	for _, o := range orders {
		t.kinds = append(t.kinds, c.kind(o))
	}
	return t.weighed()
}

func (c Channel) kind(o Order) kind {
	k := kind{Order: o, share: o.ShareOr1().Factor(), tax: o.TaxRate.Or(c.Tax.Rate), onShipping: c.Tax.OnShipping}
	k.take = quoin.FactorOf(o.ItemsOr1()).Times(c.Promotion.Complement())
	k.within = k.tax.Factor().Over(k.tax.OnePlus())
	k.fulfilment = o.Postage.Over(c.Loss.Complement())
	return k
}

// weighed computes the items of an average order.
func (t Terms) weighed() Terms {
	t.perOrder = quoin.Factor{}
	for _, k := range t.kinds {
		t.perOrder = t.perOrder.Add(k.share.Times(quoin.FactorOf(k.ItemsOr1())))
	}
	if t.perOrder.Sign() > 0 {
		return t
	}
	for i := range t.kinds {
		t.kinds[i].share = quoin.FactorOf(1)
	}
	return t.weighed()
}

// Channel returns the id of the channel.
func (t Terms) Channel() string { return t.id }

// Orders returns how many kinds of order there are.
func (t Terms) Orders() int { return len(t.kinds) }

// Items returns how many items an order of kind i holds.
func (t Terms) Items(i int) int64 { return t.kinds[i].ItemsOr1() }

// Average returns Σ share × figure ÷ Σ share × items over the kinds of order:
// what figure, given per order of each kind, is per item.
func (t Terms) Average(figure func(kind int) quoin.Amount) quoin.Amount {
	var sum quoin.Amount
	for i, k := range t.kinds {
		sum = sum.Add(figure(i).Times(k.share))
	}
	return sum.Over(t.perOrder)
}

// Varies reports whether orders differ: by their kind, or by a fee that is
// charged only sometimes.
func (t Terms) Varies() bool {
	if len(t.kinds) > 1 {
		return true
	}
	for _, f := range t.fees {
		if !f.Share.IsZero() {
			return true
		}
	}
	return false
}

// Worst returns the terms of each kind of order by itself, with every fee that
// is charged only sometimes charged in full.
func (t Terms) Worst() []Terms {
	fees := make([]Fee, len(t.fees))
	for i, f := range t.fees {
		f.Share = quoin.Optional[quoin.Rate]{}
		fees[i] = f
	}
	out := make([]Terms, len(t.kinds))
	for i, k := range t.kinds {
		k.share = quoin.FactorOf(1)
		one := t
		one.kinds, one.fees = []kind{k}, fees
		out[i] = one.weighed()
	}
	return out
}
