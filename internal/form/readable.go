package form

import (
	"reflect"

	"example.com/quoin"
)

// unreadable returns why a value made in Go could not be read where it was written: a
// number has too many digits, a unit or a rounding is none.
func unreadable(v reflect.Value) error {
	unit := quoin.AmountOf(1, 0)
	switch x := pointer(v).(type) {
	case *quoin.Rounding:
		return new(quoin.Rounding).UnmarshalText([]byte(x.String()))
	case *quoin.Amount:
		return tooLong(*x, *x, 8, quoin.ParseAmount)
	case *quoin.Optional[quoin.Amount]:
		a, _ := x.Get()
		return tooLong(a, a, 8, quoin.ParseAmount)
	case *quoin.Factor:
		return tooLong(*x, unit.Times(*x), 8, quoin.ParseFactor)
	case *quoin.Optional[quoin.Factor]:
		f, _ := x.Get()
		return tooLong(f, unit.Times(f), 8, quoin.ParseFactor)
	case *quoin.Rate:
		return tooLong(*x, unit.Part(*x), 15, quoin.ParseRate)
	case *quoin.Optional[quoin.Rate]:
		r, _ := x.Get()
		return tooLong(r, unit.Part(r), 15, quoin.ParseRate)
	case *quoin.Quantity:
		if u := x.Unit(); new(quoin.Unit).UnmarshalText([]byte(u)) == nil {
			return tooLong(*x, unit.Times(x.Number()), 8, quoin.ParseQuantity)
		}
		_, err := quoin.ParseQuantity(x.String())
		return err
	}
	return nil
}

// manyDigits reports whether all that is wrong with a number is that it has too many digits.
func manyDigits(err error) bool {
	p, _ := err.(quoin.Problem)
	return p.Code == quoin.TooFine || p.Code == quoin.TooLong || p.Code == quoin.TooLarge
}

// tooLong reads a number again, unless it is short at sight: a whole number of the last of
// so many places, in 64 bits.
func tooLong[N interface{ String() string }](x N, same quoin.Amount, places int, parse func(string) (N, error)) error {
	if _, short := same.Units(places); short {
		return nil
	}
	_, err := parse(x.String())
	return err
}
