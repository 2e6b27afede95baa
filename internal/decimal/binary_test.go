package decimal

import (
	"bytes"
	"encoding/hex"
	"math/big"
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// The bytes by hand: flags (1 made, 2 negative, 4 of a quotient), the exponent as a varint, whose
// lowest bit is its sign (Protocol Buffers, encoding, sint64), and the coefficient.
func TestBinary(t *testing.T) {
	for _, c := range []struct {
		x    Decimal
		want string
	}{
		{Decimal{}, "0000"},
		{New(0, 0), "0100"},
		{New(1750, -2), "0103" + "06d6"}, // −2 is 3; 6 × 256 + 214
		{New(-1750, -2), "0303" + "06d6"},
		{New(5, 3), "0106" + "05"},
		{New(0, -2), "0103"},
		{New(1, -64), "017f" + "01"},
		{New(1, 64), "018001" + "01"},
		{FromBig(new(big.Int).Lsh(big.NewInt(1), 64), 0), "0100" + "010000000000000000"},
		{FromBig(new(big.Int).Lsh(big.NewInt(-1), 128), 0), "0300" + "01" + strings.Repeat("00", 16)},
		{cutThird(), "0543" + hex.EncodeToString(threes(34).Bytes())}, // −34 is 67
	} {
		got := c.x.AppendBinary([]byte("x"))
		if hex.EncodeToString(got[1:]) != c.want || got[0] != 'x' {
			t.Errorf("%s is written %x, want %s", c.x, got, c.want)
		}
		back, ok := FromBinary(got[1:])
		if !ok || !identical(back, c.x) {
			t.Errorf("%x is read as %+v, %t, want %+v", got[1:], back, ok, c.x)
		}
	}
}

func cutThird() Decimal {
	x := New(1, 0).Quo(New(3, 0))
	x.least = digitsOf(x.exp) // of which nothing is stored
	return x
}

func threes(n int) *big.Int {
	out, _ := new(big.Int).SetString(strings.Repeat("3", n), 10)
	return out
}

func TestBinaryRefused(t *testing.T) {
	for what, text := range map[string]string{
		"nothing":                       "",
		"flags alone":                   "01",
		"an unknown flag":               "0900",
		"an exponent that does not end": "0180",
		"an exponent that is too long":  "018000",
		"one above 1000":                "01d20f01", // 2002 ÷ 2
		"one below −1000":               "01d10f01",
		"one beyond 64 bits":            "01ffffffffffffffffffff01",
		"a zero in front":               "01000001",
		"a zero alone":                  "010000",
		"−0":                            "0300",
		"a quotient of 129 bits":        "050001" + strings.Repeat("00", 16),
		"not made, and a number":        "000001",
		"not made, and an exponent":     "0002",
		"not made, and negative":        "0200",
		"not made, and a quotient":      "0400",
		"831 bytes of digits":           "0100" + strings.Repeat("01", 831),
	} {
		data, err := hex.DecodeString(text)
		if x, ok := FromBinary(data); err != nil || ok || x.Made() || !x.IsZero() {
			t.Errorf("%s is read as %.40s, %v", what, x, err)
		}
	}
	for what, text := range map[string]string{
		"1000 zeros behind":    "01d00f01",
		"1000 places":          "01cf0f01",
		"a quotient that is 0": "0500",
		"128 bits of quotient": "0500" + strings.Repeat("ff", 16),
		"830 bytes of digits":  "0100" + strings.Repeat("01", 830),
	} {
		data, _ := hex.DecodeString(text)
		if x, ok := FromBinary(data); !ok || !bytes.Equal(x.AppendBinary(nil), data) {
			t.Errorf("%s is read as %.40s, %t", what, x, ok)
		}
	}
}

// What is written is read to the same number with the same digits.
func TestBinaryIsReadBack(t *testing.T) {
	long, negative, cut := 0, 0, 0
	rapid.Check(t, func(t *rapid.T) {
		x := anyNumber(t, "x")
		y, ok := FromBinary(x.AppendBinary(nil))
		if x.least = digitsOf(x.exp); !ok || !identical(x, y) {
			t.Fatalf("%+v is read back as %+v, %t", x, y, ok)
		}
		for n, is := range map[*int]bool{&long: x.big != nil, &negative: x.neg, &cut: x.inexact} {
			if is {
				*n++
			}
		}
	})
	if long == 0 || negative == 0 || cut == 0 {
		t.Errorf("drawn: %d long, %d negative, %d cut", long, negative, cut)
	}
}

// Identical is == of all that is written and remembered, but for whether something made it.
func TestIdentical(t *testing.T) {
	big1, big2 := FromBig(threes(60), -2), FromBig(threes(61), -2)
	quotient := New(175, -1)
	quotient.inexact = true
	all := []Decimal{New(175, -1), New(1750, -2), New(175, 0), New(-175, -1), New(176, -1), quotient, New(175, -1).WithPlaces(2), big1, big2, New(0, 0)}
	for i := range all {
		for j := range all {
			if got := all[i].Identical(&all[j]); got != (i == j) {
				t.Errorf("%v and %v are identical: %t", all[i], all[j], got)
			}
		}
	}
	zero := New(0, 0)
	if !zero.Identical(new(Decimal)) {
		t.Error("0 and the zero value are written alike")
	}
}
