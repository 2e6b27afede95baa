package channel_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/promo"
)

// Codes on an order of prints at 20.00 each, sent for 4.50, free from 55.00.
func TestCodes(t *testing.T) {
	tenth := promo.Offer{ID: "tenth", Rate: rate("10%")}
	five := promo.Offer{ID: "five", Amount: amount("5.00")}
	from := func(o promo.Offer, at string, test promo.Test) promo.Offer {
		o.From, o.Test = amount(at), test
		return o
	}
	three := promo.Offer{ID: "three", Buy: 3, Free: 1}
	sale := func(price string) promo.Offer { return promo.Offer{ID: "sale", Sale: some(price)} }
	of := func(o promo.Offer, products ...string) promo.Offer {
		o.Products = products
		return o
	}
	for _, c := range []struct {
		what      string
		count     int64
		offers    []promo.Offer
		promotion string
		test      promo.Test
		items     string
		shipping  string
		discount  string
	}{
		{"none", 3, nil, "0%", "", "60", "0", "0"},
		{"a tenth, then five", 3, []promo.Offer{tenth, five}, "0%", "", "49", "4.50", "11"},
		{"five, then a tenth", 3, []promo.Offer{five, tenth}, "0%", "", "49.50", "4.50", "10.50"},
		{"five, from 55 left: it is not", 3, []promo.Offer{tenth, from(five, "55", promo.After)}, "0%", "", "54", "4.50", "6"},
		{"and where it does not say, after", 3, []promo.Offer{tenth, from(five, "55", "")}, "0%", "", "54", "4.50", "6"},
		{"five, from 54 left to the cent", 3, []promo.Offer{tenth, from(five, "54", promo.After)}, "0%", "", "49", "4.50", "11"},
		{"five, from 55 before codes", 3, []promo.Offer{tenth, from(five, "55", promo.Before)}, "0%", "", "49", "4.50", "11"},
		{"before codes, but after the promotion", 3, []promo.Offer{from(five, "55", promo.Before)}, "10%", "", "54", "4.50", "6"},
		{"three for two", 3, []promo.Offer{three}, "0%", "", "40", "4.50", "20"},
		{"four of them", 4, []promo.Offer{three}, "0%", "", "60", "0", "20"},
		{"six of them", 6, []promo.Offer{three}, "0%", "", "80", "0", "40"},
		{"two of them", 2, []promo.Offer{three}, "0%", "", "40", "4.50", "0"},
		{"three for two, then a tenth", 3, []promo.Offer{three, tenth}, "0%", "", "36", "4.50", "24"},
		{"a sale at 15.00", 3, []promo.Offer{sale("15.00")}, "0%", "", "45", "4.50", "15"},
		{"a sale at what it costs", 3, []promo.Offer{sale("20.00")}, "0%", "", "60", "0", "0"},
		{"a sale above what it costs", 3, []promo.Offer{sale("25.00")}, "0%", "", "60", "0", "0"},
		{"a sale of what is dearer already", 3, []promo.Offer{{ID: "half", Rate: rate("50%")}, sale("15.00")}, "0%", "", "30", "4.50", "30"},
		{"more than all", 3, []promo.Offer{{ID: "much", Amount: amount("75.00")}}, "0%", "", "0", "4.50", "60"},
		{"a set takes nothing off", 3, []promo.Offer{of(promo.Offer{ID: "set", Price: some("1.00")}, "rail", "heron")}, "0%", "", "60", "0", "0"},
		{"of rails", 3, []promo.Offer{of(tenth, "rail")}, "0%", "", "54", "4.50", "6"},
		{"of herons", 3, []promo.Offer{of(tenth, "heron")}, "0%", "", "60", "0", "0"},
		{"postage free before codes", 3, []promo.Offer{tenth}, "0%", promo.Before, "54", "0", "6"},
		{"postage not free after codes", 3, []promo.Offer{tenth}, "0%", promo.After, "54", "4.50", "6"},
		{"nor before, after the promotion", 3, nil, "10%", promo.Before, "54", "4.50", "6"},
		{"half cents", 1, []promo.Offer{{ID: "x", Rate: rate("0.125%")}}, "0%", "", "19.97", "4.50", "0.03"}, // 0.025
	} {
		o := channel.Order{Items: c.count, Shipping: amount("4.50"), FreeFrom: some("55.00"), FreeTest: c.test}
		for _, offer := range c.offers {
			o.Codes = append([]string{offer.ID}, o.Codes...) // the order of codes is nothing
		}
		ch := channel.Channel{Promotion: rate(c.promotion), Promotions: c.offers, Orders: []channel.Order{o}}
		s := ch.For("rail").Terms(eur).Settle(0, amount("20.00"))
		if !s.Items.Equal(amount(c.items)) || !s.Shipping.Equal(amount(c.shipping)) || !s.Discount.Equal(amount(c.discount)) {
			t.Errorf("%s: %s, shipping %s, %s off, want %s, %s, %s off", c.what, s.Items, s.Shipping, s.Discount, c.items, c.shipping, c.discount)
		}
	}
}

// An order takes the codes that it names, and no others.
func TestCodesTaken(t *testing.T) {
	c := channel.Channel{
		Promotions: []promo.Offer{{ID: "tenth", Rate: rate("10%")}, {ID: "half", Rate: rate("50%")}},
		Orders:     []channel.Order{{}, {Codes: []string{"tenth"}}, {Codes: []string{"half"}}, {Codes: []string{"half", "tenth"}}, {Codes: []string{"none"}}},
	}
	tm := c.Terms(eur)
	for i, want := range []string{"40", "36", "20", "18", "40"} {
		if got := tm.Settle(i, amount("40.00")).Items; !got.Equal(amount(want)) {
			t.Errorf("codes %q leave %s, want %s", c.Orders[i].Codes, got, want)
		}
	}
}

// The net amount or the gross one stays, where an order is taxed elsewhere.
func TestConstant(t *testing.T) {
	for _, c := range []struct {
		constant           channel.Constant
		inPrice            bool
		own                string
		unit, tax, revenue string
	}{
		{channel.Gross, true, "20%", "24", "4", "20"},
		{channel.Gross, true, "10%", "24", "2.18", "21.82"},
		{"", true, "10%", "24", "2.18", "21.82"},
		{channel.Net, true, "10%", "22", "2", "20"},
		{channel.Net, true, "0%", "20", "0", "20"},
		{channel.Net, true, "20%", "24", "4", "20"},
		{channel.Net, true, "25%", "25", "5", "20"},
		{channel.Net, false, "10%", "24", "2.40", "24"},
		{channel.Gross, false, "0%", "24", "0", "24"},
	} {
		ch := channel.Channel{
			Tax:    channel.Tax{Rate: rate("20%"), InPrice: c.inPrice, Constant: c.constant},
			Orders: []channel.Order{{TaxRate: someRate(c.own)}, {}},
		}
		s := ch.Terms(eur).Settle(0, amount("24.00"))
		if !s.Unit.Equal(amount(c.unit)) || !s.Tax.Equal(amount(c.tax)) || !s.Revenue.Equal(amount(c.revenue)) {
			t.Errorf("%q, in price %t, at %s: %s of which tax %s, revenue %s, want %s, %s, %s", c.constant, c.inPrice, c.own, s.Unit, s.Tax, s.Revenue, c.unit, c.tax, c.revenue)
		}
		if home := ch.Terms(eur).Settle(1, amount("24.00")); !home.Unit.Equal(amount("24")) {
			t.Errorf("%q: at home it costs %s", c.constant, home.Unit)
		}
	}
}

// Words of documents: each is read, and another one is refused with what is near.
func TestWords(t *testing.T) {
	var (
		constant channel.Constant
		freight  channel.Freight
		borne    channel.DiscountBearer
		party    channel.Party
		pays     channel.Payout
		mode     channel.TierMode
		part     channel.Part
		per      channel.TaxPer
		figure   channel.TaxFigure
		base     channel.TaxBase
		shipped  channel.ShippingRate
		due      channel.RoundedFigure
	)
	for _, w := range []struct {
		good, bad string
		into      interface{ UnmarshalText([]byte) error }
		read      func() string
	}{
		{"net", "nett", &constant, func() string { return string(constant) }},
		{"collect", "colect", &freight, func() string { return string(freight) }},
		{"allowance", "alowance", &freight, func() string { return string(freight) }},
		{"maker", "makers", &borne, func() string { return string(borne) }},
		{"shop", "shopp", &party, func() string { return string(party) }},
		{"share_of_rest", "share_of_rests", &pays, func() string { return string(pays) }},
		{"flat_fee", "flat_fees", &pays, func() string { return string(pays) }},
		{"whole", "wholes", &mode, func() string { return string(mode) }},
		{"gross", "grosss", &constant, func() string { return string(constant) }},
		{"net", "nett", &constant, func() string { return string(constant) }},
		{"added", "addet", &freight, func() string { return string(freight) }},
		{"prepaid", "prepayed", &freight, func() string { return string(freight) }},
		{"shared", "share", &borne, func() string { return string(borne) }},
		{"shop", "shops", &borne, func() string { return string(borne) }},
		{"forbidden", "forbiden", &borne, func() string { return string(borne) }},
		{"maker", "makers", &borne, func() string { return string(borne) }},
		{"maker", "makers", &party, func() string { return string(party) }},
		{"shop", "shopp", &party, func() string { return string(party) }},
		{"above_base", "above_bas", &pays, func() string { return string(pays) }},
		{"royalty", "royalti", &pays, func() string { return string(pays) }},
		{"flat_fee", "flat_fees", &pays, func() string { return string(pays) }},
		{"marginal", "marginall", &mode, func() string { return string(mode) }},
		{"items", "item", &part, func() string { return string(part) }},
		{"shipping", "shiping", &part, func() string { return string(part) }},
		{"surcharge", "surcharges", &part, func() string { return string(part) }},
		{"tax", "taxx", &part, func() string { return string(part) }},
		{"order", "orders", &per, func() string { return string(per) }},
		{"line", "lines", &per, func() string { return string(per) }},
		{"unit", "units", &per, func() string { return string(per) }},
		{"tax", "taxx", &figure, func() string { return string(figure) }},
		{"net", "nett", &figure, func() string { return string(figure) }},
		{"paid", "payd", &base, func() string { return string(base) }},
		{"full_price", "full_prices", &base, func() string { return string(base) }},
		{"proportion", "proportions", &shipped, func() string { return string(shipped) }},
		{"highest", "highests", &shipped, func() string { return string(shipped) }},
		{"main", "mains", &shipped, func() string { return string(shipped) }},
		{"due", "duee", &due, func() string { return string(due) }},
		{"discount", "discounts", &due, func() string { return string(due) }},
		{"discount", "discounts", &part, func() string { return string(part) }},
	} {
		if err := w.into.UnmarshalText([]byte(w.good)); err != nil || w.read() != w.good {
			t.Errorf("%s is read as %q, %v", w.good, w.read(), err)
		}
		err := w.into.UnmarshalText([]byte(w.bad))
		if p, _ := err.(quoin.Problem); p.Code != quoin.UnknownWord || p.Near != w.good {
			t.Errorf("%s: %v, want an unknown word near %s", w.bad, err, w.good)
		}
	}
	if constant != channel.Net || borne != channel.ByMaker || party != channel.Shop || pays != channel.FlatFee {
		t.Errorf("a word that is refused is kept: %q %q %q %q", constant, borne, party, pays)
	}
}
