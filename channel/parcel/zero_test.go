package parcel_test

import (
	"errors"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel/parcel"
	"example.com/quoin/internal/zerotest"
)

func TestZeroValues(t *testing.T) {
	all := []any{
		parcel.Dimensional{},
		parcel.SideRounding(""),
		parcel.Places{},
		parcel.Alternative{},
		parcel.Packing{},
		parcel.Sides{},
		parcel.Load{},
		parcel.Board{},
		parcel.Parcel{},
		parcel.CompiledTerms{},
		parcel.ShippingTerms{},
		parcel.Shipment{},
		parcel.PackingNotTaken{},
		parcel.PackedLoad{},
		parcel.Tariff{},
		parcel.Zone{},
		parcel.PriceBand{},
		parcel.Postage{},
	}
	zerotest.Complete(t, all...)
	zerotest.Calls(t, all...)
	zerotest.Printed(t, all...)
}

// What no CompiledTerms loaded goes into no packing.
func TestNothingLoaded(t *testing.T) {
	var d parcel.PackedLoad
	_, cheapest := d.Cheapest(1)
	_, next := d.Next(1)
	_, rise := d.Rise(1)
	for _, err := range []error{cheapest, next, rise} {
		if !errors.Is(err, quoin.Problem{Code: parcel.NothingFits, Path: "packings"}) {
			t.Errorf("%v", err)
		}
	}
}
