package pricelist_test

import (
	"errors"
	"runtime"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/cost"
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
     "fees": [{"name": "commission", "rate": "6.5%"}],
     "period": {"cost": "29.00", "items": 30}}
  ],
  "comparables": [{"product": "bittern-a5", "venue": "market", "price": "14.00", "sold": 3}],
  "rules": [
    {"id": "multiple", "rule": "cost_multiple", "at_least": "3.5"},
    {"id": "ladder", "rule": "step", "products": ["bittern-a5", "bittern-a4"], "at_least": "1.2"}
  ]
}`

func TestSoundDocument(t *testing.T) {
	if _, err := pricelist.Price([]byte(sound)); err != nil {
		t.Fatalf("the document that the tests break is broken: %v", err)
	}
}

// Each break of the sound document gives exactly one problem, where it is.
func TestProblems(t *testing.T) {
	long := strings.Repeat("9", 10_000_000)
	for _, c := range []struct {
		old, new string
		code     quoin.Code
		path     string
		says     string // part of the sentence
	}{
		{`"supplies"`, `"suplies": [], "supplies"`, pricelist.UnknownField, "suplies", "did you mean supplies?"},
		{`"at_least": "3.5"`, `"atleast": 1, "at_least": "3.5"`, pricelist.UnknownField, "rules[0].atleast", "did you mean at_least?"},
		{`"currency": "EUR"`, `"currency": "EUR", "currency": "USD"`, pricelist.DuplicateField, "currency", "again"},
		{`"at_least": "3.5"`, `"products": []`, pricelist.MissingField, "rules[0].at_least", "wanted the field at_least"},
		{`"version": 1,`, ``, pricelist.MissingField, "version", "wanted the field version"},
		{`"version": 1`, `"version": 2`, pricelist.OutOfRange, "version", "of 1"},
		{`"EUR"`, `"ERU"`, quoin.UnknownCurrency, "currency", "did you mean EUR?"},
		{`"EUR"`, `7`, pricelist.WrongType, "currency", "found 7, wanted an ISO 4217"},
		{`"60.00"`, `"60,00"`, quoin.NotANumber, "supplies[0].price", "point, not a comma"},
		{`"60.00"`, `"NaN"`, quoin.NotANumber, "supplies[0].price", "found \"NaN\""},
		{`"60.00"`, `"-Infinity"`, quoin.NotANumber, "supplies[0].price", "wanted an amount"},
		{`"60.00"`, `1e999999`, quoin.TooLarge, "supplies[0].price", "at most 12 digits before"},
		{`"60.00"`, `1e-999999`, quoin.TooFine, "supplies[0].price", "at most 8 digits after"},
		{`"60.00"`, `1234567890123`, quoin.TooLarge, "supplies[0].price", ""},
		{`"60.00"`, `"` + long + `"`, quoin.TooLong, "supplies[0].price", "10000000 bytes"},
		{`"60.00"`, `"-60.00"`, pricelist.OutOfRange, "supplies[0].price", "at least 0"},
		{`"60.00"`, `true`, pricelist.WrongType, "supplies[0].price", "wanted an amount"},
		{`"60.00"`, `null`, pricelist.WrongType, "supplies[0].price", "null"},
		{`"60.00"`, `"60.00", "discount": "60.01"`, cost.NegativeCost, "supplies[0].discount", "at most price, freight and duty"},
		{`"60.00"`, `"60.00", "exchange": 0`, pricelist.OutOfRange, "supplies[0].exchange", "above 0"},
		{`"50 sheet"`, `"50"`, quoin.MissingUnit, "supplies[0].quantity", "unit word"},
		{`"50 sheet"`, `"0 sheet"`, pricelist.OutOfRange, "supplies[0].quantity", "above 0"},
		{`"0.9 ml"`, `"0.9 g"`, quoin.UnitMismatch, "products[1].bill[0].quantity", "a volume"},
		{`"0.25 sheet"`, `"0.25 sheets"`, quoin.UnitMismatch, "products[0].bill[0].quantity", "did you mean sheet?"},
		{`"92%"`, `"92"`, quoin.BarePercentage, "stages[0].yield", "write 92%"},
		{`"92%"`, `0`, pricelist.OutOfRange, "stages[0].yield", "above 0% and at most 100%"},
		{`"92%"`, `"101%"`, pricelist.OutOfRange, "stages[0].yield", "above 0% and at most 100%"},
		{`"6.5%"`, `6.5`, quoin.BarePercentage, "channels[0].fees[0].rate", "write 6.5%"},
		{`"6.5%"`, `"84%"`, pricelist.FeesTakeAll, "channels[0].fees", "grow at least as fast"},
		{`"6.5%"`, `"6.5%", "of": ["item"]`, quoin.UnknownWord, "channels[0].fees[0].of[0]", "did you mean items?"},
		{`"6.5%"`, `"6.5%", "rounding": "halfup"`, quoin.UnknownWord, "channels[0].fees[0].rounding", "did you mean half_up?"},
		{`"6.5%"`, `"6.5%", "tiers": [{"from": 0, "rate": "5%"}]`, pricelist.RateAndTiers, "channels[0].fees[0].rate", "beside tiers"},
		{`"rate": "6.5%"`, `"tiers": [{"from": 9, "rate": "5%"}, {"from": 8, "rate": "4%"}]`, pricelist.UnsortedTiers, "channels[0].fees[0].tiers[1].from", "8 after 9"},
		{`"share": "25%"`, `"share": "24%"`, pricelist.SharesNotOne, "channels[0].orders", "99%"},
		{`"items": 2`, `"items": 0`, pricelist.OutOfRange, "channels[0].orders[1].items", "at least 1"},
		{`"items": 2`, `"items": 1.5`, pricelist.WrongType, "channels[0].orders[1].items", "a whole number"},
		{`"items": 30`, `"items": 0`, pricelist.OutOfRange, "channels[0].period.items", "above 0"},
		{`, "items": 30`, ``, "no_items", "channels[0].period.items", "spread over"},
		{`"id": "ladder"`, `"id": "multiple"`, pricelist.DuplicateID, "rules[1].id", "other than that of rules[0]"},
		{`{"supply": "ink"`, `{"supply": "inc"`, pricelist.UnknownID, "products[1].bill[0].supply", "did you mean ink?"},
		{`{"supply": "ink"`, `{"supply": ""`, pricelist.MissingField, "products[1].bill[0].supply", "wanted the field supply"},
		{`"id": "ladder"`, `"id": ""`, pricelist.MissingField, "rules[1].id", "wanted the field id"},
		{`"venue": "market"`, `"venue": ""`, pricelist.MissingField, "comparables[0].venue", ""},
		{`"id": "ink"`, `"id": 7`, pricelist.WrongType, "supplies[1].id", "found 7, wanted text"},
		{`"6.5%"`, `"6.5%", "of": ["items", "items"]`, pricelist.RepeatedPart, "channels[0].fees[0].of[1]", "again"},
		{`"stage": "print"`, `"stage": "pirnt"`, pricelist.UnknownID, "products[0].bill[0].stage", "did you mean print?"},
		{`"stages": [{"id": "print", "yield": "92%"}],`, ``, pricelist.UnknownID, "products[0].bill[0].stage", "an entry in stages"},
		{`"packing": "parcel"`, `"packing": "parcell"`, pricelist.UnknownID, "channels[0].packing", "did you mean parcel?"},
		{`"packing": {"parcel": []}, "run"`, `"packing": {"parcels": []}, "run"`, pricelist.UnknownID, "products[1].packing", "did you mean parcels?"},
		{`"product": "bittern-a5"`, `"product": "bitern-a5"`, pricelist.UnknownID, "comparables[0].product", "did you mean bittern-a5?"},
		{`["bittern-a5", "bittern-a4"]`, `["bittern-a5", "bittern"]`, pricelist.UnknownID, "rules[1].products[1]", ""},
		{`["bittern-a5", "bittern-a4"]`, `["bittern-a5"]`, pricelist.ShortLadder, "rules[1].products", "at least two"},
		{`["bittern-a5", "bittern-a4"]`, `["bittern-a5", "bittern-a5"]`, pricelist.DuplicateID, "rules[1].products[1]", "each size once"},
		{`"cost_multiple"`, `"cost-multiple"`, pricelist.UnknownRule, "rules[0].rule", "did you mean cost_multiple?"},
		{`"cost_multiple", "at_least": "3.5"`, `"ending", "of": []`, pricelist.EmptyList, "rules[0].of", "at least one"},
		{`"good": 20`, `"good": 0`, pricelist.OutOfRange, "products[1].run.good", "at least 1"},
		{`"price_limit": "100.00"`, `"price_limit": "0.001"`, quoin.BadGrid, "price_limit", "not below it"},
		{`"price_limit": "100.00"`, `"price_step": "0.005"`, pricelist.StepOffMinor, "price_step", "0.01, the minor unit of EUR"},
		{`"products": [`, `"products": [5, `, pricelist.WrongType, "products[0]", "an object"},
		{`"bill": [{"supply": "ink", "quantity": "0.9 ml"}]`, `"bill": {}`, pricelist.WrongType, "products[1].bill", "a list"},
		{`"packing": {"parcel": []}, "run"`, `"packing": {"parcel": [], "parcel": []}, "run"`, pricelist.DuplicateField, "products[1].packing.parcel", "again"},
	} {
		if strings.Count(sound, c.old) < 1 {
			t.Fatalf("the sound document has no %s", c.old)
		}
		_, err := pricelist.Decode([]byte(strings.Replace(sound, c.old, c.new, 1)))
		var ps quoin.Problems
		if !errors.As(err, &ps) {
			t.Errorf("%s for %.40s: found no problem, wanted %s", c.old, c.new, c.code)
			continue
		}
		if len(ps) != 1 || ps[0].Code != c.code || ps[0].Path != c.path || !strings.Contains(ps[0].Error(), c.says) || ps[0].Line == 0 {
			t.Errorf("%.40s for %s:\n%.400v\nwanted %s at %s, saying %q, with its line", c.new, c.old, err, c.code, c.path, c.says)
		}
	}
}

// Everything that is wrong is said at once.
func TestAllProblemsAtOnce(t *testing.T) {
	broken := sound
	for _, r := range [][2]string{
		{`"EUR"`, `"EURO"`}, {`"92%"`, `"92"`}, {`"60.00"`, `"sixty"`}, {`"share": "25%"`, `"share": "20%"`},
		{`"cost_multiple"`, `"costs"`}, {`"venue"`, `"vnue"`}, {`"id": "ladder"`, `"id": "multiple"`},
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
		quoin.UnknownCurrency: 1, quoin.BarePercentage: 1, quoin.NotANumber: 1, pricelist.SharesNotOne: 1,
		pricelist.UnknownRule: 1, pricelist.UnknownField: 1, pricelist.MissingField: 1, pricelist.DuplicateID: 1,
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
		if last.Code != pricelist.BadJSON && c.text != `[` {
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
	doc.Rules = append(doc.Rules, rule.Rule{ID: "own", Kind: rule.Own{Name: "even tens", Allowed: func(it rule.Item) rule.Set {
		return rule.Between(it.Grid, quoin.MustAmount("20.00"), quoin.MustAmount("30.00"))
	}}})
	a, err := pricelist.Decide(doc)
	if err != nil {
		t.Fatal(err)
	}
	if got := a.Products[0].Price.String(); got != "20.00" {
		t.Errorf("priced at %s, want 20.00", got)
	}
}
