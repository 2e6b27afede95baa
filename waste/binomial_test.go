package waste

import (
	"math/big"
	"math/rand/v2"
	"testing"

	"example.com/quoin"
	"example.com/quoin/internal/int128"
)

// Whole numbers of 128 bits beside those of math/big.
func TestWholeNumbersOf128Bits(t *testing.T) {
	r := rand.New(rand.NewPCG(3, 4))
	wide := func() int128.Uint {
		ends := []uint64{0, 1, 1<<64 - 1, 1 << 63, r.Uint64(), r.Uint64() >> r.IntN(64)}
		return int128.Uint{Hi: ends[r.IntN(len(ends))], Lo: ends[r.IntN(len(ends))]}
	}
	limit, shifts := new(big.Int).Lsh(big.NewInt(1), 128), [5]int{}
	for range 3000 {
		a := wide()
		if got := wideOf(whole(a)); got != a {
			t.Fatalf("%x becomes %x", a, got)
		}
		m, d := r.Uint64N(1<<20), 1+r.Uint64N(1<<20)
		want := new(big.Int).Mul(whole(a), new(big.Int).SetUint64(m))
		if want.Quo(want, new(big.Int).SetUint64(d)); want.Cmp(limit) < 0 {
			if got := of(a, m, d); whole(got).Cmp(want) != 0 {
				t.Fatalf("%x × %d ÷ %d is %x, want %x", a, m, d, got, want)
			}
		}
		by := ratio{int128.Uint{Hi: 1<<63 | r.Uint64(), Lo: r.Uint64()}, uint(r.IntN(300))}
		want = new(big.Int).Mul(whole(a), whole(by.bits))
		if want.Rsh(want, by.shift); want.Cmp(limit) < 0 {
			if got := by.times(a); whole(got).Cmp(want) != 0 {
				t.Fatalf("%x × %x moved by %d is %x, want %x", a, by.bits, by.shift, got, want)
			}
			shifts[by.shift/64]++
		}
		// 128 bits of a ratio, the first of them set.
		x := big.NewRat(1+r.Int64N(1<<r.IntN(40)), 1+r.Int64N(1<<r.IntN(40)))
		got := ratioOf(x)
		exact := new(big.Int).Lsh(x.Num(), got.shift)
		if exact.Quo(exact, x.Denom()); got.bits.Hi>>63 != 1 || exact.Cmp(whole(got.bits)) != 0 {
			t.Fatalf("%s is %x moved by %d", x, got.bits, got.shift)
		}
	}
	for i, n := range shifts {
		if n == 0 {
			t.Errorf("no shift of %d words", i)
		}
	}
}

// exactly is the chance that at least good of so many come out good, and that the last one started
// is the last one wanted, by the definition of the binomial distribution.
func exactly(started, good int64, yield *big.Rat) (chance, end *big.Rat) {
	spoiled := new(big.Rat).Sub(big.NewRat(1, 1), yield)
	power := func(x *big.Rat, n int64) *big.Rat {
		e := big.NewInt(n)
		return new(big.Rat).SetFrac(new(big.Int).Exp(x.Num(), e, nil), new(big.Int).Exp(x.Denom(), e, nil))
	}
	chance = new(big.Rat)
	for k := good; k <= started; k++ {
		term := new(big.Rat).SetInt(new(big.Int).Binomial(started, k))
		chance.Add(chance, term.Mul(term, power(yield, k)).Mul(term, power(spoiled, started-k)))
	}
	end = new(big.Rat).SetInt(new(big.Int).Binomial(started-1, good-1))
	return chance, end.Mul(end, power(yield, good)).Mul(end, power(spoiled, started-good))
}

// closeTo reports whether a chance is an exact one but for some 10⁻²⁰.
func closeTo(a int128.Uint, exact *big.Rat) bool {
	got := new(big.Rat).SetFrac(whole(a), new(big.Int).Lsh(big.NewInt(1), chanceBits))
	got.Sub(got, exact)
	return got.Abs(got).Cmp(new(big.Rat).SetFrac(big.NewInt(1), new(big.Int).Exp(big.NewInt(10), big.NewInt(20), nil))) < 0
}

// Chances are those of the definition, also of one start more and one fewer.
func TestChancesAreExact(t *testing.T) {
	for _, c := range []struct {
		started, good int64
		yield         string
	}{
		{1, 1, "50%"}, {2, 1, "50%"}, {2, 2, "1%"}, {30, 25, "90%"}, {40, 1, "3%"}, {40, 40, "97%"}, {60, 33, "50%"}, {80, 20, "99.9%"}, {100, 95, "20%"}, {120, 60, "0.1%"}, {150, 120, "81.25%"},
	} {
		rate := quoin.MustRate(c.yield)
		b := newBinomial(c.good, rate)
		got := b.of(c.started)
		chance, end := exactly(c.started, c.good, rate.Rat())
		if got.started != c.started || !closeTo(got.chance, chance) || !closeTo(got.end, end) {
			t.Errorf("%d good of %d at %s: %v, want %s and %s", c.good, c.started, c.yield, got, chance.FloatString(24), end.FloatString(24))
		}
		more := b.more(got)
		chance, end = exactly(c.started+1, c.good, rate.Rat())
		if more.started != c.started+1 || !closeTo(more.chance, chance) || !closeTo(more.end, end) {
			t.Errorf("%d good of one more than %d at %s: %v, want %s and %s", c.good, c.started, c.yield, more, chance.FloatString(24), end.FloatString(24))
		}
		again := b.fewer(more)
		chance, end = exactly(c.started, c.good, rate.Rat())
		if again.started != c.started || !closeTo(again.chance, chance) || !closeTo(again.end, end) {
			t.Errorf("%d good of %d at %s, one fewer than one more: %v", c.good, c.started, c.yield, again)
		}
	}
}

// The fewest starts with a chance are found from the average up and down, near and far.
func TestReaching(t *testing.T) {
	for _, c := range []struct {
		good        int64
		yield, sure string
	}{
		{5, "50%", "1%"}, {5, "50%", "99.9%"}, {100, "30%", "0.001%"}, {100, "30%", "99.999%"}, {1, "1%", "99%"}, {1, "1%", "0.5%"}, {300, "97%", "50%"}, {2000, "85%", "99.9999%"}, {2000, "85%", "0.0001%"}, {40, "100%", "50%"},
	} {
		yield := quoin.MustRate(c.yield)
		if yield.Complement().IsZero() {
			continue // which leaves nothing to chance
		}
		b, asked := newBinomial(c.good, yield), certaintyBits(quoin.MustRate(c.sure))
		average := b.of(ceil(quoin.FactorOf(c.good).Over(yield.Factor())))
		got, ok := b.reaching(asked, average)
		if !ok || got.chance.Less(asked) {
			t.Errorf("%d at %s: %d starts are not %s", c.good, c.yield, got.started, c.sure)
			continue
		}
		if one := b.of(got.started); one.chance.Less(asked) {
			t.Errorf("%d at %s: %d starts are not %s, summed by themselves", c.good, c.yield, got.started, c.sure)
		}
		if got.started > c.good && !b.of(got.started-1).chance.Less(asked) {
			t.Errorf("%d at %s: one fewer than %d starts is %s sure too", c.good, c.yield, got.started, c.sure)
		}
	}
	b := newBinomial(1, quoin.MustRate("0.001%"))
	if got, ok := b.reaching(certaintyBits(quoin.MustRate("99%")), b.of(100_000)); ok || got.started != mostStarts { // 460,515 would be needed
		t.Errorf("%d starts, %t", got.started, ok)
	}
}

func TestBitsOfChances(t *testing.T) {
	one := new(big.Int).Lsh(big.NewInt(1), chanceBits)
	for _, c := range []struct{ sure, least string }{{"50%", "0.4999999999995"}, {"99.9999999999%", "0.9999999999985"}, {"0.0001%", "0.0000009999995"}} {
		exact, _ := new(big.Rat).SetString(c.least)
		want := new(big.Int).Mul(exact.Num(), one)
		if got := whole(certaintyBits(quoin.MustRate(c.sure))); got.Cmp(want.Quo(want, exact.Denom())) != 0 {
			t.Errorf("%s counts from %s on, want %s", c.sure, got, want)
		}
	}
	for _, places := range []uint{0, 1, 3, 20, 54, 55, 64, 107, 108} { // 2 to the power of minus so many
		bits := new(big.Int).Rsh(one, places)
		want := new(big.Rat).SetFrac(bits, one)
		off := new(big.Rat).Sub(rate(wideOf(bits)).Rat(), want)
		if off.Abs(off).Cmp(new(big.Rat).Mul(want, big.NewRat(1, 1_000_000_000_000_000_000))) > 0 {
			t.Errorf("2 to the power of −%d is %s", places, rate(wideOf(bits)))
		}
	}
	// Of both halves at once: 2⁻¹ + 2⁻¹⁰⁸.
	if got := rate(wideOf(new(big.Int).Add(new(big.Int).Rsh(one, 1), big.NewInt(1)))); got.Rat().Cmp(big.NewRat(1, 2)) <= 0 || got.Rat().Cmp(big.NewRat(500_000_001, 1_000_000_000)) >= 0 {
		t.Errorf("a hair more than a half is %s", got.Rat().FloatString(40))
	}
	near := int128.Uint{Lo: 1 << (chanceBits - doubtBits)}
	at := int128.Uint{Hi: 1}
	for _, c := range []struct {
		chance int128.Uint
		want   bool
	}{
		{at, true}, {at.Plus(near), false}, {at.Minus(near), false}, {at.Plus(near).Minus(int128.Uint{Lo: 1}), true}, {at.Minus(near).Plus(int128.Uint{Lo: 1}), true}, {int128.Uint{Hi: 2}, false}, {int128.Uint{}, false},
	} {
		if got := doubtful(c.chance, at); got != c.want {
			t.Errorf("%x beside %x is doubtful: %t", c.chance, at, got)
		}
	}
	// 100 single steps, and ten for each standard deviation: of 400 at 50% that is 10.
	for started, want := range map[int64]int64{400: 200, 1: 100, 10_000: 600} {
		b := newBinomial(1, quoin.MustRate("50%"))
		if got := b.stride(started); got != want {
			t.Errorf("a stride of %d starts is %d, want %d", started, got, want)
		}
	}
}
