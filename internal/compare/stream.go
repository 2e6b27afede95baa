package compare

import (
	"bytes"
	"context"
	"encoding/json"
	"testing"

	"example.com/quoin/margin/pricelist"
)

// Stream is one way to go through a document of many products.
type Stream struct {
	Name string
	// Prices returns the price of each product in cents; nil where it decides none.
	Prices func(doc []byte) []int64
}

// Streams returns all ways, the specialist first.
func Streams() []Stream {
	return []Stream{
		{"by hand", func(doc []byte) []int64 {
			prices, ok := specialist(doc)
			if !ok {
				panic("the specialist does not know this document")
			}
			return prices
		}},
		{"encoding/json", func(doc []byte) []int64 {
			var shop struct{ Products []textProduct }
			must(json.Unmarshal(doc, &shop))
			return nil
		}},
		{"quoin", byBatch},
	}
}

// textProduct is a product as encoding/json reads it.
type textProduct struct {
	ID, Name, Price string
	Bill            []textLine
	Packing         map[string][]textLine
	Run             struct{ Good, Tests int }
}

type textLine struct{ Supply, Quantity, Stage, Per string }

// byBatch decides one product after the other.
func byBatch(doc []byte) []int64 {
	var prices []int64
	batch := pricelist.Batch{Workers: 1, Detail: pricelist.Figures}
	for a, err := range batch.Document(context.Background(), bytes.NewReader(doc)) {
		must(err)
		prices = append(prices, quoinCents(a.Products[0].Price))
	}
	return prices
}

// Streamed is how many products the document has that streams are timed with.
const Streamed = 2_000

// Time times the stream; what it reports is for all products together.
func (s Stream) Time(b *testing.B, doc []byte) {
	b.ReportAllocs()
	for b.Loop() {
		s.Prices(doc)
	}
}
