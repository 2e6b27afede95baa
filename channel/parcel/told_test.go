package parcel_test

import (
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel/parcel"
	"example.com/quoin/internal/problemtest"
	"example.com/quoin/internal/steptest"
)

// bulky is a box that grows by 2 cm a print, which a carrier charges for by its size from 2 l on:
// 5000 cm³ to the kg, whole sides, in half kilos.
func bulky(measured parcel.SideRounding) parcel.ShippingTerms {
	return parcel.ShippingTerms{
		Packings: []parcel.Packing{
			{ID: "bag", Inside: quoin.MustSize("A6"), Holds: 5, Outside: sides("20 cm", "15 cm", "1 cm"), Mass: q("10 g")},
			{ID: "box", Name: "Box, grows", Inside: quoin.MustSize("A4"), Holds: 4, Outside: sides("30.4 cm", "20 cm", "3 mm"), Grows: q("20 mm"), Mass: q("200 g")},
		},
		Tariff: parcel.Tariff{
			ID: "post", Dimensional: &parcel.Dimensional{Divisor: quoin.MustFactor("5000"), Length: "cm", Mass: "kg", Sides: measured, Increment: q("0.5 kg"), From: q("2 l")},
			Zones: []parcel.Zone{{ID: "abroad", Steps: []parcel.PriceBand{{Mass: q("1 g"), Price: amount("99.00")}}}, {ID: "home", Steps: []parcel.PriceBand{
				{Mass: q("500 g"), Price: amount("2.00")}, {Mass: q("1 kg"), Price: amount("4.00"), Additional: quoin.Some(amount("3.00"))}, {Mass: q("5 kg"), Price: amount("9.00")},
			}}},
		},
	}
}

func shippingSteps(t *testing.T, pl parcel.ShippingTerms, l parcel.Load, prints int64) []quoin.Step {
	t.Helper()
	s, err := pl.Cheapest("home", l, prints, func(string) quoin.Amount { return amount("0.50") })
	if err != nil {
		t.Fatal(err)
	}
	trail := quoin.NewTrail(20)
	at := parcel.Places{Packing: quoin.InList("packings", 4), Load: quoin.InList("products", 2), Tariff: quoin.InList("tariffs", 1)}
	total := pl.Explain(trail, at, l, s)
	if a, _ := total.Value.Amount(); !a.Equal(s.Total) {
		t.Errorf("explained as %s, computed as %s", total.Value, s.Total)
	}
	return trail.Steps()
}

func TestLedgers(t *testing.T) {
	light := parcel.Load{Sheet: quoin.MustSize("A4"), Mass: q("100 g"), Board: parcel.Board{Mass: q("50 g")}}
	for _, c := range []struct {
		what   string
		pl     parcel.ShippingTerms
		l      parcel.Load
		prints int64
		want   string
	}{
		{"sides up", bulky(parcel.WholeUp), light, 7, ledgerUp},
		{"nearest sides, and too small", bulky(parcel.WholeNearest), parcel.Load{Sheet: quoin.MustSize("A4"), Mass: q("100 g")}, 1, ledgerNearest},
		{"by mass", marsh(), heron(), 35, ledgerByMass},
	} {
		steptest.Ledger(t, c.what, shippingSteps(t, c.pl, c.l, c.prints), c.want)
	}
}

const ledgerUp = `
	// three in a box: 200 + 300 + 50 g; 3 + 3 × 20 mm high
	1 parcel_mass @packings[4] (Box, grows): weighted empty packing @packings[4].mass 200 g, once 1, one print @products[2].mass 100 g, prints 3, board @products[2].board.mass 50 g, once 1 = 550
	2 parcel_height @packings[4].outside (Box, grows): weighted height @packings[4].outside.height 3 mm, once 1, grows @packings[4].grows 20 mm, prints 3 = 63
	// 31 × 20 × 7 ÷ 5000 = 0.868 kg, so 1 kg; 30.4 × 20 × 6.3 cm are 3.8 l, which count
	3 parcel_side @packings[4].outside (Box, grows): quotient length @packings[4].outside.length 304 mm, mm in 1 cm 10 = 30.4 up 31
	4 parcel_side @packings[4].outside (Box, grows): quotient width @packings[4].outside.width 200 mm, mm in 1 cm 10 = 20 up 20
	5 parcel_side @packings[4].outside (Box, grows): quotient parcel_height #2 63, mm in 1 cm 10 = 6.3 up 7
	6 dimensional_mass @tariffs[1].dimensional (Box, grows): quotient parcel_side #3 31, parcel_side #4 20, parcel_side #5 7, divisor @tariffs[1].dimensional.divisor 5000 = 0.868
	7 dimensional_grams @tariffs[1].dimensional (Box, grows): product dimensional_mass #6 0.868, g in 1 kg 1000 = 868
	8 dimensional_counts @tariffs[1].dimensional (Box, grows): quotient dimensional_grams #7 868, increment @tariffs[1].dimensional.increment 500 g = 1.736 up 2
	9 dimensional_raised @tariffs[1].dimensional (Box, grows): product dimensional_counts #8 2, increment @tariffs[1].dimensional.increment 500 g = 1000
	10 parcel_volume @packings[4].outside (Box, grows): quotient length @packings[4].outside.length 304 mm, width @packings[4].outside.width 200 mm, parcel_height #2 63, mm3 in 1 ml 1000 = 3830.4
	11 volume_not_counted @tariffs[1].dimensional (Box, grows): below dimensional_raised #9 1000, parcel_volume #10 3830.4, from @tariffs[1].dimensional.from 2000 ml = 0
	12 dimensional_counted @tariffs[1].dimensional (Box, grows): sum dimensional_raised #9 1000, volume_not_counted #11 −0 = 1000
	13 billable_mass @tariffs[1] (Box, grows): greatest parcel_mass #1 550, dimensional_counted #12 1000 = 1000
	14 parcel_mass @packings[4] (Box, grows): weighted empty packing @packings[4].mass 200 g, once 1, one print @products[2].mass 100 g, prints 1, board @products[2].board.mass 50 g, once 1 = 350
	15 parcel_height @packings[4].outside (Box, grows): weighted height @packings[4].outside.height 3 mm, once 1, grows @packings[4].grows 20 mm, prints 1 = 23
	16 parcel_side @packings[4].outside (Box, grows): quotient length @packings[4].outside.length 304 mm, mm in 1 cm 10 = 30.4 up 31
	17 parcel_side @packings[4].outside (Box, grows): quotient width @packings[4].outside.width 200 mm, mm in 1 cm 10 = 20 up 20
	18 parcel_side @packings[4].outside (Box, grows): quotient parcel_height #15 23, mm in 1 cm 10 = 2.3 up 3
	19 dimensional_mass @tariffs[1].dimensional (Box, grows): quotient parcel_side #16 31, parcel_side #17 20, parcel_side #18 3, divisor @tariffs[1].dimensional.divisor 5000 = 0.372
	20 dimensional_grams @tariffs[1].dimensional (Box, grows): product dimensional_mass #19 0.372, g in 1 kg 1000 = 372
	21 dimensional_counts @tariffs[1].dimensional (Box, grows): quotient dimensional_grams #20 372, increment @tariffs[1].dimensional.increment 500 g = 0.744 up 1
	22 dimensional_raised @tariffs[1].dimensional (Box, grows): product dimensional_counts #21 1, increment @tariffs[1].dimensional.increment 500 g = 500
	23 parcel_volume @packings[4].outside (Box, grows): quotient length @packings[4].outside.length 304 mm, width @packings[4].outside.width 200 mm, parcel_height #15 23, mm3 in 1 ml 1000 = 1398.4
	24 volume_not_counted @tariffs[1].dimensional (Box, grows): below dimensional_raised #22 500, parcel_volume #23 1398.4, from @tariffs[1].dimensional.from 2000 ml = 500
	25 dimensional_counted @tariffs[1].dimensional (Box, grows): sum dimensional_raised #22 500, volume_not_counted #24 −500 = 0
	26 billable_mass @tariffs[1] (Box, grows): greatest parcel_mass #14 350, dimensional_counted #25 0 = 350
	27 postage @tariffs[1].zones[1].steps[1] (Box, grows): weighted price @tariffs[1].zones[1].steps[1].price 4.00, once 1, each further parcel @tariffs[1].zones[1].steps[1].additional 3.00, further parcels 1, last parcel @tariffs[1].zones[1].steps[0].price 2.00, once 1 = 9.00
	28 packing_cost @packings[4] (Box, grows): product one packing @packings[4] 0.50, parcels 3 = 1.50
	29 cost_of_sending @packings[4] (Box, grows): sum postage #27 9.00, packing_cost #28 1.50 = 10.50`

const ledgerNearest = `
	1 parcel_mass @packings[4] (Box, grows): weighted empty packing @packings[4].mass 200 g, once 1, one print @products[2].mass 100 g, prints 1 = 300
	2 parcel_height @packings[4].outside (Box, grows): weighted height @packings[4].outside.height 3 mm, once 1, grows @packings[4].grows 20 mm, prints 1 = 23
	3 parcel_side @packings[4].outside (Box, grows): quotient length @packings[4].outside.length 304 mm, mm in 1 cm 10 = 30.4 half_up 30
	4 parcel_least_side @packings[4].outside (Box, grows): greatest at least 1, parcel_side #3 30 = 30
	5 parcel_side @packings[4].outside (Box, grows): quotient width @packings[4].outside.width 200 mm, mm in 1 cm 10 = 20 half_up 20
	6 parcel_least_side @packings[4].outside (Box, grows): greatest at least 1, parcel_side #5 20 = 20
	7 parcel_side @packings[4].outside (Box, grows): quotient parcel_height #2 23, mm in 1 cm 10 = 2.3 half_up 2
	8 parcel_least_side @packings[4].outside (Box, grows): greatest at least 1, parcel_side #7 2 = 2
	// 30 × 20 × 2 ÷ 5000 = 0.24 kg, so 0.5 kg, but 1.4 l do not count
	9 dimensional_mass @tariffs[1].dimensional (Box, grows): quotient parcel_least_side #4 30, parcel_least_side #6 20, parcel_least_side #8 2, divisor @tariffs[1].dimensional.divisor 5000 = 0.24
	10 dimensional_grams @tariffs[1].dimensional (Box, grows): product dimensional_mass #9 0.24, g in 1 kg 1000 = 240
	11 dimensional_counts @tariffs[1].dimensional (Box, grows): quotient dimensional_grams #10 240, increment @tariffs[1].dimensional.increment 500 g = 0.48 up 1
	12 dimensional_raised @tariffs[1].dimensional (Box, grows): product dimensional_counts #11 1, increment @tariffs[1].dimensional.increment 500 g = 500
	13 parcel_volume @packings[4].outside (Box, grows): quotient length @packings[4].outside.length 304 mm, width @packings[4].outside.width 200 mm, parcel_height #2 23, mm3 in 1 ml 1000 = 1398.4
	14 volume_not_counted @tariffs[1].dimensional (Box, grows): below dimensional_raised #12 500, parcel_volume #13 1398.4, from @tariffs[1].dimensional.from 2000 ml = 500
	15 dimensional_counted @tariffs[1].dimensional (Box, grows): sum dimensional_raised #12 500, volume_not_counted #14 −500 = 0
	16 billable_mass @tariffs[1] (Box, grows): greatest parcel_mass #1 300, dimensional_counted #15 0 = 300
	17 postage @tariffs[1].zones[1].steps[0] (Box, grows): weighted price @tariffs[1].zones[1].steps[0].price 2.00, once 1 = 2.00
	18 packing_cost @packings[4] (Box, grows): product one packing @packings[4] 0.50, parcels 1 = 0.50
	19 cost_of_sending @packings[4] (Box, grows): sum postage #17 2.00, packing_cost #18 0.50 = 2.50`

const ledgerByMass = `
	// 16 prints of 20 g; 35 take three envelopes, and the last of three prints goes as the others do
	1 parcel_mass @packings[4] (envelope): weighted empty packing @packings[4].mass 60 g, once 1, one print @products[2].mass 20 g, prints 16 = 380
	2 postage @tariffs[1].zones[0].steps[1] (envelope): weighted price @tariffs[1].zones[0].steps[1].price 2.90, once 1, each further parcel @tariffs[1].zones[0].steps[1].price 2.90, further parcels 2 = 8.70
	3 packing_cost @packings[4] (envelope): product one packing @packings[4] 0.50, parcels 3 = 1.50
	4 cost_of_sending @packings[4] (envelope): sum postage #2 8.70, packing_cost #3 1.50 = 10.20`

// All that is said of plans, loads and parcels that cannot be sent.
func TestProblemsTold(t *testing.T) {
	bad := marsh()
	bad.Packings = append(bad.Packings, bad.Packings[1])
	bad.Packings[1].Depth = q("5 mm")
	bad.Tariff.Zones = append(bad.Tariff.Zones, parcel.Zone{ID: "home", Steps: []parcel.PriceBand{}})
	bad.Tariff.Dimensional = &parcel.Dimensional{Divisor: quoin.MustFactor("5000"), Length: "kg", Mass: "cm", From: q("5 cm"), Increment: q("1 l")}
	named := marsh()
	named.Tariff.Dimensional = &parcel.Dimensional{Divisor: quoin.MustFactor("5000"), Length: "length", Mass: "mass"}
	price := func(s parcel.PriceBand, p parcel.Parcel) error {
		_, err := parcel.Tariff{ID: "post", Zones: []parcel.Zone{{ID: "home", Steps: []parcel.PriceBand{s}}}}.Price("home", p, 1)
		return err
	}
	p := parcel.Parcel{Outside: sides("30 cm", "40 cm", "10 cm"), Mass: q("1500 g"), Class: "stiff"}
	band := func(change func(*parcel.PriceBand)) parcel.PriceBand {
		s := parcel.PriceBand{Mass: q("2 kg"), Price: amount("1")}
		change(&s)
		return s
	}
	_, unknown := marsh().Cheapest("hame", heron(), 0, nil)
	_, many := marsh().Cheapest("home", heron(), 1_000_001, nil)
	huge := heron()
	huge.Sheet = quoin.MustSize("A0")
	_, fits := marsh().Cheapest("home", huge, 1, nil)
	thick := heron()
	thick.Thickness = q("9 mm")
	deep := marsh()
	deep.Packings = deep.Packings[:1]
	_, depth := deep.Cheapest("home", thick, 1, nil)
	heavy := heron()
	heavy.Mass = q("3 kg")
	_, mass := marsh().Cheapest("home", heavy, 1, nil)
	_, none := (parcel.PackedLoad{}).Cheapest(1)
	for _, c := range []struct {
		what string
		err  error
		want string
	}{
		{"a plan", bad.Check(), `fault tariff.dimensional.increment: found "1 l", wanted a mass [unit_mismatch]
fault tariff.dimensional.from: found "5 cm", wanted a volume [unit_mismatch]
fault packings[1].depth: found 5 mm of a tube, wanted how many rolled prints it holds, and no depth [stray_depth]
fault packings[2].id: found "tube" again, wanted an id that no other has [duplicate_id]
fault tariff.dimensional.length: found "kg", wanted a unit of length, such as cm [unit_mismatch]
fault tariff.dimensional.mass: found "cm", wanted a unit of mass, such as kg [unit_mismatch]
fault tariff.zones[1].id: found "home" again, wanted an id that no other has [duplicate_id]
fault tariff.zones[1].steps: found no steps, wanted the prices of the zone [empty_list]`},
		{"names of dimensions", named.Tariff.Check(), `fault dimensional.length: found "length", wanted a unit of length, such as cm [unit_mismatch]
fault dimensional.mass: found "mass", wanted a unit of mass, such as kg [unit_mismatch]`},
		{"an empty tariff", parcel.Tariff{ID: "post", Zones: []parcel.Zone{}}.Check(), `fault zones: found no zones, wanted a zone with its prices [empty_list]`},
		{"an unknown zone, and none", unknown, `fault prints: found 0, wanted a value of at least 1 and at most 1000000 [out_of_range]
fault zone: found "hame", wanted one of home; did you mean home? [unknown_zone]`},
		{"too many", many, `fault prints: found 1000001, wanted a value of at least 1 and at most 1000000 [out_of_range]`},
		{"nothing fits", fits, `fault packings[0]: found a sheet of 841 x 1189 mm, wanted one within 210 x 297 mm [nothing_fits_parcel]
fault packings[1]: found a sheet of 841 x 1189 mm, wanted one with a side of at most 43 cm [nothing_fits_parcel]`},
		{"too thick", depth, `fault packings[0]: found a print of 9 mm with its board, wanted at most 8 mm deep [nothing_fits_parcel]`},
		{"too heavy", mass, `fault packings[0]: found a parcel charged as 3060 g, wanted one of at most 2 kg [no_tariff_step]
fault packings[1]: found a parcel charged as 3180 g, wanted one of at most 2 kg [no_tariff_step]`},
		{"no packing", none, `fault packings: found no packing, wanted a packing [nothing_fits_parcel]`},
		{"by class", price(band(func(s *parcel.PriceBand) { s.Classes = []string{"rigid", "flexible"} }), p), `fault found a parcel of class "stiff", wanted one of class rigid, flexible; give the packing one of these classes, if it is so stiff [no_tariff_step]`},
		{"of no class", price(band(func(s *parcel.PriceBand) { s.Classes = []string{"rigid"} }), parcel.Parcel{Outside: p.Outside, Mass: p.Mass}), `fault found a parcel of no class, wanted one of class rigid; give the packing one of these classes, if it is so stiff [no_tariff_step]`},
		{"too long", price(band(func(s *parcel.PriceBand) { s.LongestSide = q("39.9 cm") }), p), `fault found a parcel 400 mm long, wanted one of at most 39.9 cm [no_tariff_step]`},
		{"just as long", price(band(func(s *parcel.PriceBand) { s.LongestSide = q("40 cm") }), p), ""},
		{"too thick around", price(band(func(s *parcel.PriceBand) { s.LengthAndGirth = q("119.9 cm") }), p), `fault found a parcel of 1200 mm length and girth, wanted one of at most 119.9 cm [no_tariff_step]`}, // 40 + 2 × (30 + 10)
		{"just as thick", price(band(func(s *parcel.PriceBand) { s.LengthAndGirth = q("120 cm") }), p), ""},
		{"no box", price(band(func(s *parcel.PriceBand) {
			s.Within = &parcel.Sides{Length: q("9 cm"), Width: q("50 cm"), Height: q("50 cm")}
		}), p), `fault found a parcel of 400 × 300 × 100 mm, wanted one within 9 cm × 50 cm × 50 cm [no_tariff_step]`},
		{"a box, turned", price(band(func(s *parcel.PriceBand) {
			s.Within = &parcel.Sides{Length: q("10 cm"), Width: q("40 cm"), Height: q("30 cm")}
		}), p), ""},
		{"a gram too heavy", price(band(func(s *parcel.PriceBand) { s.Mass = q("1499 g") }), p), `fault found a parcel charged as 1500 g, wanted one of at most 1499 g [no_tariff_step]`},
		{"just as heavy", price(band(func(s *parcel.PriceBand) { s.Mass = q("1.5 kg") }), p), ""},
	} {
		if got := problemtest.Told(c.err); got != c.want {
			t.Errorf("%s:\n%s\nwant\n%s", c.what, got, c.want)
		}
	}
}
