package review_test

import (
	"fmt"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/review"
)

// everything is a shop whose products all use all of its supplies.
func everything(supplies, products int, price string) string {
	var s, lines, p []string
	for i := range supplies {
		s = append(s, fmt.Sprintf(`{"id": "s%d", "quantity": "1 piece", "price": %q}`, i, price))
		lines = append(lines, fmt.Sprintf(`{"supply": "s%d", "quantity": "1 piece"}`, i))
	}
	for i := range products {
		p = append(p, fmt.Sprintf(`{"id": "p%d", "bill": [%s]}`, i, strings.Join(lines, ",")))
	}
	return `{"version": 1, "currency": "EUR", "channels": [{"id": "c"}], "supplies": [` + strings.Join(s, ",") + `], "products": [` + strings.Join(p, ",") +
		`], "rules": [{"id": "keeps", "rule": "contribution", "at_least": "5.00"}]}`
}

// What would take minutes is refused at once: 390 changes that each move 5 products of 390 lines. Of six changes in
// 100 products every mixture is decided, and in 1,000 only the first and the last.
func TestWorkIsBounded(t *testing.T) {
	compare := func(supplies, products int) (review.Review, error) {
		last := must(pricelist.Decode([]byte(everything(supplies, products, "0.10"))))(t)
		return review.Compare(last, nil, must(pricelist.Decode([]byte(everything(supplies, products, "0.11"))))(t), quoin.Rate{})
	}
	if _, err := compare(390, 5); !refused(err, quoin.TooMany) || !strings.Contains(err.Error(), "documents with more than") {
		t.Errorf("390 changes of 5 products with 390 lines: %v", err)
	}
	for products, want := range map[int]review.Method{100: review.Shapley, 1000: review.FirstAndLast} {
		r := must(compare(6, products))(t)
		// Six supplies, each 0.01 dearer.
		if f := r.Floors[products-1]; r.Method != want || len(f.Shares) != 6 || !f.Shares[5].By.Equal(amount("0.01")) || !f.Change.Or(quoin.Amount{}).Equal(amount("0.06")) {
			t.Errorf("%d products: %s, %s", products, r.Method, written(f))
		}
	}
}
