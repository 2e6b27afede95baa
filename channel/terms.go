package channel

import (
	"fmt"
	"slices"

	"example.com/quoin"
)

// Terms is a channel compiled to settle orders in a currency.
type Terms struct {
	id           string
	channel      *Channel // as it was when the terms were made
	places       int      // of the currency that buyers pay in
	list         int      // places of the shop's
	kinds        []kind
	compiledFees []compiledFee
	inPrice      bool
	points       *PricePoints
	home         quoin.Factor // what one unit of that currency is in the shop's
	abroad       bool
	perOrder     quoin.Factor // items in an average order, Σ share × items
	sent         quoin.Amount // what sending costs an item on average
	single       bool         // one kind of order, whose share is 1
	fast         *Plan        // of the same terms, where they have one
}

// Terms compiles the channel for a shop's currency. It does not check the fields: a document is
// checked when it is read. Shares that add up to 0 count as equal. It panics if it would divide
// by zero: with a loss of 100% or a tax of −100%, which Check refuses. Later changes of the
// channel do not change the terms.
func (c Channel) Terms(currency quoin.Currency) Terms {
	own := c.own()
	t := Terms{id: c.ID, channel: own, places: c.Money(currency).Digits(), list: currency.Digits(), inPrice: c.Tax.InPrice, points: own.PricePoints, home: c.Home(), abroad: c.ForeignCurrency != nil}
	t.kinds = own.kinds(t.places)
	t.compiledFees = own.compiledFees(t.kinds, t.places)
	return t.weighed()
}

// own returns a copy of the channel that shares nothing with it that could be changed.
func (c Channel) own() *Channel {
	c.TradeDiscount, c.Orders, c.Fees, c.Promotions = slices.Clone(c.TradeDiscount), slices.Clone(c.Orders), slices.Clone(c.Fees), slices.Clone(c.Promotions)
	for i := range c.Orders {
		c.Orders[i].Others, c.Orders[i].Surcharge = copied(c.Orders[i].Others), copied(c.Orders[i].Surcharge)
	}
	for i := range c.Fees {
		f := &c.Fees[i]
		f.Of, f.Orders, f.Tiers = slices.Clone(f.Of), slices.Clone(f.Orders), slices.Clone(f.Tiers)
	}
	for i := range c.Promotions {
		c.Promotions[i].Products = slices.Clone(c.Promotions[i].Products)
	}
	for i := range c.Orders {
		c.Orders[i].TaxClasses = slices.Clone(c.Orders[i].TaxClasses)
	}
	c.Tax.Classes, c.TaxedParts = slices.Clone(c.Tax.Classes), slices.Clone(c.TaxedParts)
	c.PricePoints, c.ForeignCurrency, c.Trade, c.Consignment, c.OnDemand, c.Returns = copied(c.PricePoints), copied(c.ForeignCurrency), copied(c.Trade), copied(c.Consignment), copied(c.OnDemand), copied(c.Returns)
	if c.PricePoints != nil {
		c.PricePoints.EndsIn = slices.Clone(c.PricePoints.EndsIn)
	}
	return &c
}

func copied[T any](p *T) *T {
	if p == nil {
		return nil
	}
	return new(*p)
}

// weighed computes the items of an average order.
func (t Terms) weighed() Terms {
	t.perOrder = quoin.Factor{}
	for i := range t.kinds {
		k := &t.kinds[i]
		t.perOrder = t.perOrder.Add(k.share.Times(quoin.FactorOf(k.ItemsOr1())))
	}
	if t.perOrder.Sign() > 0 {
		t.single = len(t.kinds) == 1 && t.kinds[0].share.Places() == 0 && t.kinds[0].share.Equal(quoin.FactorOf(1))
		t.sent = t.Average(func(i int) quoin.Amount { return t.kinds[i].fulfilment })
		t.fast = t.plan()
		return t
	}
	for i := range t.kinds {
		t.kinds[i].share = quoin.FactorOf(1)
	}
	return t.weighed()
}

// Plan returns the terms compiled to whole numbers, or false if only decimals can handle them.
// The proceeds use it if there is one, with the same values.
func (t Terms) Plan() (*Plan, bool) { return t.fast, t.fast != nil }

// Channel returns the id of the channel.
func (t Terms) Channel() string { return t.id }

// Places returns how many digits the currency that buyers pay in has.
func (t Terms) Places() int { return t.places }

// ListPlaces returns how many digits list prices have: those of the shop's money.
func (t Terms) ListPlaces() int { return t.list }

// Orders returns how many kinds of order there are.
func (t Terms) Orders() int { return len(t.kinds) }

// Order returns kind i of order as it is settled, and its place in the channel's list, or −1 if
// it has none. Two kinds may have the same place: those of a consignment with and without its
// discount.
func (t Terms) Order(i int) (Order, int) {
	t.has(i)
	return t.kinds[i].Order, t.kinds[i].index
}

// Share returns the share of all orders that are of kind i.
func (t Terms) Share(i int) quoin.Rate {
	t.has(i)
	return t.kinds[i].share.Rate()
}

// Items returns how many items an order of kind i holds.
func (t Terms) Items(i int) int64 {
	t.has(i)
	return t.kinds[i].ItemsOr1()
}

// has panics where there is no kind i of order, as there is none of the zero Terms.
func (t *Terms) has(i int) {
	if i < 0 || i >= len(t.kinds) {
		panic(fmt.Sprintf("quoin: kind %d of order, of terms with %d: Channel.Terms makes them", i, len(t.kinds)))
	}
}

// Fees returns the names of the fees, in the order of a settlement's charges.
func (t Terms) Fees() []string {
	names := make([]string, len(t.compiledFees))
	for i, l := range t.compiledFees {
		names[i] = l.Name
	}
	return names
}

// WithPrice reports whether fee i is given back when the price is given back, such as what a
// consignment shop or an on-demand house keeps.
func (t Terms) WithPrice(i int) bool {
	if i < 0 || i >= len(t.compiledFees) {
		panic(fmt.Sprintf("quoin: fee %d, of terms with %d: Channel.Terms makes them", i, len(t.compiledFees)))
	}
	return t.compiledFees[i].withPrice()
}

// Sent returns what sending costs for an item, averaged over the kinds of order, in the shop's
// currency. It is the same at every price.
func (t Terms) Sent() quoin.Amount { return t.sent }

// Home returns an amount of a settlement in the shop's currency: multiplied by the rate of the
// channel's currency, if it has its own.
func (t Terms) Home(a quoin.Amount) quoin.Amount {
	if t.abroad {
		a = a.Times(t.home)
	}
	return a.WithPlaces(t.list)
}

// Average returns an average per item: Σ share × figure ÷ Σ share × items over the kinds of
// order, where figure is per order of each kind. It is 0 without orders, as in the zero Terms.
// It is written as money of the shop.
func (t Terms) Average(figure func(kind int) quoin.Amount) quoin.Amount {
	if t.perOrder.Sign() == 0 {
		return quoin.Amount{}
	}
	if t.single {
		return figure(0).Over(t.perOrder).WithPlaces(t.list)
	}
	var sum quoin.Amount
	for i := range t.kinds {
		sum = sum.Add(figure(i).Times(t.kinds[i].share))
	}
	return sum.Over(t.perOrder).WithPlaces(t.list)
}

// Varies reports whether orders differ: by their kind, or by a fee that only some sales pay.
func (t Terms) Varies() bool {
	return len(t.kinds) > 1 || slices.ContainsFunc(t.compiledFees, func(l compiledFee) bool { return !l.Share.IsZero() })
}

// Worst returns the terms of each kind of order by itself. Every fee that only some sales pay
// is counted in full. What is only expected stays at its average.
func (t Terms) Worst() []Terms {
	compiledFees := make([]compiledFee, len(t.compiledFees))
	for i, l := range t.compiledFees {
		l.Share, l.share = quoin.Optional[quoin.Rate]{}, nil
		compiledFees[i] = l
	}
	out := make([]Terms, len(t.kinds))
	for i, k := range t.kinds {
		k.share = quoin.FactorOf(1)
		one := t
		one.kinds, one.compiledFees = []kind{k}, compiledFees
		out[i] = one.weighed()
	}
	return out
}

// Alike returns the last price of a grid, at most last, up to which every kind of order has the
// same unit price as at the price with index i. Up to there nothing changes in a sale. It
// returns i if every price of the grid has its own unit price. With PricePoints, or a currency
// with coarser units, many list prices share one.
func (t Terms) Alike(g quoin.Grid, i, last int64) int64 {
	if !t.shares(g) {
		return i
	}
	for k := range t.kinds {
		last = t.sameUnit(k, g, i, last)
	}
	return last
}

// shares reports whether neighbouring list prices may have one unit price.
func (t Terms) shares(g quoin.Grid) bool {
	minor := quoin.AmountOf(1, t.places)
	return t.points != nil || slices.ContainsFunc(t.kinds, func(k kind) bool { return g.Step().Times(k.keep).Cmp(minor) < 0 })
}

// sameUnit looks in strides that double, and halves the last one: unit prices never
// fall as list prices rise.
func (t Terms) sameUnit(kind int, g quoin.Grid, i, last int64) int64 {
	same := t.unitIs(kind, g, i)
	low, stride := i, int64(1)
	for low < last && same(min(low+stride, last)) {
		low = min(low+stride, last)
		stride *= 2
	}
	for high := min(low+stride, last+1); low+1 < high; {
		if middle := low + (high-low)/2; same(middle) {
			low = middle
		} else {
			high = middle
		}
	}
	return low
}

// unitIs returns whether a price of the grid has the unit price that the one with index
// i has: in whole numbers where terms have a plan and price points.
func (t Terms) unitIs(kind int, g quoin.Grid, i int64) func(j int64) bool {
	if t.fast != nil && t.points != nil {
		k, tag := &t.fast.kinds[kind], t.fast.points
		step, whole := g.Step().Units(t.fast.list)
		at := func(j int64) (uint64, bool) {
			list, fits := times(uint64(j), uint64(step))
			unit, ok := tag.nearest(k.keep, list)
			return unit, ok && fits
		}
		if _, ok := at(g.Len()); ok && whole {
			unit, _ := at(i)
			return func(j int64) bool { u, _ := at(j); return u == unit }
		}
	}
	k := &t.kinds[kind]
	e := t.order(k)
	unit := func(j int64) quoin.Amount { return amountOf(e.unit(listPrice(g.Price(j)))) }
	same := unit(i)
	return func(j int64) bool { return unit(j).Equal(same) }
}
