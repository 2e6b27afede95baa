package pricelist_test

import (
	"encoding/json"
	"testing"

	"github.com/google/go-cmp/cmp"
	"pgregory.net/rapid"

	"example.com/quoin/margin/pricelist"
)

func TestDetails(t *testing.T) { t.Parallel(); rapid.Check(t, details) }
func FuzzDetails(f *testing.F) { f.Fuzz(rapid.MakeFuzz(details)) }

// details: a brief answer is a full one without what it leaves out, word for word, warnings
// among it; and figures are a brief one without warnings and kinds of order.
func details(t *rapid.T) {
	doc := apart(drawn(t))
	if rapid.Bool().Draw(t, "ways of selling") {
		doc = apart(drawnWays(t))
	}
	doc.Channels[0].TradeDiscount = nil // so that some lose money, and some do not
	shop := must(pricelist.Open(doc))(t)
	for _, products := range parted(doc.Products) {
		lot := pricelist.Lot{Products: products}
		full, err := shop.Decide(lot, pricelist.Full)
		if err != nil {
			t.Skip(err) // something names a product that stands in another lot
		}
		want := object(t, full)
		without(want, "remedies", "steps")
		each(want["products"], func(p map[string]any) {
			without(p, "allowed", "allowed_pattern", "may_lie", "design", "size", "more_ranges", "lower", "higher", "by_channel", "parcels", "worked_out", "run_start", "sourcing")
			each(p["channels"], func(c map[string]any) { without(c, "steps", "dead_zones", "buyer") })
		})
		brief := must(shop.Decide(lot, pricelist.Brief))(t)
		if diff := cmp.Diff(want, object(t, brief)); diff != "" {
			t.Fatalf("brief:\n%s", diff)
		}
		without(want, "warnings", "places")
		each(want["products"], func(p map[string]any) {
			each(p["channels"], func(c map[string]any) { without(c, "orders") })
		})
		figures := must(shop.Decide(lot, pricelist.Figures))(t)
		if diff := cmp.Diff(want, object(t, figures)); diff != "" {
			t.Fatalf("figures:\n%s", diff)
		}
	}
}

func object(t *rapid.T, a pricelist.Answer) (out map[string]any) {
	if err := json.Unmarshal(must(json.Marshal(a))(t), &out); err != nil {
		t.Fatal(err)
	}
	return out
}

func without(o map[string]any, names ...string) {
	for _, name := range names {
		delete(o, name)
	}
}

func each(list any, do func(map[string]any)) {
	all, _ := list.([]any)
	for _, o := range all {
		do(o.(map[string]any))
	}
}

// A price that loses money is warned of in a brief answer as in a full one.
func TestBriefAnswersWarn(t *testing.T) {
	shop, err := pricelist.DecodeShop([]byte(`{
		"version": 1, "currency": "EUR", "channels": [{"id": "own"}], "rules": [{"id": "cheap", "rule": "price", "at_most": "4.00"}], "choose": "greatest"
	}`))
	if err != nil {
		t.Fatal(err)
	}
	// Each print carries 6.00 of setting up, and sells for 4.00.
	lot, err := pricelist.DecodeLot([]byte(`{"products": [{"id": "rail", "run": {"good": 10, "setup": "60.00"}}]}`))
	if err != nil {
		t.Fatal(err)
	}
	for _, c := range []struct {
		detail pricelist.Detail
		want   []string
	}{{pricelist.Full, []string{"loses_money"}}, {pricelist.Brief, []string{"loses_money"}}, {pricelist.Figures, nil}, {99, []string{"loses_money"}}} {
		a, err := shop.Decide(lot, c.detail)
		if err != nil {
			t.Fatal(err)
		}
		var got []string
		for _, w := range a.Warnings {
			got = append(got, string(w.Code))
		}
		if diff := cmp.Diff(c.want, got); diff != "" || a.Products[0].Price.String() != "4.00" {
			t.Errorf("detail %d: %s\n%s", c.detail, a.Products[0].Price, diff)
		}
	}
}
