package quoin_test

import (
	"reflect"
	"testing"

	"example.com/quoin"
)

// TestNumbersAreNotComparedByDigits: == of what holds a number does not compile, and so
// neither does a map by one. Words and places hold none.
func TestNumbersAreNotComparedByDigits(t *testing.T) {
	for _, of := range []reflect.Type{
		reflect.TypeFor[quoin.Amount](), reflect.TypeFor[quoin.Rate](), reflect.TypeFor[quoin.Factor](), reflect.TypeFor[quoin.Quantity](),
		reflect.TypeFor[quoin.Size](), reflect.TypeFor[quoin.Figure](), reflect.TypeFor[quoin.Grid](), reflect.TypeFor[quoin.Operand](),
		reflect.TypeFor[quoin.Optional[quoin.Amount]](), reflect.TypeFor[quoin.Range[quoin.Rate]](),
	} {
		if of.Comparable() {
			t.Errorf("%s can be compared by ==", of)
		}
	}
	for _, of := range []reflect.Type{
		reflect.TypeFor[quoin.Currency](), reflect.TypeFor[quoin.Unit](), reflect.TypeFor[quoin.Path](), reflect.TypeFor[quoin.Rounding](),
		reflect.TypeFor[quoin.Optional[int64]](), reflect.TypeFor[quoin.Range[int64]](),
	} {
		if !of.Comparable() {
			t.Errorf("%s cannot be compared by ==", of)
		}
	}
}

func TestRangesAreEqualByTheirEnds(t *testing.T) {
	low, high := quoin.MustAmount("17"), quoin.MustAmount("18.50")
	for _, c := range []struct {
		a, b quoin.Range[quoin.Amount]
		want bool
	}{
		{quoin.Between(low, high), quoin.Between(quoin.MustAmount("17.00"), quoin.MustAmount("18.5")), true},
		{quoin.Between(low, high), quoin.Between(low, low), false},
		{quoin.Between(low, high), quoin.Between(high, high), false},
		{quoin.Range[quoin.Amount]{}, quoin.Between(quoin.AmountOf(0, 2), quoin.AmountOf(0, 0)), true},
	} {
		if got := c.a.Equal(c.b); got != c.want {
			t.Errorf("%v and %v: equal is %t", c.a, c.b, got)
		}
		if got := quoin.Some(c.a).Equal(quoin.Some(c.b)); got != c.want {
			t.Errorf("optional %v and %v: equal is %t", c.a, c.b, got)
		}
	}
	if !quoin.Between[int64](3, 5).Equal(quoin.Between[int64](3, 5)) || quoin.Between[int64](3, 5).Equal(quoin.Between[int64](3, 6)) {
		t.Error("whole numbers are compared by ==")
	}
}
