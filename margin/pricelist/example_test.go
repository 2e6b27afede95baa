package pricelist_test

import (
	"encoding/json"
	"errors"
	"fmt"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/cost"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

// The shop is that of an invented artist who sells linocuts of marsh birds; all
// fees, tax rates and prices are invented.

// A small print takes half a sheet of 60.00 ÷ 50 and 3 g of ink of 15.00 ÷ 75: 0.60
// + 0.60 = 1.20; a large one 2.40. The small one has to leave 9.30 after a fee of
// 7%: 11.00 leaves 11.00 − 0.77 − 1.20 = 9.03, and 11.50, the next in steps of 0.50,
// 11.50 − 0.81 − 1.20 = 9.49. The large one costs at least 1.6 times 11.50, 18.40,
// so 18.50; and since it ends at 60.00, the small one ends at 60.00 ÷ 1.6 = 37.50.
func Example() {
	document := []byte(`{
		"version": 1, "currency": "EUR", "price_step": "0.50", "price_limit": "60.00",
		"supplies": [
			{"id": "paper", "quantity": "50 sheet", "price": "52.00", "freight": "8.00"},
			{"id": "ink", "quantity": "75 g", "price": "15.00"}
		],
		"products": [
			{"id": "bittern-a5", "name": "Bittern, A5", "bill": [{"supply": "paper", "quantity": "0.5 sheet"}, {"supply": "ink", "quantity": "3 g"}]},
			{"id": "bittern-a4", "name": "Bittern, A4", "bill": [{"supply": "paper", "quantity": "1 sheet"}, {"supply": "ink", "quantity": "6 g"}]}
		],
		"channels": [{"id": "marketplace", "fees": [{"name": "commission", "rate": "7%"}]}],
		"rules": [
			{"id": "three and a half times cost", "rule": "cost_multiple", "at_least": "3.5"},
			{"id": "9.30 are left", "rule": "contribution", "at_least": "9.30"},
			{"id": "ladder", "rule": "size_ratio", "products": ["bittern-a5", "bittern-a4"], "at_least": "1.6"}
		]
	}`)
	answer, err := pricelist.Price(document)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range answer.Products {
		fmt.Printf("%s: %.2f, from %.2f to %.2f\n", p.Name, p.Price, p.Least, p.Greatest)
		why, _ := p.Lower.Why()
		for _, by := range why.By {
			fmt.Printf("  not %.2f: %q asks %s\n", why.Price, by.Rule, by.Asked.Round(2))
		}
		for _, sold := range p.Channels {
			fmt.Printf("  %s keeps %.2f\n", sold.ID, sold.Statement.Contribution)
		}
	}
	// Output:
	// Bittern, A5: 11.50, from 11.50 to 37.50
	//   not 11.00: "9.30 are left" asks 9.30
	//   marketplace keeps 9.49
	// Bittern, A4: 18.50, from 18.50 to 60.00
	//   not 18.00: "ladder" asks 18.40
	//   marketplace keeps 14.80
}

// exampleDocument is one print with goods of 4.00, which has to cost at least
// 3.5 times that.
func exampleDocument() pricelist.Document {
	return pricelist.Document{
		Version: pricelist.Version, Currency: quoin.MustCurrency("EUR"), PriceLimit: quoin.Some(quoin.MustAmount("40.00")),
		Supplies: []cost.Supply{{ID: "kit", Quantity: quoin.MustQuantity("10 kit"), Price: quoin.MustAmount("40.00")}},
		Products: []pricelist.Product{{ID: "bittern-a5", Bill: cost.Bill{{Supply: "kit", Quantity: quoin.MustQuantity("1 kit")}}}},
		Channels: []channel.Channel{{ID: "fair"}},
		Rules:    []rule.Rule{{ID: "three and a half times cost", Kind: rule.CostMultiple{AtLeast: quoin.MustFactor("3.5")}}},
	}
}

func ExampleDecide() {
	answer, err := pricelist.Decide(exampleDocument())
	if err != nil {
		fmt.Println(err)
		return
	}
	p := answer.Products[0]
	margin, _ := p.Channels[0].Statement.GrossMargin()
	fmt.Println(p.ID, p.Price, answer.Currency, margin.Round(1)) // 10.00 of 14.00 is gross
	// Output: bittern-a5 14.00 EUR 71.4%
}

// A price of 14.00 is 3.5 times the goods, and more than the market gives.
// Goods of 12.00 ÷ 3.5 = 3.42857 would do, so 3.42; or 12.00 ÷ 4.00 = 3 times the
// goods; or a market up to 14.00.
func ExampleAnswer_conflict() {
	doc := exampleDocument()
	doc.Rules = append(doc.Rules, rule.Rule{ID: "market", Kind: rule.Price{AtMost: quoin.Some(quoin.MustAmount("12.00"))}})
	answer, err := pricelist.Decide(doc)
	fmt.Println(answer.Conflict, len(answer.Products), err)
	for _, c := range answer.Clashes {
		fmt.Println(c.Rule, c.Least.Or(quoin.Amount{}), c.Greatest.Or(quoin.Amount{}))
	}
	for _, g := range answer.Gaps {
		fmt.Println(g.Product, g.Floor, g.Ceiling)
	}
	for _, r := range answer.Remedies {
		fmt.Println(r.Change, r.Name, r.From.Round(2), r.To.Round(2))
	}
	// Output:
	// [three and a half times cost market] 0 <nil>
	// three and a half times cost 14.00 40.00
	// market 0.01 12.00
	// bittern-a5 14.00 12.00
	// goods bittern-a5 4.00 3.42
	// rule three and a half times cost 3.5 3
	// rule market 12.00 14.00
}

// Everything wrong with a document is found at once.
func ExampleDecode() {
	_, err := pricelist.Decode([]byte(`{
  "version": 1, "currency": "EUR",
  "supplies": [{"id": "paper", "quantity": "50 sheet", "price": "62,00"}],
  "products": [{"id": "bittern-a5", "bill": [{"suply": "paper", "quantity": "1 sheet"}]}],
  "channels": [{"id": "fair", "fees": [{"rate": 7.4}]}]
}`))
	var found quoin.Problems
	if errors.As(err, &found) {
		for _, p := range found {
			fmt.Println(p.Line, p.Path, p.Code)
		}
	}
	// Output:
	// 3 supplies[0].price not_a_number
	// 4 products[0].bill[0].suply unknown_field
	// 4 products[0].bill[0].supply missing_field
	// 5 channels[0].fees[0].rate bare_percentage
}

func ExampleDocument_Check() {
	doc := exampleDocument()
	fmt.Println(doc.Check())
	doc.Products[0].Bill[0].Supply = "kti"
	doc.Channels[0].LostParcels = quoin.MustRate("100%")
	var found quoin.Problems
	if errors.As(doc.Check(), &found) {
		for _, p := range found {
			fmt.Printf("%s %s %q\n", p.Path, p.Code, p.Near)
		}
	}
	// Output:
	// <nil>
	// channels[0].lost_parcels out_of_range ""
	// products[0].bill[0].supply unknown_id "kit"
}

// Cents up to 40.00 are 4000 prices.
func ExampleDocument_Grid() {
	g, err := exampleDocument().Grid()
	fmt.Println(g.Len(), g.Step(), err)
	// Output: 4000 0.01 <nil>
}

// Whole prices from 14.00 to 16.00.
func ExampleAllowedPrices() {
	doc := exampleDocument()
	doc.Rules = append(doc.Rules,
		rule.Rule{ID: "whole", Kind: rule.Ending{EndsIn: []quoin.Amount{quoin.MustAmount("0")}}},
		rule.Rule{ID: "market", Kind: rule.Price{AtMost: quoin.Some(quoin.MustAmount("16.49"))}},
	)
	answer, err := pricelist.Decide(doc)
	if err != nil {
		fmt.Println(err)
		return
	}
	allowed := answer.Products[0].Allowed
	fmt.Println(allowed, allowed.Contains(quoin.MustAmount("15.50")))
	data, err := json.Marshal(allowed) // by itself; the JSON of an answer lists the runs
	fmt.Println(string(data), err)
	// Output:
	// {14.00 to 14.00, 15.00 to 15.00, 16.00 to 16.00} false
	// {"price_step":"0.01","price_limit":"40.00","between":[["14.00","16.00"]],"every":"1.00","ends_in":["0.00"]} <nil>
}

// A preference gives way where it would leave no price; a warning says what
// deserves a look. Shops that pay a quarter of 14.00, 3.50, pay less than the goods
// of 4.00, and the agent's tenth of it comes on top.
func ExampleAnswer() {
	doc := exampleDocument()
	doc.Channels = append(doc.Channels, channel.Channel{
		ID: "shops", TradeDiscount: []quoin.Rate{quoin.MustRate("75%")}, Fees: []channel.Fee{{Name: "agent", Rate: quoin.MustRate("10%")}},
	})
	doc.Rules = append(doc.Rules, rule.Rule{ID: "under ten", Strength: rule.Prefer, Kind: rule.Price{AtMost: quoin.Some(quoin.MustAmount("10.00"))}})
	answer, err := pricelist.Decide(doc)
	if err != nil {
		fmt.Println(err)
		return
	}
	fmt.Println(answer.Products[0].Price, answer.Dropped, answer.Emptied)
	for _, w := range answer.Warnings {
		fmt.Println(w.Severity, w.Code, w.Path)
	}
	// Output:
	// 14.00 [under ten] [bittern-a5]
	// warning no_working_time supplies
	// warning loses_money channels[1]
	// warning list_price_rule_only rules[0]
	// warning wholesale_below_goods channels[1].trade_discount
}

// Each line of a statement is the value of a step, and what it rests on can be
// listed: goods of 40.00 ÷ 10 = 4.00.
func ExampleChannelResult() {
	answer, err := pricelist.Decide(exampleDocument())
	if err != nil {
		fmt.Println(err)
		return
	}
	steps := answer.Products[0].Channels[0].Steps.Steps()
	unit := quoin.Find(steps, func(s quoin.Step) bool { return s.Code == cost.StepUnitCost })
	for _, n := range quoin.Ancestors(steps, unit...) {
		fmt.Println(steps[n-1].At, steps[n-1].Code, steps[n-1].Value.Round(2))
	}
	fmt.Println(quoin.Replay(steps))
	// Output:
	// supplies[0] landed_cost 40.00
	// supplies[0] unit_cost 4.00
	// <nil>
}

func ExampleCautions() {
	for _, c := range pricelist.Cautions() {
		fmt.Println(c)
	}
	// Output:
	// These are estimates from the figures in the document, and only as good as they are.
	// This is not tax, legal or accounting advice.
	// Fees, taxes and the law on resale prices differ by place and change; ask the authority or a licensed professional.
}
