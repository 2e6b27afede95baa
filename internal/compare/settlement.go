package compare

// Fee is a share of a base in thousandths, and an amount in cents.
type Fee struct{ PerMille, Fixed int64 }

// Settlement returns the invented fees of the settlement: 6.5%, 3% + 0.25 and
// 1.2% of one item. Each fee is rounded half up to cents; net is the item's
// price − fees.
func Settlement() [3]Fee {
	return [3]Fee{{PerMille: 65}, {PerMille: 30, Fixed: 25}, {PerMille: 12}}
}
