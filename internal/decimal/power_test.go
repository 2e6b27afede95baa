package decimal

import (
	"math/big"
	"strings"
	"testing"

	"github.com/cockroachdb/apd/v3"
	"pgregory.net/rapid"
)

// pow reads its two numbers; a fraction is a quotient.
func pow(t *testing.T, x, y string) Decimal {
	t.Helper()
	return numeral(t, x).Pow(numeral(t, y))
}

func numeral(t *testing.T, s string) Decimal {
	t.Helper()
	above, below, fraction := strings.Cut(s, "/")
	x, fault := Parse(above, 16, 16, false)
	if fault != OK {
		t.Fatalf("%s is no number", above)
	}
	if !fraction {
		return x
	}
	return x.Quo(numeral(t, below))
}

// Roots of small numbers in the On-Line Encyclopedia of Integer Sequences, from
// memory: A002193, A002194, A002163, A010467, A002580, A005480; cut here to 34
// digits, the next ones being 07…, 36…, 23…, 53…, 35… and 30….
func TestPublishedRoots(t *testing.T) {
	for _, c := range []struct{ x, y, want string }{
		{"2", "0.5", "1.414213562373095048801688724209698"},
		{"3", "0.5", "1.732050807568877293527446341505872"},
		{"5", "0.5", "2.236067977499789696409173668731276"},
		{"10", "0.5", "3.162277660168379331998893544432719"},
		{"2", "1/3", "1.259921049894873164767210607278228"},
		{"4", "1/3", "1.587401051968199474751705639272308"},
	} {
		got := pow(t, c.x, c.y)
		if digits := got.Rat().FloatString(33); digits != c.want || got.Exact() {
			t.Errorf("%s^%s = %s, exact %t, want %s, of a quotient", c.x, c.y, digits, got.Exact(), c.want)
		}
	}
}

// Worked by hand.
func TestPowers(t *testing.T) {
	for _, c := range []struct {
		x, y  string
		want  string
		exact bool
	}{
		{"7", "0", "1", true},
		{"1.5", "1", "1.5", true},
		{"1.5", "2", "2.25", true},
		{"1.10", "3", "1.331", true},
		{"2", "10", "1024", true},
		{"2", "-1", "0.5", true},
		{"2", "-10", "0.0009765625", true},
		{"4", "-2", "0.0625", true},
		{"3", "-1", "0.333333333333", false},
		{"4", "0.5", "2", false},
		{"4", "-0.5", "0.5", false},
		{"4", "2.5", "32", false},
		{"0.04", "1.5", "0.008", false},
		{"100", "-5.5", "0.00000000001", false},
		{"10", "9.3", "1995262314.968879601352", false}, // 10^0.3 is 1.99526231496887960135245…, by Python 3, decimal, 60 digits
		{"10", "-9.3", "0.000000000501", false},         // 10^0.7 is 5.0118723…, by the same
		{"1", "0.7", "1", false},
		{"4", "3/2", "8", false},
		// no power
		{"0", "0.5", "0", true},
		{"0", "0", "0", true},
		{"0", "-1", "0", true},
		{"-4", "2", "0", true},
		{"2", "10.000001", "0", true},
		{"2", "-11", "0", true},
		{"1/30000000000000", "0.5", "0", true}, // nothing on 12 places
	} {
		got := pow(t, c.x, c.y)
		if got.String() != c.want || got.Exact() != c.exact || !got.Made() {
			t.Errorf("%s^%s = %s, exact %t, want %s, exact %t", c.x, c.y, got, got.Exact(), c.want, c.exact)
		}
	}
}

// An exponent that is whole on 12 places multiplies.
func TestPowerOfNearlyWhole(t *testing.T) {
	two := numeral(t, "2/3").Mul(New(3, 0)) // 1.9999999999999999999999999999999999
	if got := numeral(t, "1.2").Pow(two); got.String() != "1.44" || !got.Exact() {
		t.Errorf("1.2 squared is %s, exact %t", got, got.Exact())
	}
}

// What no document holds has no power, and nothing panics or takes long.
func TestPowersOfExtremes(t *testing.T) {
	huge := New(1, 0)
	for range 40 {
		huge = huge.Mul(FromBig(new(big.Int).Exp(big.NewInt(10), big.NewInt(60), nil), 0))
	}
	long := FromBig(new(big.Int).Exp(big.NewInt(7), big.NewInt(1100), nil), -900) // of 930 digits
	for _, x := range []Decimal{huge, New(1, 0).Quo(huge), New(1, 64), New(1, -64), New(-1, 64), long, long.Neg()} {
		for _, y := range []Decimal{New(95, -1), New(-95, -1), New(10, 0), New(-10, 0), New(1, -12), New(1, -64), New(1, 64), huge, long} {
			if got := x.Pow(y); x.Sign() < 0 && got.Sign() != 0 {
				t.Errorf("%.40s^%.40s = %.40s", x, y, got)
			}
		}
	}
	if got := huge.Pow(New(5, -1)); got.Sign() != 0 {
		t.Errorf("10^2400 to the power of 0.5 is %s", got)
	}
	if got := New(1, 64).Pow(New(5, -1)); got.Cmp(New(1, 32)) != 0 {
		t.Errorf("10^64 to the power of 0.5 is %s", got)
	}
}

// A power that is far from 1 is found as any other, and where x is too far there is none. 10^0.2
// is 1.584893192461113485202101373391507013269442…, by Python 3, decimal, 60 digits.
func TestFarPowers(t *testing.T) {
	ten := func(n int) Decimal { return New(1, 0).Shift(n) }
	fifth := num(t, "1.584893192461113485202101373391507")
	for _, c := range []struct {
		x, y Decimal
		want Decimal
	}{
		{ten(64), New(93, -1), fifth.Shift(595)},   // 64 × 9.3 = 595.2
		{ten(-64), New(-93, -1), fifth.Shift(595)}, //
		{ten(64), New(-92, -1), fifth.Shift(-589)}, // 64 × −9.2 = −588.8
		{ten(904), New(93, -1), fifth.Shift(8407)}, // 904 × 9.3 = 8407.2
		{ten(24), New(93, -1), fifth.Shift(223)},   // 24 × 9.3 = 223.2
		{ten(24), New(-92, -1), fifth.Shift(-221)}, // 24 × −9.2 = −220.8
		{ten(4), New(93, -1), fifth.Shift(37)},     // 4 × 9.3 = 37.2
		{ten(999), New(1, 0), ten(999)},            // a digit and 999 zeros
		{ten(1000), New(1, 0), New(0, 0)},
		{ten(-1001), New(1, 0), ten(-1001)},
		{ten(-1002), New(1, 0), New(0, 0)},
		{FromBig(tenTo(500).Num(), 600), New(1, 0), New(0, 0)},
		{FromBig(tenTo(500).Num(), -600), New(1, 0), ten(-100)},
	} {
		got := c.x.Pow(c.y)
		if c.want.isZero() {
			if !got.isZero() || !got.Exact() || got.exp != 0 {
				t.Errorf("a power of %v is %v", c.x.exp, got.exp)
			}
			continue
		}
		if got.isZero() || !near(got, c.want) {
			t.Errorf("10^%d to the power of %s is %.40s…, want %.40s…", c.x.exp, c.y, got.Digits(), c.want.Digits())
		}
	}
}

func TestLawsOfPowers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := New(rapid.Int64Range(1, 1_000_000).Draw(t, "x"), int32(rapid.IntRange(-4, 0).Draw(t, "places")))
		half := New(5, -1)
		if root := x.Pow(half); root.Mul(root).Cmp(x) != 0 {
			t.Fatalf("%s^0.5 squared is %s", x, root.Mul(root))
		}
		if got := x.Pow(New(2, 0)); !identical(got, New(1, 0).Mul(x).Mul(x)) {
			t.Fatalf("%s^2 is %s", x, got)
		}
		// Powers of less than a thousandth of a unit and more than 10^15 have fewer
		// common digits than 12 places.
		n := rapid.Int64Range(-200, 200).Draw(t, "hundredths of y")
		y, up, down := New(n, -2), x.Pow(New(n, -2)), x.Pow(New(-n, -2))
		if one := up.Mul(down); one.Cmp(New(1, 0)) != 0 {
			t.Fatalf("%s^%s × %s^−%s is %s", x, y, x, y, one)
		}
		if next := x.Pow(y.Add(New(1, 0))); !near(next, up.Mul(x)) {
			t.Fatalf("%s^(%s + 1) is %s and not %s", x, y, next, up.Mul(x))
		}
	})
}

// near reports whether two numbers are the same but for some 10^-30 of them.
func near(x, y Decimal) bool {
	gap := new(big.Rat).Sub(x.Rat(), y.Rat())
	gap.Quo(gap, y.Rat())
	return gap.Abs(gap).Cmp(new(big.Rat).SetFrac(big.NewInt(1), new(big.Int).Exp(big.NewInt(10), big.NewInt(30), nil))) < 0
}

// Powers computed in binary are those that apd has, to the last of 34 digits but one.
func TestPowersAgreeWithApd(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		x := New(rapid.Int64Range(1, 1<<62).Draw(t, "x"), -rapid.Int32Range(0, 24).Draw(t, "places"))
		if rapid.Bool().Draw(t, "near 1") {
			x = New(1, 0).Add(New(rapid.Int64Range(-1<<30, 1<<30).Draw(t, "off"), -rapid.Int32Range(10, 16).Draw(t, "digits")))
		}
		y := New(rapid.Int64Range(-99_999, 99_999).Draw(t, "y"), -rapid.Int32Range(4, 8).Draw(t, "of"))
		if rapid.Bool().Draw(t, "long") {
			y = New(rapid.Int64Range(-29, 29).Draw(t, "over"), 0).Quo(New(rapid.Int64Range(3, 31).Draw(t, "under"), 0))
		}
		got, ok := pow2(x, y)
		if !ok {
			t.Fatalf("%v^%v is too far away", x, y)
		}
		var z apd.Decimal
		if _, err := quotient.Pow(&z, x.apd(), y.apd()); err != nil {
			t.Fatal(err)
		}
		want := FromBig(z.Coeff.MathBigInt(), z.Exponent).Rat()
		off := new(big.Rat).Sub(got.Rat(), want)
		off.Abs(off.Quo(off, want))
		// One of the last of 34 digits is at most 10^−33 of the number.
		if off.Cmp(new(big.Rat).SetFrac(big.NewInt(2), new(big.Int).Exp(big.NewInt(10), big.NewInt(33), nil))) > 0 {
			t.Fatalf("%v^%v = %v, and by apd %v", x, y, got, &z)
		}
	})
}

func BenchmarkPow(b *testing.B) {
	x, y := New(1_414, -3), New(731, -3)
	b.ReportAllocs()
	for b.Loop() {
		x.Pow(y)
	}
}
