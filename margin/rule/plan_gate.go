package rule

import "sort"

// gate lets prices through at which a sale meets all of some bars.
type gate struct {
	gauge *gauge
	bars  []bar
	sure  run // prices that it is known to let through
}

// mostWeighed bounds how many prices next to each other are weighed.
const mostWeighed = 1 << 10

// next returns the least price from one on that is let through, and missed where there is none
// up to the last.
func (g *gate) next(from, last int64) (int64, verdict) {
	if g.sure.first <= from && from <= g.sure.last {
		return from, met
	}
	spans := g.gauge.spans
	n := sort.Search(len(spans), func(i int) bool { return spans[i].last >= from })
	for ; n < len(spans) && spans[n].first <= last; n++ {
		z, v := g.zones(n)
		if v == unsure {
			return 0, unsure
		}
		at := max(from, z.maybe.first)
		for tried := 0; at <= z.maybe.last; at, tried = at+1, tried+1 {
			if z.sure.first <= at && at <= z.sure.last {
				g.sure = z.sure
				return at, met
			}
			if v := g.gauge.weigh(g.bars, at); v != missed || tried > mostWeighed {
				return at, v.unless(tried > mostWeighed)
			}
		}
	}
	return 0, missed
}

// prev returns the greatest price up to one that is let through, and missed where there is
// none down to the first.
func (g *gate) prev(from, first int64) (int64, verdict) {
	if g.sure.first <= from && from <= g.sure.last {
		return from, met
	}
	spans := g.gauge.spans
	n := sort.Search(len(spans), func(i int) bool { return spans[i].first > from }) - 1
	for ; n >= 0 && spans[n].last >= first; n-- {
		z, v := g.zones(n)
		if v == unsure {
			return 0, unsure
		}
		at := min(from, z.maybe.last)
		for tried := 0; at >= z.maybe.first; at, tried = at-1, tried+1 {
			if z.sure.first <= at && at <= z.sure.last {
				g.sure = z.sure
				return at, met
			}
			if v := g.gauge.weigh(g.bars, at); v != missed || tried > mostWeighed {
				return at, v.unless(tried > mostWeighed)
			}
		}
	}
	return 0, missed
}

// unless is the verdict, or unsure.
func (v verdict) unless(not bool) verdict {
	if not {
		return unsure
	}
	return v
}

// zones is what the lines of a span say of its prices, as question.solve has it.
func (g *gate) zones(n int) (zones, verdict) {
	z := g.gauge.spans[n].zones(g.bars)
	if !z.still || z.sure.first > z.sure.last {
		return z, met
	}
	switch v := g.gauge.weigh(g.bars, z.sure.first); v {
	case missed:
		return zones{run{1, 0}, run{1, 0}, false}, met
	default:
		return z, v
	}
}
