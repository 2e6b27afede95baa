package pricelist_test

import (
	"slices"
	"strings"
	"testing"

	"example.com/quoin/margin/pricelist"
)

// A document that touches a matter of law says so under its answer, in one sentence; one that does not says no more than
// every answer.
func TestCautionsOfADocument(t *testing.T) {
	const document = `{"version": 1, "currency": "EUR", "products": [{"id": "heron"}], "channels": [{"id": "web"CHANNEL}],
		"rules": [{"id": "floor", "rule": "price", "at_least": "9.00"}]MORE}`
	for _, c := range []struct{ channel, more, says string }{
		{"", "", ""},
		{`, "promotion": "10%"`, "", "how discounts, codes and former prices are announced"},
		{`, "promotions": [{"id": "spring", "rate": "10%"}]`, "", "how discounts, codes and former prices are announced"},
		{`, "orders": [{"surcharge": {"rate": "2%"}}]`, "", "whether buyers may be charged extra for paying by card"},
		{`, "returns": {"returned": "2%"}`, "", "what buyers may give back"},
		{`, "trade": {"case": 6}`, "", "whether a shop may be told what to ask"},
		{`, "consignment": {"commission": "40%"}`, "", "whether a gallery may be forbidden a discount"},
		{"", `, "editions": [{"id": "herons", "size": 40, "products": ["heron"]}]`, "what a limited edition is"},
	} {
		a, err := pricelist.Price([]byte(strings.NewReplacer("CHANNEL", c.channel, "MORE", c.more).Replace(document)))
		if err != nil {
			t.Errorf("%s%s: %v", c.channel, c.more, err)
			continue
		}
		n := len(pricelist.Cautions())
		if c.says != "" {
			n++
		}
		if len(a.Cautions) != n || !strings.Contains(a.Cautions[n-1], c.says) {
			t.Errorf("%s%s: %q", c.channel, c.more, a.Cautions)
		}
	}
}

// A shop whose products come in lots says the same cautions once as each of its answers.
func TestCautionsOfAShop(t *testing.T) {
	shop, err := pricelist.DecodeShop([]byte(`{"version": 1, "currency": "EUR", "channels": [{"id": "web", "promotion": "10%"}],
		"rules": [{"id": "floor", "rule": "price", "at_least": "9.00"}]}`))
	if err != nil {
		t.Fatal(err)
	}
	a, err := shop.Decide(pricelist.Lot{Products: []pricelist.Product{{ID: "heron"}}}, pricelist.Brief)
	if err != nil || !slices.Equal(shop.Cautions(), a.Cautions) || len(a.Cautions) != len(pricelist.Cautions())+1 {
		t.Errorf("the shop says %q, its answer %q, %v", shop.Cautions(), a.Cautions, err)
	}
	if got := (*pricelist.Shop)(nil).Cautions(); !slices.Equal(got, pricelist.Cautions()) {
		t.Errorf("no shop says %q", got)
	}
}
