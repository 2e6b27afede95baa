package channel_test

import (
	"errors"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/promo"
)

// TestCheck lists what is wrong with channels that Go code put together, each with one
// fault. Paths and codes are those that the format's page and catalogue give for documents.
func TestCheck(t *testing.T) {
	eur := quoin.MustCurrency("EUR")
	rate, amount := quoin.MustRate, quoin.MustAmount
	for name, c := range map[string]struct {
		in   channel.Channel
		path string
		code quoin.Code
	}{
		"no id":                {channel.Channel{}, "id", quoin.MissingField},
		"an id with a NUL":     {channel.Channel{ID: "web\x00"}, "id", quoin.BadText},
		"an id that is no UTF": {channel.Channel{ID: "web\xff"}, "id", quoin.BadText},
		"all parcels lost":     {channel.Channel{ID: "web", LostParcels: rate("100%")}, "lost_parcels", quoin.OutOfRange},
		"a misspelt part":      {channel.Channel{ID: "web", Fees: []channel.Fee{{Rate: rate("3%"), Of: []channel.Part{"item"}}}}, "fees[0].of[0]", quoin.UnknownWord},
		"a part twice":         {channel.Channel{ID: "web", Fees: []channel.Fee{{Rate: rate("3%"), Of: []channel.Part{"items", "items"}}}}, "fees[0].of[1]", channel.RepeatedPart},
		"a misspelt per":       {channel.Channel{ID: "web", Fees: []channel.Fee{{Fixed: amount("0.30"), Per: "parcel"}}}, "fees[0].per", quoin.UnknownWord},
		"a misspelt mode": {channel.Channel{ID: "web", Fees: []channel.Fee{{
			Tiers: []channel.Tier{{From: amount("0"), Rate: rate("3%")}}, TierMode: "all",
		}}}, "fees[0].tier_mode", quoin.UnknownWord},
		"a tier without from":                {channel.Channel{ID: "web", Fees: []channel.Fee{{Tiers: []channel.Tier{{Rate: rate("3%")}}}}}, "fees[0].tiers[0].from", quoin.MissingField},
		"a tier that says nothing":           {channel.Channel{ID: "web", Fees: []channel.Fee{{Tiers: []channel.Tier{{From: amount("0")}}}}}, "fees[0].tiers[0].rate", quoin.MissingField},
		"a tier that gives back":             {channel.Channel{ID: "web", Fees: []channel.Fee{{Tiers: []channel.Tier{{From: amount("0"), Fixed: amount("-1")}}}}}, "fees[0].tiers[0].fixed", quoin.OutOfRange},
		"tiers that do not rise":             {channel.Channel{ID: "web", Fees: []channel.Fee{{Tiers: []channel.Tier{{From: amount("10"), Fixed: amount("1")}, {From: amount("10"), Fixed: amount("2")}}}}}, "fees[0].tiers[1].from", channel.UnsortedTiers},
		"no rounding":                        {channel.Channel{ID: "web", Fees: []channel.Fee{{Rate: rate("3%"), Rounding: 77}}}, "fees[0].rounding", quoin.UnknownWord},
		"a constant":                         {channel.Channel{ID: "web", Tax: channel.Tax{Constant: "brutto"}}, "tax.constant", quoin.UnknownWord},
		"a class twice":                      {channel.Channel{ID: "web", Tax: channel.Tax{Classes: []channel.TaxClass{{"print", rate("7%")}, {"print", rate("5%")}}}}, "tax.classes[1].class", quoin.DuplicateID},
		"a class twice in an order":          {channel.Channel{ID: "web", Orders: []channel.Order{{TaxClasses: []channel.TaxClass{{"print", rate("7%")}, {"print", rate("5%")}}}}}, "orders[0].tax_classes[1].class", quoin.DuplicateID},
		"a class without a name":             {channel.Channel{ID: "web", Tax: channel.Tax{Classes: []channel.TaxClass{{Rate: rate("7%")}}}}, "tax.classes[0].class", quoin.MissingField},
		"the net rounded on top":             {channel.Channel{ID: "web", Tax: channel.Tax{Rate: rate("7%"), Rounded: channel.RoundedNet}}, "tax.rounded", quoin.StrayTerms},
		"a full price on consignment":        {channel.Channel{ID: "web", Tax: channel.Tax{Rate: rate("7%"), Of: channel.OfFullPrice}, Consignment: &channel.Consignment{Commission: someRate("40%")}}, "tax.of", quoin.StrayTerms},
		"a rate of shipping without tax":     {channel.Channel{ID: "web", Tax: channel.Tax{Rate: rate("7%"), ShippingRate: channel.AtMainRate}}, "tax.shipping_rate", quoin.StrayTerms},
		"a misspelt part of tax":             {channel.Channel{ID: "web", Tax: channel.Tax{Per: "item"}}, "tax.per", quoin.UnknownWord},
		"a class of all that is kept":        {channel.Channel{ID: "web", Tax: channel.Tax{InPrice: true, Classes: []channel.TaxClass{{"print", rate("5%")}, {"frame", rate("20%")}}}, Fees: []channel.Fee{{Rate: rate("84%")}}}, "fees", channel.FeesTakeAll},
		"two ways of selling":                {channel.Channel{ID: "web", Trade: &channel.Trade{}, OnDemand: &channel.OnDemand{Pays: channel.FlatFee}}, "on_demand", quoin.RivalFields},
		"a house that says not what it pays": {channel.Channel{ID: "web", OnDemand: &channel.OnDemand{}}, "on_demand.pays", quoin.MissingField},
		"shares of 90%":                      {channel.Channel{ID: "web", Orders: []channel.Order{{Share: quoin.Some(rate("90%"))}}}, "orders", channel.SharesNotOne},
		"a fee on an order that is none": {channel.Channel{
			ID: "web", Orders: []channel.Order{{ID: "home"}}, Fees: []channel.Fee{{Rate: rate("3%"), Orders: []string{"hame"}}},
		}, "fees[0].orders[0]", quoin.UnknownID},
		"a code that is none": {channel.Channel{
			ID: "web", Orders: []channel.Order{{Codes: []string{"SPRING"}}},
			Promotions: []promo.Offer{{ID: "SPRNG", Rate: rate("10%")}},
		}, "orders[0].codes[0]", quoin.UnknownID},
		"an offer of nothing":  {channel.Channel{ID: "web", Promotions: []promo.Offer{{ID: "SPRING"}}}, "promotions[0]", promo.MissingDiscount},
		"a tag off the cent":   {channel.Channel{ID: "web", PricePoints: &channel.PricePoints{Step: amount("0.125")}}, "price_points.step", quoin.StepOffMinor},
		"money for no days":    {channel.Channel{ID: "web", Trade: &channel.Trade{Credit: channel.Credit{Interest: rate("5%")}}}, "trade.credit.days", quoin.StrayTerms},
		"costs and no items":   {channel.Channel{ID: "web", FixedCost: channel.FixedCost{Cost: amount("20.00")}}, "fixed_cost.items", channel.NoItems},
		"fees take all":        {channel.Channel{ID: "web", Fees: []channel.Fee{{Rate: rate("100%")}}}, "fees", channel.FeesTakeAll},
		"a price in thousands": {channel.Channel{ID: "web", Orders: []channel.Order{{Postage: amount("4.50"), PostageRange: quoin.Between(amount("5.00"), amount("6.00"))}}}, "orders[0].postage_range", quoin.RangeOrder},
		"more digits than are read": {channel.Channel{
			ID: "web", Orders: []channel.Order{{Postage: amount("10.00").Over(quoin.FactorOf(3))}},
		}, "orders[0].postage", quoin.TooFine},
	} {
		var ps quoin.Problems
		if err := c.in.Check(eur); !errors.As(err, &ps) || len(ps) != 1 || ps[0].Path != c.path || ps[0].Code != c.code {
			t.Errorf("%s: %v, want %s at %s", name, err, c.code, c.path)
		}
	}
	sound := channel.Channel{ID: "web", Fees: []channel.Fee{
		{Rate: rate("3%"), Fixed: amount("0.30")},
		{Tiers: []channel.Tier{{From: amount("0"), Rate: rate("0%")}, {From: amount("5"), Fixed: amount("0")}, {From: amount("10"), Rate: rate("3%"), Fixed: amount("0.30")}}},
	}}
	if err := sound.Check(eur); err != nil {
		t.Errorf("a sound channel: %v", err)
	}
}

// All is said at once.
func TestCheckSaysAll(t *testing.T) {
	c := channel.Channel{LostParcels: quoin.MustRate("100%"), Fees: []channel.Fee{{Per: "parcel"}, {Rate: quoin.MustRate("110%")}}}
	var ps quoin.Problems
	if !errors.As(c.Check(quoin.MustCurrency("EUR")), &ps) || len(ps) != 4 {
		t.Errorf("%v, want four problems", ps)
	}
}

// Terms are what the channel said when they were made.
func TestTermsKeepNothing(t *testing.T) {
	c := channel.Channel{
		ID: "web", PricePoints: &channel.PricePoints{Step: quoin.MustAmount("0.50")},
		Fees: []channel.Fee{{TierMode: channel.Whole, Tiers: []channel.Tier{{From: quoin.MustAmount("0"), Rate: quoin.MustRate("10%")}}}},
	}
	terms := c.Terms(quoin.MustCurrency("EUR"))
	c.Fees[0].Tiers[0].Rate, c.PricePoints.Step = quoin.MustRate("90%"), quoin.MustAmount("7")
	// 10.20 is asked as 10.00, of which a tenth goes.
	if got := terms.Proceeds(quoin.MustAmount("10.20")); !got.Revenue.Equal(quoin.MustAmount("10")) || !got.Fees.Equal(quoin.MustAmount("1")) {
		t.Errorf("brings %s, less %s", got.Revenue, got.Fees)
	}
}
