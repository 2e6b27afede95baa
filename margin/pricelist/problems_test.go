package pricelist_test

import (
	"errors"
	"runtime"
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

// sound is a small document without a fault; the tests below break it.
const sound = `{
  "version": 1,
  "currency": "EUR",
  "price_limit": "100.00",
  "supplies": [
    {"id": "paper", "quantity": "50 sheet", "price": "60.00"},
    {"id": "ink", "quantity": "80 ml", "price": "46.00"}
  ],
  "stages": [{"id": "print", "yield": "92%"}],
  "products": [
    {"id": "bittern-a5", "bill": [{"supply": "paper", "quantity": "0.25 sheet", "stage": "print"}], "packing": {"parcel": []}},
    {"id": "bittern-a4", "bill": [{"supply": "ink", "quantity": "0.9 ml"}], "packing": {"parcel": []}, "run": {"good": 20}}
  ],
  "channels": [
    {"id": "shop", "packing": "parcel", "tax": {"rate": "20%", "in_price": true},
     "orders": [{"share": "75%"}, {"share": "25%", "items": 2}],
     "fees": [{"name": "commission", "rate": "7.4%"}],
     "fixed_cost": {"cost": "29.00", "items": 30}}
  ],
  "comparables": [{"product": "bittern-a5", "venue": "market", "price": "14.00", "sold": 3}],
  "rules": [
    {"id": "multiple", "rule": "cost_multiple", "at_least": "3.5"},
    {"id": "ladder", "rule": "size_ratio", "products": ["bittern-a5", "bittern-a4"], "at_least": "1.2"}
  ]
}`

// soundWays is another, which sells in every way.
const soundWays = `{
  "version": 1,
  "currency": "EUR",
  "price_limit": "200.00",
  "supplies": [{"id": "paper", "quantity": "50 sheet", "price": "60.00"}],
  "products": [
    {"id": "bittern", "sheet": "210 x 297 mm", "mass": "20 g", "bill": [{"supply": "paper", "quantity": "0.25 sheet"}], "packing": {"envelope": []}},
    {"id": "snipe", "sheet": "148 x 210 mm", "mass": "12 g", "bill": [{"supply": "paper", "quantity": "0.125 sheet"}], "packing": {"envelope": []}}
  ],
  "channels": [
    {"id": "shop", "tariff": "post", "price_points": {"step": "0.50"}, "returns": {"returned": "2%"},
     "orders": [{"id": "one", "share": "75%", "zone": "home"}, {"id": "two", "share": "25%", "items": 2, "zone": "home", "codes": ["spring", "trio"]}],
     "fees": [{"name": "card payment", "rate": "2%", "orders": ["one"]}],
     "promotions": [{"id": "spring", "rate": "10%"}, {"id": "trio", "buy": 3, "free": 1, "products": ["bittern"]}]},
    {"id": "abroad", "foreign_currency": {"currency": "JPY", "rate": "0.0061", "date": "2026-03-01"}, "price_points": {"ends_in": [80], "every": 100}},
    {"id": "shops", "trade_discount": ["50%"], "orders": [{"items": 10, "postage": "6.90"}],
     "trade": {"freight": "added", "free_from": "300.00", "credit": {"days": 30, "interest": "8%", "early": "2%", "early_days": 10, "taken": "50%"}}},
    {"id": "gallery", "consignment": {"commission": "40%", "discount": {"rate": "10%", "borne": "shop"}, "registered": ["shop"], "days": 30, "interest": "8%"}},
    {"id": "house", "on_demand": {"pays": "share_of_rest", "rate": "60%", "sizes": [{"product": "bittern", "base": "9.00"}, {"product": "snipe", "base": "7.00"}]}},
    {"id": "stall"}
  ],
  "packings": [{"id": "envelope", "inside": "240 x 330 mm", "holds": 5, "mass": "90 g", "outside": {"length": "350 mm", "width": "250 mm", "height": "10 mm"}}],
  "tariffs": [{"id": "post", "zones": [{"id": "home", "steps": [{"mass": "500 g", "price": "2.90"}]}]}],
  "sets": [{"id": "pair", "channel": "stall", "products": ["bittern", "snipe"], "alternatives": [{"share": "60%", "products": ["bittern"]}]}],
  "fairs": [{"id": "spring fair", "channel": "stall", "stand": "120.00", "mix": [{"product": "bittern", "share": "60%"}, {"product": "snipe", "share": "40%"}], "prints": 30}],
  "editions": [{"id": "reeds", "products": ["bittern"], "size": 40, "ledger": [{"number": 1, "state": "sold"}]}],
  "rules": [{"id": "multiple", "rule": "cost_multiple", "at_least": "12"}]
}`

func TestSoundDocument(t *testing.T) {
	for _, doc := range []string{sound, soundWays} {
		if _, err := pricelist.Price([]byte(doc)); err != nil {
			t.Fatalf("a document that the tests break is broken: %v", err)
		}
	}
}

// broken is a break of a sound document, and the one problem that it gives.
type broken struct {
	old, new string
	code     quoin.Code
	path     string
	says     string // part of the sentence
}

func (c broken) check(t *testing.T, sound string) {
	t.Helper()
	if strings.Count(sound, c.old) < 1 {
		t.Fatalf("the sound document has no %s", c.old)
	}
	_, err := pricelist.Decode([]byte(strings.Replace(sound, c.old, c.new, 1)))
	var ps quoin.Problems
	if !errors.As(err, &ps) {
		t.Errorf("%s for %.40s: found no problem, wanted %s", c.old, c.new, c.code)
		return
	}
	if len(ps) != 1 || ps[0].Code != c.code || ps[0].Path != c.path || !strings.Contains(ps[0].Error(), c.says) || ps[0].Line == 0 {
		t.Errorf("%.40s for %s:\n%.400v\nwanted %s at %s, saying %q, with its line", c.new, c.old, err, c.code, c.path, c.says)
	}
}

// Each break of a sound document gives exactly one problem, where it is.
func TestProblems(t *testing.T) {
	long := strings.Repeat("9", 10_000_000)
	for _, c := range []broken{
		{`"supplies"`, `"suplies": [], "supplies"`, quoin.UnknownField, "suplies", "did you mean supplies?"},
		{`"at_least": "3.5"`, `"atleast": 1, "at_least": "3.5"`, quoin.UnknownField, "rules[0].atleast", "did you mean at_least?"},
		{`"currency": "EUR"`, `"currency": "EUR", "currency": "USD"`, quoin.DuplicateField, "currency", "again"},
		{`"at_least": "3.5"`, `"products": []`, quoin.MissingField, "rules[0].at_least", "wanted the field at_least"},
		{`"version": 1,`, ``, quoin.MissingField, "version", "wanted the field version"},
		{`"version": 1`, `"version": 2`, quoin.OutOfRange, "version", "of 1"},
		{`"EUR"`, `"ERU"`, quoin.UnknownCurrency, "currency", "did you mean EUR?"},
		{`"EUR"`, `7`, quoin.WrongType, "currency", "found 7, wanted an ISO 4217"},
		{`"price": "14.00", "sold": 3`, `"price": "0.00", "sold": 3`, quoin.OutOfRange, "comparables[0].price", "above 0"},
		{`"60.00"`, `"60,00"`, quoin.NotANumber, "supplies[0].price", "point, not a comma"},
		{`"60.00"`, `"NaN"`, quoin.NotANumber, "supplies[0].price", "found \"NaN\""},
		{`"60.00"`, `"-Infinity"`, quoin.NotANumber, "supplies[0].price", "wanted an amount"},
		{`"60.00"`, `1e999999`, quoin.TooLarge, "supplies[0].price", "at most 12 digits before"},
		{`"60.00"`, `1e-999999`, quoin.TooFine, "supplies[0].price", "at most 8 digits after"},
		{`"60.00"`, `1234567890123`, quoin.TooLarge, "supplies[0].price", ""},
		{`"60.00"`, `"` + long + `"`, quoin.TooLong, "supplies[0].price", "10000000 bytes"},
		{`"60.00"`, `"-60.00"`, quoin.OutOfRange, "supplies[0].price", "at least 0"},
		{`"60.00"`, `true`, quoin.WrongType, "supplies[0].price", "wanted an amount"},
		{`"60.00"`, `null`, quoin.WrongType, "supplies[0].price", "null"},
		{`"60.00"`, `"60.00", "discount": "60.01"`, cost.NegativeCost, "supplies[0].discount", "at most price, freight and duty"},
		{`"60.00"`, `"60.00", "exchange": 0`, quoin.OutOfRange, "supplies[0].exchange", "above 0"},
		{`"50 sheet"`, `"50"`, quoin.MissingUnit, "supplies[0].quantity", "unit word"},
		{`"50 sheet"`, `"0 sheet"`, quoin.OutOfRange, "supplies[0].quantity", "above 0"},
		{`"0.9 ml"`, `"0.9 g"`, quoin.UnitMismatch, "products[1].bill[0].quantity", "a volume"},
		{`"0.25 sheet"`, `"0.25 shets"`, quoin.UnitMismatch, "products[0].bill[0].quantity", "did you mean sheet?"},
		{`"0.9 ml"`, `"0.9 fl oz"`, quoin.Ambiguous, "products[1].bill[0].quantity", "wanted us_fl_oz, which is 29.5735 ml, or imp_fl_oz, which is 28.4131 ml"},
		{`"0.9 ml"`, `"0.9 oz"`, quoin.UnitMismatch, "products[1].bill[0].quantity", "oz is a mass"},
		{`"0.9 ml"`, `"0.9 litter"`, quoin.UnitMismatch, "products[1].bill[0].quantity", "did you mean l?"},
		{`"0.9 ml"`, `"1 1/2 3 ml"`, quoin.Ambiguous, "products[1].bill[0].quantity", "one number, 1 1/2 or 3"},
		{`"92%"`, `"92"`, quoin.BarePercentage, "stages[0].yield", "write 92%"},
		{`"92%"`, `0`, quoin.OutOfRange, "stages[0].yield", "above 0% and at most 100%"},
		{`"92%"`, `"101%"`, quoin.OutOfRange, "stages[0].yield", "above 0% and at most 100%"},
		{`"7.4%"`, `7.4`, quoin.BarePercentage, "channels[0].fees[0].rate", "write 7.4%"},
		{`"7.4%"`, `"84%"`, channel.FeesTakeAll, "channels[0].fees", "grow at least as fast"},
		{`"7.4%"`, `"7.4%", "of": ["item"]`, quoin.UnknownWord, "channels[0].fees[0].of[0]", "did you mean items?"},
		{`"7.4%"`, `"7.4%", "rounding": "halfup"`, quoin.UnknownWord, "channels[0].fees[0].rounding", "did you mean half_up?"},
		{`"7.4%"`, `"7.4%", "tiers": [{"from": 0, "rate": "5%"}]`, channel.RateAndTiers, "channels[0].fees[0].rate", "beside tiers"},
		{`"rate": "7.4%"`, `"tiers": [{"from": 9, "rate": "5%"}, {"from": 8, "rate": "4%"}]`, channel.UnsortedTiers, "channels[0].fees[0].tiers[1].from", "8 after 9"},
		{`"rate": "7.4%"`, `"tiers": [{"from": 9, "fixed": 1}, {"from": 12}]`, quoin.MissingField, "channels[0].fees[0].tiers[1].rate", "the field rate or fixed, or both"},
		{`"rate": "7.4%"`, `"tiers": [{"from": 9, "fixed": "-1.00"}]`, quoin.OutOfRange, "channels[0].fees[0].tiers[0].fixed", "at least 0"},
		{`"in_price": true`, `"in_price": true, "per": "item"`, quoin.UnknownWord, "channels[0].tax.per", "one of order, line, unit"},
		{`"in_price": true`, `"in_price": true, "rounding": "halfdown"`, quoin.UnknownWord, "channels[0].tax.rounding", "did you mean half_down?"},
		{`"in_price": true`, `"in_price": false, "rounded": "net"`, quoin.StrayTerms, "channels[0].tax.rounded", "in_price, or no rounded"},
		{`"in_price": true`, `"in_price": true, "of": "price"`, quoin.UnknownWord, "channels[0].tax.of", "one of paid, full_price"},
		{`"in_price": true`, `"in_price": true, "shipping_rate": "main"`, quoin.StrayTerms, "channels[0].tax.shipping_rate", "on_shipping"},
		{`"in_price": true`, `"in_price": true, "classes": [{"class": "print"}]`, quoin.MissingField, "channels[0].tax.classes[0].rate", "the field rate"},
		{`"in_price": true`, `"in_price": true, "classes": [{"class": "print", "rate": "5%"}, {"class": "print", "rate": "6%"}]`, quoin.DuplicateID, "channels[0].tax.classes[1].class", "one rate for each class"},
		{`"share": "75%"`, `"share": "75%", "tax_classes": [{"class": "print", "rate": "105%"}]`, quoin.OutOfRange, "channels[0].orders[0].tax_classes[0].rate", "at most 100%"},
		{`"id": "bittern-a4"`, `"id": "bittern-a4", "tax_class": "print"`, quoin.UnknownID, "products[1].tax_class", "for which a channel or an order gives a rate"},
		{`{"share": "75%"}`, `{"share": "75%", "others": {"items": 1, "worth": "9.00", "tax_class": "frame"}}`, quoin.UnknownID, "channels[0].orders[0].others.tax_class", "for which a channel or an order gives a rate"},
		{`"id": "bittern-a4"`, `"id": "bittern-a4", "tax_class": "\t"`, quoin.BadText, "products[1].tax_class", ""},
		{`"share": "25%"`, `"share": "24%"`, channel.SharesNotOne, "channels[0].orders", "99%"},
		{`"items": 2`, `"items": 0`, quoin.OutOfRange, "channels[0].orders[1].items", "at least 1"},
		{`"items": 2`, `"items": 1.5`, quoin.WrongType, "channels[0].orders[1].items", "a whole number"},
		{`"items": 30`, `"items": 0`, quoin.OutOfRange, "channels[0].fixed_cost.items", "above 0"},
		{`, "items": 30`, ``, "no_items", "channels[0].fixed_cost.items", "spread over"},
		{`"id": "ladder"`, `"id": "multiple"`, quoin.DuplicateID, "rules[1].id", "other than that of rules[0]"},
		{`{"supply": "ink"`, `{"supply": "inc"`, quoin.UnknownID, "products[1].bill[0].supply", "did you mean ink?"},
		{`{"supply": "ink"`, `{"supply": ""`, quoin.MissingField, "products[1].bill[0].supply", "wanted the field supply"},
		{`"id": "ladder"`, `"id": ""`, quoin.MissingField, "rules[1].id", "wanted the field id"},
		{`"venue": "market"`, `"venue": ""`, quoin.MissingField, "comparables[0].venue", ""},
		{`"id": "ink"`, `"id": 7`, quoin.WrongType, "supplies[1].id", "found 7, wanted text"},
		{`"7.4%"`, `"7.4%", "of": ["items", "items"]`, channel.RepeatedPart, "channels[0].fees[0].of[1]", "again"},
		{`"stage": "print"`, `"stage": "pirnt"`, quoin.UnknownID, "products[0].bill[0].stage", "did you mean print?"},
		{`"stages": [{"id": "print", "yield": "92%"}],`, ``, quoin.UnknownID, "products[0].bill[0].stage", "an entry in stages"},
		{`{"share": "75%"}`, `{"share": "75%", "others": {"worth": "9.00"}}`, quoin.MissingField, "channels[0].orders[0].others.items", "nothing"},
		{`{"share": "75%"}`, `{"share": "75%", "others": {"items": 0, "worth": "9.00"}}`, quoin.OutOfRange, "channels[0].orders[0].others.items", "0"},
		{`"packing": "parcel"`, `"packing": "parcell"`, quoin.UnknownID, "channels[0].packing", "did you mean parcel?"},
		{`"packing": {"parcel": []}, "run"`, `"packing": {"parcels": []}, "run"`, quoin.UnknownID, "products[1].packing", "did you mean parcels?"},
		{`"product": "bittern-a5"`, `"product": "bitern-a5"`, quoin.UnknownID, "comparables[0].product", "did you mean bittern-a5?"},
		{`"sold": 3`, `"sold": 3, "date": "2 May"`, quoin.BadDate, "comparables[0].date", "a date such as"},
		{`"sold": 3`, `"sold": 3, "size": "A44"`, quoin.BadSize, "comparables[0].size", ""},
		{`"sold": 3`, `"sold": 3, "tax": "101%"`, quoin.OutOfRange, "comparables[0].tax", "at most 100%"},
		{`"sold": 3`, `"sold": 3, "postage": "-1.00"`, quoin.OutOfRange, "comparables[0].postage", "at least 0"},
		{`"sold": 3`, `"sold": 3, "postage_on_top": "-1.00"`, quoin.OutOfRange, "comparables[0].postage_on_top", "at least 0"},
		{`"sold": 3`, `"sold": 3, "edition": -1`, quoin.OutOfRange, "comparables[0].edition", "at least 0"},
		{`"sold": 3`, `"sold": 3, "signed": "yes"`, quoin.WrongType, "comparables[0].signed", ""},
		{`"sold": 3`, `"sold": 3, "framed": true, "frame_worth": "-1.00"`, quoin.OutOfRange, "comparables[0].frame_worth", "at least 0"},
		{`"sold": 3`, `"sold": 3, "frame_worth": "9.00"`, quoin.StrayTerms, "comparables[0].frame_worth", "framed set to true"},
		{`"sold": 3`, `"sold": 3, "sellr": "a friend"`, quoin.UnknownField, "comparables[0].sellr", "did you mean seller?"},
		{`"cost_multiple", "at_least": "3.5"`, `"market", "from_quantile": 0, "to_quantile": 1, "min_sales": 0`, quoin.OutOfRange, "rules[0].min_sales", "at least 1"},
		{`"cost_multiple", "at_least": "3.5"`, `"market", "from_quantile": 0, "to_quantile": 1, "min_venues": 0`, quoin.OutOfRange, "rules[0].min_venues", "at least 1"},
		{`"cost_multiple", "at_least": "3.5"`, `"market", "from_quantile": 0, "to_quantile": 1, "by_seller": 1`, quoin.WrongType, "rules[0].by_seller", ""},
		{`"cost_multiple", "at_least": "3.5"`, `"market", "from_quantile": 0, "to_quantile": 1, "basis": "20%"`, quoin.WrongType, "rules[0].basis", "an object"},
		{`"cost_multiple", "at_least": "3.5"`, `"market", "from_quantile": 0, "to_quantile": 1, "basis": {"tax": "20"}`, quoin.BarePercentage, "rules[0].basis.tax", "write 20%"},
		{`"cost_multiple", "at_least": "3.5"`, `"market", "from_quantile": 0, "to_quantile": 1, "basis": {"exponent": "10.5"}`, quoin.OutOfRange, "rules[0].basis.exponent", "at most 10"},
		{`"cost_multiple", "at_least": "3.5"`, `"market", "from_quantile": 0, "to_quantile": 1, "basis": {"exponent": -11}`, quoin.OutOfRange, "rules[0].basis.exponent", "at least -10"},
		{`"cost_multiple", "at_least": "3.5"`, `"market", "from_quantile": 0, "to_quantile": 1, "basis": {"power": 1}`, quoin.UnknownField, "rules[0].basis.power", ""},
		{`["bittern-a5", "bittern-a4"]`, `["bittern-a5", "bittern"]`, quoin.UnknownID, "rules[1].products[1]", ""},
		{`["bittern-a5", "bittern-a4"]`, `["bittern-a5"]`, pricelist.ShortLadder, "rules[1].products", "at least two"},
		{`["bittern-a5", "bittern-a4"]`, `["bittern-a5", "bittern-a5"]`, quoin.DuplicateID, "rules[1].products[1]", "each size once"},
		{`"cost_multiple"`, `"cost-multiple"`, rule.UnknownRule, "rules[0].rule", "did you mean cost_multiple?"},
		{`"cost_multiple", "at_least": "3.5"`, `"ending", "ends_in": []`, quoin.EmptyList, "rules[0].ends_in", "at least one"},
		{`"good": 20`, `"good": 0`, quoin.OutOfRange, "products[1].run.good", "at least 1"},
		{`"price_limit": "100.00"`, `"price_limit": "0.001"`, quoin.BadGrid, "price_limit", "not below it"},
		{`"price_limit": "100.00"`, `"price_step": "0.005"`, quoin.StepOffMinor, "price_step", "0.01, the minor unit of EUR"},
		{`"products": [`, `"products": [5, `, quoin.WrongType, "products[0]", "an object"},
		{`"bill": [{"supply": "ink", "quantity": "0.9 ml"}]`, `"bill": {}`, quoin.WrongType, "products[1].bill", "a list"},
		{`"packing": {"parcel": []}, "run"`, `"packing": {"parcel": [], "parcel": []}, "run"`, quoin.DuplicateField, "products[1].packing.parcel", "again"},
	} {
		c.check(t, sound)
	}
}

func TestProblemsOfWays(t *testing.T) {
	for _, c := range []broken{
		// kinds of order and promotions
		{`"id": "two"`, `"id": "one"`, quoin.DuplicateID, "channels[0].orders[1].id", "\"one\" again"},
		{`"orders": ["one"]`, `"orders": ["onne"]`, quoin.UnknownID, "channels[0].fees[0].orders[0]", "did you mean one?"},
		{`"rate": "10%"}, {"id": "trio"`, `"amount": "2.00", "sale": "9.00"}, {"id": "trio"`, promo.SeveralDiscounts, "channels[0].promotions[0].sale", "amount, sale together"},
		{`"id": "spring", "rate": "10%"`, `"id": "spring"`, promo.MissingDiscount, "channels[0].promotions[0]", "takes nothing off"},
		{`"buy": 3, "free": 1`, `"buy": 3`, promo.BadMultiBuy, "channels[0].promotions[1].free", "how many of 3 items are free"},
		{`"buy": 3, "free": 1`, `"price": "20.00"`, promo.BadSet, "channels[0].promotions[1].products", "at least two products"},
		{`{"id": "trio"`, `{"id": "spring", "rate": "5%"}, {"id": "trio"`, quoin.DuplicateID, "channels[0].promotions[1].id", "\"spring\" again"},
		{`"free": 1, "products": ["bittern"]`, `"free": 1, "products": ["bitern"]`, quoin.UnknownID, "channels[0].promotions[1].products[0]", "did you mean bittern?"},
		{`["spring", "trio"]`, `["sprint"]`, quoin.UnknownID, "channels[0].orders[1].codes[0]", "did you mean spring?"},
		{`["spring", "trio"]`, `["spring", "trio", "spring"]`, quoin.DuplicateID, "channels[0].orders[1].codes[2]", "each code once"},
		{`{"id": "spring", "rate": "10%"}`, `{"id": "spring", "rate": "10%", "alone": true}`, channel.DoesNotStack, "channels[0].orders[1].codes[0]", "it does not stack"},
		// prices that can be asked
		{`{"step": "0.50"}`, `{}`, channel.BadPricePoints, "channels[0].price_points.step", "neither a step nor endings"},
		{`{"step": "0.50"}`, `{"step": "0.505"}`, quoin.StepOffMinor, "channels[0].price_points.step", "with 2 digits"},
		{`"every": 100`, `"every": "100.5"`, quoin.StepOffMinor, "channels[1].price_points.every", "with 0 digits"},
		{`"ends_in": [80]`, `"ends_in": [80, "90.5"]`, quoin.StepOffMinor, "channels[1].price_points.ends_in[1]", "found 90.5"},
		{`"ends_in": [80]`, `"ends_in": [80, 100]`, channel.BadPricePoints, "channels[1].price_points.ends_in[1]", "less than every, 100"},
		{`"2026-03-01"`, `"1 March"`, quoin.BadDate, "channels[1].foreign_currency.date", ""},
		// trade
		{`"postage": "6.90"`, `"postage": "6.90", "shipping": "6.90"`, channel.StrayFreight, "channels[2].orders[0].shipping", "postage alone"},
		{`"postage": "6.90"`, `"postage": "6.90", "free_from": "300.00"`, channel.StrayFreight, "channels[2].orders[0].free_from", "free_from in the trade terms"},
		{`"items": 2, "zone": "home"`, `"items": 2, "others": {"items": 1, "worth": "9.00"}, "zone": "home"`, quoin.MissingField, "channels[0].orders[1].others.mass", "nothing"},
		{`"freight": "added"`, `"freight": "prepaid"`, quoin.StrayTerms, "channels[2].trade.free_from", "freight that is not added"},
		{`"free_from": "300.00", "credit"`, `"free_from": "300.00", "allowance": "5%", "credit"`, quoin.StrayTerms, "channels[2].trade.allowance", "one without the other"},
		{`"freight": "added", "free_from": "300.00"`, `"freight": "allowance"`, quoin.StrayTerms, "channels[2].trade.allowance", "one without the other"},
		{`"freight": "added"`, `"line_sheet": {"valid_from": "2026-03-01", "valid_until": "2026-02-28"}, "freight": "added"`, quoin.OutOfRange, "channels[2].trade.line_sheet.valid_until", "a day on or after valid_from, which is 2026-03-01"},
		{`"freight": "added"`, `"line_sheet": {"lead_days": 0}, "freight": "added"`, quoin.OutOfRange, "channels[2].trade.line_sheet.lead_days", "1"},
		{`"early": "2%", `, ``, quoin.StrayTerms, "channels[2].trade.credit.early", "early_days, taken and early_rounded"},
		{`"early_days": 10, `, ``, quoin.StrayTerms, "channels[2].trade.credit.early_days", "within how many days"},
		{`"early_days": 10`, `"early_days": 31`, quoin.OutOfRange, "channels[2].trade.credit.early_days", "at most the 30 days"},
		{`"credit": {"days": 30, `, `"credit": {`, quoin.StrayTerms, "channels[2].trade.credit.days", "after how many days"},
		// consignment
		{`"discount": {"rate": "10%", "borne": "shop"}`, `"discount": {"borne": "shop"}`, quoin.StrayTerms, "channels[3].consignment.discount.rate", "the discount that is borne"},
		{`"discount": {"rate": "10%", "borne": "shop"}`, `"discount": {"share": "25%"}`, quoin.StrayTerms, "channels[3].consignment.discount.rate", "no discount"},
		{`"borne": "shop"`, `"borne": "forbidden"`, quoin.StrayTerms, "channels[3].consignment.discount.rate", "10%, and discounts are forbidden"},
		{`"registered": ["shop"]`, `"registered": ["shop", "shop"]`, channel.RepeatedPart, "channels[3].consignment.registered[1]", "each side once"},
		{`"days": 30, "interest": "8%"}}`, `"interest": "8%"}}`, quoin.StrayTerms, "channels[3].consignment.days", "after how many days"},
		// on demand
		{`"share_of_rest"`, `"above_base"`, quoin.StrayTerms, "channels[4].on_demand.rate", "60% beside above_base"},
		{`{"product": "snipe", "base": "7.00"}`, `{"product": "snip", "base": "7.00"}, {"product": "snipe", "base": "7.00"}`, quoin.UnknownID, "channels[4].on_demand.sizes[1].product", "did you mean snipe?"},
		{`{"product": "snipe", "base": "7.00"}`, `{"product": "snipe", "base": "7.00"}, {"product": "snipe", "base": "8.00"}`, quoin.DuplicateID, "channels[4].on_demand.sizes[2].product", "each product once"},
		// 60% × 1.7 is above 1: 1 ÷ 1.7 is 58.82%.
		{`"on_demand": {"pays"`, `"tax": {"rate": "70%", "in_price": true}, "on_demand": {"pays"`, channel.PaysTooMuch, "channels[4].on_demand.rate", "60% of the price, of which the tax in it leaves the house 58.82%"},
		{`, {"product": "snipe", "base": "7.00"}`, ``, pricelist.NotPrinted, "channels[4].on_demand.sizes", "no entry for \"snipe\""},
		{`"on_demand": {"pays"`, `"trade": {}, "on_demand": {"pays"`, quoin.RivalFields, "channels[4].on_demand", "one of them"},
	} {
		c.check(t, soundWays)
	}
}

func TestProblemsBesideChannels(t *testing.T) {
	for _, c := range []broken{
		// parcels
		{`"inside": "240 x 330 mm"`, `"tube": "340 mm", "depth": "60 mm"`, parcel.StrayDepth, "packings[0].depth", "60 mm of a tube"},
		{`{"id": "home", "steps"`, `{"id": "home", "steps": [{"mass": "1 kg", "price": "4.90"}]}, {"id": "home", "steps"`, quoin.DuplicateID, "tariffs[0].zones[1].id", "no other has"},
		{`"tariff": "post"`, `"tariff": "pots"`, quoin.UnknownID, "channels[0].tariff", "did you mean post?"},
		{`"zone": "home", "codes"`, `"zone": "home", "postage": "2.90", "codes"`, quoin.RivalFields, "channels[0].orders[1].postage", "postage beside a tariff"},
		{`"share": "75%", "zone": "home"`, `"share": "75%"`, quoin.MissingField, "channels[0].orders[0].zone", "the field zone"},
		{`{"id": "stall"}`, `{"id": "stall", "tariff": "post"}`, quoin.MissingField, "channels[5].orders", "which say where they go"},
		{`"tariff": "post"`, `"tariff": "post", "packing": "envelope"`, quoin.RivalFields, "channels[0].packing", "packing beside a tariff"},
		{`{"id": "house", `, `{"id": "house", "tariff": "post", "orders": [{"zone": "home"}], `, quoin.StrayTerms, "channels[4].tariff", "no tariff"},
		{`"mass": "12 g", `, ``, pricelist.NotWeighed, "products[1].mass", "nothing that weighs anything"},
		{`"sheet": "148 x 210 mm", `, ``, quoin.MissingField, "products[1].sheet", "or another size"},
		{`"packing": {"envelope": []}},`, `"packing": {"box": []}},`, quoin.UnknownID, "products[0].packing", "the id of one of the packings"},
		{`"210 x 297 mm"`, `"297 x 420 mm"`, parcel.NothingFits, "products[0]", "a sheet of 297 x 420 mm in \"envelope\""},
		{`"mass": "20 g"`, `"mass": "411 g"`, parcel.NoStep, "products[0]", "a parcel charged as 501 g in \"envelope\""},
		{`"share": "75%", "zone": "home"`, `"share": "75%", "zone": "hone"`, parcel.UnknownZone, "channels[0].orders[0].zone", "did you mean home?"},
		// sets
		{`"id": "pair", "channel": "stall"`, `"id": "pair", "channel": "stal"`, quoin.UnknownID, "sets[0].channel", "did you mean stall?"},
		{`"id": "pair", "channel": "stall"`, `"id": "pair"`, quoin.MissingField, "sets[0].channel", "the field channel"},
		{`"products": ["bittern", "snipe"]`, `"products": ["bittern"]`, pricelist.SmallSet, "sets[0].products", "fewer than two"},
		{`"products": ["bittern", "snipe"]`, `"products": ["bittern", "snip"]`, quoin.UnknownID, "sets[0].products[1]", "did you mean snipe?"},
		{`"products": ["bittern", "snipe"]`, `"products": ["bittern", "bittern"]`, quoin.DuplicateID, "sets[0].products[1]", "each product once"},
		{`"share": "60%", "products": ["bittern"]`, `"share": "60%", "products": ["bitern"]`, quoin.UnknownID, "sets[0].alternatives[0].products[0]", "did you mean bittern?"},
		{`"share": "60%", "products": ["bittern"]`, `"share": "60%", "products": ["bittern", "bittern"]`, quoin.DuplicateID, "sets[0].alternatives[0].products[1]", "each product once"},
		{`"alternatives": [`, `"alternatives": [{"share": "50%", "products": ["snipe"]}, `, pricelist.AlternativesAboveOne, "sets[0].alternatives", "sum to 110%"},
		// fairs
		{`"id": "spring fair", "channel": "stall"`, `"id": "spring fair", "channel": "stal"`, quoin.UnknownID, "fairs[0].channel", "did you mean stall?"},
		{`"id": "spring fair", "channel": "stall"`, `"id": "spring fair"`, quoin.MissingField, "fairs[0].channel", "the field channel"},
		{`{"product": "snipe", "share": "40%"}`, `{"product": "snip", "share": "40%"}`, quoin.UnknownID, "fairs[0].mix[1].product", "did you mean snipe?"},
		{`{"product": "snipe", "share": "40%"}`, `{"share": "40%"}`, quoin.MissingField, "fairs[0].mix[1].product", "the field product"},
		{`{"product": "snipe", "share": "40%"}`, `{"product": "bittern", "share": "40%"}`, quoin.DuplicateID, "fairs[0].mix[1].product", "each product once"},
		{`"share": "40%"`, `"share": "30%"`, fair.MixNotOne, "fairs[0].mix", "sum to 90%"},
		{`"stand": "120.00"`, `"commission_at_least": "40.00"`, fair.StrayMinimum, "fairs[0].commission_at_least", "without a commission"},
		{`"stand": "120.00"`, `"display": "360.00"`, fair.MissingFairs, "fairs[0].display_fairs", "how many fairs"},
		{`"stand": "120.00"`, `"night": "65.00"`, fair.MissingNights, "fairs[0].nights", "how many nights"},
		{`"stand": "120.00"`, `"hour_worth": "18.00"`, fair.MissingHours, "fairs[0].hours", "how many own hours"},
		// editions
		{`"id": "reeds", "products": ["bittern"]`, `"id": "reeds", "products": ["bitern"]`, quoin.UnknownID, "editions[0].products[0]", "did you mean bittern?"},
		{`"id": "reeds", "products": ["bittern"]`, `"id": "reeds", "products": ["bittern", "bittern"]`, quoin.DuplicateID, "editions[0].products[1]", "it is products[0]"},
		{`"size": 40`, `"size": 40, "proofs": 5, "proofs_at_most": "10%"`, edition.TooManyProofs, "editions[0].proofs", "at most 4"},
		{`"products": ["bittern"], "size": 40, "ledger": [{"number": 1, "state": "sold"}]`, `"products": ["bittern", "snipe"], "size": 40, "each": true, "sold": 1`, edition.UnclearSold, "editions[0].sold", "1 of 2 numberings"},
		{`"ledger": [{"number": 1, "state": "sold"}]`, `"sold": 41`, edition.Oversold, "editions[0].sold", "at most the size of 40"},
		{`"size": 40`, `"size": 40, "steps": [{"sold": 1, "times": 1}]`, edition.BadSteps, "editions[0].steps[0].sold", "from 0 sold on"},
		{`"products": ["bittern"], "size": 40`, `"products": ["bittern", "snipe"], "each": true, "size": 40`, edition.UnclearProduct, "editions[0].ledger[0].product", "whose number it is"},
		{`{"number": 1, "state"`, `{"number": 1, "product": "snipe", "state"`, edition.ForeignProduct, "editions[0].ledger[0].product", "of the edition"},
		{`"ledger": [`, `"ledger": [{"number": 1, "state": "kept"}, `, edition.NumberTwice, "editions[0].ledger[1].number", "kept in ledger[0]"},
		{`"number": 1`, `"number": 41`, edition.NoSuchNumber, "editions[0].ledger[0].number", "from 1 to 40"},
		{`"number": 1`, `"proof": 1`, edition.NoSuchProof, "editions[0].ledger[0].proof", ""},
	} {
		c.check(t, soundWays)
	}
}

// Everything that is wrong is said at once.
func TestAllProblemsAtOnce(t *testing.T) {
	broken := sound
	for _, r := range [][2]string{
		{`"EUR"`, `"EURO"`},
		{`"92%"`, `"92"`},
		{`"60.00"`, `"sixty"`},
		{`"share": "25%"`, `"share": "20%"`},
		{`"cost_multiple"`, `"costs"`},
		{`"venue"`, `"vnue"`},
		{`"id": "ladder"`, `"id": "multiple"`},
	} {
		broken = strings.Replace(broken, r[0], r[1], 1)
	}
	_, err := pricelist.Price([]byte(broken))
	var ps quoin.Problems
	errors.As(err, &ps)
	got := make(map[quoin.Code]int)
	for _, p := range ps {
		got[p.Code]++
	}
	want := map[quoin.Code]int{
		quoin.UnknownCurrency: 1, quoin.BarePercentage: 1, quoin.NotANumber: 1, channel.SharesNotOne: 1,
		rule.UnknownRule: 1, quoin.UnknownField: 1, quoin.MissingField: 1, quoin.DuplicateID: 1,
	}
	for code, n := range want {
		if got[code] != n {
			t.Errorf("%s: %d times, wanted %d", code, got[code], n)
		}
	}
	if len(ps) != 8 {
		t.Errorf("found %d problems, wanted 8:\n%v", len(ps), err)
	}
}

func TestNotJSON(t *testing.T) {
	for _, c := range []struct {
		text         string
		line, column int
	}{
		{``, 1, 1},
		{`{`, 1, 2},
		{"{\n  \"version\": 1,,\n}", 2, 16},
		{`{"version": 1} {}`, 1, 16},
		{`[`, 1, 2},
		{`nope`, 1, 1},
		{"{\"version\": 01}", 1, 13},
	} {
		_, err := pricelist.Decode([]byte(c.text))
		var ps quoin.Problems
		if !errors.As(err, &ps) {
			t.Errorf("%q is taken for a document", c.text)
			continue
		}
		last := ps[len(ps)-1]
		if last.Code != quoin.BadJSON && c.text != `[` {
			t.Errorf("%q: %v", c.text, err)
		}
		if last.Line != c.line {
			t.Errorf("%q: line %d column %d, wanted line %d", c.text, last.Line, last.Column, c.line)
		}
	}
}

// Documents made to hurt cost memory in proportion to their size.
func TestHostileDocuments(t *testing.T) {
	const size = 1 << 20
	for name, doc := range map[string]string{
		"deep lists":    strings.Repeat("[", size),
		"deep objects":  strings.Repeat(`{"products":`, size/12),
		"deep unknown":  `{"x":` + strings.Repeat("[", size) + strings.Repeat("]", size) + `}`,
		"deep rule":     `{"rules":[` + strings.Repeat("[", size) + strings.Repeat("]", size) + `]}`,
		"many faults":   `{"products":[` + strings.Repeat("0,", size/2) + `0]}`,
		"many tiers":    `{"channels":[{"fees":[{"tiers":[` + strings.Repeat(`{"from":"x"},`, size/16) + `{}]}]}]}`,
		"many discount": `{"channels":[{"trade_discount":[` + strings.Repeat(`0.123456789,`, size/12) + `0]}]}`,
		"many fields":   `{` + strings.Repeat(`"a":1,`, size/6) + `"a":1}`,
		"long name":     `{"` + strings.Repeat("n", size) + `":1}`,
		"long unit":     `{"supplies":[{"id":"a","quantity":"1 ` + strings.Repeat("u", size) + `","price":1}]}`,
		"spaces":        strings.Repeat(" ", size),
		"long number":   `{"price_limit":` + strings.Repeat("9", size) + `}`,
	} {
		var before, after runtime.MemStats
		runtime.ReadMemStats(&before)
		_, err := pricelist.Decode([]byte(doc))
		runtime.ReadMemStats(&after)
		if err == nil {
			t.Errorf("%s: no problem found", name)
		}
		if grew := after.TotalAlloc - before.TotalAlloc; grew > 100*uint64(len(doc)) {
			t.Errorf("%s: %d bytes read, %d allocated", name, len(doc), grew)
		}
		if len(err.Error()) > 1<<20 {
			t.Errorf("%s: an error of %d bytes", name, len(err.Error()))
		}
	}
}

// A rule of the caller's own joins the others.
func TestOwnRule(t *testing.T) {
	doc, err := pricelist.Decode([]byte(sound))
	if err != nil {
		t.Fatal(err)
	}
	doc.Rules = append(doc.Rules, rule.Rule{ID: "own", Kind: rule.Custom{
		Name: "even tens",
		Allowed: func(it rule.Item, _ []rule.Offer) (rule.Set, error) {
			return rule.Between(it.Grid, quoin.MustAmount("20.00"), quoin.MustAmount("30.00")), nil
		},
		Judge: func(_ rule.Item, _ []rule.Offer, p quoin.Amount) []rule.Verdict {
			return []rule.Verdict{{OK: p.Cmp(quoin.MustAmount("20.00")) >= 0 && p.Cmp(quoin.MustAmount("30.00")) <= 0, Got: p.Figure()}}
		},
	}})
	a, err := pricelist.Decide(doc)
	if err != nil {
		t.Fatal(err)
	}
	if got := a.Products[0].Price.String(); got != "20.00" {
		t.Errorf("priced at %s, want 20.00", got)
	}
}
