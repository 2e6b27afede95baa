package form

import (
	"fmt"
	"reflect"

	"example.com/quoin"
)

// number returns the number that stands at a place, whatever it is of; false where
// there is none, and for an optional one that was not given.
func number(at any) (quoin.Factor, bool) {
	switch x := at.(type) {
	case *quoin.Amount:
		return x.Figure().Factor(), true
	case *quoin.Rate:
		return x.Factor(), true
	case *quoin.Factor:
		return *x, true
	case *quoin.Quantity:
		return x.Number(), true
	case *int64:
		return quoin.FactorOf(*x), true
	case *quoin.Optional[quoin.Amount]:
		a, given := x.Get()
		return a.Figure().Factor(), given
	case *quoin.Optional[quoin.Rate]:
		r, given := x.Get()
		return r.Factor(), given
	case *quoin.Optional[quoin.Factor]:
		return x.Or(quoin.Factor{}), x.IsGiven()
	case *quoin.Optional[int64]:
		return quoin.FactorOf(x.Or(0)), x.IsGiven()
	}
	return quoin.Factor{}, false
}

// shown writes the value at a place as found; an optional one as what it holds.
func shown(at any) string {
	switch x := at.(type) {
	case *quoin.Rate, *quoin.Quantity:
		return fmt.Sprint(x)
	case *quoin.Optional[quoin.Rate]:
		return x.Or(quoin.Rate{}).String()
	}
	n, _ := number(at)
	return n.String()
}

// isRate reports whether a rate stands at a place.
func isRate(at any) bool {
	_, rate := at.(*quoin.Rate)
	_, optional := at.(*quoin.Optional[quoin.Rate])
	return rate || optional
}

// pointer is where a value stands, or where a copy of it does.
func pointer(v reflect.Value) any {
	return addressable(v).Addr().Interface()
}

// addressable is v, or a copy of it that has an address.
func addressable(v reflect.Value) reflect.Value {
	if v.CanAddr() {
		return v
	}
	to := reflect.New(v.Type()).Elem()
	to.Set(v)
	return to
}
