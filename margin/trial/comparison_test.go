package trial_test

import (
	"fmt"
	"math"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/trial"
)

// A bet is the likelihood of what a pair sold under a beta distribution of a's share, over that under
// equal earnings. It is written here from gamma functions, pair by pair, as the comment on bets says.

func logBeta(a, b float64) float64 {
	lg := func(x float64) float64 { v, _ := math.Lgamma(x); return v }
	return lg(a) + lg(b) - lg(a+b)
}

func logistic(x float64) float64 { return 1 / (1 + math.Exp(-x)) }

// pair is what a and b sold, and the odds that a sale falls to a were both equal.
type pair struct{ a, b, odds float64 }

// evidence is the logarithm of all bets against a earning e^ratio times what b earns.
func evidence(pairs []pair, ratio float64) (sum float64) {
	a, b, even := 0.5, 0.5, 0.0
	for _, p := range pairs {
		n := p.a + p.b
		if n == 0 {
			continue
		}
		weight := a + b
		mean := a / weight
		if sold := weight - 1; sold > 0 { // moved by as much as equality moves
			was := math.Log(even / (sold - even))
			mean = logistic(math.Log(mean/(1-mean)) + math.Log(p.odds) - was)
			mean = math.Max(0.5/weight, math.Min(1-0.5/weight, mean))
		}
		sum += logBeta(weight*mean+p.a, weight*(1-mean)+p.b) - logBeta(weight*mean, weight*(1-mean))
		if p.a > 0 {
			sum -= p.a * math.Log(logistic(math.Log(p.odds)+ratio))
		}
		if p.b > 0 {
			sum -= p.b * math.Log(logistic(-math.Log(p.odds)-ratio))
		}
		a, b, even = a+p.a, b+p.b, even+n*p.odds/(1+p.odds)
	}
	return sum
}

// end is where the evidence against a ratio, going from one ratio to another, comes to a limit.
func end(pairs []pair, from, to, limit float64) float64 {
	for range 200 {
		if middle := (from + to) / 2; evidence(pairs, middle) < limit {
			from = middle
		} else {
			to = middle
		}
	}
	return from
}

// drawnPairs are periods side by side, and the pairs that they are.
func drawnPairs(t *rapid.T, keptA, keptB int64) (a, b []trial.Period, pairs []pair) {
	for i := range rapid.IntRange(1, 4).Draw(t, "pairs") {
		x, y := rapid.Int64Range(0, 60).Draw(t, "a"), rapid.Int64Range(0, 60).Draw(t, "b")
		ea, eb := rapid.Int64Range(1, 40).Draw(t, "exposure of a"), rapid.Int64Range(1, 40).Draw(t, "of b")
		a = append(a, heron(fmt.Sprint("a", i), i, "79", fmt.Sprint(keptA), fmt.Sprint(ea), x))
		b = append(b, heron(fmt.Sprint("b", i), i, "89", fmt.Sprint(keptB), fmt.Sprint(eb), y))
		pairs = append(pairs, pair{float64(x), float64(y), float64(ea*keptB) / float64(eb*keptA)})
	}
	return a, b, pairs
}

func TestComparisonByBets(t *testing.T) {
	told, bounded := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		keptA, keptB := rapid.Int64Range(1, 60).Draw(t, "a keeps"), rapid.Int64Range(1, 60).Draw(t, "b keeps")
		a, b, pairs := drawnPairs(t, keptA, keptB)
		level := rapid.SampledFrom([]string{"80%", "95%", "99%"}).Draw(t, "confidence")
		c, err := trial.Compare(a, b, trial.Options{Certainty: trial.Certainty{Confidence: at(level)}})
		if err != nil {
			t.Fatal(err)
		}
		limit := -math.Log(1 - float(rate(level).Factor()))
		within(t, "misled", float(c.Misled.Factor()), math.Min(1, math.Exp(-evidence(pairs, 0))))
		var sold, mine, ea, eb float64
		for i, p := range pairs {
			sold, mine = sold+p.a+p.b, mine+p.a
			ea, eb = ea+float(a[i].Exposure.Number), eb+float(b[i].Exposure.Number)
		}
		// The best ratio is that at which the pairs together sell what a sold.
		best, far := -100.0, 100.0
		for range 200 {
			var expected float64
			for _, p := range pairs {
				expected += (p.a + p.b) * logistic(math.Log(p.odds)+(best+far)/2)
			}
			if expected < mine {
				best = (best + far) / 2
			} else {
				far = (best + far) / 2
			}
		}
		r, given := c.Anytime.Get()
		if possible := evidence(pairs, best) < limit; given != possible {
			t.Fatalf("a ratio is given %t, is possible %t", given, possible)
		}
		if value, known := r.Value.Get(); given && known && mine > 0 && mine < sold {
			within(t, "best", float(value), math.Exp(best))
		} else if given && known != (sold > 0 && mine < sold) {
			t.Errorf("%v of %v sold: a best ratio of %v", mine, sold, r.Value)
		}
		if given && mine > 0 && mine < sold {
			bounded++
			high, _ := r.High.Get()
			within(t, "low", float(r.Low), math.Exp(end(pairs, best, -100, limit)))
			within(t, "high", float(high), math.Exp(end(pairs, best, 100, limit)))
		}
		want := trial.CannotTell
		if evidence(pairs, 0) >= limit {
			told++
			if want = trial.Worse; best > 0 {
				want = trial.Better
			}
		}
		if got := c.Groups[0].Answer; got != want {
			t.Errorf("the group says %s, want %s", got, want)
		}
		if !given {
			want = trial.CannotTell // pairs contradict each other
		}
		if c.Answer != want {
			t.Errorf("%s, want %s", c.Answer, want)
		}
		// The chance that a is ahead: beta densities by angle, x being sin²: 2 × sin^2a × cos^2b.
		p := ea * float64(keptB) / (ea*float64(keptB) + eb*float64(keptA))
		density := func(angle float64) float64 {
			return 2 * math.Exp(2*mine*math.Log(math.Sin(angle))+2*(sold-mine)*math.Log(math.Cos(angle))-logBeta(mine+0.5, sold-mine+0.5))
		}
		middle := math.Asin(math.Sqrt(p))
		ahead := integral(middle, math.Pi/2-1e-12, density)
		if got := float(c.Groups[0].Probability.Factor()); math.Abs(got-ahead) > 2e-6 {
			t.Errorf("a is ahead with %v, want %v", got, ahead)
		}
		// Earnings at a single look are rates × kept.
		rates, err := trial.CompareRates(trial.SalesCount{Units: int64(mine), Exposure: quoin.FactorOf(int64(ea))}, trial.SalesCount{Units: int64(sold - mine), Exposure: quoin.FactorOf(int64(eb))}, at(level))
		if err != nil {
			t.Fatal(err)
		}
		once := c.Groups[0].Once
		earn, _ := once.Earnings.Get()
		if low := float(rates.Ratio.Low) * float64(keptA) / float64(keptB); math.Abs(float(earn.Low)-low) > 2e-5*low { // both are rounded
			t.Errorf("earnings from %s, want %v", earn.Low, low)
		}
		if fmt.Sprint(once.Rates) != fmt.Sprint(rates.Ratio) {
			t.Errorf("rates %v, want %v", once.Rates, rates.Ratio)
		}
		even, err := trial.CompareRates(trial.SalesCount{Units: int64(mine), Exposure: quoin.FactorOf(int64(ea) * keptB)}, trial.SalesCount{Units: int64(sold - mine), Exposure: quoin.FactorOf(int64(eb) * keptA)}, at(level))
		if p, _ := once.P.Get(); err != nil || math.Abs(float(p.Factor())-float(even.P.Factor())) > 1e-6 {
			t.Errorf("p of equal earnings %s, want %s, %v", p, even.P, err)
		}
	})
	if told < 10 || bounded < 40 {
		t.Errorf("only %d told, %d with two ends", told, bounded)
	}
}

// How many sales an answer takes: the boundary by brute force elsewhere, and for one look the sales
// that the formula of SalesToTell gives, with the odds of the exposures and of what is kept.
func TestNeeded(t *testing.T) {
	for _, c := range []struct {
		what                 string
		keptA, keptB         string
		exposureA, exposureB string
		difference           quoin.Optional[quoin.Rate]
		power                quoin.Optional[quoin.Rate]
		units                int64 // of each
		want                 string
	}{
		{"25% by default", "40", "40", "1000", "1000", quoin.Optional[quoin.Rate]{}, quoin.Optional[quoin.Rate]{}, 10, ""},
		{"half as much again", "40", "50", "1000", "3000", at("50%"), quoin.Optional[quoin.Rate]{}, 7, ""},
		{"twice, with a power of 95%", "10", "50", "700", "300", at("100%"), at("95%"), 1, ""},
	} {
		a, b := list(heron("a", 0, "79", c.keptA, c.exposureA, c.units)), list(heron("b", 1, "89", c.keptB, c.exposureB, c.units))
		got, err := trial.Compare(a, b, trial.Options{Difference: c.difference, Certainty: trial.Certainty{Power: c.power}})
		if err != nil {
			t.Fatal(err)
		}
		d := float(c.difference.Or(rate("25%")).Factor())
		power := c.power.Or(rate("80%"))
		odds := float(factor(c.exposureA)) * float(amount(c.keptB)) / (float(factor(c.exposureB)) * float(amount(c.keptA)))
		once, sales := 0.0, int64(0)
		for _, differ := range []float64{math.Log(1 + d), -math.Log(1 + d)} {
			q := logistic(math.Log(odds) + differ)
			apart := 2 * (math.Asin(math.Sqrt(q)) - math.Asin(math.Sqrt(odds/(1+odds))))
			once = math.Max(once, math.Pow((z(0.975)+z(float(power.Factor())))/apart, 2))
			n, _ := trial.Anytime(differ, math.Log(odds), trial.Certainty{Power: c.power})
			sales = max(sales, n)
		}
		n, given := got.Needed.Get()
		if !given || n.Once != int64(math.Ceil(once)) || n.Sales != sales || n.More != sales-2*c.units || !n.Difference.Equal(c.difference.Or(rate("25%"))) || !n.Power.Equal(power) {
			t.Errorf("%s: %+v, want %d sales, and %.2f for one look", c.what, n, sales, once)
		}
		// As much exposure for each of them as there was for those so far, rounded up.
		pace := (float(factor(c.exposureA)) + float(factor(c.exposureB))) / float64(2*c.units)
		if e, _ := n.Exposure.Get(); float(e) != math.Ceil(pace*float64(n.More)-1e-9) {
			t.Errorf("%s: an exposure of %s, want %v for each of %d", c.what, e, pace, n.More)
		}
	}
	a, b := two("40", "40", 0, 0)
	if n, given := compare(t, a, b).Needed.Get(); !given || n.More != n.Sales || n.Exposure.String() != "none" {
		t.Errorf("nothing sold: %+v", n)
	}
	a, b = two("40", "40", 60_000, 60_000)
	if n, given := compare(t, a, b).Needed.Get(); !given || n.More != 0 || n.Exposure.String() != "0" {
		t.Errorf("more sold than it takes: %+v", n)
	}
	a, b = two("40", "-1", 9, 9)
	if c := compare(t, a, b); c.Needed.String() != "none" || c.Anytime.String() != "none" || !c.Misled.Equal(rate("100%")) {
		t.Errorf("a price that loses: %+v", c)
	}
	// A difference of 1% of 1 to 10^9 exposures takes more than 10^9 sales.
	a, b = list(heron("a", 0, "79", "40", "0.001", 1)), list(heron("b", 1, "89", "40", "1000000000", 1))
	if c, err := trial.Compare(a, b, trial.Options{Difference: at("1%")}); err != nil || c.Needed.String() != "none" {
		t.Errorf("what can't be told: %v, %v", c.Needed, err)
	}
}

// Groups go by channel, kind and occasion: what each has, in the order of its first period; of
// several that earn, more sales are needed, and no exposure is said.
func TestGroupsInOrder(t *testing.T) {
	fair := func(id string, n int, price, kept, days string, units int64) trial.Period {
		p := heron(id, n, price, kept, days, units)
		p.Channel, p.Occasion, p.Exposure.Kind = "spring fair", "fair", trial.StandDays
		return p
	}
	a := list(heron("a2", 3, "79", "40", "500", 4), heron("a1", 2, "79", "40", "1000", 12), fair("fa", 0, "79", "-6", "2", 3))
	b := list(heron("b1", 2, "89", "50", "800", 9), fair("fb", 1, "89", "30", "4", 5))
	c := compare(t, a, b)
	if len(c.Groups) != 2 || words(c.Why) != "boundary_not_passed one_price_loses unmatched_periods one_after_other" || c.Answer != trial.CannotTell {
		t.Fatalf("%s, %v, %v", c.Answer, c.Why, c.Groups)
	}
	for i, want := range []string{
		`channel "spring fair", kind stand_days, occasion "fair", pairs 1, answer worse, a: price 79, kept -6, periods 1, units 3, exposure 2, earned -18, b: price 89, kept 30, periods 1, units 5, exposure 4, earned 150`,
		`channel "shop", kind visits, occasion "web", pairs 1, answer cannot_tell, a: price 79, kept 40, periods 2, units 16, exposure 1500, earned 640, b: price 89, kept 50, periods 1, units 9, exposure 800, earned 450`,
	} {
		g := c.Groups[i]
		side := func(s trial.Side) string {
			return fmt.Sprintf("price %s, kept %s, periods %d, units %d, exposure %s, earned %s", s.Price, s.Kept, s.Periods, s.Units, s.Exposure, s.Earned)
		}
		if got := fmt.Sprintf("channel %q, kind %s, occasion %q, pairs %d, answer %s, a: %s, b: %s", g.Channel, g.Kind, g.Occasion, g.Pairs, g.Answer, side(g.A), side(g.B)); got != want {
			t.Errorf("group %d: %s, want %s", i, got, want)
		}
	}
	// −6 × 3 ÷ 2 a day; the ends of the rate × −6, the higher one first.
	loses, earns := c.Groups[0].Once.A, c.Groups[0].Once.B
	if !loses.Earnings.Equal(amount("-9")) || !earns.Earnings.Equal(amount("37.50")) || c.Groups[0].Once.Earnings.String() != "none" || c.Groups[0].Once.P.String() != "none" {
		t.Errorf("%s and %s a day", loses.Earnings, earns.Earnings)
	}
	one := quoin.AmountOf(-6, 0)
	if !loses.Between.Low.Equal(one.Times(loses.Rate.Interval.High)) || !loses.Between.High.Equal(one.Times(loses.Rate.Interval.Low)) {
		t.Errorf("between %s and %s, with a rate of %v", loses.Between.Low, loses.Between.High, loses.Rate)
	}
	if b := earns.Between; !b.Low.Equal(amount("30").Times(earns.Rate.Interval.Low)) || !b.High.Equal(amount("30").Times(earns.Rate.Interval.High)) {
		t.Errorf("between %s and %s", b.Low, b.High)
	}
	// Two groups that earn: the sales of their pairs, and those of the first of a alone.
	a[2].Kept, b[1].Kept = amount("20"), amount("30")
	c = compare(t, a, b)
	if n, _ := c.Needed.Get(); n.Sales-n.More != 12+9+3+5 || n.Exposure.String() != "none" || c.Look != 2 || !c.Inflation.Equal(rate("8.3%")) {
		t.Errorf("%+v, look %d, %s", n, c.Look, c.Inflation)
	}
	if c, err := trial.Compare(a, b, trial.Options{Looks: 5}); err != nil || c.Look != 5 || !c.Inflation.Equal(rate("14.2%")) {
		t.Errorf("look %d, %s, %v", c.Look, c.Inflation, err)
	}
}

// 4,000 against 2,000 on line say that a earns more, and 0 against 7 at the fair that it earns less:
// B(½, 7½) ÷ B(½, ½) × 2^7 is 26.8, which is above 20. Together they leave room for ratios near 2,
// since 7 of 7 are no more than 26.8 × 1.5^7 against those; but there is no one answer.
func TestGroupsDisagree(t *testing.T) {
	fair := func(p trial.Period) trial.Period { p.Occasion = "fair"; return p }
	a := list(heron("a", 0, "79", "40", "1000", 4000), fair(heron("fa", 0, "79", "40", "1000", 0)))
	b := list(heron("b", 0, "89", "40", "1000", 2000), fair(heron("fb", 0, "89", "40", "1000", 7)))
	c := compare(t, a, b)
	if _, possible := c.Anytime.Get(); !possible || c.Answer != trial.CannotTell || words(c.Why) != "boundary_passed occasions_disagree" {
		t.Errorf("%s (%s), a ratio %t", c.Answer, words(c.Why), possible)
	}
	b[1].Units = 6 // 14.4: it says nothing yet
	if c := compare(t, a, b); c.Answer != trial.Better || words(c.Why) != "boundary_passed" {
		t.Errorf("%s (%s)", c.Answer, words(c.Why))
	}
}

// Prices stood one after the other where no period of one shares a day with one of the other.
func TestOneAfterOther(t *testing.T) {
	for _, c := range []struct {
		what  string
		a, b  []int // months
		apart bool
	}{
		{"the same month", []int{0}, []int{0}, false},
		{"one after the other", []int{0}, []int{1}, true},
		{"the other way round", []int{1}, []int{0}, true},
		{"in turn", []int{0, 2}, []int{1, 3}, true},
		{"the last together", []int{2}, []int{0, 2}, false},
		{"the last of three together", []int{0, 1, 2}, []int{2}, false},
		{"the first together", []int{0, 1}, []int{0, 3}, false},
	} {
		side := func(id, price string, months []int) (out []trial.Period) {
			for _, n := range months {
				out = append(out, heron(fmt.Sprint(id, n), n, price, "40", "1000", 5))
			}
			return out
		}
		got := words(compare(t, side("a", "79", c.a), side("b", "89", c.b)).Why)
		want := "boundary_not_passed"
		if len(c.a) != len(c.b) {
			want += " unmatched_periods"
		}
		if c.apart {
			want += " one_after_other"
		}
		if got != want {
			t.Errorf("%s: %s, want %s", c.what, got, want)
		}
	}
}

// Where nothing sold at any time there is no best ratio, and no end; p of nothing is 100%.
func TestNothingSold(t *testing.T) {
	a, b := two("40", "50", 0, 0)
	c := compare(t, a, b)
	r, given := c.Anytime.Get()
	p, also := c.Groups[0].Once.P.Get()
	if !given || r.Value.String() != "none" || !r.Low.IsZero() || r.High.String() != "none" || !also || !p.Equal(rate("100%")) || !c.Misled.Equal(rate("100%")) {
		t.Errorf("%v, p %s, misled %s", c.Anytime, p, c.Misled)
	}
}

// The share of visitors who buy needs whole visitors, and no more sales than those.
func TestVisitorsWhoBuy(t *testing.T) {
	for _, c := range []struct {
		visitors string
		kind     trial.Kind
		units    int64
		want     string
	}{
		{"5", trial.Visitors, 5, "100%"},
		{"5", trial.Visitors, 4, "80%"},
		{"5", trial.Visitors, 6, "none"},
		{"5.5", trial.Visitors, 5, "none"},
		{"5", trial.Visits, 4, "none"},
		{"10000000", trial.Visitors, 1_000_000, "10%"},
		{"10000001", trial.Visitors, 1, "none"},
	} {
		a, b := two("40", "50", c.units, 1)
		a[0].Exposure, b[0].Exposure.Kind = trial.Exposure{Number: factor(c.visitors), Kind: c.kind}, c.kind
		got := "none"
		if s, given := compare(t, a, b).Groups[0].Once.A.Share.Get(); given {
			got = s.Value.String()
		}
		if got != c.want {
			t.Errorf("%d of %s %s: %s, want %s", c.units, c.visitors, c.kind, got, c.want)
		}
	}
}
