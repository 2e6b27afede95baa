package pricelist_test

import (
	"os"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

func scenario(b testing.TB) []byte {
	b.Helper()
	data, err := os.ReadFile("../../examples/pricesheet/scenario.json")
	if err != nil {
		b.Fatal(err)
	}
	return data
}

func BenchmarkDecode(b *testing.B) {
	data := scenario(b)
	b.SetBytes(int64(len(data)))
	b.ReportAllocs()
	for b.Loop() {
		if _, err := pricelist.Decode(data); err != nil {
			b.Fatal(err)
		}
	}
}

// BenchmarkDecideByLimit decides the same document under limits that are ten
// million times apart: the time must not follow them.
func BenchmarkDecideByLimit(b *testing.B) {
	doc, err := pricelist.Decode(scenario(b))
	if err != nil {
		b.Fatal(err)
	}
	for _, limit := range []string{"100.00", "10000.00", "1000000.00", "1000000000.00"} {
		b.Run(limit, func(b *testing.B) {
			doc.PriceLimit = quoin.Some(quoin.MustAmount(limit))
			b.ReportAllocs()
			for b.Loop() {
				if _, err := pricelist.Decide(doc); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

// BenchmarkExplain explains one product in one channel, beside deciding all
// twelve and the statement alone: what reasons cost.
func BenchmarkExplain(b *testing.B) {
	doc, err := pricelist.Decode(scenario(b))
	if err != nil {
		b.Fatal(err)
	}
	items, err := doc.Items(rule.Likely)
	if err != nil {
		b.Fatal(err)
	}
	price, ledger, sale := quoin.MustAmount("25.00"), pricelist.LedgerOf(doc, 1, 1), items[1].Offers[1].Sale
	b.Run("statement", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			sale.At(price)
		}
	})
	b.Run("steps", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			ledger.Explain(price)
		}
	})
}

// BenchmarkDecideCertain decides the scenario with its likely values alone: what
// its ranges come to is left out.
func BenchmarkDecideCertain(b *testing.B) {
	doc, err := pricelist.Decode(scenario(b))
	if err != nil {
		b.Fatal(err)
	}
	doc = doc.Certain()
	b.ReportAllocs()
	for b.Loop() {
		if _, err := pricelist.Decide(doc); err != nil {
			b.Fatal(err)
		}
	}
}
