package pricelist

import (
	"encoding/json"
	"errors"
	"reflect"
	"testing"

	"example.com/quoin"
)

// TestDocumentsAreBoundedAsInput: what is read back from storage may be finer than what a
// document may hold, which has the bounds of what a person writes.
func TestDocumentsAreBoundedAsInput(t *testing.T) {
	for _, c := range []struct {
		to   any
		t    json.Token
		code quoin.Code
	}{
		{new(quoin.Amount), "1.123456789", quoin.TooFine},
		{new(quoin.Amount), json.Number("1.123456789"), quoin.TooFine},
		{new(quoin.Amount), "1234567890123", quoin.TooLarge},
		{new(quoin.Optional[quoin.Amount]), "1.123456789", quoin.TooFine},
		{new(quoin.Optional[quoin.Amount]), json.Number("1e12"), quoin.TooLarge},
		{new(quoin.Rate), "1.12345678901234567%", quoin.TooFine},
		{new(quoin.Rate), "7.4", quoin.BarePercentage},
		{new(quoin.Optional[quoin.Rate]), "1234567%", quoin.TooLarge},
		{new(quoin.Factor), "1.12345678901234567", quoin.TooFine},
		{new(quoin.Optional[quoin.Factor]), json.Number("1e-17"), quoin.TooFine},
		{new(quoin.Quantity), "0.1234567890123 sheet", quoin.TooFine},
		{new(quoin.Quantity), "0", quoin.MissingUnit},
		{new(quoin.Size), "0.1234567890123 x 2 mm", quoin.BadSize},
		{new(quoin.Currency), "", quoin.UnknownCurrency},
	} {
		v := reflect.ValueOf(c.to).Elem()
		err := setLeaf(c.t, v)
		if p := (quoin.Problem{}); !errors.As(err, &p) || p.Code != c.code || !v.IsZero() {
			t.Errorf("%T of %v: %v, want %s", c.to, c.t, err, c.code)
		}
		if p := (quoin.Problem{}); errors.As(setLeaf(true, v), &p) {
			t.Errorf("%T of true: %v", c.to, p)
		}
	}
	for _, to := range []any{new(quoin.Quantity), new(quoin.Size), new(quoin.Currency)} {
		if err := setLeaf(json.Number("5"), reflect.ValueOf(to).Elem()); !errors.Is(err, errType) {
			t.Errorf("%T of the number 5: %v", to, err)
		}
	}
}
