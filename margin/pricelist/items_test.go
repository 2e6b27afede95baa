package pricelist_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

// TestItemsAreWhatIsDecided: from the items of a document one gets the statements and the
// verdicts that its answer has: each statement of a decided price, and no refusal by a
// rule that was kept.
func TestItemsAreWhatIsDecided(t *testing.T) {
	decided, in := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		doc, err := pricelist.Decode(genDocument(t))
		if err != nil {
			t.Skip("not sound")
		}
		a := must(pricelist.Decide(doc))(t)
		items := must(doc.Items(rule.Likely))(t)
		for i, p := range a.Products {
			decided++
			for j, sold := range p.Channels {
				o := items[i].Offers[j]
				if st := o.Sale.At(p.Price); o.Channel != sold.ID || st.String() != sold.Statement.String() {
					t.Fatalf("%s in %s: %s, the answer has %s", p.ID, o.Channel, st, sold.Statement)
				}
				in++
			}
			for _, r := range doc.Rules {
				if !slices.Contains(a.Dropped, r.ID) && !r.Holds(items[i], p.Price) {
					t.Fatalf("%s refuses %s of %s", r.ID, p.Price, p.ID)
				}
			}
		}
	})
	if manyDrawn() && (decided < 20 || in < 20) {
		t.Errorf("%d products in %d channels", decided, in)
	}
}

// rangedHeron is a sheet of 0.50 to 0.70 a print, 0.60 most likely, by 10 a print sold.
const rangedHeron = `{
	"version": 1, "currency": "EUR",
	"supplies": [{"id": "paper", "quantity": "10 sheet", "price": "6.00", "price_range": {"low": "5.00", "high": "7.00"}}],
	"products": [{"id": "heron", "bill": [{"supply": "paper", "quantity": "1 sheet"}]}],
	"channels": [{"id": "web"}, {"id": "fair"}],
	"rules": [{"id": "floor", "rule": "price", "at_least": "10.00"}]
}`

func TestItemsAtBothEnds(t *testing.T) {
	doc, err := pricelist.Decode([]byte(rangedHeron))
	if err != nil {
		t.Fatal(err)
	}
	for end, want := range map[rule.RangeEnd]string{rule.Likely: "9.40", rule.Cheapest: "9.50", rule.Dearest: "9.30"} {
		items, err := doc.Items(end)
		if err != nil {
			t.Fatal(err)
		}
		got := items[0].Offers[0].Sale.At(quoin.MustAmount("10.00")).Contribution.Round(2, quoin.HalfUp).String()
		if got != want || items[0].End != end {
			t.Errorf("%q: contributes %s at %q, want %s", end, got, items[0].End, want)
		}
	}
	if _, err := doc.Items("cheepest"); !has(err, quoin.UnknownWord) {
		t.Errorf("an end that is none: %v", err)
	}
	doc.Version = 0
	if _, err := doc.Items(rule.Likely); !has(err, quoin.MissingField) {
		t.Errorf("a document without a version: %v", err)
	}
}

func TestSaleOf(t *testing.T) {
	doc, err := pricelist.Decode([]byte(rangedHeron))
	if err != nil {
		t.Fatal(err)
	}
	sale, err := doc.Sale("heron", "fair")
	if err != nil || sale.Terms.Channel() != "fair" || sale.GoodsPerItem().Round(2, quoin.HalfUp).String() != "0.60" {
		t.Errorf("%v, %v", sale, err)
	}
	for _, c := range [][3]string{{"herron", "fair", "heron"}, {"heron", "fiar", "fair"}} {
		var p quoin.Problem
		if _, err := doc.Sale(c[0], c[1]); !errors.As(err, &p) || p.Code != quoin.UnknownID || p.Near != c[2] {
			t.Errorf("%s in %s: %v", c[0], c[1], err)
		}
	}
}

// A lot's items are those of the document that it would stand in.
func TestShopItems(t *testing.T) {
	doc, err := pricelist.Decode([]byte(strings.Replace(rangedHeron, `, "price_range": {"low": "5.00", "high": "7.00"}`, "", 1)))
	if err != nil {
		t.Fatal(err)
	}
	shop, err := pricelist.Open(doc)
	if err != nil {
		t.Fatal(err)
	}
	lot := pricelist.Lot{Products: doc.Products}
	items, err := shop.Items(lot)
	if err != nil || len(items) != 1 {
		t.Fatal(items, err)
	}
	lot.Products[0].Bill[0].Supply = "" // and is not kept
	o, ok := items[0].Offer("web")
	if got := o.Sale.At(quoin.MustAmount("10.00")).Contribution.Round(2, quoin.HalfUp).String(); !ok || got != "9.40" {
		t.Errorf("contributes %s, %v", got, ok)
	}
	if _, ok := items[0].Offer("market"); ok {
		t.Error("an offer in no channel")
	}
	if _, err := shop.Items(lot); !has(err, quoin.MissingField) {
		t.Errorf("a line without a supply: %v", err)
	}
	var none *pricelist.Shop
	if _, err := none.Items(lot); err == nil {
		t.Error("items of no shop")
	}
}

func has(err error, code quoin.Code) bool {
	var p quoin.Problem
	return errors.As(err, &p) && p.Code == code
}
