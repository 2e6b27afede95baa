package parcel_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel/parcel"
)

// What is given is said in a line, and nothing else.
func TestSaid(t *testing.T) {
	for want, of := range map[string]fmt.Stringer{
		`packing "tube": tube 430 mm, holds 5, outside (length 46 cm, width 8 cm, height 8 cm), mass 180 g`: parcel.Packing{ID: "tube", Tube: quoin.MustQuantity("430 mm"), Holds: 5, Outside: parcel.Sides{Length: quoin.MustQuantity("46 cm"), Width: quoin.MustQuantity("8 cm"), Height: quoin.MustQuantity("8 cm")}, Mass: quoin.MustQuantity("180 g")},
		`price band: mass 2 kg, classes ["stiff" "rigid"], price 5.50, additional 0`:                        parcel.PriceBand{Mass: quoin.MustQuantity("2 kg"), Classes: []string{"stiff", "rigid"}, Price: quoin.MustAmount("5.50"), Additional: quoin.Some(quoin.Amount{})},
	} {
		if got := of.String(); got != want {
			t.Errorf("%s\nwant %s", got, want)
		}
	}
}
