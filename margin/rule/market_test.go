package rule_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/rule"
	"pgregory.net/rapid"
)

// All venues, sellers and prices are invented, and every wanted value is worked
// out by hand.

func sold(venue, seller, price string) rule.Comparable {
	return rule.Comparable{Venue: venue, Seller: seller, Price: quoin.MustAmount(price), Sold: 1}
}

// At the harbour one seller has 10 and 20, another 30; on the reed shelf somebody
// has 40. Seller by seller they weigh 1/4, 1/4, 1/2 and 1 of 2, so they stand at
// 1/16, 3/16, 3/8 and 3/4: half way between two of these lie 9/32 = 28.125% and
// 9/16 = 56.25%. Venue by venue they weigh 1/3, 1/3, 1/3 and 1, and stand at 1/12,
// 1/4, 5/12 and 3/4: there 9/32 is 3/16 of the way from 20 to 30, and 9/16 is 7/16
// of the way from 30 to 40.
func TestMarketBySeller(t *testing.T) {
	two := []rule.Comparable{
		sold("harbour", "ada", "10"), sold("harbour", "ada", "20"), sold("harbour", "ben", "30"), sold("reed shelf", "", "40"),
	}
	// Both without a name are one seller: 1/2, 1/4, 1/4 at 1/4, 5/8 and 7/8.
	unnamed := []rule.Comparable{sold("harbour", "ada", "10"), sold("harbour", "", "20"), sold("harbour", "", "30")}
	// A seller in two venues is one in each: 1, 1/2, 1/2 of 2 at 1/4, 5/8, 7/8.
	both := []rule.Comparable{sold("harbour", "ada", "10"), sold("reed shelf", "ada", "20"), sold("reed shelf", "ben", "30")}
	for _, c := range []struct {
		what     string
		of       []rule.Comparable
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
		k := rule.Market{From: quoin.MustRate(c.from), To: quoin.MustRate(c.to), BySeller: c.bySeller}
		from, to, ok := k.Range(c.of)
		if !ok || !from.Equal(quoin.MustAmount(c.least)) || !to.Equal(quoin.MustAmount(c.greatest)) {
			t.Errorf("%s: %s to %s, %t, want %s to %s", c.what, from, to, ok, c.least, c.greatest)
		}
	}
}

func amount(s string) quoin.Amount { return quoin.MustAmount(s) }

func worth(s string) quoin.Optional[quoin.Amount] { return quoin.Some(quoin.MustAmount(s)) }

// Each of these is 24.00 with a tax of 20%, or 20.00 without one, or cannot be
// brought there.
func TestBasis(t *testing.T) {
	taxed, bare := rule.Basis{Tax: quoin.MustRate("20%")}, rule.Basis{}
	fifth, seven := quoin.MustRate("20%"), quoin.MustRate("7%")
	for _, c := range []struct {
		what string
		on   rule.Basis
		rule.Comparable
		want string
	}{
		{"as it is", taxed, rule.Comparable{Price: amount("24.00"), Tax: fifth}, "24"},
		{"without tax", taxed, rule.Comparable{Price: amount("20.00")}, "24"},
		{"another tax", taxed, rule.Comparable{Price: amount("21.40"), Tax: seven}, "24"},
		{"tax taken off", bare, rule.Comparable{Price: amount("24.00"), Tax: fifth}, "20"},
		{"another tax taken off", bare, rule.Comparable{Price: amount("21.40"), Tax: seven}, "20"},
		{"postage in the price", taxed, rule.Comparable{Price: amount("30.00"), Tax: fifth, Postage: amount("6.00")}, "24"},
		{"postage on top", taxed, rule.Comparable{Price: amount("24.00"), Tax: fifth, Postage: amount("6.00"), PostageOnTop: amount("6.00")}, "24"},
		{"part of it on top", taxed, rule.Comparable{Price: amount("26.00"), Tax: fifth, Postage: amount("6.00"), PostageOnTop: amount("4.00")}, "24"},
		{"paid beyond postage", bare, rule.Comparable{Price: amount("18.00"), Postage: amount("6.00"), PostageOnTop: amount("8.00")}, "20"},
		{"a frame", taxed, rule.Comparable{Price: amount("64.00"), Tax: fifth, Framed: true, FrameWorth: worth("40.00")}, "24"},
		{"a frame and postage", taxed, rule.Comparable{Price: amount("61.50"), Postage: amount("6.50"), Framed: true, FrameWorth: worth("35.00")}, "24"},
		{"a frame worth nothing", bare, rule.Comparable{Price: amount("20.00"), Framed: true, FrameWorth: worth("0")}, "20"},
		{"a size changes nothing", bare, rule.Comparable{Price: amount("20.00"), Size: quoin.MustSize("A3")}, "20"},
		{"a frame worth who knows", bare, rule.Comparable{Price: amount("60.00"), Framed: true}, "none"},
		{"all of it postage", bare, rule.Comparable{Price: amount("6.00"), Postage: amount("6.00")}, "none"},
		{"more than all of it", bare, rule.Comparable{Price: amount("6.00"), Framed: true, FrameWorth: worth("8.00")}, "none"},
		{"given away", bare, rule.Comparable{}, "none"},
	} {
		got, ok := c.on.Bring(c.Comparable, quoin.Size{})
		if !brought(got, ok, c.want) {
			t.Errorf("%s: %s, %t, want %s", c.what, got, ok, c.want)
		}
	}
}

// brought says whether a price is as wanted, which is "none" where there is none.
func brought(got quoin.Amount, ok bool, want string) bool {
	if !ok || want == "none" {
		return !ok && want == "none"
	}
	return got.Equal(quoin.MustAmount("1").Times(quoin.MustFactor(want)))
}

// The product is 20 × 20 cm; a print of half its sides has a quarter of its area.
// The square root of 2 is 1.414213562373095…, that of 1/2 half of it.
func TestBasisSize(t *testing.T) {
	for _, c := range []struct {
		exponent, size, price, want string
	}{
		{"0.5", "10 x 10 cm", "12.00", "24"},
		{"1", "10 x 10 cm", "6.00", "24"},
		{"2", "10 x 10 cm", "1.50", "24"},
		{"1.5", "10 x 10 cm", "3.00", "24"},
		{"0", "10 x 10 cm", "24.00", "24"},
		{"-0.5", "10 x 10 cm", "48.00", "24"},
		{"-1", "10 x 10 cm", "96.00", "24"},
		{"0.5", "40 x 40 cm", "48.00", "24"},
		{"0.5", "400 x 400 mm", "48.00", "24"},
		{"0.5", "40 x 10 cm", "24.00", "24"},
		{"0.5", "10 x 20 cm", "10.00", "14.142135623731"},
		{"0.5", "40 x 20 cm", "10.00", "7.071067811865"},
		{"0.5", "", "24.00", "none"},
		{"0", "", "24.00", "none"},
		{"10", "999999999999 x 999999999999 m", "24.00", "none"}, // nothing left on 12 places
	} {
		of := rule.Comparable{Price: quoin.MustAmount(c.price)}
		if err := of.Size.UnmarshalText([]byte(c.size)); err != nil {
			t.Fatal(err)
		}
		basis := rule.Basis{Exponent: quoin.Some(quoin.MustFactor(c.exponent))}
		got, ok := basis.Bring(of, quoin.MustSize("20 x 20 cm"))
		if !brought(got, ok, c.want) {
			t.Errorf("%s at %s, exponent %s: %s, %t, want %s", c.price, c.size, c.exponent, got, ok, c.want)
		}
		if got, ok := basis.Bring(of, quoin.Size{}); ok {
			t.Errorf("%s at %s for a product without a size: %s", c.price, c.size, got)
		}
	}
}

// Below five sales from two venues the rule is silent; what did not sell, or cannot
// be brought to the basis, is none of the five.
func TestMarketIsSilent(t *testing.T) {
	k := rule.Market{To: quoin.MustRate("100%"), MinSales: quoin.Some[int64](5), MinVenues: quoin.Some[int64](2), Basis: &rule.Basis{}}
	one, other := sold("harbour", "", "20"), sold("reed shelf", "", "30")
	asked, framed := one, other
	asked.Sold, framed.Framed = 0, true
	for _, c := range []struct {
		what    string
		of      []rule.Comparable
		speaks  bool
		counts  int
		unsold  int
		leftOut int
	}{
		{"nothing", nil, false, 0, 0, 0},
		{"five from two", []rule.Comparable{one, one, one, one, other}, true, 5, 0, 0},
		{"five from one", []rule.Comparable{one, one, one, one, one}, false, 5, 0, 0},
		{"four from two", []rule.Comparable{one, one, other, other}, false, 4, 0, 0},
		{"a fifth that did not sell", []rule.Comparable{one, one, other, other, asked}, false, 4, 1, 0},
		{"a fifth with a frame", []rule.Comparable{one, one, other, other, framed}, false, 4, 0, 1},
		{"a second venue with a frame", []rule.Comparable{one, one, one, one, one, framed, asked}, false, 5, 1, 1},
		{"both beside enough", []rule.Comparable{framed, one, one, asked, one, other, other}, true, 5, 1, 1},
	} {
		it := rule.NewItem("bittern-a4", exampleGrid())
		it.Comparables = c.of
		from, to, ok := k.RangeOf(it)
		if ok != c.speaks || ok && (!from.Equal(one.Price) || !to.Equal(other.Price)) {
			t.Errorf("%s: %s to %s, %t", c.what, from, to, ok)
		}
		counting, unsold, leftOut := k.Counting(it)
		if len(counting) != c.counts || unsold != c.unsold || leftOut != c.leftOut {
			t.Errorf("%s: %d count, %d unsold, %d left out", c.what, len(counting), unsold, leftOut)
		}
		set, err := rule.Rule{Kind: k}.Allowed(it)
		if all := err == nil && set.Contains(quoin.MustAmount("0.01")); all == c.speaks {
			t.Errorf("%s: allows %v, %v", c.what, set, err)
		}
	}
}

func drawComparables(t *rapid.T) []rule.Comparable {
	return rapid.SliceOfN(rapid.Custom(func(t *rapid.T) rule.Comparable {
		return rule.Comparable{
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
		k := rule.Market{From: quoin.MustRate("20%"), To: quoin.MustRate("70%")}
		from, to, ok := k.Range(plain)
		full := rule.Item{Size: quoin.MustSize("A4")}
		for _, c := range plain {
			c.Seller = rapid.SampledFrom([]string{"", "ada", "ben"}).Draw(t, "seller")
			c.Date, c.Size, c.Tax = quoin.MustDate("2026-05-02"), quoin.MustSize("A3"), quoin.MustRate("20%")
			c.Postage, c.PostageOnTop = quoin.MustAmount("6.00"), quoin.MustAmount("2.00")
			c.Edition, c.Signed, c.Framed, c.FrameWorth = 50, true, true, worth("30.00")
			full.Comparables = append(full.Comparables, c)
		}
		for _, k := range []rule.Market{k, {From: k.From, To: k.To, MinSales: quoin.Some[int64](1), MinVenues: quoin.Some[int64](1)}} {
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
		k := rule.Market{From: quoin.MustRate("20%"), To: quoin.MustRate("70%")}
		from, to, ok := k.RangeOf(it)
		k.BySeller, k.Basis = true, &rule.Basis{Exponent: quoin.Some(quoin.MustFactor("0.7"))}
		if a, b, spoke := k.RangeOf(it); !a.Equal(from) || !b.Equal(to) || spoke != ok {
			t.Fatalf("%s to %s, %t; without options %s to %s, %t", a, b, spoke, from, to, ok)
		}
	})
}

// Options go into JSON and come back.
func TestMarketInJSON(t *testing.T) {
	const text = `{"id":"others","rule":"market","from":"25%","to":"75%","min_sales":5,"min_venues":2,"by_seller":true,"basis":{"tax":"20%","exponent":"0.5"}}`
	var r rule.Rule
	if err := r.UnmarshalJSON([]byte(text)); err != nil {
		t.Fatal(err)
	}
	written, err := r.MarshalJSON()
	if err != nil || string(written) != text {
		t.Errorf("%s, %v", written, err)
	}
}
