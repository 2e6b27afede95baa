package channel_test

import (
	"fmt"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/promo"
	"example.com/quoin/channel/refund"
)

func TestPlansAgree(t *testing.T) { rapid.Check(t, plansAgree) }
func FuzzPlansAgree(f *testing.F) { f.Fuzz(rapid.MakeFuzz(plansAgree)) }

// plansAgree: what whole numbers come to is what decimals do, figure by figure, and
// order by order.
func plansAgree(t *rapid.T) {
	d := draws{t}
	var c channel.Channel
	if d.yes("with ways of selling") {
		c = d.channel()
	} else {
		c, _ = terms(t)
	}
	if d.yes("written otherwise") {
		c = d.writtenOtherwise(c)
	}
	currency := rapid.SampledFrom([]quoin.Currency{eur, quoin.MustCurrency("JPY"), quoin.MustCurrency("KWD")}).Draw(t, "currency")
	tm := c.Terms(currency)
	plan, planned := tm.Plan()
	for range 20 {
		minor := rapid.Int64Range(0, 1_000_000_000_000).Draw(t, "price")
		if d.yes("a small price") {
			minor %= 20_000
		}
		price := quoin.AmountOf(minor, currency.Digits())
		got, want := tm.Proceeds(price), tm.Exactly(price)
		if g, w := fmt.Sprint(got), fmt.Sprint(want); g != w {
			t.Fatalf("at %s: %s, exactly %s", price, g, w)
		}
		if planned {
			settlesAlike(t, plan, tm, minor, price)
			sumsAreTakings(t, plan, got, minor)
		}
	}
}

// writtenOtherwise makes a channel of one kind of order, whose takings are written
// with the places that come of it, and amounts with more places or fewer.
func (d draws) writtenOtherwise(c channel.Channel) channel.Channel {
	c.Orders = slices.Clone(c.Orders[:min(len(c.Orders), 1)])
	for i := range c.Orders {
		o := &c.Orders[i]
		o.Share, o.Items = quoin.Optional[quoin.Rate]{}, rapid.SampledFrom([]int64{0, 1, 1, 1, 3}).Draw(d.T, "items in one")
		o.Shipping = d.amount("shipping")
	}
	if c.Consignment != nil && d.yes("other marks-up") {
		c.Consignment.Commission, c.Consignment.OnMaker = quoin.Optional[quoin.Rate]{}, quoin.Some(rate(rapid.SampledFrom([]string{"100%", "50%", "200%", "33.3%", "25%"}).Draw(d.T, "on maker")))
	}
	for i := range c.Fees {
		f := &c.Fees[i]
		if d.yes("over other orders") {
			f.OrdersTogether = quoin.MustFactor(rapid.SampledFrom([]string{"1", "1.0", "40", "30", "0.5", "365"}).Draw(d.T, "over them"))
		}
		if d.yes("other amounts") {
			f.Fixed, f.AtLeast, f.Tax = d.amount("fixed"), d.amount("at least"), rate(rapid.SampledFrom([]string{"0%", "0", "20%", "5.50%"}).Draw(d.T, "tax"))
		}
		if d.yes("other rates") {
			f.Rate = rate(rapid.SampledFrom([]string{"0", "0.00%", "3%", "2.90%", "6.54321%"}).Draw(d.T, "rate"))
		}
	}
	return c
}

// amount is one that is written with few places or many.
func (d draws) amount(name string) quoin.Amount {
	return amount(rapid.SampledFrom([]string{"0", "0.000", "0.3", "0.30", "4", "4.5", "4.50", "0.305", "1.2345"}).Draw(d.T, name))
}

func settlesAlike(t *rapid.T, plan *channel.Plan, tm channel.Terms, minor int64, price quoin.Amount) {
	for i := range tm.Orders() {
		u, ok := plan.Settle(i, uint64(minor))
		if !ok {
			continue // which Proceeds has left to decimals
		}
		s := tm.Settle(i, price)
		money := func(n uint64) quoin.Amount { return quoin.AmountOf(int64(n), tm.Places()) }
		if !money(u.Unit).Equal(s.Unit) || !money(u.Items).Equal(s.Items) || !money(u.Shipping).Equal(s.Shipping) ||
			!money(u.Tax).Equal(s.Tax) || !money(u.Revenue).Equal(s.Revenue) ||
			!quoin.AmountOf(int64(u.Fees), tm.Places()+plan.FeePlaces(i)).Equal(s.Fees) {
			t.Fatalf("at %s, order %d: %+v, want %+v", price, i, u, s)
		}
	}
}

// sumsAreTakings: sums × home ÷ the items of an order are the figures of takings.
func sumsAreTakings(t *rapid.T, plan *channel.Plan, want channel.Proceeds, minor int64) {
	sums, ok := plan.Sums(uint64(minor))
	if !ok {
		return
	}
	places, feePlaces := plan.SumPlaces()
	item := func(sum uint64, places int) quoin.Amount {
		return quoin.AmountOf(int64(sum), places).Times(plan.Home()).Over(plan.PerOrder())
	}
	if !item(sums.Revenue, places).Equal(want.Revenue) || !item(sums.Tax, places).Equal(want.Tax) || !item(sums.Fees, feePlaces).Equal(want.Fees) {
		t.Fatalf("%+v of %s items at %s, want %s", sums, plan.PerOrder(), plan.Home(), want)
	}
}

// A price beyond what 64 bits hold is served all the same.
func TestPricesBeyondAPlan(t *testing.T) {
	tm := channel.Channel{Fees: []channel.Fee{{Rate: rate("6.54321987%"), Fixed: amount("0.00000001")}}}.Terms(eur)
	plan, ok := tm.Plan()
	if !ok {
		t.Fatal("no plan")
	}
	if _, ok := plan.Settle(0, 99_999_999_999_999); ok {
		t.Error("a fee of thirteen digits by ten places fits in 64 bits")
	}
	// 999,999,999,999.99 × 0.0654321987 + 0.00000001 = 65,432,198,699.9993456…
	if got := tm.Proceeds(amount("999999999999.99")).Fees; !got.Equal(amount("65432198700.00")) {
		t.Errorf("fees are %s", got)
	}
}

func TestPlansDoNotAllocate(t *testing.T) {
	short := channel.Channel{
		Tax: channel.Tax{Rate: rate("20%"), InPrice: true}, Orders: []channel.Order{{Shipping: amount("4.50"), Postage: amount("6.20")}},
		Fees: []channel.Fee{{Rate: rate("2.3%"), Of: []channel.Part{channel.Items, channel.Shipping}, Fixed: amount("0.27")}},
	}
	long := short
	long.Orders = []channel.Order{{Items: 3, Shipping: amount("4.50"), Codes: []string{"code"}}}
	long.Promotions = []promo.Offer{{ID: "code", Rate: rate("10%")}}
	long.PricePoints = &channel.PricePoints{EndsIn: []quoin.Amount{amount("0.95")}}
	long.Fees = append(long.Fees, channel.Fee{Rate: rate("8%"), WithoutTax: true, Fixed: amount("20"), OrdersTogether: quoin.MustFactor("40")})
	long.Returns = &refund.Rates{Returned: rate("4%"), Fees: rate("50%")}
	long.ForeignCurrency = &channel.ForeignCurrency{Currency: quoin.MustCurrency("USD"), Rate: quoin.MustFactor("0.93")}
	for what, c := range map[string]channel.Channel{"what is short": short, "what is long": long} {
		tm := c.Terms(eur)
		plan, ok := tm.Plan()
		if !ok {
			t.Fatalf("%s has no plan", what)
		}
		if _, ok := plan.Settle(0, 2400); !ok {
			t.Fatalf("%s is not settled in whole numbers", what)
		}
		if n := testing.AllocsPerRun(100, func() { plan.Settle(0, 2400) }); n > 0 {
			t.Errorf("settling %s allocates %v times", what, n)
		}
	}
	// An order of one item is not divided.
	tm, price := short.Terms(eur), amount("24.00")
	if n := testing.AllocsPerRun(100, func() { tm.Proceeds(price) }); n > 0 {
		t.Errorf("what comes of a price allocates %v times", n)
	}
}
