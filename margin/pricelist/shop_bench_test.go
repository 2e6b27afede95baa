package pricelist_test

import (
	"testing"

	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
	"slices"
)

// BenchmarkShop decides one product of the scenario at a time.
func BenchmarkShop(b *testing.B) {
	doc, err := pricelist.Decode(scenario(b))
	if err != nil {
		b.Fatal(err)
	}
	doc = doc.Certain()
	lot := pricelist.Lot{Products: doc.Products[1:2]}
	doc.Fairs, doc.Sets, doc.Editions, doc.Comparables = nil, nil, nil, nil
	doc.Rules = slices.DeleteFunc(doc.Rules, func(r rule.Rule) bool { _, step := r.Kind.(rule.Step); return step })
	for i := range doc.Rules {
		doc.Rules[i].Products = nil
	}
	shop, err := pricelist.Open(doc)
	if err != nil {
		b.Fatal(err)
	}
	desk := shop.Desk()
	for name, bare := range map[string]bool{"bare": true, "full": false} {
		b.Run(name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := desk.Decide(lot, bare); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
