package review_test

import (
	"fmt"
	"maps"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/cost"
	"example.com/quoin/cost/machine"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/review"
	"example.com/quoin/margin/rule"
)

// shop draws a shop whose products use some supplies each, some of them based on others, and whose rules speak of
// some products, of designs, or of all.
func shop(t *rapid.T) pricelist.Document {
	cents := func(what string, least, most int64) quoin.Amount {
		return quoin.AmountOf(rapid.Int64Range(least, most).Draw(t, what), 2)
	}
	doc := pricelist.Document{Version: 1, Currency: quoin.MustCurrency("EUR"), PriceLimit: quoin.Some(quoin.AmountOf(900, 0))}
	for i := range 4 {
		doc.Supplies = append(doc.Supplies, cost.Supply{ID: fmt.Sprint("s", i), Quantity: quoin.MustQuantity("7 piece"), Price: cents("price", 1, 3000)})
	}
	doc.Machines = []machine.Machine{{ID: "printer", Unit: "print", Price: cents("machine", 10000, 90000), LifeMonths: 48, PrintsPerMonth: quoin.FactorOf(20)}}
	for i := range 5 {
		p := pricelist.Product{ID: fmt.Sprint("p", i), Design: rapid.SampledFrom([]string{"", "heron", "egret"}).Draw(t, "design")}
		if i > 0 && rapid.IntRange(0, 3).Draw(t, "based") == 0 {
			p.Extends = fmt.Sprint("p", rapid.IntRange(0, i-1).Draw(t, "base"))
		}
		for s := range 4 {
			if rapid.Bool().Draw(t, "uses") {
				p.Bill = append(p.Bill, cost.BillLine{Supply: fmt.Sprint("s", s), Quantity: quoin.MustQuantity("3 piece")})
			}
		}
		if rapid.Bool().Draw(t, "printed") {
			p.Bill = append(p.Bill, cost.BillLine{Supply: "printer", Quantity: quoin.MustQuantity("1 print")})
		}
		doc.Products = append(doc.Products, p)
	}
	for i := range 2 {
		doc.Channels = append(doc.Channels, channel.Channel{ID: fmt.Sprint("c", i), Fees: []channel.Fee{{Name: "fee", Rate: quoin.MustRate("12%"), Fixed: cents("fixed", 0, 100)}}})
	}
	doc.Rules = []rule.Rule{{ID: "keeps", Kind: rule.Contribution{AtLeast: cents("keeps", 0, 2000)}}}
	if rapid.Bool().Draw(t, "some") {
		doc.Rules = append(doc.Rules, rule.Rule{ID: "some", Products: []string{"p1", "p3"}, Kind: rule.CostMultiple{AtLeast: quoin.FactorOf(3)}})
	}
	if slices.ContainsFunc(doc.Products, func(p pricelist.Product) bool { return p.Design == "heron" }) && rapid.Bool().Draw(t, "herons") {
		doc.Rules = append(doc.Rules, rule.Rule{ID: "herons", Designs: []string{"heron"}, Kind: rule.GrossMargin{AtLeast: quoin.MustRate("60%")}})
	}
	if rapid.IntRange(0, 4).Draw(t, "tight") == 0 { // which some product may not be able to keep
		doc.Rules = append(doc.Rules, rule.Rule{ID: "tight", Kind: rule.NetMargin{AtLeast: quoin.MustRate("85%")}})
	}
	return doc
}

// changed draws the same shop a year later.
func changed(t *rapid.T, doc pricelist.Document) pricelist.Document {
	doc.Supplies, doc.Products, doc.Machines = slices.Clone(doc.Supplies), slices.Clone(doc.Products), slices.Clone(doc.Machines)
	for range rapid.IntRange(1, 4).Draw(t, "changes") {
		i, s := rapid.IntRange(0, len(doc.Products)-1).Draw(t, "product"), rapid.IntRange(0, 3).Draw(t, "supply")
		switch rapid.IntRange(0, 6).Draw(t, "change") {
		case 0, 1:
			doc.Supplies[s].Price = doc.Supplies[s].Price.Times(quoin.MustFactor("1.3"))
		case 2:
			doc.Machines[0].Price = quoin.MustAmount("555.00")
		case 3:
			doc.Products[i].Bill = append(slices.Clone(doc.Products[i].Bill), cost.BillLine{Supply: fmt.Sprint("s", s), Per: "run", Quantity: quoin.MustQuantity("2 piece")})
			doc.Products[i].Run = cost.Run{Good: 10}
		case 4:
			doc.Products = append(doc.Products, pricelist.Product{ID: fmt.Sprint("new", len(doc.Products)), Extends: doc.Products[i].ID})
		case 5:
			doc.Products[i].Design = "heron"
		case 6:
			if last := len(doc.Products) - 1; last > 4 {
				doc.Products = doc.Products[:last]
			}
		}
	}
	return doc
}

// What is decided of the products that a change can move, and left as it was of the others, is what the whole
// document decides.
func TestChangesMoveWhatTheyReach(t *testing.T) {
	t.Parallel()
	drawn, reached, stood := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		last := shop(t)
		now := changed(t, last)
		if last.Check() != nil || now.Check() != nil {
			t.Skip("not sound")
		}
		some, whole, err := review.Mixtures(last, now)
		if err != nil {
			t.Fatal(err)
		}
		drawn, reached = drawn+len(whole)/2, reached+review.Reached(last, now)
		for i := range whole {
			if !maps.Equal(some[i], whole[i]) {
				t.Fatalf("mixture %d: %v, decided whole %v", i, some[i], whole[i])
			}
			if _, fails := whole[i][""]; !fails {
				stood++
			}
		}
	})
	if 2*reached < drawn || stood == 0 {
		t.Errorf("of %d changes %d reach some products alone, and %d mixtures stand", drawn, reached, stood)
	}
}
