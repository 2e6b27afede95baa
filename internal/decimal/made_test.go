package decimal

import (
	"math/big"
	"math/bits"
	"testing"
	"unsafe"

	"pgregory.net/rapid"
)

// TestEveryResultIsMade: whatever comes out of this package was made, also out of the
// zero value, which was not.
func TestEveryResultIsMade(t *testing.T) {
	if (Decimal{}).Made() {
		t.Error("nothing made the zero value")
	}
	numbers := 0
	rapid.Check(t, func(t *rapid.T) {
		x, y := anyNumber(t, "x"), anyNumber(t, "y")
		if rapid.IntRange(0, 4).Draw(t, "zero value") == 0 {
			x = Decimal{}
		}
		divisor := y
		if divisor.Sign() == 0 {
			divisor = New(1, 0)
		}
		places := rapid.IntRange(-20, 70).Draw(t, "places")
		for name, z := range map[string]Decimal{
			"new": New(0, 0), "from big": FromBig(new(big.Int), 0), "y": y,
			"sum": x.Add(y), "difference": x.Sub(y), "nothing left": x.Sub(x), "negative": x.Neg(), "product": x.Mul(y),
			"quotient": x.Quo(divisor), "by one": x.Quo(New(1, 0)), "rest": x.Rem(divisor), "snapped": y.Snap(),
			"trimmed": x.Trim(), "rounded": x.Round(places, HalfEven), "power": x.Pow(New(int64(places%10), 0)),
			"power of nothing": Decimal{}.Pow(x),
		} {
			if !z.Made() {
				t.Fatalf("%s of %v and %v was not made", name, x, y)
			}
			numbers++
		}
	})
	if numbers == 0 {
		t.Error("no numbers were drawn")
	}
	for _, text := range []string{"0", "0.00", "-0", "17.50", "12345678901234567890123456789012345678901234567890"} {
		if x, fault := Parse(text, 60, 8, false); fault != OK || !x.Made() {
			t.Errorf("%s: fault %d, made %t", text, fault, x.Made())
		}
	}
}

// TestTheZeroValueIsZero: beside Made, nothing tells the zero value from 0.
func TestTheZeroValueIsZero(t *testing.T) {
	var left Decimal
	zero := New(0, 0)
	rapid.Check(t, func(t *rapid.T) {
		x := anyNumber(t, "x")
		if left.Cmp(x) != zero.Cmp(x) || x.Cmp(left) != x.Cmp(zero) || left.Sign() != 0 || left.String() != "0" {
			t.Fatalf("the zero value beside %v", x)
		}
		for name, pair := range map[string][2]Decimal{
			"sum": {left.Add(x), zero.Add(x)}, "added": {x.Add(left), x.Add(zero)}, "difference": {left.Sub(x), zero.Sub(x)},
			"product": {x.Mul(left), x.Mul(zero)}, "rounded": {left.Round(3, Up), zero.Round(3, Up)}, "trimmed": {left.Trim(), zero.Trim()},
		} {
			if !identical(pair[0], pair[1]) {
				t.Fatalf("%s with %v: %+v, of 0 %+v", name, x, pair[0], pair[1])
			}
		}
	})
}

// TestSize: what is known of a number beside its digits has room in four words.
func TestSize(t *testing.T) {
	if size := unsafe.Sizeof(Decimal{}); size != 32 && bits.UintSize == 64 {
		t.Errorf("%d bytes", size)
	}
}
