package parcel_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel/parcel"
)

// Every parcel after the first costs the additional price of its own step. Up to
// 100 g a parcel is 2.30, a further one 1.26; up to 200 g it is 2.83 with nothing
// said of further ones. An envelope of 40 g with prints of 50 g holds 3: one print
// is 90 g, three are 190 g. Of four, three go for 2.83 and the last for 1.26; at its
// price as a first parcel it would be 5.13 in all.
func TestLastParcelIsAFurtherOne(t *testing.T) {
	plan := func(steps ...parcel.Step) parcel.Plan {
		return parcel.Plan{
			Packings: []parcel.Packing{{ID: "envelope", Inside: quoin.MustSize("A3"), Holds: 3, Mass: q("40 g"),
				Outside: parcel.Sides{Length: q("45 cm"), Width: q("32 cm"), Height: q("1 cm")}}},
			Tariff: parcel.Tariff{ID: "post", Zones: []parcel.Zone{{ID: "home", Steps: steps}}},
		}
	}
	step := func(mass, price, additional string) parcel.Step {
		s := parcel.Step{Mass: q(mass), Price: amount(price)}
		if additional != "" {
			s.Additional = quoin.Some(amount(additional))
		}
		return s
	}
	load := parcel.Load{Sheet: quoin.MustSize("A4"), Mass: q("50 g")}
	light, heavy := step("100 g", "2.30", "1.26"), step("200 g", "2.83", "")
	for _, c := range []struct {
		what           string
		plan           parcel.Plan
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
	pl := parcel.Plan{Packings: []parcel.Packing{{ID: "flat", Inside: quoin.MustSize("A4"), Holds: 1, Outside: parcel.Sides{
		Length: quoin.MustQuantity("33 cm"), Width: quoin.MustQuantity("24 cm"), Height: quoin.MustQuantity("1 cm"),
	}, Mass: quoin.MustQuantity("50 g")}}, Tariff: parcel.Tariff{ID: "post"}}
	for i := range 100 {
		pl.Tariff.Zones = append(pl.Tariff.Zones, parcel.Zone{ID: fmt.Sprintf("zone-%03d", i), Steps: []parcel.Step{{Mass: quoin.MustQuantity("2 kg"), Price: quoin.MustAmount("5.00")}}})
	}
	pl.Tariff.Zones[1].ID = strings.Repeat("far", 100)
	_, err := pl.Cheapest("zone-1000", parcel.Load{Sheet: quoin.MustSize("A4"), Mass: quoin.MustQuantity("20 g")}, 1, nil)
	ps, ok := err.(quoin.Problems)
	if !ok || len(ps) != 1 || !strings.HasSuffix(ps[0].Wanted, "zone-011 and 88 more") || len(ps[0].Wanted) > 200 || ps[0].Near != "zone-000" {
		t.Errorf("%v", err)
	}
}
