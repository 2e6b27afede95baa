package pricelist_test

import (
	"context"
	"flag"
	"fmt"
	"iter"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

var mostStreamed = flag.Int("streamed", 1_000, "how many products BenchmarkStreamed goes up to, in powers of ten: 1000000 takes minutes")

// BenchmarkStreamed decides more and more products of a stream: a document while it is read, and
// lots of four sizes with a ladder each. The greatest heap in use stays where it is.
func BenchmarkStreamed(b *testing.B) {
	for n := 1_000; n <= *mostStreamed; n *= 10 {
		b.Run(fmt.Sprintf("document/%d", n), func(b *testing.B) {
			streamed(b, n, 1, func(batch pricelist.Batch) iter.Seq2[pricelist.Answer, error] {
				return batch.Document(context.Background(), newEndless(n))
			})
		})
		b.Run(fmt.Sprintf("ladders/%d", n), func(b *testing.B) {
			shop, err := pricelist.Open(grownShop())
			if err != nil {
				b.Fatal(err)
			}
			streamed(b, n, 4, func(batch pricelist.Batch) iter.Seq2[pricelist.Answer, error] {
				return batch.Decide(context.Background(), shop, ladders(n/4))
			})
		})
	}
}

// streamed decides n products, so many in each answer.
func streamed(b *testing.B, n, inEach int, answers func(pricelist.Batch) iter.Seq2[pricelist.Answer, error]) {
	b.Helper()
	var peak uint64
	for b.Loop() {
		peak = max(peak, peakOf(b, answers(pricelist.Batch{Workers: 2, Detail: pricelist.Figures}), n/inEach, inEach))
	}
	perProduct(b, n)
	b.ReportMetric(float64(peak)/(1<<20), "peak-MiB")
}

// ladders are so many designs, each in four sizes of which the next costs a fifth more.
func ladders(n int) iter.Seq2[pricelist.Lot, error] {
	return func(yield func(pricelist.Lot, error) bool) {
		for i := range n {
			lot := pricelist.Lot{Products: times(4, func(size int) pricelist.Product { return grownPrint(10*(i%8) + size) })}
			step := rule.Rule{ID: "ladder", Kind: rule.SizeRatio{AtLeast: quoin.Some(quoin.MustFactor("1.2"))}}
			for j := range lot.Products {
				p := &lot.Products[j]
				p.ID = fmt.Sprintf("bittern-%d-%d", i+1, j+1)
				step.Products = append(step.Products, p.ID)
			}
			lot.Rules = []rule.Rule{step}
			if !yield(lot, nil) {
				return
			}
		}
	}
}
