package rule

import (
	"slices"

	"example.com/quoin"
)

// Why is the answer to why a price is not another one: the nearest price to a
// side that the endings would allow and something else refuses, and what that
// is. Prices on the way there were allowed, and not chosen.
type Why struct {
	Price quoin.Amount `json:"price"`
	By    []Refusal    `json:"by"`
	// More is how many further ones there are, in the JSON of an answer, which has the
	// first twelve.
	More int `json:"more,omitzero"`
}

// Refusal is one reason why a price is not allowed: what the rule asked and
// what the price gives.
type Refusal struct {
	Rule    string       `json:"rule"`
	Kind    string       `json:"kind"`
	Product string       `json:"product"`
	Price   quoin.Amount `json:"price"` // the one refused
	Channel string       `json:"channel,omitempty"`
	Order   int          `json:"order,omitzero"` // kind of order by itself, from 1
	Bound   Bound        `json:"bound"`
	Asked   quoin.Figure `json:"asked"`
	Got     quoin.Figure `json:"got"`
	// Neighbour is the other size of a step, and NeighbourPrice the price of
	// it that comes nearest; Because says why that one can go no further.
	Neighbour      string                       `json:"neighbour,omitempty"`
	NeighbourPrice quoin.Optional[quoin.Amount] `json:"neighbour_price,omitzero"`
	Because        []Refusal                    `json:"because,omitempty"`
}

// Lower returns what refuses item i the nearest price below p that is refused,
// and Higher above it. They return false where none is.
func (d Decision) Lower(i int, p quoin.Amount) (Why, bool) { return d.why(i, p, -1) }

// Higher returns what refuses the nearest price above p; see Lower.
func (d Decision) Higher(i int, p quoin.Amount) (Why, bool) { return d.why(i, p, +1) }

// Ends reports whether some price on a side of p, −1 or +1, is refused item i: then
// Lower, or Higher, says why.
func (d Decision) Ends(i int, p quoin.Amount, side int) bool {
	_, ok := d.refused(i, p, side)
	return ok
}

func (d Decision) why(i int, p quoin.Amount, side int) (Why, bool) {
	next, ok := d.refused(i, p, side)
	if !ok {
		return Why{}, false
	}
	return Why{Price: next, By: d.refusals(i, next, side, []int{i})}, true
}

// refused is the nearest price to a side that the endings allow and something else
// does not.
func (d Decision) refused(i int, p quoin.Amount, side int) (quoin.Amount, bool) {
	next, ok := d.beside(i, p, side)
	for ok && d.Allowed[i].Contains(next) {
		next, ok = d.beside(i, d.Allowed[i].endOfRun(next, side), side)
	}
	return next, ok
}

// endOfRun returns the last price to a side of the run that holds p.
func (s Set) endOfRun(p quoin.Amount, side int) quoin.Amount {
	r := s.runs[s.runAt(s.grid.Ceil(p))]
	if side < 0 {
		return s.grid.Price(r.first)
	}
	return s.grid.Price(r.last)
}

// beside returns the next price on a side of p that every kept rule on endings
// allows.
func (d Decision) beside(i int, p quoin.Amount, side int) (quoin.Amount, bool) {
	at := All(d.items[i].Grid)
	for _, r := range d.Speaking(i) {
		if _, ending := d.rules[r].Kind.(Ending); ending && d.kept(r) {
			if both, err := at.And(d.Allows(r, i)); err == nil {
				at = both
			}
		}
	}
	step := at.grid.Step()
	if side < 0 {
		return at.Prev(p.Sub(step))
	}
	return at.Next(p.Add(step))
}

func (d Decision) kept(r int) bool { return len(d.lost) == 0 || !d.lost[r] }

// refusals gathers what refuses item i a price, in the order of the rules, and
// through ladders what holds the neighbours; seen are the items on the way.
func (d Decision) refusals(i int, p quoin.Amount, side int, seen []int) []Refusal {
	var out []Refusal
	for _, r := range d.Speaking(i) {
		if !d.kept(r) {
			continue
		}
		if step, ok := d.rules[r].Kind.(Step); ok {
			out = append(out, d.pushed(r, step, i, p, side, seen)...)
		} else if !d.Allows(r, i).Contains(p) {
			out = append(out, d.judged(r, i, p)...)
		}
	}
	return out
}

func (d Decision) judged(r, i int, p quoin.Amount) []Refusal {
	var out []Refusal
	rule := d.rules[r]
	for _, v := range rule.judge(d.items[i], p) {
		if v.OK {
			continue
		}
		out = append(out, Refusal{
			Rule: rule.ID, Kind: rule.Kind.String(), Product: d.items[i].ID, Price: p,
			Channel: v.Channel, Order: v.Order, Bound: v.Bound, Asked: v.Asked, Got: v.Got,
		})
	}
	return out
}

// pushed says where a ladder leaves item i no partner for a price.
func (d Decision) pushed(r int, step Step, i int, p quoin.Amount, side int, seen []int) []Refusal {
	var out []Refusal
	alone := Between(d.items[i].Grid, p, p)
	for _, n := range d.near(r, i) {
		pair := &d.pairs[n]
		up := i == pair.before
		other, reach, err := pair.next, Set{}, error(nil)
		if up {
			reach, err = step.Up(alone)
		} else {
			other = pair.before
			reach, err = step.Down(alone)
		}
		both, failed := reach.And(d.Allowed[other])
		if err != nil || failed != nil || !both.IsEmpty() {
			continue
		}
		refusal := Refusal{Rule: d.rules[r].ID, Kind: step.String(), Product: d.items[i].ID, Price: p, Got: p.Figure()}
		out = append(out, d.neighbour(refusal, step, other, p, up, side, seen))
	}
	return out
}

// neighbour completes the refusal of p by a step: the price of the other size
// that comes nearest, what it asks of p, and why it goes no further.
func (d Decision) neighbour(ref Refusal, step Step, other int, p quoin.Amount, up bool, side int, seen []int) Refusal {
	least, low := step.AtLeast.Get()
	most, high := step.AtMost.Get()
	near := d.Allowed[other]
	ref.Neighbour = d.items[other].ID
	x, _ := near.Least()
	y, _ := near.Greatest()
	switch {
	case up && low && p.Times(least).Cmp(y) > 0:
		ref.Bound, ref.Asked, x = AtMost, y.Over(least).Figure(), y
	case up && high && p.Times(most).Cmp(x) < 0:
		ref.Bound, ref.Asked = AtLeast, x.Over(most).Figure()
	case !up && low && p.Cmp(x.Times(least)) < 0:
		ref.Bound, ref.Asked = AtLeast, x.Times(least).Figure()
	case !up && high && p.Cmp(y.Times(most)) > 0:
		ref.Bound, ref.Asked, x = AtMost, y.Times(most).Figure(), y
	default:
		// The neighbour has prices on both sides, and none that fits.
		ref.Bound, ref.Asked = OneOf, p.Figure()
		return ref
	}
	ref.NeighbourPrice = quoin.Some(x)
	if slices.Contains(seen, other) {
		return ref
	}
	if beyond, ok := d.beside(other, x, side); ok {
		ref.Because = d.refusals(other, beyond, side, append(seen, other))
	}
	return ref
}
