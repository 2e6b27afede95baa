package pricelist_test

import (
	"encoding/json"
	"fmt"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// A print of 24.00 that was 20.00, which costs nothing to make. Postage of 5.00 is charged below 30.00. All invented.
const freePostage = `{"version": 1, "currency": "EUR", "price_step": "0.50", "products": [{"id": "heron", "design": "heron", "sheet": "A4", "price": "20.00"}],
	"channels": [{"id": "web", "orders": [{"shipping": "5.00", "free_from": "30.00", "postage": "5.00"}]}, {"id": "door"}],
	"comparables": [{"product": "heron", "venue": "north", "price": "22.00", "sold": 2}, {"product": "heron", "venue": "south", "price": "31.00"}],
	"rules": [{"id": "fixed", "rule": "price", "at_least": "24.00", "at_most": "24.00"}]}`

func TestCurves(t *testing.T) {
	plain, err := pricelist.Price([]byte(freePostage))
	if err != nil {
		t.Fatal(err)
	}
	a := plain.WithCurves()
	points := func(channel int) string {
		var out []string
		for _, p := range a.Products[0].Channels[channel].Curve {
			out = append(out, fmt.Sprintf("%s %s", p.Price, p.Contribution.Round(2, quoin.HalfUp)))
		}
		return strings.Join(out, ", ")
	}
	// From half of 20.00 to twice 24.00. At 30.00 the 5.00 are no longer charged.
	for i, want := range []string{"10.00 10.00, 29.50 29.50, 30.00 25.00, 48.00 43.00", "10.00 10.00, 48.00 48.00"} {
		if got := points(i); got != want {
			t.Errorf("channel %d: %s, want %s", i, got, want)
		}
	}
	if got, want := fmt.Sprint(a.Products[0].Market.Seen), "[{north 22.00 true} {south 31.00 false}]"; got != want {
		t.Errorf("%s, want %s", got, want)
	}
	if p := plain.Products[0]; p.Channels[0].Curve != nil || p.Market.Seen != nil || p.Design != "heron" || !p.Size.Equal(quoin.MustSize("A4")) {
		t.Errorf("the answer itself has changed, or lacks its size: %+v", p)
	}
}

// Points lie on what the sale contributes, and an answer that was written with them is read with them.
func TestCurvesAreOfTheStatements(t *testing.T) {
	var documents, drawn, points int
	rapid.Check(t, func(t *rapid.T) {
		text := genDocument(t)
		a, err := pricelist.Price(text)
		if err != nil || len(a.Products) == 0 {
			return
		}
		documents++
		doc, err := pricelist.Decode(text)
		if err != nil {
			t.Fatal(err)
		}
		items, err := doc.Items("")
		if err != nil {
			t.Fatal(err)
		}
		a = a.WithCurves()
		for i, p := range a.Products {
			for n, c := range p.Channels {
				drawn++
				for k, at := range c.Curve {
					points++
					if want := items[i].Offers[n].Sale.At(at.Price).Contribution; !at.Contribution.Equal(want) {
						t.Fatalf("%s in %s at %s: %s, want %s", p.ID, c.ID, at.Price, at.Contribution, want)
					}
					if k > 0 && at.Price.Cmp(c.Curve[k-1].Price) <= 0 {
						t.Fatalf("%s in %s: %s after %s", p.ID, c.ID, at.Price, c.Curve[k-1].Price)
					}
				}
			}
		}
		written, err := json.Marshal(a)
		if err != nil {
			t.Fatal(err)
		}
		var read pricelist.Answer
		if err := json.Unmarshal(written, &read); err != nil {
			t.Fatal(err)
		}
		for i := range a.Products {
			for n := range a.Products[i].Channels {
				if diff := cmp.Diff(a.Products[i].Channels[n].Curve, read.WithCurves().Products[i].Channels[n].Curve); diff != "" {
					t.Fatal(diff)
				}
			}
		}
	})
	if drawn < documents || points < 3*documents {
		t.Errorf("of %d documents only %d curves with %d points", documents, drawn, points)
	}
}
