package pricelist_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// outcome is what becomes of a trap: the library says so, refuses the document, or computes it
// right where a spreadsheet would not.
type outcome struct {
	said, refused quoin.Code
	figures       string
}

// printAlone is a print whose goods cost 10.00, sold without anything else.
func printAlone(channel, rules string) string {
	return fmt.Sprintf(`{
		"version": 1, "currency": "EUR", "choose": "least", "price_limit": "200.00",
		"supplies": [{"id": "all", "quantity": "1 set", "price": "10.00"}],
		"products": [{"id": "heron", "bill": [{"supply": "all", "quantity": "1 set"}]}],
		"channels": [{"id": "door"%s}],
		"rules": [%s]
	}`, channel, rules)
}

// The traps of the trade, each with a document that walks into it. What is said was worked out by
// hand beside each; the sound shop is worked out beside soundShop.
func TestTrapsOfTheTrade(t *testing.T) {
	sound := func(edits ...string) string { return soundShop(t, edits...) }
	for _, c := range []struct {
		trap string
		doc  string
		outcome
	}{
		// 40% of the price is 10.00 ÷ 0.6 = 16.666…; 10.00 × 1.4 would leave 28.6%.
		{
			"cost is multiplied by 1 + margin, where it is divided by 1 − margin",
			printAlone(``, `{"id": "40%", "rule": "gross_margin", "at_least": "40%"}`),
			outcome{figures: "price 16.67, gross 6.67"},
		},
		// Half of the cost added is a third of the price.
		{"a mark-up is taken for a margin", printAlone(``, `{"id": "half on top", "rule": "cost_multiple", "at_least": "1.5"}`), outcome{figures: "price 15.00, gross 5.00"}},
		// (10.00 + 9.00) ÷ 0.9 = 21.11; with the fee on top it would be 19.00 × 1.1 = 20.90.
		{
			"a fee is added on top of what is to stay", printAlone(`, "fees": [{"name": "commission", "rate": "10%"}]`, `{"id": "nine", "rule": "contribution", "at_least": "9.00"}`),
			outcome{figures: "price 21.11, fees 2.11"},
		},
		// 24.00 with 20% in it holds 4.00 of tax.
		{
			"the tax inside a price is forgotten", printAlone(`, "tax": {"rate": "20%", "in_price": true}`, `{"id": "ten", "rule": "contribution", "at_least": "10.00"}`),
			outcome{figures: "price 24.00, revenue 20.00, tax 4.00"},
		},
		// 20.00 a month over 40 orders.
		{
			"a subscription is charged to one order, or to none", printAlone(`, "fees": [{"name": "subscription", "fixed": "20.00", "orders_together": "40"}]`, `{"id": "cap", "rule": "price", "at_least": "20.00"}`),
			outcome{figures: "price 20.00, fees 0.50"},
		},
		// 4% of 25.00 is 1.00 of refunds; 6.00 to send it back is 0.24.
		{
			"returns are forgotten", printAlone(`, "returns": {"returned": "4%", "postage": "6.00"}`, `{"id": "25", "rule": "price", "at_least": "25.00"}`),
			outcome{figures: "price 25.00, fees 1.24"},
		},
		// Of 14 tubes at 3.39, 47.46; of 15 at 2.44, 36.60: 2.44 each and 7.56 for the rest.
		{"fewer are bought than the next price break", strings.Replace(printAlone(``, `{"id": "ten", "rule": "contribution", "at_least": "10.00"}`), `{"id": "all", "quantity": "1 set", "price": "10.00"}`,
			`{"id": "all", "offer": {"pack": "1 set", "need": 14, "scale": {"steps": [{"from": 1, "each": "3.39"}, {"from": 15, "each": "2.44"}]}}}`, 1), outcome{figures: "price 12.44, goods 2.44"}},
		// 0.5 sheet of 1.60 at a yield of 80% is 1.00; a mark-up of 20% would make it 0.96. And the sleeve.
		{"spoiled prints are a mark-up and no yield", sound(), outcome{figures: "price 24.00, goods 4.65"}},
		// 15% ÷ 115%.
		{
			"the contingency stands for spoiled prints", sound(`"stages": [{"id": "pull", "yield": "80%"}]`, `"stages": [{"id": "pull"}], "contingency": "15%"`),
			outcome{said: pricelist.ContingencyAsLoss, figures: "contingency 15%, covers 13.04%"},
		},
		{
			"what is paid for a parcel is charged to each print", sound(`"quantity": "1 piece", "per": "order"`, `"quantity": "1 piece"`),
			outcome{said: pricelist.OrderCostPerItem, figures: "supply mailer, items 3, each 0.80, all 2.40"},
		},
		{"a card's fee is taken of the items alone", sound(`"of": ["items", "shipping"], `, ``), outcome{said: pricelist.FeeOmitsShipping, figures: "fee card payment, channel web, shipping 5.00, short 0.10"}},
		{"a card's fee leaves out the tax on top", sound(`"in_price": true, `, ``), outcome{said: pricelist.FeeOmitsTax, figures: "fee card payment, channel web"}},
		// 23.99 + 5.00 is 28.99: less 4.83 of tax, 0.78 of card, 5.00 of postage and 4.92 of goods it keeps
		// 13.46. The same 28.99 is paid at a price of 28.99 without shipping.
		{"a higher price earns less behind free postage", sound(oneOrder, `{"shipping": "5.00", "free_from": "24.00", "postage": "5.00"}`, `,
        `+threeOrder, ``), outcome{said: pricelist.InDeadZone, figures: "product heron-a4, channel web, price 24.00, better 23.99, keeps 13.46, again 28.99"}},
		{
			"free postage is absorbed", sound(threeOrder, `{"share": "25%", "items": 3, "shipping": "5.00", "free_from": "70.00", "postage": "6.00"}`),
			outcome{said: pricelist.PostageFree, figures: "channel web, product heron-a4, products 2, from 70.00, paid 6.00, each 2.00"},
		},
		{
			"buyers pay a part of the postage", sound(oneOrder, `{"share": "75%", "items": 1, "shipping": "3.60", "postage": "5.00"}`),
			outcome{said: pricelist.PostageShort, figures: "channel web, order 0, charged 3.60, paid 5.00, kept 3.00, short 2.00, enough 6.00"},
		},
		// 5.00 with 20% in it is 4.17.
		{
			"the tax in shipping pays no postage", sound(oneOrder, `{"share": "75%", "items": 1, "shipping": "5.00", "postage": "5.00"}`),
			outcome{said: pricelist.PostageShort, figures: "channel web, order 0, charged 5.00, paid 5.00, kept 4.17, short 0.83, enough 6.00"},
		},
		// 24.00 at a fifth is 4.80, 4.00 without tax; goods without packing are 4.00, plus 0.10.
		{
			"a trade discount goes below cost", sound(theOnly, theOnly+`{"id": "shops", "trade_discount": ["80%"], "lost_parcels": "20%", "tax": {"rate": "20%", "in_price": true}},`, `"at_least": "8.00"`, `"at_least": "8.00", "channels": ["web"]`),
			outcome{said: pricelist.WholesaleBelow, figures: "product heron-a4, channel shops, price 24.00, revenue 4.00, goods 5.00"},
		},
		{"own time is unpaid", sound(`, "labour": "own"`, ``), outcome{said: pricelist.NoWorkingTime, figures: "products 2, contribution 14.78"}},
		{"a fair's stand is in its prints", sound(theOnly, theOnly+`{"id": "fair", "fixed_cost": {"cost": "220.00", "items": "60"}},`), outcome{said: pricelist.FairInPrint, figures: "channel fair, cost 220.00, each 3.67"}},
		{
			"the shop's own year is in no price", sound(`"overhead": {"cost": "600.00", "items": "300"},`, ``, cardFee+`]`, cardFee+`], "fixed_cost": {"cost": "30.00", "items": "20"}`),
			outcome{said: pricelist.NoOverhead, figures: "channel web, known 30.00"},
		},
		{"the larger size keeps less", sound(`"36.00"`, `"25.00"`), outcome{said: pricelist.LargerKeepsLess, figures: "channel web, larger heron-a3, keeps 13.09, smaller heron-a4, smaller_keeps 14.78"}},
		{
			"a price goes down unnoticed", sound(theRules, theRules+`{"id": "cap", "rule": "price", "at_most": "20.00", "products": ["heron-a4"]}, `),
			outcome{said: pricelist.PriceBelowToday, figures: "product heron-a4, price 20.00, today 24.00, less 4.00, share 16.7%, rule cap"},
		},
		{
			"an edition of 50 is ordered with a tolerance", sound(theA4, theA4+` "quotes": [{"id": "house", "over_delivery": "10%", "scale": {"steps": [{"from": 1, "each": "3.00"}]}}],`,
				`"overhead"`, `"editions": [{"id": "heron", "products": ["heron-a4"], "size": 50, "sold": 0, "per_month": "4"}], "overhead"`),
			outcome{said: pricelist.ToleranceOverEdition, figures: "product heron-a4, quote house, edition heron, size 50, least 50, most 55"},
		},
		{
			"ink is counted without cleaning", sound(`"supplies": [`, `"supplies": [{"id": "ink", "quantity": "80 ml", "price": "40.00"},`, theTime, theTime+`, {"supply": "ink", "ink": {"image": "A4", "per_m2": "12 ml"}}`),
			outcome{said: pricelist.InkWithoutUpkeep, figures: "supply ink, per_m2 12 ml"},
		},
		{
			"ink is counted by pages of text", sound(`"supplies": [`, `"supplies": [{"id": "ink", "quantity": "80 ml", "price": "40.00"},`, theTime, theTime+`, {"supply": "ink", "ink": {"image": "A4", "rated_pages": 4500}}`),
			outcome{refused: "rated_page_yield"},
		},
		{"7.4% is written as 7.4", sound(`"rate": "2%"`, `"rate": "7.4"`), outcome{refused: quoin.BarePercentage}},
		{"0.5% is written as 0.5", sound(`"rate": "2%"`, `"rate": "0.5"`), outcome{said: pricelist.RateMistyped, figures: "rate 50%, meant 0.5%"}},
		{
			"paying early is cheap", sound(theOnly, theOnly+`{"id": "shops", "trade_discount": ["50%"], "trade": {"credit": {"days": 30, "early": "2%", "early_days": 10}}},`),
			outcome{said: pricelist.CollectsLater, figures: "channel shops, early 2.00, of 100.00, days 20, yearly 37.24%"},
		},
		{
			"a multiple of cost is enough", sound(theOnly, theOnly+`{"id": "shops", "trade_discount": ["90%"], "tax": {"rate": "20%", "in_price": true}},`, `"at_least": "8.00"`, `"at_least": "8.00", "channels": ["web"]`, theRules, theRules+`{"id": "three times", "rule": "cost_multiple", "at_least": "3"}, `),
			outcome{said: pricelist.ListPriceRuleOnly, figures: "rule three times, product heron-a4, channel shops, price 24.00, loss 2.00"},
		},
		{
			"asking prices are taken for sales", sound(theRules, `"comparables": [{"product": "heron-a4", "venue": "harbour", "price": "24.00", "sold": 3}, {"product": "heron-a4", "venue": "harbour", "price": "240.00"}], `+theRules+`{"id": "others", "rule": "market", "from_quantile": "10%", "to_quantile": "90%"}, `),
			outcome{said: pricelist.UnsoldLeftOut, figures: "product heron-a4, rule others, left_out 1"},
		},
	} {
		if got := becomes(t, c.doc, c.outcome); got != c.outcome {
			t.Errorf("%s: %+v, want %+v", c.trap, got, c.outcome)
		}
	}
}

// becomes is what becomes of a document, with the figures that are asked for.
func becomes(t *testing.T, doc string, asked outcome) outcome {
	t.Helper()
	a, err := pricelist.Price([]byte(doc))
	var ps quoin.Problems
	switch {
	case errors.As(err, &ps) && len(ps) == 1:
		return outcome{refused: ps[0].Code}
	case err != nil:
		t.Fatalf("%v\n%s", err, doc)
	case asked.said != "":
		figures, found := toldBy(t, doc, asked.said)
		if !found {
			return outcome{figures: a.Warnings.Error()}
		}
		return outcome{said: asked.said, figures: figures}
	}
	s := a.Products[0].Channels[0].Statement
	lines := map[string]quoin.Amount{"price": a.Products[0].Price, "revenue": s.Revenue, "tax": s.Tax, "goods": s.Goods, "gross": s.Gross, "fees": s.Fees}
	var figures []string
	for _, f := range strings.Split(asked.figures, ", ") {
		name, _, _ := strings.Cut(f, " ")
		figures = append(figures, name+" "+lines[name].Round(2, quoin.HalfUp).String())
	}
	return outcome{figures: strings.Join(figures, ", ")}
}
