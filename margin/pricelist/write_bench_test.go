package pricelist_test

import (
	"encoding/json"
	"testing"

	"example.com/quoin/margin/pricelist"
)

// BenchmarkWrite writes answers as JSON with all their reasons: of one product of the scenario,
// beside deciding it, and of the whole scenario. Json is what encoding/json takes to write the
// same text from what it decodes it to.
func BenchmarkWrite(b *testing.B) {
	shop, lot := scenarioShop(b)
	one, err := shop.Decide(lot, pricelist.Full)
	if err != nil {
		b.Fatal(err)
	}
	all, err := pricelist.Price(scenario(b))
	if err != nil {
		b.Fatal(err)
	}
	b.Run("one/decide", func(b *testing.B) {
		b.ReportAllocs()
		for b.Loop() {
			if _, err := shop.Decide(lot, pricelist.Full); err != nil {
				b.Fatal(err)
			}
		}
	})
	b.Run("one/decide and append", func(b *testing.B) {
		b.ReportAllocs()
		room := make([]byte, 0, 1<<17)
		for b.Loop() {
			a, err := shop.Decide(lot, pricelist.Full)
			if err != nil {
				b.Fatal(err)
			}
			if _, err := a.AppendJSON(room); err != nil {
				b.Fatal(err)
			}
		}
	})
	benchmarkWriting(b, "one", one)
	benchmarkWriting(b, "one/without steps", one.WithoutSteps())
	benchmarkWriting(b, "all", all)
}

func benchmarkWriting(b *testing.B, name string, a pricelist.Answer) {
	text, err := a.AppendJSON(nil)
	if err != nil {
		b.Fatal(err)
	}
	var decoded any
	if err := json.Unmarshal(text, &decoded); err != nil {
		b.Fatal(err)
	}
	run := func(how string, write func() ([]byte, error)) {
		b.Run(name+"/"+how, func(b *testing.B) {
			b.SetBytes(int64(len(text)))
			b.ReportAllocs()
			for b.Loop() {
				if _, err := write(); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
	room := make([]byte, 0, 2*len(text))
	run("append", func() ([]byte, error) { return a.AppendJSON(room) })
	run("marshal", func() ([]byte, error) { return json.Marshal(a) })
	run("json", func() ([]byte, error) { return json.Marshal(decoded) })
}
