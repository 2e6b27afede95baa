package channel_test

import (
	"fmt"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel"
)

func TestPlansAgree(t *testing.T) { rapid.Check(t, plansAgree) }
func FuzzPlansAgree(f *testing.F) { f.Fuzz(rapid.MakeFuzz(plansAgree)) }

// plansAgree: what whole numbers come to is what decimals do, digit by digit as
// it is written, and order by order.
func plansAgree(t *rapid.T) {
	d := draws{t}
	var c channel.Channel
	if d.yes("with ways of selling") {
		c = d.channel()
	} else {
		c, _ = terms(t)
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
		got, want := tm.Takings(price), tm.Exactly(price)
		if g, w := fmt.Sprint(got), fmt.Sprint(want); g != w {
			t.Fatalf("at %s: %s, exactly %s", price, g, w)
		}
		if planned {
			settlesAlike(t, plan, tm, minor, price)
		}
	}
}

func settlesAlike(t *rapid.T, plan *channel.Plan, tm channel.Terms, minor int64, price quoin.Amount) {
	for i := range tm.Orders() {
		u, ok := plan.Settle(i, uint64(minor))
		if !ok {
			continue // which Takings has left to decimals
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

// What a plan serves, and what it leaves to decimals.
func TestWhatIsPlanned(t *testing.T) {
	for _, c := range []struct {
		what string
		c    channel.Channel
		want bool
	}{
		{"nothing at all", channel.Channel{}, true},
		{"tax, postage and a fee with all its bounds", channel.Channel{
			Tax: channel.Tax{Rate: rate("20%"), InPrice: true}, Orders: []channel.Order{{Shipping: amount("4.50"), FreeFrom: quoin.Some(amount("60.005")), Postage: amount("6.123")}},
			Fees: []channel.Fee{{Rate: rate("2.9%"), Of: []channel.Part{channel.Items, channel.Shipping}, Fixed: amount("0.305"), AtLeast: amount("0.5"), AtMost: quoin.Some(amount("9")), Share: someRate("12.5%"), Tax: rate("20%")}},
		}, true},
		{"tiers", channel.Channel{Fees: []channel.Fee{{Tiers: []channel.Tier{{Rate: rate("8%")}, {From: amount("10.01"), Rate: rate("15%")}}, TierMode: channel.Whole}}}, true},
		{"an agent, by the kind of order", channel.Channel{Trade: &channel.Trade{Agent: rate("15%")}}, true},
		{"shipping finer than money", channel.Channel{Orders: []channel.Order{{Shipping: amount("4.505")}}}, false},
		{"a fee over many orders", channel.Channel{Fees: []channel.Fee{{Fixed: amount("20"), Over: quoin.MustFactor("40")}}}, false},
		{"bad debts", channel.Channel{Trade: &channel.Trade{Credit: channel.Credit{Bad: rate("1%")}}}, false},
		{"prices that a till can take", channel.Channel{Tag: &channel.Tag{Step: amount("0.50")}}, false},
	} {
		if _, got := c.c.Terms(eur).Plan(); got != c.want {
			t.Errorf("%s: planned %t, want %t", c.what, got, c.want)
		}
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
	if got := tm.Takings(amount("999999999999.99")).Fees; !got.Equal(amount("65432198700.00")) {
		t.Errorf("fees are %s", got)
	}
}

func TestPlansDoNotAllocate(t *testing.T) {
	tm := channel.Channel{
		Tax: channel.Tax{Rate: rate("20%"), InPrice: true}, Orders: []channel.Order{{Shipping: amount("4.50"), Postage: amount("6.20")}},
		Fees: []channel.Fee{{Rate: rate("2.9%"), Of: []channel.Part{channel.Items, channel.Shipping}, Fixed: amount("0.30")}},
	}.Terms(eur)
	plan, ok := tm.Plan()
	if !ok {
		t.Fatal("no plan")
	}
	price := amount("24.00")
	for what, do := range map[string]func(){
		"settling":         func() { plan.Settle(0, 2400) },
		"what comes of it": func() { tm.Takings(price) },
	} {
		if n := testing.AllocsPerRun(100, do); n > 0 {
			t.Errorf("%s allocates %v times", what, n)
		}
	}
}
