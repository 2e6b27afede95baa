package ink_test

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/cost/ink"
)

// An A4 image at 8 to 16 ml a square metre, in a printer that takes a third of
// all ink for itself.
func ExampleUse_Range() {
	u := ink.Use{
		PerM2: quoin.MustQuantity("12 ml"), PerM2Range: quoin.Between(quoin.MustQuantity("8 ml"), quoin.MustQuantity("16 ml")),
		Image: quoin.MustSize("190 x 277 mm"), Upkeep: ink.Upkeep{Share: quoin.MustRate("35%")},
	}
	likely, _ := u.Volume()
	r, err := u.Range()
	fmt.Printf("%.2f ml, %.2f to %.2f, %v\n", likely, r.Low, r.High, err)
	// Output: 0.97 ml, 0.65 to 1.30, <nil>
}

func ExampleUse_Likely() {
	u, err := ink.Use{Log: []ink.Job{
		{Area: quoin.MustQuantity("2 m2"), Volume: quoin.MustQuantity("21 ml")},
		{Area: quoin.MustQuantity("1 m2"), Volume: quoin.MustQuantity("15 ml")},
	}}.Likely()
	fmt.Println(u.PerM2, "from", u.PerM2Range.Low, "to", u.PerM2Range.High, err)
	_, err = ink.Use{RatedPages: 4500}.Likely()
	fmt.Println(err)
	// Output:
	// 12 ml from 10.5 ml to 15 ml <nil>
	// rated_pages: found a page yield, wanted what a square metre of image takes, as per_m2, log or spent; page yields rest on pages of text (ISO/IEC 24712), not on art; log a few jobs instead [rated_page_yield]
}

func ExampleUse_Volume() {
	v, err := ink.Use{PerM2: quoin.MustQuantity("12 ml"), Image: quoin.MustSize("500 x 500 mm")}.Volume()
	fmt.Println(v, err)
	// Output: 3 ml <nil>
}

func ExampleUse_Plausible() {
	p, unlikely := ink.Use{PerM2: quoin.MustQuantity("0.9 ml")}.Plausible()
	fmt.Println(unlikely, p.Found)
	// Output: true 0.9 ml for a square metre of image
}
