package form

import (
	"reflect"
	"testing"

	"example.com/quoin"
)

// TestDocumentsAreBoundedAsInput: what is read back from storage may be finer than what a
// document may hold, which has the bounds of what a person writes.
func TestDocumentsAreBoundedAsInput(t *testing.T) {
	for _, c := range []struct {
		to   any
		text string
		code quoin.Code
	}{
		{new(quoin.Amount), `"1.123456789"`, quoin.TooFine},
		{new(quoin.Amount), `1.123456789`, quoin.TooFine},
		{new(quoin.Amount), `"1234567890123"`, quoin.TooLarge},
		{new(quoin.Optional[quoin.Amount]), `"1.123456789"`, quoin.TooFine},
		{new(quoin.Optional[quoin.Amount]), `1e12`, quoin.TooLarge},
		{new(quoin.Rate), `"1.12345678901234567%"`, quoin.TooFine},
		{new(quoin.Rate), `"7.4"`, quoin.BarePercentage},
		{new(quoin.Optional[quoin.Rate]), `"1234567%"`, quoin.TooLarge},
		{new(quoin.Factor), `"1.12345678901234567"`, quoin.TooFine},
		{new(quoin.Optional[quoin.Factor]), `1e-17`, quoin.TooFine},
		{new(quoin.Quantity), `"0.1234567890123 sheet"`, quoin.TooFine},
		{new(quoin.Quantity), `"0"`, quoin.MissingUnit},
		{new(quoin.Size), `"0.1234567890123 x 2 mm"`, quoin.BadSize},
		{new(quoin.Currency), `""`, quoin.UnknownCurrency},
	} {
		var found Collector
		if found.Read([]byte(c.text), c.to); len(found.Problems) != 1 || found.Problems[0].Code != c.code || !reflect.ValueOf(c.to).Elem().IsZero() {
			t.Errorf("%T of %s: %v, want %s", c.to, c.text, found.Problems, c.code)
		}
		for _, text := range []string{"true", "null", "{}", "[1]"} {
			var found Collector
			if found.Read([]byte(text), c.to); len(found.Problems) != 1 || found.Problems[0].Code != quoin.WrongType {
				t.Errorf("%T of %s: %v", c.to, text, found.Problems)
			}
		}
	}
	for _, to := range []any{new(quoin.Quantity), new(quoin.Size), new(quoin.Currency)} {
		var found Collector
		if found.Read([]byte("5"), to); len(found.Problems) != 1 || found.Problems[0].Code != quoin.WrongType {
			t.Errorf("%T of the number 5: %v", to, found.Problems)
		}
	}
}
