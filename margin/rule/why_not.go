package rule

import (
	"slices"

	"example.com/quoin"
)

// WhyNot says why a price is not lower, or not higher: the nearest price on that side that the
// endings would allow and another rule refuses, and what refuses it. Prices between the two
// were allowed, and not chosen.
type WhyNot struct {
	// The price that is refused.
	Price quoin.Amount `json:"price"`
	// What refuses it, in the order of the rules: in an answer the first 12.
	By []Refusal `json:"by"`
	// Given, and true, where more refuses it than is listed: 20,000 for all products together,
	// from 4 to 1,000 for each, and in an answer twelve.
	More bool `json:"more,omitzero"`
}

// Refusal is one reason why a price is not allowed: what the rule asks for and what the price
// gives.
type Refusal struct {
	// Id of the rule.
	Rule string `json:"rule"`
	// Kind of the rule, or the name of one that a program has added.
	Kind string `json:"kind"`
	// Id of the product whose price is refused.
	Product string `json:"product"`
	// The price that is refused.
	Price quoin.Amount `json:"price"`
	// Id of the channel asked about; not given where the rule asks about none.
	Channel string `json:"channel,omitempty"`
	// Kind of order asked about by itself, counted from 1; not given for the average.
	Order int `json:"order,omitzero"`
	// How what the price gives would have to stand to what is asked: not less, not more, or
	// among it.
	Bound Bound `json:"bound"`
	// What the rule asks.
	Asked quoin.Figure `json:"asked"`
	// What the price gives.
	Got quoin.Figure `json:"got"`
	// What a rule that a program has added says of it in its own words.
	Reason string `json:"reason,omitempty"`
	// Id of the other size of a step.
	Neighbour string `json:"neighbour,omitempty"`
	// The price of the other size that comes nearest.
	NeighbourPrice quoin.Optional[quoin.Amount] `json:"neighbour_price,omitzero"`
	// Given, and true, where no rule keeps the other size from going further: no price beyond is
	// considered, or it waits for the size that is asked about.
	AtLimit bool `json:"at_limit,omitzero"`
	// Why the other size goes no further. It is followed from size to size over 32 refusals, or
	// over fewer where more than 128 sizes are tied together: over 4,096 for all of them.
	Because []Refusal `json:"because,omitempty"`
}

// OnlyLimit reports whether no rule is the reason of the refusal, but only that no price beyond
// the limit is considered, or none below the first: the other size could go no further for that,
// or another one beside it.
func (r Refusal) OnlyLimit() bool {
	return r.AtLimit || len(r.Because) > 0 && onlyLimit(r.Because)
}

func onlyLimit(by []Refusal) bool {
	return !slices.ContainsFunc(by, func(r Refusal) bool { return !r.OnlyLimit() })
}

// Lower returns what refuses item i the nearest refused price below p. It returns false if
// there is none, and on a conflict.
func (d Decision) Lower(i int, p quoin.Amount) (WhyNot, bool) { return d.why(i, p, -1) }

// Higher returns what refuses item i the nearest refused price above p; see Lower.
func (d Decision) Higher(i int, p quoin.Amount) (WhyNot, bool) { return d.why(i, p, +1) }

// Ends reports whether any price on a side of p, −1 or +1, is refused for item i. Then Lower,
// or Higher, says why.
func (d Decision) Ends(i int, p quoin.Amount, side int) bool {
	_, ok := d.refused(i, p, side)
	return ok
}

func (d Decision) why(i int, p quoin.Amount, side int) (WhyNot, bool) {
	next, ok := d.refused(i, p, side)
	if !ok {
		return WhyNot{}, false
	}
	t := d.teller(i)
	by := t.refusals(&t.first, i, next, side, []int{i})
	return WhyNot{next, by, t.more}, true
}

// teller says what refuses prices, not without end.
type teller struct {
	d      *Decision
	first  int  // refusals of the item itself that are still to be listed
	nested int  // of others, that hold it by ladders
	more   bool // what refuses the item was not all listed
}

const (
	mostFirst, leastFirst, mostOne = 20_000, 4, 1_000
	mostTied, mostNested           = 4_096, 32
)

func (d Decision) teller(i int) *teller {
	t := &teller{d: &d, first: min(max(mostFirst/len(d.items), leastFirst), mostOne), nested: mostNested}
	if d.sizes != nil {
		t.nested = min(mostNested, mostTied/d.sizes[i])
	}
	return t
}

// refused is the nearest price to a side that the endings allow and something else
// does not.
func (d Decision) refused(i int, p quoin.Amount, side int) (quoin.Amount, bool) {
	if !d.has(i) || len(d.Allowed) == 0 {
		return quoin.Amount{}, false
	}
	next, ok := d.beside(i, p, side)
	for ok && d.Allowed[i].Contains(next) {
		ended, _ := d.ended.allow(&d, i)
		next, ok = d.beside(i, d.Allowed[i].endOfRun(next, side, ended.comb), side)
	}
	return next, ok
}

// endOfRun returns the last price to a side of the run that holds p, or the last one before another
// that endings allow and the set does not have: a step of one ratio alone leaves fewer.
func (s Set) endOfRun(p quoin.Amount, side int, endings *comb) quoin.Amount {
	at := s.grid.Ceil(p)
	r := s.runs[s.runAt(at)]
	from, to, end, ending := at, r.last, r.last, endings.next
	if side < 0 {
		from, to, end, ending = r.first, at, r.first, endings.prev
	}
	if s.comb == nil || s.comb.sameAs(endings, from, to) {
		return s.grid.Price(end)
	}
	for next := at; s.comb.has(next); next = ending(at + int64(side)) {
		at = next
	}
	return s.grid.Price(at)
}

// beside returns the next price on a side of p that every kept rule on endings
// allows.
func (d Decision) beside(i int, p quoin.Amount, side int) (quoin.Amount, bool) {
	at, _ := d.ended.allow(&d, i)
	step := at.grid.Step()
	if side < 0 {
		return at.Prev(p.Sub(step))
	}
	return at.Next(p.Add(step))
}

func (d Decision) kept(r int) bool { return len(d.lost) == 0 || !d.lost[r] }

// refusals gathers what refuses item i a price, in the order of the rules, and
// through ladders what holds the neighbours; seen are the items on the way. It gathers
// no more than may still be listed.
func (t *teller) refusals(most *int, i int, p quoin.Amount, side int, seen []int) []Refusal {
	var out []Refusal
	d := t.d
	at := d.items[i].Grid.Ceil(p)
	for _, r := range d.Speaking(i) {
		if !d.kept(r) {
			continue
		}
		var more []Refusal
		if d.rules[r].about() == pairs {
			more = t.pushed(most, r, i, p, side, seen)
		} else if !d.allows(r, i, at) {
			more = t.listed(most, d.judged(r, i, p))
		}
		out = append(out, more...)
		if t.full(most) {
			break
		}
	}
	return out
}

// listed is as many of some refusals as may still be listed.
func (t *teller) listed(most *int, all []Refusal) []Refusal {
	n := min(*most, len(all))
	if *most -= n; n < len(all) && most == &t.first {
		t.more = true
	}
	return all[:n]
}

// full reports whether no more may be listed, and more was to be.
func (t *teller) full(most *int) bool { return *most == 0 && (most == &t.nested || t.more) }

// judge is what a rule that speaks of item i says of a price.
func (d *Decision) judge(r, i int, p quoin.Amount) []Verdict {
	if c, ok := d.compared[[2]int{r, i}]; ok {
		return c.limits().judge(Item{}, nil, p)
	}
	return d.rules[r].judge(d.items[i], p)
}

func (d Decision) judged(r, i int, p quoin.Amount) []Refusal {
	var out []Refusal
	rule := d.rules[r]
	refusal := Refusal{Rule: rule.ID, Kind: rule.Kind.String(), Product: d.items[i].ID, Price: p}
	for _, v := range d.judge(r, i, p) {
		if v.OK {
			continue
		}
		one := refusal
		one.Channel, one.Order, one.Bound, one.Asked, one.Got, one.Reason = v.Channel, v.Order, v.Bound, v.Asked, v.Got, v.Reason
		out = append(out, one)
	}
	if len(out) == 0 { // a Custom rule that judges otherwise than it allows
		refusal.Bound, refusal.Got = OneOf, p.Figure()
		return []Refusal{refusal}
	}
	return out
}

// pushed says where a ladder leaves item i no partner for a price.
func (t *teller) pushed(most *int, r, i int, p quoin.Amount, side int, seen []int) []Refusal {
	var out []Refusal
	d := t.d
	for _, n := range d.near(r, i) {
		pair := &d.pairs[n]
		way, other := up, pair.next
		if i != pair.before {
			way, other = down, pair.before
		}
		if d.meets(pair, p, way, other) {
			continue
		}
		refusal := []Refusal{{Rule: d.rules[r].ID, Kind: pair.step.String(), Product: d.items[i].ID, Price: p, Got: p.Figure()}}
		if len(t.listed(most, refusal)) == 0 {
			break
		}
		t.neighbour(&refusal[0], pair.step, other, p, way, side, seen)
		out = append(out, refusal...)
	}
	return out
}

// meets reports whether a price has a partner among the allowed ones of the other size.
func (d *Decision) meets(pair *pair, p quoin.Amount, way direction, other int) bool {
	alone := Between(d.Allowed[other].grid, p, p)
	if r, ok := pair.climb.single(alone, way); ok {
		at, found := d.Allowed[other].next(r.first)
		return found && at <= r.last
	}
	reach, err := pair.climb.reach(alone, way)
	both, failed := reach.And(d.Allowed[other])
	return err != nil || failed != nil || !both.IsEmpty()
}

// neighbour completes the refusal of p by a step: the price of the other size
// that comes nearest, what it asks of p, and why it goes no further.
func (t *teller) neighbour(ref *Refusal, step SizeRatio, other int, p quoin.Amount, way direction, side int, seen []int) {
	least, low := step.AtLeast.Get()
	most, high := step.AtMost.Get()
	near := t.d.Allowed[other]
	ref.Neighbour = t.d.items[other].ID
	x, _ := near.Least()
	y, _ := near.Greatest()
	switch {
	case way == up && low && p.Times(least).Cmp(y) > 0:
		ref.Bound, ref.Asked, x = AtMost, y.Over(least).Figure(), y
	case way == up && high && p.Times(most).Cmp(x) < 0:
		ref.Bound, ref.Asked = AtLeast, x.Over(most).Figure()
	case way == down && low && p.Cmp(x.Times(least)) < 0:
		ref.Bound, ref.Asked = AtLeast, x.Times(least).Figure()
	case way == down && high && p.Cmp(y.Times(most)) > 0:
		ref.Bound, ref.Asked, x = AtMost, y.Times(most).Figure(), y
	default:
		// The neighbour has prices on both sides, and none that fits.
		ref.Bound, ref.Asked = OneOf, p.Figure()
		return
	}
	ref.NeighbourPrice = quoin.Some(x)
	beyond, ok := t.d.beside(other, x, side)
	ref.AtLimit = !ok || slices.Contains(seen, other)
	if !ref.AtLimit && t.nested > 0 {
		ref.Because = t.refusals(&t.nested, other, beyond, side, append(seen, other))
	}
}
