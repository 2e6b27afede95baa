package rule

import "example.com/quoin"

// AllowedRange is a range of allowed prices without a hole. Endings and price points make no
// hole: if prices end in 0.00 or 0.50, then 18.00 and 18.50 are one range.
type AllowedRange struct {
	// The first price of the range.
	First quoin.Amount `json:"first" range:"[0,"`
	// The last price of the range.
	Last quoin.Amount `json:"last" range:"[0,"`
	// Given, and true, where no rule forbids a lower price: none is considered.
	NoneLower bool `json:"none_lower,omitzero"`
	// Given, and true, where no rule forbids a higher price: the range ends only because no
	// higher price is considered.
	NoneHigher bool `json:"none_higher,omitzero"`
}

// Ranges returns the ranges of the prices that item i is allowed, in rising order, at most so
// many, and whether there are more. There are none on a conflict.
func (d Decision) Ranges(i int, most int) (ranges []AllowedRange, more bool) {
	if !d.has(i) || len(d.Allowed) == 0 {
		return nil, false
	}
	allowed := d.Allowed[i]
	for first, ok := allowed.Least(); ok; {
		if len(ranges) == most {
			return ranges, true
		}
		r := AllowedRange{First: first}
		refused, ends := d.refused(i, first, +1)
		if ends {
			r.Last, _ = allowed.Prev(refused)
			first, ok = allowed.Next(refused)
		} else {
			r.Last, _ = allowed.Greatest()
			ok = false
		}
		r.NoneHigher = !ok && !d.forbids(i, r.Last, +1)
		r.NoneLower = len(ranges) == 0 && !d.forbids(i, r.First, -1)
		ranges = append(ranges, r)
	}
	return ranges, false
}

// forbids reports whether a rule is the reason why a price beyond p is refused.
func (d Decision) forbids(i int, p quoin.Amount, side int) bool {
	if _, refused := d.refused(i, p, side); !refused || len(d.with(i)) == 0 { // without other sizes, a rule is the reason
		return refused
	}
	why, _ := d.why(i, p, side)
	return why.More || !onlyLimit(why.By)
}
