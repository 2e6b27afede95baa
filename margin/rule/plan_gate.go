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

// nearest returns the price nearest to one that is let through: that one or, by a step of 1 or −1,
// one above or below it. It is missed where there is none up to the end.
func (g *gate) nearest(from, end, step int64) (int64, verdict) {
	if g.sure.holds(from) {
		return from, met
	}
	spans := g.gauge.spans
	n := sort.Search(len(spans), func(i int) bool { return spans[i].last >= from })
	for ; n >= 0 && n < len(spans) && !spans[n].beyond(end, step); n += int(step) {
		z, v := g.zones(n)
		if v == unsure {
			return 0, unsure
		}
		at := max(from, z.maybe.first)
		if step < 0 {
			at = min(from, z.maybe.last)
		}
		for tried := 0; z.maybe.holds(at); at, tried = at+step, tried+1 {
			if z.sure.holds(at) {
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

func (r run) holds(i int64) bool { return r.first <= i && i <= r.last }

// beyond reports whether the span lies behind an index, the way a step goes.
func (s *span) beyond(end, step int64) bool {
	if step > 0 {
		return s.first > end
	}
	return s.last < end
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
