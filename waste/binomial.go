package waste

import (
	"math/big"
	"math/bits"

	"example.com/quoin"
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

// wide is a whole number of 128 bits.
type wide struct{ hi, lo uint64 }

func (a wide) plus(b wide) wide {
	lo, carry := bits.Add64(a.lo, b.lo, 0)
	hi, _ := bits.Add64(a.hi, b.hi, carry)
	return wide{hi, lo}
}

func (a wide) minus(b wide) wide {
	lo, borrow := bits.Sub64(a.lo, b.lo, 0)
	hi, _ := bits.Sub64(a.hi, b.hi, borrow)
	return wide{hi, lo}
}

func (a wide) less(b wide) bool { return a.hi < b.hi || a.hi == b.hi && a.lo < b.lo }

// of returns a × m ÷ d, rounded down, for a result of at most 128 bits.
func (a wide) of(m, d uint64) wide {
	carry, low := bits.Mul64(a.lo, m)
	top, middle := bits.Mul64(a.hi, m)
	middle, c := bits.Add64(middle, carry, 0)
	hi, rest := bits.Div64(top+c, middle, d)
	lo, _ := bits.Div64(rest, low, d)
	return wide{hi, lo}
}

// ratio is a number above zero as 128 bits, the first of them set, behind which
// the point is moved to the left.
type ratio struct {
	bits  wide
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
func (a wide) times(r ratio) wide {
	b := r.bits
	h0, p0 := bits.Mul64(a.lo, b.lo)
	h1, l1 := bits.Mul64(a.lo, b.hi)
	h2, l2 := bits.Mul64(a.hi, b.lo)
	h3, l3 := bits.Mul64(a.hi, b.hi)
	p1, c1 := bits.Add64(h0, l1, 0)
	p1, c2 := bits.Add64(p1, l2, 0)
	p2, c3 := bits.Add64(h1, h2, c1)
	p2, c4 := bits.Add64(p2, l3, c2)
	p3 := h3 + c3 + c4
	switch s := r.shift % 64; r.shift / 64 {
	case 0:
		return wide{p1>>s | p2<<(64-s), p0>>s | p1<<(64-s)}
	case 1:
		return wide{p2>>s | p3<<(64-s), p1>>s | p2<<(64-s)}
	case 2:
		return wide{p3 >> s, p2>>s | p3<<(64-s)}
	case 3:
		return wide{0, p3 >> s}
	}
	return wide{}
}

func wideOf(n *big.Int) wide {
	hi := new(big.Int).Rsh(n, 64)
	return wide{hi.Uint64(), new(big.Int).Sub(n, new(big.Int).Lsh(hi, 64)).Uint64()}
}

func (a wide) int() *big.Int {
	n := new(big.Int).SetUint64(a.hi)
	return n.Lsh(n, 64).Add(n, new(big.Int).SetUint64(a.lo))
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
	chance, end wide
}

// of sums the distribution of so many started.
func (b binomial) of(started int64) reach {
	n := uint64(started)
	mode := new(big.Int).Mul(b.yield.Num(), big.NewInt(started+1))
	likeliest := min(mode.Quo(mode, b.yield.Denom()).Uint64(), n)
	peak := wide{1 << (peakBits - 64), 0}
	least := wide{0, 1 << (peakBits - keptBits)}
	good := uint64(b.good)
	var below, enough, at wide
	add := func(k uint64, weight wide) {
		if k < good {
			below = below.plus(weight)
			return
		}
		enough = enough.plus(weight)
		if k == good {
			at = weight
		}
	}
	add(likeliest, peak)
	weight := peak
	for k := likeliest; k < n && !weight.less(least); k++ {
		weight = weight.of(n-k, k+1).times(b.odds)
		add(k+1, weight)
	}
	weight = peak
	for k := likeliest; k > 0 && !weight.less(least); k-- {
		weight = weight.of(k, n-k+1).times(b.against)
		add(k-1, weight)
	}
	all := below.plus(enough).int()
	chance, end := enough.int(), at.int()
	chance.Lsh(chance, chanceBits).Quo(chance, all)
	end.Mul(end, big.NewInt(b.good)).Lsh(end, chanceBits).Quo(end, all.Mul(all, big.NewInt(started)))
	return reach{started, wideOf(chance), wideOf(end)}
}

// more starts one more: C(n, m) ÷ C(n−1, m−1) is n ÷ m, where m are spoiled.
func (b binomial) more(r reach) reach {
	r.end = r.end.of(uint64(r.started), uint64(r.started+1-b.good)).times(b.spoiled)
	r.started, r.chance = r.started+1, r.chance.plus(r.end)
	return r
}

// fewer starts one fewer, of more than are wanted.
func (b binomial) fewer(r reach) reach {
	r.chance = r.chance.minus(r.end)
	r.end = r.end.of(uint64(r.started-b.good), uint64(r.started-1)).times(b.perhaps)
	r.started--
	return r
}

// reaching returns the fewest starts with a chance of at least asked, from those
// of the average, or false where more than mostStarts would be needed. With each
// start the chance grows, so it is looked for by strides that double, halved
// again, and at last by single steps.
func (b binomial) reaching(asked wide, average reach) (reach, bool) {
	stride := b.stride(average.started)
	if average.chance.less(asked) {
		return b.above(asked, average, stride)
	}
	low, high := b.good-1, average
	for step := stride; high.started-step > low; step *= 2 {
		r := b.of(high.started - step)
		if r.chance.less(asked) {
			low = r.started
			break
		}
		high = r
	}
	for high.started-low > stride {
		if r := b.of(low + (high.started-low)/2); r.chance.less(asked) {
			low = r.started
		} else {
			high = r
		}
	}
	for high.started > b.good {
		r := b.fewer(high)
		if r.chance.less(asked) {
			break
		}
		high = r
	}
	return high, true
}

// above is reaching where more than the average are needed.
func (b binomial) above(asked wide, low reach, stride int64) (reach, bool) {
	high := low.started
	for step := stride; high == low.started; step *= 2 {
		r := b.of(min(low.started+step, mostStarts))
		switch {
		case !r.chance.less(asked):
			high = r.started
		case r.started == mostStarts:
			return r, false
		default:
			low, high = r, r.started
		}
	}
	for high-low.started > stride {
		if r := b.of(low.started + (high-low.started)/2); r.chance.less(asked) {
			low = r
		} else {
			high = r.started
		}
	}
	for low.chance.less(asked) {
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
func (a wide) rate() quoin.Rate {
	const half = chanceBits / 2
	low := a.lo & (1<<half - 1)
	high := a.lo>>half | a.hi<<(64-half)
	part := quoin.FactorOf(1 << half)
	return quoin.FactorOf(int64(low)).Over(part).Add(quoin.FactorOf(int64(high))).Over(part).Rate()
}

// asked is the least chance that counts as sure: on 12 places no less.
func asked(sure quoin.Rate) wide {
	least := new(big.Rat).Sub(sure.Rat(), big.NewRat(1, 2_000_000_000_000))
	n := new(big.Int).Lsh(least.Num(), chanceBits)
	return wideOf(n.Quo(n, least.Denom()))
}

// doubtful reports whether a chance is too near to what is asked to be told from
// it here.
func doubtful(chance, asked wide) bool {
	apart := chance.minus(asked)
	if chance.less(asked) {
		apart = asked.minus(chance)
	}
	return apart.less(wide{0, 1}.shifted(chanceBits - doubtBits))
}

func (a wide) shifted(by uint) wide { return wide{a.hi<<by | a.lo>>(64-by), a.lo << by} }
