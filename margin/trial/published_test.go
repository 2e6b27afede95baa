package trial_test

import (
	"math"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/trial"
)

// near holds six digits of ours to the places of a published value.
func near(t *testing.T, what string, got, want, half float64) {
	t.Helper()
	if room := half + 5.1e-6*math.Abs(want); math.Abs(got-want) > room {
		t.Errorf("%s: %v, want %v", what, got, want)
	}
}

func TestPublishedWilson(t *testing.T) {
	const read, fromMemory = 5e-8, 5e-5
	for _, c := range []struct {
		source          string
		x, n            int64
		confidence      string
		low, high, half float64
	}{
		{"11.22, SciPy test_binomtest, from R 3.6.2 prop.test", 3, 10, "95%", 0.1077913, 0.6032219, read},
		{"11.23, the same", 3, 10, "99%", 0.07956632, 0.6799753, read},
		{"11.25, the same", 0, 10, "95%", 0, 0.2775328, read},
		{"11.26, the same", 10, 10, "95%", 0.7224672, 1, read},
		{"11.27, SciPy: both one-sided 95% bounds", 3, 10, "90%", 0.1268766, 0.5583002, read},
		{"11.28, statsmodels test_proportion, from R", 19, 38, "95%", 0.348499283643951, 0.651500716356049, read},
		{"11.30, the same", 18, 20, "95%", 0.6989663547715, 0.9721335187862, read},
		{"11.31, the same", 4, 20, "95%", 0.0806576625798, 0.4160174322519, read},
		{"11.32, the same", 4, 200, "95%", 0.0078044264163, 0.0502870869058, read},
		{"11.33, the same", 190, 200, "95%", 0.9104218518612, 0.9726173543992, read},
		{"11.35, the same", 0, 30, "95%", 0, 0.11351339, read},
		{"11.36, R prop.test without correction", 52, 100, "95%", 0.4231658, 0.6153545, read},
		{"11.37, Newcombe, Stat. Med. 17 (1998), Table I; from memory", 81, 263, "95%", 0.2553, 0.3662, fromMemory},
		{"11.38, the same", 15, 148, "95%", 0.0624, 0.1605, fromMemory},
		{"11.39, the same", 0, 20, "95%", 0, 0.1611, fromMemory},
		{"11.40, the same", 1, 29, "95%", 0.0061, 0.1718, fromMemory},
	} {
		s, err := trial.ShareOf(c.x, c.n, at(c.confidence))
		if err != nil {
			t.Fatal(err)
		}
		near(t, c.source, float(s.Wilson.Low.Factor()), c.low, c.half)
		near(t, c.source, float(s.Wilson.High.Factor()), c.high, c.half)
	}
}

func TestPublishedClopperPearson(t *testing.T) {
	for _, c := range []struct {
		source    string
		x, n      int64
		low, high float64
	}{
		{"11.41, R binom.test example", 682, 925, 0.7076683, 0.7654066},
		{"11.42, SciPy, R binom.test", 10, 10, 0.6915029, 1},
		{"11.43, statsmodels test_proportion, from R", 18, 20, 0.6830172859809, 0.9876514728297},
		{"11.44, the same", 100, 200, 0.4286584, 0.5713416},
	} {
		s, err := trial.ShareOf(c.x, c.n, quoin.Optional[quoin.Rate]{})
		if err != nil {
			t.Fatal(err)
		}
		near(t, c.source, float(s.Exact.Low.Factor()), c.low, 5e-8)
		near(t, c.source, float(s.Exact.High.Factor()), c.high, 5e-8)
	}
}

func TestPublishedPoisson(t *testing.T) {
	for _, c := range []struct {
		source          string
		units           int64
		exposure        string
		confidence      string
		low, high, half float64
	}{
		{"11.45, epitools pois.exact: two-sided", 0, "1", "95%", 0, 3.689, 5e-4},
		{"11.45, the same: one-sided 95% is two-sided 90%", 0, "1", "90%", 0, 2.996, 5e-4},
		{"11.51, statsmodels test_poisson", 15, "400", "95%", 0.0209884653319583, 0.0618505471787146, 0},
		{"11.54, Garwood (1936), Biometrika 28; from memory", 1, "1", "95%", 0.025, 5.572, 5e-4},
		{"11.55, the same", 2, "1", "95%", 0.242, 7.225, 5e-4},
		{"11.56, the same", 3, "1", "95%", 0.619, 8.767, 5e-4},
		{"11.57, the same", 5, "1", "95%", 1.623, 11.668, 5e-4},
		{"11.58, the same", 10, "1", "95%", 4.795, 18.390, 5e-4},
	} {
		r, err := trial.RateOf(trial.SalesCount{Units: c.units, Exposure: factor(c.exposure)}, at(c.confidence))
		if err != nil {
			t.Fatal(err)
		}
		near(t, c.source, float(r.Interval.Low), c.low, c.half)
		near(t, c.source, float(r.Interval.High), c.high, c.half)
	}
}

func TestPublishedRateRatio(t *testing.T) {
	none := quoin.Optional[quoin.Rate]{}
	r, err := trial.CompareRates(trial.SalesCount{Units: 11, Exposure: factor("800")}, trial.SalesCount{Units: 6 + 8 + 7, Exposure: factor("3011")}, none)
	if err != nil {
		t.Fatal(err)
	}
	const source = "11.59, R poisson.test(c(11, 6+8+7), c(800, 1083+1050+878))"
	value, _ := r.Ratio.Value.Get()
	high, _ := r.Ratio.High.Get()
	near(t, source, float(value), 1.971488, 5e-7)
	near(t, source, float(r.Ratio.Low), 0.8584264, 5e-8)
	near(t, source, float(high), 4.277266, 5e-7)
	near(t, source, float(r.P.Factor()), 0.07967, 5e-6)

	r, err = trial.CompareRates(trial.SalesCount{Units: 60, Exposure: factor("51477.5")}, trial.SalesCount{Units: 30, Exposure: factor("54308.7")}, none)
	if err != nil {
		t.Fatal(err)
	}
	value, _ = r.Ratio.Value.Get()
	near(t, "11.60, statsmodels test_poisson, ratio", float(value), 2.10999757175465, 0)
	near(t, "11.61, statsmodels test_poisson, exact p of minimum likelihood", float(r.P.Factor()), 0.000675182658686321, 0)
}

// 11.70, R power.prop.test(p1 = .50, p2 = .75, power = .90), which prints n = 76.7.
func TestPublishedPower(t *testing.T) {
	n, err := trial.VisitorsToTell(rate("50%"), rate("75%"), trial.Certainty{Power: at("90%")})
	if err != nil || n != 77 {
		t.Errorf("%d visitors, %v, want 76.7 rounded up", n, err)
	}
}

// 11.73 to 11.79, OpenStax, Principles of Economics, 5.1, by the midpoint method;
// elasticities of demand are published without their sign.
func TestPublishedElasticity(t *testing.T) {
	for _, c := range []struct {
		p, q, p2, q2 string
		want         string
	}{
		{"70", "2800", "60", "3000", "-0.45"}, // 11.73
		{"70", "2800", "80", "2600", "-0.56"}, // 11.75
		{"90", "2400", "100", "2200", "-0.83"},
		{"8", "50", "9", "70", "2.83"}, // supply, from here on
		{"10", "80", "11", "88", "1.00"},
		{"12", "95", "13", "100", "0.64"}, // 11.79
	} {
		e, given := trial.Elasticity(trial.Point{Price: amount(c.p), Sales: factor(c.q)}, trial.Point{Price: amount(c.p2), Sales: factor(c.q2)}).Get()
		if got := e.Round(2, quoin.HalfUp); !given || !got.Equal(factor(c.want)) {
			t.Errorf("%s to %s: %s, want %s", c.p, c.p2, got, c.want)
		}
	}
}

// 11.80, R: lm(log(dist) ~ log(speed), cars); the 50 rows from memory.
func TestPublishedLogLog(t *testing.T) {
	speed := []float64{
		4, 4, 7, 7, 8, 9, 10, 10, 10, 11, 11, 12, 12, 12, 12, 13, 13, 13, 13, 14, 14, 14, 14, 15, 15,
		15, 16, 16, 17, 17, 17, 18, 18, 18, 18, 19, 19, 19, 20, 20, 20, 20, 20, 22, 23, 24, 24, 24, 24, 25,
	}
	dist := []float64{
		2, 10, 4, 22, 16, 10, 18, 26, 34, 17, 28, 14, 20, 24, 28, 26, 34, 34, 46, 26, 36, 60, 80, 20, 26,
		54, 32, 40, 32, 40, 50, 42, 56, 76, 84, 36, 46, 68, 32, 48, 52, 56, 64, 66, 54, 70, 92, 93, 120, 85,
	}
	w := make([]float64, len(speed))
	for i := range speed {
		speed[i], dist[i], w[i] = math.Log(speed[i]), math.Log(dist[i]), 1
	}
	slope, start, err := trial.LeastSquares(speed, dist, w)
	near(t, "11.80, slope", slope, 1.6024, 5e-5)
	near(t, "11.80, start", start, -0.7297, 5e-5)
	near(t, "11.80, error of the slope", err, 0.1395, 5e-5)
}
