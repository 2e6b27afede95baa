package parcel_test

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/channel/parcel"
)

// marsh is the plan of an artist who prints marsh birds in lino. All prices
// are invented.
func marsh() parcel.ShippingTerms {
	return parcel.ShippingTerms{
		Packings: []parcel.Packing{
			{ID: "envelope", Inside: quoin.MustSize("A4"), Holds: 20, Depth: q("8 mm"), Outside: sides("32 cm", "23 cm", "1 cm"), Mass: q("60 g"), Class: "stiff"},
			{ID: "tube", Tube: q("43 cm"), Holds: 10, Outside: sides("46 cm", "8 cm", "8 cm"), Mass: q("180 g"), Class: "rigid"},
		},
		Tariff: parcel.Tariff{ID: "post", Zones: []parcel.Zone{{ID: "home", Steps: []parcel.PriceBand{
			{Name: "large letter", Mass: q("100 g"), Classes: []string{"flexible", "stiff"}, Price: amount("1.80")},
			{Name: "maxi letter", Mass: q("1 kg"), Within: &parcel.Sides{Length: q("35 cm"), Width: q("25 cm"), Height: q("5 cm")}, Price: amount("2.90")},
			{Name: "parcel", Mass: q("2 kg"), LongestSide: q("60 cm"), Price: amount("5.50"), Additional: quoin.Some(amount("3.00"))},
		}}}},
	}
}

func heron() parcel.Load {
	return parcel.Load{Sheet: quoin.MustSize("A4"), Thickness: q("0.5 mm"), Mass: q("20 g")}
}

func packings(id string) quoin.Amount {
	if id == "tube" {
		return amount("1.20")
	}
	return amount("0.45")
}

func ExampleShippingTerms_Cheapest() {
	for _, prints := range []int64{2, 3, 20} {
		s, err := marsh().Cheapest("home", heron(), prints, packings)
		if err != nil {
			fmt.Println(err)
			return
		}
		fmt.Printf("%d: %s, %d parcels of %d and %d, %s, postage %.2f, in all %.2f\n", prints, s.Packing, s.Parcels, s.Each, s.Last, s.Mass, s.Postage, s.Total)
		for _, o := range s.Others {
			fmt.Println("  not", o.Packing+":", o.Reason.Found)
		}
	}
	// Output:
	// 2: envelope, 1 parcels of 2 and 2, 100 g, postage 1.80, in all 2.25
	//   not tube: costs 6.70 in all
	// 3: envelope, 1 parcels of 3 and 3, 120 g, postage 2.90, in all 3.35
	//   not tube: costs 6.70 in all
	// 20: envelope, 2 parcels of 16 and 4, 380 g, postage 5.80, in all 6.70
	//   not tube: costs 10.90 in all
}

func ExampleShippingTerms_Cheapest_tooLarge() {
	poster := parcel.Load{Sheet: quoin.MustSize("A1"), Mass: q("150 g")}
	_, err := marsh().Cheapest("home", poster, 1, packings)
	fmt.Println(err)
	// Output:
	// packings[0]: found a sheet of 594 x 841 mm, wanted one within 210 x 297 mm [nothing_fits_parcel]
	// packings[1]: found a sheet of 594 x 841 mm, wanted one with a side of at most 43 cm [nothing_fits_parcel]
}

func ExampleShippingTerms_Next() {
	c, err := marsh().Next("home", heron(), 2, packings)
	fmt.Println(c.Cost, err)
	c, err = marsh().Next("home", heron(), 3, packings)
	fmt.Println(c.Cost, err)
	// Output:
	// 1.10 <nil>
	// 0.00 <nil>
}

func ExampleShippingTerms_Rise() {
	fmt.Println(marsh().Rise("home", heron(), 3, packings))
	// Output: 17 <nil>
}

func ExampleShippingTerms_Explain() {
	pl, l := marsh(), heron()
	s, _ := pl.Cheapest("home", l, 20, packings)
	trail := quoin.NewTrail(8)
	pl.Explain(trail, parcel.Places{Packing: quoin.InList("packings", s.Index), Load: quoin.InField("load"), Tariff: quoin.InList("tariffs", 0)}, l, s)
	for _, step := range trail.Steps() {
		fmt.Println(step.Code, step.At, step.Value.Long())
	}
	fmt.Println(quoin.Replay(trail.Steps()))
	// Output:
	// parcel_mass packings[0] 380
	// postage tariffs[0].zones[0].steps[1] 5.80
	// packing_cost packings[0] 0.90
	// cost_of_sending packings[0] 6.70
	// <nil>
}

func ExamplePacking_Room() {
	pl := marsh()
	fmt.Println(pl.Packings[0].Room(heron()), pl.Packings[1].Room(heron()))
	// Output: 16 10
}

func ExamplePacking_Parcel() {
	box := parcel.Packing{ID: "box", Inside: quoin.MustSize("A3"), Holds: 50, Outside: sides("45 cm", "32 cm", "2 cm"), Grows: q("1 mm"), Mass: q("210 g")}
	p := box.Parcel(parcel.Load{Sheet: quoin.MustSize("A3"), Mass: q("38 g")}, 10)
	fmt.Println(p.Outside.Height, p.Mass, box.Parcel(parcel.Load{Mass: q("38 g")}, 20).Mass)
	// Output: 30 mm 590 g 970 g
}

// A divisor of 5000, the result up to half kilograms (both invented): 60 × 40 ×
// 10.4 ÷ 5000 is 4.992, so 5 kg. With each side first taken up to a whole one,
// 60 × 40 × 11 ÷ 5000 is 5.28, so 5.5 kg.
func ExampleDimensional_Billable() {
	d := &parcel.Dimensional{Divisor: quoin.MustFactor("5000"), Length: "cm", Mass: "kg", Increment: q("0.5 kg")}
	box := sides("60 cm", "40 cm", "10.4 cm")
	fmt.Println(d.Billable(box, q("1.2 kg")))
	d.Sides = parcel.WholeUp
	fmt.Println(d.Billable(box, q("1.2 kg")))
	fmt.Println(d.Billable(box, q("7.3 kg")))
	// Output:
	// 5000 g <nil>
	// 5500 g <nil>
	// 7300 g <nil>
}

func ExampleTariff_Price() {
	p := parcel.Parcel{Outside: sides("46 cm", "8 cm", "8 cm"), Mass: q("300 g"), Class: "rigid"}
	got, err := marsh().Tariff.Price("home", p, 3)
	fmt.Println(got.Step, got.Price, err)
	p.Mass = q("2.4 kg")
	_, err = marsh().Tariff.Price("home", p, 1)
	fmt.Println(err)
	// Output:
	// 2 11.50 <nil>
	// found a parcel charged as 2400 g, wanted one of at most 2 kg [no_tariff_step]
}

func ExampleTariff_Check() {
	t := parcel.Tariff{ID: "post", Zones: []parcel.Zone{{ID: "home", Steps: []parcel.PriceBand{{Mass: q("5 cm"), Price: amount("-1")}}}}}
	fmt.Println(t.Check())
	// Output:
	// zones[0].steps[0].mass: found "5 cm", wanted a mass [unit_mismatch]
	// zones[0].steps[0].price: found -1, wanted a value of at least 0 [out_of_range]
}
