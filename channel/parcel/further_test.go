package parcel_test

import (
	"errors"
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel/parcel"
)

// Every parcel after the first costs the additional price of its own step. Up to
// 100 g a parcel is 2.30, a further one 1.26; up to 200 g it is 2.83 with nothing
// said of further ones. An envelope of 40 g with prints of 50 g holds 3: one print
// is 90 g, three are 190 g. Of four, three go for 2.83 and the last for 1.26; at its
// price as a first parcel it would be 5.13 in all.
func TestLastParcelIsAFurtherOne(t *testing.T) {
	plan := func(steps ...parcel.PriceBand) parcel.ShippingTerms {
		return parcel.ShippingTerms{
			Packings: []parcel.Packing{{
				ID: "envelope", Inside: quoin.MustSize("A3"), Holds: 3, Mass: q("40 g"),
				Outside: parcel.Sides{Length: q("45 cm"), Width: q("32 cm"), Height: q("1 cm")},
			}},
			Tariff: parcel.Tariff{ID: "post", Zones: []parcel.Zone{{ID: "home", Steps: steps}}},
		}
	}
	step := func(mass, price, additional string) parcel.PriceBand {
		s := parcel.PriceBand{Mass: q(mass), Price: amount(price)}
		if additional != "" {
			s.Additional = quoin.Some(amount(additional))
		}
		return s
	}
	load := parcel.Load{Sheet: quoin.MustSize("A4"), Mass: q("50 g")}
	light, heavy := step("100 g", "2.30", "1.26"), step("200 g", "2.83", "")
	for _, c := range []struct {
		what           string
		plan           parcel.ShippingTerms
		prints         int64
		step, lastStep int
		postage        string
	}{
		{"three and one", plan(light, heavy), 4, 1, 0, "4.09"},
		{"three", plan(light, heavy), 3, 1, 1, "2.83"},
		// Equal parcels go by one step: 2.30 + 1.26, against 2.83 for both together.
		{"two", plan(light, heavy), 2, 1, 1, "2.83"},
		{"two where one at a time is cheaper", plan(light, step("200 g", "4.00", "")), 2, 0, 0, "3.56"},
		// 2.83 + 2.83 + 1.26.
		{"three, three and one", plan(light, heavy), 7, 1, 0, "6.92"},
		// A last parcel of one goes by either step: the one at which a further parcel costs less.
		{"a heavier step whose further parcels are cheaper", plan(light, step("200 g", "2.83", "1.00")), 4, 1, 1, "3.83"},
		{"a step whose further parcels are dearer than its first", plan(step("100 g", "0.50", "3.00"), heavy), 4, 1, 1, "5.66"},
	} {
		s, err := c.plan.Cheapest("home", load, c.prints, nil)
		if err != nil || s.Step != c.step || s.LastStep != c.lastStep || !s.Postage.Equal(amount(c.postage)) {
			t.Errorf("%s: %+v, %v, want %s by steps %d and %d", c.what, s, err, c.postage, c.step, c.lastStep)
		}
		trail := quoin.NewTrail(4)
		if got, _ := c.plan.ExplainPostage(trail, parcel.Places{}, load, s).Value.Amount(); !got.Equal(s.Postage) {
			t.Errorf("%s: explained as %s, computed as %s", c.what, got, s.Postage)
		}
	}
}

// A problem names a dozen zones, and how many more there are.
func TestZonesAreListedShort(t *testing.T) {
	pl := parcel.ShippingTerms{Packings: []parcel.Packing{{ID: "flat", Inside: quoin.MustSize("A4"), Holds: 1, Outside: parcel.Sides{
		Length: quoin.MustQuantity("33 cm"), Width: quoin.MustQuantity("24 cm"), Height: quoin.MustQuantity("1 cm"),
	}, Mass: quoin.MustQuantity("50 g")}}, Tariff: parcel.Tariff{ID: "post"}}
	for i := range 100 {
		pl.Tariff.Zones = append(pl.Tariff.Zones, parcel.Zone{ID: fmt.Sprintf("zone-%03d", i), Steps: []parcel.PriceBand{{Mass: quoin.MustQuantity("2 kg"), Price: quoin.MustAmount("5.00")}}})
	}
	pl.Tariff.Zones[1].ID = strings.Repeat("far", 100)
	_, err := pl.Cheapest("zone-1000", parcel.Load{Sheet: quoin.MustSize("A4"), Mass: quoin.MustQuantity("20 g")}, 1, nil)
	ps, ok := err.(quoin.Problems)
	if !ok || len(ps) != 1 || !strings.HasSuffix(ps[0].Wanted, "zone-011 and 88 more") || len(ps[0].Wanted) > 200 || ps[0].Near != "zone-000" {
		t.Errorf("%v", err)
	}
}

// A plan that is opened once sends each load as the plan does: in those of its
// packings that are named, whose places a shipment counts.
func TestPostsSendAsPlansDo(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		units := inUnits{rapid.SampledFrom([]quoin.Unit{"mm", "in"}).Draw(t, "length"), rapid.SampledFrom([]quoin.Unit{"g", "lb"}).Draw(t, "mass")}
		pl, load := drawPlan(t).write(units)
		post, err := pl.Compile()
		if err != nil {
			t.Fatal(err)
		}
		prints := rapid.Int64Range(1, 90).Draw(t, "prints")
		for _, packings := range [][]int{{0, 1}, {1}, {0}, {}} {
			some := parcel.ShippingTerms{Tariff: pl.Tariff}
			var costs []quoin.Amount
			for _, i := range packings {
				some.Packings = append(some.Packings, pl.Packings[i])
				costs = append(costs, quoin.AmountOf(int64(7*i), 0).Over(quoin.FactorOf(3)))
			}
			cost := func(id string) quoin.Amount {
				if id == pl.Packings[0].ID {
					return quoin.Amount{}
				}
				return quoin.AmountOf(7, 0).Over(quoin.FactorOf(3))
			}
			want, wantErr := some.Cheapest("home", load, prints, cost)
			loaded, err := post.Load("home", load, packings, costs)
			if fmt.Sprint(err) != fmt.Sprint(wantErr) {
				t.Fatalf("%v: %v, want %v", packings, err, wantErr)
			}
			if err != nil {
				continue
			}
			got, err := loaded.Cheapest(prints)
			next, err2 := loaded.Next(prints)
			rise, err3 := loaded.Rise(prints)
			wantNext, _ := some.Next("home", load, prints, cost)
			wantRise, _ := some.Rise("home", load, prints, cost)
			if fmt.Sprint(got, next, rise) != fmt.Sprint(want, wantNext, wantRise) || errors.Join(err, err2, err3) != nil {
				t.Fatalf("%v: %+v, %+v, %d, want %+v, %+v, %d", packings, got, next, rise, want, wantNext, wantRise)
			}
		}
	})
}

func TestPostsRefuse(t *testing.T) {
	if _, err := (parcel.ShippingTerms{}).Compile(); err == nil {
		t.Error("a plan without a zone is opened")
	}
}

// Packings of 7 ÷ 3 each: four prints in one parcel for 7.00, or in four for nothing,
// come to the same, 9.33…, and the first step is taken.
func TestTiesOfPackingsThatAreNoCents(t *testing.T) {
	pl := parcel.ShippingTerms{
		Packings: []parcel.Packing{{ID: "flat", Inside: quoin.MustSize("A4"), Holds: 4, Outside: parcel.Sides{
			Length: quoin.MustQuantity("33 cm"), Width: quoin.MustQuantity("24 cm"), Height: quoin.MustQuantity("1 cm"),
		}, Mass: quoin.MustQuantity("10 g")}},
		Tariff: parcel.Tariff{ID: "post", Zones: []parcel.Zone{{ID: "home", Steps: []parcel.PriceBand{
			{Mass: quoin.MustQuantity("500 g"), Price: quoin.MustAmount("7.00")}, {Mass: quoin.MustQuantity("60 g"), Price: quoin.MustAmount("0")},
		}}}},
	}
	third := func(string) quoin.Amount { return quoin.MustAmount("7.00").Over(quoin.FactorOf(3)) }
	s, err := pl.Cheapest("home", parcel.Load{Sheet: quoin.MustSize("A4"), Mass: quoin.MustQuantity("50 g")}, 4, third)
	if err != nil || s.Step != 0 || s.Parcels != 1 {
		t.Errorf("%+v, %v", s, err)
	}
}

// So many prints go in one parcel as the tariff takes them in one: by what is
// measured once as by the parcel on the scales.
func TestParcelsHoldWhatTariffsTake(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		n := func(name string, from, to int64) int64 { return rapid.Int64Range(from, to).Draw(t, name) }
		units := inUnits{rapid.SampledFrom([]quoin.Unit{"mm", "in"}).Draw(t, "length"), rapid.SampledFrom([]quoin.Unit{"g", "lb"}).Draw(t, "mass")}
		sides := func() parcel.Sides {
			return parcel.Sides{Length: units.len(n("length", 200, 500)), Width: units.len(n("width", 200, 500)), Height: units.len(n("height", 10, 500))}
		}
		box := parcel.Packing{ID: "box", Inside: quoin.MustSize("A6"), Holds: 60, Outside: sides(), Grows: units.len(n("grows", 0, 20)), Mass: units.weight(n("empty", 0, 90))}
		step := parcel.PriceBand{Mass: units.weight(n("up to", 100, 4000)), Additional: quoin.Some(quoin.MustAmount("9.00"))}
		switch n("kind", 0, 3) {
		case 0:
			step.LongestSide = units.len(n("longest", 200, 1200))
		case 1:
			step.LengthAndGirth = units.len(n("girth", 800, 4000))
		case 2:
			in := sides()
			step.Within = &in
		}
		tariff := parcel.Tariff{ID: "post", Zones: []parcel.Zone{{ID: "home", Steps: []parcel.PriceBand{step}}}}
		if rapid.Bool().Draw(t, "by volume") {
			tariff.Dimensional = &parcel.Dimensional{Divisor: quoin.FactorOf(n("divisor", 1, 20)), Length: "cm", Mass: "kg"}
			if from := n("from", 0, 900); from > 0 {
				tariff.Dimensional.From = quoin.Unit("ml").Times(quoin.FactorOf(from))
			}
		}
		load := parcel.Load{Sheet: quoin.MustSize("A6"), Mass: units.weight(n("each", 0, 90)), Board: parcel.Board{Mass: units.weight(n("board", 0, 50))}}
		if load.Mass.IsZero() || box.Mass.IsZero() || load.Board.Mass.IsZero() {
			t.Skip("nothing that weighs anything")
		}
		pl := parcel.ShippingTerms{Packings: []parcel.Packing{box}, Tariff: tariff}
		for prints := int64(1); prints <= 60; prints++ {
			_, refused := tariff.Price("home", box.Parcel(load, prints), 1)
			s, err := pl.Cheapest("home", load, prints, nil)
			if one := err == nil && s.Parcels == 1; one != (refused == nil) {
				t.Fatalf("%d prints go in one parcel: %t; the tariff says %v", prints, one, refused)
			}
		}
	})
}
