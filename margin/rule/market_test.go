package rule_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/rule"
	"pgregory.net/rapid"
)

// All venues, sellers and prices are invented, and every wanted value is worked
// out by hand.

func sold(venue, seller, price string) comparables.Record {
	return comparables.Record{Venue: venue, Seller: seller, Price: quoin.MustAmount(price), Sold: 1}
}

// At the harbour one seller has 10 and 20, another 30; on the reed shelf somebody
// has 40. Seller by seller they weigh 1/4, 1/4, 1/2 and 1 of 2, so they stand at
// 1/16, 3/16, 3/8 and 3/4: half way between two of these lie 9/32 = 28.125% and
// 9/16 = 56.25%. Venue by venue they weigh 1/3, 1/3, 1/3 and 1, and stand at 1/12,
// 1/4, 5/12 and 3/4: there 9/32 is 3/16 of the way from 20 to 30, and 9/16 is 7/16
// of the way from 30 to 40.
func TestMarketBySeller(t *testing.T) {
	two := []comparables.Record{
		sold("harbour", "ada", "10"), sold("harbour", "ada", "20"), sold("harbour", "ben", "30"), sold("reed shelf", "", "40"),
	}
	// Both without a name are one seller: 1/2, 1/4, 1/4 at 1/4, 5/8 and 7/8.
	unnamed := []comparables.Record{sold("harbour", "ada", "10"), sold("harbour", "", "20"), sold("harbour", "", "30")}
	// A seller in two venues is one in each: 1, 1/2, 1/2 of 2 at 1/4, 5/8, 7/8.
	both := []comparables.Record{sold("harbour", "ada", "10"), sold("reed shelf", "ada", "20"), sold("reed shelf", "ben", "30")}
	for _, c := range []struct {
		what     string
		of       []comparables.Record
		bySeller bool
		from, to string // shares
		least    string
		greatest string
	}{
		{"by seller", two, true, "28.125%", "56.25%", "25", "35"},
		{"by venue", two, false, "28.125%", "56.25%", "21.875", "34.375"},
		{"by seller, the ends", two, true, "0%", "100%", "10", "40"},
		{"by seller, at positions", two, true, "6.25%", "37.5%", "10", "30"},
		{"sellers without a name", unnamed, true, "43.75%", "75%", "15", "25"},
		{"a seller in two venues", both, true, "43.75%", "75%", "15", "25"},
	} {
		k := rule.Market{FromQuantile: quoin.MustRate(c.from), ToQuantile: quoin.MustRate(c.to), BySeller: c.bySeller, MinSales: quoin.Some[int64](1), MinVenues: quoin.Some[int64](1)}
		from, to, ok := k.RangeOf(rule.Item{Comparables: c.of})
		if !ok || !from.Equal(quoin.MustAmount(c.least)) || !to.Equal(quoin.MustAmount(c.greatest)) {
			t.Errorf("%s: %s to %s, %t, want %s to %s", c.what, from, to, ok, c.least, c.greatest)
		}
	}
}

func amount(s string) quoin.Amount { return quoin.MustAmount(s) }

func worth(s string) quoin.Optional[quoin.Amount] { return quoin.Some(quoin.MustAmount(s)) }

// Below five sales from two venues the rule is silent; what did not sell, or cannot
// be brought to the basis, is none of the five.
func TestMarketIsSilent(t *testing.T) {
	k := rule.Market{FromQuantile: quoin.MustRate("0%"), ToQuantile: quoin.MustRate("100%"), Basis: &comparables.Basis{}}
	one, other := sold("harbour", "", "20"), sold("reed shelf", "", "30")
	asked, framed := one, other
	asked.Sold, framed.Framed = 0, true
	for _, c := range []struct {
		what    string
		of      []comparables.Record
		speaks  bool
		counts  int
		unsold  int
		leftOut int
	}{
		{"nothing", nil, false, 0, 0, 0},
		{"five from two", []comparables.Record{one, one, one, one, other}, true, 5, 0, 0},
		{"five from one", []comparables.Record{one, one, one, one, one}, false, 5, 0, 0},
		{"four from two", []comparables.Record{one, one, other, other}, false, 4, 0, 0},
		{"a fifth that did not sell", []comparables.Record{one, one, other, other, asked}, false, 4, 1, 0},
		{"a fifth with a frame", []comparables.Record{one, one, other, other, framed}, false, 4, 0, 1},
		{"a second venue with a frame", []comparables.Record{one, one, one, one, one, framed, asked}, false, 5, 1, 1},
		{"both beside enough", []comparables.Record{framed, one, one, asked, one, other, other}, true, 5, 1, 1},
	} {
		it := rule.NewItem("bittern-a4", exampleGrid())
		it.Comparables = c.of
		from, to, ok := k.RangeOf(it)
		if ok != c.speaks || ok && (!from.Equal(one.Price) || !to.Equal(other.Price)) {
			t.Errorf("%s: %s to %s, %t", c.what, from, to, ok)
		}
		dec, err := rule.Decide([]rule.Item{it}, []rule.Rule{{ID: "market", Kind: k}}, "")
		if of := dec.Compared(0, 0); err != nil || of.Counting != c.counts || of.Unsold != c.unsold || of.LeftOut != c.leftOut {
			t.Errorf("%s: %+v, %v", c.what, of, err)
		}
		set, err := rule.Rule{Kind: k}.Allowed(it)
		if all := err == nil && set.Contains(quoin.MustAmount("0.01")); all == c.speaks {
			t.Errorf("%s: allows %v, %v", c.what, set, err)
		}
	}
}

func drawComparables(t *rapid.T) []comparables.Record {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) comparables.Record {
		return comparables.Record{
			Venue: rapid.SampledFrom([]string{"harbour", "reed shelf", "mill"}).Draw(t, "venue"),
			Price: quoin.AmountOf(rapid.Int64Range(0, 9000).Draw(t, "price"), 2),
			Sold:  rapid.Int64Range(0, 3).Draw(t, "sold"),
		}
	}), 0, 12).Draw(t, "comparables")
}

// What comparables say beyond price, venue and number sold changes no digit of a
// rule that asks for none of it; nor do options at what they stand for where they
// are not given.
func TestMarketWithoutOptionsIsAsItWas(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		plain := drawComparables(t)
		k := rule.Market{FromQuantile: quoin.MustRate("20%"), ToQuantile: quoin.MustRate("70%"), MinSales: quoin.Some[int64](1), MinVenues: quoin.Some[int64](1)}
		from, to, ok := k.RangeOf(rule.Item{Comparables: plain})
		full := rule.Item{Size: quoin.MustSize("A4")}
		for _, c := range plain {
			c.Seller = rapid.SampledFrom([]string{"", "ada", "ben"}).Draw(t, "seller")
			c.Date, c.Size, c.Tax = quoin.MustDate("2026-05-02"), quoin.MustSize("A3"), quoin.MustRate("20%")
			c.Postage, c.PostageOnTop = quoin.MustAmount("6.00"), quoin.MustAmount("2.00")
			c.Edition, c.Signed, c.Framed, c.FrameWorth = 50, true, true, worth("30.00")
			full.Comparables = append(full.Comparables, c)
		}
		named := k
		named.Quantiles, named.MinSold = comparables.Type5, quoin.Some[int64](1)
		for _, k := range []rule.Market{k, named} {
			if a, b, spoke := k.RangeOf(full); a.String() != from.String() || b.String() != to.String() || spoke != ok {
				t.Fatalf("%s to %s, %t; without what they say beside %s to %s, %t", a, b, spoke, from, to, ok)
			}
		}
	})
}

// Sellers who all have one record each weigh as their records do, and a basis that
// changes nothing leaves all as it is, but for what was given away.
func TestMarketOptionsThatChangeNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		of := drawComparables(t)
		for i := range of {
			of[i].Seller, of[i].Size = string(rune('a'+i)), quoin.MustSize("A4")
			of[i].Price = of[i].Price.Add(quoin.MustAmount("0.01"))
		}
		it := rule.Item{Comparables: of, Size: quoin.MustSize("210 x 297 mm")}
		k := rule.Market{FromQuantile: quoin.MustRate("20%"), ToQuantile: quoin.MustRate("70%"), MinSales: quoin.Some[int64](1), MinVenues: quoin.Some[int64](1)}
		from, to, ok := k.RangeOf(it)
		k.BySeller, k.Basis = true, &comparables.Basis{Exponent: quoin.Some(quoin.MustFactor("0.7"))}
		if a, b, spoke := k.RangeOf(it); !a.Equal(from) || !b.Equal(to) || spoke != ok {
			t.Fatalf("%s to %s, %t; without options %s to %s, %t", a, b, spoke, from, to, ok)
		}
	})
}

// Options go into JSON and come back.
func TestMarketInJSON(t *testing.T) {
	const text = `{"id":"others","rule":"market","from_quantile":"25%","to_quantile":"75%","min_sales":5,"min_venues":2,"by_seller":true,"basis":{"tax":"20%","exponent":"0.5"}}`
	var r rule.Rule
	if err := r.UnmarshalJSON([]byte(text)); err != nil {
		t.Fatal(err)
	}
	written, err := r.MarshalJSON()
	if err != nil || string(written) != text {
		t.Errorf("%s, %v", written, err)
	}
}
