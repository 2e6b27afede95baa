// Command table times the sums of package compare and prints them as a Markdown
// table: all peers in each of many short rounds, and of each peer's times the
// least, which is the one that other work on the machine adds least to.
package main

import (
	"flag"
	"fmt"
	"os"
	"testing"
	"time"

	"example.com/quoin/internal/compare"
)

func main() {
	testing.Init()
	each := flag.Duration("time", 20*time.Millisecond, "how long each measurement takes")
	rounds := flag.Int("rounds", 30, "how often each peer is measured")
	flag.Parse()
	if err := flag.Set("test.benchtime", each.String()); err != nil || *rounds < 1 {
		fmt.Fprintln(os.Stderr, "table: -time and -rounds have to be above zero")
		os.Exit(2)
	}
	var settlements, sheets, streams []timed
	for _, p := range compare.Peers() {
		settlements = append(settlements, timed{p.Name, p.TimeSettle, 1})
		sheets = append(sheets, timed{p.Name, p.TimeSheet, 1})
	}
	doc := compare.Document(compare.Streamed, compare.NthProduct)
	for _, s := range compare.Streams() {
		streams = append(streams, timed{s.Name, func(b *testing.B) { s.Time(b, doc) }, compare.Streamed})
	}
	fmt.Printf("One settlement:\n\n")
	table(settlements, *rounds)
	fmt.Printf("\nOne price sheet of %d results:\n\n", compare.Results)
	table(sheets, *rounds)
	fmt.Printf("\nOne product of a document of %d:\n\n", compare.Streamed)
	table(streams, *rounds)
}

// timed is a sum that is done so many times over in a measurement.
type timed struct {
	name string
	run  func(b *testing.B)
	of   int64
}

// table measures and prints; the first is what the others are measured by.
func table(all []timed, rounds int) {
	least := make([]testing.BenchmarkResult, len(all))
	for range rounds {
		for i, t := range all {
			r := testing.Benchmark(t.run)
			if least[i].N == 0 || nanoseconds(r) < nanoseconds(least[i]) {
				least[i] = r
			}
		}
	}
	base := nanoseconds(least[0]) / float64(all[0].of)
	fmt.Printf("| peer | time | × %s | allocations | bytes |\n|---|---:|---:|---:|---:|\n", all[0].name)
	for i, t := range all {
		ns := nanoseconds(least[i]) / float64(t.of)
		fmt.Printf("| %s | %s | %s | %d | %d |\n", t.name, written(ns), digits(ns/base), least[i].AllocsPerOp()/t.of, least[i].AllocedBytesPerOp()/t.of)
	}
}

func nanoseconds(r testing.BenchmarkResult) float64 { return float64(r.T.Nanoseconds()) / float64(r.N) }

func written(ns float64) string {
	switch {
	case ns < 1e3:
		return digits(ns) + " ns"
	case ns < 1e6:
		return digits(ns/1e3) + " µs"
	default:
		return digits(ns/1e6) + " ms"
	}
}

// digits writes three digits, or all that stand before the point.
func digits(x float64) string {
	switch {
	case x < 10:
		return fmt.Sprintf("%.2f", x)
	case x < 100:
		return fmt.Sprintf("%.1f", x)
	default:
		return fmt.Sprintf("%.0f", x)
	}
}
