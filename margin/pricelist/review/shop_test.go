package review_test

import (
	"encoding/json"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/review"
)

// small is a shop whose floors can be worked out on paper: a print takes one sheet, and
// a sale is to leave 5.00 after a fee that is rounded to cents. All figures are invented.
//
//	price − paper − fee × price ≥ 5.00
const small = `{
 "version": 1, "currency": "EUR", "price_limit": "200.00", "choose": "least",
 "supplies": [{"id": "paper", "quantity": "1 sheet", "price": "4.00"}],
 "products": [{"id": "heron", "bill": [{"supply": "paper", "quantity": "1 sheet"}]}],
 "channels": [{"id": "web", "fees": [{"name": "commission", "rate": "10%"}]}],
 "rules": [{"id": "keeps", "rule": "contribution", "at_least": "5.00"}]
}`

// edited is a document with texts replaced, one by another in turn.
func edited(t testing.TB, doc string, replace ...string) pricelist.Document {
	t.Helper()
	for i := 0; i+1 < len(replace); i += 2 {
		if !strings.Contains(doc, replace[i]) {
			t.Fatalf("no %s in the document", replace[i])
		}
		doc = strings.Replace(doc, replace[i], replace[i+1], 1)
	}
	return must(pricelist.Decode([]byte(doc)))(t)
}

func must[T any](v T, err error) func(testing.TB) T {
	return func(t testing.TB) T {
		t.Helper()
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
}

func amount(s string) quoin.Amount { return quoin.MustAmount(s) }

// shares writes what moved the floor of a product.
func shares(f review.Floor) string {
	var out []string
	for _, s := range f.Shares {
		out = append(out, strings.Join(s.Inputs, " and ")+" "+s.By.String())
	}
	if f.Together != nil {
		out = append(out, "together "+f.Together.By.String())
	}
	return strings.Join(out, "; ")
}

func floor(t testing.TB, r review.Review, product string) review.Floor {
	t.Helper()
	for _, f := range r.Floors {
		if f.Product == product {
			return f
		}
	}
	t.Fatalf("no floor of %s", product)
	return review.Floor{}
}

func written(v any) string {
	data, _ := json.Marshal(v)
	return string(data)
}
