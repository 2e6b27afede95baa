package schematest_test

import (
	"slices"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/fair"
	"example.com/quoin/channel/parcel"
	"example.com/quoin/channel/promo"
	"example.com/quoin/cost"
	"example.com/quoin/margin/edition"
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

// instead puts fields in the place of others.
func instead(old string) func(*testing.T, string) []byte {
	return func(t *testing.T, fields string) []byte { return changed(t, old, fields) }
}

// inChannel puts fields into the channel of the small document, inOrder into its first order,
// inFee into its fee and beside into the document itself.
func inChannel(t *testing.T, fields string) []byte {
	return changed(t, `"lost_parcels": "2%"`, `"lost_parcels": "2%", `+fields)
}

func inOrder(t *testing.T, fields string) []byte {
	return changed(t, `"items": 1}`, `"items": 1, `+fields+`}`)
}

func beside(t *testing.T, fields string) []byte {
	return changed(t, `"rules": [`, fields+`, "rules": [`)
}

func inFee(t *testing.T, fields string) []byte {
	return changed(t, `"of": ["items"]`, `"of": ["items"], `+fields)
}

// way is a document with fields, and the code of what is wrong with it, if anything.
type way struct {
	put    func(*testing.T, string) []byte
	fields string
	code   quoin.Code
}

const (
	box    = `"outside": {"length": "40 cm", "width": "30 cm", "height": "2 cm"}, "mass": "80 g", "holds": 5`
	priced = `"zones": [{"id": "home", "steps": [{"mass": "2 kg", "price": "4.00"}]}]`
	going  = `"channel": "shop", "mix": [{"product": "wren", "share": 1}], "prints": 20`
	limits = `"products": ["wren", "crane"], "size": 50`
)

// judged says what schema and decoder make of each.
func judged(t *testing.T, ways []way, look func(w way, v verdict)) {
	t.Helper()
	s := compiled(t, documentID, "")
	for _, w := range ways {
		v := judge(t, s, w.put(t, w.fields))
		if w.code != "" && !slices.ContainsFunc(v.engine, func(p quoin.Problem) bool { return p.Code == w.code }) {
			t.Errorf("%.90s: the decoder says %v, wanted %s", w.fields, v.engine, w.code)
		}
		if w.code == "" && len(v.engine) > 0 {
			t.Errorf("%.90s: the decoder says %v", w.fields, v.engine)
		}
		look(w, v)
	}
}

// What stands together, or in the place of something else, is refused by schema and decoder in
// the same place. What each field takes by itself TestFieldsAnywhere tries.
func TestFaultyForBoth(t *testing.T) {
	judged(t, []way{
		{instead(`"at_least": "2"`), `"at_least": "2", "asked_of": "worst"`, quoin.UnknownField},
		{instead(`"rule": "cost_multiple", `), ``, quoin.MissingField},
		{instead(`"cost_multiple"`), `"cost-multiple"`, rule.UnknownRule},
		{instead(`"cost_multiple"`), `7`, rule.UnknownRule},
		{instead(`["0.00", "0.50"]`), `[]`, quoin.EmptyList},
		{instead(`["wren", "crane"]`), `["wren"]`, pricelist.ShortLadder},
		{instead(`"products": ["wren", "crane"], `), `"products": ["wren", "crane"], "designs": ["reeds"], `, quoin.RivalFields},
		{instead(`"products": ["wren", "crane"], `), `"products": ["wren", "crane"], "order": "size", `, quoin.StrayTerms},
		{instead(`["wren", "crane"]`), `["wren", "wren"]`, quoin.DuplicateID},
		{inChannel, `"trade": {}, "consignment": {"commission": "40%"}`, quoin.RivalFields},
		{inChannel, `"trade": {}, "on_demand": {"pays": "royalty", "rate": "20%"}`, quoin.RivalFields},
		{inChannel, `"consignment": {"commission": "40%"}, "on_demand": {"pays": "royalty", "rate": "20%"}`, quoin.RivalFields},
		{inChannel, `"consignment": {"commission": "40%", "on_maker": "60%"}`, quoin.RivalFields},
		{inChannel, `"consignment": {"without_tax": true}`, quoin.MissingField},
		{inChannel, `"consignment": {"commission": "40%", "registered": ["maker", "maker"]}`, channel.RepeatedPart},
		{inChannel, `"price_points": {}`, channel.BadPricePoints},
		{inChannel, `"price_points": {"ends_in": []}`, channel.BadPricePoints},
		{inChannel, `"price_points": {"step": "0.50", "ends_in": ["0.95"]}`, channel.BadPricePoints},
		{inChannel, `"price_points": {"step": "0.50", "every": 1}`, channel.BadPricePoints},
		{inChannel, `"tariff": "post"`, quoin.MissingField},
		{inChannel, `"promotions": [{"id": "spring"}]`, promo.MissingDiscount},
		{inChannel, `"promotions": [{"id": "spring", "rate": "10%", "amount": 2}]`, promo.SeveralDiscounts},
		{inChannel, `"promotions": [{"id": "spring", "rate": "10%", "sale": 0}]`, promo.SeveralDiscounts},
		{inChannel, `"promotions": [{"id": "spring", "buy": 3}]`, promo.BadMultiBuy},
		{inChannel, `"promotions": [{"id": "spring", "free": 1}]`, promo.BadMultiBuy},
		{inChannel, `"promotions": [{"id": "spring", "price": 5}]`, promo.BadSet},
		{inFee, `"tiers": [{"from": 5}]`, quoin.MissingField},
		{beside, `"packings": [{"id": "box", ` + box + `}]`, quoin.MissingField},
		{beside, `"packings": [{"id": "box", "inside": "A3", "tube": "50 cm", ` + box + `}]`, quoin.RivalFields},
		{beside, `"packings": [{"id": "box", "tube": "50 cm", "depth": "3 cm", ` + box + `}]`, parcel.StrayDepth},
		{beside, `"tariffs": [{"id": "post", "zones": []}]`, quoin.EmptyList},
		{beside, `"tariffs": [{"id": "post", "zones": [{"id": "home", "steps": []}]}]`, quoin.EmptyList},
		{beside, `"sets": [{"id": "pair", "channel": "shop", "products": ["wren"]}]`, pricelist.SmallSet},
		{beside, `"sets": [{"id": "pair", "channel": "shop", "products": ["wren", "wren"]}]`, quoin.DuplicateID},
		{beside, `"fairs": [{"id": "quay", "channel": "shop", "mix": [], "prints": 3}]`, fair.MixNotOne},
		{beside, `"editions": [{"id": "marsh", "products": [], "size": 5}]`, quoin.EmptyList},
		{beside, `"editions": [{"id": "marsh", "sold": 3, "ledger": [{"number": 1, "state": "sold"}], ` + limits + `}]`, quoin.RivalFields},
		{beside, `"editions": [{"id": "marsh", "ledger": [{"number": 1, "proof": 1, "state": "sold"}], ` + limits + `}]`, quoin.RivalFields},
		{beside, `"editions": [{"id": "marsh", "ledger": [{"state": "sold"}], ` + limits + `}]`, quoin.MissingField},
		{beside, `"editions": [{"id": "marsh", "steps": [{"sold": 0, "times": 1, "price": 9}], ` + limits + `}]`, quoin.RivalFields},
		{beside, `"editions": [{"id": "marsh", "steps": [{"sold": 0}], ` + limits + `}]`, quoin.MissingField},
	}, func(w way, v verdict) {
		switch {
		case v.schema == nil:
			t.Errorf("%.90s: the schema takes it", w.fields)
		case len(v.engine) > 0 && !v.meet():
			t.Errorf("%.90s: the schema looks at %q, the decoder says %v", w.fields, v.places(), v.engine)
		}
	})
}

// Schema and decoder take these.
func TestSoundForBoth(t *testing.T) {
	judged(t, []way{
		{instead(`"rate": "2%"`), `"rate": 0, "tiers": [{"from": 0, "rate": 0.05}]`, ""},
		{instead(`"rate": "2%"`), `"tiers": [{"from": 0, "fixed": "1.50"}, {"from": "10.00", "rate": "2%", "fixed": 3}]`, ""},
		{instead(`"at_least": "2"`), `"at_least": 2, "products": [], "channels": ["shop"], "strength": "must"`, ""},
		{instead(`, "at_least": "1.1"`), ``, ""},
		{instead(`"at_least": "1.1"`), `"at_least": 0, "at_most": "1000"`, ""},
		{instead(`, "strength": "prefer"`), `, "every": 10`, ""},
		{instead(`"rules": [`), `"choose": "greatest", "rules": [`, ""},
		{instead(`"rules": [`), `"rules": [{"rule": "price", "id": "free"}, `, ""},
		{instead(`"rules": [`), `"rules": [{"id": "m", "at_most": "300%", "rule": "max_change"}, `, ""},
		{inChannel, `"trade": {}`, ""},
		{inChannel, `"trade": {"freight": "allowance", "allowance": "5%"}`, ""},
		{inChannel, `"consignment": {"commission": 0}`, ""},
		{inChannel, `"consignment": {"on_maker": "150%", "registered": ["shop"]}`, ""},
		{inChannel, `"price_points": {"step": "0.50"}`, ""},
		{inChannel, `"price_points": {"step": "0.50", "ends_in": []}`, ""},
		{inChannel, `"price_points": {"ends_in": ["0.95"]}`, ""},
		{inChannel, `"price_points": {"ends_in": [0, 5], "every": 10}`, ""},
		{inChannel, `"tariff": ""`, ""},
		{inChannel, `"promotions": []`, ""},
		{inChannel, `"promotions": [{"id": "spring", "rate": "100%"}, {"id": "gift", "sale": 0}]`, ""},
		{inChannel, `"promotions": [{"id": "pair", "price": 5, "products": ["wren", "crane"]}]`, ""},
		{inOrder, `"id": "", "codes": [], "zone": "", "reorder": false`, ""},
		{inOrder, `"id": "first", "free_from": "50.00", "free_test": "before"`, ""},
		{inFee, `"orders_together": 0.02, "expected": true, "orders": []`, ""},
		{beside, `"packings": [{"id": "box", "tube": "50 cm", ` + box + `}], "tariffs": [{"id": "post", ` + priced + `}]`, ""},
		{beside, `"sets": [{"id": "pair", "channel": "shop", "products": ["wren", "crane"], "alternatives": []}]`, ""},
		{beside, `"editions": [{"id": "marsh", "sold": 0, ` + limits + `}]`, ""},
		{beside, `"editions": [{"id": "marsh", "ledger": [], ` + limits + `}], "edition_limits": []`, ""},
	}, func(w way, v verdict) {
		if v.schema != nil {
			t.Errorf("%.90s: %v", w.fields, v.schema)
		}
	})
}

// What no schema can say is left to the engine: what fields mean together, and how a JSON
// number was written.
func TestOnlyTheEngineRefuses(t *testing.T) {
	judged(t, []way{
		{instead(`"currency": "EUR"`), `"currency": "EUR", "currency": "EUR"`, quoin.DuplicateField},
		{instead(`"EUR"`), `"ZZZ"`, quoin.UnknownCurrency},
		{instead(`"id": "up"`), `"id": "double"`, quoin.DuplicateID},
		{instead(`"supply": "ink"`), `"supply": "inc"`, quoin.UnknownID},
		{instead(`"stage": "pull"`), `"stage": "press"`, quoin.UnknownID},
		{instead(`"packing": "tube"`), `"packing": "box"`, quoin.UnknownID},
		{instead(`"product": "wren"`), `"product": "robin"`, quoin.UnknownID},
		{instead(`["wren", "crane"]`), `["wren", "robin"]`, quoin.UnknownID},
		{instead(`"2 ml"`), `"2 g"`, quoin.UnitMismatch},
		{instead(`"36.00"`), `"36.00", "discount": "36.01"`, cost.NegativeCost},
		{instead(`"share": "40%"`), `"share": "41%"`, channel.SharesNotOne},
		{instead(`, "items": 8`), ``, channel.NoItems},
		{instead(`"rate": "2%"`), `"rate": "2%", "tiers": [{"from": 0, "rate": "1%"}]`, channel.RateAndTiers},
		{instead(`"rate": "2%"`), `"tiers": [{"from": 5, "rate": 0}, {"from": 5, "rate": 0}]`, channel.UnsortedTiers},
		{instead(`"rate": "2%"`), `"rate": "97%"`, channel.FeesTakeAll},
		{instead(`"price_limit"`), `"price_step": "0.015", "price_limit"`, quoin.StepOffMinor},
		{instead(`"120.00"`), `"0.001"`, quoin.BadGrid},
		{instead(`"36.00"`), `36.000000001`, quoin.TooFine},
		{instead(`"90%"`), `0.12345678901234567`, quoin.TooFine},
		{instead(`"items": 3`), `"items": 3.0`, quoin.WrongType},
		{instead(`"items": 3`), `"items": 3e0`, quoin.WrongType},
		{instead(`"sold": 2`), `"sold": "9223372036854775808"`, quoin.WrongType},
		{instead(`"20 sheet"`), `"20 ` + strings.Repeat("ö", 17) + `"`, quoin.MissingUnit},
		{inChannel, `"promotions": [{"id": "spring", "buy": 3, "free": 3}]`, promo.BadMultiBuy},
		{inChannel, `"promotions": [{"id": "spring", "rate": 1}, {"id": "spring", "rate": 1}]`, quoin.DuplicateID},
		{inChannel, `"promotions": [{"id": "spring", "rate": 1, "products": ["robin"]}]`, quoin.UnknownID},
		{inChannel, `"price_points": {"ends_in": ["1.00"]}`, channel.BadPricePoints},
		{inChannel, `"price_points": {"step": "0.005"}`, quoin.StepOffMinor},
		{inChannel, `"foreign_currency": {"currency": "ZZZ", "rate": 1}`, quoin.UnknownCurrency},
		{inChannel, `"foreign_currency": {"currency": "USD", "rate": 1, "date": "2026-02-30"}`, quoin.BadDate},
		{inChannel, `"consignment": {"commission": "40%", "interest": "5%"}`, quoin.StrayTerms},
		{inChannel, `"on_demand": {"pays": "royalty"}`, quoin.StrayTerms},
		{inChannel, `"on_demand": {"pays": "above_base"}`, pricelist.NotPrinted},
		{inChannel, `"trade": {"allowance": "5%"}`, quoin.StrayTerms},
		{inOrder, `"codes": ["spring"]`, quoin.UnknownID},
		{inFee, `"orders": ["first"]`, quoin.UnknownID},
		{beside, `"sets": [{"id": "pair", "channel": "mail", "products": ["wren", "crane"]}]`, quoin.UnknownID},
		{beside, `"sets": [{"id": "pair", "channel": "shop", "products": ["wren", "crane"], "alternatives": [{"share": 1, "products": ["wren"]}, {"share": 1, "products": ["crane"]}]}]`, pricelist.AlternativesAboveOne},
		{beside, `"fairs": [{"id": "quay", "night": 60, ` + going + `}]`, fair.MissingNights},
		{beside, `"editions": [{"id": "marsh", "sold": 51, ` + limits + `}]`, edition.Oversold},
		{beside, `"editions": [{"id": "marsh", "ledger": [{"number": 1, "state": "sold"}, {"number": 1, "state": "kept"}], ` + limits + `}]`, edition.NumberTwice},
	}, func(w way, v verdict) {
		if v.schema != nil {
			t.Errorf("%.90s: the schema refuses it too now; it belongs to what is faulty for both: %v", w.fields, v.schema)
		}
	})
}

// The decoder takes a little more than is described, and the schema what is.
func TestOnlyTheSchemaRefuses(t *testing.T) {
	judged(t, []way{
		{instead(`"36.00"`), `"-0.00"`, ""},
		{instead(`"2%"`), `"-0%"`, ""},
		{instead(`"items": 3`), `"items": "+3"`, ""},
		{instead(`"20 sheet"`), `"20 \tsheet"`, ""},
	}, func(w way, v verdict) {
		if v.schema == nil {
			t.Errorf("%.90s: the schema takes it", w.fields)
		}
	})
}
