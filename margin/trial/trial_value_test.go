package trial_test

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/internal/problemtest"
	"example.com/quoin/margin/trial"
)

// What a trial is expected to lose and to bring, by adding up in small steps what a candidate may
// earn: e^Z times what today's price earns, Z being normal.
func TestTrialValueByIntegral(t *testing.T) {
	valued, believed := 0, 0
	rapid.Check(t, func(t *rapid.T) {
		c := choice()
		c.Sold.Units = rapid.Int64Range(1, 500).Draw(t, "units")
		c.Horizon = quoin.FactorOf(rapid.Int64Range(1_000, 1_000_000).Draw(t, "horizon"))
		c.Plan = trial.Certainty{Confidence: at(rapid.SampledFrom([]string{"80%", "95%"}).Draw(t, "confidence")), Power: at(rapid.SampledFrom([]string{"60%", "80%", "90%"}).Draw(t, "power"))}
		elasticity, spread := rapid.Int64Range(-4, 1).Draw(t, "elasticity"), rapid.Int64Range(0, 3).Draw(t, "spread")
		if rapid.Bool().Draw(t, "believes") {
			c.Belief = quoin.Some(trial.Belief{Elasticity: quoin.FactorOf(elasticity), Spread: quoin.FactorOf(spread)})
			believed++
		}
		p, err := trial.Next(c)
		if err != nil {
			t.Fatal(err)
		}
		for _, d := range p.Candidates {
			kept, today := 0.6*float(d.Price)-9, 0.6*79-9
			step := math.Log(float(d.Price) / 79)
			mean, sd := -2*step*step, 2*math.Abs(step) // a spread of 2, and nothing gained or lost on average
			if _, given := c.Belief.Get(); given {
				mean, sd = math.Log(kept/today)+float64(elasticity)*step, float64(spread)*math.Abs(step)
			}
			tell := math.Max(sd, math.Abs(mean))
			up, ok := trial.Anytime(tell, math.Log(today/kept), c.Plan)
			down, ok2 := trial.Anytime(-tell, math.Log(today/kept), c.Plan)
			v, given := d.Trial.Get()
			if given != (ok && ok2) {
				t.Fatalf("%s: a value %t, sales %t and %t", d.Price, given, ok, ok2)
			}
			if !given {
				continue
			}
			valued++
			expect := func(of func(times float64) float64) float64 {
				if sd == 0 {
					return of(math.Exp(mean))
				}
				part := func(z float64) float64 { return of(math.Exp(mean+sd*z)) * math.Exp(-z*z/2) / math.Sqrt(2*math.Pi) }
				even := math.Max(-9, math.Min(9, -mean/sd)) // where both earn the same: a bend
				return integral(-9, even, part) + integral(even, 9, part)
			}
			pace := float64(c.Sold.Units) / 3000
			mine := expect(func(times float64) float64 { return times }) * today / kept // sales for one at today's price
			sales := max(up, down)
			exposure := math.Ceil(float64(sales) / (pace * (1 + mine)) * (1 - 1e-11))
			loss := pace * today * exposure * expect(func(times float64) float64 { return math.Max(0, 1-times) })
			gain := pace * today * math.Max(0, float(c.Horizon)-2*exposure) * float(c.Plan.Power.Or(rate("0%")).Factor()) *
				expect(func(times float64) float64 { return math.Max(0, times-1) })
			if v.Sales != sales {
				t.Errorf("%s: %d sales, want %d", d.Price, v.Sales, sales)
			}
			within(t, "difference", float(v.Difference), math.Exp(tell))
			within(t, "exposure", float(v.Exposure), exposure)
			within(t, "loss", float(v.Loss), loss)
			if got := float(v.Gain); math.Abs(got-gain) > 6e-6*gain+1e-9*pace*today*float(c.Horizon) {
				t.Errorf("gain: %v, want %v", got, gain)
			}
			if !v.Worth.Equal(v.Gain.Sub(v.Loss)) {
				t.Errorf("worth %s of %s and %s", v.Worth, v.Gain, v.Loss)
			}
		}
	})
	if valued < 200 || believed < 20 {
		t.Errorf("only %d trials valued, %d believed", valued, believed)
	}
}

// The prices in reach of 80.00 by a tenth, lowest first: what a sale leaves there, the step, and the
// share of today's sales that earns as much.
func TestCandidates(t *testing.T) {
	c := choice()
	c.Today, c.Move, c.Allowed = amount("80"), rate("10%"), amounts("88", "88.01", "71.99", "72", "80", "84", "84.00", "76", "0", "-5")
	kept := map[string]string{"72": "4", "76": "0", "80": "8", "84": "10", "88": "16"}
	c.Kept = func(p quoin.Amount) quoin.Amount { return amount(kept[p.Round(0, quoin.HalfUp).String()]) }
	got := func(c trial.Choice) string {
		t.Helper()
		p, err := trial.Next(c)
		if err != nil {
			t.Fatal(err)
		}
		var out []string
		for _, d := range p.Candidates {
			_, valued := d.Trial.Get()
			out = append(out, fmt.Sprintf("%s keeps %s, %s, even at %s, valued %t", d.Price.Round(0, quoin.HalfUp), d.Kept, d.Change.Round(4), d.Even, valued))
		}
		return strings.Join(out, "; ")
	}
	want := "72 keeps 4, -10%, even at 2, valued true; 76 keeps 0, -5%, even at none, valued false; " +
		"84 keeps 10, 5%, even at 0.8, valued true; 88 keeps 16, 10%, even at 0.5, valued true"
	if text := got(c); text != want {
		t.Errorf("%s\nwant\n%s", text, want)
	}
	c.Sold.Units = 0
	if text := got(c); text != strings.ReplaceAll(want, "true", "false") {
		t.Errorf("without a sale: %s", text)
	}
	kept["80"] = "0"
	if text := got(c); strings.Contains(text, "true") || strings.Count(text, "none") != 4 {
		t.Errorf("today keeps nothing: %s", text)
	}
}

// Of equals the nearest is taken, and of two as near the dearer; a trial that takes the whole
// horizon is none; and what is worth just nothing is not tried.
func TestChoices(t *testing.T) {
	flat := func(p quoin.Amount) quoin.Amount { return amount("10") }
	but := func(price, kept string) func(quoin.Amount) quoin.Amount {
		return func(p quoin.Amount) quoin.Amount {
			if p.Equal(amount(price)) {
				return amount(kept)
			}
			return amount("10")
		}
	}
	sure := func(elasticity string) quoin.Optional[trial.Belief] {
		return quoin.Some(trial.Belief{Elasticity: factor(elasticity), Spread: factor("0")})
	}
	for _, c := range []struct {
		what   string
		change func(*trial.Choice)
		price  string
		reason trial.Reason
	}{
		{"today loses: two as near", func(c *trial.Choice) { c.Kept, c.Allowed = but("79", "-1"), amounts("75", "83", "70", "88") }, "83", trial.TodayLoses},
		{"today keeps nothing: the nearer is cheaper", func(c *trial.Choice) { c.Kept, c.Allowed = but("79", "0"), amounts("76", "83") }, "76", trial.TodayLoses},
		{"today keeps nothing, and nothing sold", func(c *trial.Choice) { c.Kept, c.Sold.Units = but("79", "0"), 0 }, "75", trial.TodayLoses},
		{"none but prices that lose", func(c *trial.Choice) { c.Kept, c.Allowed = but("83", "-1"), amounts("83") }, "none", trial.NothingInReach},
		{"none but prices that keep nothing", func(c *trial.Choice) { c.Kept, c.Allowed = but("83", "0"), amounts("83") }, "none", trial.NothingInReach},
		{"one of them loses", func(c *trial.Choice) { c.Kept, c.Allowed = but("83", "0"), amounts("83", "69") }, "69", trial.MostWorth},
		{"surely as good", func(c *trial.Choice) { c.Kept, c.Belief = flat, sure("0") }, "none", trial.TooShort}, // no difference can be told
		{"a trial is on", func(c *trial.Choice) { c.Running = &trial.Comparison{Answer: trial.CannotTell} }, "none", trial.Unfinished},
		{"a trial says worse", func(c *trial.Choice) { c.Running = &trial.Comparison{Answer: trial.Worse} }, "69", trial.MostWorth},
	} {
		in := choice()
		c.change(&in)
		p, err := trial.Next(in)
		if err != nil || p.Reason != c.reason || p.Price.String() != c.price {
			t.Errorf("%s: %s, %s, %v, want %s, %s", c.what, p.Price, p.Reason, err, c.price, c.reason)
		}
	}
	in := choice()
	in.Kept, in.Allowed, in.Belief = flat, amounts("85"), sure("3") // surely better: nothing to lose
	in.Horizon = factor("1000000")
	p, err := trial.Next(in)
	v, given := p.Candidates[0].Trial.Get()
	if err != nil || !given || !v.Loss.IsZero() || p.Reason != trial.MostWorth {
		t.Fatalf("%+v, %v", p, err)
	}
	twice := v.Exposure.Add(v.Exposure)
	for _, c := range []struct {
		horizon quoin.Factor
		reason  trial.Reason
	}{{twice, trial.TooShort}, {twice.Add(factor("1")), trial.MostWorth}} {
		in.Horizon = c.horizon
		if p, err := trial.Next(in); err != nil || p.Reason != c.reason {
			t.Errorf("a horizon of %s: %s, %v, want %s", c.horizon, p.Reason, err, c.reason)
		}
	}
	in.Belief, in.Horizon = sure("-3"), factor("1000000") // surely worse: nothing to win
	if p, err := trial.Next(in); err != nil || p.Reason != trial.NotWorth {
		t.Errorf("surely worse: %s, %v", p.Reason, err)
	}
}

// All that is said of what cannot be reckoned.
func TestProblemsTold(t *testing.T) {
	none := quoin.Optional[quoin.Rate]{}
	a, b := two("40", "50", 12, 9)
	b[0].Product, b[0].ID, b[0].To = "avocet", "a", b[0].From
	_, listed := trial.Compare(a, b, trial.Options{})
	c, d := two("40", "50", 12, 9)
	d[0].Product = "avocet"
	_, mixed := trial.Compare(append(c, heron("c", 2, "80", "41", "1", 0)), d, trial.Options{})
	e := list(heron("a", 0, "79", "40", "1000000000", 10_000_000))
	for i := range 100 {
		e = append(e, heron(fmt.Sprint("e", i), i+1, "79", "40", "1000000000", 1))
	}
	_, many := trial.Compare(e, list(heron("b", 0, "89", "40", "1", 1)), trial.Options{})
	other := heron("2", 1, "0", "1", "1", 1)
	other.Product, other.Channel = "avocet", "fair"
	_, slope := trial.SlopeOf(list(heron("1", 0, "80", "1", "1", 1), other), trial.SlopeOptions{})
	nameless := list(heron("", 0, "79", "40", "1", 1), heron("", 1, "79", "40", "1", 1))
	_, unnamed := trial.Compare(nameless, list(heron("b", 0, "89", "40", "1", 1)), trial.Options{})
	far := choice()
	far.Kept = nil
	for i := range int64(10_001) {
		far.Allowed = append(far.Allowed, quoin.AmountOf(7900_001+i, 5)) // and four of those it has
	}
	visitors := func(a, b string) error {
		_, err := trial.VisitorsToTell(rate(a), rate(b), trial.Certainty{})
		return err
	}
	exposure := func(a, b string) error {
		_, err := trial.ExposureToTell(factor(a), factor(b), trial.Certainty{})
		return err
	}
	sales := func(times string) error {
		_, err := trial.SalesToTell(factor(times), trial.Certainty{})
		return err
	}
	share := func(x, n int64) error {
		_, err := trial.ShareOf(x, n, none)
		return err
	}
	for _, x := range []struct {
		what string
		err  error
		want string
	}{
		{"periods", listed, `fault b[0].to: found 2026-02-01, wanted a day after 2026-02-01; to is the day after the last [empty_period]
fault b[0].id: found "a" again, wanted an id of its own, and a[0] has this one [duplicate_id]`},
		{"sides", mixed, `fault a[1].price: found 80, wanted one price on a side, 79 [mixed_prices]
fault a[1].kept: found 41, wanted the 40 of the periods before it: what a sale is to keep from now on [mixed_kept]
fault b[0].product: found "avocet", wanted one product throughout, "heron-a3" [mixed_products]`},
		{"no ids", unnamed, `fault a[0].id: found nothing, wanted the field id [missing_field]
fault a[1].id: found nothing, wanted the field id [missing_field]`},
		{"too many", many, `fault a: found an exposure of 101000000000 in all, wanted at most 100000000000 [too_many]
fault a: found 10000100 units in all, wanted at most 10000000 [too_many]`},
		{"a slope", slope, `fault periods[1].product: found "avocet", wanted one product throughout, "heron-a3" [mixed_products]
fault periods[1]: found another channel, kind of exposure or occasion than periods[0], wanted one of each [unlike_periods]
fault periods[1].price: found 0, wanted a value above 0, since its logarithm is taken [out_of_range]`},
		{"a choice", far.Check(), `fault kept: found nothing, wanted what a sale leaves at each price [missing_field]
fault allowed: found 10005 prices in reach, wanted at most 10000: leave out some [too_many]`},
		{"none of 100,000 too many", trial.Choice{Belief: quoin.Some(trial.Belief{})}.Check(), `fault today: found nothing, wanted the field today [missing_field]
fault sold: found nothing, wanted the field sold [missing_field]
fault move: found nothing, wanted the field move [missing_field]
fault horizon: found nothing, wanted the field horizon [missing_field]
fault kept: found nothing, wanted what a sale leaves at each price [missing_field]`},
		{"one share", visitors("2%", "2%"), "fault b: found 2%, wanted another share than a [out_of_range]"},
		{"no share", visitors("0%", "100%"), `fault a: found 0%, wanted a value above 0% and below 100% [out_of_range]
fault b: found 100%, wanted a value above 0% and below 100% [out_of_range]`},
		{"near shares", visitors("2%", "2.0000001%"), "fault found a difference that takes more than 10^12 to tell, wanted a greater one [out_of_range]"},
		{"one rate", exposure("1000000", "1000000"), "fault b: found 1000000, wanted another rate than a [out_of_range]"},
		{"no rate", exposure("-1", "1000000.1"), `fault a: found -1, wanted a value above 0 and at most 1000000 [out_of_range]
fault b: found 1000000.1, wanted a value above 0 and at most 1000000 [out_of_range]`},
		{"no difference", sales("1"), "fault times: found 1, wanted a value above 0, and not 1 [out_of_range]"},
		{"fewer than none", sales("0"), "fault times: found 0, wanted a value above 0, and not 1 [out_of_range]"},
		{"no visitors", share(0, 0), "fault visitors: found 0, wanted a value of at least 1 and at most 10000000 [out_of_range]"},
		{"too many visitors", share(0, 10_000_001), "fault visitors: found 10000001, wanted a value of at least 1 and at most 10000000 [out_of_range]"},
		{"too many buyers", share(2, 1), "fault buyers: found 2, wanted a value of at least 0 and at most the visitors [out_of_range]"},
		{"buyers below 0", share(-1, 1), "fault buyers: found -1, wanted a value of at least 0 and at most the visitors [out_of_range]"},
		{"all of ten million", share(10_000_000, 10_000_000), ""},
	} {
		if got := problemtest.Told(x.err); got != x.want {
			t.Errorf("%s:\n%s\nwant\n%s", x.what, got, x.want)
		}
	}
}
