package channel_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/promo"
)

// gallery is a print on consignment, at prices with a tax of 20% in them.
func gallery(w channel.Consignment) channel.Channel {
	return channel.Channel{ID: "gallery", Tax: channel.Tax{Rate: rate("20%"), InPrice: true}, Consignment: &w}
}

func pair(c channel.Channel) channel.Channel {
	c.Orders = []channel.Order{{Items: 2}}
	return c
}

// At 50.00, of which 8.33 are tax where the maker is registered for it.
func TestConsignmentShares(t *testing.T) {
	forty := someRate("40%")
	maker, shop := []channel.Party{channel.Maker}, []channel.Party{channel.Shop}
	for _, l := range []ledger{
		{what: "forty to the shop", c: gallery(channel.Consignment{Commission: forty}), items: "50", revenue: "50", fees: "commission 20"},
		{what: "of the price with tax in it", c: gallery(channel.Consignment{Commission: forty, Registered: maker}), items: "50", tax: "8.33", revenue: "41.67", fees: "commission 20"},
		// 41.67 × 40% = 16.668.
		{what: "of the price without it", c: gallery(channel.Consignment{Commission: forty, Registered: maker, WithoutTax: true}), items: "50", tax: "8.33", revenue: "41.67", fees: "commission 16.67"},
		{what: "net, with no tax to take out", c: gallery(channel.Consignment{Commission: forty, WithoutTax: true}), items: "50", revenue: "50", fees: "commission 20"},
		{what: "the shop registered, not the maker", c: gallery(channel.Consignment{Commission: forty, Registered: shop}), items: "50", revenue: "50", fees: "commission 24"},
		{what: "both", c: gallery(channel.Consignment{Commission: forty, Registered: []channel.Party{channel.Shop, channel.Maker}}), items: "50", tax: "8.33", revenue: "41.67", fees: "commission 20"},
		{what: "doubled", c: gallery(channel.Consignment{OnMaker: someRate("100%")}), items: "50", revenue: "50", fees: "commission 25"},
		{what: "two and a half times", c: gallery(channel.Consignment{OnMaker: someRate("150%")}), items: "50", revenue: "50", fees: "commission 30"},
		// 50 ÷ 3 = 16.666….
		{what: "half on the maker's part", c: gallery(channel.Consignment{OnMaker: someRate("50%")}), items: "50", revenue: "50", fees: "commission 16.67"},
		{what: "nothing for the shop", c: gallery(channel.Consignment{Commission: someRate("0%")}), items: "50", revenue: "50"},
		// (50.00 − 12.00) × 40%.
		{what: "the frame first", c: gallery(channel.Consignment{Commission: forty, CostsFirst: amount("12.00")}), items: "50", revenue: "50", fees: "commission 15.20"},
		// (41.67 − 12.00) × 40% = 11.868.
		{what: "the frame first, of net", c: gallery(channel.Consignment{Commission: forty, CostsFirst: amount("12.00"), Registered: maker, WithoutTax: true}), items: "50", tax: "8.33", revenue: "41.67", fees: "commission 11.87"},
		{what: "the frame is all", c: gallery(channel.Consignment{Commission: forty, CostsFirst: amount("50.00")}), items: "50", revenue: "50"},
		{what: "the frame is more than all", c: gallery(channel.Consignment{Commission: forty, CostsFirst: amount("60.00")}), items: "50", revenue: "50"},
		// (100.00 − 24.00) × 40%, and 20% of 30.40.
		{what: "two frames, and tax on the commission", c: pair(gallery(channel.Consignment{Commission: forty, CostsFirst: amount("12.00"), Registered: shop})), items: "100", revenue: "100", fees: "commission 36.48"},
		// 50.00 × 60% × 10% × 73 ÷ 365.
		{what: "paid after 73 days", c: gallery(channel.Consignment{Commission: forty, Interest: rate("10%"), Days: 73}), items: "50", revenue: "50", fees: "commission 20; waiting for the money 0.60"},
		// 50.00 × 50% × 7% × 30 ÷ 365 = 52.5 ÷ 365.
		{what: "after thirty", c: gallery(channel.Consignment{OnMaker: someRate("100%"), Interest: rate("7%"), Days: 30}), items: "50", revenue: "50", fees: "commission 25; waiting for the money 52.5/365"},
	} {
		l.list = "50.00"
		l.check(t)
	}
}

func TestConsignmentDiscounts(t *testing.T) {
	off := func(share string, borne channel.DiscountBearer) channel.Consignment {
		w := channel.Consignment{Commission: someRate("40%"), Discount: channel.Reduction{Rate: rate("10%"), Borne: borne}}
		if share != "" {
			w.Discount.Share = someRate(share)
		}
		return w
	}
	framed := off("", channel.ByMaker)
	framed.CostsFirst = amount("12.00")
	coded := gallery(off("", channel.Shared))
	coded.Promotions = []promo.Offer{{ID: "spring", Amount: amount("5.00")}}
	coded.Orders = []channel.Order{{Codes: []string{"spring"}}}
	for _, l := range []ledger{
		{what: "shared", c: gallery(off("", "")), items: "45", revenue: "45", fees: "commission 18"},
		{what: "by the maker", c: gallery(off("", channel.ByMaker)), items: "45", revenue: "45", fees: "commission 20"},
		{what: "by the shop", c: gallery(off("", channel.ByShop)), items: "50", revenue: "50", fees: "commission 20"},
		{what: "forbidden", c: gallery(off("", channel.Forbidden)), items: "50", revenue: "50", fees: "commission 20"},
		{what: "by the maker, the frame first", c: gallery(framed), items: "45", revenue: "45", fees: "commission 15.20"},
		{what: "a quarter of sales, the others", c: gallery(off("25%", channel.Shared)), items: "50", revenue: "50", fees: "commission 20"},
		{what: "a quarter of sales", c: gallery(off("25%", channel.Shared)), kind: 1, items: "45", revenue: "45", fees: "commission 18"},
		// (50.00 − 5.00) less a tenth.
		{what: "after a code", c: coded, items: "40.50", revenue: "40.50", fees: "commission 16.20"},
	} {
		l.list = "50.00"
		l.check(t)
	}
	quarter := gallery(off("25%", channel.Shared)).Terms(eur)
	if got := quarter.Proceeds(amount("50.00")); !got.Revenue.Equal(amount("48.75")) || !got.Fees.Equal(amount("19.50")) {
		t.Errorf("on average %s less %s, want 48.75 less 19.50", got.Revenue, got.Fees)
	}
}

// Each kind of order falls in two where the maker feels the discount on some.
func TestConsignmentKinds(t *testing.T) {
	c := gallery(channel.Consignment{Commission: someRate("40%"), Discount: channel.Reduction{Rate: rate("10%"), Share: someRate("25%")}})
	c.Orders = []channel.Order{{ID: "one", Share: someRate("80%")}, {ID: "two", Share: someRate("20%"), Items: 2}}
	want := []struct {
		id    string
		place int
		share string
	}{{"one", 0, "60%"}, {"one", 0, "20%"}, {"two", 1, "15%"}, {"two", 1, "5%"}}
	tm := c.Terms(eur)
	if tm.Orders() != len(want) {
		t.Fatalf("%d kinds, want %d", tm.Orders(), len(want))
	}
	for i, w := range want {
		if o, at := tm.Order(i); o.ID != w.id || at != w.place || !tm.Share(i).Equal(rate(w.share)) {
			t.Errorf("kind %d is %s at %d, %s of all, want %s at %d, %s", i, o.ID, at, tm.Share(i), w.id, w.place, w.share)
		}
	}
	for what, c := range map[string]struct {
		share quoin.Optional[quoin.Rate]
		borne channel.DiscountBearer
	}{"on all": {quoin.Some(rate("100%")), ""}, "on none": {quoin.Some(rate("0%")), ""}, "by the shop": {someRate("25%"), channel.ByShop}} {
		tm := gallery(channel.Consignment{Commission: someRate("40%"), Discount: channel.Reduction{Rate: rate("10%"), Share: c.share, Borne: c.borne}}).Terms(eur)
		if _, at := tm.Order(0); tm.Orders() != 1 || at != -1 {
			t.Errorf("%s: %d kinds, the first at %d, want one that no list has", what, tm.Orders(), at)
		}
	}
}

// Shares that sum to nothing count as equal, also with a discount on all.
func TestSharesOfNothing(t *testing.T) {
	c := gallery(channel.Consignment{Commission: someRate("40%"), Discount: channel.Reduction{Rate: rate("10%")}})
	c.Orders = []channel.Order{{Share: someRate("0%")}}
	if got := c.Terms(eur).Proceeds(amount("50.00")).Revenue; !got.Equal(amount("45.00")) {
		t.Errorf("it brings %s, want 45.00", got)
	}
	// With and without it, where it is given on some.
	c.Consignment.Discount.Share = someRate("25%")
	if got := c.Terms(eur).Proceeds(amount("50.00")).Revenue; !got.Equal(amount("47.50")) {
		t.Errorf("with it on some it brings %s, want 47.50", got)
	}
}

func TestConsignmentLoss(t *testing.T) {
	for _, c := range []struct{ post, shop, want string }{
		{"0%", "0%", "0%"},
		{"2%", "0%", "2%"},
		{"0%", "5%", "5%"},
		{"2%", "5%", "6.9%"}, // 1 − 0.98 × 0.95
	} {
		got := channel.Channel{LostParcels: rate(c.post), Consignment: &channel.Consignment{LostPieces: rate(c.shop)}}.Lost()
		if !got.Equal(rate(c.want)) {
			t.Errorf("%s in the post and %s in the shop: %s, want %s", c.post, c.shop, got, c.want)
		}
	}
	if got := (channel.Channel{LostParcels: rate("2%")}).Lost(); !got.Equal(rate("2%")) {
		t.Errorf("in the post alone: %s", got)
	}
}

// Mark-ups on the maker's part as shares of the price, by the definition of both.
func TestTakes(t *testing.T) {
	for _, c := range []struct{ onMaker, want string }{{"100%", "50%"}, {"25%", "20%"}, {"300%", "75%"}, {"0%", "0%"}} {
		if got := (channel.Consignment{OnMaker: someRate(c.onMaker), Commission: someRate("99%")}).Takes(); !got.Equal(rate(c.want)) {
			t.Errorf("%s on the maker's part is %s, want %s", c.onMaker, got, c.want)
		}
	}
	if got := (channel.Consignment{Commission: someRate("40%")}).Takes(); !got.Equal(rate("40%")) {
		t.Errorf("a commission of 40%% is %s", got)
	}
	if got := (channel.Consignment{}).Takes(); !got.IsZero() {
		t.Errorf("no commission is %s", got)
	}
}
