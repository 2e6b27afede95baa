package trial

import "example.com/quoin/internal/estimate"

// LeastSquares is the fit of SlopeOf, for data that are no trial.
func LeastSquares(x, y, w []float64) (slope, start, err float64) {
	l, _ := estimate.Through(x, y, w, float64(len(x)))
	return l.Slope, l.Start, l.SlopeError
}

// Boundary answers as a group of pairs does, looked at after each of them: the
// sales of a and b, and a's share of sales were both equal, as log odds.
func Boundary(alpha float64, pairs [][3]float64) Answer {
	b, ties := &bets{}, make([]tie, len(pairs))
	for i, p := range pairs {
		ties[i] = tie{p[0], p[1], p[2]}
	}
	b.bet(ties)
	return b.verdict(alpha)
}

// Anytime is how many sales pass the boundary with the power of the plan.
func Anytime(differ, odds float64, p Certainty) (int64, bool) { return anytime(differ, odds, p) }

// Short is the expected shortfall of a lognormal ratio below 1.
func Short(mean, sd float64) float64 { return short(mean, sd) }
