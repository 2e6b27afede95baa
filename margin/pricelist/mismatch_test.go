package pricelist_test

import (
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// A supply that is bought by the pot is not used by the metre, the sheet or the millilitre. The path is
// of the field that the line wrote, whatever the quantity was worked out from.
func TestMismatchOfWhatWasWritten(t *testing.T) {
	for _, c := range []struct{ line, path, found string }{
		{`"quantity": "3 ml"`, "quantity", `"3 ml"`},
		// 0.2 × 0.3 m; ten times as many ml; 500 mm ÷ 25.4; 2 × 500 + 8 × (20 − 5) mm.
		{`"area": "image"`, "area", `"0.06 m2"`},
		{`"ink": {"image": "20 x 30 cm", "per_m2": "10 ml"}`, "ink", `"0.6 ml"`},
		{`"width_plus_height": {"of": "image"}`, "width_plus_height", `"19.685039370079 united_in"`},
		{`"moulding": {"glass": "20 x 30 cm", "width": "20 mm", "rabbet": "5 mm"}`, "moulding", `"1120 mm"`},
	} {
		_, err := pricelist.Decode([]byte(fmt.Sprintf(`{"version": 1, "currency": "EUR", "supplies": [{"id": "glue", "quantity": "2 pot", "price": "40.00"}],
			"products": [{"id": "heron", "image": "20 x 30 cm", "bill": [{"supply": "glue", %s}]}], "channels": [{"id": "web"}]}`, c.line)))
		ps, _ := err.(quoin.Problems)
		if len(ps) != 1 || ps[0].Code != quoin.UnitMismatch || ps[0].Path != "products[0].bill[0]."+c.path || ps[0].Found != c.found {
			t.Errorf("%s: %v, want %s found at %s", c.line, err, c.found, c.path)
		}
	}
}
