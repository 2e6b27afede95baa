package pricelist_test

import (
	"encoding/json"
	"maps"
	"slices"
	"testing"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/margin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/rule"
)

// uncertain are the fields that may have a range, by the list they stand in.
var uncertain = map[string][]string{
	"supplies": {"quantity", "price", "discount", "freight", "duty", "exchange"},
	"stages":   {"yield", "lost_of_started", "lost_of_good"},
	"lines":    {"quantity", "over"},
	"run":      {"setup"},
	"orders":   {"postage"},
	"period":   {"cost", "items"},
	"machines": {"price", "prints_per_month"},
	"service":  {"price", "every"},
	"ink":      {"per_m2"},
	"upkeep":   {"share", "per_month", "prints_per_month"},
}

// genRanged draws a document without recoveries and gives some of its values a
// range; inside returns a document with each of them somewhere in its range.
func genRanged(t *rapid.T) (doc, inside []byte) {
	g := &docGen{t: t, boundedBelow: true}
	var given, concrete genFields
	text := g.document()
	for _, to := range []*genFields{&given, &concrete} {
		if err := json.Unmarshal(text, to); err != nil {
			t.Fatal(err)
		}
	}
	// Both are gone through in step, so that each range has its concrete value.
	r := ranger{g}
	r.lists(given, concrete)
	return must(json.Marshal(given))(t), must(json.Marshal(concrete))(t)
}

type ranger struct{ *docGen }

func (r ranger) lists(given, concrete genFields) {
	each := func(list string, of func(a, b genFields)) {
		as, _ := given[list].([]any)
		bs, _ := concrete[list].([]any)
		for i := range as {
			of(as[i].(genFields), bs[i].(genFields))
		}
	}
	each("supplies", func(a, b genFields) { r.fields("supplies", a, b) })
	each("machines", func(a, b genFields) {
		r.fields("machines", a, b)
		parts, _ := a["service"].([]any)
		for i := range parts {
			r.fields("service", parts[i].(genFields), b["service"].([]any)[i].(genFields))
		}
	})
	each("stages", func(a, b genFields) { r.fields("stages", a, b) })
	each("products", r.product)
	each("channels", r.channel)
	r.below("period", "overhead", given, concrete)
}

func (r ranger) product(a, b genFields) {
	r.below("run", "run", a, b)
	r.lines(a["bill"], b["bill"])
	packing, _ := a["packing"].(genFields)
	for _, name := range slices.Sorted(maps.Keys(packing)) {
		r.lines(packing[name], b["packing"].(genFields)[name])
	}
}

func (r ranger) channel(a, b genFields) {
	r.below("period", "period", a, b)
	as, _ := a["orders"].([]any)
	for i := range as {
		r.fields("orders", as[i].(genFields), b["orders"].([]any)[i].(genFields))
	}
}

func (r ranger) lines(a, b any) {
	as, _ := a.([]any)
	for i := range as {
		la, lb := as[i].(genFields), b.([]any)[i].(genFields)
		r.fields("lines", la, lb)
		if ink, ok := la["ink"].(genFields); ok {
			r.fields("ink", ink, lb["ink"].(genFields))
			r.below("upkeep", "upkeep", ink, lb["ink"].(genFields))
		}
	}
}

func (r ranger) below(kind, name string, a, b genFields) {
	if of, ok := a[name].(genFields); ok {
		r.fields(kind, of, b[name].(genFields))
	}
}

// fields gives some fields a range of 80% to 125% of the value, and the
// concrete document one of its ends, the value, or something between.
func (r ranger) fields(kind string, a, b genFields) {
	for _, name := range uncertain[kind] {
		if a[name] == nil || !r.chance(30, "unsure "+name) {
			continue
		}
		low, high := r.scaled(name, a[name], "0.8"), r.scaled(name, a[name], "1.25")
		a[name+"_range"] = genFields{"low": low, "high": high}
		b[name] = rapid.SampledFrom([]any{low, high, a[name], r.scaled(name, a[name], "0.93"), r.scaled(name, a[name], "1.11")}).Draw(r.t, "concrete "+name)
	}
}

// scaled is a value of a document times a factor; discounts only fall, and
// yields stay yields.
func (r ranger) scaled(name string, v any, by string) any {
	f := quoin.MustFactor(by)
	if (name == "discount" || name == "yield") && f.Cmp(quoin.FactorOf(1)) > 0 {
		return v
	}
	text, err := json.Marshal(v)
	if err != nil {
		r.t.Fatal(err)
	}
	switch name {
	case "lost_of_started", "lost_of_good", "share":
		return must(quoin.ParseRate(v.(string)))(r.t).Of(f.Rate()).String()
	case "quantity", "per_m2", "per_month":
		return must(quoin.ParseQuantity(v.(string)))(r.t).Times(f).String()
	case "yield":
		return must(quoin.ParseRate(v.(string)))(r.t).Of(f.Rate()).String()
	}
	var n quoin.Factor
	if err := n.UnmarshalJSON(text); err != nil {
		r.t.Fatal(err)
	}
	return n.Times(f).String()
}

func TestRangesHoldEveryCase(t *testing.T) { t.Parallel(); rapid.Check(t, rangesHoldEveryCase) }
func FuzzRangesHoldEveryCase(f *testing.F) { f.Fuzz(rapid.MakeFuzz(rangesHoldEveryCase)) }

// rangesHoldEveryCase: whatever the values with a range turn out to be inside
// it, what a product leaves at the decided price lies in the statement's range,
// and its least price between those of both ends, the rules being floors.
func rangesHoldEveryCase(t *rapid.T) {
	doc, inside := genRanged(t)
	a := must(pricelist.Price(doc))(t)
	concrete := must(must(pricelist.Decode(inside))(t).Items(rule.Likely))(t)
	b := must(pricelist.Price(inside))(t)
	for i, p := range a.Products {
		for j, sold := range p.Channels {
			if sold.Range == nil {
				continue
			}
			st := concrete[i].Offers[j].Sale.At(p.Price)
			for what, c := range map[string]struct {
				got quoin.Amount
				in  quoin.Range[quoin.Amount]
			}{
				"goods": {st.Goods, sold.Range.Goods}, "contribution": {st.Contribution, sold.Range.Contribution}, "net": {st.Net, sold.Range.Net},
			} {
				if c.got.Cmp(c.in.Low) < 0 || c.got.Cmp(c.in.High) > 0 {
					t.Fatalf("%s in %s: %s of %s is not in %s to %s\n%s\n%s", p.ID, sold.ID, what, c.got, c.in.Low, c.in.High, doc, inside)
				}
			}
		}
		if p.Uncertainty == nil {
			continue
		}
		if low, ok := p.Uncertainty.Cheapest.Least.Get(); ok && len(b.Products) > 0 && b.Products[i].Least.Cmp(low) < 0 {
			t.Fatalf("%s: least %s, and %s at the cheapest\n%s\n%s", p.ID, b.Products[i].Least, low, doc, inside)
		}
		if high, ok := p.Uncertainty.Dearest.Least.Get(); ok && b.Products[i].Least.Cmp(high) > 0 {
			t.Fatalf("%s: least %s, and %s at the dearest\n%s\n%s", p.ID, b.Products[i].Least, high, doc, inside)
		}
	}
}

const ranged = `{"version": 1, "currency": "EUR",
	"supplies": [
		{"id": "paper", "quantity": "50 sheet", "price": "60.00", "price_range": {"low": "55.00", "high": "70.00"}},
		{"id": "ink", "quantity": "100 ml", "price": "50.00"},
		{"id": "time", "quantity": "1 h", "price": "18.00", "labour": "own"}
	],
	"products": [
		{"id": "a4", "bill": [
			{"supply": "paper", "quantity": "0.5 sheet"},
			{"supply": "ink", "quantity": "0.9 ml", "quantity_range": {"low": "0.6 ml", "high": "1.6 ml"}},
			{"supply": "time", "quantity": "4 min"}
		]},
		{"id": "sure", "bill": [{"supply": "time", "quantity": "4 min"}]}
	],
	"channels": [{"id": "fair"}],
	"rules": [{"id": "cost", "rule": "cost_multiple", "at_least": "3.5"}, {"id": "round", "rule": "ending", "ends_in": ["0.00"]}]}`

// Paper costs 0.60, from 0.55 to 0.70; ink 0.45, from 0.30 to 0.80; time 1.20.
// So goods cost 2.25, from 2.05 to 2.70, and 3.5 times that 7.875, from 7.175
// to 9.45: 8.00, from 8.00 to 10.00.
func TestRangesInTheAnswer(t *testing.T) {
	a, err := pricelist.Price([]byte(ranged))
	if err != nil {
		t.Fatal(err)
	}
	p := a.Products[0]
	if p.Price.String() != "8.00" || !p.Uncertainty.Matters {
		t.Errorf("a4 costs %s, and knowing better matters: %t", p.Price, p.Uncertainty.Matters)
	}
	amounts := func(low, high string) quoin.Range[quoin.Amount] {
		return quoin.Between(quoin.MustAmount(low), quoin.MustAmount(high))
	}
	checkRange(t, "goods", p.Channels[0].Range.Goods, amounts("2.05", "2.70"))
	checkRange(t, "net", p.Channels[0].Range.Net, amounts("5.30", "5.95"))
	checkRange(t, "least", quoin.Between(p.Uncertainty.Cheapest.Least.Or(quoin.Amount{}), p.Uncertainty.Dearest.Least.Or(quoin.Amount{})), amounts("8.00", "10.00"))
	want := []struct{ path, low, high, cheap, dear string }{
		{"products[0].bill[1].quantity", "0.6 ml", "1.6 ml", "2.10", "2.60"},
		{"supplies[0].price", "55.00", "70.00", "2.20", "2.35"},
	}
	for i, in := range p.Uncertainty.Inputs {
		w := want[i]
		if in.Path != w.path || in.Low.String() != w.low || in.High.String() != w.high || in.Channel != "fair" {
			t.Errorf("input %d is %+v, want %+v", i, in, w)
		}
		checkRange(t, in.Path, in.Goods, amounts(w.cheap, w.dear))
	}
	if len(p.Uncertainty.Inputs) != len(want) {
		t.Errorf("%d inputs, want %d", len(p.Uncertainty.Inputs), len(want))
	}
	if sure := a.Products[1].Uncertainty; sure.Matters || len(sure.Inputs) != 0 || !sure.Cheapest.Price.Equal(sure.Dearest.Price) {
		t.Errorf("what no range touches has the spread %+v", sure)
	}
	if own := p.Channels[0].Statement.OwnTime; !own.Equal(quoin.MustAmount("1.20")) {
		t.Errorf("own time is %s of goods, want 1.20", own)
	}
}

func checkRange(t *testing.T, what string, got, want quoin.Range[quoin.Amount]) {
	t.Helper()
	if !got.Low.Equal(want.Low) || !got.High.Equal(want.High) {
		t.Errorf("%s: %s to %s, want %s to %s", what, got.Low, got.High, want.Low, want.High)
	}
}

// A framed print is the print and its frame; what the two share stands once.
func TestBaseSharesItsBill(t *testing.T) {
	a, err := pricelist.Price([]byte(`{"version": 1, "currency": "EUR",
		"supplies": [{"id": "sheet", "quantity": "10 sheet", "price": "20.00"}, {"id": "frame", "quantity": "1 frame", "price": "14.00"}],
		"products": [
			{"id": "framed", "extends": "print", "bill": [{"supply": "frame", "quantity": "1 frame"}]},
			{"id": "print", "bill": [{"supply": "sheet", "quantity": "1 sheet"}], "run": {"good": 10, "setup": "5.00"}}
		],
		"channels": [{"id": "fair"}],
		"rules": [{"id": "cost", "rule": "cost_multiple", "at_least": "2"}]}`))
	if err != nil {
		t.Fatal(err)
	}
	for i, goods := range []string{"16.50", "2.50"} { // 2.00 and 0.50 for the run, and the frame
		if got := a.Products[i].Channels[0].Statement.Goods; !got.Equal(quoin.MustAmount(goods)) {
			t.Errorf("%s: goods cost %s, want %s", a.Products[i].ID, got, goods)
		}
	}
	steps := a.Products[0].Channels[0].Steps.Steps()
	var at []string
	for _, s := range steps {
		if s.Code == "line_cost" || s.Code == "run_per_item" {
			at = append(at, s.At.String())
		}
	}
	if want := []string{"products[1].bill[0]", "products[0].bill[0]", "products[1].run"}; !slices.Equal(at, want) {
		t.Errorf("the lines stand at %q, want %q", at, want)
	}
	if err := quoin.Replay(steps); err != nil {
		t.Error(err)
	}
	if i := slices.IndexFunc(steps, func(s quoin.Step) bool { return s.Code == margin.StepGoods }); i < 0 || steps[i].Value.String() != "16.50" {
		t.Errorf("goods are explained as step %d of %v", i, steps)
	}
}
