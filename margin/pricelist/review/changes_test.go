package review_test

import (
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist/review"
)

// larger has a place for everything that changes below.
const larger = `{
 "version": 1, "currency": "EUR", "price_limit": "200.00",
 "supplies": [{"id": "paper", "quantity": "1 sheet", "price": "4.00"}, {"id": "ink", "quantity": "80 ml", "price": "40.00"}],
 "stages": [{"id": "print", "yield": "90%"}, {"id": "trim", "yield": "95%", "recovery": "1.00"}],
 "products": [{"id": "heron", "price": "20.00", "bill": [{"supply": "paper", "quantity": "1 sheet", "stage": "print"}, {"supply": "ink", "quantity": "1 ml", "stage": "print"}],
  "packing": {"flat-2": [{"supply": "paper", "quantity": "0.4 sheet"}], "tube 2": [{"supply": "paper", "quantity": "0.5 sheet"}]}}],
 "channels": [{"id": "web", "trade_discount": ["10%", "5%"], "fees": [{"name": "commission", "rate": "10%"}, {"name": "card", "rate": "2.1%", "fixed": "0.27"}]}],
 "rules": [{"id": "keeps", "rule": "contribution", "at_least": "5.00"}, {"id": "ends", "rule": "ending", "ends_in": ["0.50"]}]
}`

func TestChanges(t *testing.T) {
	for _, c := range []struct {
		name  string
		edits []string
		want  string // input kind path (old path): old → new, with * where floors may rest on it
	}{
		{"nothing", nil, ""},
		{"a price", []string{`"price": "4.00"`, `"price": "4.40"`}, `supplies["paper"].price changed supplies[0].price (): 4.00 → 4.40 *`},
		{"the same in other words", []string{`"price": "4.00"`, `"price": 4`, `"yield": "90%"`, `"yield": "0.9"`, `"at_least": "5.00"`, `"at_least": "5"`, `"1 ml"`, `"0.001 l"`}, ""},
		{
			"a supply put in before",
			[]string{`"supplies": [`, `"supplies": [{"id": "mat", "quantity": "1 board", "price": "2.00"}, `, `"40.00"`, `"44.00"`},
			`supplies["mat"] added supplies[0] (): → {"id":"mat","price":"2.00","quantity":"1 board"} *` + "\n" +
				`supplies["ink"].price changed supplies[2].price (supplies[1].price): 40.00 → 44.00 *`,
		},
		{
			"a fee dropped",
			[]string{`, {"name": "card", "rate": "2.1%", "fixed": "0.27"}`, ``},
			`channels["web"].fees["card"] removed  (channels[0].fees[1]): {"fixed":"0.27","name":"card","rate":"2.1%"} → *`,
		},
		{
			"a fee under another name",
			[]string{`"commission"`, `"share of sales"`},
			`channels["web"].fees["commission"].name changed channels[0].fees[0].name (): commission → share of sales *`,
		},
		{"a field added", []string{`"price": "4.00"`, `"price": "4.00", "freight": "0.50"`}, `supplies["paper"].freight added supplies[0].freight (): → 0.50 *`},
		{"a list of values", []string{`["10%", "5%"]`, `["10%", "8%"]`}, `channels["web"].trade_discount changed channels[0].trade_discount (): ["10%","5%"] → ["10%","8%"] *`},
		{"a packing list with a name", []string{`"0.5 sheet"`, `"0.6 sheet"`}, `products["heron"].packing["tube 2"]["paper"].quantity changed products[0].packing["tube 2"][0].quantity (): 0.5 sheet → 0.6 sheet *`},
		{"a packing list with a plain name", []string{`"0.4 sheet"`, `"0.3 sheet"`}, `products["heron"].packing.flat-2["paper"].quantity changed products[0].packing.flat-2[0].quantity (): 0.4 sheet → 0.3 sheet *`},
		{
			"the order of stages",
			[]string{`{"id": "print", "yield": "90%"}, {"id": "trim", "yield": "95%", "recovery": "1.00"}`, `{"id": "trim", "yield": "95%", "recovery": "1.00"}, {"id": "print", "yield": "90%"}`},
			`stages moved stages (): ["print","trim"] → ["trim","print"] *`,
		},
		{
			"the order of supplies",
			[]string{`{"id": "paper", "quantity": "1 sheet", "price": "4.00"}, {"id": "ink", "quantity": "80 ml", "price": "40.00"}`, `{"id": "ink", "quantity": "80 ml", "price": "40.00"}, {"id": "paper", "quantity": "1 sheet", "price": "4.00"}`},
			"",
		},
		{"today's price", []string{`"20.00"`, `"21.00"`}, `products["heron"].price changed products[0].price (): 20.00 → 21.00`},
		{"an ending", []string{`["0.50"]`, `["0.90"]`}, `rules["ends"].ends_in changed rules[1].ends_in (): ["0.50"] → ["0.90"]`},
		{"what is asked", []string{`"5.00"`, `"6.00"`}, `rules["keeps"].at_least changed rules[0].at_least (): 5.00 → 6.00 *`},
	} {
		t.Run(c.name, func(t *testing.T) {
			last, now := edited(t, larger), edited(t, larger, c.edits...)
			r := must(review.Compare(last, nil, now, quoin.Rate{}))(t)
			var got []string
			for _, one := range r.Changes {
				line := one.Input + " " + string(one.Kind) + " " + one.Path + " (" + one.OldPath + "): " + strings.TrimSpace(one.Old+" → "+one.New)
				if one.Floor {
					line += " *"
				}
				got = append(got, line)
			}
			if strings.Join(got, "\n") != c.want {
				t.Errorf("got\n%s\nwant\n%s", strings.Join(got, "\n"), c.want)
			}
			back := must(review.Compare(now, nil, last, quoin.Rate{}))(t)
			if len(back.Changes) != len(r.Changes) {
				t.Errorf("%d changes one way, %d the other", len(r.Changes), len(back.Changes))
			}
		})
	}
}
