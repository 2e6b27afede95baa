package pricelist_test

import (
	"fmt"
	"strconv"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/cost"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
	"example.com/quoin/waste"
)

// grown are the ways in which a shop grows. What a benchmark reports as ns/one stays
// or falls where the time grows in proportion, and rises where it grows faster.
var grown = []struct {
	name string
	shop func(n int) pricelist.Document
}{
	{"products", withProducts},
	{"ladder", withLadder},
	{"channels", withChannels},
	{"kinds", withKinds},
	{"thresholds", withThresholds},
	{"fees", withFees},
	{"bounds", withBounds},
	{"rules", withRules},
	{"rules of few", withRulesOfFew},
	{"nearest", withNearest},
	{"conflict", withConflict},
	{"comparables", withComparables},
	{"ranges", withRanges},
	{"price points", withPricePoints},
	{"sets", withSets},
}

// BenchmarkGrowth decides a shop that is grown in one way at a time, to ten and to a
// hundred. What deciding costs however small the shop is weighs most on ns/one of 1;
// so hold 100 against 10.
func BenchmarkGrowth(b *testing.B) {
	for _, way := range grown {
		for _, n := range []int{1, 10, 100} {
			doc := way.shop(n)
			b.Run(way.name+"/"+strconv.Itoa(n), func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					mustDecide(b, doc, way.name == "conflict")
				}
				b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N)/float64(n), "ns/one")
			})
		}
	}
}

// mustDecide decides a shop that has a conflict, or has none, or growth would be
// measured of something else.
func mustDecide(b *testing.B, doc pricelist.Document, conflict bool) {
	b.Helper()
	answer, err := pricelist.Decide(doc)
	if err != nil || len(answer.Conflict) > 0 != conflict {
		b.Fatal(err, answer.Conflict)
	}
}

// grownShop is what everything is grown from: an invented artist who sells one
// linocut of a marsh bird by post. All figures are invented.
func grownShop() pricelist.Document {
	return pricelist.Document{
		Version: pricelist.Version, Currency: quoin.MustCurrency("EUR"), PriceLimit: quoin.Some(quoin.MustAmount("200.00")),
		Supplies: []cost.Supply{
			{ID: "paper", Quantity: quoin.MustQuantity("50 sheet"), Price: quoin.MustAmount("64.00"), Freight: quoin.MustAmount("7.50")},
			{ID: "ink", Quantity: quoin.MustQuantity("75 g"), Price: quoin.MustAmount("13.80")},
			{ID: "mailer", Quantity: quoin.MustQuantity("20 mailer"), Price: quoin.MustAmount("17.00")},
		},
		Stages:   []waste.Stage{{ID: "print", Yield: quoin.MustRate("90%")}},
		Products: []pricelist.Product{grownPrint(0)},
		Channels: []channel.Channel{grownChannel(0)},
		Rules:    []rule.Rule{grownRule(0), grownRule(1), grownRule(2), grownRule(3)},
	}
}

// grownPrint is a print that takes a little more paper than the one before.
func grownPrint(i int) pricelist.Product {
	return pricelist.Product{
		ID: fmt.Sprintf("bittern-%d", i+1), Price: quoin.Some(quoin.AmountOf(1900+int64(50*i), 2)),
		Bill: cost.Bill{
			{Supply: "paper", Quantity: quoin.MustQuantity(fmt.Sprintf("%.2f sheet", 0.5+float64(i)/100)), Stage: "print"},
			{Supply: "ink", Quantity: quoin.MustQuantity("3 g"), Stage: "print"},
		},
		Packing: map[string]cost.Bill{"post": {{Supply: "mailer", Quantity: quoin.MustQuantity("1 mailer"), Per: cost.EachOrder}}},
		Run:     cost.Run{Good: 40, Tests: 2, Setup: quoin.MustAmount("6.00")},
	}
}

// grownChannel is a shop by post whose shipping is dearer than that of the one
// before.
func grownChannel(i int) channel.Channel {
	return channel.Channel{
		ID: fmt.Sprintf("post-%d", i+1), Packing: "post", LostParcels: quoin.MustRate("1%"),
		Tax:    channel.Tax{Rate: quoin.MustRate("20%"), InPrice: true, OnShipping: true},
		Orders: []channel.Order{grownOrder(i, "100%")},
		Fees: []channel.Fee{
			{Name: "selling", Rate: quoin.MustRate("6%")},
			{Name: "payment", Rate: quoin.MustRate("2%"), Of: []channel.Part{channel.Items, channel.Shipping}, Fixed: quoin.MustAmount("0.15")},
		},
	}
}

// grownOrder is a kind of order whose postage is a cent dearer than that of the
// one before, and free from the same amount on.
func grownOrder(i int, share string) channel.Order {
	return channel.Order{
		ID: fmt.Sprintf("kind-%d", i+1), Share: quoin.Some(quoin.MustRate(share)), Items: 1 + int64(i%3),
		Shipping: quoin.AmountOf(420+int64(i), 2), Postage: quoin.AmountOf(380+int64(i), 2), FreeFrom: quoin.Some(quoin.MustAmount("90.00")),
	}
}

// grownRule is one of four kinds of rule, in turn, that asks a little more than
// the one of its kind before, or allows a third ending that no other allows.
func grownRule(i int) rule.Rule {
	more := int64(i / 4)
	r := rule.Rule{ID: fmt.Sprintf("rule-%d", i+1)}
	switch i % 4 {
	case 0:
		r.Kind = rule.NetMargin{AtLeast: quoin.MustRate(fmt.Sprintf("%d%%", 20+more))}
	case 1:
		r.Kind = rule.Contribution{AtLeast: quoin.AmountOf(800+2*more, 2)}
	case 2:
		r.Kind = rule.Price{AtLeast: quoin.Some(quoin.AmountOf(1400+more, 2))}
	default:
		r.Kind = rule.Ending{EndsIn: []quoin.Amount{quoin.AmountOf(0, 2), quoin.AmountOf(50, 2), quoin.AmountOf(1+more, 2)}}
	}
	return r
}

// times is what one makes of each of the first n numbers.
func times[T any](n int, one func(i int) T) []T {
	out := make([]T, n)
	for i := range out {
		out[i] = one(i)
	}
	return out
}

func withProducts(n int) pricelist.Document {
	doc := grownShop()
	doc.Products = times(n, grownPrint)
	return doc
}

// withLadder lets no print cost less than the one before it: one rule that ties
// all of them together.
func withLadder(n int) pricelist.Document {
	doc := withProducts(n)
	ladder := rule.Rule{ID: "ladder", Kind: rule.SizeRatio{AtLeast: quoin.Some(quoin.FactorOf(1))}}
	for _, p := range doc.Products {
		ladder.Products = append(ladder.Products, p.ID)
	}
	if n > 1 {
		doc.Rules = append(doc.Rules, ladder)
	}
	return doc
}

func withChannels(n int) pricelist.Document {
	doc := grownShop()
	doc.Channels = times(n, grownChannel)
	return doc
}

// withKinds splits the orders into kinds with shares of the same size, so n is a
// divisor of 100.
func withKinds(n int) pricelist.Document {
	doc := grownShop()
	share := fmt.Sprintf("%d%%", 100/n)
	doc.Channels[0].Orders = times(n, func(i int) channel.Order { return grownOrder(i, share) })
	return doc
}

// withThresholds is withKinds with postage free from another amount on for each
// kind: prices break into as many pieces as there are kinds.
func withThresholds(n int) pricelist.Document {
	doc := withKinds(n)
	for i := range doc.Channels[0].Orders {
		o := &doc.Channels[0].Orders[i]
		o.FreeFrom = quoin.Some(quoin.AmountOf((60+int64(i))*o.Items, 0))
	}
	return doc
}

// withFees takes a tenth of the price in n fees, and a cent of an order with each;
// n is a divisor of 100.
func withFees(n int) pricelist.Document {
	doc := grownShop()
	rate := quoin.FactorOf(1).Over(quoin.FactorOf(10 * int64(n))).Rate()
	doc.Channels[0].Fees = times(n, func(i int) channel.Fee {
		return channel.Fee{Name: fmt.Sprintf("fee-%d", i+1), Rate: rate, Fixed: quoin.MustAmount("0.01")}
	})
	return doc
}

// withBounds is withFees with a least amount for each fee that it comes up to at
// another price: prices break into as many pieces as there are fees.
func withBounds(n int) pricelist.Document {
	doc := withFees(n)
	for i := range doc.Channels[0].Fees {
		f := &doc.Channels[0].Fees[i]
		f.AtLeast = quoin.AmountOf(20+int64(i), 0).Part(f.Rate).Add(f.Fixed)
	}
	return doc
}

func withRules(n int) pricelist.Document {
	doc := grownShop()
	doc.Rules = times(n, grownRule)
	return doc
}

// withRulesOfFew has rules for four each of a hundred products.
func withRulesOfFew(n int) pricelist.Document {
	doc := withProducts(100)
	doc.Rules = times(n, func(i int) rule.Rule {
		r := grownRule(i % 3)
		r.ID = fmt.Sprintf("few-%d", i+1)
		for j := range 4 {
			r.Products = append(r.Products, doc.Products[(i+25*j)%100].ID)
		}
		return r
	})
	return doc
}

// withNearest is withLadder where each print stays as near as it can to what it costs
// today.
func withNearest(n int) pricelist.Document {
	doc := withLadder(n)
	doc.Choose = rule.Nearest
	return doc
}

// withConflict asks endings of all prints of which any two rules can hold together and
// three cannot, behind a hundred floors that have no part in it.
func withConflict(n int) pricelist.Document {
	doc := withProducts(n)
	doc.Rules = times(100, func(i int) rule.Rule {
		return rule.Rule{ID: fmt.Sprintf("floor-%d", i+1), Kind: rule.Price{AtLeast: quoin.Some(quoin.AmountOf(1000+int64(i), 2))}}
	})
	for i, of := range [][]quoin.Amount{
		{quoin.AmountOf(0, 2), quoin.AmountOf(50, 2)}, {quoin.AmountOf(50, 2), quoin.AmountOf(75, 2)}, {quoin.AmountOf(0, 2), quoin.AmountOf(75, 2)},
	} {
		doc.Rules = append(doc.Rules, rule.Rule{ID: fmt.Sprintf("ending-%d", i+1), Kind: rule.Ending{EndsIn: of}})
	}
	return doc
}

// withComparables holds the print between what others of three venues sell for.
func withComparables(n int) pricelist.Document {
	doc := grownShop()
	doc.Comparables = times(n, func(i int) comparables.Record {
		return comparables.Record{
			Product: "bittern-1", Venue: fmt.Sprintf("venue-%d", i%3+1), Seller: fmt.Sprintf("seller-%d", i%7+1),
			Price: quoin.AmountOf(1700+int64(i*37%4000), 2), Sold: 1 + int64(i%5),
		}
	})
	market := rule.Market{FromQuantile: quoin.MustRate("10%"), ToQuantile: quoin.MustRate("90%"), MinSales: quoin.Some(int64(1)), MinVenues: quoin.Some(int64(1))}
	doc.Rules = append(doc.Rules, rule.Rule{ID: "market", Kind: market, Strength: rule.Prefer})
	return doc
}

// withRanges is withProducts where each print has a supply of its own, whose price lies in a range.
func withRanges(n int) pricelist.Document {
	doc := withProducts(n)
	for i := range doc.Products {
		id := fmt.Sprintf("varnish-%d", i+1)
		doc.Supplies = append(doc.Supplies, cost.Supply{
			ID: id, Quantity: quoin.MustQuantity("100 ml"), Price: quoin.MustAmount("20.00"),
			PriceRange: quoin.Between(quoin.MustAmount("18.00"), quoin.MustAmount("23.00")),
		})
		doc.Products[i].Bill = append(doc.Products[i].Bill, cost.BillLine{Supply: id, Quantity: quoin.MustQuantity("2 ml")})
	}
	return doc
}

// withPricePoints is withChannels where buyers see prices of two endings in each.
func withPricePoints(n int) pricelist.Document {
	doc := withChannels(n)
	for i := range doc.Channels {
		doc.Channels[i].PricePoints = &channel.PricePoints{EndsIn: []quoin.Amount{quoin.AmountOf(45, 2), quoin.AmountOf(95, 2)}}
	}
	return doc
}

// withSets sells each print of withProducts in a set with a first one.
func withSets(n int) pricelist.Document {
	doc := withProducts(n + 1)
	doc.Sets = times(n, func(i int) pricelist.Set {
		return pricelist.Set{ID: fmt.Sprintf("pair-%d", i+1), Channel: "post-1", Products: []string{"bittern-1", doc.Products[i+1].ID}}
	})
	return doc
}
