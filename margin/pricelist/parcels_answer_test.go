package pricelist_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel/parcel"
	"example.com/quoin/margin"
	"example.com/quoin/margin/pricelist"
)

// A print of 50 g in an envelope of 20 g and 0.25 that holds two, by a tariff of
// 2.00 up to 100 g and 4.00, each further one 3.00, up to 500 g. Half of the orders
// are of one print, half of five. All invented.
const sentByTariff = `{
  "version": 1, "currency": "EUR", "price_limit": "60.00",
  "supplies": [{"id": "kit", "quantity": "10 kit", "price": "40.00"}, {"id": "envelope", "quantity": "100 envelope", "price": "25.00"}],
  "products": [{"id": "bittern", "sheet": "A5", "mass": "50 g", "bill": [{"supply": "kit", "quantity": "1 kit"}],
    "packing": {"flat": [{"supply": "envelope", "quantity": "1 envelope", "per": "order"}]}}],
  "packings": [{"id": "flat", "inside": "A5", "holds": 2, "mass": "20 g", "outside": {"length": "23 cm", "width": "16 cm", "height": "1 cm"}}],
  "tariffs": [{"id": "post", "zones": [{"id": "home", "steps": [
    {"name": "letter", "mass": "100 g", "price": "2.00"}, {"name": "packet", "mass": "500 g", "price": "4.00", "additional": "3.00"}]}]}],
  "what_if_board": {"mass": "40 g"},
  "channels": [{"id": "shop", "tariff": "post", "orders": [{"share": "50%", "zone": "home"}, {"share": "50%", "items": 5, "zone": "home"}]}],
  "rules": [{"id": "from", "rule": "price", "at_least": "20.00"}]
}`

// One print of 70 g goes for 2.00. Five go for 9.00 in three envelopes: two of 120 g
// for 4.00 + 3.00, the last of 70 g for 2.00; one by one they would cost 10.00, and five
// envelopes. An average item bears (2.00 + 9.00) ÷ 6 = 1.833333… of postage, and goods of
// 4.00 + (0.25 + 0.75) ÷ 6 = 4.166666….
func TestParcelsOfAnAnswer(t *testing.T) {
	a := decidedShop(t, sentByTariff)
	p := a.Products[0]
	if len(p.Parcels) != 2 {
		t.Fatalf("%d kinds of parcel", len(p.Parcels))
	}
	for i, want := range []string{
		// Two prints: one envelope of 120 g, 4.25 in place of 2.25. With a board 110 g.
		"shop 0: 1 of flat, postage 2.00, packed 0.25, next 2.00, rises 2, board 2.00",
		// Six: 4.00 + 3.00 + 3.00 and 0.75, 10.75 in place of 9.75. With a board the last,
		// of 110 g, costs 3.00 rather than 2.00.
		"shop 1: 3 of flat, postage 9.00, packed 0.75, next 1.00, rises 6, board 1.00",
	} {
		c := p.Parcels[i]
		rises, _ := c.Rises.Get()
		got := fmt.Sprintf("%s %d: %d of %s, postage %.2f, packed %.2f, next %.2f, rises %d, board %s", c.Channel, c.Order, c.Shipment.Parcels,
			c.Shipment.Packing, c.Shipment.Postage, c.Shipment.Packed, c.Next, rises, places(c.Board, 2))
		if got != want {
			t.Errorf("%s, want %s", got, want)
		}
	}
	s := p.Channels[0].Statement
	if got, want := fmt.Sprintf("goods %.6f, fulfilment %.6f, contribution %.6f", s.Goods, s.Fulfilment, s.Contribution), "goods 4.166667, fulfilment 1.833333, contribution 14.000000"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	orders := p.Channels[0].Orders
	// 20.00 − 4.25 − 2.00, and 100.00 − 20.75 − 9.00.
	if len(orders) != 2 || fmt.Sprintf("%.2f %.2f %.3f", orders[0].Contribution, orders[1].Contribution, orders[1].PerItem) != "13.75 70.25 14.050" {
		t.Errorf("orders: %+v", orders)
	}
}

// Beside one other item of 45 g a single print makes a parcel of 115 g, for 4.00. Of five prints each carries 9 g: two
// envelopes of 138 g and one of 79 g, for 9.00 as without it. The print bears a half of the one, and five sixths of the
// other: (2.00 + 7.50) ÷ 6 of postage, and of envelopes (0.125 + 0.625) ÷ 6.
func TestParcelsBesideOthers(t *testing.T) {
	others := `"others": {"items": 1, "worth": "30.00", "mass": "0.045 kg"}, "zone": "home"`
	p := decidedShop(t, strings.ReplaceAll(sentByTariff, `"zone": "home"`, others)).Products[0]
	s := p.Channels[0]
	got := fmt.Sprintf("postage %.2f %.2f, goods %.6f, fulfilment %.6f", p.Parcels[0].Shipment.Postage, p.Parcels[1].Shipment.Postage, s.Statement.Goods, s.Statement.Fulfilment)
	if want := "postage 4.00 9.00, goods 4.125000, fulfilment 1.583333"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	steps := s.Steps.Steps()
	if err := quoin.Replay(steps); err != nil {
		t.Fatal(err)
	}
	var masses []string
	for _, s := range steps {
		if s.Code == pricelist.StepMassBeside || s.Code == parcel.StepMass {
			masses = append(masses, s.Value.String())
		}
	}
	if got := strings.Join(masses, ", "); got != "95, 115, 59, 138, 79" {
		t.Error(got)
	}
	heavy := strings.ReplaceAll(sentByTariff, `"zone": "home"`, strings.Replace(others, "0.045", "4.5", 1))
	if _, err := pricelist.Price([]byte(heavy)); err == nil || !strings.Contains(err.Error(), "products[0]") {
		t.Errorf("others of 4.5 kg: %v", err)
	}
}

// The steps of the statement go down to the tariff: the postage of both orders is
// among them, and they replay.
func TestParcelsAreExplained(t *testing.T) {
	c := decidedShop(t, sentByTariff).Products[0].Channels[0]
	steps := c.Steps.Steps()
	if err := quoin.Replay(steps); err != nil {
		t.Fatal(err)
	}
	fulfilment := quoin.Find(steps, func(s quoin.Step) bool { return s.Code == margin.StepFulfilment })
	if len(fulfilment) != 1 {
		t.Fatalf("%d steps of fulfilment", len(fulfilment))
	}
	found := make(map[string]bool)
	for _, n := range quoin.Ancestors(steps, fulfilment...) {
		found[steps[n-1].Value.Rat().FloatString(2)] = true
	}
	if !found["2.00"] || !found["9.00"] {
		t.Errorf("fulfilment rests on %v", found)
	}
}

// Where no board is given, nothing is said of one; where no channel has a tariff,
// nothing is sent.
func TestNoParcels(t *testing.T) {
	p := decidedShop(t, onePublicPrice).Products[0]
	if len(p.Parcels) != 0 {
		t.Errorf("%v is sent", p.Parcels)
	}
}

// What one print costs to send, and how many go at the same price.
func ExampleShipping() {
	answer, err := pricelist.Price([]byte(sentByTariff))
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range answer.Products[0].Parcels {
		fmt.Printf("%d in %d of %q for %.2f; one more costs %.2f\n", p.Shipment.Prints, p.Shipment.Parcels, p.Shipment.Packing, p.Shipment.Postage, p.Next)
	}
	// Output:
	// 1 in 1 of "flat" for 2.00; one more costs 2.00
	// 5 in 3 of "flat" for 9.00; one more costs 1.00
}
