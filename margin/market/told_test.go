package market_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/problemtest"
	"example.com/quoin/internal/steptest"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/market"
)

// A framed print of half the area, sent for 6.00 of which 2.00 are on top, with a tax of 20% in its
// price; and one that is plain, on a basis that says nothing.
func TestLedger(t *testing.T) {
	trail, basis, at := quoin.NewTrail(8), quoin.Path{}.Sub("basis", -1), quoin.InList("comparables", 4)
	framed := sold("web", "ann", "101.00")
	framed.Postage, framed.PostageOnTop, framed.Framed, framed.FrameWorth, framed.Tax, framed.Size = amount("6.00"), amount("2.00"), true, quoin.Some(amount("37.00")), rate("20%"), quoin.MustSize("20 x 20 cm")
	for _, c := range []struct {
		b market.Basis
		r comparables.Record
	}{{market.Basis{Tax: rate("10%"), Size: quoin.MustSize("20 x 40 cm")}, framed}, {market.Basis{}, sold("web", "bo", "30.00")}} {
		if _, err := c.b.Explain(trail, basis, c.r, at, factor("1")); err != nil {
			t.Fatal(err)
		}
	}
	steptest.Ledger(t, "two records", trail.Steps(), `
		// 101 + 2 − 6 − 37 = 60; × 1.1 ÷ 1.2; twice as large, so twice as dear
		1 comparable_bare @comparables[4] (print): sum price @comparables[4].price 101.00, postage_on_top @comparables[4].postage_on_top 2.00, postage @comparables[4].postage −6.00, frame_worth @comparables[4].frame_worth −37.00 = 60.00
		2 comparable_taxed @comparables[4] (print): quotient comparable_bare #1 60.00, tax @basis.tax 1+10%, tax @comparables[4].tax 1+20% = 55.00
		3 comparable_area_ratio @comparables[4] (print): quotient size @basis.size 800 cm2, size @comparables[4].size 400 cm2 = 2
		4 comparable_sized @comparables[4] (print): product comparable_taxed #2 55.00, size_factor 2 = 110.00
		5 comparable_bare @comparables[4] (print): sum price @comparables[4].price 30.00, postage_on_top @comparables[4].postage_on_top or 0, postage @comparables[4].postage or −0, frame_worth @comparables[4].frame_worth or −0 = 30.00
		6 comparable_taxed @comparables[4] (print): quotient comparable_bare #5 30.00, tax @basis.tax or 1+0%, tax @comparables[4].tax or 1+0% = 30.00`)
}

// What cannot be brought to a basis, and what options do not take.
func TestProblemsTold(t *testing.T) {
	bring := func(change func(*comparables.Record), b market.Basis) error {
		r := sold("web", "ann", "60.00")
		change(&r)
		_, err := b.Bring(r, factor("10"))
		return err
	}
	a3 := market.Basis{Size: quoin.MustSize("A3")}
	_, options := market.Summarize([]comparables.Record{sold("web", "ann", "1")}, "print", market.Basis{Tax: rate("101%")}, market.Options{Without: []int{0, 1, -1}, MinSold: quoin.Some[int64](0)})
	for _, c := range []struct {
		what string
		err  error
		want string
	}{
		{"a frame", bring(func(r *comparables.Record) { r.Framed = true }, market.Basis{}), "fault frame_worth: found nothing, wanted what the frame is worth, to be taken off [frame_worth_unknown]"},
		{"all of it postage", bring(func(r *comparables.Record) { r.Postage = amount("60") }, market.Basis{}), "fault price: found 60.00, wanted a price above postage and frame [nothing_left_of_price]"},
		{"no size", bring(func(*comparables.Record) {}, a3), "fault size: found nothing, wanted a size, since the basis has one [comparable_without_size]"},
		{"too small", bring(func(r *comparables.Record) { r.Size = quoin.MustSize("1 x 1 cm") }, a3), "fault size: found 1 x 1 cm, wanted a size nearer to that of the basis [comparable_size_too_far]"},
		{"options", options, `fault basis.tax: found 101%, wanted a value of at least 0% and at most 100% [out_of_range]
fault min_sold: found 0, wanted a value of at least 1 [out_of_range]
fault without[1]: found 1, wanted a record from 0 to 0 [out_of_range]
fault without[2]: found -1, wanted a record from 0 to 0 [out_of_range]`},
	} {
		if got := problemtest.Told(c.err); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.what, got, c.want)
		}
	}
	_, err := market.Basis{}.Explain(quoin.NewTrail(1), quoin.InField("basis"), comparables.Record{Product: "print", Venue: "web", Price: amount("60"), Framed: true}, quoin.InList("comparables", 4), factor("1"))
	if got := problemtest.Told(err); got != "fault comparables[4].frame_worth: found nothing, wanted what the frame is worth, to be taken off [frame_worth_unknown]" {
		t.Error(got)
	}
}

// Records are old from an age in days on, counted through leap years: from 1 March 2024 to 1 March
// 2026 there are 365 + 365 days, from 28 February 2024 two more.
func TestOldRecords(t *testing.T) {
	for _, c := range []struct{ today, seen, most, want string }{
		{"2026-03-01", "2024-03-01", "", "old"},
		{"2026-02-28", "2024-03-01", "", ""},
		{"2026-03-01", "2024-02-28", "732", "old"},
		{"2026-03-01", "2024-02-28", "733", ""},
		{"2026-03-01", "2026-02-28", "1", "old"},
		{"2024-03-01", "2024-02-28", "2", "old"},
		{"2024-03-01", "2024-02-28", "3", ""},
		{"2100-03-01", "2100-02-28", "2", ""},
		{"2026-01-01", "2025-01-01", "365", "old"},
		{"2026-01-01", "2025-01-01", "366", ""},
		{"2025-01-01", "2024-01-01", "366", "old"},
		{"2026-08-01", "2026-07-01", "31", "old"},
		{"2026-08-01", "2026-07-01", "32", ""},
		{"2026-07-01", "2026-06-01", "31", ""},
		{"2026-12-31", "2026-01-31", "334", "old"},
		{"2026-12-31", "2026-01-31", "335", ""},
		{"2026-03-01", "", "", "undated"},
		{"", "2024-03-01", "0", ""},
	} {
		r, o := sold("web", "ann", "60"), market.Options{}
		if c.seen != "" {
			r.Date = quoin.MustDate(c.seen)
		}
		if c.today != "" {
			o.Today = quoin.MustDate(c.today)
		}
		if c.most != "" {
			n, _ := quoin.MustFactor(c.most).Units(0)
			o.MaxDays = quoin.Some(n)
		}
		m, got := summarize(t, []comparables.Record{r}, market.Basis{}, o).Collect, ""
		if len(m.Old) > 0 {
			got += "old"
		}
		if len(m.Undated) > 0 {
			got += "undated"
		}
		if got != c.want {
			t.Errorf("seen %s, on %s, from %s days on: %q, want %q", c.seen, c.today, c.most, got, c.want)
		}
	}
}

// Why records do not count, and what there is to collect; shares that are not given are these five.
func TestDefaultsAndReasons(t *testing.T) {
	few := sold("fair", "bo", "20")
	few.Sold = 2
	asked := sold("fair", "", "20")
	asked.Sold = 0
	records := []comparables.Record{few, asked, sold("web", "ann", "20"), sold("web", "", "30"), sold("fair", "cy", "40"), sold("fair", "di", "50"), sold("fair", "ed", "60")}
	for i := range records[2:] {
		records[2+i].Sold = 3
	}
	s := summarize(t, records, market.Basis{}, market.Options{MinSold: quoin.Some[int64](3)})
	if got := fmt.Sprint(s.LeftOut); got != "[{0 sold_too_few} {1 asked_only}]" && got != fmt.Sprint([]market.LeftOut{{Record: 0, Code: comparables.SoldTooFew}, {Record: 1, Code: comparables.AskedOnly}}) {
		t.Errorf("left out %s", got)
	}
	var shares []string
	for _, q := range s.Quantiles {
		shares = append(shares, q.Share.String())
	}
	if fmt.Sprint(shares) != "[10% 25% 50% 75% 90%]" || !s.Confidence.Equal(rate("95%")) || fmt.Sprint(s.Collect.WithoutSeller, s.Collect.AskedOnly) != "[3] [1]" {
		t.Errorf("%v at %s, %+v", shares, s.Confidence, s.Collect)
	}
	if none, given := s.Position(quoin.Amount{}).Get(); given {
		t.Errorf("nothing stands at %v", none)
	}
	if _, given := s.Position(amount("0.01")).Get(); !given {
		t.Error("a cent stands nowhere")
	}
}
