package parcel_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel/parcel"
	"example.com/quoin/internal/problemtest"
)

// How many prints go in a box of 30 × 20 × 1 cm that grows by 2 cm for each, by what a band takes:
// just so many, and one fewer where it takes a hair less; in whole units and in others.
func TestGatesOfGrowingBoxes(t *testing.T) {
	within := func(l, w, h string) func(*parcel.PriceBand) {
		return func(b *parcel.PriceBand) { b.Within = &parcel.Sides{Length: q(l), Width: q(w), Height: q(h)} }
	}
	around := func(s string) func(*parcel.PriceBand) {
		return func(b *parcel.PriceBand) { b.LengthAndGirth = q(s) }
	}
	longest := func(s string) func(*parcel.PriceBand) {
		return func(b *parcel.PriceBand) { b.LongestSide = q(s) }
	}
	for _, c := range []struct {
		what string
		band func(*parcel.PriceBand)
		want int64
	}{
		{"30 + 2 × (20 + 13)", around("96 cm"), 6},
		{"a hair less around", around("95.99 cm"), 5},
		{"31 high", longest("31 cm"), 15},
		{"a hair lower", longest("30.99 cm"), 14},
		{"30 × 21 × 20", within("20 cm", "21 cm", "30 cm"), 10},
		{"a hair less of the second side", within("30 cm", "20 cm", "20.99 cm"), 9},
		{"30 × 20 × 19", within("19 cm", "30 cm", "20 cm"), 9},
		{"a hair less of the third", within("18.99 cm", "30 cm", "20 cm"), 8},
		{"longer than wide", within("31 cm", "31 cm", "20 cm"), 15},
		{"of what is too long nothing goes", longest("29 cm"), 0},
	} {
		for _, unit := range []struct{ length, grows string }{{"30 cm", "2 cm"}, {"299.99999999 mm", "2 cm"}, {"30 cm", "19.99999999 mm"}} {
			band := parcel.PriceBand{Mass: q("100 kg"), Price: amount("1.00")}
			c.band(&band)
			pl := parcel.ShippingTerms{
				Packings: []parcel.Packing{{ID: "box", Inside: quoin.MustSize("A4"), Holds: 20, Outside: sides(unit.length, "20 cm", "1 cm"), Grows: q(unit.grows), Mass: q("1 g")}},
				Tariff:   parcel.Tariff{ID: "post", Zones: []parcel.Zone{{ID: "home", Steps: []parcel.PriceBand{band}}}},
			}
			s, err := pl.Cheapest("home", parcel.Load{Sheet: quoin.MustSize("A4"), Mass: q("1 g")}, 20, nil)
			if (err != nil) != (c.want == 0) || s.Each != c.want {
				t.Errorf("%s, %s long, %s more each: %d, %v, want %d", c.what, unit.length, unit.grows, s.Each, err, c.want)
			}
		}
	}
}

// Of several bands that refuse a parcel the one that comes closest is named.
func TestNearestRefusal(t *testing.T) {
	for _, c := range []struct {
		what  string
		bands []parcel.PriceBand
		want  string
	}{
		{"longest", []parcel.PriceBand{{LongestSide: q("20 cm")}, {LongestSide: q("35 cm")}, {LongestSide: q("30 cm")}}, "found a parcel 400 mm long, wanted one of at most 35 cm"},
		{"girth", []parcel.PriceBand{{LengthAndGirth: q("110 cm")}, {LengthAndGirth: q("90 cm")}}, "found a parcel of 1200 mm length and girth, wanted one of at most 110 cm"},
		{"box", []parcel.PriceBand{{Within: &parcel.Sides{Length: q("10 cm"), Width: q("10 cm"), Height: q("10 cm")}}, {Within: &parcel.Sides{Length: q("39 cm"), Width: q("39 cm"), Height: q("39 cm")}}}, "found a parcel of 400 × 300 × 100 mm, wanted one within 39 cm × 39 cm × 39 cm"},
		{"mass", []parcel.PriceBand{{Mass: q("1 kg")}, {Mass: q("1.2 kg")}, {Mass: q("900 g")}}, "found a parcel charged as 1500 g, wanted one of at most 1.2 kg"},
		{"girth is looked at later", []parcel.PriceBand{{LongestSide: q("39 cm")}, {LengthAndGirth: q("90 cm")}}, "found a parcel of 1200 mm length and girth, wanted one of at most 90 cm"},
	} {
		for i := range c.bands {
			if c.bands[i].Price = amount("1.00"); c.bands[i].Mass.IsZero() {
				c.bands[i].Mass = q("2 kg")
			}
		}
		tariff := parcel.Tariff{ID: "post", Zones: []parcel.Zone{{ID: "home", Steps: c.bands}}}
		_, err := tariff.Price("home", parcel.Parcel{Outside: sides("30 cm", "40 cm", "10 cm"), Mass: q("1500 g")}, 1)
		if got, want := problemtest.Told(err), "fault "+c.want+" [no_tariff_step]"; got != want {
			t.Errorf("%s: %s, want %s", c.what, got, want)
		}
	}
	_, err := (&parcel.Dimensional{Divisor: quoin.MustFactor("5000"), Length: "length", Mass: "mass"}).Billable(sides("1 cm", "1 cm", "1 cm"), q("1 g"))
	if got, want := problemtest.Told(err), "fault dimensional.length: found \"length\", wanted a unit of length, such as cm [unit_mismatch]\nfault dimensional.mass: found \"mass\", wanted a unit of mass, such as kg [unit_mismatch]"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
}
