package market_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"example.com/quoin"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/market"
)

func TestCheck(t *testing.T) {
	good := sold("web", "ann", "40")
	with := func(change func(*comparables.Record)) comparables.Record {
		r := good
		change(&r)
		return r
	}
	for _, c := range []struct {
		record comparables.Record
		want   string
	}{
		{good, ""},
		{with(func(r *comparables.Record) { r.Product, r.Venue = "", "" }), "missing_field product, missing_field venue"},
		{with(func(r *comparables.Record) { r.Price = amount("0") }), "out_of_range price"},
		{with(func(r *comparables.Record) { r.Price = amount("-1") }), "out_of_range price"},
		{with(func(r *comparables.Record) { r.Price = amount("999999999999").Times(factor("999999999999")) }), "out_of_range price"},
		{with(func(r *comparables.Record) { r.Sold, r.Edition = -1, -1 }), "out_of_range sold, out_of_range edition"},
		{with(func(r *comparables.Record) { r.Tax = rate("-100%") }), "out_of_range tax"},
		{with(func(r *comparables.Record) { r.Tax = rate("101%") }), "out_of_range tax"},
		{with(func(r *comparables.Record) { r.Postage, r.PostageOnTop = amount("-1"), amount("-1") }), "out_of_range postage, out_of_range postage_on_top"},
		{with(func(r *comparables.Record) { r.FrameWorth = quoin.Some(amount("5")) }), "stray_terms frame_worth"},
		{with(func(r *comparables.Record) { r.Framed, r.FrameWorth = true, quoin.Some(amount("-5")) }), "out_of_range frame_worth"},
	} {
		err := c.record.Check()
		if got := codes(err); got != c.want {
			t.Errorf("%+v: %s, wanted %s", c.record, got, c.want)
		}
		if _, on := (market.Basis{}).Bring(c.record, quoin.Factor{}); (on == nil) != (err == nil) {
			t.Errorf("%+v: On says %v", c.record, on)
		}
		listed := strings.Split(c.want, ", ")
		for i := range listed {
			listed[i] = strings.Replace(listed[i], " ", " records[1].", 1)
		}
		if got, want := codes(market.Check([]comparables.Record{good, c.record})), strings.Join(listed, ", "); got != want {
			t.Errorf("in a list: %s, wanted %s", got, want)
		}
	}
}

func codes(err error) string {
	var found quoin.Problems
	errors.As(err, &found)
	var out []string
	for _, p := range found {
		out = append(out, fmt.Sprint(p.Code, " ", p.Path))
	}
	return strings.Join(out, ", ")
}

func TestOptions(t *testing.T) {
	n := quoin.Some[int64]
	for _, c := range []struct {
		options market.Options
		want    string
	}{
		{market.Options{}, ""},
		{
			market.Options{MinSold: n(0), MinSales: n(0), MinVenues: n(-1), MinSizes: n(1), MaxDays: n(-1)},
			"out_of_range min_sold, out_of_range min_sales, out_of_range min_venues, out_of_range min_sizes, out_of_range max_days",
		},
		{
			market.Options{Exponent: quoin.Some(factor("11")), DefaultExponent: quoin.Some(factor("-11")), ExponentSpread: quoin.Some(factor("0"))},
			"out_of_range exponent, out_of_range default_exponent, out_of_range exponent_spread",
		},
		{
			market.Options{Confidence: quoin.Some(rate("100%")), OutlierSpreads: quoin.Some(factor("-1"))},
			"out_of_range confidence, out_of_range outlier_spreads",
		},
		{market.Options{Quantiles: []quoin.Rate{rate("50%"), rate("101%")}}, "out_of_range quantiles[1]"},
		{market.Options{Quantiles: make([]quoin.Rate, 101)}, "too_many quantiles"},
	} {
		if got := codes(c.options.Check()); got != c.want {
			t.Errorf("%s, wanted %s", got, c.want)
		}
		if _, err := market.Summarize(nil, "print", market.Basis{}, c.options); codes(err) != c.want {
			t.Errorf("summary: %v, wanted %s", err, c.want)
		}
	}
	_, err := market.Summarize([]comparables.Record{{}}, "print", market.Basis{Tax: rate("-5%")}, market.Options{Without: []int{0, 1, -1}})
	want := "missing_field records[0].product, missing_field records[0].venue, missing_field records[0].price, " +
		"out_of_range basis.tax, out_of_range without[1], out_of_range without[2]"
	if got := codes(err); got != want {
		t.Errorf("%s, wanted %s", got, want)
	}
}

// Nothing panics, hangs or makes a number that is none.
func TestHostile(t *testing.T) {
	many := func(n int, change func(i int, r *comparables.Record)) []comparables.Record {
		out := make([]comparables.Record, n)
		for i := range out {
			out[i] = sold([]string{"web", "fair"}[i%2], fmt.Sprint("seller ", i), "40")
			out[i].Size = quoin.MustSize([]string{"A3", "A4", "A5"}[i%3])
			change(i, &out[i])
		}
		return out
	}
	tiny, huge := quoin.AmountOf(1, 64), amount("999999999999.99999999")
	for _, c := range []struct {
		name    string
		records []comparables.Record
	}{
		{"none", nil},
		{"one", many(1, func(int, *comparables.Record) {})},
		{"equal", many(20, func(int, *comparables.Record) {})},
		{"all the same", many(20, func(_ int, r *comparables.Record) { r.Seller, r.Size = "ann", quoin.MustSize("A4") })},
		{"huge", many(20, func(_ int, r *comparables.Record) { r.Price, r.Sold, r.Edition = huge, 1<<63-1, 1<<63-1 })},
		{"tiny and huge", many(20, func(i int, r *comparables.Record) { r.Price = []quoin.Amount{tiny, huge}[i%2] })},
		{"tiny and huge by size", many(21, func(i int, r *comparables.Record) { r.Price = []quoin.Amount{tiny, amount("1"), huge}[i%3] })},
		{"sizes far apart", many(21, func(i int, r *comparables.Record) {
			r.Size = quoin.MustSize([]string{"0.000000000001 x 1 mm", "A4", "999999999999 x 1 m"}[i%3])
		})},
		{"sizes all but equal", many(21, func(i int, r *comparables.Record) {
			r.Size = quoin.MustSize([]string{"210 x 297 mm", "210 x 297.000000000001 mm", "210 x 297.000000000002 mm"}[i%3])
			r.Price = quoin.AmountOf(int64(40+i*i), 0)
		})},
	} {
		for _, b := range []market.Basis{{}, {Tax: rate("100%"), Size: quoin.MustSize("A4")}} {
			for _, o := range []market.Options{{}, {ExponentSpread: quoin.Some(factor("0.0000000000000001"))}, {ExponentSpread: quoin.Some(factor("10")), Confidence: quoin.Some(rate("99.9%"))}} {
				s := summarize(t, c.records, b, o)
				text, err := json.Marshal(s)
				if err != nil || strings.Contains(string(text), "NaN") || strings.Contains(string(text), "Inf") {
					t.Errorf("%s: %s, %v", c.name, text, err)
				}
				for _, price := range []quoin.Amount{{}, amount("-1"), tiny, amount("40"), huge} {
					if p, ok := s.Position(price).Get(); ok && (p.Percentile.Sign() < 0 || p.Interval.High.Cmp(rate("100%")) > 0) {
						t.Errorf("%s: %+v", c.name, p)
					}
				}
				for _, share := range []quoin.Rate{rate("-1%"), rate("0%"), rate("100%"), rate("101%")} {
					s.PriceAt(share)
				}
			}
		}
	}
	if s := (market.Summary{}); !s.Position(amount("1")).IsZero() || !s.PriceAt(rate("50%")).IsZero() {
		t.Error("an empty summary says something")
	}
	broken := market.Summary{Effective: quoin.Some(factor("0")), Centre: quoin.Some(amount("3"))}
	if !broken.Position(amount("1")).IsZero() || !broken.PriceAt(rate("50%")).IsZero() {
		t.Error("a summary without records says something")
	}
}

func TestBoundOnRecords(t *testing.T) {
	records := make([]comparables.Record, market.MostRecords+1)
	if got := codes(market.Check(records)); got != "too_many records" {
		t.Error(got)
	}
	var found quoin.Problems
	if errors.As(market.Check(records[1:]), &found); len(found) != 1001 || found[1000].Code != quoin.MoreProblems {
		t.Errorf("%d problems", len(found))
	}
	sizes := []quoin.Size{quoin.MustSize("A3"), quoin.MustSize("A4"), quoin.MustSize("A5")}
	for i := range records {
		records[i] = sold(fmt.Sprint("venue ", i%7), fmt.Sprint("seller ", i%999), fmt.Sprint(1+i%1009*(i%1009)%1009))
		records[i].Size = sizes[i%3]
		if i > 10_000 {
			records[i].Product = "another"
		}
	}
	s := summarize(t, records[1:], market.Basis{Size: quoin.MustSize("A4")}, market.Options{})
	if len(s.Used) != 10_000 || s.Others != 90_000 || s.Sellers != 999 {
		t.Errorf("%d of %d sellers", len(s.Used), s.Sellers)
	}
}

// Records are read as they were written.
func TestJSON(t *testing.T) {
	records := []comparables.Record{sold("web", "ann", "40"), {
		Product: "print", Venue: "fair", Price: amount("99.50"), Date: quoin.MustDate("2026-02-28"), Size: quoin.MustSize("A3"), Sold: 3, Tax: rate("20%"),
		Postage: amount("5"), PostageOnTop: amount("3"), Edition: 50, Signed: true, Framed: true, FrameWorth: quoin.Some(amount("35")),
	}}
	text, err := json.Marshal(records)
	var read []comparables.Record
	if err != nil || json.Unmarshal(text, &read) != nil || !cmp.Equal(read, records) {
		t.Fatalf("%s, %v", text, err)
	}
	text, err = json.Marshal(records[0])
	if want := `{"product":"print","venue":"web","seller":"ann","price":"40","sold":1}`; err != nil || string(text) != want {
		t.Errorf("%s, %v", text, err)
	}
}
