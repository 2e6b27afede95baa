package pricelist_test

import (
	"bytes"
	"encoding/json"
	"fmt"
	"maps"
	"math/big"
	"slices"
	"testing"

	"example.com/quoin/margin/pricelist"
	"pgregory.net/rapid"
)

func (g *docGen) drawRules() []genFields {
	rules := []genFields{}
	for i := range g.number("rules", 0, 5) + g.number("more rules", 0, 8) {
		r := g.drawRule()
		r["id"] = fmt.Sprintf("rule %d", i+1)
		rules = append(rules, r)
	}
	return rules
}

func (g *docGen) drawRule() genFields {
	name := g.oneOf("rule", g.ruleNames()...)
	r := genFields{"rule": name}
	g.drawBounds(name, r)
	if name != "size_ratio" {
		if len(g.designs) > 0 && g.chance(15, "of designs") {
			r["designs"] = g.someOf("rule's designs", slices.Sorted(maps.Keys(g.designs)))
		} else {
			g.sometimes(35, r, "products", func() any { return g.someOf("rule's products", g.products) })
		}
		g.sometimes(genOfChannels[name], r, "channels", func() any { return g.someOf("rule's channels", g.channels) })
	}
	if g.boundedBelow {
		g.sometimes(30, r, "strength", func() any { return "must" })
		return r
	}
	if g.chance(genPreferred[name], "preferred") {
		r["strength"] = "prefer"
	} else {
		g.sometimes(30, r, "strength", func() any { return "must" })
	}
	return r
}

// genPreferred is how many rules of a hundred are only preferred: those that
// leave few prices are, or hardly any document would be decided.
var genPreferred = map[string]int{
	"price": 35, "cost_multiple": 20, "gross_margin": 25, "net_margin": 25, "contribution": 25,
	"market": 35, "ending": 75, "max_change": 60, "size_ratio": 30,
}

// genOfChannels is how many rules of a hundred name channels. It means nothing
// to those about the price alone, which may still do so.
var genOfChannels = map[string]int{
	"cost_multiple": 40, "gross_margin": 40, "net_margin": 40, "contribution": 40,
	"price": 8, "market": 8, "ending": 8, "max_change": 8,
}

func (g *docGen) ruleNames() []string {
	names := []string{"cost_multiple", "net_margin", "contribution", "gross_margin", "price"}
	if g.boundedBelow {
		return names
	}
	names = append(names, "market", "ending", "max_change")
	if len(g.products) > 1 {
		names = append(names, "size_ratio", "size_ratio", "size_ratio")
	}
	return names
}

func (g *docGen) drawBounds(name string, r genFields) {
	switch name {
	case "price":
		g.drawPriceBounds(r)
	case "cost_multiple":
		r["at_least"] = genTrimmed(genDecimal(g.number("multiple", 10, 60), 1))
	case "gross_margin":
		r["at_least"] = g.rate("gross margin", 1000, 9000)
	case "net_margin":
		r["at_least"] = g.rate("net margin", 0, 4000)
	case "contribution":
		r["at_least"] = g.fine("contribution", 0, g.share(4000))
	case "market":
		r["from_quantile"], r["to_quantile"] = g.rate("from", 0, 4500), g.rate("to", 5500, 10_000)
		g.sometimes(40, r, "min_sold", func() any { return g.number("min sold", 0, 3) })
		g.sometimes(85, r, "min_sales", func() any { return g.number("min sales", 1, 2) })
		g.sometimes(85, r, "min_venues", func() any { return 1 })
	case "ending":
		g.drawEndings(r)
	case "max_change":
		r["at_most"] = g.rate("move", 100, 4000)
	case "size_ratio":
		g.drawStep(r)
	}
	if name == "gross_margin" || name == "net_margin" || name == "contribution" {
		g.sometimes(35, r, "asked_of", func() any { return "worst" })
	}
}

// drawPriceBounds lets the bounds cross now and then: a conflict of one rule.
func (g *docGen) drawPriceBounds(r genFields) {
	if g.boundedBelow || g.chance(50, "price from below") {
		r["at_least"] = g.fine("price at least", 0, g.share(7000))
	}
	if !g.boundedBelow && (r["at_least"] == nil || g.chance(40, "price from both sides")) {
		r["at_most"] = g.fine("price at most", g.share(2000), g.share(8000))
	}
}

// drawEndings draws a modulus of some steps, so that the endings are met, or
// now and then one that is no multiple of the step.
func (g *docGen) drawEndings(r genFields) {
	one := 1
	for range g.digits {
		one *= 10
	}
	modulus := g.step * g.number("steps of the modulus", 1, 20)
	switch {
	case 3*one <= g.top && g.chance(40, "the modulus is left out"):
		modulus = one
	case g.chance(15, "the modulus is no multiple of the step"):
		modulus += g.number("beside the step", 0, g.step)
		r["every"] = g.written(modulus)
	default:
		r["every"] = g.written(modulus)
	}
	var endings []any
	for _, steps := range g.distinct("endings", 3, (modulus-1)/g.step) {
		endings = append(endings, g.written(steps*g.step))
	}
	r["ends_in"] = endings
}

// drawDesign lets prints show the same, each of them of another size.
func (g *docGen) drawDesign(p genFields, i int) {
	sizes := [][]string{{"12 x 17 cm", "17 x 12 cm"}, {"15 x 21 cm"}, {"20 x 31 cm", "31 x 20 cm"}} // that hold every image
	g.sometimes(60, p, "design", func() any {
		sheet := g.oneOf("size", sizes[(i+g.turned)%3]...)
		p["sheet"] = sheet
		base, _ := p["extends"].(string)
		g.sizes[p["id"].(string)] = genSizes{image: g.sizes[base].image, sheet: sheet}
		design := g.oneOf("design", "reeds", "reeds", "mud")
		g.designs[design]++
		return design
	})
}

// throughDesigns draws a ladder of each design; false where none has two products.
func (g *docGen) throughDesigns(r genFields) bool {
	var several []string
	for _, d := range slices.Sorted(maps.Keys(g.designs)) {
		if g.designs[d] > 1 {
			several = append(several, d)
		}
	}
	if len(several) == 0 || !g.chance(50, "through designs") {
		return false
	}
	g.sometimes(30, r, "designs", func() any { return several[:1] })
	g.sometimes(70, r, "order", func() any { return g.oneOf("order", "size", "listed") })
	return true
}

func (g *docGen) drawStep(r genFields) {
	if !g.throughDesigns(r) {
		r["products"] = rapid.Permutation(g.products).Draw(g.t, "chain")[:g.number("length of the chain", 2, len(g.products))]
	}
	least := g.number("step at least", 80, 280)
	if g.chance(75, "step from below") {
		r["at_least"] = genTrimmed(genDecimal(least, 2))
	}
	if r["at_least"] == nil || g.chance(50, "step from both sides") {
		r["at_most"] = genTrimmed(genDecimal(least+g.number("step at most", 0, 120), 2))
	}
}

// distinct draws up to so many different numbers from 0 to the greatest.
func (g *docGen) distinct(label string, atMost, greatest int) []int {
	draw := rapid.IntRange(0, greatest)
	return rapid.SliceOfNDistinct(draw, 1, min(atMost, greatest+1), rapid.ID[int]).Draw(g.t, label)
}

func (g *docGen) someOf(label string, ids []string) []string {
	return rapid.SliceOfNDistinct(rapid.SampledFrom(ids), 1, len(ids), rapid.ID[string]).Draw(g.t, label)
}

// genMarkets draws a document with a market rule whose rules of that kind have
// options, and whose comparables say what these ask. Beside it stands the same
// document without any of that.
func genMarkets(t *rapid.T) (doc, plain []byte) {
	g := &docGen{t: t, sizeless: true} // sizes are drawn below, and no cut follows from them
	plain = g.document()
	of := genRead(t, plain)
	if of["comparables"] == nil {
		of["comparables"] = g.drawComparables()
		of = genRead(t, genWritten(t, of))
	}
	others := genFields{"id": "others", "rule": "market", "strength": g.oneOf("others", "must", "prefer")}
	g.drawBounds("market", others)
	of["rules"] = append(of["rules"].([]any), any(others))
	plain = genWritten(t, of)
	of = genRead(t, plain)
	for _, p := range of["products"].([]any) {
		if p.(genFields)["design"] != nil {
			continue // each size of it is another
		}
		g.sometimes(60, p.(genFields), "sheet", func() any { return g.oneOf("sheet", "12 x 17 cm", "20 x 31 cm", "8 x 10 in") })
		g.sometimes(40, p.(genFields), "image", func() any { return g.oneOf("image", "90 x 130 mm", "7 x 7 cm") })
	}
	for _, c := range of["comparables"].([]any) {
		g.drawBeside(c.(genFields))
	}
	for _, r := range of["rules"].([]any) {
		if rule := r.(genFields); rule["rule"] == "market" {
			g.drawOptions(rule)
		}
	}
	return genWritten(t, of), plain
}

// drawBeside draws what a comparable says beside its price.
func (g *docGen) drawBeside(c genFields) {
	g.sometimes(60, c, "seller", func() any { return g.oneOf("seller", "ada", "ben") })
	g.sometimes(85, c, "size", func() any { return g.oneOf("size", "12 x 17 cm", "9 x 13 cm", "20 x 31 cm", "8 x 10 in") })
	g.sometimes(50, c, "tax", func() any { return g.oneOf("tax", "20%", "7%", "0.055") })
	g.sometimes(40, c, "postage", func() any { return g.fine("postage", 0, g.share(900)) })
	g.sometimes(30, c, "postage_on_top", func() any { return g.written(g.number("postage on top", 0, g.share(700))) })
	g.sometimes(20, c, "edition", func() any { return g.number("edition", 0, 99) })
	g.sometimes(20, c, "signed", func() any { return true })
	g.sometimes(20, c, "date", func() any { return "2026-05-02" })
	if g.chance(25, "framed") {
		c["framed"] = true
		g.sometimes(70, c, "frame_worth", func() any { return g.written(g.number("frame worth", 0, g.share(3000))) })
	}
}

// drawOptions draws exponents that leave fractions what they are.
func (g *docGen) drawOptions(r genFields) {
	g.sometimes(35, r, "min_sales", func() any { return g.number("min sales", 1, 5) })
	g.sometimes(35, r, "min_venues", func() any { return g.number("min venues", 1, 3) })
	g.sometimes(50, r, "quantiles", func() any { return g.oneOf("quantiles", "type_5", "type_6") })
	g.sometimes(60, r, "by_seller", func() any { return g.chance(85, "by seller") })
	g.sometimes(75, r, "basis", func() any {
		basis := genFields{}
		g.sometimes(60, basis, "tax", func() any { return g.oneOf("tax of the basis", "20%", "7%", "0") })
		g.sometimes(60, basis, "exponent", func() any { return rapid.SampledFrom([]any{1, "1", 0, 2, "2.0"}).Draw(g.t, "exponent") })
		return basis
	})
}

func genRead(t *rapid.T, text []byte) genFields {
	d := json.NewDecoder(bytes.NewReader(text))
	d.UseNumber()
	var of genFields
	if err := d.Decode(&of); err != nil {
		t.Fatal(err)
	}
	return of
}

func genWritten(t *rapid.T, of genFields) []byte {
	text, err := json.Marshal(of)
	if err != nil {
		t.Fatal(err)
	}
	return text
}

// Market rules with options allow what the oracle finds that they allow.
func TestMarketOptionsAgreeWithTheOracle(t *testing.T) {
	t.Parallel()
	told := 0
	rapid.Check(t, func(t *rapid.T) {
		doc, plain := genMarkets(t)
		shop, err := readOracleShop(plain)
		if err != nil {
			t.Fatalf("%v\n%s", err, plain)
		}
		w, err := newOracleWorks(shop)
		if err != nil {
			t.Fatal(err)
		}
		var markets oracleMarkets
		if err := json.Unmarshal(doc, &markets); err != nil {
			t.Fatal(err)
		}
		w.askRules()
		w.askMarkets(markets)
		want := w.asked()
		answer, err := pricelist.Price(doc)
		if err != nil {
			t.Fatalf("%v\n%s", err, doc)
		}
		got, err := json.Marshal(answer)
		if err != nil {
			t.Fatal(err)
		}
		places := answer.Currency.Digits()
		for p, sold := range answer.Products {
			var today *big.Rat
			if at := shop.Products[p].Price; at.given() {
				today = at.r
			}
			if line, told := markets.position(w, p, places, today, sold.Price.Rat()), toldPosition(sold, places); line != told {
				t.Fatalf("the market of %s is %s, want %s\n%s", sold.ID, told, line, doc)
			}
		}
		if compareAnswers(t, want, got); t.Failed() {
			t.Logf("%s", doc)
		}
		if len(want.Products) > 0 && len(want.Dropped) == 0 {
			told++
		}
	})
	t.Logf("%d decided with all rules kept", told)
}
