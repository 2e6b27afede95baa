package decimal

import (
	"math/big"
	"strings"
	"testing"
)

// TestEveryTie: whole numbers of 1, 21 and 46 digits with each last digit, each kind of tail and
// each mode, against fractions (the definitions of IEEE 754-2008 §4.3 and of the General Decimal
// Arithmetic specification, rounding-half-down).
func TestEveryTie(t *testing.T) {
	zeros := func(n int) string { return strings.Repeat("0", n) }
	tails := []string{
		"0", "1", "4", "49", "4999999999999999999999999", "5", "50", "5000000000000000000000001", "51", "9",
		"5" + zeros(17), "5" + zeros(18), "5" + zeros(19), "5" + zeros(17) + "1", "5" + zeros(18) + "1", "4" + strings.Repeat("9", 18), zeros(18) + "1", zeros(19) + "1",
		"5" + zeros(36), "5" + zeros(37), "5" + zeros(38), "5" + zeros(36) + "1", "5" + zeros(37) + "1", "4" + strings.Repeat("9", 37), zeros(37) + "1",
	}
	half := big.NewRat(1, 2)
	for _, before := range []string{"", "10000000000000000000", "100000000000000000000000000000000000000000000"} {
		for last := range 10 {
			for _, tail := range tails {
				for _, sign := range []string{"", "-"} {
					text := sign + before + string(rune('0'+last)) + "." + tail
					x := read(strings.TrimLeft(before+string(rune('0'+last)), "0"), tail, sign != "")
					exact, _ := new(big.Rat).SetString(text)
					if x.Rat().Cmp(exact) != 0 {
						t.Fatalf("%s is read as %s", text, x.Rat())
					}
					whole := new(big.Int).Quo(exact.Num(), exact.Denom()) // toward 0
					rest := new(big.Rat).Sub(exact, new(big.Rat).SetInt(whole))
					over, odd := rest.Abs(rest).Cmp(half), last%2 == 1
					for mode, away := range map[Mode]bool{
						HalfUp: over >= 0, HalfEven: over > 0 || over == 0 && odd, HalfDown: over > 0, Up: rest.Sign() != 0, Down: false,
					} {
						want := new(big.Int).Set(whole)
						if away {
							want.Add(want, big.NewInt(int64(exact.Sign())))
						}
						if got := x.Round(0, mode); got.String() != want.String() || got.Sign() != want.Sign() || !got.Exact() {
							t.Errorf("%s, mode %d: %s, want %s", text, mode, got, want)
						}
						// The same tail, a few places further on.
						if got := x.Shift(-3).Round(3, mode); got.Rat().Cmp(new(big.Rat).Quo(new(big.Rat).SetInt(want), tenTo(3))) != 0 {
							t.Errorf("%s ÷ 1000, mode %d: %s", text, mode, got)
						}
					}
				}
			}
		}
	}
}

// Round keeps its places within −64 to 64; tens are rounded to as any place is.
func TestRoundToAnyPlace(t *testing.T) {
	for _, c := range []struct {
		in     string
		places int
		mode   Mode
		want   string
	}{
		{"1750", -2, HalfUp, "1800"},
		{"1749", -2, HalfUp, "1700"},
		{"1700", -2, HalfUp, "1700"},
		{"1", -3, Up, "1000"},
		{"999", -3, Up, "1000"},
		{"1000", -3, Up, "1000"},
		{"1001", -3, Up, "2000"},
		{"5", -1, HalfEven, "0"},
		{"15", -1, HalfEven, "20"},
		{"-15", -1, HalfDown, "-10"},
		{"17.5", 3, HalfUp, "17.500"},
		{"0.5", 64, HalfUp, "0.5" + strings.Repeat("0", 63)},
		{"0.5", 65, HalfUp, "0.5" + strings.Repeat("0", 63)},
		{"0.5", 300, Down, "0.5" + strings.Repeat("0", 63)},
		{"0.5", -64, Up, "1" + strings.Repeat("0", 64)},
		{"0.5", -65, Up, "1" + strings.Repeat("0", 64)},
		{"0.5", -300, Down, "0"},
		// of more than 128 bits, which is 38 digits and a bit
		{"1234567890123456789012345678901234567890.5", 0, HalfEven, "1234567890123456789012345678901234567890"},
		{"1234567890123456789012345678901234567890.5", -1, Up, "1234567890123456789012345678901234567900"},
		{"1234567890123456789012345678901234567890", -40, Up, "10000000000000000000000000000000000000000"},
		{"-1234567890123456789012345678901234567890", -41, Up, "-100000000000000000000000000000000000000000"},
		{"1234567890123456789012345678901234567890", -39, Down, "1000000000000000000000000000000000000000"},
		{"1234567890123456789012345678901234567890", -40, Down, "0"},
	} {
		x, fault := Parse(c.in, 60, 60, false)
		if got := x.Round(c.places, c.mode); fault != OK || got.String() != c.want || !got.Made() {
			t.Errorf("%s to %d places, mode %d: %s, want %s", c.in, c.places, c.mode, got, c.want)
		}
	}
}

// In units of a place, exactly or cut, as far as 64 bits hold.
func TestUnitsAndCut(t *testing.T) {
	const no = "-"
	for _, c := range []struct {
		in         string
		places     int
		units, cut string
	}{
		{"17.50", 2, "1750", "1750"},
		{"17.50", 1, "175", "175"},
		{"17.50", 0, no, "17"},
		{"-17.50", 0, no, "-17"},
		{"-17.50", 2, "-1750", "-1750"},
		{"17.509", 2, no, "1750"},
		{"17.5", 3, "17500", "17500"},
		{"1700", -2, "17", "17"},
		{"1750", -2, no, "17"},
		{"0", 60, "0", "0"},
		{"0.00", -60, "0", "0"},
		{"0.01", -60, no, "0"},
		{"9223372036854775807", 0, "9223372036854775807", "9223372036854775807"},
		{"-9223372036854775807", 0, "-9223372036854775807", "-9223372036854775807"},
		{"9223372036854775808", 0, no, no},
		{"922337203685477580.8", 1, no, no},
		{"92233720368547758079", -1, no, "9223372036854775807"},
		{"18446744073709551616", 0, no, no},                       // 2^64: a 1 in the higher half, nothing in the lower
		{"18446744073709551617", 0, no, no},                       // 2^64 + 1
		{"1", 39, no, no},                                         // 10^39 is more than 128 bits
		{"1", 19, no, no},                                         // 10^19 is more than 63
		{"1", 18, "1000000000000000000", "1000000000000000000"},   //
		{"1234567890123456789012345678901234567890", -30, no, no}, // of more than 128 bits
	} {
		x, fault := Parse(c.in, 60, 60, false)
		if fault != OK {
			t.Fatal(c.in, fault)
		}
		said := func(n int64, ok bool) string {
			if !ok {
				if n != 0 {
					t.Errorf("%s with %d places: %d beside false", c.in, c.places, n)
				}
				return no
			}
			return big.NewInt(n).String()
		}
		if units, cut := said(x.Units(c.places)), said(x.Cut(c.places)); units != c.units || cut != c.cut {
			t.Errorf("%s with %d places: %s and %s, want %s and %s", c.in, c.places, units, cut, c.units, c.cut)
		}
	}
	if n, ok := New(1, 0).Quo(New(3, 0)).Mul(New(3, 0)).Units(0); ok {
		t.Errorf("what remembers a quotient is %d units", n)
	}
	if n, ok := New(2, 0).Quo(New(3, 0)).Cut(3); n != 666 || !ok {
		t.Errorf("2 ÷ 3 in thousandths, cut, is %d, %t", n, ok)
	}
}
