package ink

import "example.com/quoin"

// bounds sets a value to an end of the range beside it.
type bounds interface {
	low()
	high()
}

type bound[T any] struct {
	value *T
	of    *quoin.Range[T]
	falls bool // more of it makes for less ink
}

func (b bound[T]) low()  { b.set(b.falls) }
func (b bound[T]) high() { b.set(!b.falls) }

func (b bound[T]) set(high bool) {
	switch {
	case b.of.IsZero():
	case high:
		*b.value = b.of.High
	default:
		*b.value = b.of.Low
	}
	*b.of = quoin.Range[T]{}
}

// end returns the use with every value that has a range set to one end.
func (u Use) end(set func(bounds)) Use {
	k := &u.Upkeep
	for _, b := range []bounds{
		bound[quoin.Quantity]{&u.PerM2, &u.PerM2Range, false},
		bound[quoin.Quantity]{&k.PerMonth, &k.PerMonthRange, false},
		bound[quoin.Factor]{&k.PrintsPerMonth, &k.PrintsPerMonthRange, true},
		bound[quoin.Quantity]{&k.PerSession, &k.PerSessionRange, false},
		bound[quoin.Factor]{&k.PrintsPerSession, &k.PrintsPerSessionRange, true},
		bound[quoin.Rate]{&k.Share, &k.ShareRange, false},
	} {
		set(b)
	}
	return u
}
