package compare

// Fee is a share of a base in thousandths, and an amount in cents.
type Fee struct{ PerMille, Fixed int64 }

// Settlement returns the invented fees of the settlement: 7.4%, 3.3% + 0.27 and
// 1.6% of one item. Each fee is rounded half up to cents; net is the item's
// price − fees.
func Settlement() [3]Fee {
	return [3]Fee{{PerMille: 74}, {PerMille: 33, Fixed: 27}, {PerMille: 16}}
}
