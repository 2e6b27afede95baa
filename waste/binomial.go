package waste

import (
	"math/big"
	"math/bits"

	"example.com/quoin"
	"example.com/quoin/internal/int128"
)

// The chances of StartsFor once more, fast, in whole numbers: what chances sums
// from the first piece on is here looked at where it matters. Of so many started
// the binomial distribution is summed over those numbers of good ones alone
// that are likely at all, each from its neighbour, from the likeliest outwards;
// what they sum to stands for 1. From one number of starts to the next leads the
// term of the negative binomial. FuzzStartsAgree holds both together.

const (
	peakBits   = 104 // of the likeliest number's weight; sums and products of it stay below 128 bits
	keptBits   = 80  // below the likeliest, where numbers count for nothing: less than 10⁻²⁰ in all
	chanceBits = 108 // behind the point of a chance
	doubtBits  = 64  // a chance nearer than so many bits to what is asked is left to the definition
)

// of returns a × m ÷ d, rounded down, for a result of at most 128 bits.
func of(a int128.Uint, m, d uint64) int128.Uint {
	a, over := a.Times(m)
	hi, rest := bits.Div64(over, a.Hi, d)
	lo, _ := bits.Div64(rest, a.Lo, d)
	return int128.Uint{Hi: hi, Lo: lo}
}

// ratio is a number above zero as 128 bits, the first of them set, behind which
// the point is moved to the left.
type ratio struct {
	bits  int128.Uint
	shift uint
}

func ratioOf(x *big.Rat) ratio {
	shift := 127 - (x.Num().BitLen() - x.Denom().BitLen())
	n := new(big.Int)
	if n.Lsh(x.Num(), uint(shift)).Quo(n, x.Denom()); n.BitLen() < 128 {
		shift++
		n.Lsh(x.Num(), uint(shift)).Quo(n, x.Denom())
	}
	return ratio{wideOf(n), uint(shift)}
}

// times returns a × r, rounded down, for a result of at most 128 bits.
func (r ratio) times(a int128.Uint) int128.Uint {
	high, low := int128.Product(a, r.bits)
	switch s := r.shift % 64; r.shift / 64 {
	case 0:
		return int128.Uint{Hi: low.Hi>>s | high.Lo<<(64-s), Lo: low.Lo>>s | low.Hi<<(64-s)}
	case 1:
		return int128.Uint{Hi: high.Lo>>s | high.Hi<<(64-s), Lo: low.Hi>>s | high.Lo<<(64-s)}
	case 2:
		return int128.Uint{Hi: high.Hi >> s, Lo: high.Lo>>s | high.Hi<<(64-s)}
	case 3:
		return int128.Uint{Lo: high.Hi >> s}
	}
	return int128.Uint{}
}

func wideOf(n *big.Int) int128.Uint {
	hi := new(big.Int).Rsh(n, 64)
	return int128.Uint{Hi: hi.Uint64(), Lo: new(big.Int).Sub(n, new(big.Int).Lsh(hi, 64)).Uint64()}
}

func whole(a int128.Uint) *big.Int {
	n := new(big.Int).SetUint64(a.Hi)
	return n.Lsh(n, 64).Add(n, new(big.Int).SetUint64(a.Lo))
}

// binomial is so many wanted of pieces that come out good with a chance each,
// above 0 and below 1.
type binomial struct {
	good    int64
	yield   *big.Rat
	odds    ratio // yield ÷ spoiled, and against the other way round
	against ratio
	spoiled ratio
	perhaps ratio // 1 ÷ spoiled
}

func newBinomial(good int64, yield quoin.Rate) binomial {
	y, q := yield.Rat(), yield.Complement().Rat()
	odds := new(big.Rat).Quo(y, q)
	return binomial{
		good: good, yield: y, odds: ratioOf(odds), against: ratioOf(new(big.Rat).Inv(odds)),
		spoiled: ratioOf(q), perhaps: ratioOf(new(big.Rat).Inv(q)),
	}
}

// reach is the chance that of so many started enough come out good, and that the
// last one started is the last one wanted, both with chanceBits behind the point.
type reach struct {
	started     int64
	chance, end int128.Uint
}

// of sums the distribution of so many started.
func (b binomial) of(started int64) reach {
	n := uint64(started)
	mode := new(big.Int).Mul(b.yield.Num(), big.NewInt(started+1))
	likeliest := min(mode.Quo(mode, b.yield.Denom()).Uint64(), n)
	peak := int128.Uint{Hi: 1 << (peakBits - 64)}
	least := int128.Uint{Lo: 1 << (peakBits - keptBits)}
	good := uint64(b.good)
	var below, enough, at int128.Uint
	add := func(k uint64, weight int128.Uint) {
		if k < good {
			below = below.Plus(weight)
			return
		}
		enough = enough.Plus(weight)
		if k == good {
			at = weight
		}
	}
	add(likeliest, peak)
	weight := peak
	for k := likeliest; k < n && !weight.Less(least); k++ {
		weight = b.odds.times(of(weight, n-k, k+1))
		add(k+1, weight)
	}
	weight = peak
	for k := likeliest; k > 0 && !weight.Less(least); k-- {
		weight = b.against.times(of(weight, k, n-k+1))
		add(k-1, weight)
	}
	all := whole(below.Plus(enough))
	chance, end := whole(enough), whole(at)
	chance.Lsh(chance, chanceBits).Quo(chance, all)
	end.Mul(end, big.NewInt(b.good)).Lsh(end, chanceBits).Quo(end, all.Mul(all, big.NewInt(started)))
	return reach{started, wideOf(chance), wideOf(end)}
}

// more starts one more: C(n, m) ÷ C(n−1, m−1) is n ÷ m, where m are spoiled.
func (b binomial) more(r reach) reach {
	r.end = b.spoiled.times(of(r.end, uint64(r.started), uint64(r.started+1-b.good)))
	r.started, r.chance = r.started+1, r.chance.Plus(r.end)
	return r
}

// fewer starts one fewer, of more than are wanted.
func (b binomial) fewer(r reach) reach {
	r.chance = r.chance.Minus(r.end)
	r.end = b.perhaps.times(of(r.end, uint64(r.started-b.good), uint64(r.started-1)))
	r.started--
	return r
}

// reaching returns the fewest starts with a chance of at least asked, from those
// of the average, or false where more than mostStarts would be needed. With each
// start the chance grows, so it is looked for by strides that double, halved
// again, and at last by single steps.
func (b binomial) reaching(asked int128.Uint, average reach) (reach, bool) {
	stride := b.stride(average.started)
	if average.chance.Less(asked) {
		return b.above(asked, average, stride)
	}
	low, high := b.good-1, average
	for step := stride; high.started-step > low; step *= 2 {
		r := b.of(high.started - step)
		if r.chance.Less(asked) {
			low = r.started
			break
		}
		high = r
	}
	for high.started-low > stride {
		if r := b.of(low + (high.started-low)/2); r.chance.Less(asked) {
			low = r.started
		} else {
			high = r
		}
	}
	for high.started > b.good {
		r := b.fewer(high)
		if r.chance.Less(asked) {
			break
		}
		high = r
	}
	return high, true
}

// above is reaching where more than the average are needed.
func (b binomial) above(asked int128.Uint, low reach, stride int64) (reach, bool) {
	high := low.started
	for step := stride; high == low.started; step *= 2 {
		r := b.of(min(low.started+step, mostStarts))
		switch {
		case !r.chance.Less(asked):
			high = r.started
		case r.started == mostStarts:
			return r, false
		default:
			low, high = r, r.started
		}
	}
	for high-low.started > stride {
		if r := b.of(low.started + (high-low.started)/2); r.chance.Less(asked) {
			low = r
		} else {
			high = r.started
		}
	}
	for low.chance.Less(asked) {
		if low.started == mostStarts {
			return low, false
		}
		low = b.more(low)
	}
	return low, true
}

// stride is about as many single steps as cost no more than summing a
// distribution: some standard deviations.
func (b binomial) stride(started int64) int64 {
	spread := new(big.Rat).Mul(b.yield, new(big.Rat).Sub(big.NewRat(1, 1), b.yield))
	spread.Mul(spread, new(big.Rat).SetInt64(started))
	whole := new(big.Int).Quo(spread.Num(), spread.Denom())
	return 100 + 10*whole.Sqrt(whole).Int64()
}

// rate is a chance as a rate.
func rate(a int128.Uint) quoin.Rate {
	const half = chanceBits / 2
	low := a.Lo & (1<<half - 1)
	high := a.Lo>>half | a.Hi<<(64-half)
	part := quoin.FactorOf(1 << half)
	return quoin.FactorOf(int64(low)).Over(part).Add(quoin.FactorOf(int64(high))).Over(part).Rate()
}

// certaintyBits is the least chance that counts as sure: on 12 places no less.
func certaintyBits(sure quoin.Rate) int128.Uint {
	least := new(big.Rat).Sub(sure.Rat(), big.NewRat(1, 2_000_000_000_000))
	n := new(big.Int).Lsh(least.Num(), chanceBits)
	return wideOf(n.Quo(n, least.Denom()))
}

// doubtful reports whether a chance is too near to what is asked to be told from
// it here.
func doubtful(chance, asked int128.Uint) bool {
	apart := chance.Minus(asked)
	if chance.Less(asked) {
		apart = asked.Minus(chance)
	}
	return apart.Less(int128.Uint{Lo: 1 << (chanceBits - doubtBits)})
}
