package pricelist_test

import (
	"testing"

	"example.com/quoin"
)

// A sheet of 50 × 70 cm costs 6.00 and weighs 200 g a square metre. The print is cut of
// 20 × 30 cm, of which five come out of one: 1.20. The framed print has it as its base
// and gives a sheet of 25 × 35 cm of its own: the base's line still cuts 20 × 30 cm, and
// weighs 12 g; its own line cuts 25 × 35 cm, of which four come out, 1.50, and weighs
// 17.5 g. The image it does not give is the base's, and so is ink for it.
func TestSizesAreInheritedOneByOne(t *testing.T) {
	a := decidedShop(t, `{"version": 1, "currency": "EUR", "price_limit": "40.00",
		"supplies": [
			{"id": "paper", "quantity": "1 sheet", "price": "6.00", "grammage": "200 gsm", "sheet": {"size": "50 x 70 cm"}},
			{"id": "ink", "quantity": "10 ml", "price": "10.00"}],
		"products": [
			{"id": "print", "image": "10 x 20 cm", "sheet": "20 x 30 cm", "bill": [{"supply": "paper", "cut": {"of": "sheet"}}], "packing": {"tube": []}},
			{"id": "framed", "extends": "print", "sheet": "25 x 35 cm", "bill": [{"supply": "paper", "cut": {"of": "sheet", "bleed": "0 mm"}}, {"supply": "ink", "ink": {"per_m2": "50 ml"}}]}],
		"channels": [{"id": "post", "tariff": "post", "orders": [{"zone": "home"}]}],
		"packings": [{"id": "tube", "tube": "40 cm", "holds": 5, "mass": "100 g", "outside": {"length": "45 cm", "width": "8 cm", "height": "8 cm"}}],
		"tariffs": [{"id": "post", "zones": [{"id": "home", "steps": [{"mass": "1 kg", "price": "1.00"}]}]}],
		"rules": [{"id": "from", "rule": "price", "at_least": "20.00"}]}`)
	for i, want := range []struct{ goods, mass string }{{"1.20", "112 g"}, {"3.70", "129.5 g"}} {
		p := a.Products[i]
		if got := p.Channels[0].Statement.Goods; !got.Equal(quoin.MustAmount(want.goods)) {
			t.Errorf("%s: goods of %s, want %s", p.ID, got, want.goods)
		}
		if got := p.Parcels[0].Shipment.Mass; !got.Equal(quoin.MustQuantity(want.mass)) {
			t.Errorf("%s: a parcel weighs %s, want %s", p.ID, got, want.mass)
		}
	}
}

// What a cut weighs is the trimmed piece: 20 × 30 cm at 200 gsm are 12 g, whatever bleed
// is cut off, and however many are spoiled on the way.
func TestMassOfACutIsOfTheTrimmedPiece(t *testing.T) {
	a := decidedShop(t, `{"version": 1, "currency": "EUR", "price_limit": "40.00",
		"supplies": [{"id": "paper", "quantity": "1 sheet", "price": "6.00", "grammage": "200 gsm", "sheet": {"size": "50 x 70 cm"}}],
		"stages": [{"id": "press", "yield": "50%"}],
		"products": [{"id": "print", "sheet": "20 x 30 cm", "bill": [{"supply": "paper", "stage": "press", "cut": {"of": "sheet", "bleed": "5 mm"}}], "packing": {"tube": []}}],
		"channels": [{"id": "post", "tariff": "post", "orders": [{"items": 2, "zone": "home"}]}],
		"packings": [{"id": "tube", "tube": "40 cm", "holds": 5, "mass": "100 g", "outside": {"length": "45 cm", "width": "8 cm", "height": "8 cm"}}],
		"tariffs": [{"id": "post", "zones": [{"id": "home", "steps": [{"mass": "1 kg", "price": "1.00"}]}]}],
		"rules": [{"id": "from", "rule": "price", "at_least": "20.00"}]}`)
	if got := a.Products[0].Parcels[0].Shipment.Mass; !got.Equal(quoin.MustQuantity("124 g")) {
		t.Errorf("two prints in a tube of 100 g weigh %s, want 124 g", got)
	}
}
