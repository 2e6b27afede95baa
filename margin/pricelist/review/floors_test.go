package review_test

import (
	"encoding/json"
	"os"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/review"
	"example.com/quoin/margin/rule"
)

// TestFloorsAreLeastPrices: floors are the least prices that a whole document decides
// which has no other rules, and those of channels what it says of one public price.
func TestFloorsAreLeastPrices(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		_, doc := drawn(t)
		floorsAreLeast(t, doc)
	})
}

func TestFloorsOfACase(t *testing.T) {
	doc := must(pricelist.Decode(must(os.ReadFile("../testdata/cases/02-two-sizes-four-channels.json"))(t)))(t)
	floorsAreLeast(t, doc)
}

// A rule that speaks of a design gives the prints of others no floor.
func TestFloorsOfADesign(t *testing.T) {
	doc := must(pricelist.Decode([]byte(`{"version": 1, "currency": "EUR", "supplies": [{"id": "print", "quantity": "1 piece", "price": "4.00"}], "channels": [{"id": "fair"}],
		"products": [{"id": "heron", "design": "heron", "bill": [{"supply": "print", "quantity": "1 piece"}]}, {"id": "egret", "design": "egret", "bill": [{"supply": "print", "quantity": "1 piece"}]}],
		"rules": [{"id": "herons", "designs": ["heron"], "rule": "contribution", "at_least": "6.00"}]}`)))(t)
	r := must(review.Compare(doc, nil, doc, quoin.Rate{}))(t)
	if f := r.Floors[0]; !f.After.Or(quoin.Amount{}).Equal(amount("10.00")) {
		t.Errorf("%s", written(f))
	}
	if _, has := r.Floors[1].After.Get(); has {
		t.Errorf("%s", written(r.Floors[1]))
	}
}

func floorsAreLeast(t rapid.TB, doc pricelist.Document) {
	r, err := review.Compare(doc, nil, doc, quoin.Rate{})
	if err != nil {
		t.Fatal(err)
	}
	asking := doc
	asking.Rules = nil
	for _, one := range doc.Rules {
		switch one.Kind.(type) {
		case rule.CostMultiple, rule.GrossMargin, rule.NetMargin, rule.Contribution:
			asking.Rules = append(asking.Rules, one)
		}
	}
	a, err := pricelist.Decide(asking)
	if err != nil {
		t.Fatal(err)
	}
	for i, p := range a.Products {
		f := r.Floors[i]
		if !f.After.Equal(quoin.Some(p.Least)) {
			t.Fatalf("%s: %s, and the least price is %s", p.ID, f.After, p.Least)
		}
		for j, c := range p.ByChannel.Channels() {
			if got := f.Channels[j]; !got.After.Equal(c.Floor) || got.Sets != c.SetsPrice {
				t.Fatalf("%s in %s: %s, and alone it is %s", p.ID, c.Channel, got.After, c.Floor)
			}
		}
	}
}

// TestJSON: a review reads as it is written.
func TestJSON(t *testing.T) {
	last := map[string]quoin.Amount{"heron": amount("10.00")}
	r := must(review.Compare(edited(t, small), last, edited(t, small, `"4.00"`, `"5.80"`, `10%`, `20%`), quoin.MustRate("25%")))(t)
	var back review.Review
	if err := json.Unmarshal([]byte(written(r)), &back); err != nil {
		t.Fatal(err)
	}
	if written(back) != written(r) {
		t.Errorf("wrote\n%s\nread\n%s", written(r), written(back))
	}
}
