package promo

import (
	"slices"

	"example.com/quoin"
)

// BasketLine is a number of one product in a basket, at a unit price. Count is 0 to a million
// million, and Unit at least 0. A value outside counts as the nearest one inside.
type BasketLine struct {
	Product string       `json:"product"`
	Count   int64        `json:"count"`
	Unit    quoin.Amount `json:"unit"`
}

const mostCount = 1_000_000_000_000

// ReducedLine is a line with what the offers take off it.
type ReducedLine struct {
	BasketLine
	Gross quoin.Amount `json:"gross"` // unit × count, rounded to money
	Net   quoin.Amount `json:"net"`   // gross − all that comes off
	// Off is what each offer takes off, one entry for each of the offers in
	// their order, 0 where it takes nothing.
	Off []quoin.Amount `json:"off"`
}

// Basket is an order after its offers: net = gross − discount. Each is the sum of its lines.
type Basket struct {
	Lines    []ReducedLine `json:"lines"`
	Gross    quoin.Amount  `json:"gross"`
	Discount quoin.Amount  `json:"discount"`
	Net      quoin.Amount  `json:"net"`
	Used     []string      `json:"used,omitempty"` // ids of the offers that took something off
}

// Apply takes offers off a basket, in turn, each off what is left, in money of so many places.
// If some offers must be used alone, the buyer gets the larger discount: all the others
// together, or one of these by itself. Among equals it is the others, then the first. An offer
// that does not apply to a line, or whose threshold is not met, changes nothing.
func Apply(lines []BasketLine, offers []Offer, places int) Basket {
	together := func(i int) bool { return !offers[i].Alone }
	best := apply(lines, offers, places, together)
	for i, o := range offers {
		if !o.Alone {
			continue
		}
		alone := apply(lines, offers, places, func(j int) bool { return j == i })
		if alone.Discount.Cmp(best.Discount) > 0 {
			best = alone
		}
	}
	return best
}

// apply takes off those offers that it is told to.
func apply(lines []BasketLine, offers []Offer, places int, uses func(i int) bool) Basket {
	w := open(lines, len(offers), places)
	out := Basket{Lines: w.lines}
	for i, o := range offers {
		if !uses(i) {
			continue
		}
		gave := false
		for j, off := range w.off(o) {
			l := &w.lines[j]
			l.Off[i], l.Net = off, l.Net.Sub(off)
			gave = gave || !off.IsZero()
		}
		if gave {
			out.Used = append(out.Used, o.ID)
		}
	}
	for _, l := range w.lines {
		out.Gross, out.Net = out.Gross.Add(l.Gross), out.Net.Add(l.Net)
	}
	out.Discount = out.Gross.Sub(out.Net)
	return out
}

// work is a basket on which offers are at work; Net is what a line still comes
// to.
type work struct {
	lines  []ReducedLine
	places int
}

func open(lines []BasketLine, offers, places int) work {
	w := work{make([]ReducedLine, len(lines)), places}
	for i, l := range lines {
		l.Count = min(max(l.Count, 0), mostCount)
		if l.Unit.Sign() < 0 {
			l.Unit = quoin.Amount{}
		}
		gross := l.Unit.Times(quoin.FactorOf(l.Count)).Round(places, quoin.HalfUp)
		w.lines[i] = ReducedLine{BasketLine: l, Gross: gross, Net: gross, Off: make([]quoin.Amount, offers)}
	}
	return w
}

// off is what an offer takes off each line as they now stand.
func (w work) off(o Offer) []quoin.Amount {
	off := make([]quoin.Amount, len(w.lines))
	worth := make([]quoin.Amount, len(w.lines)) // what those lines still come to, and 0 for the others
	var gross, left quoin.Amount
	var in []int
	for i, l := range w.lines {
		if l.Count > 0 && (len(o.Products) == 0 || slices.Contains(o.Products, l.Product)) {
			in, worth[i] = append(in, i), l.Net
			gross, left = gross.Add(l.Gross), left.Add(l.Net)
		}
	}
	if !o.met(gross, left) {
		return off
	}
	switch o.kind() {
	case amountOff:
		w.spread(off, within(o.Amount.Round(w.places, o.Rounding), left), worth)
	case rateOff: // of all lines together: 1% of four lines of 4.76 is 0.19, and not 4 × 0.05
		w.spread(off, within(left.Part(o.Rate).Round(w.places, o.Rounding), left), worth)
	case setPrice:
		w.set(o, off)
	default:
		for i, free := range w.freed(o, in) {
			l := w.lines[in[i]]
			off[in[i]] = o.onLine(l.Net, l.Unit, l.Count, free, w.places)
		}
	}
	return off
}

// spread gives a discount out over the lines by weight, which is what they, or
// the items that it is for, still come to: at least the discount together, so
// that no line gets more than it has.
func (w work) spread(off []quoin.Amount, discount quoin.Amount, worth []quoin.Amount) {
	if discount.Sign() <= 0 {
		return
	}
	weights := make([]quoin.Factor, len(worth))
	for i, a := range worth {
		weights[i] = a.Ratio(quoin.AmountOf(1, 0))
	}
	parts, err := discount.Split(w.places, weights...)
	if err == nil {
		copy(off, parts)
	}
}

// freed is how many items of each of some lines a multi-buy gives for nothing.
func (w work) freed(o Offer, in []int) []int64 {
	out := make([]int64, len(in))
	if o.kind() != multiBuy {
		return out
	}
	all := int64(0)
	order := make([]int, len(in))
	for i, line := range in {
		order[i] = i
		all += w.lines[line].Count
	}
	slices.SortStableFunc(order, func(a, b int) int { return w.dearer(in[a], in[b]) })
	gone := int64(0)
	for _, i := range order {
		count := w.lines[in[i]].Count
		out[i] = o.freed(gone+count, all) - o.freed(gone, all)
		gone += count
	}
	return out
}

// dearer orders lines that hold items by what one still comes to, the dearest
// first.
func (w work) dearer(i, j int) int {
	a, b := w.lines[i], w.lines[j]
	return b.Net.Times(quoin.FactorOf(a.Count)).Cmp(a.Net.Times(quoin.FactorOf(b.Count)))
}
