package picture

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"example.com/quoin"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/pricelist"
)

// mostVenues is how many venues have a row; all others share one.
const mostVenues = 15

// Market draws what others sell prints like a product for: a row of marks for each venue, filled
// where they count, with the middle half of them, today's and the new price. It is drawn from an
// answer with curves; see Answer.WithCurves. It returns false without them, and where the answer
// has no such product, or nothing to compare it with.
func Market(a pricelist.Answer, product string) (Picture, bool) {
	it, i, ok := find(a, product)
	if !ok || it.Market == nil || len(it.Market.Seen) == 0 {
		return Picture{}, false
	}
	s := strip{words: words{a.Currency}, it: it, rows: venues(it.Market.Seen), x: scale{it.Price, it.Price, 1900, width - rim}}
	s.canvas.id = "market-" + strconv.Itoa(i+1)
	p := Picture{Title: "What others sell for: " + named(it.Name, it.ID), Head: []string{"venue", "price", "counts"}}
	for _, seen := range it.Market.Seen {
		counts := "no"
		if seen.Counts {
			counts = "yes"
			s.x.spread(seen.Price)
		}
		p.Rows = append(p.Rows, []string{seen.Venue, s.money(seen.Price), counts})
	}
	s.x.spread(it.Today.Or(it.Price))
	s.x = s.x.roomy()
	p.Text = s.says()
	return s.canvas.picture(p, s.draw()), true
}

// roomy is the scale with a twentieth more on both sides.
func (s scale) roomy() scale {
	more := s.to.Sub(s.from).Over(quoin.FactorOf(20))
	if more.IsZero() {
		more = quoin.AmountOf(1, 0)
	}
	s.from, s.to = s.from.Sub(more), s.to.Add(more)
	return s
}

// strip is the picture while it is drawn.
type strip struct {
	words
	canvas
	it   pricelist.ProductResult
	rows []venue
	x    scale
}

// venue is a row of marks.
type venue struct {
	name string
	seen []comparables.Seen
}

// venues are the rows, in the order in which venues come first.
func venues(all []comparables.Seen) []venue {
	var out []venue
	for _, s := range all {
		at := slices.IndexFunc(out, func(v venue) bool { return v.name == s.Venue })
		switch {
		case at >= 0:
		case len(out) < mostVenues:
			out = append(out, venue{name: s.Venue})
			at = len(out) - 1
		case len(out) == mostVenues:
			out = append(out, venue{name: "other venues"})
			at = mostVenues
		default:
			at = mostVenues
		}
		out[at].seen = append(out[at].seen, s)
	}
	return out
}

func (s *strip) says() string {
	m := s.it.Market
	text := fmt.Sprintf("%d comparables count, of %d venues.", m.Counted, m.Venues)
	if low, ok := m.LowerQuartile.Get(); ok {
		text += fmt.Sprintf(" Half of them sell for %s to %s.", s.money(low), s.money(m.UpperQuartile.Or(low)))
	}
	text += " The price is " + s.money(s.it.Price)
	if today, ok := s.it.Today.Get(); ok {
		text += ", today's " + s.money(today)
	}
	return text + "."
}

const stripTop, stripRow = 520, 240

func (s *strip) draw() int {
	bottom := stripTop + len(s.rows)*stripRow
	m := s.it.Market
	if low, ok := m.LowerQuartile.Get(); ok {
		from, to := s.x.within(low), s.x.within(m.UpperQuartile.Or(low))
		s.rect("dead", from, stripTop, max(to-from, 10), bottom-stripTop)
		s.text("m soft", (from+to)/2, bottom+420, "middle half")
	}
	for _, t := range s.x.ticks(7, s.currency) {
		s.line("grid", t.at, stripTop, t.at, bottom+40)
		s.text("m soft", t.at, bottom+200, t.label)
	}
	for n, v := range s.rows {
		y := stripTop + n*stripRow + stripRow/2
		s.line("grid", s.x.first, y, s.x.last, y)
		s.text("", rim, y+40, short(v.name, s.x.first-2*rim))
		s.dots(v, y)
	}
	s.prices(bottom)
	return bottom + 500
}

// dots are the marks of a row; those at one place stand on top of each other, a little apart. What
// does not count and lies far off stands at the end, with its price.
func (s *strip) dots(v venue, y int) {
	there := make(map[int]int)
	for _, seen := range v.seen {
		x, class := s.x.within(seen.Price), "open"
		if seen.Counts {
			class = "tick"
		}
		if !s.x.holds(seen.Price) {
			s.aside(seen.Price, y)
			continue
		}
		s.write(`<circle class="`, class, `" cx="`, tenths(x), `" cy="`, tenths(y-there[x/40]*30), `" r="3.5"/>`)
		there[x/40] = min(there[x/40]+1, 3)
	}
}

// aside writes a price that lies beyond the ends.
func (s *strip) aside(price quoin.Amount, y int) {
	if price.Cmp(s.x.to) > 0 {
		s.text("e soft halo", s.x.last, y+40, s.money(price)+" →")
		return
	}
	s.text("soft halo", s.x.first, y+40, "← "+s.money(price))
}

func (s *strip) prices(bottom int) {
	at := s.x.within(s.it.Price)
	if today, ok := s.it.Today.Get(); ok && !today.Equal(s.it.Price) {
		was := s.x.within(today)
		s.line("was", was, stripTop-60, was, bottom)
		s.text(s.beside(was), was, stripTop-260, "today "+s.money(today))
	}
	s.line("now", at, stripTop-60, at, bottom)
	s.text(strings.TrimSpace("b "+s.beside(at)), at, stripTop-110, s.money(s.it.Price))
}

// beside keeps words at the ends of the picture inside of it.
func (s *strip) beside(x int) string {
	switch {
	case x < s.x.first+400:
		return ""
	case x > s.x.last-400:
		return "e"
	}
	return "m"
}
