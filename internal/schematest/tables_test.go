package schematest_test

import (
	"errors"
	"slices"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/cost"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

// small is a sound document that the tables change.
const small = `{
  "version": 1,
  "currency": "EUR",
  "price_limit": "120.00",
  "supplies": [
    {"id": "card", "quantity": "20 sheet", "price": "36.00"},
    {"id": "ink", "quantity": "75 ml", "price": "40.00"}
  ],
  "stages": [{"id": "pull", "yield": "90%"}],
  "contingency": "3%",
  "products": [
    {"id": "wren", "bill": [{"supply": "card", "quantity": "0.5 sheet", "stage": "pull"}], "packing": {"tube": []}, "run": {"good": 25}},
    {"id": "crane", "price": "30.00", "bill": [{"supply": "ink", "quantity": "2 ml", "per": "item"}], "packing": {"tube": []}}
  ],
  "channels": [
    {"id": "shop", "packing": "tube", "lost_parcels": "2%", "trade_discount": ["10%"], "tax": {"rate": "10%", "in_price": true},
     "orders": [{"share": "60%", "items": 1}, {"share": "40%", "items": 3}],
     "fees": [{"name": "card", "rate": "2%", "of": ["items"]}],
     "fixed_cost": {"cost": "12.00", "items": 8}}
  ],
  "comparables": [{"product": "wren", "venue": "quay", "price": "15.00", "sold": 2}],
  "rules": [
    {"id": "double", "rule": "cost_multiple", "at_least": "2"},
    {"id": "up", "rule": "size_ratio", "products": ["wren", "crane"], "at_least": "1.1"},
    {"id": "round", "rule": "ending", "ends_in": ["0.00", "0.50"], "strength": "prefer"}
  ]
}`

func changed(t *testing.T, old, new string) []byte {
	t.Helper()
	if strings.Count(small, old) == 0 {
		t.Fatalf("the small document has no %s", old)
	}
	return []byte(strings.Replace(small, old, new, 1))
}

// Schema and decoder refuse these, in the same place.
func TestFaultyForBoth(t *testing.T) {
	s := compiled(t, documentID, "")
	many := func(n int, entry string) string { return strings.Repeat(entry+", ", n) + entry }
	for _, c := range []struct {
		old, new string
		code     quoin.Code
	}{
		{`"contingency"`, `"contingensy"`, quoin.UnknownField},
		{`"yield"`, `"yeild"`, quoin.UnknownField},
		{`"at_least": "2"`, `"at_least": "2", "asked_of": "worst"`, quoin.UnknownField},
		{`"at_least": "2"`, `"at_least": "2", "ends_in": ["0.00"]`, quoin.UnknownField},
		{`"version": 1,`, ``, quoin.MissingField},
		{`"currency": "EUR",`, ``, quoin.MissingField},
		{`"quantity": "75 ml", `, ``, quoin.MissingField},
		{`"good": 25`, `"tests": 1`, quoin.MissingField},
		{`"rule": "cost_multiple", `, ``, quoin.MissingField},
		{`, "at_least": "2"`, ``, quoin.MissingField},
		{`, "ends_in": ["0.00", "0.50"]`, ``, quoin.MissingField},
		{`"version": 1`, `"version": 2`, quoin.OutOfRange},
		{`"EUR"`, `978`, quoin.WrongType},
		{`"EUR"`, `"eur"`, quoin.UnknownCurrency},
		{`"36.00"`, `true`, quoin.WrongType},
		{`"36.00"`, `null`, quoin.WrongType},
		{`"36.00"`, `["36.00"]`, quoin.WrongType},
		{`"36.00"`, `"36,00"`, quoin.NotANumber},
		{`"36.00"`, `"NaN"`, quoin.NotANumber},
		{`"36.00"`, `"Infinity"`, quoin.NotANumber},
		{`"36.00"`, `"3.6e1"`, quoin.NotANumber},
		{`"36.00"`, `"€36"`, quoin.NotANumber},
		{`"36.00"`, `""`, quoin.NotANumber},
		{`"36.00"`, `"36."`, quoin.NotANumber},
		{`"36.00"`, `".36"`, quoin.NotANumber},
		{`"36.00"`, `"-36.00"`, quoin.OutOfRange},
		{`"36.00"`, `-36`, quoin.OutOfRange},
		{`"36.00"`, `"1234567890123"`, quoin.TooLarge},
		{`"36.00"`, `1e12`, quoin.TooLarge},
		{`"36.00"`, `"36.000000001"`, quoin.TooFine},
		{`"36.00"`, `"` + strings.Repeat("0", 65) + `"`, quoin.TooLong},
		{`"120.00"`, `"0.00"`, quoin.OutOfRange},
		{`"120.00"`, `0`, quoin.OutOfRange},
		{`"20 sheet"`, `20`, quoin.WrongType},
		{`"20 sheet"`, `"20"`, quoin.MissingUnit},
		{`"20 sheet"`, `"20 2up"`, quoin.MissingUnit},
		{`"20 sheet"`, `"20 sheet of card"`, quoin.MissingUnit},
		{`"20 sheet"`, `"20sheet"`, quoin.NotANumber},
		{`"20 sheet"`, `"sheet"`, quoin.NotANumber},
		{`"20 sheet"`, `"0 m2"`, quoin.OutOfRange},
		{`"20 sheet"`, `"-20 sheet"`, quoin.OutOfRange},
		{`"0.5 sheet"`, `"-0.5 sheet"`, quoin.OutOfRange},
		{`"90%"`, `"90"`, quoin.BarePercentage},
		{`"90%"`, `90`, quoin.BarePercentage},
		{`"90%"`, `"1.01"`, quoin.BarePercentage},
		{`"90%"`, `"101%"`, quoin.OutOfRange},
		{`"90%"`, `"0%"`, quoin.OutOfRange},
		{`"90%"`, `0`, quoin.OutOfRange},
		{`"90%"`, `"-10%"`, quoin.OutOfRange},
		{`"90%"`, `"ninety%"`, quoin.NotANumber},
		{`"3%"`, `"1000000%"`, quoin.TooLarge},
		{`"3%"`, `1.5`, quoin.BarePercentage},
		{`"lost_parcels": "2%"`, `"lost_parcels": "100%"`, quoin.OutOfRange},
		{`"lost_parcels": "2%"`, `"lost_parcels": "1.0"`, quoin.OutOfRange},
		{`"lost_parcels": "2%"`, `"lost_parcels": 1`, quoin.OutOfRange},
		{`["10%"]`, `["110%"]`, quoin.OutOfRange},
		{`["10%"]`, `"10%"`, quoin.WrongType},
		{`["10%"]`, `[` + many(12, `"1%"`) + `]`, quoin.TooMany},
		{`"stages": [`, `"stages": [` + many(50, `{"id": "x"}`) + `, `, quoin.TooMany},
		{`"in_price": true`, `"in_price": "true"`, quoin.WrongType},
		{`"items": 3`, `"items": 0`, quoin.OutOfRange},
		{`"items": 3`, `"items": 1000001`, quoin.OutOfRange},
		{`"items": 3`, `"items": "1000001"`, quoin.OutOfRange},
		{`"items": 3`, `"items": 3.5`, quoin.WrongType},
		{`"items": 3`, `"items": "three"`, quoin.WrongType},
		{`"items": 8`, `"items": 0`, quoin.OutOfRange},
		{`"good": 25`, `"good": 1000000001`, quoin.OutOfRange},
		{`"sold": 2`, `"sold": -1`, quoin.OutOfRange},
		{`"sold": 2`, `"sold": 9223372036854775808`, quoin.WrongType},
		{`"of": ["items"]`, `"of": ["item"]`, quoin.UnknownWord},
		{`"of": ["items"]`, `"of": ["items", "shipping", "tax", "discount", "items"]`, quoin.TooMany},
		{`"per": "item"`, `"per": "piece"`, quoin.UnknownWord},
		{`"prefer"`, `"wish"`, quoin.UnknownWord},
		{`"prefer"`, `""`, quoin.UnknownWord},
		{`"rules": [`, `"choose": "cheapest", "rules": [`, quoin.UnknownWord},
		{`"cost_multiple"`, `"cost-multiple"`, rule.UnknownRule},
		{`"cost_multiple"`, `7`, rule.UnknownRule},
		{`"name": "card"`, `"name": 5`, quoin.WrongType},
		{`{"tube": []}`, `{"tube": {}}`, quoin.WrongType},
		{`{"tube": []}`, `[]`, quoin.WrongType},
		{`{"good": 25}`, `25`, quoin.WrongType},
		{`"products": [`, `"products": [5, `, quoin.WrongType},
		{`"rules": [`, `"rules": [null, `, quoin.WrongType},
		{`["0.00", "0.50"]`, `[]`, quoin.EmptyList},
		{`["wren", "crane"]`, `["wren"]`, pricelist.ShortLadder},
		{`"products": ["wren", "crane"], `, `"products": ["wren", "crane"], "designs": ["reeds"], `, quoin.RivalFields},
		{`"products": ["wren", "crane"], `, `"products": ["wren", "crane"], "order": "size", `, quoin.StrayTerms},
		{`"products": ["wren", "crane"], `, `"order": "area", `, quoin.UnknownWord},
		{`["wren", "crane"]`, `["wren", "wren"]`, quoin.DuplicateID},
	} {
		v := judge(t, s, changed(t, c.old, c.new))
		if v.schema == nil {
			t.Errorf("%.60s for %s: the schema takes it", c.new, c.old)
		}
		if !slices.ContainsFunc(v.engine, func(p quoin.Problem) bool { return p.Code == c.code }) {
			t.Errorf("%.60s for %s: the decoder says %v, wanted %s", c.new, c.old, v.engine, c.code)
		}
		if v.schema != nil && len(v.engine) > 0 && !v.meet() {
			t.Errorf("%.60s for %s: the schema looks at %q, the decoder says %v", c.new, c.old, v.places(), v.engine)
		}
	}
}

// Schema and decoder take these.
func TestSoundForBoth(t *testing.T) {
	s := compiled(t, documentID, "")
	for _, c := range [][2]string{
		{`"version": 1`, `"version": "01"`},
		{`"36.00"`, `36`},
		{`"36.00"`, `36.5`},
		{`"36.00"`, `3.65e1`},
		{`"36.00"`, `0`},
		{`"36.00"`, `"0036.00"`},
		{`"36.00"`, `"999999999999.99999999"`},
		{`"36.00"`, `"36.00", "discount": "36.00", "exchange": 0.0001`},
		{`"20 sheet"`, `"20.000000000001 sheet"`},
		{`"20 sheet", "price"`, `"20 sheet", "name": "", "price"`},
		{`"0.5 sheet"`, `"0 sheet"`},
		{`"0.5 sheet"`, `" 0.5  sheet "`},
		{`"supplies": [`, `"supplies": [{"id": "unused", "quantity": "1 Bögen_2-x", "price": 1}, `},
		{`"2 ml"`, `"0.002 l"`},
		{`"90%"`, `"0.9"`},
		{`"90%"`, `0.9`},
		{`"90%"`, `9e-1`},
		{`"90%"`, `1`},
		{`"90%"`, `"100.00%"`},
		{`"90%"`, `"90 %"`},
		{`, "yield": "90%"`, ``},
		{`"3%"`, `"250%"`},
		{`"contingency": "3%",`, ``},
		{`"lost_parcels": "2%"`, `"lost_parcels": "99.9999%"`},
		{`["10%"]`, `[]`},
		{`["10%"]`, `["10%", 0.05, "0"]`},
		{`"items": 3`, `"items": "3"`},
		{`, "items": 3`, ``},
		{`"items": 8`, `"items": "7.5"`},
		{`"good": 25`, `"good": "0025", "tests": 0`},
		{`, "run": {"good": 25}`, ``},
		{`"tax": {"rate": "10%", "in_price": true},`, ``},
		{`"tax": {"rate": "10%", "in_price": true}`, `"tax": {}`},
		{`"fixed_cost": {"cost": "12.00", "items": 8}`, `"fixed_cost": {}`},
		{`"of": ["items"]`, `"of": []`},
		{`"fees": [{"name": "card", "rate": "2%", "of": ["items"]}],`, ``},
		{`"rate": "2%"`, `"rate": 0, "tiers": [{"from": 0, "rate": 0.05}]`},
		{`"rate": "2%"`, `"tiers": [{"from": 0, "fixed": "1.50"}, {"from": "10.00", "rate": "2%", "fixed": 3}]`},
		{`, "per": "item"`, ``},
		{`, "sold": 2`, ``},
		{`"sold": 2`, `"sold": 9223372036854775807`},
		{`"at_least": "2"`, `"at_least": 2, "products": [], "channels": ["shop"], "strength": "must"`},
		{`, "at_least": "1.1"`, ``},
		{`"at_least": "1.1"`, `"at_least": 0, "at_most": "1000"`},
		{`, "strength": "prefer"`, `, "every": 10`},
		{`"rules": [`, `"choose": "greatest", "rules": [`},
		{`"rules": [`, `"rules": [{"rule": "price", "id": "free"}, `},
		{`"rules": [`, `"rules": [{"id": "m", "at_most": "300%", "rule": "max_change"}, `},
	} {
		v := judge(t, s, changed(t, c[0], c[1]))
		if v.schema != nil {
			t.Errorf("%.60s for %s: %v", c[1], c[0], v.schema)
		}
		if len(v.engine) > 0 {
			t.Errorf("%.60s for %s: the decoder says %v", c[1], c[0], v.engine)
		}
	}
}

// What no schema can say is left to the engine: what fields mean together, and
// how a JSON number was written.
func TestOnlyTheEngineRefuses(t *testing.T) {
	s := compiled(t, documentID, "")
	for _, c := range []struct {
		old, new string
		code     quoin.Code
	}{
		{`"currency": "EUR"`, `"currency": "EUR", "currency": "EUR"`, quoin.DuplicateField},
		{`"EUR"`, `"ZZZ"`, quoin.UnknownCurrency},
		{`"id": "up"`, `"id": "double"`, quoin.DuplicateID},
		{`"supply": "ink"`, `"supply": "inc"`, quoin.UnknownID},
		{`"stage": "pull"`, `"stage": "press"`, quoin.UnknownID},
		{`"packing": "tube"`, `"packing": "box"`, quoin.UnknownID},
		{`"product": "wren"`, `"product": "robin"`, quoin.UnknownID},
		{`["wren", "crane"]`, `["wren", "robin"]`, quoin.UnknownID},
		{`"2 ml"`, `"2 g"`, quoin.UnitMismatch},
		{`"36.00"`, `"36.00", "discount": "36.01"`, cost.NegativeCost},
		{`"share": "40%"`, `"share": "41%"`, channel.SharesNotOne},
		{`, "items": 8`, ``, channel.NoItems},
		{`"rate": "2%"`, `"rate": "2%", "tiers": [{"from": 0, "rate": "1%"}]`, channel.RateAndTiers},
		{`"rate": "2%"`, `"tiers": [{"from": 5, "rate": 0}, {"from": 5, "rate": 0}]`, channel.UnsortedTiers},
		{`"rate": "2%"`, `"rate": "97%"`, channel.FeesTakeAll},
		{`"price_limit"`, `"price_step": "0.015", "price_limit"`, quoin.StepOffMinor},
		{`"120.00"`, `"0.001"`, quoin.BadGrid},
		{`"36.00"`, `36.000000001`, quoin.TooFine},
		{`"90%"`, `0.12345678901234567`, quoin.TooFine},
		{`"items": 3`, `"items": 3.0`, quoin.WrongType},
		{`"items": 3`, `"items": 3e0`, quoin.WrongType},
		{`"sold": 2`, `"sold": "9223372036854775808"`, quoin.WrongType},
		{`"20 sheet"`, `"20 ` + strings.Repeat("ö", 17) + `"`, quoin.MissingUnit},
	} {
		v := judge(t, s, changed(t, c.old, c.new))
		if v.schema != nil {
			t.Errorf("%s for %s: the schema refuses it too now; it belongs to what is faulty for both: %v", c.new, c.old, v.schema)
		}
		if !slices.ContainsFunc(v.engine, func(p quoin.Problem) bool { return p.Code == c.code }) {
			t.Errorf("%s for %s: the decoder says %v, wanted %s", c.new, c.old, v.engine, c.code)
		}
	}
}

// The decoder takes a little more than is described, and the schema what is.
func TestOnlyTheSchemaRefuses(t *testing.T) {
	s := compiled(t, documentID, "")
	for _, c := range [][2]string{
		{`"36.00"`, `"-0.00"`},
		{`"2%"`, `"-0%"`},
		{`"items": 3`, `"items": "+3"`},
		{`"20 sheet"`, `"20 \tsheet"`},
	} {
		v := judge(t, s, changed(t, c[0], c[1]))
		if v.schema == nil {
			t.Errorf("%s for %s: the schema takes it", c[1], c[0])
		}
		if len(v.engine) > 0 {
			t.Errorf("%s for %s: the decoder refuses it too; it belongs to what is faulty for both: %v", c[1], c[0], v.engine)
		}
	}
}

// A name that must be given is not given by leaving it empty: the schema says
// so, and the engine at the latest when it checks what was decoded.
func TestEmptyNames(t *testing.T) {
	s := compiled(t, documentID, "")
	for _, c := range [][2]string{
		{`"id": "double"`, `"id": ""`},
		{`"id": "shop"`, `"id": ""`},
		{`"supply": "ink"`, `"supply": ""`},
		{`"product": "wren"`, `"product": ""`},
		{`"venue": "quay"`, `"venue": ""`},
	} {
		text := changed(t, c[0], c[1])
		if judge(t, s, text).schema == nil {
			t.Errorf("%s: the schema takes it", c[1])
		}
		doc, err := pricelist.Decode(text)
		if err == nil {
			err = doc.Check()
		}
		var ps quoin.Problems
		if !errors.As(err, &ps) || ps[0].Code != quoin.MissingField {
			t.Errorf("%s: the engine says %v", c[1], err)
		}
	}
}
