package prose_test

import (
	"fmt"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin/internal/prose"
)

// nearest is what Near says, by the table of distances as it is defined.
func nearest(s string, names []string) string {
	best, at := "", 0
	for _, name := range names {
		if len(s) > 64 || len(name) > 64 {
			continue
		}
		a, b := []rune(s), []rune(name)
		d := apart(a, b)
		if d > max(1, len(b)/3) || d >= max(len(a), len(b)) {
			continue
		}
		if best == "" || d < at {
			best, at = name, d
		}
	}
	return best
}

func apart(a, b []rune) int {
	d := make([][]int, len(a)+1)
	for i := range d {
		d[i] = make([]int, len(b)+1)
		for j := range d[i] {
			switch {
			case i == 0 || j == 0:
				d[i][j] = i + j
				continue
			case a[i-1] == b[j-1]:
				d[i][j] = d[i-1][j-1]
				continue
			}
			d[i][j] = 1 + min(d[i-1][j], d[i][j-1], d[i-1][j-1])
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				d[i][j] = min(d[i][j], d[i-2][j-2]+1)
			}
		}
	}
	return d[len(a)][len(b)]
}

func TestNearIsNearest(t *testing.T) { rapid.Check(t, nearIsNearest) }
func FuzzNearIsNearest(f *testing.F) { f.Fuzz(rapid.MakeFuzz(nearIsNearest)) }

// nearIsNearest: of few letters, so that names are alike.
func nearIsNearest(t *rapid.T) {
	name := rapid.StringMatching(`[abcé日]{0,9}|[ab]{50,66}|[abü]{20,40}`)
	names, s := rapid.SliceOfN(name, 0, 6).Draw(t, "names"), name.Draw(t, "s")
	if len(names) > 0 && rapid.Bool().Draw(t, "one of them, spoiled") {
		r := []rune(names[0])
		for range rapid.IntRange(0, 6).Draw(t, "slips") {
			if len(r) > 1 {
				i := rapid.IntRange(1, len(r)-1).Draw(t, "at")
				r[i-1], r[i] = r[i], rapid.SampledFrom([]rune{r[i-1], 'a', 'x'}).Draw(t, "letter")
			}
		}
		s = string(r)
	}
	if got, want := prose.Near(s, names), nearest(s, names); got != want {
		t.Fatalf("%q among %q: %q, want %q", s, names, got, want)
	}
}

// BenchmarkNear looks for a long name among a thousand that are all alike.
func BenchmarkNear(b *testing.B) {
	names := make([]string, 1000)
	for i := range names {
		names[i] = fmt.Sprintf("%s-%04d", strings.Repeat("heron", 11), i)
	}
	s := strings.Repeat("heron", 9) + "bitternbit-12345"
	b.ReportAllocs()
	for b.Loop() {
		_ = prose.Near(s, names)
	}
}
