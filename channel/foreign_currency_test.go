package channel_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/refund"
)

func sold(currency, rate string) channel.Channel {
	return channel.Channel{ID: "abroad", ForeignCurrency: &channel.ForeignCurrency{Currency: quoin.MustCurrency(currency), Rate: quoin.MustFactor(rate), Date: quoin.MustDate("2026-03-01")}}
}

// Orders in another currency; rates and fees are invented.
func TestAbroad(t *testing.T) {
	dollars := sold("USD", "0.80")
	dollars.Orders = []channel.Order{{Shipping: amount("9.00"), Postage: amount("6.00")}}
	dollars.Fees = []channel.Fee{{Name: "card", Rate: rate("3.3%"), Of: []channel.Part{channel.Items, channel.Shipping}, Fixed: amount("0.27")}}
	changed := dollars
	changed.ForeignCurrency = &channel.ForeignCurrency{Currency: quoin.MustCurrency("USD"), Rate: quoin.MustFactor("0.80"), Conversion: rate("2%")}
	changed.Tax = channel.Tax{Rate: rate("10%")}
	held := changed
	held.Tax.InPrice = true
	yen := sold("JPY", "0.006")
	yen.Tax = channel.Tax{Rate: rate("10%"), InPrice: true}
	yen.Fees = []channel.Fee{{Name: "card", Rate: rate("3.64%")}}
	dinar := sold("KWD", "3")
	dinar.Fees = []channel.Fee{{Name: "card", Rate: rate("2.55%")}}
	tagged := dollars
	step := channel.PricePoints{Step: amount("5")}
	tagged.PricePoints = &step
	for _, l := range []ledger{
		// 24.00 ÷ 0.80; 39.00 × 3.3% + 0.27 = 1.557; postage stays in the shop's currency.
		{what: "in dollars", c: dollars, list: "24.00", items: "30", shipping: "9", revenue: "39", fulfilment: "6", fees: "card 1.56"},
		{what: "rounded to cents", c: dollars, list: "24.50", items: "30.63", shipping: "9", revenue: "39.63", fulfilment: "6", fees: "card 1.58"}, // 1.57779
		// 30.00 + 9.00 + 3.00 of tax, 2%.
		{what: "changed back, tax on top", c: changed, list: "24.00", items: "30", shipping: "9", tax: "3", revenue: "39", fulfilment: "6", fees: "card 1.56; conversion 0.84"},
		// 30.00 × 10 ÷ 110 = 2.727…; 39.00 × 2%.
		{what: "changed back, tax in it", c: held, list: "24.00", items: "30", shipping: "9", tax: "2.73", revenue: "36.27", fulfilment: "6", fees: "card 1.56; conversion 0.78"},
		// 24.00 ÷ 0.006 = 4,000, of which 363.6… are tax, and 145.6 the card's.
		{what: "in a currency of no places", c: yen, list: "24.00", items: "4000", tax: "364", revenue: "3636", fees: "card 146"},
		// 25.00 ÷ 3 = 8.3333…; 8.333 × 2.55% = 0.2124915.
		{what: "in one of three", c: dinar, list: "25.00", items: "8.333", revenue: "8.333", fees: "card 0.212"},
		{what: "as it can be asked there", c: tagged, list: "26.00", items: "35", shipping: "9", revenue: "44", fulfilment: "6", fees: "card 1.72"}, // 32.50; 1.722
	} {
		l.check(t)
	}
	tm := yen.Terms(eur)
	got := tm.Proceeds(amount("24.00"))
	// 3,636, 364 and 146 at 0.006.
	if !got.Revenue.Equal(amount("21.816")) || !got.Tax.Equal(amount("2.184")) || !got.Fees.Equal(amount("0.876")) {
		t.Errorf("at home it is %s, tax %s, fees %s, want 21.816, 2.184, 0.876", got.Revenue, got.Tax, got.Fees)
	}
	if home := tm.Home(amount("1000")); !home.Equal(amount("6")) {
		t.Errorf("1,000 are %s at home, want 6", home)
	}
	if home := (channel.Channel{}).Terms(eur).Home(amount("1000")); !home.Equal(amount("1000")) {
		t.Errorf("1,000 of the shop's own are %s", home)
	}
}

// A rate of 1 into the shop's own currency changes nothing.
func TestAbroadAtHome(t *testing.T) {
	c := exampleMarketplace()
	want := c.Terms(eur).Proceeds(amount("24.00"))
	c.ForeignCurrency = &channel.ForeignCurrency{Currency: eur, Rate: quoin.FactorOf(1)}
	if got := c.Terms(eur).Proceeds(amount("24.00")); !got.Revenue.Equal(want.Revenue) || !got.Fees.Equal(want.Fees) || !got.Tax.Equal(want.Tax) || !got.Fulfilment.Equal(want.Fulfilment) {
		t.Errorf("%+v, want %+v", got, want)
	}
}

// Postage is the shop's own cost, in its own currency: a tenth of the returns at
// 4.00 are 0.40 at home whatever a unit of the other currency costs, 0.80 of one at
// 0.50. The fee of a dispute is taken by the channel, in its currency: 1% of 20.00
// are 0.20 there, 0.10 at home.
func TestPostageOfReturnsAbroad(t *testing.T) {
	for _, c := range []struct {
		home, there, athome string
		r                   refund.Rates
	}{
		{"0.50", "0.80", "0.40", refund.Rates{Returned: rate("10%"), Part: someRate("0%"), Postage: amount("4.00")}},
		{"0.75", "8/15", "0.40", refund.Rates{Returned: rate("10%"), Part: someRate("0%"), Postage: amount("4.00")}},
		{"0.50", "0.20", "0.10", refund.Rates{Disputed: rate("1%"), Lost: someRate("0%"), Fee: amount("20.00")}},
		{"0.50", "1.00", "0.50", refund.Rates{Returned: rate("10%"), Part: someRate("0%"), Postage: amount("4.00"), Disputed: rate("1%"), Lost: someRate("0%"), Fee: amount("20.00")}},
	} {
		ch := sold("USD", c.home)
		ch.Returns = &c.r
		tm := ch.Terms(eur)
		if got := tm.Settle(0, amount("24.00")).Fees; !comesTo(got, c.there) {
			t.Errorf("at %s, %+v: %s there, want %s", c.home, c.r, got, c.there)
		}
		if got := tm.Proceeds(amount("24.00")).Fees; !comesTo(got, c.athome) {
			t.Errorf("at %s, %+v: %s at home, want %s", c.home, c.r, got, c.athome)
		}
		trail := quoin.NewTrail(100)
		s := ch.Explain(trail, quoin.InList("channels", 0), eur, 0, quoin.Given("price", quoin.Path{}, amount("24.00").Figure()))
		fees, _ := s.Fees.Value.Amount()
		if err := quoin.Replay(trail.Steps()); err != nil || !comesTo(fees, c.athome) {
			t.Errorf("at %s, %+v: explained as %s, %v", c.home, c.r, fees, err)
		}
	}
}
