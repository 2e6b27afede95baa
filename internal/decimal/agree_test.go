package decimal

import (
	"math/big"
	"testing"

	"pgregory.net/rapid"
)

func TestLimbsAgreeWithApd(t *testing.T) { rapid.Check(t, agree) }
func FuzzLimbsAgreeWithApd(f *testing.F) { f.Fuzz(rapid.MakeFuzz(agree)) }

// agree: what is computed in 128 bits is what apd computes, in every digit, exponent,
// sign and mark.
func agree(t *rapid.T) {
	x, y := anyNumber(t, "x"), anyNumber(t, "y")
	same := func(what string, got, want Decimal) {
		if !identical(got, want) {
			t.Fatalf("%s of %+v and %+v: %+v, by apd %+v", what, x, y, got, want)
		}
		if got.big != nil && (got.inexact || got.big.BitLen() <= 128) || got.neg && got.isZero() {
			t.Fatalf("%s of %+v and %+v: %+v", what, x, y, got)
		}
	}
	same("sum", x.Add(y), addBig(&x, &y, y.neg))
	same("difference", x.Sub(y), addBig(&x, &y, !y.neg))
	same("product", x.Mul(y), mulBig(&x, &y))
	if !y.isZero() && !y.isOne() {
		same("quotient", x.Quo(y), quoBig(&x, &y))
	}
	places := rapid.Int32Range(-45, 60).Draw(t, "places")
	mode := Mode(rapid.IntRange(0, 4).Draw(t, "mode"))
	exactX := x
	exactX.inexact = false
	same("rounded", exactX.quantize(places, mode), quantizeBig(&exactX, places, mode))
	if x.exp < 0 {
		same("trimmed", x.Trim(), trimBig(&x))
	}
	if got, want := exactX.String(), x.apd().Text('f'); got != want && !(x.isZero() && x.exp > 0 && got == "0") { // which apd writes 000
		t.Fatalf("%+v is written %s, by apd %s", x, got, want)
	}
	snapped := x
	if x.inexact && x.exp < -snapPlaces {
		snapped = quantizeBig(&x, snapPlaces, HalfEven)
	}
	if got, want := x.Sign(), snapped.apd().Sign(); got != want {
		t.Fatalf("sign of %+v: %d, by apd %d", x, got, want)
	}
	diff := addBig(&x, &y, !y.neg)
	if diff.inexact {
		diff = quantizeBig(&diff, snapPlaces, HalfEven)
	}
	if got, want := x.Cmp(y), diff.apd().Sign(); got != want {
		t.Fatalf("order of %+v and %+v: %d, by apd %d", x, y, got, want)
	}
	units, ok := exactX.Units(int(places))
	whole := new(big.Rat).Mul(x.Rat(), tenTo(int(places)))
	fits := x.big == nil && whole.IsInt() && new(big.Int).Abs(whole.Num()).IsInt64()
	if ok != fits || ok && whole.Cmp(new(big.Rat).SetInt64(units)) != 0 {
		t.Fatalf("%+v in units of %d places: %d %t, want %s", x, places, units, ok, whole)
	}
}

func tenTo(places int) *big.Rat {
	p := new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(max(places, -places))), nil)
	if places < 0 {
		return new(big.Rat).SetFrac(big.NewInt(1), p)
	}
	return new(big.Rat).SetInt(p)
}

func identical(x, y Decimal) bool {
	type rest struct {
		n             limbs
		exp           int32
		neg, inexact  bool
		made, onLimbs bool
		least         uint8
	}
	a := rest{x.n, x.exp, x.neg, x.inexact, x.made, x.big == nil, x.least}
	if a != (rest{y.n, y.exp, y.neg, y.inexact, y.made, y.big == nil, y.least}) {
		return false
	}
	return x.big == nil || x.big.Cmp(y.big) == 0
}

// anyNumber draws coefficients of up to 45 digits: short ones, powers of ten, those
// near them and near powers of two, and any.
func anyNumber(t *rapid.T, name string) Decimal {
	n := new(big.Int)
	size := rapid.IntRange(0, 45).Draw(t, name+" size")
	switch rapid.IntRange(0, 4).Draw(t, name+" form") {
	case 0:
		n.SetInt64(rapid.Int64Range(0, 9999).Draw(t, name))
	case 1:
		n.Exp(big.NewInt(10), big.NewInt(int64(size)), nil)
		n.Add(n, big.NewInt(rapid.Int64Range(-2, 2).Draw(t, name)))
	case 2:
		n.Lsh(big.NewInt(1), uint(rapid.IntRange(0, 140).Draw(t, name+" bits")))
		n.Add(n, big.NewInt(rapid.Int64Range(-2, 2).Draw(t, name)))
	case 3:
		n.SetInt64(rapid.Int64Range(1, 999).Draw(t, name))
		n.Mul(n, new(big.Int).Exp(big.NewInt(10), big.NewInt(int64(size)), nil))
		n.Rsh(n, uint(rapid.IntRange(0, 3).Draw(t, name+" halved")))
	default:
		for range size {
			n.Mul(n, big.NewInt(10)).Add(n, big.NewInt(int64(rapid.IntRange(0, 9).Draw(t, name))))
		}
	}
	if rapid.Bool().Draw(t, name+" negative") {
		n.Neg(n)
	}
	x := FromBig(n, rapid.Int32Range(-50, 8).Draw(t, name+" exponent"))
	x.inexact = x.big == nil && rapid.Bool().Draw(t, name+" remembers a quotient")
	return x
}

// TestCutLooksBehindWholeChunks: a product whose dropped digits are a half, nineteen
// zeros and then something is above half. Such factors are found backward: for any y
// without 2 and 5 there is an x with x × y ≡ rest (mod 10^38).
func TestCutLooksBehindWholeChunks(t *testing.T) {
	whole, least := tenTo(38).Num(), tenTo(74).Num()
	found := 0
	for i := int64(1); found < 20; i++ {
		y := new(big.Int).Add(tenTo(37).Num(), big.NewInt(2*i*5+1))
		x := new(big.Int).ModInverse(y, whole)
		x.Mul(x, big.NewInt(i)).Mod(x, whole)
		p := new(big.Int).Mul(x, y)
		if p.Cmp(least) < 0 || new(big.Int).Mod(p.Quo(p, whole), big.NewInt(1000)).Int64() != 500 { // 75 digits, 41 dropped
			continue
		}
		found++
		a, b := FromBig(x, 0), FromBig(y, 0)
		a.inexact = true
		if got, want := a.Mul(b), mulBig(&a, &b); !identical(got, want) {
			t.Errorf("%s × %s: %+v, by apd %+v", x, y, got, want)
		}
	}
}
