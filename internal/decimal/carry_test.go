package decimal

import (
	"math/big"
	"math/rand/v2"
	"strings"
	"testing"
)

// halfEven is n ÷ d to 34 digits, half to even, by whole numbers of any size: the definition of a
// quotient. It returns whether nothing was lost.
func halfEven(n, d *big.Int) (*big.Rat, bool) {
	sign := n.Sign() * d.Sign()
	n, d = new(big.Int).Abs(n), new(big.Int).Abs(d)
	places := int64(quotientDigits - len(n.String()) + len(d.String()))
	for {
		up, down := tenTo(int(max(places, 0))).Num(), tenTo(int(max(-places, 0))).Num()
		over := new(big.Int).Mul(d, down)
		q, rest := new(big.Int).QuoRem(new(big.Int).Mul(n, up), over, new(big.Int))
		if len(q.String()) > quotientDigits { // the estimate was one too many
			places--
			continue
		}
		twice := new(big.Int).Lsh(rest, 1).Cmp(over)
		if twice > 0 || twice == 0 && q.Bit(0) == 1 {
			q.Add(q, big.NewInt(1))
		}
		out := new(big.Rat).SetInt(q.Mul(q, big.NewInt(int64(sign))))
		return out.Quo(out, tenTo(int(places))), rest.Sign() == 0
	}
}

// wholes draws numbers of 1 to 128 bits, with halves full of ones or empty among them.
func wholes(r *rand.Rand) *big.Int {
	half := func() *big.Int {
		ends := []uint64{0, 1, 1<<64 - 1, 1 << 63, r.Uint64(), r.Uint64() >> r.IntN(64), r.Uint64() >> r.IntN(64)}
		return new(big.Int).SetUint64(ends[r.IntN(len(ends))])
	}
	n := half()
	return n.Lsh(n, 64).Add(n, half())
}

// Sums, products and quotients of numbers as long as are computed here, by whole numbers of any
// size. Results of more than 128 bits are exact, and those that remember a quotient have 34 digits.
func TestLongNumbers(t *testing.T) {
	r := rand.New(rand.NewPCG(1, 2))
	long, cut, split := 0, 0, 0
	for range 2000 {
		a, b := wholes(r), wholes(r)
		x, y := FromBig(a, -3), FromBig(b, -3)
		thousandth := func(n *big.Int) *big.Rat { return new(big.Rat).SetFrac(n, big.NewInt(1000)) }
		same := func(what string, got Decimal, want *big.Rat, exact bool) {
			if got.Rat().Cmp(want) != 0 || got.Exact() != exact || got.neg && got.isZero() || !got.Made() {
				t.Fatalf("%s of %s and %s: %s, exact %t, want %s", what, x, y, got.Digits(), got.Exact(), want.FloatString(40))
			}
			if got.big != nil && (got.big.BitLen() <= 128 || got.inexact) {
				t.Fatalf("%s of %s and %s is kept as a long number: %+v", what, x, y, got)
			}
		}
		same("sum", x.Add(y), thousandth(new(big.Int).Add(a, b)), true)
		same("difference", x.Sub(y), thousandth(new(big.Int).Sub(a, b)), true)
		same("sum of −", x.Neg().Add(y), thousandth(new(big.Int).Sub(b, a)), true)
		same("sum of two −", x.Neg().Sub(y), thousandth(new(big.Int).Neg(new(big.Int).Add(a, b))), true)
		product := new(big.Int).Mul(a, b)
		same("product", x.Mul(y), new(big.Rat).SetFrac(product, big.NewInt(1_000_000)), true)
		if got, want := x.Cmp(y), a.Cmp(b); got != want || y.Cmp(x) != -want {
			t.Fatalf("%s and %s are ordered %d", x, y, got)
		}
		if product.BitLen() > 128 {
			long++
			rounded, lossless := halfEven(product, big.NewInt(1_000_000))
			got, _ := x.AsCut()
			if got = got.Mul(y); got.Rat().Cmp(rounded) != 0 || got.Exact() {
				t.Fatalf("%s × %s of a quotient: %s, want %s", x, y, got.Digits(), rounded.FloatString(40))
			}
			if !lossless {
				cut++
			}
		}
		if b.Sign() > 0 {
			quotient, exact := new(big.Rat), true
			if a.Sign() > 0 {
				quotient, exact = halfEven(a, b)
			}
			same("quotient", x.Quo(y), quotient, exact)
			floor := new(big.Int).Quo(a, b)
			if floor.IsInt64() && x.FloorInt(y) != floor.Int64() || !floor.IsInt64() && x.FloorInt(y) != 1<<63-1 {
				t.Fatalf("%s goes into %s %d times, want %s", y, x, x.FloorInt(y), floor)
			}
			if got := x.Neg().FloorInt(y); floor.IsInt64() && got != -floor.Int64() && got != -floor.Int64()-1 {
				t.Fatalf("%s goes into −%s %d times", y, x, got)
			}
			if b.BitLen() > 64 && a.Cmp(b) > 0 {
				split++
			}
		}
	}
	if long < 500 || cut < 500 || split < 150 {
		t.Errorf("drawn: %d long products, %d cut, %d divided by long ones", long, cut, split)
	}
}

// Where 128 bits end: 2^128 is 340282366920938463463374607431768211456.
func TestCarriesBeyond128Bits(t *testing.T) {
	const most = "340282366920938463463374607431768211455"
	parse := func(s string) Decimal {
		x, fault := Parse(s, 80, 80, false)
		if fault != OK {
			t.Fatal(s, fault)
		}
		return x
	}
	for _, c := range []struct {
		what, x, y, sum, difference string
	}{
		{"the most there is, and nothing", most, "0", most, most},
		{"one more", most, "1", "340282366920938463463374607431768211456", "340282366920938463463374607431768211454"},
		{"twice", most, most, "680564733841876926926749214863536422910", "0"},
		{"one more than half", "170141183460469231731687303715884105728", "170141183460469231731687303715884105728", "340282366920938463463374607431768211456", "0"},
		{"back again", "340282366920938463463374607431768211456", "1", "340282366920938463463374607431768211457", most},
		{"other places", most, "0.1", most + ".1", "340282366920938463463374607431768211454.9"},
		{"places the other way", "0.1", most, most + ".1", "-340282366920938463463374607431768211454.9"},
		{"below 0", "-" + most, "1", "-340282366920938463463374607431768211454", "-340282366920938463463374607431768211456"},
		{"above 0 again", "-5.00", "-5", "-10.00", "0.00"},
		{"nothing below 0", "-5", "5", "0", "-10"},
	} {
		x, y := parse(c.x), parse(c.y)
		if got := x.Add(y); got.String() != c.sum || !identical(got, addBig(&x, &y, y.neg)) {
			t.Errorf("%s: the sum is %s, want %s", c.what, got, c.sum)
		}
		if got := x.Sub(y); got.String() != c.difference || !identical(got, addBig(&x, &y, !y.neg)) {
			t.Errorf("%s: the difference is %s, want %s", c.what, got, c.difference)
		}
	}
	// Of numbers that remember a quotient, as far as they go uncut.
	below, one := parse("340282366920938463463374607431768211454"), parse("1")
	below, _ = below.AsCut()
	if got := below.Add(one); got.String() != most || !identical(got, addBig(&below, &one, false)) {
		t.Errorf("one below the most, and one: %s", got)
	}
	for bits, long := range map[uint]bool{63: false, 64: false, 127: false, 128: true, 129: true} {
		n := new(big.Int).Lsh(big.NewInt(1), bits)
		if x := FromBig(n, 0); (x.big != nil) != long || x.String() != n.String() {
			t.Errorf("2^%d is %s, kept as a long number: %t", bits, x, x.big != nil)
		}
		below := new(big.Int).Sub(n, big.NewInt(1))
		if x := FromBig(below, 0); (x.big != nil) != (bits > 128) || x.String() != below.String() {
			t.Errorf("2^%d − 1 is %s, kept as a long number: %t", bits, x, x.big != nil)
		}
	}
}

// What lies in the middle between two numbers of 34 digits becomes the even one, in each way that a
// quotient or a product is cut. 2q + 1 halves are q and a half.
func TestTiesOf34Digits(t *testing.T) {
	for q, want := range map[string]string{
		"6000000000000000000000000000000002": "6000000000000000000000000000000002",
		"6000000000000000000000000000000003": "6000000000000000000000000000000004",
		"2000000000000000000000000000000002": "2000000000000000000000000000000002", // whose double has 34 digits too
		"2000000000000000000000000000000003": "2000000000000000000000000000000004",
		"9999999999999999999999999999999998": "9999999999999999999999999999999998",
		"9999999999999999999999999999999999": "10000000000000000000000000000000000",
	} {
		n, _ := new(big.Int).SetString(q, 10)
		n.Lsh(n, 1).Add(n, big.NewInt(1))
		x := FromBig(n, 0)
		long := FromBig(new(big.Int).Mul(n, tenTo(20).Num()), -20)
		cut, _ := x.AsCut()
		for what, got := range map[string]Decimal{
			"quotient":              x.Quo(New(2, 0)),
			"quotient of a raised":  x.Quo(New(2000, -3)),
			"quotient of a long":    long.Quo(New(2, 0)),
			"product":               cut.Mul(New(500_000, -6)),
			"product, by apd":       func() Decimal { half := New(500_000, -6); return mulBig(&cut, &half) }(),
			"product of a negative": cut.Neg().Mul(New(-500_000, -6)),
		} {
			if got.Round(0, HalfUp).String() != want || got.Rat().RatString() != want || got.Exact() {
				t.Errorf("%s ÷ 2 as a %s is %s, want %s", n, what, got.Digits(), want)
			}
		}
	}
	// Half of 1999…9 are nines, which rounded up are a 1 with zeros, as few as can be.
	nines, _ := FromBig(new(big.Int).Sub(new(big.Int).Lsh(tenTo(34).Num(), 1), big.NewInt(1)), 0).AsCut()
	half := New(500_000, -6)
	if got, want := nines.Mul(half), mulBig(&nines, &half); !identical(got, want) {
		t.Errorf("half of %s is %+v, by apd %+v", nines, got, want)
	}
	// Of all 256 bits the lowest are none.
	top := FromBig(new(big.Int).Lsh(big.NewInt(1), 127), 0)
	cut, _ := top.AsCut()
	if got, want := cut.Mul(top), mulBig(&cut, &top); !identical(got, want) {
		t.Errorf("2^127 × 2^127 is %s, by apd %s", got.Digits(), want.Digits())
	}
}

// Products of more than about 2,000 digits are quotients; exponents that nothing holds are refused.
func TestEndsOfProducts(t *testing.T) {
	power := func(n uint) Decimal { return FromBig(new(big.Int).Lsh(big.NewInt(1), n), 0) }
	for _, c := range []struct {
		a, b  uint
		exact bool
	}{{3321, 3322, true}, {3322, 3322, false}, {200, 200, true}} { // 2^6643 has 6644 bits
		got := power(c.a).Mul(power(c.b))
		want, ok := power(c.a+c.b), true
		if !c.exact {
			want, ok = Decimal{}, false
		}
		if got.Exact() != c.exact || ok && got.Cmp(want) != 0 || !c.exact && length(got.n) > quotientDigits {
			t.Errorf("2^%d × 2^%d is exact: %t", c.a, c.b, got.Exact())
		}
	}
	small := New(1, 0).Shift(-60_000).WithPlaces(2)
	if got := small.Mul(small); got.Exact() || got.Sign() != 0 || !got.Made() || got.String() != "0.00" {
		t.Errorf("what no exponent holds is %+v", got)
	}
	defer func() {
		if said := recover(); said != "decimal: result out of range" {
			t.Errorf("what is too large says %v", said)
		}
	}()
	large := New(1, 0).Shift(60_000)
	t.Errorf("what is too large is %v", strings.Count(large.Mul(large).Digits(), "0"))
}

// Long division by its definition: q × d + r goes into d q times and leaves r. Of r = d − 1 and a q
// full of ones the second digit begins with a rest as great as the divisor allows.
func TestSplit(t *testing.T) {
	ends := []uint64{0, 1, 2, 1 << 32, 1<<63 - 1, 1 << 63, 1<<63 + 1, 1<<64 - 2, 1<<64 - 1}
	word := func(n *big.Int, i int) uint64 { return new(big.Int).Rsh(n, uint(64*i)).Uint64() } // the lowest 64 bits of it
	of := func(a limbs) *big.Int { return (&Decimal{n: a}).coefficient() }
	mask := new(big.Int).SetUint64(1<<64 - 1)
	for _, high := range ends {
		for _, low := range ends {
			d := limbs{Hi: high, Lo: low}
			if none(d) {
				continue
			}
			for _, qHigh := range ends {
				for _, qLow := range ends {
					q := limbs{Hi: qHigh, Lo: qLow}
					for _, r := range []limbs{{}, d.Minus(limbs{Lo: 1})} {
						n := new(big.Int).Mul(of(q), of(d))
						n.Add(n, of(r))
						var p long
						for i := range p {
							p[i] = word(new(big.Int).And(new(big.Int).Rsh(n, uint(64*i)), mask), 0)
						}
						if got, rest := p.split(d); got != q || rest != r {
							t.Fatalf("%x ÷ %x is %x and %x, want %x and %x", n, d, got, rest, q, r)
						}
						if p.bits() != n.BitLen() {
							t.Fatalf("%x has %d bits, want %d", n, p.bits(), n.BitLen())
						}
					}
				}
			}
		}
	}
}
