package promo

import (
	"slices"

	"example.com/quoin"
)

// set takes off what the items of all sets come to beyond the price of the
// sets. Where a product stands in several lines its dearest items go first, and
// sets end where the items would cost no more by themselves. The discount is
// rounded once, down where it would be more than the items of the sets come to,
// and spread by what each of them does.
func (w work) set(o Offer, off []quoin.Amount) {
	price := o.Price.Or(quoin.Amount{})
	sets, taken := w.sets(distinct(o.Products), price)
	worth := make([]quoin.Amount, len(w.lines))
	var together quoin.Amount
	for i, n := range taken {
		if n > 0 {
			worth[i] = w.worth(i, n)
			together = together.Add(worth[i])
		}
	}
	discount := together.Sub(price.Times(quoin.FactorOf(sets))).Round(w.places, o.Rounding)
	if discount.Cmp(together) > 0 {
		discount = together.Round(w.places, quoin.Down)
	}
	w.spread(off, discount, worth)
}

// sets is how many sets of products there are that cost less than their items,
// and how many items of each line go into them.
func (w work) sets(products []string, price quoin.Amount) (int64, []int64) {
	taken := make([]int64, len(w.lines))
	if len(products) < 2 {
		return 0, taken
	}
	queues := make([][]int, len(products))
	for i, p := range products {
		queues[i] = w.dearestFirst(p)
	}
	for sets := int64(0); ; {
		step := int64(mostCount)
		saved := price.Neg()
		for i, q := range queues {
			if len(q) > 0 && taken[q[0]] == w.lines[q[0]].Count {
				q = q[1:]
				queues[i] = q
			}
			if len(q) == 0 {
				return sets, taken
			}
			step = min(step, w.lines[q[0]].Count-taken[q[0]])
			saved = saved.Add(w.worth(q[0], 1))
		}
		if saved.Sign() <= 0 {
			return sets, taken
		}
		for _, q := range queues {
			taken[q[0]] += step
		}
		sets += step
	}
}

// dearestFirst is the lines that hold a product.
func (w work) dearestFirst(product string) []int {
	var out []int
	for i, l := range w.lines {
		if l.Product == product && l.Count > 0 {
			out = append(out, i)
		}
	}
	slices.SortStableFunc(out, w.dearer)
	return out
}

// worth is what n items of a line still come to, to 34 digits.
func (w work) worth(line int, n int64) quoin.Amount {
	l := &w.lines[line]
	return l.Net.Times(quoin.FactorOf(n)).Over(quoin.FactorOf(l.Count))
}
