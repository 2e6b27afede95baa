package trial

import (
	"math"
	"strconv"

	"gonum.org/v1/gonum/mathext"

	"example.com/quoin"
	"example.com/quoin/internal/estimate"
)

// SalesCount is how many were sold before how much exposure.
type SalesCount struct {
	Units    int64        `json:"units" range:"[0,10000000]"`
	Exposure quoin.Factor `json:"exposure" need:"yes" range:"[0.001,1000000000]"`
}

// Rate is sales per unit of exposure, and the interval that holds it at the
// confidence asked for, for one look at the count.
type Rate struct {
	Value    quoin.Factor              `json:"value"`
	Interval quoin.Range[quoin.Factor] `json:"interval"`
}

// Share is the share of visitors who buy, with two intervals, each for one look
// at the count. Wilson's holds on average over shares, the exact one for each.
type Share struct {
	Value  quoin.Rate              `json:"value"`
	Wilson quoin.Range[quoin.Rate] `json:"wilson"`
	Exact  quoin.Range[quoin.Rate] `json:"exact"`
}

// RateOf returns units ÷ exposure with the exact Poisson interval, from the
// quantiles of gamma distributions: from units to units + 1 (Garwood, "Fiducial
// limits for the Poisson distribution", Biometrika 28, 1936; from memory). With
// nothing sold it begins at zero. Confidence is 95% where none is given. The
// error is Problems: numbers out of the ranges of their fields, a confidence out
// of 50% to 99.99%.
func RateOf(s SalesCount, confidence quoin.Optional[quoin.Rate]) (Rate, error) {
	c := checking()
	c.fields(nil, s)
	c.confidence(confidence)
	if err := c.err(); err != nil {
		return Rate{}, err
	}
	return rateOf(s, level(confidence)), nil
}

func rateOf(s SalesCount, confidence float64) Rate {
	low, high := garwood(float64(s.Units), confidence)
	e := estimate.Float(s.Exposure)
	return Rate{figure(float64(s.Units) / e), quoin.Between(figure(low/e), figure(high/e))}
}

func garwood(n, confidence float64) (low, high float64) {
	tail := (1 - confidence) / 2
	if n > 0 {
		low = gammaQuantile(n, tail)
	}
	return low, gammaQuantile(n+1, 1-tail)
}

// gammaQuantile of the gamma distribution of that shape and scale 1.
func gammaQuantile(shape, p float64) float64 {
	reach := shape + 40*math.Sqrt(shape) + 40
	return root(0, reach, func(x float64) float64 { return mathext.GammaIncReg(shape, x) - p })
}

// betaQuantile of the beta distribution; at zero of a parameter it is the end
// that all weight stands on.
func betaQuantile(a, b, p float64) float64 {
	switch {
	case a <= 0:
		return 0
	case b <= 0:
		return 1
	}
	return root(0, 1, func(x float64) float64 { return mathext.RegIncBeta(a, b, x) - p })
}

// ShareOf returns buyers ÷ visitors with the Wilson interval (Wilson, "Probable
// inference, the law of succession, and statistical inference", J. Am. Stat.
// Assoc. 22, 1927) and the exact one (Clopper and Pearson, "The use of confidence
// or fiducial limits illustrated in the case of the binomial", Biometrika 26,
// 1934); both from memory. Confidence is 95% where none is given. The error is
// Problems: no visitors, more than 10,000,000, or buyers not from 0 to visitors.
func ShareOf(buyers, visitors int64, confidence quoin.Optional[quoin.Rate]) (Share, error) {
	c := checking()
	c.confidence(confidence)
	if visitors < 1 || visitors > mostUnits {
		c.outOf("visitors", strconv.FormatInt(visitors, 10), "a value of at least 1 and at most "+strconv.Itoa(mostUnits))
	}
	if buyers < 0 || buyers > visitors {
		c.outOf("buyers", strconv.FormatInt(buyers, 10), "a value of at least 0 and at most the visitors")
	}
	if err := c.err(); err != nil {
		return Share{}, err
	}
	return shareOf(float64(buyers), float64(visitors), level(confidence)), nil
}

func shareOf(x, n, confidence float64) Share {
	wl, wh := estimate.Wilson(x/n, n, confidence)
	el, eh := clopper(x, n, confidence)
	return Share{share(x / n), quoin.Between(share(wl), share(wh)), quoin.Between(share(el), share(eh))}
}

func clopper(x, n, confidence float64) (low, high float64) {
	tail := (1 - confidence) / 2
	return betaQuantile(x, n-x+1, tail), betaQuantile(x+1, n-x, 1-tail)
}
