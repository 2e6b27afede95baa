package pricelist

import (
	"fmt"
	"strconv"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/rule"
)

// Codes of what a market rule rests on.
const (
	OneSeller         quoin.Code = "comparables_of_one_seller"
	ComparableFarOut  quoin.Code = "comparable_far_out"
	ComparableLeftOut quoin.Code = "comparable_left_out" // sold, and does not count
)

// comparables warns of what a market rule rests on, product by product.
func (w *warner) comparables() {
	for r, ru := range w.doc.Rules {
		k, ok := ru.Kind.(rule.Market)
		if !ok {
			continue
		}
		for i, it := range w.items {
			if len(it.Comparables) > 0 && ru.SpeaksOf(it.ID, it.Design) {
				w.market(quoin.InList("rules", r), r, i, k)
			}
		}
	}
}

func (w *warner) market(at quoin.Path, r, i int, k rule.Market) {
	id, it := w.doc.Rules[r].ID, w.items[i]
	of := w.dec.Compared(r, i)
	sales, venues := k.Needs()
	silent := ""
	if !k.Enough(of) {
		silent = fmt.Sprintf(", and %q says nothing", id)
	}
	if of.Venues == 1 {
		w.warn(OneVenue, at, fmt.Sprintf("the comparables of %s that sold are all from %s%s", w.titled(i), of.Venue, silentBy(int64(of.Venues) < venues, silent)),
			"look at a second venue", "product", it.ID, "rule", id, "venue", of.Venue)
	}
	enough := max(sales, fewComparables)
	if int64(of.Counting) < enough {
		comparable := ""
		if of.LeftOut > 0 {
			comparable = " and can be compared"
		}
		w.warn(FewComparables, at, fmt.Sprintf("only %s of %s sold%s%s", prose.Count(of.Counting, "comparable"), w.titled(i), comparable, silentBy(int64(of.Counting) < sales, silent)),
			fmt.Sprintf("note at least %d before you trust this", enough),
			"product", it.ID, "rule", id, "counted", strconv.Itoa(of.Counting), "enough", strconv.FormatInt(enough, 10))
	}
	if of.Unsold > 0 {
		w.warn(UnsoldLeftOut, at, fmt.Sprintf("%s of %s left out: too little was sold at it", prose.Count(of.Unsold, "noted price"), w.titled(i)),
			"note prices at which prints sold; asking prices are no sales", "product", it.ID, "rule", id, "left_out", strconv.Itoa(of.Unsold))
	}
	if of.LeftOut > 0 {
		w.warn(ComparableLeftOut, at.Field("basis"), fmt.Sprintf("%s of %s sold and cannot be brought to the basis", prose.Count(of.LeftOut, "comparable"), w.titled(i)),
			"give what a frame is worth, and sizes where there is an exponent; see that postage and frame leave something of the price",
			"product", it.ID, "rule", id, "left_out", strconv.Itoa(of.LeftOut))
	}
	if of.Counting > 1 && !w.spread[i] {
		w.spreadOf(at, r, i, k)
	}
}

func silentBy(short bool, silent string) string {
	if short {
		return silent
	}
	return ""
}

// fewComparables is how many sold comparables are too few to lean on: common
// practice, and no threshold of statistics.
const fewComparables = 5

// spreadOf warns of comparables of a single seller, and of one far from all others that sets an
// end of the market, by the first market rule about a product.
func (w *warner) spreadOf(at quoin.Path, r, i int, k rule.Market) {
	if w.spread == nil {
		w.spread = make(map[int]bool)
	}
	w.spread[i] = true
	id, it := w.doc.Rules[r].ID, w.items[i]
	ranked := comparables.NewList(it.Comparables, it.Size).Rank(k.Choice())
	if n, name := ranked.PeopleSelling(); n == 1 && name != "" {
		w.warn(OneSeller, at, fmt.Sprintf("all %s of %s that count are of %s: they say what one seller asks", prose.Count(ranked.Counting, "comparable"), w.titled(i), name),
			"look at what others sell for", "product", it.ID, "rule", id, "seller", name, "counted", strconv.Itoa(ranked.Counting))
	}
	low, nextLow, nextHigh, high, ok := ranked.Ends()
	if !ok || !k.Enough(ranked.Counts) {
		return
	}
	from, _ := ranked.PriceAt(k.FromQuantile)
	to, _ := ranked.PriceAt(k.ToQuantile)
	if farOut(high, nextHigh, low) && to.Cmp(nextHigh) > 0 {
		w.far(at, r, i, high, nextHigh, "at most", to)
	}
	if farOut(low, nextLow, high) && from.Cmp(nextLow) < 0 {
		w.far(at, r, i, low, nextLow, "at least", from)
	}
}

// farOut reports whether a price is further from its neighbour than twice what lies between all
// others, and half as much again as it or less than two thirds: a bound of our own.
func farOut(price, neighbour, end quoin.Amount) bool {
	gap, others := price.Sub(neighbour), neighbour.Sub(end)
	larger, smaller := price, neighbour
	if gap.Sign() < 0 {
		gap, others = gap.Neg(), others.Neg()
		larger, smaller = neighbour, price
	}
	two := quoin.FactorOf(2)
	return gap.Cmp(others.Times(two)) > 0 && larger.Times(two).Cmp(smaller.Times(quoin.FactorOf(3))) >= 0
}

func (w *warner) far(at quoin.Path, r, i int, price, neighbour quoin.Amount, bound string, end quoin.Amount) {
	id := w.doc.Rules[r].ID
	w.warn(ComparableFarOut, at, fmt.Sprintf("one comparable of %s at %s stands far from all others, of which the nearest is %s, and makes %q ask %s %s", w.titled(i), w.money(price), w.money(neighbour), id, bound, w.money(end)),
		"check it, and leave it out if it is another kind of print", "product", w.items[i].ID, "rule", id, "price", w.money(price), "neighbour", w.money(neighbour), "bound", bound, "asked", w.money(end))
}
