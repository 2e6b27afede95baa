package trial

import (
	"math"

	"gonum.org/v1/gonum/mathext"
)

// A boundary that holds at any time.
//
// Let a keep ka of a sale and b kb, and let both earn the same per exposure:
// λa·ka = λb·kb. Of the n units that two Poisson streams sell before exposures
// Ea and Eb, each then falls to a with the chance
//
//	p = λa·Ea ÷ (λa·Ea + λb·Eb) = Ea·kb ÷ (Ea·kb + Eb·ka),
//
// whatever the rates are. A bet against it is the likelihood of what was seen
// under a mixture of all other chances, weighed by a beta distribution, over its
// likelihood under p. Where both earn the same, the product of such bets is a
// nonnegative martingale that begins at 1, so the chance that it ever reaches
// 1/α is at most α (Ville, Étude critique de la notion de collectif, 1939;
// Robbins, "Statistical methods related to the law of the iterated logarithm",
// Ann. Math. Stat. 41, 1970; Howard, Ramdas, McAuliffe and Sekhon, "Time-uniform,
// nonparametric, nonasymptotic confidence sequences", Ann. Stat. 49, 2021; all
// from memory).
//
// Since prices mostly stand one after the other, p would change with every look,
// and the product would be no martingale. So bets are made on pairs: the first
// period at the one price with the first at the other, the second with the
// second. Pairs share no sale and no exposure, so each is a bet of its own, with
// its own p, and what earlier pairs showed only shapes the mixture. Where p is the
// same in all of them, this is the beta-binomial mixture over all sales at once.
//
// The ratios of earnings against which the bets have not reached 1/α are a
// confidence sequence: put ψ·Ea·kb for Ea·kb above.
type bets struct {
	won   float64 // logarithm of the likelihood under the mixtures
	pairs []tie   // those with the same odds together
}

// begin is the weight of the mixture before anything is known, Beta(½, ½).
const begin = 0.5

// bet adds the pairs of a group, in their order.
func (b *bets) bet(pairs []tie) {
	var a, other, even float64 // sales so far, and those of a that equality lets expect
	at := map[float64]int{}
	for _, t := range pairs {
		n := t.a + t.b
		if n == 0 {
			continue
		}
		alpha, beta := mixture(a, other, even, t.odds)
		b.won += mathext.Lbeta(alpha+t.a, beta+t.b) - mathext.Lbeta(alpha, beta)
		i, known := at[t.odds]
		if !known {
			i, at[t.odds] = len(b.pairs), len(b.pairs)
			b.pairs = append(b.pairs, tie{odds: t.odds})
		}
		b.pairs[i].a += t.a
		b.pairs[i].b += t.b
		a, other, even = a+t.a, other+t.b, even+n*t.even()
	}
}

// mixture is the beta distribution for a pair after so many sales: their
// conjugate posterior, moved by as much as equality itself moves from where it
// was to the odds of this pair.
func mixture(a, b, even, odds float64) (alpha, beta float64) {
	alpha, beta = begin+a, begin+b
	if even == 0 {
		return alpha, beta
	}
	weight := alpha + beta
	was := math.Log(even) - math.Log(a+b-even)
	mean := expit(math.Log(alpha) - math.Log(beta) + odds - was)
	mean = min(max(mean, begin/weight), 1-begin/weight)
	return weight * mean, weight * (1 - mean)
}

// against is the logarithm of the bets against a's earnings being e^ratio times
// b's. It is convex in ratio.
func (b *bets) against(ratio float64) float64 {
	sum := b.won
	for _, t := range b.pairs {
		sum += t.a*softplus(-t.odds-ratio) + t.b*softplus(t.odds+ratio)
	}
	return sum
}

// softplus is log(1 + e^x): −log of the chance expit(−x).
func softplus(x float64) float64 { return max(x, 0) + math.Log1p(math.Exp(-math.Abs(x))) }

// farthest is the logarithm of a ratio beyond which there is no end.
const farthest = 120

// best is the ratio of greatest likelihood, as a logarithm.
func (b *bets) best() float64 {
	return root(-farthest, farthest, func(ratio float64) float64 {
		var over float64
		for _, t := range b.pairs {
			over += (t.a+t.b)*expit(t.odds+ratio) - t.a
		}
		return over
	})
}

// hold returns the ratios, as logarithms, that no bet has ruled out at 1 − alpha;
// false where none is left, since pairs contradict each other. An end that is
// not reached is infinite.
func (b *bets) hold(alpha float64) (low, high float64, left bool) {
	limit, best := -math.Log(alpha), b.best()
	if b.against(best) >= limit {
		return 0, 0, false
	}
	low, high = math.Inf(-1), math.Inf(1)
	if b.against(-farthest) >= limit {
		low = root(-farthest, best, func(r float64) float64 { return limit - b.against(r) })
	}
	if b.against(farthest) >= limit {
		high = root(best, farthest, func(r float64) float64 { return b.against(r) - limit })
	}
	return low, high, true
}

// sold reports whether there is a sale in the pairs: without one there is no best
// ratio.
func (b *bets) sold() bool { return len(b.pairs) > 0 }

// verdict is what the bets against equality say.
func (b *bets) verdict(alpha float64) Answer {
	if b.against(0) < -math.Log(alpha) {
		return CannotTell
	}
	if b.best() > 0 {
		return Better
	}
	return Worse
}
