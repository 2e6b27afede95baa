package review_test

import (
	"fmt"
	"os"
	"strconv"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/review"
)

// TestSensitivity: the small shop by hand. The floor is 10.00.
//
//	a sheet for 3.60:  8.60 ÷ 0.90 = 9.5556    9.56 − 0.96 = 8.60
//	a sheet for 4.40:  9.40 ÷ 0.90 = 10.4444   10.44 − 1.04 = 9.40
//	0.9 sheets for 4.00, 4.4444 each: 10.4938  10.50 − 1.05 = 9.45, and 10.49 leaves 9.44
//	1.1 sheets for 4.00, 3.6364 each: 9.5960   9.60 − 0.96 = 8.64, and 9.59 leaves 8.63
//	a fee of 9%:       9.00 ÷ 0.91 = 9.8901    9.89 − 0.89 = 9.00
//	a fee of 11%:      9.00 ÷ 0.89 = 10.1124   10.11 − 1.11 = 9.00
func TestSensitivity(t *testing.T) {
	all := must(review.Sensitivity(edited(t, small), quoin.Rate{}))(t)
	var got []string
	for _, f := range all {
		s := f.Products[0]
		got = append(got, strings.Join([]string{f.Input, f.Down, s.Down.String(), f.Up, s.Up.String(), s.Swing.String()}, " "))
	}
	want := []string{
		`supplies["paper"].quantity 0.9 sheet 10.50 1.1 sheet 9.60 0.90`,
		`products["heron"].bill["paper"].quantity 0.9 sheet 9.56 1.1 sheet 10.44 0.88`,
		`supplies["paper"].price 3.60 9.56 4.40 10.44 0.88`,
		`channels["web"].fees["commission"].rate 9% 9.89 11% 10.11 0.22`,
	}
	if strings.Join(got, "\n") != strings.Join(want, "\n") {
		t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
	if matter := review.Matter(all, "heron"); len(matter) != 3 || matter[2].Input != paper {
		t.Errorf("%v", matter)
	}
	if matter := review.Matter(all, "wren"); len(matter) != 0 {
		t.Errorf("%v", matter)
	}
}

// TestOneSided: a yield of 95% cannot be a tenth higher, shares of orders cannot move
// alone, and what is counted is not moved.
func TestOneSided(t *testing.T) {
	doc := strings.NewReplacer(`"products"`, `"stages": [{"id": "print", "yield": "95%"}], "products"`, `"quantity": "1 sheet"}]}]`, `"quantity": "1 sheet", "stage": "print"}], "run": {"good": 20, "tests": 1}}]`,
		`"id": "web",`, `"id": "web", "orders": [{"id": "a", "share": "50%", "items": 1}, {"id": "b", "share": "50%", "items": 2, "postage": "1.00"}],`).Replace(small)
	for _, f := range must(review.Sensitivity(edited(t, doc), quoin.MustRate("10%")))(t) {
		if strings.HasSuffix(f.Input, "share") || strings.Contains(f.Input, "run") || strings.HasSuffix(f.Input, "items") {
			t.Error(f.Input)
		}
		if f.Input == `stages["print"].yield` && (f.Down != "85.5%" || f.Up != "" || !f.Products[0].Up.IsZero()) {
			t.Errorf("%+v", f)
		}
	}
}

func TestSensitivityRefuses(t *testing.T) {
	doc := edited(t, small)
	for _, by := range []string{"100%", "150%", "-10%"} {
		if _, err := review.Sensitivity(doc, quoin.MustRate(by)); !refused(err, "out_of_range") {
			t.Errorf("%s: %v", by, err)
		}
	}
	many := &strings.Builder{}
	for i := range 201 {
		many.WriteString(`, {"id": "s` + strconv.Itoa(i) + `", "quantity": "1 piece", "price": "1.00"}`)
	}
	if _, err := review.Sensitivity(edited(t, small, `"price": "4.00"}`, `"price": "4.00"}`+many.String()), quoin.Rate{}); !refused(err, "too_many") {
		t.Error(err)
	}
}

// TestNoPriceComesFirst: up to 10.20 the web asks for 10.00 (TestSensitivity), and the
// gallery, which takes 40% and is to leave 2.00, for 6.00 ÷ 0.60 = 10.00 too.
//
//	gallery, 44%:      6.00 ÷ 0.56 = 10.72, above 10.20; at 36% the web asks for 10.00
//	web, 9% and 11%:   9.89, but the gallery asks for 10.00; 10.11
//	a sheet for 4.40:  10.44 in the web, above 10.20; for 3.60 9.56
//
// What may leave no price comes before what only moves it, and the fee of the gallery is
// there although its other end moves nothing.
func TestNoPriceComesFirst(t *testing.T) {
	doc := edited(t, small, `"200.00"`, `"10.20"`, `"channels": [`, `"channels": [{"id": "gallery", "fees": [{"name": "share", "rate": "40%"}]}, `,
		`"rule": "contribution"`, `"channels": ["web"], "rule": "contribution"`, `"rules": [`, `"rules": [{"id": "two", "rule": "contribution", "at_least": "2.00", "channels": ["gallery"]}, `)
	all := must(review.Sensitivity(doc, quoin.Rate{}))(t)
	got := ""
	for _, f := range all {
		s := f.Products[0]
		got += fmt.Sprintf("%s %s to %s, %t %t\n", f.Input, s.Down, s.Up, f.NoPrice, s.NoPrice)
	}
	want := `products["heron"].bill["paper"].quantity 9.56 to none, true true
supplies["paper"].price 9.56 to none, true true
supplies["paper"].quantity none to 9.60, true true
channels["gallery"].fees["share"].rate 10.00 to none, true true
channels["web"].fees["commission"].rate 10.00 to 10.11, false false
`
	if got != want {
		t.Errorf("got\n%swant\n%s", got, want)
	}
	if matter := review.Matter(all[3:], "heron"); len(matter) != 2 || matter[0].Input != `channels["gallery"].fees["share"].rate` {
		t.Errorf("%v", matter)
	}
}

// TestFeesThatTakeAll: of a price with 20% of tax in it 83.3% stay with the shop, so that
// a fee of 88%, a tenth above 80%, leaves no price, though no rate above 100%, nor such a
// document, can be written.
func TestFeesThatTakeAll(t *testing.T) {
	doc := edited(t, small, `"200.00"`, `"900.00"`, `"10%"`, `"80%"`, `"id": "web",`, `"id": "web", "tax": {"rate": "20%", "in_price": true},`)
	f := must(review.Sensitivity(doc, quoin.Rate{}))(t)[0]
	if f.Input != commission || f.Up != "88%" || !f.NoPrice || !f.Products[0].Up.IsZero() {
		t.Errorf("%+v", f)
	}
}

// How large things are is left as it is: parcels have sides, and thresholds of tariffs.
func TestSizesAreLeft(t *testing.T) {
	data, err := os.ReadFile("../../../examples/shops/parcels.json")
	if err != nil {
		t.Fatal(err)
	}
	doc, err := pricelist.Decode(data)
	if err != nil {
		t.Fatal(err)
	}
	all, err := review.Sensitivity(doc, quoin.Rate{})
	if err != nil || len(all) < 10 {
		t.Fatalf("%d inputs: %v", len(all), err)
	}
	for _, in := range all {
		for _, size := range []string{".outside.", ".within.", "longest_side", "length_and_girth", "thickness", ".dimensional."} {
			if strings.Contains(in.Input, size) {
				t.Errorf("%s is moved", in.Input)
			}
		}
	}
}
