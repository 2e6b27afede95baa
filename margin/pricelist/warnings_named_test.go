package pricelist_test

import (
	"os"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
)

// Whatever has a name is called by it, and else by its id.
func TestWarningsCallThingsByName(t *testing.T) {
	pair, err := os.ReadFile("testdata/codes/set_saves_nothing.json")
	if err != nil {
		t.Fatal(err)
	}
	under := func(list string) string { return soundShop(t, theRules, list+", "+theRules) }
	for _, c := range []struct {
		code          quoin.Code
		doc, name, id string
	}{
		{pricelist.FairStay, under(`"fairs": [{"id": "reed-fair", "name": "Reed fair", "channel": "web", "stand": "900.00", "prints": 3, "mix": [{"product": "heron-a4", "share": "100%"}]}]`), "Reed fair", "reed-fair"},
		{pricelist.SetSavesNone, string(pair), "Two birds together", "pair"},
		{pricelist.BeyondLimit, under(`"editions": [{"id": "small", "name": "Heron, small", "products": ["heron-a4"], "size": 50, "sold": 0, "per_month": "4"}], "edition_limits": [{"name": "society", "at_most": 40}]`), "Heron, small", "small"},
		{pricelist.UnusedSupply, soundShop(t, `"supplies": [`, `"supplies": [{"id": "tube", "name": "Postal tube", "quantity": "10 piece", "price": "9.00"},`), "Postal tube", "tube"},
	} {
		if got := wordsOf(t, c.doc, c.code); !strings.HasPrefix(got, c.name+" ") {
			t.Errorf("%s: %q", c.code, got)
		}
		if got := wordsOf(t, strings.Replace(c.doc, `"name": "`+c.name+`", `, "", 1), c.code); !strings.HasPrefix(got, c.id+" ") {
			t.Errorf("%s: %q", c.code, got)
		}
	}
}
