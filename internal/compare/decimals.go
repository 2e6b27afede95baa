package compare

// fee is a Fee in decimals of some kind.
type fee[D any] struct{ rate, fixed D }

// terms are those of a Channel in decimals of some kind.
type terms[D any] struct {
	keep, tax, onePlus, commission D
	payment                        fee[D]
	shipping, freeFrom, postage    D
	inPrice                        bool
}

// decimals makes a decimal of a whole number, with so many places.
type decimals[D any] func(n int64, places int) D

func (d decimals[D]) fee(f Fee) fee[D] { return fee[D]{d(f.PerMille, 3), d(f.Fixed, 2)} }

func (d decimals[D]) fees() (out [3]fee[D]) {
	for i, f := range Settlement() {
		out[i] = d.fee(f)
	}
	return out
}

func (d decimals[D]) table() (out [Channels]terms[D]) {
	for i, c := range Table() {
		out[i] = terms[D]{
			keep: d(1000-c.Discount, 3), tax: d(c.Tax, 3), onePlus: d(1000+c.Tax, 3), commission: d(c.Commission, 3), payment: d.fee(c.Payment),
			shipping: d(c.Shipping, 2), freeFrom: d(c.FreeFrom, 2), postage: d(c.Postage, 2), inPrice: c.InPrice,
		}
	}
	return out
}

func (d decimals[D]) costs() (out [Sizes]D) {
	for i, cost := range Costs() {
		out[i] = d(cost, 2)
	}
	return out
}

// peer does the sums by what fees leave of a price, and what a channel leaves of a list price
// and the cost of the item, both in cents.
func (d decimals[D]) peer(name string, net func(fees *[3]fee[D], price D) int64, left func(t *terms[D], list, cost D) int64) Peer {
	fees, table, costs := d.fees(), d.table(), d.costs()
	return Peer{
		Name:   name,
		Settle: func(cents int64) int64 { return net(&fees, d(cents, 2)) },
		Sheet: func(list [Sizes]int64) (out [Results]int64) {
			for s, cents := range list {
				price := d(cents, 2)
				for c := range table {
					out[s*Channels+c] = left(&table[c], price, costs[s])
				}
			}
			return out
		},
	}
}
