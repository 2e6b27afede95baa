package channel_test

import (
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/promo"
	"example.com/quoin/channel/refund"
)

// A house sells at 24.00 with 20% of tax in the price: it owes 4.00 of it and has
// 20.00. Its base for a rail is 10.00. What the maker gets is what its contract
// says, of the price on the tag; the house bears the tax out of its own part.
func TestTheHousePaysTheTax(t *testing.T) {
	sold := func(w channel.OnDemand) channel.Channel {
		w.Sizes = []channel.OnDemandProduct{{Product: "rail", Base: amount("10.00"), Flat: amount("5.00")}}
		return taxedIn(channel.Channel{ID: "house", OnDemand: &w}).For("rail")
	}
	royalty := channel.OnDemand{Pays: channel.Royalty, Rate: rate("20%")}
	half := channel.OnDemand{Pays: channel.ShareOfRest, Rate: rate("50%")}
	net := func(w channel.OnDemand) channel.OnDemand { w.WithoutTax = true; return w }
	for _, c := range []struct {
		what        string
		c           channel.Channel
		list, maker string
	}{
		{"a royalty of 20%", sold(royalty), "24.00", "4.80"},
		{"of the net price, 20.00 × 20%", sold(net(royalty)), "24.00", "4.00"},
		{"a royalty of 10%", sold(channel.OnDemand{Pays: channel.Royalty, Rate: rate("10%")}), "24.00", "2.40"},
		// (24.00 − 10.00) × 50%.
		{"half of what is above the base", sold(half), "24.00", "7.00"},
		// (20.00 − 10.00) × 50%.
		{"half of the net rest", sold(net(half)), "24.00", "5.00"},
		{"all of it above the base, which is never more than the house has", sold(channel.OnDemand{Pays: channel.AboveBase}), "24.00", "10.00"},
		{"flat", sold(channel.OnDemand{Pays: channel.FlatFee}), "24.00", "5.00"},
		// Half of 5.00 is 2.50, and 12.50 without the base; 15.00 less 2.50 of tax is 12.50.
		{"just enough left", sold(half), "15.00", "2.50"},
		// Half of 3.00 is 1.50, and 13.00 less 2.17 of tax and the base is 0.83.
		{"more than is left", sold(half), "13.00", "0.83"},
		// 9.00 less 1.50 of tax is 7.50: 2.50 less than the base.
		{"below the base", sold(half), "9.00", "-2.50"},
		{"nothing", sold(half), "0.00", "-10.00"},
		// 0.20 × 24.99 = 4.998 of 20.82.
		{"rounded once", sold(royalty), "24.99", "5.00"},
	} {
		base, _ := c.c.Prints()
		s := c.c.Terms(eur).Settle(0, amount(c.list))
		if got := s.Revenue.Sub(s.Fees).Sub(base); !got.Equal(amount(c.maker)) {
			t.Errorf("%s: the maker gets %s of %s, want %s", c.what, got, c.list, c.maker)
		}
	}
	onTop := sold(royalty)
	onTop.Tax.InPrice = false
	ledger{what: "tax on top", c: onTop, list: "24.00", items: "24", tax: "4.80", revenue: "24", fees: "the house keeps 19.20"}.check(t)
}

// A code of 25% off 24.00 leaves 18.00, with 3.00 of tax in it. Half of what is
// above 10.00 is then 4.00, and the house keeps 15.00 − 10.00 − 4.00. Where the
// maker pays the code the house keeps what it keeps of 24.00, which is 3.00.
func TestTheHousePaysTheTaxOfCodes(t *testing.T) {
	for _, c := range []struct {
		fromMaker bool
		keeps     string
	}{{false, "1"}, {true, "3"}} {
		ch := taxedIn(channel.Channel{
			OnDemand: &channel.OnDemand{
				Pays: channel.ShareOfRest, Rate: rate("50%"), CodesFromMaker: c.fromMaker, Sizes: []channel.OnDemandProduct{{Product: "rail", Base: amount("10")}},
			},
			Promotions: []promo.Offer{{ID: "spring", Rate: rate("25%")}}, Orders: []channel.Order{{Codes: []string{"spring"}}},
		}).For("rail")
		ledger{what: "a code", c: ch, list: "24.00", items: "18", tax: "3", revenue: "15", fees: "the house keeps " + c.keeps}.check(t)
	}
}

// Of 50.00 with 10.00 of tax in it the maker gets 10.00 and the house keeps 30.00.
// Where a tenth of it all is given back, each has a tenth less: the maker 9.00.
func TestTheHousePaysTheTaxOfWhatComesBack(t *testing.T) {
	c := channel.Channel{
		Tax: channel.Tax{Rate: rate("25%"), InPrice: true}, Returns: &refund.Rates{Returned: rate("10%")},
		OnDemand: &channel.OnDemand{Pays: channel.Royalty, Rate: rate("20%")},
	}
	ledger{what: "a tenth comes back", c: c, list: "50.00", items: "50", tax: "10", revenue: "40", fees: "the house keeps 27; refunds 4"}.check(t)
}

// Two orders in which no tax is, one by its own rate, pay as if the channel had none.
func TestOrdersWithoutTaxOweNone(t *testing.T) {
	c := taxedIn(house(channel.OnDemand{Pays: channel.Royalty, Rate: rate("20%")}))
	c.Orders = []channel.Order{{TaxRate: someRate("0%")}}
	ledger{what: "abroad", c: c, list: "40.00", items: "40", revenue: "40", fees: "the house keeps 32"}.check(t)
}

// 1 ÷ 1.25 is 80%: a royalty may come up to it, a share of what is above a base may
// not, since of 100.00 and a base of 10.00 it would pay 72.00 out of 70.00.
func TestPaysMoreThanLeft(t *testing.T) {
	royalty := func(r string) channel.OnDemand { return channel.OnDemand{Pays: channel.Royalty, Rate: rate(r)} }
	rest := func(r string) channel.OnDemand { return channel.OnDemand{Pays: channel.ShareOfRest, Rate: rate(r)} }
	quarter := channel.Tax{Rate: rate("25%"), InPrice: true}
	for _, c := range []struct {
		what string
		w    channel.OnDemand
		tax  channel.Tax
		own  string
		more bool
	}{
		{"all that is left", royalty("80%"), quarter, "", false},
		{"a cent in a hundred euros more", royalty("80.01%"), quarter, "", true},
		{"nearly that of the rest", rest("79.99%"), quarter, "", false},
		{"that of the rest", rest("80%"), quarter, "", true},
		{"of net prices", channel.OnDemand{Pays: channel.Royalty, Rate: rate("90%"), WithoutTax: true}, quarter, "", false},
		{"on top", royalty("90%"), channel.Tax{Rate: rate("25%")}, "", false},
		{"no tax at all", rest("100%"), channel.Tax{InPrice: true}, "", false},
		{"an order with more tax", royalty("75%"), quarter, "40%", true},
		{"an order with less", royalty("85%"), quarter, "10%", false},
		{"above the base, which has no rate", channel.OnDemand{Pays: channel.AboveBase}, quarter, "", false},
	} {
		ch := channel.Channel{OnDemand: &c.w, Tax: c.tax}
		if c.own != "" {
			ch.Orders = []channel.Order{{TaxRate: someRate(c.own)}}
		}
		if _, more := ch.PaysMoreThanLeft(); more != c.more {
			t.Errorf("%s: %t, want %t", c.what, more, c.more)
		}
		if ch.TakesEverything() {
			t.Errorf("%s: takes everything", c.what)
		}
	}
	if left, _ := (channel.Channel{OnDemand: &channel.OnDemand{Pays: channel.Royalty}, Tax: quarter}).PaysMoreThanLeft(); !left.Equal(rate("80%")) {
		t.Errorf("%s is left of a price with 25%% in it, want 80%%", left)
	}
}

// Whatever the terms, the maker gets what they say or what the house has left,
// whichever is less, to the half cent that rounding the fee takes; and a higher
// price pays no less, but for the cent of its tax.
func TestTheMakerGetsTheLesser(t *testing.T) {
	rapid.Check(t, func(rt *rapid.T) {
		d := draws{rt}
		w := channel.OnDemand{
			Pays: rapid.SampledFrom([]channel.Payout{channel.Royalty, channel.ShareOfRest}).Draw(rt, "pays"), Rate: d.rate("rate", 1000),
			Sizes: []channel.OnDemandProduct{{Product: "rail", Base: d.money("base", 1500)}},
		}
		tax := d.rate("tax", 300)
		tm := channel.Channel{OnDemand: &w, Tax: channel.Tax{Rate: tax, InPrice: true}}.For("rail").Terms(eur)
		price := d.money("price", 4000)
		s := tm.Settle(0, price)
		var base quoin.Amount
		if w.Pays == channel.ShareOfRest {
			base = w.Sizes[0].Base
		}
		rest := price.Sub(base)
		if rest.Sign() < 0 {
			rest = quoin.Amount{}
		}
		want, got := rest.Part(w.Rate), s.Revenue.Sub(s.Fees).Sub(base)
		if left := s.Revenue.Sub(base); left.Cmp(want) < 0 {
			want = left
		}
		if off := got.Sub(want); off.Cmp(amount("0.005")) > 0 || off.Cmp(amount("-0.005")) < 0 {
			rt.Fatalf("%s of %s, tax %s, base %s: the maker gets %s, want %s", w.Pays, price, tax, base, got, want)
		}
	})
}

// Where a house keeps nothing its fee is flat, and the curve breaks there: half of
// the rest of a base of 10.00 is more than is left of a price up to 15.00. Each
// statement is on the line of its piece, give or take what rounding takes.
func TestCurveOfAHouseThatPaysTheTax(t *testing.T) {
	c := taxedIn(channel.Channel{OnDemand: &channel.OnDemand{
		Pays: channel.ShareOfRest, Rate: rate("50%"), Sizes: []channel.OnDemandProduct{{Product: "rail", Base: amount("10")}},
	}}).For("rail")
	tm, g := c.Terms(eur), grid(t, "0.01", "40")
	var ends []string
	for _, p := range tm.Curve(g) {
		ends = append(ends, g.Price(p.Last).String())
		for i := p.First; i <= p.Last; i++ {
			price := g.Price(i)
			off := tm.Proceeds(price).Fees.Sub(price.Times(p.Fees.Slope)).Sub(p.Fees.Start)
			if off.Cmp(p.Fees.Within) > 0 || off.Neg().Cmp(p.Fees.Within) > 0 {
				t.Errorf("at %s fees are off their line by %s, which claims %s", price, off, p.Fees.Within)
			}
			if p.Fees.Within.Cmp(amount("0.01")) > 0 {
				t.Fatalf("fees are known to %s at %s, want to a cent", p.Fees.Within, price)
			}
		}
	}
	if got := strings.Join(ends, " "); got != "9.99 14.99 40.00" {
		t.Errorf("pieces end at %s, want where the base is reached, where something is left, and at the limit", got)
	}
}
