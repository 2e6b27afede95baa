package channel_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/promo"
)

// house prints rails at a base of 18.00 and herons at 25.00, or pays 5.00 flat
// for a rail.
func house(w channel.OnDemand) channel.Channel {
	w.Sizes = []channel.OnDemandProduct{
		{Product: "heron", Base: amount("25.00")},
		{Product: "rail", Base: amount("18.00"), Flat: amount("5.00")},
	}
	return channel.Channel{ID: "house", OnDemand: &w}.For("rail")
}

func taxedIn(c channel.Channel) channel.Channel {
	c.Tax = channel.Tax{Rate: rate("20%"), InPrice: true}
	return c
}

func TestOnDemand(t *testing.T) {
	twenty, half := rate("20%"), rate("50%")
	royalty := channel.OnDemand{Pays: channel.Royalty, Rate: twenty}
	rest := channel.OnDemand{Pays: channel.ShareOfRest, Rate: half}
	flat := channel.OnDemand{Pays: channel.FlatFee}
	net := func(w channel.OnDemand) channel.OnDemand {
		w.WithoutTax = true
		return w
	}
	for _, l := range []ledger{
		{what: "above the base", c: house(channel.OnDemand{Pays: channel.AboveBase}), list: "40.00", items: "40", revenue: "40"},
		{what: "a royalty of 20%", c: house(royalty), list: "40.00", items: "40", revenue: "40", fees: "the house keeps 32"},
		// 40.00 − 6.67 − 8.00, the royalty of the whole price.
		{what: "of a price with tax in it", c: taxedIn(house(royalty)), list: "40.00", items: "40", tax: "6.67", revenue: "33.33", fees: "the house keeps 25.33"},
		// 33.33 × 80% = 26.664.
		{what: "of the price without it", c: taxedIn(house(net(royalty))), list: "40.00", items: "40", tax: "6.67", revenue: "33.33", fees: "the house keeps 26.66"},
		// (40.00 − 18.00) × 50%.
		{what: "half of the rest", c: house(rest), list: "40.00", items: "40", revenue: "40", fees: "the house keeps 11"},
		{what: "a fifth of the rest", c: house(channel.OnDemand{Pays: channel.ShareOfRest, Rate: twenty}), list: "40.00", items: "40", revenue: "40", fees: "the house keeps 17.60"},
		{what: "of two", c: pair(house(rest)), list: "40.00", items: "80", revenue: "80", fees: "the house keeps 22"},
		// (33.33 − 18.00) × 50% = 7.665.
		{what: "of the rest without tax", c: taxedIn(house(net(rest))), list: "40.00", items: "40", tax: "6.67", revenue: "33.33", fees: "the house keeps 7.67"},
		{what: "nothing above the base", c: house(rest), list: "18.00", items: "18", revenue: "18"},
		{what: "below the base", c: house(rest), list: "15.00", items: "15", revenue: "15"},
		{what: "of a product without a base", c: house(rest).For("bittern"), list: "15.00", items: "15", revenue: "15", fees: "the house keeps 7.50"},
		{what: "of another product", c: house(rest).For("heron"), list: "40.00", items: "40", revenue: "40", fees: "the house keeps 7.50"},
		{what: "flat", c: house(flat), list: "40.00", items: "40", revenue: "40", fees: "the house keeps 35"},
		{what: "flat, two", c: pair(house(flat)), list: "40.00", items: "80", revenue: "80", fees: "the house keeps 70"},
		// 33.33 − 5.00, whether or not it is said that the base is net.
		{what: "flat, with tax in the price", c: taxedIn(house(flat)), list: "40.00", items: "40", tax: "6.67", revenue: "33.33", fees: "the house keeps 28.33"},
		{what: "flat, and the price is less", c: house(flat), list: "4.00", items: "4", revenue: "4"},
		{what: "flat of a product that has none", c: house(flat).For("heron"), list: "40.00", items: "40", revenue: "40", fees: "the house keeps 40"},
	} {
		l.check(t)
	}
}

// A code of 10% of the price paid from a share of 50% costs the maker 20% of what
// would have come in, one of 25% half of it (common practice).
func TestCodesFromMaker(t *testing.T) {
	for _, c := range []struct {
		pays              channel.Payout
		code              string
		house, fromMaker  string // what the house keeps of 40.00
		tookFull, tookNow string // what the maker gets where it pays the code
	}{
		{channel.Royalty, "10%", "18", "20", "20", "16"},
		{channel.Royalty, "25%", "15", "20", "20", "10"},
		// Half of what is beyond 18.00: of 36.00 and of 40.00.
		{channel.ShareOfRest, "10%", "9", "11", "11", "7"},
		{channel.AboveBase, "10%", "0", "0", "22", "18"},
		{channel.FlatFee, "10%", "31", "35", "5", "1"},
	} {
		sold := func(codes []string, fromMaker bool) (kept, maker quoin.Amount) {
			ch := house(channel.OnDemand{Pays: c.pays, Rate: rate("50%"), CodesFromMaker: fromMaker})
			ch.Promotions = []promo.Offer{{ID: "spring", Rate: rate(c.code)}}
			ch.Orders = []channel.Order{{Codes: codes}}
			s := ch.Terms(eur).Settle(0, amount("40.00"))
			base, _ := ch.Prints()
			return s.Fees, s.Revenue.Sub(s.Fees).Sub(base)
		}
		shared, _ := sold([]string{"spring"}, false)
		kept, now := sold([]string{"spring"}, true)
		_, full := sold(nil, true)
		if !shared.Equal(amount(c.house)) || !kept.Equal(amount(c.fromMaker)) || !full.Equal(amount(c.tookFull)) || !now.Equal(amount(c.tookNow)) {
			t.Errorf("%s and %s off: the house keeps %s, or %s from the maker, who gets %s in place of %s; want %s, %s, %s, %s",
				c.pays, c.code, shared, kept, now, full, c.house, c.fromMaker, c.tookNow, c.tookFull)
		}
		if c.pays != channel.Royalty {
			continue
		}
		drop := rate(c.code).Factor().Over(rate("50%").Factor()).Rate() // all of it out of a half
		if got := full.Sub(now).Share(full); !got.Equal(drop) {
			t.Errorf("%s off costs %s of the maker's half, want %s", c.code, got, drop)
		}
	}
}

func TestPrints(t *testing.T) {
	for _, c := range []struct {
		pays    channel.Payout
		product string
		want    string
	}{
		{channel.AboveBase, "rail", "18"},
		{channel.AboveBase, "heron", "25"},
		{channel.ShareOfRest, "rail", "18"},
		{channel.Royalty, "rail", "0"},
		{channel.FlatFee, "rail", "0"},
		{channel.AboveBase, "bittern", "0"},
	} {
		if got, ok := house(channel.OnDemand{Pays: c.pays}).For(c.product).Prints(); !ok || !got.Equal(amount(c.want)) {
			t.Errorf("%s of a %s: %s, %t, want %s", c.pays, c.product, got, ok, c.want)
		}
	}
	abroad := house(channel.OnDemand{Pays: channel.AboveBase})
	abroad.ForeignCurrency = &channel.ForeignCurrency{Currency: quoin.MustCurrency("USD"), Rate: quoin.MustFactor("0.90")}
	if got, ok := abroad.Prints(); !ok || !got.Equal(amount("16.20")) {
		t.Errorf("abroad: %s, %t, want 16.20", got, ok)
	}
	if got, ok := (channel.Channel{}).Prints(); ok || !got.IsZero() {
		t.Errorf("by the shop itself: %s, %t", got, ok)
	}
}

func TestByProduct(t *testing.T) {
	for what, c := range map[string]struct {
		c    channel.Channel
		want bool
	}{
		"plain":            {channel.Channel{}, false},
		"a code":           {channel.Channel{Promotions: []promo.Offer{{ID: "a", Rate: rate("5%")}}}, false},
		"a code of some":   {channel.Channel{Promotions: []promo.Offer{{ID: "a", Rate: rate("5%"), Products: []string{"rail"}}}}, true},
		"a sale price":     {channel.Channel{Promotions: []promo.Offer{{ID: "a", Sale: some("9")}}}, true},
		"printed, for one": {house(channel.OnDemand{Pays: channel.Royalty}), true},
	} {
		if got := c.c.ByProduct(); got != c.want {
			t.Errorf("%s: %t", what, got)
		}
	}
}
