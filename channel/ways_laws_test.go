package channel_test

import (
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel"
)

func TestCurveHoldsInEveryWay(t *testing.T) { rapid.Check(t, curveHoldsInEveryWay) }
func FuzzCurveHoldsInEveryWay(f *testing.F) { f.Fuzz(rapid.MakeFuzz(curveHoldsInEveryWay)) }

// curveHoldsInEveryWay: whatever the way of selling, pieces cover the grid
// without a gap, and what a price brings lies on their lines within their room.
func curveHoldsInEveryWay(t *rapid.T) {
	d := draws{t}
	curveHolds(t, d.channel().Terms(eur), d.grid())
}

// curveHolds: pieces cover the grid without a gap, and what a price brings lies on
// their lines within their room.
func curveHolds(t rapid.TB, tm channel.Terms, g quoin.Grid) {
	next := int64(1)
	for _, p := range tm.Curve(g) {
		if p.First != next || p.Last < p.First {
			t.Fatalf("a piece from %d to %d, where one from %d is due", p.First, p.Last, next)
		}
		next = p.Last + 1
		for i := p.First; i <= p.Last; i++ {
			price := g.Price(i)
			got := tm.Proceeds(price)
			on(t, "revenue", price, p.Revenue, got.Revenue)
			on(t, "fees", price, p.Fees, got.Fees)
			on(t, "what is kept", price, p.Kept, got.Revenue.Sub(got.Fees))
			if !got.Fulfilment.Equal(p.Fulfilment) {
				t.Fatalf("fulfilment is %v, the piece says %v", got.Fulfilment, p.Fulfilment)
			}
		}
	}
	if next != g.Len()+1 {
		t.Fatalf("the pieces end at %d of %d", next-1, g.Len())
	}
}

func TestTakingsAreTheSettlementsInEveryWay(t *testing.T) { rapid.Check(t, takingsAreSettlements) }
func FuzzTakingsAreTheSettlements(f *testing.F)           { f.Fuzz(rapid.MakeFuzz(takingsAreSettlements)) }

// takingsAreSettlements: takings are the settlements of the kinds of order,
// weighed by their shares, in the shop's currency.
func takingsAreSettlements(t *rapid.T) {
	d := draws{t}
	tm := d.channel().Terms(eur)
	price := d.money("price", 9000).Add(amount("0.01"))
	got := tm.Proceeds(price)
	for _, line := range []struct {
		what string
		got  quoin.Amount
		of   func(channel.Settlement) quoin.Amount
	}{
		{"revenue", got.Revenue, func(s channel.Settlement) quoin.Amount { return tm.Home(s.Revenue) }},
		{"tax", got.Tax, func(s channel.Settlement) quoin.Amount { return tm.Home(s.Tax) }},
		{"fees", got.Fees, func(s channel.Settlement) quoin.Amount { return tm.Home(s.Fees) }},
		{"fulfilment", got.Fulfilment, func(s channel.Settlement) quoin.Amount { return s.Fulfilment }},
	} {
		want := tm.Average(func(kind int) quoin.Amount { return line.of(tm.Settle(kind, price)) })
		if !line.got.Equal(want) {
			t.Fatalf("%s at %s is %s, its settlements come to %s", line.what, price, line.got, want)
		}
	}
}

func TestSettlementsAddUp(t *testing.T) { rapid.Check(t, settlementsAddUp) }

// settlementsAddUp: each line of a settlement follows from the lines before it,
// and there is one charge for each named fee.
func settlementsAddUp(t *rapid.T) {
	d := draws{t}
	c := d.channel()
	tm := c.Terms(eur)
	price := d.money("price", 9000).Add(amount("0.01"))
	for i := range tm.Orders() {
		s := tm.Settle(i, price)
		revenue := s.Items.Add(s.Shipping).Add(s.Surcharge)
		if c.Tax.InPrice {
			revenue = revenue.Sub(s.Tax)
		}
		var fees quoin.Amount
		for _, charge := range s.Charges {
			fees = fees.Add(charge.Total)
		}
		if !s.Revenue.Equal(revenue) || !s.Fees.Equal(fees) || !s.Discount.Equal(s.Unit.Times(quoin.FactorOf(s.Count)).Sub(s.Items)) {
			t.Fatalf("at %s it does not add up: %+v", price, s)
		}
		if len(s.Charges) != len(tm.Fees()) || s.Count != tm.Items(i) || s.Items.Sign() < 0 {
			t.Fatalf("%d charges of %d fees on %d items of %d for %s", len(s.Charges), len(tm.Fees()), s.Count, tm.Items(i), s.Items)
		}
	}
}

func TestExplanationsSettle(t *testing.T) { rapid.Check(t, explanationsSettle) }
func FuzzExplanationsSettle(f *testing.F) { f.Fuzz(rapid.MakeFuzz(explanationsSettle)) }

// explanationsSettle: explained step by step, an order comes to what settling it
// gives, to the digit, and the steps replay.
func explanationsSettle(t *rapid.T) {
	d := draws{t}
	c := d.channel()
	tm := c.Terms(eur)
	price := d.money("price", 9000).Add(amount("0.01"))
	places := c.Kinds()
	if len(places) != tm.Orders() {
		t.Fatalf("%d kinds explained of %d", len(places), tm.Orders())
	}
	for i, place := range places {
		if _, at := tm.Order(i); at != place {
			t.Fatalf("kind %d stands at %d, explained at %d", i, at, place)
		}
		trail := quoin.NewTrail(32)
		at := quoin.InList("channels", 3)
		e := c.Explain(trail, at, eur, i, quoin.Given("list price", quoin.Path{}, price.Figure()))
		s := tm.Settle(i, price)
		for _, line := range []struct {
			what string
			got  quoin.Operand
			want quoin.Amount
		}{
			{"revenue", e.Revenue, tm.Home(s.Revenue)},
			{"tax", e.Tax, tm.Home(s.Tax)},
			{"fees", e.Fees, tm.Home(s.Fees)},
			{"fulfilment", e.Fulfilment, s.Fulfilment},
		} {
			if got, ok := line.got.Value.Amount(); !ok || !got.Equal(line.want) {
				t.Fatalf("%s of kind %d at %s is explained as %s, settled as %s", line.what, i, price, line.got.Value, line.want)
			}
		}
		if !e.Share.Value.Factor().Equal(tm.Share(i).Factor()) || !e.Count.Value.Factor().Equal(quoin.FactorOf(tm.Items(i))) {
			t.Fatalf("share %s and count %s explained of %s and %d", e.Share.Value, e.Count.Value, tm.Share(i), tm.Items(i))
		}
		if err := quoin.Replay(trail.Steps()); err != nil {
			t.Fatal(err)
		}
		for _, s := range trail.Steps() {
			if !s.At.Within(at) {
				t.Fatalf("a step at %s, outside %s", s.At, at)
			}
		}
	}
}

// What is lost, comes back, and is asked for printing is explained to the digit.
func TestGoodsFiguresAreExplained(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := draws{t}
		c := d.channel()
		trail, at := quoin.NewTrail(8), quoin.InList("channels", 0)
		if got := c.ExplainLost(trail, at); !got.Value.Factor().Equal(c.Lost().Factor()) {
			t.Fatalf("lost is explained as %s, not %s", got.Value, c.Lost())
		}
		if base, ok := c.Prints(); ok {
			if got, _ := c.ExplainPrints(trail, at).Value.Amount(); !got.Equal(base) {
				t.Fatalf("the base is explained as %s, not %s", got, base)
			}
		}
		if c.Returns != nil {
			if got := c.ExplainBack(trail, at); !got.Value.Factor().Equal(c.Back().Factor()) {
				t.Fatalf("what comes back is explained as %s, not %s", got.Value, c.Back())
			}
		}
		if err := quoin.Replay(trail.Steps()); err != nil {
			t.Fatal(err)
		}
	})
}

// Codes are applied in the order of the channel, whatever that of the order.
func TestOrderOfCodes(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := draws{t}
		c := d.channel()
		price := d.money("price", 9000).Add(amount("0.01"))
		before := c.Terms(eur)
		kinds := c.Orders
		c.Orders = nil
		for _, o := range kinds {
			if len(o.Codes) > 0 {
				o.Codes = rapid.Permutation(o.Codes).Draw(t, "shuffled")
			}
			c.Orders = append(c.Orders, o)
		}
		after := c.Terms(eur)
		for i := range before.Orders() {
			a, b := before.Settle(i, price), after.Settle(i, price)
			if !a.Items.Equal(b.Items) || !a.Revenue.Equal(b.Revenue) || !a.Fees.Equal(b.Fees) {
				t.Fatalf("in another order the codes leave %s, revenue %s, fees %s, not %s, %s, %s", b.Items, b.Revenue, b.Fees, a.Items, a.Revenue, a.Fees)
			}
		}
	})
}

// The worst terms have one kind of order each, all of it, and what it brings is
// its settlement with no fee counted in part.
func TestWorstHasOneKindEach(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := draws{t}
		c := d.channel()
		price := d.money("price", 9000).Add(amount("0.01"))
		tm := c.Terms(eur)
		worst := tm.Worst()
		if len(worst) != tm.Orders() {
			t.Fatalf("%d of %d kinds", len(worst), tm.Orders())
		}
		for i, one := range worst {
			if one.Orders() != 1 || !one.Share(0).Equal(rate("100%")) || one.Items(0) != tm.Items(i) || one.Varies() {
				t.Fatalf("kind %d: %d kinds, share %s, %d items, varies %t", i, one.Orders(), one.Share(0), one.Items(0), one.Varies())
			}
			all, alone := tm.Settle(i, price), one.Settle(0, price)
			if !alone.Revenue.Equal(all.Revenue) || !alone.Fulfilment.Equal(all.Fulfilment) || alone.Fees.Cmp(all.Fees) < 0 {
				t.Fatalf("by itself it brings %s less %s, among others %s less %s", alone.Revenue, alone.Fees, all.Revenue, all.Fees)
			}
			if got := one.Proceeds(price).Fees.Times(quoin.FactorOf(one.Items(0))); !got.Equal(one.Home(alone.Fees)) {
				t.Fatalf("takings have fees of %s, the settlement %s", got, one.Home(alone.Fees))
			}
		}
	})
}

// A fee over n orders is the fee on an order n times as big, shared.
func TestFeesOverOrders(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := draws{t}
		f := d.fee()
		f.WithoutTax = false // the tax in a base is taken out order by order, and rounded
		n := rapid.Int64Range(1, 60).Draw(t, "orders")
		one := channel.Payment{
			Count: rapid.Int64Range(1, 5).Draw(t, "count"), Items: d.money("items", 9000), Shipping: d.money("shipping", 900),
			Tax: d.money("tax", 900), Discount: d.money("discount", 900),
		}
		by := quoin.FactorOf(n)
		all := channel.Payment{
			Count: one.Count * n, Items: one.Items.Times(by), Shipping: one.Shipping.Times(by), Tax: one.Tax.Times(by), Discount: one.Discount.Times(by),
		}
		f.OrdersTogether = quoin.Factor{}
		together := f.Charge(all, 2).Total
		f.OrdersTogether = by
		if got := f.Charge(one, 2).Total; !got.Times(by).Equal(together) {
			t.Fatalf("%d orders pay %s each, and together %s", n, got, together)
		}
	})
}

// A mark-up of m on what the maker gets is a commission of m ÷ (1 + m).
func TestMarkUpIsACommission(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := draws{t}
		c := d.channel()
		share := d.rate("share of the shop", 990)
		price := d.money("price", 9000).Add(amount("0.01"))
		terms := func(commission, onMaker quoin.Optional[quoin.Rate]) channel.Terms {
			w := *d.consignmentOf(c)
			w.Commission, w.OnMaker = commission, onMaker
			c.Trade, c.OnDemand, c.Consignment = nil, nil, &w
			return c.Terms(eur)
		}
		markup := share.Factor().Over(share.Complement()).Rate()
		none := quoin.Optional[quoin.Rate]{}
		a, b := terms(quoin.Some(share), none).Proceeds(price), terms(none, quoin.Some(markup)).Proceeds(price)
		if !a.Fees.Equal(b.Fees) || !a.Revenue.Equal(b.Revenue) {
			t.Fatalf("a share of %s leaves %s less %s, a mark-up of %s %s less %s", share, a.Revenue, a.Fees, markup, b.Revenue, b.Fees)
		}
	})
}

// consignmentOf is the channel's consignment, or another one.
func (d draws) consignmentOf(c channel.Channel) *channel.Consignment {
	if c.Consignment != nil {
		return c.Consignment
	}
	return &channel.Consignment{}
}

// Whether the shop pays the carrier or the maker does changes the postage alone.
func TestCollectAndPrepaid(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		d := draws{t}
		c := d.channel()
		c.Consignment, c.OnDemand, c.Trade = nil, nil, d.trade()
		for i := range c.Orders {
			c.Orders[i].Shipping, c.Orders[i].FreeFrom, c.Orders[i].Others = quoin.Amount{}, quoin.Optional[quoin.Amount]{}, nil
		}
		price := d.money("price", 9000).Add(amount("0.01"))
		c.Trade.Freight = channel.Prepaid
		prepaid := c.Terms(eur)
		collect := *c.Trade
		collect.Freight = channel.Collect
		c.Trade = &collect
		a, b := prepaid.Proceeds(price), c.Terms(eur).Proceeds(price)
		if !a.Revenue.Equal(b.Revenue) || !a.Tax.Equal(b.Tax) || !a.Fees.Equal(b.Fees) || !b.Fulfilment.IsZero() {
			t.Fatalf("prepaid %+v, collect %+v", a, b)
		}
		postage := prepaid.Average(func(i int) quoin.Amount {
			o, _ := prepaid.Order(i)
			return o.Postage.Over(c.LostParcels.Complement())
		})
		if !a.Fulfilment.Equal(postage) {
			t.Fatalf("prepaid, sending costs %s, want %s", a.Fulfilment, postage)
		}
	})
}
