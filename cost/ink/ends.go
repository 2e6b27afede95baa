package ink

import "example.com/quoin"

// bound is a value and the range beside it.
type bound[T any] struct {
	value *T
	of    *quoin.Range[T]
	falls bool // more of it makes for less ink
}

// set sets the value to the end that makes for more ink, or for less.
func (b bound[T]) set(more bool) {
	switch {
	case b.of.IsZero():
	case more != b.falls:
		*b.value = b.of.High
	default:
		*b.value = b.of.Low
	}
	*b.of = quoin.Range[T]{}
}

// end returns the use with every value that has a range at the end that makes
// for more ink, or for less.
func (u Use) end(more bool) Use {
	k := &u.Upkeep
	for _, b := range []interface{ set(more bool) }{
		bound[quoin.Quantity]{&u.PerM2, &u.PerM2Range, false},
		bound[quoin.Quantity]{&k.PerMonth, &k.PerMonthRange, false},
		bound[quoin.Factor]{&k.PrintsPerMonth, &k.PrintsPerMonthRange, true},
		bound[quoin.Quantity]{&k.PerSession, &k.PerSessionRange, false},
		bound[quoin.Factor]{&k.PrintsPerSession, &k.PrintsPerSessionRange, true},
		bound[quoin.Rate]{&k.Share, &k.ShareRange, false},
	} {
		b.set(more)
	}
	return u
}
