package trial

import (
	"cmp"
	"math"
	"slices"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/estimate"
)

// Group is both prices where channel, kind of exposure and occasion are alike.
type Group struct {
	Channel  string `json:"channel"`
	Kind     Kind   `json:"kind"`
	Occasion string `json:"occasion,omitempty"`
	A        Side   `json:"a"`
	B        Side   `json:"b"`
	// Answer is what this group says taken by itself, at any look.
	Answer Answer `json:"answer"`
	// Pairs is how many periods of a have a counterpart of b.
	Pairs int `json:"pairs"`
	// Probability is that of a earning more per exposure than b, given the counts:
	// 1 − I(p; a + ½, b + ½), I being the regularized incomplete beta function and
	// p the share of sales that equal earnings give to a. Both rates have gamma
	// priors of shape ½ and rate 0, Jeffreys' prior, which weighs half a sale and
	// no exposure (Box and Tiao, Bayesian Inference in Statistical Analysis, 1.3;
	// from memory). It goes by all periods, and is no more than a number beside the
	// answer. Where a price keeps nothing it is 0, 1 or ½, by the amounts kept.
	Probability quoin.Rate `json:"probability"`
	// Once holds for one look that was fixed beforehand, and for no other.
	Once SingleLook `json:"once"`
}

// Side is one price in a group, all its periods together.
type Side struct {
	Price    quoin.Amount `json:"price"`
	Kept     quoin.Amount `json:"kept"`
	Periods  int          `json:"periods"`
	Units    int64        `json:"units"`
	Exposure quoin.Factor `json:"exposure"`
	// Earned is units × kept, exactly.
	Earned quoin.Amount `json:"earned"`
}

// SingleLook is what a single look says, from all periods of a group.
type SingleLook struct {
	A LookPrice `json:"a"`
	B LookPrice `json:"b"`
	// Rates is a's rate ÷ b's, with the exact conditional interval of
	// CompareRates, and Earnings the same times a's kept ÷ b's, none unless both
	// are above zero.
	Rates    Ratio                 `json:"rates"`
	Earnings quoin.Optional[Ratio] `json:"earnings,omitzero"`
	// P is the exact two-sided p of equal earnings, as in CompareRates; none
	// where Earnings is.
	P quoin.Optional[quoin.Rate] `json:"p,omitzero"`
}

// LookPrice is a price at a single look.
type LookPrice struct {
	// Rate is sales per exposure, Earnings what is kept per exposure: kept × rate.
	Rate     Rate                      `json:"rate"`
	Earnings quoin.Amount              `json:"earnings"`
	Between  quoin.Range[quoin.Amount] `json:"between"`
	// Share is the share of visitors who buy, where exposure is a whole number of
	// visitors, at most 10,000,000, and no more is sold than visitors came.
	Share quoin.Optional[Share] `json:"share,omitzero"`
}

// likeness is what periods must share to be compared.
type likeness struct {
	channel  string
	kind     Kind
	occasion string
}

func like(p Period) likeness { return likeness{p.Channel, p.Exposure.Kind, p.Occasion} }

// set is the periods of a group, each side in order of its dates.
type set struct {
	likeness
	a, b []Period
}

// gather puts like periods together, in order of the first; what stands beside
// nothing is left out.
func gather(a, b []Period) ([]*set, []LeftOut) {
	found := map[likeness]*set{}
	var order []*set
	at := func(p Period) *set {
		s := found[like(p)]
		if s == nil {
			s = &set{likeness: like(p)}
			found[like(p)] = s
			order = append(order, s)
		}
		return s
	}
	for _, p := range a {
		s := at(p)
		s.a = append(s.a, p)
	}
	for _, p := range b {
		s := at(p)
		s.b = append(s.b, p)
	}
	for _, s := range order {
		slices.SortFunc(s.a, byDate)
		slices.SortFunc(s.b, byDate)
	}
	alone := func(s *set) bool { return len(s.a) == 0 || len(s.b) == 0 }
	left := leave(order, alone)
	order = slices.DeleteFunc(order, alone)
	slices.SortStableFunc(order, func(s, t *set) int { return byDate(s.first(), t.first()) })
	return order, left
}

func byDate(p, q Period) int {
	return cmp.Or(p.From.Cmp(q.From), p.To.Cmp(q.To), strings.Compare(p.ID, q.ID))
}

func (s *set) first() Period {
	if byDate(s.b[0], s.a[0]) < 0 {
		return s.b[0]
	}
	return s.a[0]
}

// leave lists the periods of sets that have one price only, by their dates, and
// why: what the other price has that comes nearest.
func leave(sets []*set, alone func(*set) bool) []LeftOut {
	channels, occasions := [2]map[string]bool{{}, {}}, [2]map[likeness]bool{{}, {}}
	for _, s := range sets {
		for i, side := range [][]Period{s.a, s.b} {
			if len(side) > 0 {
				channels[i][s.channel] = true
				occasions[i][likeness{channel: s.channel, occasion: s.occasion}] = true
			}
		}
	}
	var periods []Period
	why := map[string]Mark{}
	for _, s := range sets {
		if !alone(s) {
			continue
		}
		other := 0
		if len(s.b) == 0 {
			other = 1
		}
		m := OtherChannel
		if occasions[other][likeness{channel: s.channel, occasion: s.occasion}] {
			m = OtherKind
		} else if channels[other][s.channel] {
			m = OtherOccasion
		}
		for _, p := range slices.Concat(s.a, s.b) {
			periods = append(periods, p)
			why[p.ID] = m
		}
	}
	slices.SortFunc(periods, byDate)
	out := make([]LeftOut, len(periods))
	for i, p := range periods {
		out[i] = LeftOut{p.ID, why[p.ID]}
	}
	return out
}

func (s *set) matched() int { return min(len(s.a), len(s.b)) }

// earns reports whether a sale leaves something at both prices.
func (s *set) earns() bool { return s.a[0].Kept.Sign() > 0 && s.b[0].Kept.Sign() > 0 }

// apart reports whether no period of a shares a day with one of b.
func (s *set) apart() bool {
	i, j := 0, 0
	for i < len(s.a) && j < len(s.b) {
		if s.a[i].To.Cmp(s.b[j].From) > 0 && s.b[j].To.Cmp(s.a[i].From) > 0 {
			return false
		}
		if s.a[i].To.Cmp(s.b[j].To) <= 0 {
			i++
		} else {
			j++
		}
	}
	return true
}

// odds is the logarithm of Ea·kb ÷ (Eb·ka).
func (s *set) odds(a, b quoin.Factor) float64 {
	return math.Log(estimate.Float(a)) - math.Log(estimate.Float(b)) + math.Log(estimate.Float(s.b[0].Kept)) - math.Log(estimate.Float(s.a[0].Kept))
}

func (s *set) pairs() []tie {
	out := make([]tie, s.matched())
	for i := range out {
		a, b := s.a[i], s.b[i]
		out[i] = tie{float64(a.Units), float64(b.Units), s.odds(a.Exposure.Number, b.Exposure.Number)}
	}
	return out
}

// sold is the units of the pairs.
func (s *set) sold() (n int64) {
	for i := range s.matched() {
		n += s.a[i].Units + s.b[i].Units
	}
	return n
}

// exposure is that of the pairs, both prices together.
func (s *set) exposure() (e quoin.Factor) {
	for i := range s.matched() {
		e = e.Add(s.a[i].Exposure.Number).Add(s.b[i].Exposure.Number)
	}
	return e
}

// tie is all periods together.
func (s *set) tie() tie {
	a, b := total(s.a), total(s.b)
	return tie{float64(a.Units), float64(b.Units), s.odds(a.Exposure, b.Exposure)}
}

func total(ps []Period) (s SalesCount) {
	for _, p := range ps {
		s.Units += p.Units
		s.Exposure = s.Exposure.Add(p.Exposure.Number)
	}
	return s
}

func (s *set) group(p Certainty) Group {
	l := 1 - p.alpha()
	g := Group{Channel: s.channel, Kind: s.kind, Occasion: s.occasion, A: side(s.a), B: side(s.b), Pairs: s.matched()}
	g.Once.A, g.Once.B = s.one(s.a, l), s.one(s.b, l)
	rates := tie{float64(g.A.Units), float64(g.B.Units), math.Log(estimate.Float(g.A.Exposure)) - math.Log(estimate.Float(g.B.Exposure))}
	g.Once.Rates = rates.ratio(l)
	if !s.earns() {
		g.Answer, g.Probability = bySign(g.A, g.B)
		return g
	}
	t := s.tie()
	own := &bets{}
	own.bet(s.pairs())
	g.Answer = own.verdict(p.alpha())
	g.Probability = share(t.ahead())
	g.Once.Earnings = quoin.Some(t.ratio(l))
	g.Once.P = quoin.Some(share(t.p()))
	return g
}

// bySign answers where a price keeps nothing of a sale.
func bySign(a, b Side) (Answer, quoin.Rate) {
	answer, ahead := CannotTell, 0.5
	switch {
	case a.Kept.Sign() > 0:
		answer, ahead = Better, 1
	case b.Kept.Sign() > 0:
		answer, ahead = Worse, 0
	}
	if a.Earned.IsZero() && b.Earned.IsZero() { // no sale that keeps or loses anything has shown it
		answer = CannotTell
	}
	return answer, share(ahead)
}

func side(ps []Period) Side {
	t := total(ps)
	return Side{
		Price: ps[0].Price, Kept: ps[0].Kept, Periods: len(ps), Units: t.Units, Exposure: t.Exposure,
		Earned: ps[0].Kept.Times(quoin.FactorOf(t.Units)),
	}
}

func (s *set) one(ps []Period, confidence float64) LookPrice {
	t, kept := total(ps), ps[0].Kept
	r := rateOf(t, confidence)
	o := LookPrice{Rate: r, Earnings: kept.Times(quoin.FactorOf(t.Units)).Over(t.Exposure)}
	o.Between = quoin.Between(kept.Times(r.Interval.Low), kept.Times(r.Interval.High))
	if kept.Sign() < 0 {
		o.Between = quoin.Between(o.Between.High, o.Between.Low)
	}
	visitors := t.Exposure.Round(0, quoin.Down)
	if s.kind == Visitors && visitors.Equal(t.Exposure) && visitors.Cmp(quoin.FactorOf(t.Units)) >= 0 && visitors.Cmp(quoin.FactorOf(mostUnits)) <= 0 {
		o.Share = quoin.Some(shareOf(float64(t.Units), estimate.Float(visitors), confidence))
	}
	return o
}
