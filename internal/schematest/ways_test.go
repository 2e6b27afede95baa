package schematest_test

import (
	"slices"
	"testing"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/fair"
	"example.com/quoin/channel/parcel"
	"example.com/quoin/channel/promo"
	"example.com/quoin/margin/edition"
	"example.com/quoin/margin/pricelist"
)

// inChannel puts fields into the channel of the small document, inOrder into its
// first order, inTax into its tax and beside into the document itself.
func inChannel(t *testing.T, fields string) []byte {
	return changed(t, `"lost_parcels": "2%"`, `"lost_parcels": "2%", `+fields)
}

func inOrder(t *testing.T, fields string) []byte {
	return changed(t, `"items": 1}`, `"items": 1, `+fields+`}`)
}

func inTax(t *testing.T, fields string) []byte {
	return changed(t, `"in_price": true`, `"in_price": true, `+fields)
}

func beside(t *testing.T, fields string) []byte {
	return changed(t, `"rules": [`, fields+`, "rules": [`)
}

func inFee(t *testing.T, fields string) []byte {
	return changed(t, `"of": ["items"]`, `"of": ["items"], `+fields)
}

func inProduct(t *testing.T, fields string) []byte {
	return changed(t, `"id": "wren", "bill"`, `"id": "wren", `+fields+`, "bill"`)
}

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

// Schema and decoder refuse these ways of selling, in the same place.
func TestFaultyWaysForBoth(t *testing.T) {
	s := compiled(t, documentID, "")
	for _, c := range []way{
		{inChannel, `"trade": {}, "consignment": {"commission": "40%"}`, quoin.RivalFields},
		{inChannel, `"trade": {}, "on_demand": {"pays": "royalty", "rate": "20%"}`, quoin.RivalFields},
		{inChannel, `"consignment": {"commission": "40%"}, "on_demand": {"pays": "royalty", "rate": "20%"}`, quoin.RivalFields},
		{inChannel, `"consignment": {"commission": "40%", "on_maker": "60%"}`, quoin.RivalFields},
		{inChannel, `"consignment": {"without_tax": true}`, quoin.MissingField},
		{inChannel, `"consignment": {"commission": "40%", "registered": ["maker", "maker"]}`, channel.RepeatedPart},
		{inChannel, `"consignment": {"commission": "40%", "registered": ["buyer"]}`, quoin.UnknownWord},
		{inChannel, `"consignment": {"commission": "40%", "discount": {"rate": "100%"}}`, quoin.OutOfRange},
		{inChannel, `"consignment": {"commission": "40%", "discount": {"rate": "10%", "borne": "both"}}`, quoin.UnknownWord},
		{inChannel, `"on_demand": {"rate": "20%"}`, quoin.MissingField},
		{inChannel, `"on_demand": {"pays": "margin"}`, quoin.UnknownWord},
		{inChannel, `"on_demand": {"pays": "flat_fee", "sizes": [{"flat": 2}]}`, quoin.MissingField},
		{inChannel, `"trade": {"case": 0}`, quoin.OutOfRange},
		{inChannel, `"trade": {"freight": "paid"}`, quoin.UnknownWord},
		{inChannel, `"trade": {"credit": {"days": 1001}}`, quoin.OutOfRange},
		{inChannel, `"trade": {"credit": {"early": 1, "early_days": 10}}`, quoin.OutOfRange},
		{inChannel, `"trade": {"terms": 30}`, quoin.UnknownField},
		{inChannel, `"price_points": {}`, channel.BadTag},
		{inChannel, `"price_points": {"ends_in": []}`, channel.BadTag},
		{inChannel, `"price_points": {"step": "0.50", "ends_in": ["0.95"]}`, channel.BadTag},
		{inChannel, `"price_points": {"step": "0.50", "every": 1}`, channel.BadTag},
		{inChannel, `"price_points": {"step": 0}`, quoin.OutOfRange},
		{inChannel, `"foreign_currency": {"currency": "USD"}`, quoin.MissingField},
		{inChannel, `"foreign_currency": {"currency": "usd", "rate": "0.9"}`, quoin.UnknownCurrency},
		{inChannel, `"foreign_currency": {"currency": "USD", "rate": 0}`, quoin.OutOfRange},
		{inChannel, `"foreign_currency": {"currency": "USD", "rate": "0.9", "date": "1 March"}`, quoin.BadDate},
		{inChannel, `"returns": {}`, quoin.MissingField},
		{inChannel, `"returns": {"returned": "101%"}`, quoin.OutOfRange},
		{inChannel, `"tariff": "post"`, quoin.MissingField},
		{inChannel, `"promotions": [{"id": "spring"}]`, promo.MissingDiscount},
		{inChannel, `"promotions": [{"id": "spring", "rate": "10%", "amount": 2}]`, promo.SeveralDiscounts},
		{inChannel, `"promotions": [{"id": "spring", "rate": "10%", "sale": 0}]`, promo.SeveralDiscounts},
		{inChannel, `"promotions": [{"id": "spring", "buy": 3}]`, promo.BadMultiBuy},
		{inChannel, `"promotions": [{"id": "spring", "free": 1}]`, promo.BadMultiBuy},
		{inChannel, `"promotions": [{"id": "spring", "buy": 1, "free": 1}]`, quoin.OutOfRange},
		{inChannel, `"promotions": [{"id": "spring", "price": 5}]`, promo.BadSet},
		{inChannel, `"promotions": [{"id": "spring", "rate": 0}]`, quoin.OutOfRange},
		{inChannel, `"promotions": [{"id": "spring", "rate": 1, "test": "later"}]`, quoin.UnknownWord},
		{inOrder, `"free_test": "during"`, quoin.UnknownWord},
		{inOrder, `"reorder": "yes"`, quoin.WrongType},
		{inOrder, `"codes": "spring"`, quoin.WrongType},
		{inTax, `"constant": "both"`, quoin.UnknownWord},
		{inFee, `"orders_together": 0`, quoin.OutOfRange},
		{inFee, `"orders": "first"`, quoin.WrongType},
		{inFee, `"tiers": [{"from": 5}]`, quoin.MissingField},
		{inFee, `"tiers": [{"fixed": 1}]`, quoin.MissingField},
		{inFee, `"tiers": [{"from": 5, "fixed": -1}]`, quoin.OutOfRange},
		{inProduct, `"mass": "0 g"`, quoin.OutOfRange},
		{inProduct, `"mass": "3 sheet"`, quoin.UnitMismatch},
		{inProduct, `"thickness": "3 g"`, quoin.UnitMismatch},
		{beside, `"what_if_board": {"thickness": "2 mm"}`, quoin.MissingField},
		{beside, `"packings": [{"id": "box", ` + box + `}]`, quoin.MissingField},
		{beside, `"packings": [{"id": "box", "inside": "A3", "tube": "50 cm", ` + box + `}]`, quoin.RivalFields},
		{beside, `"packings": [{"id": "box", "tube": "50 cm", "depth": "3 cm", ` + box + `}]`, parcel.StrayDepth},
		{beside, `"packings": [{"id": "box", "inside": "A3", "mass": "80 g", "holds": 5, "outside": {"length": "1 m"}}]`, quoin.MissingField},
		{beside, `"tariffs": [{"id": "post"}]`, quoin.MissingField},
		{beside, `"tariffs": [{"id": "post", "zones": []}]`, quoin.EmptyList},
		{beside, `"tariffs": [{"id": "post", "zones": [{"id": "home", "steps": []}]}]`, quoin.EmptyList},
		{beside, `"tariffs": [{"id": "post", ` + priced + `, "dimensional": {"divisor": 5000, "length": "kg", "mass": "kg"}}]`, quoin.UnitMismatch},
		{beside, `"tariffs": [{"id": "post", ` + priced + `, "dimensional": {"divisor": 5000, "length": "cm", "mass": "kg", "sides": "whole"}}]`, quoin.UnknownWord},
		{beside, `"sets": [{"id": "pair", "channel": "shop", "products": ["wren"]}]`, pricelist.SmallSet},
		{beside, `"sets": [{"id": "pair", "channel": "shop", "products": ["wren", "wren"]}]`, quoin.DuplicateID},
		{beside, `"sets": [{"id": "pair", "channel": "shop", "products": ["wren", "crane"], "alternatives": [{"share": 0, "products": ["wren"]}]}]`, quoin.OutOfRange},
		{beside, `"fairs": [{"id": "quay", "channel": "shop", "mix": [{"product": "wren", "share": 1}]}]`, quoin.MissingField},
		{beside, `"fairs": [{"id": "quay", "channel": "shop", "mix": [], "prints": 3}]`, fair.MixNotOne},
		{beside, `"fairs": [{"id": "quay", "chance": 0, ` + going + `}]`, quoin.OutOfRange},
		{beside, `"fairs": [{"id": "quay", "nights": 366, ` + going + `}]`, quoin.OutOfRange},
		{beside, `"fairs": [{"id": "quay", "commission": 0.1, "commission_of": "takings", ` + going + `}]`, quoin.UnknownWord},
		{beside, `"editions": [{"id": "marsh", "products": ["wren"], "size": 0}]`, quoin.OutOfRange},
		{beside, `"editions": [{"id": "marsh", "products": [], "size": 5}]`, quoin.EmptyList},
		{beside, `"editions": [{"id": "marsh", "sold": 3, "ledger": [{"number": 1, "state": "sold"}], ` + limits + `}]`, quoin.RivalFields},
		{beside, `"editions": [{"id": "marsh", "ledger": [{"number": 1, "proof": 1, "state": "sold"}], ` + limits + `}]`, quoin.RivalFields},
		{beside, `"editions": [{"id": "marsh", "ledger": [{"state": "sold"}], ` + limits + `}]`, quoin.MissingField},
		{beside, `"editions": [{"id": "marsh", "ledger": [{"number": 1, "state": "given"}], ` + limits + `}]`, quoin.UnknownWord},
		{beside, `"editions": [{"id": "marsh", "steps": [{"sold": 0, "times": 1, "price": 9}], ` + limits + `}]`, quoin.RivalFields},
		{beside, `"editions": [{"id": "marsh", "steps": [{"sold": 0}], ` + limits + `}]`, quoin.MissingField},
		{beside, `"edition_limits": [{"name": "original"}]`, quoin.MissingField},
		{beside, `"edition_limits": [{"name": "original", "at_most": -1}]`, quoin.OutOfRange},
	} {
		v := judge(t, s, c.put(t, c.fields))
		if v.schema == nil {
			t.Errorf("%s: the schema takes it", c.fields)
		}
		if !slices.ContainsFunc(v.engine, func(p quoin.Problem) bool { return p.Code == c.code }) {
			t.Errorf("%s: the decoder says %v, wanted %s", c.fields, v.engine, c.code)
		}
		if v.schema != nil && len(v.engine) > 0 && !v.meet() {
			t.Errorf("%s: the schema looks at %q, the decoder says %v", c.fields, v.places(), v.engine)
		}
	}
}

// Schema and decoder take these.
func TestSoundWaysForBoth(t *testing.T) {
	s := compiled(t, documentID, "")
	for _, c := range []way{
		{put: inChannel, fields: `"trade": {}`},
		{put: inChannel, fields: `"trade": {"credit": {}, "case": "6"}`},
		{put: inChannel, fields: `"trade": {"freight": "allowance", "allowance": "5%"}`},
		{put: inChannel, fields: `"consignment": {"commission": 0}`},
		{put: inChannel, fields: `"consignment": {"on_maker": "150%", "registered": ["shop"]}`},
		{put: inChannel, fields: `"consignment": {"commission": "40%", "discount": {"borne": "forbidden"}}`},
		{put: inChannel, fields: `"on_demand": {"pays": "royalty", "rate": "20%"}`},
		{put: inChannel, fields: `"price_points": {"step": "0.50"}`},
		{put: inChannel, fields: `"price_points": {"step": "0.50", "ends_in": []}`},
		{put: inChannel, fields: `"price_points": {"ends_in": ["0.95"]}`},
		{put: inChannel, fields: `"price_points": {"ends_in": [0, 5], "every": 10}`},
		{put: inChannel, fields: `"foreign_currency": {"currency": "JPY", "rate": "0.006"}`},
		{put: inChannel, fields: `"foreign_currency": {"currency": "USD", "rate": 0.92, "date": ""}`},
		{put: inChannel, fields: `"returns": {"returned": 0}`},
		{put: inChannel, fields: `"tariff": ""`},
		{put: inChannel, fields: `"promotions": []`},
		{put: inChannel, fields: `"promotions": [{"id": "spring", "rate": "100%"}, {"id": "gift", "sale": 0}]`},
		{put: inChannel, fields: `"promotions": [{"id": "pair", "price": 5, "products": ["wren", "crane"]}]`},
		{put: inOrder, fields: `"id": "", "codes": [], "zone": "", "reorder": false`},
		{put: inOrder, fields: `"id": "first", "free_from": "50.00", "free_test": "before"`},
		{put: inTax, fields: `"constant": "net"`},
		{put: inFee, fields: `"orders_together": 0.02, "expected": true, "orders": []`},
		{put: inProduct, fields: `"mass": "0.5 oz", "thickness": "1 mm"`},
		{put: beside, fields: `"what_if_board": {"mass": "0 g"}`},
		{put: beside, fields: `"packings": [{"id": "box", "tube": "50 cm", ` + box + `}], "tariffs": [{"id": "post", ` + priced + `}]`},
		{put: beside, fields: `"sets": [{"id": "pair", "channel": "shop", "products": ["wren", "crane"], "alternatives": []}]`},
		{put: beside, fields: `"fairs": [{"id": "quay", "nights": "0", "chance": 1, ` + going + `}]`},
		{put: beside, fields: `"editions": [{"id": "marsh", "sold": 0, ` + limits + `}]`},
		{put: beside, fields: `"editions": [{"id": "marsh", "ledger": [], ` + limits + `}], "edition_limits": []`},
	} {
		v := judge(t, s, c.put(t, c.fields))
		if v.schema != nil {
			t.Errorf("%s: %v", c.fields, v.schema)
		}
		if len(v.engine) > 0 {
			t.Errorf("%s: the decoder says %v", c.fields, v.engine)
		}
	}
}

// What fields of ways of selling mean together is left to the engine.
func TestOnlyTheEngineRefusesWays(t *testing.T) {
	s := compiled(t, documentID, "")
	for _, c := range []way{
		{inChannel, `"promotions": [{"id": "spring", "buy": 3, "free": 3}]`, promo.BadMultiBuy},
		{inChannel, `"promotions": [{"id": "spring", "rate": 1}, {"id": "spring", "rate": 1}]`, quoin.DuplicateID},
		{inChannel, `"promotions": [{"id": "spring", "rate": 1, "products": ["robin"]}]`, quoin.UnknownID},
		{inChannel, `"price_points": {"ends_in": ["1.00"]}`, channel.BadTag},
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
		{beside, `"sets": [{"id": "pair", "channel": "shop", "products": ["wren", "crane"], "alternatives": [{"share": 1, "products": ["wren"]}, {"share": 1, "products": ["crane"]}]}]`, pricelist.ApartNotOne},
		{beside, `"fairs": [{"id": "quay", "night": 60, ` + going + `}]`, fair.MissingNights},
		{beside, `"editions": [{"id": "marsh", "sold": 51, ` + limits + `}]`, edition.Oversold},
		{beside, `"editions": [{"id": "marsh", "ledger": [{"number": 1, "state": "sold"}, {"number": 1, "state": "kept"}], ` + limits + `}]`, edition.NumberTwice},
	} {
		v := judge(t, s, c.put(t, c.fields))
		if v.schema != nil {
			t.Errorf("%s: the schema refuses it too now; it belongs to what is faulty for both: %v", c.fields, v.schema)
		}
		if !slices.ContainsFunc(v.engine, func(p quoin.Problem) bool { return p.Code == c.code }) {
			t.Errorf("%s: the decoder says %v, wanted %s", c.fields, v.engine, c.code)
		}
	}
}
