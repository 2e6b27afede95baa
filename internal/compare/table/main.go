// Command table times the sums of package compare and prints them as a Markdown
// table: all peers in each of many short rounds, and of each peer's times the
// least, which is the one that other work on the machine adds least to.
package main

import (
	"flag"
	"fmt"
	"os"
	"slices"
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
	peers := compare.Peers()
	fmt.Printf("One settlement:\n\n")
	table(peers, *rounds, compare.Peer.TimeSettle)
	fmt.Printf("\nOne price sheet of %d results:\n\n", compare.Results)
	table(peers, *rounds, compare.Peer.TimeSheet)
}

func table(peers []compare.Peer, rounds int, sum func(compare.Peer, *testing.B)) {
	least := make([]testing.BenchmarkResult, len(peers))
	for range rounds {
		for i, p := range peers {
			r := testing.Benchmark(func(b *testing.B) { sum(p, b) })
			if least[i].N == 0 || nanoseconds(r) < nanoseconds(least[i]) {
				least[i] = r
			}
		}
	}
	base := nanoseconds(least[slices.IndexFunc(peers, func(p compare.Peer) bool { return p.Name == compare.Base })])
	fmt.Printf("| peer | time | × %s | allocations | bytes |\n|---|---:|---:|---:|---:|\n", compare.Base)
	for i, p := range peers {
		ns := nanoseconds(least[i])
		fmt.Printf("| %s | %s | %s | %d | %d |\n", p.Name, written(ns), digits(ns/base), least[i].AllocsPerOp(), least[i].AllocedBytesPerOp())
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
