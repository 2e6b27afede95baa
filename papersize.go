package quoin

import (
	"fmt"
	"math/big"
	"strconv"
	"strings"

	"example.com/quoin/internal/decimal"
)

// paperSize returns a paper size by its name, upright, from the rule that
// defines its series. All series of ISO 216, 217 and 269 have sides in the
// ratio of 1 to √2, and each next size is the one before, halved across its
// longer side, fractions of a millimetre dropped.
func paperSize(name string) (Size, bool) {
	if letter, ok := strings.CutPrefix(name, "ANSI "); ok {
		return ansiSize(letter)
	}
	if name == "2A0" || name == "4A0" {
		w, h := seriesHead("A")
		if w, h = h, 2*w; name == "4A0" {
			w, h = h, 2*w
		}
		return millimetres(w, h), true
	}
	letters := strings.TrimRight(name, "0123456789")
	n, err := strconv.Atoi(name[len(letters):])
	w, h := seriesHead(letters)
	if w == 0 || err != nil || n > lastOf(letters) || strconv.Itoa(n) != name[len(letters):] {
		return Size{}, false
	}
	for range n {
		w, h = h/2, w
	}
	return millimetres(w, h), true
}

// seriesHead returns the size that a series begins with. A0 has 1 m² (ISO
// 216), RA0 1.05 and SRA0 1.15 m², in whole centimetres (ISO 217); B0 is 1 m
// wide (ISO 216); C0 is the geometric mean of A0 and B0 (ISO 269). So with 1
// to √2 the sides are roots: of A0, w⁴ = area² ÷ 2 and h⁴ = 2 × area².
func seriesHead(letters string) (w, h int64) {
	switch letters {
	case "A": // in mm: area² = 10¹²
		return root(4, 500_000_000_000), root(4, 2_000_000_000_000)
	case "B": // h² = 2 × w²
		return 1000, root(2, 2_000_000)
	case "C": // w⁸ = A0's w⁴ × B0's w⁴, h = w × √2
		return root(8, 500_000_000_000, 1_000_000_000_000), root(8, 2_000_000_000_000, 4_000_000_000_000)
	case "RA": // in cm: area² = 10 500²
		return 10 * root(4, 55_125_000), 10 * root(4, 220_500_000)
	case "SRA": // area² = 11 500²
		return 10 * root(4, 66_125_000), 10 * root(4, 264_500_000)
	}
	return 0, 0
}

// lastOf returns the number of the smallest size of a series.
func lastOf(letters string) int {
	if strings.HasSuffix(letters, "RA") {
		return 4
	}
	return 10
}

// root returns the nearest whole number to the nth root of the product of xs.
func root(n int64, xs ...int64) int64 {
	twice := new(big.Int).Exp(big.NewInt(2), big.NewInt(n), nil)
	for _, x := range xs {
		twice.Mul(twice, big.NewInt(x))
	}
	low, high := int64(0), int64(1)<<20 // of 2r + 1, where (2r + 1)ⁿ is above (2 × root)ⁿ
	for low < high {
		r := (low + high) / 2
		if new(big.Int).Exp(big.NewInt(2*r+1), big.NewInt(n), nil).Cmp(twice) > 0 {
			high = r
		} else {
			low = r + 1
		}
	}
	return low
}

// ansiSize is a size of ASME Y14.1: A is 8½ × 11 in, each next to E two of the
// one before side by side, and F 28 × 40 in.
func ansiSize(letter string) (Size, bool) {
	if letter == "F" {
		return inches(280, 400), true
	}
	w, h := int64(85), int64(110)
	for _, l := range []string{"A", "B", "C", "D", "E"} {
		if l == letter {
			return inches(w, h), true
		}
		w, h = h, 2*w
	}
	return Size{}, false
}

func millimetres(w, h int64) Size {
	return Size{Quantity{decimal.New(w, 0), "mm"}, Quantity{decimal.New(h, 0), "mm"}}
}

func inches(tenthsWide, tenthsHigh int64) Size {
	return Size{Quantity{decimal.New(tenthsWide, -1), "in"}, Quantity{decimal.New(tenthsHigh, -1), "in"}}
}

// paperNames returns the names of all paper sizes.
func paperNames() []string {
	names := []string{"2A0", "4A0"}
	for _, series := range []string{"A", "B", "C", "RA", "SRA"} {
		for n := range lastOf(series) + 1 {
			names = append(names, fmt.Sprint(series, n))
		}
	}
	for _, letter := range "ABCDEF" {
		names = append(names, "ANSI "+string(letter))
	}
	return names
}
