package trial

import (
	"math"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/estimate"
)

// Answer is what a trial says of price a, compared with price b. There are three answers.
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
	Certainty
	// Difference is by how much one price has to earn more than the other for Needed to say how
	// many sales show it. The default is 25%.
	Difference quoin.Optional[quoin.Rate] `json:"difference,omitzero" range:"[0.01,100]"`
	// Looks is how often the trial was checked so far, this time included. The default is the
	// number of pairs of periods. Only Inflation depends on it, the answer does not.
	Looks int64 `json:"looks,omitzero" range:"[0,1000000]"`
}

// Comparison is the answer with all that it rests on.
type Comparison struct {
	Answer Answer `json:"answer"`
	Why    []Mark `json:"why"`
	// Confidence is that of every interval and of the boundary.
	Confidence quoin.Rate `json:"confidence"`
	// Anytime is a's earnings per exposure ÷ b's: the range of ratios that the trial does not
	// rule out, however often you check. From 0.21 to 3.54 says that a may earn a fifth of what b
	// earns, or three and a half times as much. It is not given if no group earns at both prices,
	// or if occasions disagree so much that no ratio is left.
	Anytime quoin.Optional[Ratio] `json:"anytime,omitzero"`
	// Misled bounds the chance of being misled: if both prices earn the same, so much evidence
	// comes up at any check with at most this chance. It is 1 ÷ the product of the bets, at most
	// 100%.
	Misled quoin.Rate `json:"misled"`
	// Groups compare the prices where all else is alike, in the order of their first periods.
	// LeftOut are the periods that have nothing to be compared with.
	Groups  []Group   `json:"groups"`
	LeftOut []LeftOut `json:"left_out,omitempty"`
	// Look is the number of this check. Inflation is how often somebody is misled who checks so
	// often, and goes by an ordinary 5% test (Once).
	Look      int64      `json:"look"`
	Inflation quoin.Rate `json:"inflation"`
	// Needed is how many sales an answer takes. It is not given if no group earns at both prices,
	// or if it takes more than 10^9 sales.
	Needed quoin.Optional[SampleSize] `json:"needed,omitzero"`
}

// LeftOut is a period for which the other price has nothing alike.
type LeftOut struct {
	ID   string `json:"id"`
	Mark Mark   `json:"mark"`
}

// SampleSize is how many sales it takes to see a difference in earnings, up or down, with the chance
// Power, if exposure goes on being shared between the prices as it was so far.
type SampleSize struct {
	Difference quoin.Rate `json:"difference"`
	Power      quoin.Rate `json:"power"`
	// Sales is the number at both prices together, for the boundary that holds however often you
	// check. Once is the number for a single check at a time that was fixed beforehand.
	Sales int64 `json:"sales"`
	Once  int64 `json:"once"`
	// More is how many of Sales are still to come, after those of matched periods. Exposure is the
	// exposure that both prices together take for it at the pace so far, rounded up. It is not
	// given if nothing is sold, or if there are several groups.
	More     int64                        `json:"more"`
	Exposure quoin.Optional[quoin.Factor] `json:"exposure,omitzero"`
}

// Compare says whether price a earns more per exposure than price b. Each side is
// the periods of one product at one price, in any order.
//
// Periods are compared within groups: the same channel, kind of exposure and occasion. In a group
// the first period of a is paired with the first of b, the second with the second, by their
// dates. Each pair is a bet against both prices earning the same; how it is computed stands in
// the source, beside the type bets. The answer is better or worse only if the product of all bets
// reaches 1 ÷ (1 − confidence), 20 at 95%. If both prices earn the same, at most 5% of trials
// ever reach that, whenever and however often you check.
//
// A period without a counterpart waits for one: its figures stand in its group, and have no part
// in the answer. So try both prices in about as many periods, and do not end a period because of
// what it sold.
//
// A visitor buys at most once, so counts of visitors vary a little less than the Poisson counts
// that are assumed. The answer is a little more careful than it says.
//
// If a sale at one price leaves nothing, and a sale at the other does, the other is better as
// soon as something sold at either. If neither leaves anything, or if groups contradict each
// other, the answer is CannotTell.
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
		c.Groups = append(c.Groups, s.group(o.Certainty))
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
func needed(sets []*set, o Options) (out quoin.Optional[SampleSize]) {
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
	up, ok := anytime(differ, odds, o.Certainty)
	down, ok2 := anytime(-differ, odds, o.Certainty)
	if !ok || !ok2 {
		return out
	}
	n := SampleSize{Difference: d, Power: o.Power.Or(quoin.MustRate("80%")), Sales: max(up, down)}
	n.Once = int64(math.Ceil(max(arcsine(differ, odds, o.Certainty), arcsine(-differ, odds, o.Certainty)) * (1 - 1e-12)))
	n.More = max(0, n.Sales-sold)
	if earning == 1 && sold > 0 {
		exposure := most.exposure().Times(quoin.FactorOf(n.More)).Over(quoin.FactorOf(sold))
		n.Exposure = quoin.Some(exposure.Round(0, quoin.Up))
	}
	return quoin.Some(n)
}
