package history_test

import (
	"bytes"
	"fmt"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/history"
)

// many is so many prices of some products, a day each, with a reduction and a
// sale to each price.
func many(records int) []byte {
	var lines []byte
	for i := range records / 3 {
		product := fmt.Sprintf("print-%d", i%7)
		for _, e := range []history.Entry{
			history.Price{Product: product, Price: quoin.AmountOf(int64(1000+i%50), 2), From: nth(2 * i)},
			history.Reduction{Product: product, Channel: "web", Price: quoin.AmountOf(999, 2), From: nth(2 * i), Until: nth(2*i + 1)},
			history.Sale{Edition: product, Number: int64(i + 1), Date: nth(i)},
		} {
			lines, _ = history.Append(lines, e)
		}
	}
	return lines
}

func BenchmarkReadAll(b *testing.B) {
	for _, n := range []int{300, 3_000, 30_000} {
		lines := many(n)
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			b.SetBytes(int64(len(lines)))
			b.ReportAllocs()
			for b.Loop() {
				if _, err := history.ReadAll(bytes.NewReader(lines)); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkNew(b *testing.B) {
	for _, n := range []int{300, 3_000, 30_000} {
		records, err := history.ReadAll(bytes.NewReader(many(n)))
		if err != nil {
			b.Fatal(err)
		}
		b.Run(fmt.Sprint(n), func(b *testing.B) {
			b.ReportAllocs()
			for b.Loop() {
				if _, err := history.New(records); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}

func BenchmarkLowestBefore(b *testing.B) {
	records, err := history.ReadAll(bytes.NewReader(many(30_000)))
	if err != nil {
		b.Fatal(err)
	}
	h, err := history.New(records)
	if err != nil {
		b.Fatal(err)
	}
	line, _ := h.Timeline("print-0", "web")
	b.Run("of history", func(b *testing.B) {
		for b.Loop() {
			h.LowestBefore("print-0", "web", nth(9000), 30)
		}
	})
	b.Run("of timeline", func(b *testing.B) {
		for b.Loop() {
			line.LowestBefore(nth(9000), 30)
		}
	})
}
