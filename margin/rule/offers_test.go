package rule_test

import (
	"slices"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
	"example.com/quoin/margin/rule"
)

// A rule asks of its own channels, wherever they stand among those of an item.
func TestRulesAskOfTheirChannels(t *testing.T) {
	g, err := quoin.NewGrid(quoin.MustAmount("0.01"), quoin.MustAmount("40.00"))
	if err != nil {
		t.Fatal(err)
	}
	all := []string{"a", "b", "c", "d", "e"}
	var sales []margin.Sale
	for _, id := range all {
		sales = append(sales, margin.NewSale(channel.Channel{ID: id}.Terms(quoin.MustCurrency("EUR")), margin.GoodsOnDemand(quoin.MustAmount("6.00"))))
	}
	it := rule.NewItem("print", g, sales...)
	for _, want := range [][]string{{"a"}, {"e"}, {"b", "c"}, {"a", "c"}, {"a", "b", "d", "e"}, {"b", "d"}, {"a", "c", "e"}, {"c", "d", "e"}, all} {
		r := keepsFive()
		r.Channels = want
		var got []string
		for _, v := range r.Judge(it, quoin.MustAmount("12.00")) {
			got = append(got, v.Channel)
		}
		if !slices.Equal(got, want) {
			t.Errorf("in %v a rule asks of %v", want, got)
		}
	}
	for i, id := range all {
		if o, ok := it.Offer(id); !ok || o.Channel != id || it.Offers[i].Channel != id {
			t.Errorf("offer in %s: %s, %t", id, o.Channel, ok)
		}
	}
	if o, ok := it.Offer("f"); ok || o.Channel != "" {
		t.Errorf("an offer in a channel that is not there: %s, %t", o.Channel, ok)
	}
}
