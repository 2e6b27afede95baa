package pricelist_test

import (
	"bytes"
	"context"
	"encoding/json"
	"fmt"
	"io"
	"iter"
	"runtime"
	"testing"

	"example.com/quoin/margin/pricelist"
)

// head is a shop of two channels and four rules; all figures are invented.
const head = `{
	"version": 1, "currency": "EUR", "price_limit": "500.00",
	"supplies": [
		{"id": "paper", "quantity": "25 sheet", "price": "70.00", "freight": "7.40"},
		{"id": "ink", "quantity": "80 ml", "price": "46.00"},
		{"id": "sleeve", "quantity": "100 sleeve", "price": "13.00"},
		{"id": "board", "quantity": "50 board", "price": "28.00", "freight": "5.00"},
		{"id": "mailer", "quantity": "50 mailer", "price": "33.00"}
	],
	"stages": [{"id": "print", "yield": "92%"}, {"id": "finish", "yield": "98%"}],
	"contingency": "4%",
	"channels": [
		{
			"id": "own-shop", "packing": "parcel", "lost_parcels": "1%", "tax": {"rate": "20%", "in_price": true, "on_shipping": true},
			"orders": [{"share": "70%", "shipping": "4.50", "postage": "5.20"}, {"share": "30%", "items": 2, "shipping": "4.50", "free_from": "60.00", "postage": "6.10"}],
			"fees": [{"name": "payment", "rate": "2.1%", "fixed": "0.27", "of": ["items", "shipping"]}]
		},
		{
			"id": "marketplace", "packing": "parcel", "lost_parcels": "1%", "uplift": "10%", "tax": {"rate": "20%", "in_price": true, "on_shipping": true},
			"orders": [{"shipping": "4.50", "postage": "5.20"}],
			"fees": [{"name": "commission", "rate": "9%", "of": ["items", "shipping"]}, {"name": "payment", "rate": "3.3%", "fixed": "0.27", "of": ["items", "shipping"]}]
		}
	],
	"rules": [
		{"id": "three times cost", "rule": "cost_multiple", "at_least": "3"},
		{"id": "a tenth is left", "rule": "net_margin", "at_least": "10%"},
		{"id": "something is left", "rule": "contribution", "at_least": "2.00", "asked_of": "worst"},
		{"id": "whole or half", "rule": "ending", "ends_in": ["0.00", "0.50"], "strength": "prefer"}
	],
	"products": [`

// product is one of as many as are asked for.
func product(i int) string {
	return fmt.Sprintf(`{"id": "heron-%d", "name": "Heron at dawn, No. %d", "price": "%d.50", "bill": [
		{"supply": "paper", "quantity": "%d.5 sheet", "stage": "print"}, {"supply": "ink", "quantity": "%d.3 ml", "stage": "print"}
	], "packing": {"parcel": [
		{"supply": "sleeve", "quantity": "1 sleeve", "stage": "finish"}, {"supply": "board", "quantity": "0.5 board", "stage": "finish"},
		{"supply": "mailer", "quantity": "1 mailer", "per": "order"}
	]}, "run": {"good": %d, "tests": 2}}`, i, i, 14+i%40, i%3, i%4, 10+i%30)
}

// endless writes a document of so many products while it is read.
type endless struct {
	buf  bytes.Buffer
	i, n int
}

func newEndless(n int) *endless {
	e := &endless{n: n}
	e.buf.WriteString(head)
	return e
}

func (e *endless) Read(p []byte) (int, error) {
	for e.buf.Len() < len(p) && e.i <= e.n {
		switch {
		case e.i == e.n:
			e.buf.WriteString("]}")
		case e.i > 0:
			e.buf.WriteString(",\n")
			fallthrough
		default:
			e.buf.WriteString(product(e.i))
		}
		e.i++
	}
	if e.buf.Len() == 0 {
		return 0, io.EOF
	}
	return e.buf.Read(p)
}

// BenchmarkBatch decides a long document while it is read from memory, beside encoding/json,
// which only decodes it, whole. It reports the time for one product, and the greatest heap in
// use.
func BenchmarkBatch(b *testing.B) {
	const products = 2_000
	text, err := io.ReadAll(newEndless(products))
	if err != nil {
		b.Fatal(err)
	}
	for _, workers := range []int{1, 2} {
		for name, detail := range map[string]pricelist.Detail{"full": pricelist.Full, "figures": pricelist.Figures} {
			b.Run(fmt.Sprintf("workers=%d/%s", workers, name), func(b *testing.B) {
				var peak uint64
				for b.Loop() {
					peak = max(peak, decideAll(b, bytes.NewReader(text), pricelist.Batch{Workers: workers, Detail: detail}, products))
				}
				perProduct(b, products)
				b.ReportMetric(float64(peak)/(1<<20), "peak-MiB")
			})
		}
	}
	b.Run("json", func(b *testing.B) {
		for b.Loop() {
			var v any
			if err := json.Unmarshal(text, &v); err != nil {
				b.Fatal(err)
			}
		}
		perProduct(b, products)
	})
	b.Run("decode", func(b *testing.B) {
		for b.Loop() {
			if _, err := pricelist.Decode(text); err != nil {
				b.Fatal(err)
			}
		}
		perProduct(b, products)
	})
}

func perProduct(b *testing.B, products int) {
	b.ReportMetric(float64(b.Elapsed().Nanoseconds())/float64(b.N*products), "ns/product")
}

// decideAll decides a document and returns the greatest heap in use.
func decideAll(tb testing.TB, r io.Reader, batch pricelist.Batch, products int) (peak uint64) {
	tb.Helper()
	return peakOf(tb, batch.Document(context.Background(), r), products, 1)
}

// peakOf takes so many answers, of so many products each, and returns the greatest heap in use.
func peakOf(tb testing.TB, answers iter.Seq2[pricelist.Answer, error], want, products int) (peak uint64) {
	tb.Helper()
	n := 0
	for a, err := range answers {
		if err != nil || len(a.Products) != products {
			tb.Fatalf("answer %d: %d prices, %v", n, len(a.Products), err)
		}
		if n++; n%200 == 0 {
			var m runtime.MemStats
			runtime.ReadMemStats(&m)
			peak = max(peak, m.HeapInuse)
		}
	}
	if n != want {
		tb.Fatalf("%d answers of %d", n, want)
	}
	return peak
}
