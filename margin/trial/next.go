package trial

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/estimate"
	"example.com/quoin/internal/form"
)

// Choice is what Next chooses the next price to try by.
type Choice struct {
	// Today is the price that stands, and Sold what sold at it, on one kind of
	// occasion, before one kind of exposure.
	Today quoin.Amount `json:"today" need:"yes" range:"(0,"`
	Sold  SalesCount   `json:"sold" need:"yes"`
	// Allowed is the prices that may be asked, in any order: those of the rules.
	Allowed []quoin.Amount `json:"allowed" most:"100000"`
	// Kept is what one sale at a price leaves.
	Kept func(quoin.Amount) quoin.Amount `json:"-"`
	// Move is the most that the price may move in one step, as a share of today's.
	Move quoin.Rate `json:"move" need:"yes" range:"(0,0.5]"`
	// Horizon is the exposure that is expected from now on, counted as in Sold. What a trial
	// teaches is of use for so long.
	Horizon quoin.Factor `json:"horizon" need:"yes" range:"[0.001,1000000000]"`
	// Belief is what is known of the elasticity so far, from a Slope for example. Without one,
	// every price in reach is expected to earn as much as today's on average, with a spread of 2
	// in the elasticity.
	Belief quoin.Optional[Belief] `json:"belief,omitzero"`
	Plan   Certainty              `json:"plan,omitzero"`
	// Running is the comparison of a trial that is still on, if there is one.
	Running *Comparison `json:"running,omitempty"`
}

// Belief is what is known of the elasticity. Spread is how far off that may be: one standard
// deviation. An elasticity of −1.5 says that 1% more on the price loses 1.5% of the sales.
type Belief struct {
	Elasticity quoin.Factor `json:"elasticity" range:"[-50,50]"`
	Spread     quoin.Factor `json:"spread" range:"[0,20]"`
}

// Proposal is the next price to try, or to stay.
type Proposal struct {
	// Price is the price to try; none means to stay at today's.
	Price  quoin.Optional[quoin.Amount] `json:"price,omitzero"`
	Reason Reason                       `json:"reason"`
	// Candidates is every allowed price in reach, but today's, the lowest first,
	// with the figures that it was chosen by.
	Candidates []Candidate `json:"candidates"`
}

// Reason is why a price is proposed, or none.
type Reason string

const (
	MostWorth      Reason = "most_worth"        // of all in reach, its trial is worth most
	TodayLoses     Reason = "today_loses"       // today's price keeps nothing: the nearest that does
	Unfinished     Reason = "trial_unfinished"  // stay: a trial is on, and can't tell yet
	NothingInReach Reason = "nothing_in_reach"  // stay: no allowed price that keeps something is within the move
	NothingSold    Reason = "nothing_sold"      // stay: without a sale there is no pace to plan a trial by
	TooShort       Reason = "horizon_too_short" // stay: each trial takes longer than the horizon
	NotWorth       Reason = "not_worth_it"      // stay: each trial is expected to cost more than it brings
)

// Candidate is a price in reach.
type Candidate struct {
	Price quoin.Amount `json:"price"`
	Kept  quoin.Amount `json:"kept"`
	// Change is the step from today's price, as a share of it.
	Change quoin.Rate `json:"change"`
	// Even is the share of today's sales at which the candidate earns as much as today's price:
	// kept today ÷ kept at the candidate. If a sale leaves 8.00 today and would leave 10.00, it is
	// 0.8. It is not given, nor is Trial, if a sale at either price leaves nothing.
	Even quoin.Optional[quoin.Factor] `json:"even,omitzero"`
	// Trial is what trying it costs and brings. It is not given either if a figure passes 10^12,
	// or if it takes more than 10^9 sales.
	Trial quoin.Optional[TrialValue] `json:"trial,omitzero"`
}

// TrialValue is what trying a price teaches, and what it risks.
type TrialValue struct {
	// Difference is the ratio of earnings that the trial is to show: 1.2 for a fifth more, or as
	// much less. It is one standard deviation of what is believed, or what is expected, whichever
	// is more.
	Difference quoin.Factor `json:"difference"`
	// Sales is how many sales at both prices together that takes, however often you check.
	// Exposure is the exposure of each price.
	Sales    int64        `json:"sales"`
	Exposure quoin.Factor `json:"exposure"`
	// Loss is what the trial is expected to lose while it runs, in case the candidate earns less.
	// Gain is what it is expected to bring afterwards, in case the candidate earns more: times the
	// power, over what is left of the horizon when both prices have had their exposure. Worth is
	// Gain − Loss. It is careful: what the candidate may earn during the trial is left out.
	Loss  quoin.Amount `json:"loss"`
	Gain  quoin.Amount `json:"gain"`
	Worth quoin.Amount `json:"worth"`
}

const mostInReach = 10_000

// Next chooses the next price to try: of the allowed prices that Move lets today's price go to,
// the one whose trial is worth most. Of equals it takes the nearest to today's, then the dearest.
// It proposes none if a trial is on that cannot tell yet, if no allowed price is in reach, if
// nothing has sold, or if no trial is worth its cost. The error is that of Choice.Check.
//
// The logarithm of what a candidate earns per exposure, as a multiple of today's,
// is thought to be normal. With a belief its mean is log(kept ÷ kept today) +
// elasticity × log(price ÷ today), its standard deviation s is spread × |log(price
// ÷ today)|; without one, s is that of a spread of 2, and the mean −s² ÷ 2, so
// that nothing is gained or lost on average. From that follow the expected loss per
// exposure, E[(1 − e^Z)+], and the expected gain, E[(e^Z − 1)+], by the formulas
// for lognormal variables (Johnson, Kotz and Balakrishnan, Continuous Univariate
// Distributions 1, chapter 14; from memory). A larger step teaches more, since a
// larger difference takes fewer sales to tell, and risks more for each visit; a
// small one is dear, since it takes so long.
func Next(c Choice) (Proposal, error) {
	if err := c.Check(); err != nil {
		return Proposal{}, err
	}
	p := Proposal{Candidates: []Candidate{}}
	for _, price := range c.inReach() {
		p.Candidates = append(p.Candidates, c.candidate(price))
	}
	p.choose(c)
	return p, nil
}

// Check returns all that is wrong with the choice, at once: what its fields do not take, no
// Kept, more than 10,000 prices in reach. The error is quoin.Problems.
func (c Choice) Check() error {
	var k checker
	k.fields(nil, c)
	if b, given := c.Belief.Get(); given {
		k.fields(form.In("belief"), b)
	}
	if c.Kept == nil {
		k.fault(quoin.MissingField, form.In("kept"), "nothing", "what a sale leaves at each price")
	}
	if n := len(c.inReach()); n > mostInReach {
		k.Fault(form.In("allowed"), quoin.TooMany, fmt.Sprintf("%d prices in reach", n), fmt.Sprintf("at most %d: leave out some", mostInReach), "")
	}
	return k.err()
}

// inReach is the allowed prices that today's may move to, sorted, each once.
func (c Choice) inReach() []quoin.Amount {
	most := c.Today.Part(c.Move)
	var out []quoin.Amount
	for _, p := range c.Allowed {
		step := p.Sub(c.Today)
		if p.Sign() > 0 && !step.IsZero() && step.Cmp(most) <= 0 && step.Neg().Cmp(most) <= 0 {
			out = append(out, p)
		}
	}
	slices.SortFunc(out, quoin.Amount.Cmp)
	return slices.CompactFunc(out, quoin.Amount.Equal)
}

func (c Choice) candidate(price quoin.Amount) Candidate {
	today, kept := c.Kept(c.Today), c.Kept(price)
	out := Candidate{Price: price, Kept: kept, Change: price.Sub(c.Today).Share(c.Today)}
	if today.Sign() <= 0 || kept.Sign() <= 0 {
		return out
	}
	out.Even = quoin.Some(today.Ratio(kept))
	if c.Sold.Units > 0 {
		out.Trial = c.trial(price, today, kept)
	}
	return out
}

// choose leaves the price empty where Next stays.
func (p *Proposal) choose(c Choice) {
	keeps := slices.DeleteFunc(slices.Clone(p.Candidates), func(d Candidate) bool { return d.Kept.Sign() <= 0 })
	switch {
	case c.Running != nil && c.Running.Answer == CannotTell:
		p.Reason = Unfinished
	case len(keeps) == 0:
		p.Reason = NothingInReach
	case c.Kept(c.Today).Sign() <= 0:
		best := slices.MinFunc(keeps, nearest)
		p.Price, p.Reason = quoin.Some(best.Price), TodayLoses
	case c.Sold.Units == 0:
		p.Reason = NothingSold
	default:
		p.mostWorth(keeps, c.Horizon)
	}
}

func (p *Proposal) mostWorth(keeps []Candidate, horizon quoin.Factor) {
	keeps = slices.DeleteFunc(keeps, func(d Candidate) bool {
		t, known := d.Trial.Get()
		return !known || t.Exposure.Add(t.Exposure).Cmp(horizon) >= 0
	})
	if len(keeps) == 0 {
		p.Reason = TooShort
		return
	}
	best := slices.MinFunc(keeps, func(d, e Candidate) int {
		t, _ := d.Trial.Get()
		u, _ := e.Trial.Get()
		return cmp.Or(u.Worth.Cmp(t.Worth), nearest(d, e))
	})
	if t, _ := best.Trial.Get(); t.Worth.Sign() <= 0 {
		p.Reason = NotWorth
		return
	}
	p.Price, p.Reason = quoin.Some(best.Price), MostWorth
}

// nearest sorts by the step, and of two equal steps the rise first.
func nearest(d, e Candidate) int {
	return cmp.Or(size(d.Change).Cmp(size(e.Change)), e.Change.Cmp(d.Change))
}

func size(r quoin.Rate) quoin.Rate {
	if r.Sign() < 0 {
		return quoin.Rate{}.Sub(r)
	}
	return r
}

// neutralSpread is the standard deviation of the elasticity where nothing is
// thought of it: a stated default.
const neutralSpread = 2

// thought returns mean and standard deviation of the logarithm of earnings.
func (c Choice) thought(price, today, kept quoin.Amount) (mean, sd float64) {
	step := math.Log(estimate.Float(price)) - math.Log(estimate.Float(c.Today))
	b, given := c.Belief.Get()
	if !given {
		sd = neutralSpread * math.Abs(step)
		return -sd * sd / 2, sd
	}
	mean = math.Log(estimate.Float(kept)) - math.Log(estimate.Float(today)) + estimate.Float(b.Elasticity)*step
	return mean, estimate.Float(b.Spread) * math.Abs(step)
}

func (c Choice) trial(price, today, kept quoin.Amount) (none quoin.Optional[TrialValue]) {
	mean, sd := c.thought(price, today, kept)
	times := math.Exp(mean + sd*sd/2) // of today's earnings, expected
	tell := max(sd, math.Abs(mean))
	odds := math.Log(estimate.Float(today)) - math.Log(estimate.Float(kept))
	up, ok := anytime(tell, odds, c.Plan)
	down, ok2 := anytime(-tell, odds, c.Plan)
	if !ok || !ok2 {
		return none
	}
	pace := estimate.Float(quoin.FactorOf(c.Sold.Units)) / estimate.Float(c.Sold.Exposure)
	sales := max(up, down)
	exposure := math.Ceil(float64(sales) / (pace * (1 + times*math.Exp(odds))))
	earns := pace * estimate.Float(today)
	loss := earns * exposure * short(mean, sd)
	gain := earns * c.Plan.power() * max(0, estimate.Float(c.Horizon)-2*exposure) * (short(mean, sd) + times - 1)
	figures := [4]quoin.Factor{}
	for i, x := range []float64{math.Exp(tell), exposure, loss, gain} {
		f, ok := estimate.Six(x).Get()
		if !ok {
			return none
		}
		figures[i] = f
	}
	one := quoin.AmountOf(1, 0)
	l, g := one.Times(figures[2]), one.Times(figures[3])
	return quoin.Some(TrialValue{figures[0], sales, figures[1], l, g, g.Sub(l)})
}

// short is E[(1 − e^Z)+] of a normal Z.
func short(mean, sd float64) float64 {
	if sd == 0 {
		return max(0, -math.Expm1(mean))
	}
	return max(0, phi(-mean/sd)-math.Exp(mean+sd*sd/2)*phi(-mean/sd-sd))
}

func phi(z float64) float64 { return math.Erfc(-z/math.Sqrt2) / 2 }
