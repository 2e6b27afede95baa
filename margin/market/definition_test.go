package market_test

import (
	"math"
	"math/big"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/market"
)

// Every figure of a summary has a second definition here: weights, quantiles and deviations as
// fractions, beta and Student's distributions as integrals added up in small steps, lines by the
// normal equations.

// weighty is a value with its weight.
type weighty struct{ value, weight *big.Rat }

func rat(n, of int64) *big.Rat { return big.NewRat(n, of) }

// middle is the value at a share of the weight: a value stands at (weight before + half its own) ÷
// all; between, values are interpolated.
func middle(of []weighty, share *big.Rat) *big.Rat {
	of = slices.Clone(of)
	slices.SortFunc(of, func(a, b weighty) int {
		if c := a.value.Cmp(b.value); c != 0 {
			return c
		}
		return a.weight.Cmp(b.weight)
	})
	all := new(big.Rat)
	for _, p := range of {
		all.Add(all, p.weight)
	}
	before, was := new(big.Rat), new(big.Rat)
	for i, p := range of {
		at := new(big.Rat).Mul(p.weight, rat(1, 2))
		at.Add(at, before).Quo(at, all)
		if at.Cmp(share) >= 0 {
			if i == 0 {
				return p.value
			}
			part := new(big.Rat).Quo(new(big.Rat).Sub(share, was), new(big.Rat).Sub(at, was))
			return part.Mul(part, new(big.Rat).Sub(p.value, of[i-1].value)).Add(part, of[i-1].value)
		}
		before.Add(before, p.weight)
		was = at
	}
	return of[len(of)-1].value
}

func number(r *big.Rat) float64 {
	f, _ := r.Float64()
	return f
}

func about(t *rapid.T, what string, got, want, room float64) {
	t.Helper()
	if !(math.Abs(got-want) <= room*math.Abs(want)+1e-12) {
		t.Fatalf("%s: %.10g, want %.10g", what, got, want)
	}
}

func simpson(from, to float64, f func(float64) float64) float64 {
	const steps = 160
	h, sum := (to-from)/steps, f(from)+f(to)
	for i := 1; i < steps; i++ {
		sum += float64(2+2*(i%2)) * f(from+float64(i)*h)
	}
	return sum * h / 3
}

func logGamma(x float64) float64 { v, _ := math.Lgamma(x); return v }

// beta is the chance of at most x under a beta distribution, whose density is smooth in the fourth
// root of x.
func beta(a, b, x float64) float64 {
	c := logGamma(a+b) - logGamma(a) - logGamma(b)
	return simpson(0, math.Sqrt(math.Sqrt(x)), func(root float64) float64 {
		if root == 0 {
			return 0
		}
		x := math.Pow(root, 4)
		return math.Exp(c+(a-1)*math.Log(x)+(b-1)*math.Log1p(-x)) * 4 * math.Pow(root, 3)
	})
}

// beyond is what a distribution of a density, the same on both sides, stays within.
func beyond(confidence float64, density func(float64) float64) float64 {
	low, high := 0.0, 200.0
	for range 45 {
		at := (low + high) / 2
		half := simpson(0, math.Atan(at), func(angle float64) float64 { // x = tan angle
			c := math.Cos(angle)
			return density(math.Tan(angle)) / (c * c)
		})
		if 2*half < confidence {
			low = at
		} else {
			high = at
		}
	}
	return low
}

func normal(confidence float64) float64 {
	return beyond(confidence, func(x float64) float64 { return math.Exp(-x*x/2) / math.Sqrt(2*math.Pi) })
}

func student(confidence, free float64) float64 {
	c := math.Exp(logGamma((free+1)/2)-logGamma(free/2)) / math.Sqrt(free*math.Pi)
	return beyond(confidence, func(x float64) float64 { return c * math.Pow(1+x*x/free, -(free+1)/2) })
}

func drawnSales(t *rapid.T) (records []comparables.Record) {
	for range rapid.IntRange(4, 16).Draw(t, "records") {
		r := sold(rapid.SampledFrom([]string{"web", "fair", "shop"}).Draw(t, "venue"), rapid.SampledFrom([]string{"ann", "bo", "cy", "di", "ed", ""}).Draw(t, "seller"), "1")
		r.Price = quoin.AmountOf(rapid.OneOf(rapid.Int64Range(20, 30), rapid.Just(int64(24)), rapid.Int64Range(5, 200)).Draw(t, "price"), 0)
		r.Size = quoin.MustSize(rapid.SampledFrom([]string{"10 x 10 cm", "20 x 10 cm", "20 x 20 cm", "40 x 20 cm"}).Draw(t, "size"))
		records = append(records, r)
	}
	return records
}

// shares are the weights of records: 1 ÷ (venues × sellers of its venue × records of its seller), and
// the effective number of sellers, (Σ weight)² ÷ Σ weight², one without a name being of its venue.
func shares(records []comparables.Record) (weights []*big.Rat, effective *big.Rat) {
	sellers, own, people := map[string]map[string]bool{}, map[[2]string]int64{}, map[[2]string]*big.Rat{}
	for _, r := range records {
		if sellers[r.Venue] == nil {
			sellers[r.Venue] = map[string]bool{}
		}
		sellers[r.Venue][r.Seller] = true
		own[[2]string{r.Venue, r.Seller}]++
	}
	for _, r := range records {
		w := rat(1, int64(len(sellers))*int64(len(sellers[r.Venue]))*own[[2]string{r.Venue, r.Seller}])
		weights = append(weights, w)
		who := [2]string{r.Seller, ""}
		if r.Seller == "" {
			who[1] = r.Venue
		}
		if people[who] == nil {
			people[who] = new(big.Rat)
		}
		people[who].Add(people[who], w)
	}
	squares := new(big.Rat)
	for _, w := range people {
		squares.Add(squares, new(big.Rat).Mul(w, w))
	}
	return weights, squares.Inv(squares)
}

// points are the values of records; those of one seller at one venue and price are one.
func points(records []comparables.Record, weights []*big.Rat) (out []weighty) {
	at := map[string]int{}
	for i, r := range records {
		key := r.Venue + "\x00" + r.Seller + "\x00" + r.Price.String()
		n, known := at[key]
		if !known {
			n, at[key] = len(out), len(out)
			out = append(out, weighty{r.Price.Rat(), new(big.Rat)})
		}
		out[n].weight = new(big.Rat).Add(out[n].weight, weights[i])
	}
	return out
}

func TestSummariesByDefinition(t *testing.T) {
	spoke, bounded, outliers, fitted, quartiles := 0, 0, 0, 0, 0
	deviations := map[string]float64{} // of the normal distribution, by confidence
	for _, level := range []string{"50%", "80%", "95%"} {
		deviations[level] = normal(number(rate(level).Factor().Rat()))
	}
	rapid.Check(t, func(t *rapid.T) {
		records := drawnSales(t)
		level := rapid.SampledFrom([]string{"50%", "80%", "95%"}).Draw(t, "confidence")
		o := market.Options{MinSales: quoin.Some[int64](1), MinVenues: quoin.Some[int64](1), Confidence: quoin.Some(rate(level)), OutlierSpreads: quoin.Some(factor("2")), Quantiles: []quoin.Rate{rate(rapid.SampledFrom([]string{"10%", "25%", "75%", "90%"}).Draw(t, "share")), rate("50%")}}
		s := summarize(t, records, market.Basis{}, o)
		weights, effective := shares(records)
		cloud, confidence := points(records, weights), number(rate(level).Factor().Rat())
		for i, u := range s.Used {
			if off := new(big.Rat).Sub(u.Weight.Rat(), weights[i]); off.Abs(off).Cmp(rat(1, 1e15)) > 0 || u.Record != i {
				t.Fatalf("record %d weighs %s, want %s", i, u.Weight, weights[i])
			}
		}
		n, _ := s.Effective.Get()
		about(t, "effective", number(n.Rat()), number(effective), 6e-6)
		centre, _ := s.Centre.Get()
		about(t, "centre", number(centre.Rat()), number(middle(cloud, rat(1, 2))), 1e-14)
		for _, q := range s.Quantiles {
			share := q.Share.Factor().Rat()
			about(t, "quantile", number(q.Price.Rat()), number(middle(cloud, share)), 1e-14)
			low, high := bounds(cloud, number(share), confidence, number(n.Rat()))
			for _, end := range []struct {
				got   quoin.Optional[quoin.Amount]
				want  *big.Rat
				least bool
			}{{q.Bounds.Low, low, true}, {q.Bounds.High, high, false}} {
				got, given := end.got.Get()
				if given != (end.want != nil) {
					t.Fatalf("%s of %v: bounds %v, want %v and %v", q.Share, cloud, q.Bounds, low, high)
				}
				if given {
					want := number(end.want)
					if price := number(q.Price.Rat()); end.least && want > price || !end.least && want < price {
						want = price // weights are so uneven that the price lies outside
					}
					bounded++
					about(t, "bound", number(got.Rat()), want, 1e-14)
				}
			}
		}
		// The spread: 1.4826 × the median distance, or the quartiles ÷ 1.349.
		spread, _ := s.Spread.Get()
		mid, quarter, upper := middle(cloud, rat(1, 2)), middle(cloud, rat(1, 4)), middle(cloud, rat(3, 4))
		apart, logs := make([]weighty, len(cloud)), make([]weighty, len(cloud))
		for i, p := range cloud {
			apart[i] = weighty{new(big.Rat).Abs(new(big.Rat).Sub(p.value, mid)), p.weight}
			logs[i] = weighty{new(big.Rat).SetFloat64(math.Abs(math.Log(number(p.value) / number(mid)))), p.weight}
		}
		money, log, by := new(big.Rat).Mul(middle(apart, rat(1, 2)), rat(14826, 10000)), 1.4826*number(middle(logs, rat(1, 2))), market.ByDeviation
		if money.Sign() == 0 {
			money, log, by = new(big.Rat).Quo(new(big.Rat).Sub(upper, quarter), rat(1349, 1000)), math.Log(number(upper)/number(quarter))/1.349, market.ByQuartiles
			if quartiles++; money.Sign() == 0 {
				by = market.NoScale
			}
		}
		if spread.By != by {
			t.Fatalf("a spread by %q, want %q", spread.By, by)
		}
		about(t, "spread", number(spread.Money.Rat()), number(money), 1e-12)
		about(t, "spread of logarithms", number(spread.Log.Rat()), log, 2e-5)
		about(t, "quartile", number(spread.Quartiles.Low.Rat()), number(quarter), 1e-14)
		about(t, "quartile", number(spread.Quartiles.High.Rat()), number(upper), 1e-14)
		found := map[int]market.Outlier{}
		for _, x := range s.Outliers {
			found[x.Record] = x
		}
		for i, r := range records {
			away := math.Log(number(r.Price.Rat())/number(mid)) / log
			x, out := found[i]
			if log > 0 && math.Abs(math.Abs(away)-2) > 1e-4 && out != (math.Abs(away) > 2) {
				t.Fatalf("%s is %g spreads away, an outlier %t", r.Price, away, out)
			}
			if out {
				outliers++
				about(t, "spreads", number(x.Spreads.Rat()), away, 5e-5)
				if (x.Code == market.FarBelow) != (away < 0) {
					t.Fatalf("%s at %g spreads", x.Code, away)
				}
			}
		}
		price := quoin.AmountOf(rapid.Int64Range(18, 32).Draw(t, "price"), 0)
		at := new(big.Rat)
		for _, p := range cloud {
			switch p.value.Cmp(price.Rat()) {
			case -1:
				at.Add(at, p.weight)
			case 0:
				at.Add(at, new(big.Rat).Mul(p.weight, rat(1, 2)))
			}
		}
		position, _ := s.Position(price).Get()
		about(t, "percentile", number(position.Percentile.Factor().Rat()), number(at), 1e-14)
		// Wilson's ends are where (share − end)² is z² × end × (1 − end) ÷ n.
		z := deviations[level]
		for _, end := range []quoin.Rate{position.Interval.Low, position.Interval.High} {
			e := number(end.Factor().Rat())
			if off := math.Abs(e-number(at)) - z*math.Sqrt(max(e*(1-e), 0)/number(n.Rat())); math.Abs(off) > 2e-5 {
				t.Fatalf("an end at %s of %s is off by %g", end, position.Percentile, off)
			}
		}
		spoke++
		if fits(t, s.Exponent, records, weights, effective, confidence, z) {
			fitted++
		}
	})
	if spoke < 80 || bounded < 100 || outliers < 20 || fitted < 20 || quartiles < 5 {
		t.Errorf("only %d spoke, %d ends, %d outliers, %d fits, %d by quartiles", spoke, bounded, outliers, fitted, quartiles)
	}
}

// bounds are the greatest value that the quantile is surely not below, and the least that it is surely
// not above.
func bounds(of []weighty, share, confidence, n float64) (low, high *big.Rat) {
	if n < 1 {
		return nil, nil
	}
	all := new(big.Rat)
	for _, p := range of {
		all.Add(all, p.weight)
	}
	surely := func(share float64, beyond *big.Rat) bool {
		rest := min(max(number(new(big.Rat).Quo(beyond, all))*n, 0), n)
		return n-rest > 1e-9 && beta(rest+1, n-rest, share) >= 0.5+confidence/2-2e-7
	}
	for _, p := range of {
		below, above := new(big.Rat), new(big.Rat)
		for _, q := range of {
			switch q.value.Cmp(p.value) {
			case -1:
				below.Add(below, q.weight)
			case 1:
				above.Add(above, q.weight)
			}
		}
		if surely(share, below) && (low == nil || p.value.Cmp(low) > 0) {
			low = p.value
		}
		if surely(1-share, above) && (high == nil || p.value.Cmp(high) < 0) {
			high = p.value
		}
	}
	return low, high
}

// fits compares the exponent with a line by the normal equations, drawn to a half by precisions.
func fits(t *rapid.T, x market.Exponent, records []comparables.Record, weights []*big.Rat, effective *big.Rat, confidence, z float64) bool {
	sizes, n := map[string]bool{}, number(effective)
	var sw, sx, sy, sxx, sxy float64
	line := func(i int) (w, x, y float64) {
		r := records[i]
		return n * number(weights[i]), math.Log(number(r.Size.Area().Number().Rat())), math.Log(number(r.Price.Rat()))
	}
	for i, r := range records {
		sizes[r.Size.String()] = true
		w, x, y := line(i)
		sw, sx, sy, sxx, sxy = sw+w, sx+w*x, sy+w*y, sxx+w*x*x, sxy+w*x*y
	}
	fit, given := x.Fit.Get()
	if math.Abs(n-3) < 1e-9 {
		return false // neither here nor there in floats
	}
	if given != (len(sizes) >= 3 && n >= 3) || x.Sizes != int64(len(sizes)) {
		t.Fatalf("a fit %t of %d sizes and %g sellers", given, len(sizes), n)
	}
	low, high := 0.5-0.25*z, 0.5+0.25*z
	if !given {
		if ends, ok := x.Interval.Get(); !ok || !x.Used.Equal(factor("0.5")) || !x.DataWeight.IsZero() || math.Abs(number(ends.Low.Rat())-low) > 1e-5 || math.Abs(number(ends.High.Rat())-high) > 1e-5 {
			t.Fatalf("the default alone: %+v", x)
		}
		return false
	}
	slope := (sw*sxy - sx*sy) / (sw*sxx - sx*sx)
	start, left := (sy-slope*sx)/sw, 0.0
	for i := range records {
		w, x, y := line(i)
		left += w * math.Pow(y-start-slope*x, 2)
	}
	failed := math.Sqrt(left / (n - 2) * sw / (sw*sxx - sx*sx))
	half := student(confidence, n-2) * failed
	about(t, "slope", number(fit.Exponent.Rat())+10, slope+10, 2e-6)
	about(t, "error", number(fit.StandardError.Rat()), failed, 1e-5)
	if math.Abs(number(fit.Interval.Low.Rat())-(slope-half)) > 1e-4*(1+half) || math.Abs(number(fit.Interval.High.Rat())-(slope+half)) > 1e-4*(1+half) {
		t.Fatalf("from %s to %s, want %g ± %g", fit.Interval.Low, fit.Interval.High, slope, half)
	}
	own := half / z
	weight := 0.0625 / (0.0625 + own*own)
	used, room := weight*slope+(1-weight)/2, z*math.Sqrt(weight)*own
	ends, _ := x.Interval.Get()
	if math.Abs(number(x.DataWeight.Factor().Rat())-weight) > 1e-4 || math.Abs(number(x.Used.Rat())-used) > 2e-4 || math.Abs(number(ends.Low.Rat())-(used-room)) > 3e-4 || math.Abs(number(ends.High.Rat())-(used+room)) > 3e-4 {
		t.Fatalf("used %s from %s to %s with %s, want %g ± %g with %g", x.Used, ends.Low, ends.High, x.DataWeight, used, room, weight)
	}
	return true
}
