package comparables_test

import (
	"fmt"
	"math"
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/problemtest"
	"example.com/quoin/margin/comparables"
)

// What is refused of a record, in full; money may come to a hair less than 10^12.
func TestRecordsTold(t *testing.T) {
	sound := comparables.Record{Product: "heron", Venue: "web", Price: amount("40.00")}
	most, less := quoin.AmountOf(1_000_000_000_000, 0), amount("999999999999.99")
	for _, c := range []struct {
		what   string
		change func(*comparables.Record)
		want   string
	}{
		{"sound", func(*comparables.Record) {}, ""},
		{"nearly too much", func(r *comparables.Record) {
			r.Price, r.Postage, r.PostageOnTop, r.Framed, r.FrameWorth = less, less, less, true, quoin.Some(less)
		}, ""},
		{"too much", func(r *comparables.Record) {
			r.Price, r.Postage, r.PostageOnTop, r.Framed, r.FrameWorth = most, most, most, true, quoin.Some(most)
		}, `fault price: found 1000000000000, wanted a value below 10^12 [out_of_range]
fault postage: found 1000000000000, wanted a value below 10^12 [out_of_range]
fault postage_on_top: found 1000000000000, wanted a value below 10^12 [out_of_range]
fault frame_worth: found 1000000000000, wanted a value below 10^12 [out_of_range]`},
		{
			"no frame, and what it is worth", func(r *comparables.Record) { r.FrameWorth = worth("15.00") },
			`fault frame_worth: found what a frame is worth, of a print without one, wanted framed set to true beside it, or no frame_worth [stray_terms]`,
		},
		{"nothing", func(r *comparables.Record) { *r = comparables.Record{} }, `fault product: found nothing, wanted the field product [missing_field]
fault venue: found nothing, wanted the field venue [missing_field]
fault price: found nothing, wanted the field price [missing_field]`},
	} {
		r := sound
		c.change(&r)
		if got := problemtest.Told(r.Check()); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.what, got, c.want)
		}
	}
}

// The name of who sells, where it is one; and whoever has none counts once in each venue.
func TestPeopleSelling(t *testing.T) {
	for _, c := range []struct {
		who  [][2]string // venue and seller
		want string
	}{
		{nil, "0 "},
		{[][2]string{{"web", "ann"}}, "1 ann"},
		{[][2]string{{"web", "ann"}, {"shop", "ann"}}, "1 ann"},
		{[][2]string{{"web", ""}, {"web", ""}}, "1 "},
		{[][2]string{{"web", ""}, {"shop", ""}, {"shop", "bo"}}, "3 bo"},
	} {
		var records []comparables.Record
		for _, w := range c.who {
			records = append(records, comparables.Record{Venue: w[0], Seller: w[1], Price: amount("1.00")})
		}
		if n, name := comparables.NewList(records, quoin.Size{}).Rank(comparables.Choice{}).PeopleSelling(); fmt.Sprint(n, " ", name) != c.want {
			t.Errorf("%v: %d, %q, want %s", c.who, n, name, c.want)
		}
	}
}

// Powers of any exponent, few and many records, beside floats: the middle of 1.00 to n.00 at areas
// that grow.
func TestPowersBesideFloats(t *testing.T) {
	third := quoin.FactorOf(1).Over(quoin.FactorOf(3)) // its digits do not fit in 64 bits
	for _, exponent := range []quoin.Factor{quoin.MustFactor("0.0000000001").Times(quoin.MustFactor("0.0000000001")), quoin.MustFactor("0.3"), quoin.MustFactor("-0.7"), third, quoin.MustFactor("9.99"), quoin.FactorOf(-10)} {
		for _, n := range []int{5, 65, 101} {
			var records []comparables.Record
			for i := range n {
				side := 10 + (i*37)%n // in no order
				size, err := quoin.ParseSize(fmt.Sprintf("%d x 10 cm", side))
				if err != nil {
					t.Fatal(err)
				}
				records = append(records, comparables.Record{Venue: "web", Price: quoin.AmountOf(int64(i+1), 0), Size: size})
			}
			f, _ := exponent.Rat().Float64()
			size, _ := quoin.ParseSize("20 x 10 cm")
			r := comparables.NewList(records, size).Rank(comparables.Choice{Basis: &comparables.Basis{Exponent: quoin.Some(exponent)}})
			low, _, _, high, ok := r.Ends()
			least, most := math.Inf(1), 0.0
			for i := range n {
				price := float64(i+1) * math.Pow(20/float64(10+(i*37)%n), f)
				least, most = math.Min(least, price), math.Max(most, price)
			}
			gotLow, _ := low.Rat().Float64()
			gotHigh, _ := high.Rat().Float64()
			if !ok || math.Abs(gotLow-least) > 1e-9*least+1e-12 || math.Abs(gotHigh-most) > 1e-9*most {
				t.Errorf("%d to the power of %s: from %v to %v, want %v to %v", n, exponent, gotLow, gotHigh, least, most)
			}
		}
	}
	basis := comparables.Basis{Tax: quoin.MustRate("20%"), Exponent: quoin.Some(quoin.MustFactor("0.5"))}
	if got, want := basis.String(), "prices with 20% tax, without postage and frame, × area to the power of 0.5"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}
