package market_test

import (
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/market"
)

func amount(s string) quoin.Amount { return quoin.MustAmount(s) }
func rate(s string) quoin.Rate     { return quoin.MustRate(s) }
func factor(s string) quoin.Factor { return quoin.MustFactor(s) }

// sold is a record of one print sold.
func sold(venue, seller, price string) comparables.Record {
	return comparables.Record{Product: "print", Venue: venue, Seller: seller, Price: amount(price), Sold: 1}
}

func summarize(t interface {
	Helper()
	Fatal(...any)
}, records []comparables.Record, b market.Basis, o market.Options,
) market.Summary {
	t.Helper()
	s, err := market.Summarize(records, "print", b, o)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// What a record comes to on a basis, worked out by hand.
func TestOn(t *testing.T) {
	a3, a4 := quoin.MustSize("A3"), quoin.MustSize("A4")
	twice := quoin.MustSize("20 x 40 cm")
	once := quoin.MustSize("20 x 20 cm")
	for _, c := range []struct {
		name     string
		record   comparables.Record
		basis    market.Basis
		exponent string
		want     string // or the code of why not
	}{
		{"as it is", comparables.Record{Price: amount("60")}, market.Basis{}, "0.5", "60"},
		{"tax off", comparables.Record{Price: amount("60"), Tax: rate("20%")}, market.Basis{}, "0.5", "50"},
		{"tax on", comparables.Record{Price: amount("50")}, market.Basis{Tax: rate("20%")}, "0.5", "60"},
		{"one tax for another", comparables.Record{Price: amount("60"), Tax: rate("20%")}, market.Basis{Tax: rate("10%")}, "0.5", "55"},
		{"the same tax", comparables.Record{Price: amount("60"), Tax: rate("7%")}, market.Basis{Tax: rate("7%")}, "0.5", "60"},
		{"postage in the price", comparables.Record{Price: amount("60"), Postage: amount("5")}, market.Basis{}, "0.5", "55"},
		{"postage on top", comparables.Record{Price: amount("60"), Postage: amount("5"), PostageOnTop: amount("5")}, market.Basis{}, "0.5", "60"},
		{"part of postage on top", comparables.Record{Price: amount("60"), Postage: amount("5"), PostageOnTop: amount("3")}, market.Basis{}, "0.5", "58"},
		{"more than postage on top", comparables.Record{Price: amount("60"), Postage: amount("5"), PostageOnTop: amount("8")}, market.Basis{}, "0.5", "63"},
		{"frame off", comparables.Record{Price: amount("90"), Framed: true, FrameWorth: quoin.Some(amount("35"))}, market.Basis{}, "0.5", "55"},
		{
			"all at once",
			comparables.Record{Price: amount("101"), Postage: amount("6"), Framed: true, FrameWorth: quoin.Some(amount("35")), Tax: rate("20%"), Size: once},
			market.Basis{Tax: rate("10%"), Size: twice},
			"1", "110",
		},
		{"frame of no known worth", comparables.Record{Price: amount("90"), Framed: true}, market.Basis{}, "0.5", "frame_worth_unknown"},
		{"frame worth nothing", comparables.Record{Price: amount("90"), Framed: true, FrameWorth: quoin.Some(amount("0"))}, market.Basis{}, "0.5", "90"},
		{"nothing left", comparables.Record{Price: amount("5"), Postage: amount("5")}, market.Basis{}, "0.5", "nothing_left_of_price"},
		{"twice the area by area", comparables.Record{Price: amount("30"), Size: once}, market.Basis{Size: twice}, "1", "60"},
		{"twice the area, all sizes the same", comparables.Record{Price: amount("30"), Size: once}, market.Basis{Size: twice}, "0", "30"},
		{"twice the area by sides, √2 to six digits", comparables.Record{Price: amount("30"), Size: once}, market.Basis{Size: twice}, "0.5", "42.4263"},
		{"half of the area", comparables.Record{Price: amount("30"), Size: twice}, market.Basis{Size: once}, "0.5", "21.21321"},
		{"turned", comparables.Record{Price: amount("30"), Size: twice.Turned()}, market.Basis{Size: twice}, "0.5", "30"},
		{"A4 to A3, 297 × 420 ÷ (210 × 297) is 2", comparables.Record{Price: amount("30"), Size: a4}, market.Basis{Size: a3}, "1", "60"},
		{"no size", comparables.Record{Price: amount("30")}, market.Basis{Size: a3}, "0.5", "comparable_without_size"},
		{"sizes apart", comparables.Record{Price: amount("30"), Size: quoin.MustSize("1 x 1 mm")}, market.Basis{Size: quoin.MustSize("9 x 9 m")}, "1", "comparable_size_too_far"},
	} {
		c.record.Product, c.record.Venue = "print", "fair"
		got, err := c.basis.Bring(c.record, factor(c.exponent))
		trail := quoin.NewTrail(4)
		explained, why := c.basis.Explain(trail, quoin.InField("").Inside("basis"), c.record, quoin.InList("records", 2), factor(c.exponent))
		if err != nil {
			var p, located quoin.Problem
			if !errors.As(err, &p) || string(p.Code) != c.want || !errors.As(why, &located) || located.Path != "records[2]."+p.Path {
				t.Errorf("%s: %v and %v, wanted %s", c.name, err, why, c.want)
			}
			continue
		}
		if got.Price.String() != amount(c.want).String() && !got.Price.Equal(amount(c.want)) {
			t.Errorf("%s: %s, wanted %s", c.name, got.Price, c.want)
		}
		if err := quoin.Replay(trail.Steps()); err != nil || why != nil || !explained.Value.Equal(got.Price.Figure()) {
			t.Errorf("%s: explained as %s (%v, %v), wanted %s", c.name, explained.Value, why, err, got.Price)
		}
	}
}

// Two venues, one of three sellers, one of them with three records: 1/2 ÷ 3 ÷ 3
// for each of these, 1/2 ÷ 3 for the other two, 1/2 for the lone seller.
func TestWeights(t *testing.T) {
	s := summarize(t, []comparables.Record{
		sold("web", "ann", "40"), sold("web", "ann", "50"), sold("web", "ann", "60"), sold("web", "bea", "70"), sold("web", "cid", "80"), sold("fair", "dot", "90"),
	}, market.Basis{}, market.Options{})
	var got []string
	for _, u := range s.Used {
		got = append(got, u.Weight.Rat().FloatString(4))
	}
	if want := []string{"0.0556", "0.0556", "0.0556", "0.1667", "0.1667", "0.5000"}; !slices.Equal(got, want) {
		t.Errorf("weights %v, wanted %v", got, want)
	}
	// Kish: 1 ÷ (3 × (1/6)² + (1/2)²) = 3.
	if n := s.Effective.String(); n != "3" || s.Sellers != 4 {
		t.Errorf("%s of %d sellers, wanted 3 of 4", n, s.Sellers)
	}
	if len(s.Venues) != 2 || s.Venues[0].Name != "fair" || s.Venues[1].Records != 5 || s.Venues[1].Sellers != 3 || s.Venues[0].Median.String() != "90" {
		t.Errorf("venues %+v", s.Venues)
	}
	// A seller of two venues is one: 1/2 + 1/2 × 1/2 and 1/2 × 1/2, 1 ÷ (9 + 1) ÷ 16.
	s = summarize(t, []comparables.Record{sold("web", "ann", "40"), sold("web", "bea", "50"), sold("fair", "ann", "60")}, market.Basis{}, market.Options{MinSales: quoin.Some[int64](3)})
	if n := s.Effective.String(); n != "1.6" || s.Sellers != 2 {
		t.Errorf("%s of %d sellers, wanted 1.6 of 2", n, s.Sellers)
	}
}

// Below five records of two venues nothing is said but what to collect.
func TestRefusal(t *testing.T) {
	five := []comparables.Record{sold("web", "ann", "40"), sold("web", "bea", "45"), sold("fair", "cid", "50"), sold("fair", "dot", "55"), sold("fair", "eve", "60")}
	asked := comparables.Record{Product: "print", Venue: "gallery", Seller: "fay", Price: amount("200")}
	oneVenue := slices.Clone(five)
	for i := range oneVenue {
		oneVenue[i].Venue = "web"
	}
	for _, c := range []struct {
		name          string
		records       []comparables.Record
		options       market.Options
		point         bool
		sales, venues int64
	}{
		{"none", nil, market.Options{}, false, 5, 2},
		{"one", five[:1], market.Options{}, false, 4, 1},
		{"four of two", five[:4], market.Options{}, false, 1, 0},
		{"five of two", five, market.Options{}, true, 0, 0},
		{"five of one", oneVenue, market.Options{}, false, 1, 1},
		{"an asking price is no sale", append(slices.Clone(five[:4]), asked), market.Options{}, false, 1, 0},
		{"four asked for", five[:4], market.Options{MinSales: quoin.Some[int64](4)}, true, 0, 0},
		{"three venues asked for", five, market.Options{MinVenues: quoin.Some[int64](3)}, false, 1, 1},
		{"two of each asked for", five, market.Options{MinSold: quoin.Some[int64](2)}, false, 5, 2},
	} {
		s := summarize(t, c.records, market.Basis{}, c.options)
		if point := !s.Centre.IsZero(); point != c.point || s.Collect.Sales != c.sales || s.Collect.Venues != c.venues {
			t.Errorf("%s: point %v, collect %+v", c.name, point, s.Collect)
		}
		said := !s.Effective.IsZero() || !s.Spread.IsZero() || s.Quantiles != nil || !s.Position(amount("50")).IsZero() || !s.PriceAt(rate("50%")).IsZero()
		for _, v := range s.Venues {
			said = said || !v.Median.IsZero()
		}
		if said != c.point {
			t.Errorf("%s: %+v", c.name, s)
		}
	}
}

func TestLeftOutAndCollect(t *testing.T) {
	day := quoin.MustDate
	records := []comparables.Record{
		{Product: "print", Venue: "web", Seller: "ann", Price: amount("40"), Sold: 3, Size: quoin.MustSize("A4"), Signed: true, Edition: 50, Date: day("2026-01-10")},
		{Product: "print", Venue: "web", Seller: "ann", Price: amount("55"), Size: quoin.MustSize("A3"), Signed: true},
		{Product: "print", Venue: "web", Price: amount("60"), Sold: 1, Size: quoin.MustSize("A4"), Signed: true, Edition: 10, Date: day("2024-01-31")},
		{Product: "print", Venue: "fair", Seller: "bea", Price: amount("70"), Sold: 2, Signed: true, Edition: 10},
		{Product: "print", Venue: "fair", Seller: "cid", Price: amount("70"), Sold: 2, Size: quoin.MustSize("A4"), Framed: true, Signed: true, Edition: 10},
		{Product: "print", Venue: "fair", Seller: "cid", Price: amount("70"), Sold: 2, Size: quoin.MustSize("A4"), Edition: 10},
		{Product: "print", Venue: "fair", Seller: "dot", Price: amount("70"), Sold: 2, Size: quoin.MustSize("A4"), Signed: true},
		{Product: "print", Venue: "fair", Seller: "eve", Price: amount("70"), Sold: 2, Size: quoin.MustSize("A4"), Signed: true, Edition: 5},
		{Product: "card", Venue: "fair", Seller: "eve", Price: amount("3"), Sold: 90},
		{Product: "print", Venue: "fair", Seller: "eve", Price: amount("10"), Sold: 2, Size: quoin.MustSize("A4"), Signed: true, Edition: 5},
	}
	o := market.Options{Signed: quoin.Some(true), Limited: quoin.Some(true), Without: []int{9}, Today: day("2026-01-30")}
	s := summarize(t, records, market.Basis{Size: quoin.MustSize("A3")}, o)
	want := "1 asked_only, 3 comparable_without_size, 4 frame_worth_unknown, 5 other_signature, 6 other_edition, 9 left_out_by_caller"
	var left []string
	for _, l := range s.LeftOut {
		left = append(left, fmt.Sprint(l.Record, " ", l.Code))
	}
	if got := strings.Join(left, ", "); got != want || s.Others != 1 || len(s.Used) != 3 || s.Sold != 6 {
		t.Errorf("left out %s, %d others, used %v", got, s.Others, s.Used)
	}
	// 2024-01-31 is 730 days before 2026-01-30: 2024 has 366.
	want = "missing: sales 2, sizes 2, alone (1), asked only [1], old [2], undated [7], without size [3], without frame worth [4], without seller [2]"
	if got := fmt.Sprint(s.Collect); got != want {
		t.Errorf("collect %s, wanted %s", got, want)
	}
}

// The exponent by hand: three sellers, each with three sizes of areas 1, 2 and 4
// at 40, 40√2 and 80, that is exactly 0.5, whatever the default.
func TestExponent(t *testing.T) {
	var records []comparables.Record
	for _, seller := range []string{"ann", "bea", "cid"} {
		for size, price := range map[string]string{"20 x 20 cm": "40", "20 x 40 cm": "56.56854249", "40 x 40 cm": "80"} {
			r := sold("web", seller, price)
			r.Size = quoin.MustSize(size)
			records = append(records, r)
		}
	}
	x, err := market.FitExponent(records, "print", market.Basis{}, market.Options{DefaultExponent: quoin.Some(factor("1"))})
	fit, ok := x.Fit.Get()
	if err != nil || !ok || fit.Exponent.String() != "0.5" || x.Used.String() != "0.5" || x.DataWeight.String() != "100%" || x.Sizes != 3 || x.Sellers != 3 {
		t.Errorf("%+v, %v", x, err)
	}
	for _, c := range []struct {
		name    string
		records []comparables.Record
		options market.Options
		used    string
		fitted  bool
	}{
		{"none", nil, market.Options{}, "0.5", false},
		{"own default", nil, market.Options{DefaultExponent: quoin.Some(factor("0.7"))}, "0.7", false},
		{"more sizes asked for", records, market.Options{MinSizes: quoin.Some[int64](4), DefaultExponent: quoin.Some(factor("0.7"))}, "0.7", false},
		{"given", records, market.Options{Exponent: quoin.Some(factor("0.9"))}, "0.9", true},
	} {
		x, err := market.FitExponent(c.records, "print", market.Basis{}, c.options)
		if err != nil || x.Used.String() != c.used || x.Fit.IsZero() == c.fitted || !x.DataWeight.IsZero() {
			t.Errorf("%s: %+v, %v", c.name, x, err)
		}
	}
}

// A tenth of a price and ten times one are named, on either side; they stay in.
func TestOutliers(t *testing.T) {
	var records []comparables.Record
	for i, price := range []string{"40", "42", "44", "46", "48", "50", "52", "54", "56", "500", "5"} {
		records = append(records, sold([]string{"web", "fair"}[i%2], fmt.Sprint("seller ", i), price))
	}
	s := summarize(t, records, market.Basis{}, market.Options{})
	if len(s.Outliers) != 2 || len(s.Used) != 11 {
		t.Fatalf("outliers %+v", s.Outliers)
	}
	high, low := s.Outliers[0], s.Outliers[1]
	if high.Record != 9 || high.Code != market.FarAbove || high.Spreads.Sign() < 0 || low.Record != 10 || low.Code != market.FarBelow || low.Spreads.Sign() > 0 {
		t.Errorf("outliers %+v", s.Outliers)
	}
	s = summarize(t, records, market.Basis{}, market.Options{Without: []int{high.Record, low.Record}})
	if len(s.Outliers) != 0 || len(s.Used) != 9 || len(s.LeftOut) != 2 {
		t.Errorf("without them: %+v", s)
	}
}

// Spreads by hand, each price of a seller of its own. 10 20 30 40 50: median 30,
// distances 20 10 0 10 20, their median 10. 20 30 30 30 40 has positions .1 .3 .5
// .7 .9, so 25% is 20 + .15 ÷ .2 × 10 and 75% 32.5, 5 apart; with 99 at the end,
// 75% is 30 + .05 ÷ .2 × 69, 17.25 above the quartile below.
func TestSpread(t *testing.T) {
	for _, c := range []struct {
		prices      []string
		times, over string
		by          market.Scale
	}{
		{[]string{"10", "20", "30", "40", "50"}, "14.826", "1", market.ByDeviation},
		{[]string{"20", "30", "30", "30", "40"}, "5", "1.349", market.ByQuartiles},
		{[]string{"30", "30", "30", "30", "99"}, "17.25", "1.349", market.ByQuartiles},
		{[]string{"30", "30", "30", "30", "30", "30", "30", "99"}, "0", "1", market.NoScale},
		{[]string{"30", "30", "30", "30", "30"}, "0", "1", market.NoScale},
	} {
		got, _ := alike(t, c.prices, market.Options{}).Spread.Get()
		if want := amount(c.times).Over(factor(c.over)); got.By != c.by || !got.Money.Equal(want) {
			t.Errorf("%v: %+v, wanted %s", c.prices, got, want)
		}
	}
}

// Equal prices of unequal weight: positions are bea's 1/12, ann's 3/12, cid's
// 7/12 and dot's 11/12, the lighter of the equal ones first, so 75% is halfway
// from 40 to 60 in whatever order they are listed.
func TestEqualPrices(t *testing.T) {
	records := []comparables.Record{sold("web", "ann", "40"), sold("web", "bea", "30"), sold("web", "dot", "60"), sold("fair", "cid", "40")}
	for range records {
		records = append(records[1:], records[0])
		s := summarize(t, records, market.Basis{}, market.Options{MinSales: quoin.Some[int64](4)})
		if q, _ := s.PriceAt(rate("75%")).Get(); !q.Price.Equal(amount("50")) {
			t.Errorf("%v: %s", records, q.Price)
		}
		// At 40: 1/6 below it, 4/6 at it.
		if p, _ := s.Position(amount("40")).Get(); !p.Percentile.Equal(rate("50%")) {
			t.Errorf("%v: %s", records, p.Percentile)
		}
	}
}

// One seller weighs as much as forty elsewhere; where its price alone is the
// order statistic, the bounds still hold the price between it and the one below.
func TestBoundsHoldThePrice(t *testing.T) {
	records := []comparables.Record{sold("lone", "lone", "20"), sold("venue 0", "first", "10")}
	for i := range 160 {
		records = append(records, sold(fmt.Sprint("venue ", i%4), fmt.Sprint("seller ", i), fmt.Sprint(30+i)))
	}
	s := summarize(t, records, market.Basis{}, market.Options{Confidence: quoin.Some(rate("50%"))})
	q, _ := s.PriceAt(rate("8%")).Get()
	if low, ok := q.Bounds.Low.Get(); !ok || q.Price.Cmp(amount("20")) >= 0 || !low.Equal(q.Price) {
		t.Errorf("%+v", q)
	}
}
