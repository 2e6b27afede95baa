package pricelist_test

import (
	"encoding/json"
	"slices"
	"testing"

	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

// scenarioShop is the shop of the scenario, without its ladder, and one product of it.
func scenarioShop(tb testing.TB) (*pricelist.Shop, pricelist.Lot) {
	tb.Helper()
	doc, err := pricelist.Decode(scenario(tb))
	if err != nil {
		tb.Fatal(err)
	}
	doc = doc.Certain()
	doc.Fairs = nil // which concern several products
	lot := pricelist.Lot{Products: doc.Products[1:2]}
	for _, c := range doc.Comparables {
		if c.Product == lot.Products[0].ID {
			lot.Comparables = append(lot.Comparables, c)
		}
	}
	doc.Rules = slices.DeleteFunc(doc.Rules, func(r rule.Rule) bool { _, step := r.Kind.(rule.SizeRatio); return step })
	shop, err := pricelist.Open(doc)
	if err != nil {
		tb.Fatal(err)
	}
	return shop, lot
}

// BenchmarkShop decides one product of the scenario at a time: by each detail, in full with
// all reasons ready to be asked for; with the answer written as JSON; and from as many
// goroutines as there are cores.
func BenchmarkShop(b *testing.B) {
	shop, lot := scenarioShop(b)
	details := []struct {
		name string
		pricelist.Detail
	}{{"full", pricelist.Full}, {"brief", pricelist.Brief}, {"figures", pricelist.Figures}}
	for _, d := range details {
		b.Run(d.name, func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := shop.Decide(lot, d.Detail); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	b.Run("written", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			a, err := shop.Decide(lot, pricelist.Full)
			if err != nil {
				b.Fatal(err)
			}
			if _, err := json.Marshal(a); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("parallel", func(b *testing.B) {
		b.ReportAllocs()
		b.RunParallel(func(pb *testing.PB) {
			for pb.Next() {
				if _, err := shop.Decide(lot, pricelist.Full); err != nil {
					b.Error(err)
				}
			}
		})
	})
}
