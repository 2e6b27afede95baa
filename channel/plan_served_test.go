package channel_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/promo"
	"example.com/quoin/channel/refund"
)

// served says what takings at a price come from.
type served string

const (
	whole    served = "whole numbers"
	apart    served = "whole numbers, and decimals for some fees"
	decimals served = "decimals"
)

// plannedRow is terms, and what serves them.
type plannedRow struct {
	what string
	c    channel.Channel
	want served
}

// plannedRows are what a plan serves, and what it leaves to decimals: a row for each thing it can do.
func plannedRows() []plannedRow {
	type fees = []channel.Fee
	type parts = []channel.Part
	inPrice := channel.Tax{Rate: rate("20%"), InPrice: true, OnShipping: true}
	posted := []channel.Order{{Shipping: amount("4.50"), Postage: amount("6.20")}}
	many := quoin.MustFactor
	tiers := []channel.Tier{{Rate: rate("6%")}, {From: amount("12.01"), Rate: rate("14%")}}
	coded := func(o promo.Offer) channel.Channel {
		o.ID = "code"
		return channel.Channel{Promotions: []promo.Offer{o}, Orders: []channel.Order{{Items: 3, Codes: []string{"code"}}}}
	}
	return []plannedRow{
		{"nothing at all", channel.Channel{}, whole},
		{"tax, postage and a fee with all its bounds", channel.Channel{
			Tax: inPrice, Orders: []channel.Order{{Shipping: amount("4.50"), FreeFrom: quoin.Some(amount("60.005")), Postage: amount("6.123")}},
			Fees: fees{{Rate: rate("2.3%"), Of: parts{channel.Items, channel.Shipping}, Fixed: amount("0.275"), AtLeast: amount("0.5"), AtMost: quoin.Some(amount("9")), Share: someRate("12.5%"), Tax: rate("20%")}},
		}, whole},
		{"tiers", channel.Channel{Fees: fees{{Tiers: tiers, TierMode: channel.Whole}}}, whole},
		{"tiers by slices", channel.Channel{Fees: fees{{Tiers: tiers}}}, whole},
		{"tiers with fixed amounts", channel.Channel{Fees: fees{{Tiers: fixedTiers(), TierMode: channel.Whole}}}, whole},
		{"the same by slices, for each of three items", channel.Channel{Orders: []channel.Order{{Items: 3}}, Fees: fees{{Tiers: fixedTiers(), Per: quoin.PerItem}}}, whole},
		{"the same of many orders that do not divide it", channel.Channel{Fees: fees{{Tiers: fixedTiers(), TierMode: channel.Whole, OrdersTogether: many("7")}}}, apart},
		{"a tier finer than cents", channel.Channel{Fees: fees{{Tiers: []channel.Tier{{Fixed: amount("0.305")}}}}}, whole},
		{"the same, expected", channel.Channel{Fees: fees{{Tiers: []channel.Tier{{Fixed: amount("0.305")}}, Expected: true}}}, whole},
		{"a fee by the kind of order", channel.Channel{Trade: &channel.Trade{Agent: rate("15%")}}, whole},
		{"several kinds of order", channel.Channel{Orders: []channel.Order{{Share: someRate("70%")}, {Share: someRate("30%"), Items: 3}}, Fees: fees{{Rate: rate("3%")}}}, whole},

		{"a fee of the net price", channel.Channel{Tax: inPrice, Orders: posted, Fees: fees{{Rate: rate("10%"), Of: parts{channel.Items, channel.Shipping}, WithoutTax: true}}}, whole},
		{"the same where no tax is in it", channel.Channel{Fees: fees{{Rate: rate("10%"), WithoutTax: true}}}, whole},
		{"a fee of what a promotion took off", channel.Channel{Promotion: rate("25%"), Fees: fees{{Rate: rate("10%"), Of: parts{channel.Items, channel.Discount}}}}, whole},
		{"a fee only expected", channel.Channel{Fees: fees{{Rate: rate("1.25%"), Fixed: amount("0.011"), Tax: rate("7%"), Expected: true}}}, whole},
		{"the same within bounds", channel.Channel{Fees: fees{{Rate: rate("1.25%"), AtLeast: amount("0.5"), Expected: true}}}, whole},
		{"the same for orders of two items", channel.Channel{Orders: []channel.Order{{Items: 2}}, Fees: fees{{Rate: rate("1.25%"), AtLeast: amount("0.5"), Expected: true}}}, whole},
		{"bad debts", channel.Channel{Trade: &channel.Trade{Credit: channel.Credit{Bad: rate("1%")}}}, whole},
		{"waiting for the money, 73 days of 365", channel.Channel{Trade: &channel.Trade{Credit: channel.Credit{Interest: rate("8%"), Days: 73}}}, whole},
		{"waiting for the money, 30 days of 365", channel.Channel{Trade: &channel.Trade{Credit: channel.Credit{Interest: rate("8%"), Days: 30}}}, apart},

		{"a subscription over orders that divide it", channel.Channel{Fees: fees{{Fixed: amount("20"), OrdersTogether: many("40")}}}, whole},
		{"a subscription over orders that do not", channel.Channel{Fees: fees{{Fixed: amount("20"), OrdersTogether: many("30")}}}, apart},
		{"a rate, capped by the month", channel.Channel{Orders: []channel.Order{{Items: 2}}, Fees: fees{{Rate: rate("5%"), AtMost: quoin.Some(amount("60")), OrdersTogether: many("40")}}}, whole},
		{"the same for orders of one", channel.Channel{Fees: fees{{Rate: rate("5%"), AtMost: quoin.Some(amount("60")), OrdersTogether: many("40")}}}, whole},
		{"a rate, at least so much a month", channel.Channel{Fees: fees{{Rate: rate("5%"), AtLeast: amount("60"), OrdersTogether: many("30")}}}, apart},
		{"tiers of what a month comes to", channel.Channel{Orders: []channel.Order{{Items: 2}}, Fees: fees{{Tiers: tiers, OrdersTogether: many("12.5")}}}, whole},
		{"clicks, of which not every one buys", channel.Channel{Fees: fees{{Fixed: amount("0.30"), OrdersTogether: many("0.02"), Expected: true}}}, whole},

		{"fees in part given back", channel.Channel{Fees: fees{{Rate: rate("7.4%")}}, Returns: &refund.Rates{Returned: rate("4%"), Fees: rate("50%")}}, whole},
		{"refunds, returns and disputes", channel.Channel{Tax: inPrice, Returns: &refund.Rates{Returned: rate("4%"), Postage: amount("3"), Disputed: rate("0.2%"), Fee: amount("15")}}, whole},
		{"a commission given back", channel.Channel{Consignment: &channel.Consignment{Commission: someRate("40%")}, Returns: &refund.Rates{Returned: rate("4%")}}, whole},
		{"a commission as a mark-up", channel.Channel{Consignment: &channel.Consignment{OnMaker: someRate("50%")}}, whole},
		{"a discount that a shop gives", channel.Channel{Consignment: &channel.Consignment{Commission: someRate("40%"), Discount: channel.Reduction{Rate: rate("10%"), Share: someRate("30%"), Borne: channel.ByMaker}}}, whole},
		{"printed on demand, a share of the rest", channel.Channel{OnDemand: &channel.OnDemand{Pays: channel.ShareOfRest, Rate: rate("80%")}}, whole},

		{"prices that a till can take", channel.Channel{PricePoints: &channel.PricePoints{Step: amount("0.50")}}, whole},
		{"prices with an ending", channel.Channel{PricePoints: &channel.PricePoints{EndsIn: []quoin.Amount{amount("0.95"), amount("0.45")}}}, whole},
		{"a net price that stays", channel.Channel{Tax: channel.Tax{Rate: rate("18%"), InPrice: true, Constant: channel.Net}, Orders: []channel.Order{{TaxRate: someRate("6%")}}}, whole},

		{"a code for a rate", coded(promo.Offer{Rate: rate("15%"), From: amount("30"), Test: promo.Before}), whole},
		{"a code for an amount", coded(promo.Offer{Amount: amount("5.005")}), whole},
		{"a code for three for two", coded(promo.Offer{Buy: 3, Free: 1}), whole},
		{"a code for a sale price", coded(promo.Offer{Sale: quoin.Some(amount("9.995"))}), whole},
		{"a code for a set", coded(promo.Offer{Price: quoin.Some(amount("50")), Products: []string{"rail", "bittern"}}), whole},

		{"endings with a middle of half a cent", channel.Channel{TradeDiscount: []quoin.Rate{rate("50%")}, PricePoints: &channel.PricePoints{EndsIn: []quoin.Amount{amount("0.44"), amount("0.95")}}}, whole},
		{"a set with a sale price beside it", coded(promo.Offer{Price: quoin.Some(amount("50")), Sale: quoin.Some(amount("9")), Products: []string{"rail", "bittern"}}), whole},
		{"an expected fee over orders that come out even with its tax", channel.Channel{Orders: []channel.Order{{Items: 2}}, Fees: fees{{Rate: rate("3%"), Tax: rate("20%"), OrdersTogether: many("3"), Expected: true}}}, whole},
		{"an expected fee over many orders, its rate a quotient", channel.Channel{Fees: fees{{Rate: many("0.1").Over(many("3")).Rate(), Tax: rate("20%"), OrdersTogether: many("7"), Expected: true}}}, apart},
		{"the same with a fixed amount", channel.Channel{Fees: fees{{Rate: many("0.1").Over(many("3")).Rate(), Fixed: amount("1"), OrdersTogether: many("7"), Expected: true}}}, decimals},
		{"an expected fee of more places than fit", channel.Channel{Fees: fees{{Rate: rate("2.30%"), Tax: rate("0.0000000000000001"), Share: someRate("10.00%"), Expected: true}}}, apart},

		{"an expected fee of net shipping that holds no tax", channel.Channel{
			Tax: channel.Tax{InPrice: true}, Orders: []channel.Order{{Shipping: amount("4.50"), FreeFrom: quoin.Some(amount("20"))}}, Fees: fees{{Rate: rate("3%"), Of: parts{channel.Shipping}, WithoutTax: true, Expected: true}},
		}, whole},
		{"an expected fee of what comes off a tag with many places", channel.Channel{PricePoints: &channel.PricePoints{Step: amount("0.5000")}, Fees: fees{{Rate: rate("3%"), Of: parts{channel.Discount}, Expected: true}}}, whole},
		{"an ending above its modulus", channel.Channel{PricePoints: &channel.PricePoints{EndsIn: []quoin.Amount{amount("1.20")}}}, decimals},
		{"shipping finer than money", channel.Channel{Orders: []channel.Order{{Shipping: amount("4.505")}}}, decimals},
		{"a part that counts twice", channel.Channel{Fees: fees{{Rate: rate("3%"), Of: parts{channel.Items, channel.Items}}}}, decimals},
		{"other items in an order", besideFrame("40.00"), decimals},
		{"another currency", channel.Channel{ForeignCurrency: &channel.ForeignCurrency{Currency: quoin.MustCurrency("USD"), Rate: many("0.93")}}, whole},
	}
}

func TestWhatIsPlanned(t *testing.T) {
	for _, c := range plannedRows() {
		tm := c.c.For("rail").Terms(eur)
		for _, cents := range []int64{0, 50, 139, 999, 1000, 2400, 77_777} {
			if got := servedBy(tm, cents); got != c.want {
				t.Errorf("%s: at %d cents %s, want %s", c.what, cents, got, c.want)
			}
			price := quoin.AmountOf(cents, 2)
			if g, w := fmt.Sprint(tm.Proceeds(price)), fmt.Sprint(tm.Exactly(price)); g != w {
				t.Errorf("%s: at %s %s, exactly %s", c.what, price, g, w)
			}
		}
	}
}

// servedBy says what takings at a price in cents come from.
func servedBy(tm channel.Terms, cents int64) served {
	plan, planned := tm.Plan()
	if !planned {
		return decimals
	}
	if _, ok := plan.Sums(uint64(cents)); ok {
		return whole
	}
	if _, ok := tm.ByPlan(quoin.AmountOf(cents, 2)); ok {
		return apart
	}
	return decimals
}
