package pricelist_test

import (
	"slices"
	"testing"

	"example.com/quoin/margin/pricelist"
)

// A remedy of a step keeps the order of its sizes: of prints that are listed from the largest
// down, the first of at least 40.00 and the next at least twice as dear under a ceiling of
// 70.00, the step would have to go to 1.75, and no ceiling of the step would help.
func TestRemedyOfAStepKeepsItsOrder(t *testing.T) {
	a, err := pricelist.Price([]byte(`{"version": 1, "currency": "EUR", "supplies": [{"id": "s", "quantity": "3 sheet", "price": "6.00"}],
	  "channels": [{"id": "c"}], "products": [{"id": "large", "design": "d", "sheet": "A3"}, {"id": "small", "design": "d", "sheet": "A5"}],
	  "rules": [{"id": "sizes", "rule": "size_ratio", "at_least": "2", "at_most": "3", "order": "listed"},
	    {"id": "from", "rule": "price", "at_least": "40.00", "products": ["large"]}, {"id": "to", "rule": "price", "at_most": "70.00"}]}`))
	if err != nil || !slices.Equal(a.Conflict, []string{"sizes", "from", "to"}) {
		t.Fatal(err, a.Conflict)
	}
	var got []string
	for _, r := range a.Remedies {
		got = append(got, r.Path+" "+r.To.String())
	}
	if want := []string{"rules[0].at_least 1.75", "rules[1].at_least 35.00", "rules[2].at_most 80.00"}; !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}
