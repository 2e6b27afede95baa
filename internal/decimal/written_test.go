package decimal

import (
	"strings"
	"testing"

	"pgregory.net/rapid"
)

// What is written with all its digits is read to the same number, cut or not.
func TestWrittenIsRead(t *testing.T) {
	cut, long := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		x := New(rapid.Int64().Draw(t, "x"), int32(rapid.IntRange(-20, 3).Draw(t, "exp")))
		for range rapid.IntRange(0, 4).Draw(t, "products") {
			x = x.Mul(New(rapid.Int64().Draw(t, "y"), -9))
		}
		if rapid.Bool().Draw(t, "quotient") {
			x = x.Quo(New(rapid.Int64Range(1, 99).Draw(t, "by"), 0))
		}
		text := x.Digits()
		y, ok := Written(text, 4096)
		if !ok {
			t.Fatalf("%s is not read", text)
		}
		if !x.Exact() {
			cut++
			if y, ok = y.AsCut(); !ok {
				t.Fatalf("%s is not read as cut", text)
			}
		}
		if x.Places() > 20 {
			long++
		}
		if y.Digits() != text || y.Cmp(x) != 0 || y.Exact() != x.Exact() || y.Rat().Cmp(x.Rat()) != 0 {
			t.Fatalf("%s is read as %s", text, y.Digits())
		}
		if s := x.Shift(2).Shift(-2); s.Digits() != text || x.Shift(2).Rat().Cmp(x.Mul(New(100, 0)).Rat()) != 0 && x.Exact() {
			t.Fatalf("%s shifted is %s", text, s.Digits())
		}
	})
	if cut == 0 || long == 0 {
		t.Errorf("%d cut, %d long", cut, long)
	}
}

func TestNotWritten(t *testing.T) {
	for _, s := range []string{"", "-", ".", "1.", ".5", "1e3", "+1", "1,5", " 1", "--1", "0x", "1.2.3", "NaN", strings.Repeat("1", 65)} {
		if x, ok := Written(s, 64); ok {
			t.Errorf("%q is read as %s", s, x)
		}
	}
	if x, ok := Written("-0.00", 64); !ok || x.String() != "0.00" || x.Sign() != 0 {
		t.Errorf("-0.00 is read as %s", x)
	}
	many, ok := Written(strings.Repeat("9", 60), 64)
	if _, fits := many.AsCut(); !ok || fits {
		t.Error("60 digits are taken for those of a quotient")
	}
}

// Nothing has no zeros before the point but one, whatever it is a multiple of.
func TestNothingIsWrittenOnce(t *testing.T) {
	for exp, want := range map[int32]string{3: "0", 0: "0", -2: "0.00"} {
		if x := New(0, exp); x.String() != want || x.Digits() != want {
			t.Errorf("0 × 10^%d is written %s, %s, want %s", exp, x, x.Digits(), want)
		}
	}
}
