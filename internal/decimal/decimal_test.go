package decimal

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

func num(t testing.TB, s string) Decimal {
	t.Helper()
	x, fault := Parse(s, 60, 60, true)
	if fault != OK {
		t.Fatalf("%q is not a number: fault %d", s, fault)
	}
	return x
}

func TestParseKeepsDigits(t *testing.T) {
	for _, c := range []struct{ in, want string }{
		{"0", "0"},
		{"-0", "0"},
		{"-0.00", "0.00"},
		{"17.50", "17.50"},
		{"0017.5", "17.5"},
		{"-3.25", "-3.25"},
		{"1e3", "1000"},
		{"1.25E+2", "125"},
		{"125e-2", "1.25"},
		{"5e-3", "0.005"},
		{"1.50e1", "15"},
		{"0e99", "0"},
	} {
		if got := num(t, c.in).String(); got != c.want {
			t.Errorf("%s reads as %s, want %s", c.in, got, c.want)
		}
	}
}

func TestParseRefuses(t *testing.T) {
	for _, c := range []struct {
		in   string
		want Fault
	}{
		{"", NotANumber},
		{"-", NotANumber},
		{".5", NotANumber},
		{"5.", NotANumber},
		{"--5", NotANumber},
		{".-5", NotANumber},
		{"+5", NotANumber},
		{"1,5", NotANumber},
		{"1_000", NotANumber},
		{"0x10", NotANumber},
		{"NaN", NotANumber},
		{"sNaN1", NotANumber},
		{"Infinity", NotANumber},
		{"-inf", NotANumber},
		{"٣", NotANumber},
		{"1e", NotANumber},
		{"1e+", NotANumber},
		{"1e1e1", NotANumber},
		{"1e999999", TooLarge},
		{"1e12", TooLarge},
		{"1000000000000", TooLarge},
		{"1e-999999", TooFine},
		{"0.000000001", TooFine},
		{"1e-9", TooFine},
		{string(make([]byte, 10_000_000)), TooLong},
	} {
		if _, got := Parse(c.in, 12, 8, true); got != c.want {
			t.Errorf("%.20q: fault %d, want %d", c.in, got, c.want)
		}
	}
	if _, got := Parse("1e3", 12, 8, false); got != NotANumber {
		t.Errorf("an exponent where none is allowed: fault %d", got)
	}
}

// General Decimal Arithmetic test cases, quantize.decTest 2.56 (quax062 and
// following) and the ties of IEEE 754-2008 §4.3 for the modes there are here.
func TestRound(t *testing.T) {
	for _, c := range []struct {
		in     string
		places int
		mode   Mode
		want   string
	}{
		{"2.17", 1, HalfUp, "2.2"},
		{"2.17", 0, HalfUp, "2"},
		{"1.2345", 2, HalfUp, "1.23"},
		{"1.2355", 2, HalfUp, "1.24"},
		{"9.9999", 2, HalfUp, "10.00"},
		{"0.009", 2, HalfUp, "0.01"},
		{"1.05", 1, HalfUp, "1.1"},
		{"0.0078", 2, HalfUp, "0.01"},
		{"-0.5", 0, HalfUp, "-1"},
		{"352364.506", 2, HalfUp, "352364.51"},
		{"2.5", 0, HalfEven, "2"},
		{"-2.5", 0, HalfEven, "-2"},
		{"2.5", 0, HalfDown, "2"},
		{"-2.5", 0, HalfDown, "-2"},
		{"3.5", 0, HalfDown, "3"},
		{"3.51", 0, HalfDown, "4"},
		{"2.5", 0, HalfUp, "3"},
		{"-2.5", 0, HalfUp, "-3"},
		{"2.5", 0, Down, "2"},
		{"-2.5", 0, Down, "-2"},
		{"2.5", 0, Up, "3"},
		{"-2.5", 0, Up, "-3"},
		// Far below the last place, where apd alone would give 0.
		{"0.001", 0, Up, "1"},
		{"-0.0001", 2, Up, "-0.01"},
		{"0.0000", 2, Up, "0.00"},
		{"0.0001", 2, Down, "0.00"},
		{"-0.0001", 2, Down, "0.00"},
	} {
		if got := num(t, c.in).Round(c.places, c.mode).String(); got != c.want {
			t.Errorf("%s to %d places, mode %d: %s, want %s", c.in, c.places, c.mode, got, c.want)
		}
	}
}

func TestThirdsDoNotBecomeACent(t *testing.T) {
	third := num(t, "20").Quo(num(t, "3"))
	whole := third.Mul(num(t, "3"))
	if whole.Cmp(num(t, "20")) != 0 {
		t.Errorf("3 × (20 ÷ 3) compares as %s", whole)
	}
	if got := whole.Round(2, Up).String(); got != "20.00" {
		t.Errorf("3 × (20 ÷ 3) rounds up to %s", got)
	}
	if got := whole.CeilInt(num(t, "0.01")); got != 2000 {
		t.Errorf("3 × (20 ÷ 3) is %d cents", got)
	}
	if eighth := num(t, "1").Quo(num(t, "8")); !eighth.Exact() || eighth.String() != "0.125" {
		t.Errorf("1 ÷ 8 is %s, exact %t", eighth, eighth.Exact())
	}
	// Sixteen exact places are not a quotient's tail: nothing is rounded twice.
	if got := num(t, "0.0049999999999999").Round(2, HalfUp).String(); got != "0.00" {
		t.Errorf("an exact number was rounded twice: %s", got)
	}
}

func drawn(t *rapid.T, name string) Decimal {
	n := rapid.Int64Range(-1e15, 1e15).Draw(t, name)
	e := rapid.Int32Range(-12, 3).Draw(t, name+" exponent")
	return New(n, e)
}

// Every regime against exact fractions.
func TestAgainstFractions(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x, y := drawn(t, "x"), drawn(t, "y")
		a, b := x.Rat(), y.Rat()
		equal := func(what string, got Decimal, want *big.Rat) {
			if got.Rat().Cmp(want) != 0 {
				t.Fatalf("%s: %s, want %s", what, got, want.RatString())
			}
		}
		equal("sum", x.Add(y), new(big.Rat).Add(a, b))
		equal("difference", x.Sub(y), new(big.Rat).Sub(a, b))
		equal("product", x.Mul(y), new(big.Rat).Mul(a, b))
		equal("negative", x.Neg(), new(big.Rat).Neg(a))
		equal("trimmed", x.Trim(), a)
		if x.Cmp(y) != a.Cmp(b) || x.Sign() != a.Sign() {
			t.Fatalf("order of %s and %s", x, y)
		}
		if y.Sign() == 0 {
			return
		}
		q := x.Quo(y)
		off := new(big.Rat).Sub(q.Rat(), new(big.Rat).Quo(a, b))
		bound := new(big.Rat).Mul(new(big.Rat).Abs(q.Rat()), big.NewRat(1, 1e17))
		bound.Mul(bound, big.NewRat(1, 1e16))
		if off.Abs(off).Cmp(bound) > 0 {
			t.Fatalf("%s ÷ %s is %s, off by more than its 34th digit", x, y, q)
		}
		if q.Exact() != (off.Sign() == 0) {
			t.Fatalf("%s ÷ %s = %s says exact %t", x, y, q, q.Exact())
		}
		if q.Mul(y).Cmp(x) != 0 {
			t.Fatalf("%s ÷ %s × %s is %s", x, y, y, q.Mul(y))
		}
	})
}

func TestRoundAgainstFractions(t *testing.T) {
	half := big.NewRat(1, 2)
	rapid.Check(t, func(t *rapid.T) {
		x := drawn(t, "x")
		places := rapid.IntRange(0, 4).Draw(t, "places")
		mode := Mode(rapid.IntRange(0, 4).Draw(t, "mode"))
		scale := new(big.Rat).SetInt(new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(places)), nil))
		v := new(big.Rat).Mul(x.Rat(), scale)
		mag := new(big.Rat).Abs(v)
		n := new(big.Int).Quo(mag.Num(), mag.Denom())
		rest := new(big.Rat).Sub(mag, new(big.Rat).SetInt(n))
		tie := rest.Cmp(half)
		up := map[Mode]bool{HalfUp: tie >= 0, HalfEven: tie > 0 || tie == 0 && n.Bit(0) == 1, HalfDown: tie > 0, Up: rest.Sign() > 0, Down: false}[mode]
		if up {
			n.Add(n, big.NewInt(1))
		}
		want := new(big.Rat).SetInt(n)
		if v.Sign() < 0 {
			want.Neg(want)
		}
		want.Quo(want, scale)
		got := x.Round(places, mode)
		if got.Rat().Cmp(want) != 0 || got.Places() != places && got.Sign() != 0 {
			t.Fatalf("%s to %d places, mode %d: %s, want %s", x, places, mode, got, want.FloatString(places))
		}
	})
}

func FuzzParse(f *testing.F) {
	for _, s := range []string{"0", "17.50", "-1e3", "1e999999", "NaN", ".-5", "6.5", "000", "9e-8"} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		x, fault := Parse(s, 12, 8, true)
		if fault != OK {
			return
		}
		again, fault := Parse(x.String(), 12, 8, false)
		if fault != OK || again.Cmp(x) != 0 {
			t.Fatalf("%q reads as %s, which reads as %s", s, x, again)
		}
	})
}
