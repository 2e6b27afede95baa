package rule

import (
	"cmp"
	"slices"

	"example.com/quoin"
)

// comparison is what a market rule makes of the comparables of an item.
type comparison struct {
	from, to        quoin.Amount
	ok              bool // enough of them count
	counting        int
	unsold, leftOut int
	venue           string // of one that counts, and how many venues there are
	venues          int
}

// comparisons are comparisons that are known, by rule and item, and what they are made from.
type comparisons struct {
	keys  map[int]*marketKeys
	known map[[2]int]comparison
}

// compare is the comparison of a rule and an item with comparables.
func (c *comparisons) compare(rule int, k Market, item int, it *Item) comparison {
	at := [2]int{rule, item}
	if known, ok := c.known[at]; ok {
		return known
	}
	if c.known == nil {
		c.keys, c.known = make(map[int]*marketKeys), make(map[[2]int]comparison)
	}
	keys, ok := c.keys[item]
	if !ok {
		keys = &marketKeys{of: it}
		c.keys[item] = keys
	}
	c.known[at] = keys.compare(k)
	return c.known[at]
}

// allowed returns the prices between the two; all where too few count.
func (c comparison) allowed(g quoin.Grid) Set {
	if !c.ok {
		return All(g)
	}
	return Between(g, c.from, c.to)
}

// certain reports whether a price with a logarithm is above zero however it is computed:
// from 2^−30, of which decimals see 12 places, to 2^90, which no power on the way passes.
func certain(key int64) bool { return key > -30<<logPlaces && key < 90<<logPlaces }

// compare puts those of the comparables that count in order. Only of those that quantiles
// fall on, and of those so near to them that logarithms do not tell which comes first,
// prices are computed.
func (m *marketKeys) compare(k Market) comparison {
	r := ranking{list: m.of.Comparables}
	exact := k.Basis.bringer(m.of.Size)
	r.bring = func(i int) quoin.Amount { p, _ := exact(r.list[i]); return p }
	keys, _ := m.keys(k.Basis)
	r.keys = keys
	var out comparison
	w := newWeights(k.BySeller)
	r.order = make([]int, 0, len(r.list))
	for i := range r.list {
		c := &r.list[i]
		if c.Sold < k.MinSold.Or(1) {
			out.unsold++
			continue
		}
		counts := r.keys != nil && certain(keys[i])
		if !counts {
			_, counts = exact(*c)
		}
		if !counts {
			out.leftOut++
			continue
		}
		out.counting++
		r.order = append(r.order, i)
		w.add(c)
	}
	out.venues = len(w.sellers)
	if out.counting > 0 {
		out.venue = r.list[r.order[0]].Venue
	}
	if out.ok = k.enough(out.counting, out.venues) && out.counting > 0; !out.ok {
		return out
	}
	if r.keys == nil {
		r.sort(0, len(r.order))
		r.settled = [][2]int{{0, len(r.order)}}
	} else {
		slices.SortFunc(r.order, func(i, j int) int { return cmp.Or(cmp.Compare(keys[i], keys[j]), i-j) })
	}
	r.weigh(w)
	out.from, out.to = r.quantile(k.From), r.quantile(k.To)
	return out
}

// ranking is comparables from the cheapest up.
type ranking struct {
	list    []Comparable
	bring   func(i int) quoin.Amount // the price of one of the list
	keys    []int64                  // logarithms of that; nil where order is sorted by prices
	order   []int
	settled [][2]int // stretches of the order that are sorted by prices
	weights weights
	before  []quoin.Factor // by place in the order: the weight before it
	all     quoin.Factor
}

// sort sorts a stretch of the order by prices, equal ones as they come.
func (r *ranking) sort(from, end int) {
	type priced struct {
		at    int
		price quoin.Amount
	}
	of := make([]priced, end-from)
	for n, i := range r.order[from:end] {
		of[n] = priced{i, r.bring(i)}
	}
	slices.SortFunc(of, func(a, b priced) int { return cmp.Or(a.price.Cmp(b.price), a.at-b.at) })
	for n := range of {
		r.order[from+n] = of[n].at
	}
}

func (r *ranking) weigh(w weights) {
	if len(r.order) > fewKeys {
		w.known = make(map[int64]quoin.Factor)
	}
	r.weights, r.all = w, quoin.FactorOf(int64(len(w.sellers)))
	r.before = make([]quoin.Factor, len(r.order)+1)
	r.sum(0, len(r.order))
}

// sum sums up the weights of a stretch.
func (r *ranking) sum(from, end int) {
	for n := from; n < end; n++ {
		r.before[n+1] = r.before[n].Add(r.weights.weight(&r.list[r.order[n]]))
	}
}

// position returns the position of the record at a place in the order.
func (r *ranking) position(n int) quoin.Factor {
	own := r.weights.weight(&r.list[r.order[n]])
	return r.before[n].Add(own.Over(quoin.FactorOf(2))).Over(r.all)
}

// quantile returns the price at a position; see Quantile.
func (r *ranking) quantile(q quoin.Rate) quoin.Amount {
	want := q.Factor()
	n := r.reach(want)
	for r.settle(n-1) || r.settle(n) {
		n = r.reach(want)
	}
	if n == 0 {
		return r.price(0)
	}
	if n == len(r.order) {
		return r.price(n - 1)
	}
	low, high, at := r.price(n-1), r.price(n), r.position(n-1)
	return low.Add(high.Sub(low).Times(want.Sub(at).Over(r.position(n).Sub(at))))
}

func (r *ranking) price(n int) quoin.Amount { return r.bring(r.order[n]) }

// reach returns the first place whose position is not below what is wanted.
func (r *ranking) reach(want quoin.Factor) int {
	low, high := 0, len(r.order)
	for low < high {
		if middle := (low + high) / 2; r.position(middle).Cmp(want) < 0 {
			low = middle + 1
		} else {
			high = middle
		}
	}
	return low
}

// settle sorts by prices what logarithms do not tell apart from the record at a place, and
// reports whether that was still to be done.
func (r *ranking) settle(n int) bool {
	if n < 0 || n >= len(r.order) || slices.ContainsFunc(r.settled, func(s [2]int) bool { return s[0] <= n && n < s[1] }) {
		return false
	}
	from, end := n, n+1
	for from > 0 && r.near(from-1) {
		from--
	}
	for end < len(r.order) && r.near(end-1) {
		end++
	}
	r.settled = append(r.settled, [2]int{from, end})
	if end-from > 1 {
		r.sort(from, end)
		r.sum(from, end-1)
	}
	return true
}

// near reports whether logarithms do not tell the record at a place from the next one:
// they are off by less than 2^−42, and prices are compared to 12 places, which is less
// than 2^−39.
func (r *ranking) near(n int) bool {
	key := r.keys[r.order[n]]
	places := min(max(10, 14-key>>logPlaces), logPlaces)
	return r.keys[r.order[n+1]]-key < 1<<places
}
