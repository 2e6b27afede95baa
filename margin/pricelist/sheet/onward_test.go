package sheet_test

import (
	"strings"
	"testing"

	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/sheet"
)

// The last stage loses nothing: what is printed says nothing of a yield there, and no
// sum equals "nothing" and then 1. Where a yield is said, it is printed.
func TestWhySaysNothingOfAStageThatLosesNothing(t *testing.T) {
	answer, err := pricelist.Price([]byte(`{"version": 1, "currency": "EUR", "price_limit": "60.00",
		"supplies": [{"id": "paper", "quantity": "1 sheet", "price": "3.00"}],
		"stages": [{"id": "print", "yield": "90%"}, {"id": "dry"}],
		"products": [{"id": "heron", "bill": [{"supply": "paper", "quantity": "1 sheet", "stage": "print"}, {"supply": "paper", "quantity": "0.1 sheet", "stage": "dry"}]}],
		"channels": [{"id": "stall"}], "rules": [{"id": "multiple", "rule": "cost_multiple", "at_least": "3"}]}`))
	if err != nil {
		t.Fatal(err)
	}
	text, ok := sheet.Why(answer, "heron", 100)
	if !ok {
		t.Fatal("no story")
	}
	for _, never := range []string{"nothing = 1", "yield onward, dry", "starts, dry"} {
		if strings.Contains(text, never) {
			t.Errorf("it says %q:\n%s", never, text)
		}
	}
	if !strings.Contains(text, "yield onward, print = yield 90% = 0.9") {
		t.Errorf("it does not say what the first stage loses:\n%s", text)
	}
}
