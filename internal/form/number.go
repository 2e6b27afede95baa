package form

import (
	"cmp"
	"math/big"
	"reflect"

	"example.com/quoin"
)

// Number returns the value of a numeric leaf; false for any other, and for an
// optional one that was not given.
func Number(v any) (*big.Rat, bool) {
	switch x := v.(type) {
	case int64:
		return new(big.Rat).SetInt64(x), true
	case quoin.Optional[int64]:
		n, given := x.Get()
		return new(big.Rat).SetInt64(n), given
	case quoin.Optional[quoin.Amount]:
		a, given := x.Get()
		return a.Rat(), given
	case quoin.Optional[quoin.Rate]:
		r, given := x.Get()
		return r.Rat(), given
	case quoin.Optional[quoin.Factor]:
		f, given := x.Get()
		return f.Rat(), given
	case interface{ Rat() *big.Rat }:
		return x.Rat(), true
	}
	return nil, false
}

// Sign returns the sign of a numeric leaf; false for what Number is false for. It
// looks at values where they stand, since copying them all is most of the work.
func Sign(v reflect.Value) (int, bool) {
	if k := v.Kind(); k != reflect.Struct && k != reflect.Int64 {
		return 0, false
	}
	switch x := pointer(v).(type) {
	case *int64:
		return cmp.Compare(*x, 0), true
	case *quoin.Optional[int64]:
		n, given := x.Get()
		return cmp.Compare(n, 0), given
	case *quoin.Optional[quoin.Amount]:
		a, given := x.Get()
		return a.Sign(), given
	case *quoin.Optional[quoin.Rate]:
		r, given := x.Get()
		return r.Sign(), given
	case *quoin.Optional[quoin.Factor]:
		f, given := x.Get()
		return f.Sign(), given
	case interface {
		Sign() int
		Rat() *big.Rat
	}:
		return x.Sign(), true
	}
	return 0, false
}

func pointer(v reflect.Value) any {
	if !v.CanAddr() {
		at := reflect.New(v.Type())
		at.Elem().Set(v)
		v = at.Elem()
	}
	return v.Addr().Interface()
}
