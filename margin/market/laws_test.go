package market_test

import (
	"fmt"
	"math/big"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/market"
)

// drawRecords draws records of one product that Check accepts.
func drawRecords(t *rapid.T) []comparables.Record {
	sizes := []string{"A5", "A4", "A3", "A2", "30 x 40 cm", "A4"}
	venues := []string{"web", "fair", "gallery"}
	sellers := []string{"ann", "bea", "cid", "dot", "eve", "fay", ""}
	var out []comparables.Record
	for range rapid.IntRange(0, 30).Draw(t, "records") {
		r := comparables.Record{
			Product: "print", Venue: rapid.SampledFrom(venues).Draw(t, "venue"), Seller: rapid.SampledFrom(sellers).Draw(t, "seller"),
			Price: quoin.AmountOf(rapid.Int64Range(1, 40).Draw(t, "price")*500, 2), Sold: rapid.Int64Range(0, 9).Draw(t, "sold"),
			Size: quoin.MustSize(rapid.SampledFrom(sizes).Draw(t, "size")), Tax: rate(rapid.SampledFrom([]string{"0%", "7%", "20%"}).Draw(t, "tax")),
			Postage: quoin.AmountOf(rapid.Int64Range(0, 8).Draw(t, "postage"), 0),
		}
		if rapid.Bool().Draw(t, "framed") {
			r.Framed, r.FrameWorth = true, quoin.Some(quoin.AmountOf(rapid.Int64Range(0, 30).Draw(t, "frame"), 0))
		}
		out = append(out, r)
	}
	return out
}

func drawBasis(t *rapid.T) market.Basis {
	b := market.Basis{Tax: rate(rapid.SampledFrom([]string{"0%", "18%"}).Draw(t, "basis"))}
	if rapid.Bool().Draw(t, "sized") {
		b.Size = quoin.MustSize("A3")
	}
	return b
}

// said is all of a summary that does not name records by number.
func said(s market.Summary) string {
	var outliers []string
	for _, o := range s.Outliers {
		outliers = append(outliers, fmt.Sprint(o.Code, o.Price, o.Spreads))
	}
	slices.Sort(outliers)
	var medians []string
	for _, v := range s.Venues {
		medians = append(medians, fmt.Sprint(v.Name, v.Sellers, v.Median))
	}
	return fmt.Sprint(s.Sellers, s.Exponent.Used, s.Exponent.Interval, s.Exponent.DataWeight, s.Effective, s.Centre, s.Spread, s.Quantiles, slices.Compact(outliers), medians)
}

func TestOrderChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		records, b := drawRecords(t), drawBasis(t)
		first := summarize(t, records, b, market.Options{})
		second := summarize(t, rapid.Permutation(records).Draw(t, "order"), b, market.Options{})
		if said(first) != said(second) || first.Sold != second.Sold || len(first.LeftOut) != len(second.LeftOut) {
			t.Fatalf("%s\nin another order %s", said(first), said(second))
		}
	})
}

// Every record of a seller said twice, or more often, says nothing more.
func TestRepeatingSellersChangesNothing(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		records, b := drawRecords(t), drawBasis(t)
		o := market.Options{MinSales: quoin.Some[int64](1)}
		once := summarize(t, records, b, o)
		seller := rapid.SampledFrom([]string{"ann", "bea", "cid", ""}).Draw(t, "repeated")
		more := slices.Clone(records)
		for range rapid.IntRange(1, 3).Draw(t, "times") {
			for _, r := range records {
				if r.Seller == seller {
					more = append(more, r)
				}
			}
		}
		if twice := summarize(t, more, b, o); said(once) != said(twice) {
			t.Fatalf("%s\nwith %q again %s", said(once), seller, said(twice))
		}
	})
}

// All records of the product are used or left out, each once; weights sum to 1,
// and each venue's to the same.
func TestAllAreAccountedFor(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		records := drawRecords(t)
		s := summarize(t, records, drawBasis(t), market.Options{MinSold: quoin.Some(rapid.Int64Range(1, 4).Draw(t, "min"))})
		seen := make(map[int]int)
		sum := make(map[string]quoin.Factor)
		for _, u := range s.Used {
			seen[u.Record]++
			sum[u.Venue] = sum[u.Venue].Add(u.Weight)
		}
		for _, l := range s.LeftOut {
			seen[l.Record]++
		}
		for i := range records {
			if seen[i] != 1 {
				t.Fatalf("record %d stands in %d lists", i, seen[i])
			}
		}
		for venue, w := range sum {
			if !w.Times(quoin.FactorOf(int64(len(sum)))).Equal(quoin.FactorOf(1)) {
				t.Fatalf("%s weighs %s of %d venues", venue, w, len(sum))
			}
		}
		if o := s.Outliers; len(o) > len(s.Used) {
			t.Fatalf("%d outliers of %d", len(o), len(s.Used))
		}
	})
}

// Prices, postage and frames in another unit of money give results in it.
func TestScaling(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		records, b := drawRecords(t), drawBasis(t)
		by := quoin.FactorOf(rapid.Int64Range(2, 900).Draw(t, "by"))
		o := market.Options{Exponent: quoin.Some(factor("0.6"))}
		scaled := slices.Clone(records)
		for i, r := range scaled {
			scaled[i].Price, scaled[i].Postage = r.Price.Times(by), r.Postage.Times(by)
			if worth, ok := r.FrameWorth.Get(); ok {
				scaled[i].FrameWorth = quoin.Some(worth.Times(by))
			}
		}
		s, large := summarize(t, records, b, o), summarize(t, scaled, b, o)
		same := func(a, b quoin.Optional[quoin.Amount]) bool {
			x, ok := a.Get()
			y, too := b.Get()
			return ok == too && x.Times(by).Sub(y).Round(9, quoin.HalfUp).IsZero()
		}
		if !same(s.Centre, large.Centre) || len(s.Outliers) != len(large.Outliers) || !s.Effective.Equal(large.Effective) {
			t.Fatalf("%s\ntimes %s %s", said(s), by, said(large))
		}
		for i, q := range s.Quantiles {
			l := large.Quantiles[i]
			if !same(quoin.Some(q.Price), quoin.Some(l.Price)) || !same(q.Bounds.Low, l.Bounds.Low) || !same(q.Bounds.High, l.Bounds.High) {
				t.Fatalf("%+v times %s is %+v", q, by, l)
			}
		}
		small, _ := s.Spread.Get()
		great, _ := large.Spread.Get()
		if !same(quoin.Some(small.Money), quoin.Some(great.Money)) || !small.Log.Equal(great.Log) {
			t.Fatalf("%+v times %s is %+v", small, by, great)
		}
	})
}

// Tax taken off and put on again, by On itself, is the price as it was.
func TestTaxOffAndOn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		tax := quoin.AmountOf(rapid.Int64Range(0, 10_000).Draw(t, "tax"), 4).Share(quoin.AmountOf(1, 0))
		r := comparables.Record{Product: "print", Venue: "web", Price: quoin.AmountOf(rapid.Int64Range(1, 99_999_999).Draw(t, "price"), 2), Tax: tax}
		off, err := market.Basis{}.Bring(r, quoin.Factor{})
		if err != nil {
			t.Fatal(err)
		}
		on, err := market.Basis{Tax: tax}.Bring(comparables.Record{Product: "print", Venue: "web", Price: off.Price}, quoin.Factor{})
		if err != nil || !on.Price.Equal(r.Price) {
			t.Fatalf("%s without %s is %s, with it again %s (%v)", r.Price, tax, off.Price, on.Price, err)
		}
	})
}

// The percentile of the price at a percentile is that one, but for the weights
// of the records about it; and the interval of either holds it.
func TestPercentileOfPriceAtPercentile(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := summarize(t, drawRecords(t), drawBasis(t), market.Options{MinSales: quoin.Some[int64](1), Confidence: quoin.Some(rate(rapid.SampledFrom([]string{"50%", "95%"}).Draw(t, "confidence")))})
		share := quoin.AmountOf(rapid.Int64Range(0, 100).Draw(t, "share"), 2).Share(quoin.AmountOf(1, 0))
		q, ok := s.PriceAt(share).Get()
		if !ok {
			return
		}
		p, ok := s.Position(q.Price).Get()
		if !ok {
			t.Fatalf("no position of %s", q.Price)
		}
		var step quoin.Rate // as heavy as all at the greatest price up to it, at it, and at the least from it on
		for _, near := range []quoin.Amount{neighbour(s, q.Price, -1), q.Price, neighbour(s, q.Price, 1)} {
			for _, u := range s.Used {
				if u.Price.Equal(near) {
					step = step.Add(u.Weight.Rate())
				}
			}
		}
		if off := p.Percentile.Sub(share); off.Cmp(step) > 0 || off.Cmp(quoin.Rate{}.Sub(step)) < 0 {
			t.Fatalf("%s is at %s, not %s, with steps of %s", q.Price, p.Percentile, share, step)
		}
		if p.Interval.Low.Cmp(p.Percentile) > 0 || p.Interval.High.Cmp(p.Percentile.Sub(rate("0.001%"))) < 0 {
			t.Fatalf("%+v", p)
		}
		if q.Bounds.Low.Or(q.Price).Cmp(q.Price) > 0 || q.Bounds.High.Or(q.Price).Cmp(q.Price) < 0 {
			t.Fatalf("%+v", q)
		}
	})
}

func neighbour(s market.Summary, price quoin.Amount, way int) quoin.Amount {
	best, found := price, false
	for _, u := range s.Used {
		if u.Price.Cmp(price) == way && (!found || u.Price.Cmp(best) == -way) {
			best, found = u.Price, true
		}
	}
	return best
}

// A greater share never has a lower price or lower bounds, a higher price never
// a lower percentile.
func TestPricesRiseWithShares(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		s := summarize(t, drawRecords(t), market.Basis{}, market.Options{MinSales: quoin.Some[int64](1)})
		var last market.Quantile
		var at quoin.Rate
		for i := range int64(21) {
			q, ok := s.PriceAt(quoin.AmountOf(5*i, 2).Share(quoin.AmountOf(1, 0))).Get()
			if !ok {
				return
			}
			p, _ := s.Position(q.Price).Get()
			lost := !last.Bounds.Low.IsZero() && (q.Bounds.Low.IsZero() || q.Bounds.Low.Or(q.Price).Cmp(last.Bounds.Low.Or(q.Price)) < 0)
			if i > 0 && (q.Price.Cmp(last.Price) < 0 || lost || p.Percentile.Cmp(at) < 0) {
				t.Fatalf("%+v after %+v, %s after %s", q, last, p.Percentile, at)
			}
			last, at = q, p.Percentile
		}
	})
}

// A second seller like each, with the same prices at the same venues, moves no
// end of an interval out; and neither do more of them.
func TestMoreOfTheSameNeverWidens(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		records, even := drawRecords(t), rapid.Bool().Draw(t, "even")
		slices.SortFunc(records, func(a, b comparables.Record) int { return a.Price.Cmp(b.Price) })
		for i := range records {
			records[i].Seller, records[i].Sold = fmt.Sprint("seller ", i), 1
			if even {
				records[i].Venue = []string{"web", "fair"}[i%2]
			}
		}
		if even {
			records = records[:len(records)/2*2]
		}
		more := slices.Clone(records)
		for k := range rapid.IntRange(1, 4).Draw(t, "times") {
			for _, r := range records {
				r.Seller = fmt.Sprint(r.Seller, " and ", k)
				more = append(more, r)
			}
		}
		o := market.Options{Confidence: quoin.Some(rate(rapid.SampledFrom([]string{"50%", "80%", "95%"}).Draw(t, "confidence"))), Exponent: quoin.Some(factor("0.5"))}
		few, many := summarize(t, records, market.Basis{}, o), summarize(t, more, market.Basis{}, o)
		for i, q := range few.Quantiles {
			m := many.Quantiles[i]
			if outside(q.Bounds.Low, m.Bounds.Low, 1) || outside(q.Bounds.High, m.Bounds.High, -1) {
				t.Fatalf("%+v, with more of the same %+v", q, m)
			}
		}
		for _, u := range few.Used {
			p, ok := few.Position(u.Price).Get()
			m, _ := many.Position(u.Price).Get()
			if ok && (!p.Percentile.Equal(m.Percentile) || m.Interval.Low.Cmp(p.Interval.Low) < 0 || m.Interval.High.Cmp(p.Interval.High) > 0) {
				t.Fatalf("%+v, with more of the same %+v", p, m)
			}
		}
	})
}

// outside reports whether an end was lost or moved against a direction.
func outside(was, is quoin.Optional[quoin.Amount], up int) bool {
	a, had := was.Get()
	b, has := is.Get()
	return had && (!has || b.Cmp(a) == -up)
}

// The exponent's weight of the data, and so its pull from the default, grows
// with sellers who say the same; the interval never widens.
func TestMoreSellersWeighMore(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var records []comparables.Record
		for i := range rapid.IntRange(3, 12).Draw(t, "sellers") {
			for _, size := range []string{"A5", "A4", "A3"} {
				r := sold("web", fmt.Sprint("seller ", i), fmt.Sprint(rapid.IntRange(10, 99).Draw(t, "price")))
				r.Size = quoin.MustSize(size)
				records = append(records, r)
			}
		}
		more := slices.Clone(records)
		for _, r := range records {
			r.Seller += " too"
			more = append(more, r)
		}
		few, err := market.FitExponent(records, "print", market.Basis{}, market.Options{})
		many, and := market.FitExponent(more, "print", market.Basis{}, market.Options{})
		if err != nil || and != nil || many.DataWeight.Cmp(few.DataWeight) < 0 || width(many).Cmp(width(few)) > 0 {
			t.Fatalf("%+v\nwith more %+v", few, many)
		}
		if fit, ok := few.Fit.Get(); ok {
			low, high := fit.Exponent, few.Default
			if low.Cmp(high) > 0 {
				low, high = high, low
			}
			if hair := factor("0.00001"); few.Used.Add(hair).Cmp(low) < 0 || few.Used.Sub(hair).Cmp(high) > 0 {
				t.Fatalf("%s is not between %s and %s", few.Used, low, high)
			}
		}
	})
}

func width(x market.Exponent) quoin.Factor {
	r, _ := x.Interval.Get()
	return r.High.Sub(r.Low)
}

// hazen is the quantile with fractions, as the price rule "market" defines it:
// each venue the same, its records equally, at the middle of each weight.
func hazen(records []comparables.Record, share *big.Rat) *big.Rat {
	n := map[string]int64{}
	for _, r := range records {
		n[r.Venue]++
	}
	var before, at, value *big.Rat = new(big.Rat), nil, nil
	for _, r := range records { // sorted by price
		own := big.NewRat(1, n[r.Venue]*int64(len(n)))
		here := new(big.Rat).Add(before, new(big.Rat).Mul(own, big.NewRat(1, 2)))
		price := r.Price.Rat()
		if here.Cmp(share) >= 0 {
			if at == nil {
				return price
			}
			along := new(big.Rat).Quo(new(big.Rat).Sub(share, at), new(big.Rat).Sub(here, at))
			return along.Add(along.Mul(along, new(big.Rat).Sub(price, value)), value)
		}
		at, value = here, price
		before.Add(before, own)
	}
	return value
}

// With one seller to a record, quantiles are those of the rule.
func TestQuantilesAreThoseOfTheRule(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var records []comparables.Record
		for i, price := range rapid.SliceOfNDistinct(rapid.Int64Range(1, 90_000), 5, 30, rapid.ID).Draw(t, "prices") {
			venue := rapid.SampledFrom([]string{"web", "fair", "gallery"}).Draw(t, "venue")
			r := sold(venue, fmt.Sprint("seller ", i), "1")
			r.Price = quoin.AmountOf(price, 2)
			records = append(records, r)
		}
		slices.SortFunc(records, func(a, b comparables.Record) int { return a.Price.Cmp(b.Price) })
		s := summarize(t, records, market.Basis{}, market.Options{MinVenues: quoin.Some[int64](1)})
		n := rapid.Int64Range(0, 100).Draw(t, "share")
		q, ok := s.PriceAt(quoin.AmountOf(n, 2).Share(quoin.AmountOf(1, 0))).Get()
		if !ok {
			t.Fatal("no quantile")
		}
		off := new(big.Rat).Sub(q.Price.Rat(), hazen(records, big.NewRat(n, 100)))
		if off.Abs(off).Cmp(big.NewRat(1, 1_000_000_000_000)) > 0 {
			t.Fatalf("%s at %d%%, off by %s", q.Price, n, off.FloatString(20))
		}
	})
}

// On and Explain agree to the digit, whatever a record holds.
func TestExplained(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		b := drawBasis(t)
		for i, r := range drawRecords(t) {
			a, err := b.Bring(r, factor("0.37"))
			if err != nil {
				continue
			}
			trail := quoin.NewTrail(4)
			o, err := b.Explain(trail, quoin.InField("").Inside("basis"), r, quoin.InList("records", i), factor("0.37"))
			if err != nil || o.Value.String() != a.Price.Figure().String() || quoin.Replay(trail.Steps()) != nil {
				t.Fatalf("%s explained as %s, %v, %v", a.Price, o.Value, err, quoin.Replay(trail.Steps()))
			}
		}
	})
}
