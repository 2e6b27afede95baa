package trial

import (
	"math"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/estimate"
)

// Answer is what a trial says of price a beside price b. There is no fourth one.
type Answer string

const (
	Better     Answer = "better"      // a earns more per exposure
	Worse      Answer = "worse"       // a earns less
	CannotTell Answer = "cannot_tell" // the data can't carry either yet
)

// Mark says what an answer rests on, or what was left out of it.
type Mark string

const (
	Passed        Mark = "boundary_passed"     // the boundary that holds at any time is passed
	NotPassed     Mark = "boundary_not_passed" // it is not: what was seen may be chance
	Loses         Mark = "one_price_loses"     // one price keeps nothing of a sale: the other earns more whatever the rates are
	NeitherEarns  Mark = "neither_earns"       // no price keeps anything of a sale: which loses less is no answer
	NothingAlike  Mark = "nothing_alike"       // no channel, kind of exposure and occasion has both prices
	Disagree      Mark = "occasions_disagree"  // one price is better here, the other there
	OtherKind     Mark = "other_kind"          // the other price has only other kinds of exposure in this channel and occasion
	OtherOccasion Mark = "other_occasion"      // the other price stood in this channel on other kinds of occasion only
	OtherChannel  Mark = "other_channel"       // the other price never stood in this channel
	Unmatched     Mark = "unmatched_periods"   // one price has periods that still wait for their counterpart
	AfterOther    Mark = "one_after_other"     // the prices never stood in the same days: the time of year may be the difference
)

// Options is how Compare goes about it.
type Options struct {
	Plan
	// Difference is the one that Needed is reckoned for: by how much one price
	// earns more than the other. 25% where none is given, a stated default.
	Difference quoin.Optional[quoin.Rate] `json:"difference,omitzero" range:"[0.01,100]"`
	// Looks is how often the trial was looked at, this time included; where none
	// is given, as often as there are pairs of periods. The answer does not go by
	// it, only Inflation does.
	Looks int64 `json:"looks,omitzero" range:"[0,1000000]"`
}

// Comparison is the answer with all that it rests on.
type Comparison struct {
	Answer Answer `json:"answer"`
	Why    []Mark `json:"why"`
	// Confidence is that of every interval and of the boundary.
	Confidence quoin.Rate `json:"confidence"`
	// Anytime is a's earnings per exposure ÷ b's: the ratios that are not ruled
	// out, however often one looks. None where no group earns at both prices, or
	// where occasions disagree so much that no ratio is left.
	Anytime quoin.Optional[Ratio] `json:"anytime,omitzero"`
	// Misled is the most that the chance of so much evidence, at any look, can be
	// where both prices earn the same: 1 ÷ the product of the bets, at most 100%.
	Misled quoin.Rate `json:"misled"`
	// Groups is the prices beside each other where all else is alike, in the order
	// of their first period, and LeftOut is what stands beside nothing.
	Groups  []Group   `json:"groups"`
	LeftOut []LeftOut `json:"left_out,omitempty"`
	// Look is the look that this is. Inflation is how often somebody is misled who
	// goes by Once in every group and looks so often, at the 5% of a single look.
	Look      int64      `json:"look"`
	Inflation quoin.Rate `json:"inflation"`
	// Needed is what it takes to answer; none where no group earns at both prices,
	// or where it takes more than 10^9 sales.
	Needed quoin.Optional[Needed] `json:"needed,omitzero"`
}

// LeftOut is a period that stands beside nothing alike.
type LeftOut struct {
	ID   string `json:"id"`
	Mark Mark   `json:"mark"`
}

// Needed is how much it takes to tell a difference of so much in earnings, either
// way, with so much power, at the share of exposure that each price has so far.
type Needed struct {
	Difference quoin.Rate `json:"difference"`
	Power      quoin.Rate `json:"power"`
	// Sales is of both prices together, for the boundary that holds at any time;
	// Once is for a single look that was fixed beforehand.
	Sales int64 `json:"sales"`
	Once  int64 `json:"once"`
	// More is what Sales lacks beyond the sales of matched periods, and Exposure
	// the exposure of both prices together that brings them at the pace so far,
	// rounded up. None where nothing is sold, or there are several groups.
	More     int64                        `json:"more"`
	Exposure quoin.Optional[quoin.Factor] `json:"exposure,omitzero"`
}

// Compare says whether price a earns more per exposure than price b. Each side is
// the periods of one product at one price, in any order.
//
// Only what is alike is held against each other: the same channel, kind of
// exposure and occasion. Within such a group the first period of a is paired with
// the first of b, the second with the second, in order of their dates, and the
// pairs are bets against both earning the same (the boundary is derived in the
// source, beside the type bets). The answer is better or worse only where the
// product of all bets of all groups reaches 1 ÷ (1 − confidence): where both
// prices earn the same, at most the share 1 − confidence of trials ever come to
// that, however often and whenever one looks. Periods without a counterpart wait
// for it: they stand in the figures of the group and not in the answer. So cut
// the time at both prices into about as many periods, and do not end one because
// of what it sold.
//
// Of visitors, each of whom buys at most once, counts vary a little less than
// Poisson counts do, so the answer is a little more careful than it says.
//
// Where one price keeps nothing of a sale or loses by it, and the other earns, the
// other is better as soon as a sale at either shows that there are any. Where
// neither earns, it can't be told. Groups that answer differently make an answer
// that can't be told.
//
// The error is Problems: those of periods, several products, several prices or
// amounts kept on a side, options out of range.
func Compare(a, b []Period, o Options) (Comparison, error) {
	if err := checkCompare(a, b, o); err != nil {
		return Comparison{}, err
	}
	sets, left := gather(a, b)
	c := Comparison{Confidence: o.Confidence.Or(quoin.MustRate("95%")), LeftOut: left, Groups: []Group{}}
	all, pairs := &bets{}, int64(0)
	for _, s := range sets {
		c.Groups = append(c.Groups, s.group(o.Plan))
		pairs += int64(s.matched())
		if s.earns() {
			all.bet(s.pairs())
		}
	}
	c.Answer, c.Why = conclude(c.Groups, sets, all, o.alpha())
	c.Why = append(c.Why, marks(sets, left)...)
	c.Misled = share(1)
	if slices.ContainsFunc(sets, (*set).earns) {
		c.Anytime = anytimeRatio(all, o.alpha())
		c.Misled = share(math.Exp(-all.against(0)))
		c.Needed = needed(sets, o)
	}
	c.Look = max(o.Looks, 1)
	if o.Looks == 0 {
		c.Look = max(pairs, 1)
	}
	c.Inflation = Inflation(c.Look)
	return c, nil
}

func checkCompare(a, b []Period, o Options) error {
	c := checking()
	c.list("a", a)
	c.list("b", b)
	if len(c.Problems) == 0 {
		c.side("a", a, a[0].Product)
		c.side("b", b, a[0].Product)
	}
	c.AddAll(nil, o.Check())
	return c.err()
}

// conclude brings together the bets of all groups that earn at both prices, and
// those that one price loses in.
func conclude(groups []Group, sets []*set, all *bets, alpha float64) (Answer, []Mark) {
	if len(groups) == 0 {
		return CannotTell, []Mark{NothingAlike}
	}
	said, why := map[Answer]bool{}, []Mark{}
	single := map[Answer]bool{}
	for i, g := range groups {
		single[g.Answer] = true
		switch {
		case sets[i].earns():
			continue
		case g.Answer == CannotTell && g.A.Kept.Sign() <= 0 && g.B.Kept.Sign() <= 0:
			why = append(why, NeitherEarns)
		default:
			why = append(why, Loses)
		}
		said[g.Answer] = true
	}
	if slices.ContainsFunc(sets, (*set).earns) {
		v := all.verdict(alpha)
		said[v] = true
		why = append(why, map[bool]Mark{true: NotPassed, false: Passed}[v == CannotTell])
	}
	slices.Sort(why)
	why = slices.Compact(why)
	_, _, possible := all.hold(alpha)
	switch {
	case single[Better] && single[Worse] || said[Better] && said[Worse] || !possible:
		return CannotTell, append(why, Disagree)
	case said[CannotTell]:
		return CannotTell, why
	case said[Better]:
		return Better, why
	}
	return Worse, why
}

func marks(sets []*set, left []LeftOut) []Mark {
	var out []Mark
	if slices.ContainsFunc(sets, func(s *set) bool { return len(s.a) != len(s.b) }) {
		out = append(out, Unmatched)
	}
	if slices.ContainsFunc(sets, (*set).apart) {
		out = append(out, AfterOther)
	}
	for _, m := range []Mark{OtherKind, OtherOccasion, OtherChannel} {
		if slices.ContainsFunc(left, func(l LeftOut) bool { return l.Mark == m }) {
			out = append(out, m)
		}
	}
	return out
}

func anytimeRatio(b *bets, alpha float64) (r quoin.Optional[Ratio]) {
	low, high, possible := b.hold(alpha)
	if !possible {
		return r
	}
	value := math.NaN()
	if b.sold() {
		value = math.Exp(b.best())
	}
	return quoin.Some(Ratio{estimate.Six(value), figure(math.Exp(low)), estimate.Six(math.Exp(high))})
}

// needed goes by the exposures of the group that sold most.
func needed(sets []*set, o Options) (out quoin.Optional[Needed]) {
	var most *set
	var sold int64
	earning := 0
	for _, s := range sets {
		if !s.earns() {
			continue
		}
		earning++
		sold += s.sold()
		if most == nil || s.sold() > most.sold() {
			most = s
		}
	}
	d := o.Difference.Or(quoin.MustRate("25%"))
	differ, odds := math.Log(estimate.Float(d.OnePlus())), most.tie().odds
	up, ok := anytime(differ, odds, o.Plan)
	down, ok2 := anytime(-differ, odds, o.Plan)
	if !ok || !ok2 {
		return out
	}
	n := Needed{Difference: d, Power: o.Power.Or(quoin.MustRate("80%")), Sales: max(up, down)}
	n.Once = int64(math.Ceil(max(arcsine(differ, odds, o.Plan), arcsine(-differ, odds, o.Plan)) * (1 - 1e-12)))
	n.More = max(0, n.Sales-sold)
	if earning == 1 && sold > 0 {
		exposure := most.exposure().Times(quoin.FactorOf(n.More)).Over(quoin.FactorOf(sold))
		n.Exposure = quoin.Some(exposure.Round(0, quoin.Up))
	}
	return quoin.Some(n)
}
