package rule

import (
	"math"
	"math/big"
)

// window is a stretch of rounds in which a ring is watched for going on as it did before:
// the same pairs are due at its end as at its beginning. If everything then moves once
// more as it moved in the window, each push is over what it asks by as much more as it
// gained in it; so it is known how often that can go on, and this often is left out.
type window struct {
	marks  uint64
	back   bool
	round  int64
	met    int
	most   int // pairs to be met before the next window opens
	pushes []*push
	moved  []int32
}

// open opens a window in which so many pairs may be met.
func (r *ring) open(most int) {
	w := &r.window
	for _, p := range w.pushes {
		p.seen = false
	}
	for _, i := range w.moved {
		r.ends[i].moved = false
	}
	*w = window{r.due.sum, r.due.back, r.round, r.met, most, w.pushes[:0], w.moved[:0]}
}

// saw keeps how near a push came to moving an end otherwise than it did. The end moved
// over gap prices at once, or none.
func (w *window) saw(p *push, from, to, gap int64) {
	if !p.seen {
		p.seen, p.over, p.room = true, endless(), endless()
		w.pushes = append(w.pushes, p)
	}
	over := p.slack(from, to)
	if under(over, p.over) {
		p.over = over
	}
	if gap == none {
		return
	}
	if room := product(p.times.d, gap).Minus(over).Minus(wideOf(1)); under(room, p.room) {
		p.room = room
	}
}

// slack is by how much an end is beyond what a push asks of it, × the denominator.
func (p *push) slack(from, to int64) i128 {
	over := product(p.times.d, to).Minus(product(p.times.n, from))
	if p.end == highEnd {
		return minus(over)
	}
	return over
}

// moves keeps where the ends of an item were before they moved.
func (w *window) moves(e *ends, i int32) {
	if !e.moved {
		e.moved, e.was, e.between = true, e.at, math.MaxInt64
		w.moved = append(w.moved, i)
	}
}

// watch leaves out the rounds in which all goes on as in this window, after a round.
func (r *ring) watch() {
	w := &r.window
	if r.small && r.due.sum == w.marks && r.due.back == w.back && len(w.moved) > 0 {
		if times := r.alike(); times > 0 {
			r.leap(times)
			r.open(w.most)
			return
		}
	}
	if r.met-w.met >= w.most {
		r.open(2 * w.most)
	}
}

// alike is how often all goes on as in this window.
func (r *ring) alike() int64 {
	times := int64(mostFits)
	for _, i := range r.window.moved {
		times = min(times, r.ends[i].alike())
	}
	for _, p := range r.window.pushes {
		if times < 1 {
			return 0
		}
		gain := p.slack(r.ends[p.from].gained(p.end), r.ends[p.to].gained(p.end))
		switch {
		case negative(gain):
			times = min(times, fits(p.over, minus(gain)))
		case gain != i128{}:
			times = min(times, fits(p.room, gain))
		}
	}
	return times
}

// gained is how far an end moved in this window.
func (e *ends) gained(end int) int64 {
	if !e.moved {
		return 0
	}
	return e.at[end] - e.was[end]
}

// alike is how often the ends of an item can go on as in this window: by whole periods
// of its pattern, within their runs, until they meet.
func (e *ends) alike() int64 {
	times := int64(mostFits)
	for end := range e.at {
		gain := e.gained(end)
		if gain == 0 {
			continue
		}
		if e.set.comb != nil && gain%e.set.comb.period != 0 {
			return 0
		}
		in := e.set.runs[e.set.runAt(e.at[end])]
		if e.was[end] < in.first || e.was[end] > in.last {
			return 0 // it came over a hole, which comes once
		}
		room := in.last - e.at[end]
		if end == highEnd {
			room = e.at[end] - in.first
		}
		times = min(times, room/max(gain, -gain))
	}
	if nearer := e.gained(lowEnd) - e.gained(highEnd); nearer > 0 {
		times = min(times, e.between/nearer)
	}
	return times
}

// leap lets all go on as in this window so often.
func (r *ring) leap(times int64) {
	for _, i := range r.window.moved {
		e := &r.ends[i]
		for end := range e.at {
			e.at[end] += times * e.gained(end)
		}
	}
	r.round += times * (r.round - r.window.round)
}

// rising returns an item of a circle of pushes that raise its least price without end,
// since what they multiply by comes to more than 1; none where there is no such circle.
func (r *ring) rising() int {
	seen := make([]int, len(r.ends))
	for i := range r.ends {
		at := i
		for seen[at] == 0 && r.ends[at].by != nil {
			seen[at] = i + 1
			at = int(r.ends[at].by.from)
		}
		if seen[at] == i+1 && r.ends[at].by != nil {
			if first, rises := r.circle(at); rises {
				return first
			}
		}
	}
	return none
}

// circle goes once round the pushes that moved an item: it returns the first of the
// items, and whether the product of what they multiply by is above 1.
func (r *ring) circle(from int) (first int, rises bool) {
	var by []*fraction
	first = from
	for at := from; ; {
		p := r.ends[at].by
		by = append(by, p.times)
		if at = int(p.from); at == from {
			break
		}
		if r.items[at] < r.items[first] {
			first = at
		}
	}
	a, b := multiplied(by)
	return first, a.Cmp(b) > 0
}

// multiplied is the product of fractions, halves by halves, so that long numbers meet long
// ones.
func multiplied(by []*fraction) (a, b *big.Int) {
	if len(by) == 1 {
		return by[0].a, by[0].b
	}
	half := len(by) / 2
	a, b = multiplied(by[:half])
	c, d := multiplied(by[half:])
	return new(big.Int).Mul(a, c), new(big.Int).Mul(b, d)
}
