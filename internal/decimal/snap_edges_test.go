package decimal

import (
	"math"
	"math/big"
	"math/bits"
	"testing"

	"github.com/cockroachdb/apd/v3"
)

// What remembers a quotient is judged on 12 places after it is rounded to 28, half to even both
// times; its own digits are never looked at.
func TestSnapGoesThrough28Places(t *testing.T) {
	for _, c := range []struct {
		number, snapped string
		sign            int
	}{
		{"0.0000000000005", "0.000000000000", 0},                               // half of the last place: to the even 0
		{"0.00000000000050000000000000004", "0.000000000000", 0},               // 4 on the 29th
		{"0.00000000000050000000000000005", "0.000000000000", 0},               // 5 there: to the even 28th, still half
		{"0.00000000000050000000000000006", "0.000000000001", 1},               // above
		{"0.0000000000005000000000000001", "0.000000000001", 1},                // on the 28th
		{"-0.0000000000005000000000000001", "-0.000000000001", -1},             //
		{"-0.0000000000005", "0.000000000000", 0},                              //
		{"0.0000000000004999999999999999", "0.000000000000", 0},                //
		{"0.00000000000000000000000000000000000000000000000000001", "0", 0},    // 10^−53
		{"0.00000000000000000000000000000000000009999999999999999999", "0", 0}, //
		{"0.000000000001", "0.000000000001", 1},                                //
		{"1.00000000000050000000000000005", "1", 1},                            // to even twice
		{"1.00000000000150000000000000005", "1.000000000002", 1},               //
		{"1.00000000000150000000000000015", "1.000000000002", 1},               //
		{"1.00000000000050000000000000015", "1.000000000001", 1},               // up to 2 on the 28th
		{"17.5", "17.5", 1}, //
		{"1750000000000000000000000000000000000", "1750000000000000000000000000000000000", 1}, //
	} {
		x, ok := num(t, c.number).AsCut()
		snapped := x.Snap()
		if !ok || x.Sign() != c.sign || snapped.Cmp(num(t, c.snapped)) != 0 || !snapped.Exact() || snapped.Sign() != c.sign {
			t.Errorf("%s has the sign %d and snaps to %s, want %d and %s", c.number, x.Sign(), snapped, c.sign, c.snapped)
		}
		if snapped.neg && snapped.isZero() {
			t.Errorf("%s snaps to −0", c.number)
		}
	}
	// Coarser than 12 places there is nothing to do but to forget.
	x, _ := New(175, -1).AsCut()
	want := New(175, -1).WithPlaces(0)
	if got := x.Snap(); !got.Identical(&want) {
		t.Errorf("17.5 of a quotient snaps to %+v", got)
	}
}

// Numbers with the same exponent are compared as any are.
func TestOrderOfEqualExponents(t *testing.T) {
	cut := func(s string) Decimal { x, _ := num(t, s).AsCut(); return x }
	nearly, one := cut("0.9999999999999999999999999999999999"), New(1, 0).Round(34, HalfUp)
	long, longer, short := num(t, "1234567890123456789012345678901234567890.12"), num(t, "1234567890123456789012345678901234567890.13"), num(t, "17.50")
	for _, c := range []struct {
		what string
		x, y Decimal
		want int
	}{
		{"nearly 1 and 1", nearly, one, 0},
		{"nearly −1 and −1", nearly.Neg(), one.Neg(), 0},
		{"two that remember", nearly, cut("0.9999999999999999999999999999999990"), 0},
		{"below it and 1", cut("0.9999999999990000000000000000000000"), one, -1},
		{"short and short", short, num(t, "17.51"), -1},
		{"below 0", short.Neg(), num(t, "-17.51"), 1},
		{"the same", short, num(t, "17.50"), 0},
		{"long and short", long, short, 1},
		{"long and long", long, longer, -1},
		{"long ones below 0", long.Neg(), longer.Neg(), 1},
		{"long and below 0", long, short.Neg(), 1},
	} {
		if x, y := c.x.Cmp(c.y), c.y.Cmp(c.x); x != c.want || y != -c.want {
			t.Errorf("%s: %d and %d, want %d", c.what, x, y, c.want)
		}
	}
}

// Divided without a rest, and what is left, by numbers as they are compared.
func TestFloorsOfQuotients(t *testing.T) {
	cut := func(s string) Decimal { x, _ := num(t, s).AsCut(); return x }
	for _, c := range []struct {
		what        string
		x, y        Decimal
		floor, ceil int64
		rest        string
	}{
		{"by a hair more than 1", New(1, 0), cut("1.000000000000000000000000000000001"), 1, 1, "0"},
		{"a hair less than 1", cut("0.9999999999999999999999999999999999"), New(1, 0), 1, 1, "0"},
		{"money", num(t, "17.50"), num(t, "1.00"), 17, 18, "0.50"},
		{"money below 0", num(t, "-17.50"), num(t, "1"), -18, -17, "-0.50"},
		{"by more places", num(t, "17.5"), num(t, "0.250"), 70, 70, "0"},
		{"tens", New(175, 1), New(1, 3), 1, 2, "750"},
		{"a third by a half", New(1, 0).Quo(New(3, 0)), num(t, "0.5"), 0, 1, "0.333333333333"},
		{"by a third", New(1, 0), New(1, 0).Quo(New(3, 0)), 3, 4, "0.000000000001"}, // 3 × 0.333333333333
		{"a long number by a longer", num(t, "1234567890123456789012345678901234567890"), num(t, "1234567890123456789012345678901234567891"), 0, 1, "1234567890123456789012345678901234567890"},
		{"by 2^64 + 1", num(t, "36893488147419103233"), num(t, "18446744073709551617"), 1, 2, "18446744073709551616"},
		{"by 2^64", num(t, "36893488147419103233"), num(t, "18446744073709551616"), 2, 3, "1"},
		{"the most", num(t, "9223372036854775807"), New(1, 0), math.MaxInt64, math.MaxInt64, "0"},
		{"more than the most", num(t, "9223372036854775807.5"), New(1, 0), math.MaxInt64, math.MaxInt64, "0.5"},
		{"less than the most", num(t, "9223372036854775806.5"), New(1, 0), math.MaxInt64 - 1, math.MaxInt64, "0.5"},
		{"one above the least", num(t, "-9223372036854775807"), New(1, 0), -math.MaxInt64, -math.MaxInt64, "0"},
		{"the least and a half", num(t, "-9223372036854775807.5"), New(1, 0), math.MinInt64, -math.MaxInt64, "-0.5"},
		{"the least", num(t, "-9223372036854775808"), New(1, 0), math.MinInt64, math.MinInt64, "0"},
		{"below the least", num(t, "-9223372036854775809"), New(1, 0), math.MinInt64, math.MinInt64, "0"},
		{"far below the least", num(t, "-36893488147419103232"), New(1, 0), math.MinInt64, math.MinInt64, "0"},
		{"far above the most", num(t, "36893488147419103232"), New(1, 0), math.MaxInt64, math.MaxInt64, "0"},
	} {
		if floor, ceil := c.x.FloorInt(c.y), c.x.CeilInt(c.y); floor != c.floor || ceil != c.ceil {
			t.Errorf("%s: %d and %d, want %d and %d", c.what, floor, ceil, c.floor, c.ceil)
		}
		if n := c.x.Floor(c.y); n.IsInt64() && n.Int64() != c.floor {
			t.Errorf("%s: %s, want %d", c.what, n, c.floor)
		}
		if rest := c.x.Rem(c.y); rest.Cmp(num(t, c.rest)) != 0 || !rest.Exact() {
			t.Errorf("%s leaves %s, want %s", c.what, rest, c.rest)
		}
	}
}

// Fractions are those that the text is, as math/big reads it.
func TestFractions(t *testing.T) {
	for _, text := range []string{
		"0", "0.00", "17", "17.50", "-17.50", "1700", "9223372036854775807", "-9223372036854775807", "9223372036854775808", "9223372036854.775807",
		"0.123456789012345678", "0.1234567890123456789", "12345678901234567890.5", "18446744073709551617.5", "18446744073709551616", "36893488147419103232.25",
		"1234567890123456789012345678901234567890.25", "1.000000000000000000", "0.000000000000000001",
	} {
		want, _ := new(big.Rat).SetString(text)
		if got := num(t, text).Rat(); got.Cmp(want) != 0 {
			t.Errorf("%s is the fraction %s, want %s", text, got, want)
		}
		if x := num(t, text); x.IsZero() != (want.Sign() == 0) || x.Sign() != want.Sign() {
			t.Errorf("%s is nothing: %t, and has the sign %d", text, x.IsZero(), x.Sign())
		}
	}
	if got := New(175, 2).Rat(); got.Cmp(big.NewRat(17_500, 1)) != 0 {
		t.Errorf("175 hundreds are %s", got)
	}
	if x := New(1, 0).Quo(New(3, 0)).Shift(-20); x.IsZero() || x.Sign() != 0 {
		t.Errorf("%s has digits, and the sign %d", x.Digits(), x.Sign())
	}
}

// A number keeps the place that it is rounded to only if it has it already, and is no quotient.
func TestRoundedAsItIs(t *testing.T) {
	cut, _ := num(t, "17.50").AsCut()
	deep := New(1, -64).Shift(-6) // 70 places
	for what, c := range map[string]struct {
		x      Decimal
		places int
		want   string
	}{
		"money": {num(t, "17.50"), 2, "17.50"}, "of a quotient": {cut, 2, "17.50"}, "places before the point": {num(t, "17.50"), -2, "0"},
		"70 places": {deep, 70, New(0, -64).String()}, "tens": {New(17, 1), -1, "170"}, "the zero value": {Decimal{}, 0, "0"},
		"64 places": {New(1, -64), 64, New(1, -64).String()},
	} {
		if got := c.x.Round(c.places, HalfUp); got.String() != c.want || !got.Exact() || !got.Made() {
			t.Errorf("%s: %s, exact %t, want %s", what, got, got.Exact(), c.want)
		}
	}
}

// Numbers of up to 128 bits need no memory but their own.
func TestNothingIsAllocated(t *testing.T) {
	price, rate, third := New(2450, -2), New(1087, -3), New(7740, -2).Quo(New(27, 0))
	most := FromBig(new(big.Int).Sub(new(big.Int).Lsh(big.NewInt(1), 128), big.NewInt(1)), -2)
	wide := FromBig(new(big.Int).Lsh(big.NewInt(1), 70), -2)
	for what, compute := range map[string]func(){
		"sums": func() {
			price.Add(rate)
			third.Add(price)
			price.Sub(rate)
			price.Sub(third)
			most.Sub(price)
			wide.Add(wide)
		},
		"products":  func() { price.Mul(rate); third.Mul(third); third.Mul(price); wide.Mul(rate) },
		"quotients": func() { price.Quo(rate); third.Quo(rate); price.Quo(price); most.Quo(wide); wide.Quo(most) },
		"order":     func() { price.Cmp(rate); price.Cmp(price); third.Cmp(price); most.Cmp(wide); third.Sign() },
		"floors":    func() { price.FloorInt(rate); third.CeilInt(rate); most.FloorInt(wide) },
		"rounding":  func() { price.Round(2, HalfUp); third.Round(2, HalfUp); most.Round(0, HalfEven); price.Round(4, Up) },
		"text":      func() { Parse("17.50", 12, 8, true); Parse("-0.5", 12, 8, false); Written("17.50", 64) },
		"other forms": func() {
			price.Trim()
			third.Trim()
			third.Snap()
			price.Units(2)
			price.Cut(1)
			price.Places()
		},
	} {
		if n := testing.AllocsPerRun(20, compute); n != 0 {
			t.Errorf("%s allocate %v times", what, n)
		}
	}
}

// Short ways take less memory than long ones: fractions of numbers of 64 bits, and square roots.
func TestShortWays(t *testing.T) {
	if bits.UintSize != 64 {
		t.Skip("what is short on 64 bits")
	}
	allocs := func(compute func()) float64 { return testing.AllocsPerRun(20, compute) }
	rat := func(x Decimal) float64 { return allocs(func() { x.Rat() }) }
	for _, short := range []Decimal{New(0, -2), New(17, 0), New(1750, -2), New(-1700, -2), New(math.MaxInt64, 0), New(math.MaxInt64, -18)} {
		if long := rat(New(175, 2)); rat(short) >= long {
			t.Errorf("the fraction of %s takes %v pieces of memory, of 17500 %v", short, rat(short), long)
		}
	}
	if whole, zeros := rat(New(17, 0)), rat(New(1700, -2)); whole != zeros || whole >= rat(New(175, -1)) {
		t.Errorf("the fraction of 17 takes %v pieces of memory, of 17.00 %v", whole, zeros)
	}
	x, y := New(2, 0), New(4, -1)
	if short, long := allocs(func() { x.Pow(y) }), allocs(func() { _, _ = quotient.Pow(new(apd.Decimal), x.apd(), y.apd()) }); 2*short > long {
		t.Errorf("a power takes %v pieces of memory, by apd %v", short, long)
	}
	if root, power := allocs(func() { New(2, 0).Pow(New(5, -1)) }), allocs(func() { New(2, 0).Pow(New(4, -1)) }); 3*root > power {
		t.Errorf("a square root takes %v pieces of memory, another power %v", root, power)
	}
}
