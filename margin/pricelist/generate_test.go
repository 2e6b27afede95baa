package pricelist_test

import (
	"encoding/json"
	"errors"
	"fmt"
	"slices"
	"strings"
	"testing"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"pgregory.net/rapid"
)

// genDocument draws a valid shop document with a grid small enough to try every
// price, whose figures are in proportion to its highest price.
func genDocument(t *rapid.T) []byte {
	g := &docGen{t: t}
	return g.document()
}

// genBoundedBelow draws a document all of whose rules hold for every price from
// some cost or margin upward, with fees that have no tiers and no bounds, so
// that whatever costs more can only raise the least price.
func genBoundedBelow(t *rapid.T) []byte {
	g := &docGen{t: t, boundedBelow: true}
	return g.document()
}

// genMixed draws a document of shops that sell to buyers themselves, with classes of tax, in most of
// whose orders others have one too and shipping is taxed.
func genMixed(t *rapid.T) []byte {
	g := &docGen{t: t, mixed: true}
	return g.document()
}

type genFields = map[string]any

// docGen draws one document. Money is counted in minor units until written.
type docGen struct {
	t            *rapid.T
	boundedBelow bool
	mixed        bool
	sizeless     bool // products have no sizes
	currency     string
	digits       int // of the minor unit
	step, top    int // the grid's step and the price limit
	supplies     []genMaterial
	stages       []string
	packings     []string
	products     []string
	designs      map[string]int // how many products show each
	turned       int            // of the sizes, so that the first is not always the smallest
	channels     []string
	sold         map[string][]string // the products that channels sell
	classes      []string            // of tax
	stocks       []string            // supplies that are out of a stock
	sizes        map[string]genSizes
	hasRun       bool // the product that lines are drawn for
	outlet       genOutlet
}

func (g *docGen) document() []byte {
	doc := genFields{"version": 1}
	g.drawGrid(doc)
	doc["supplies"] = g.drawSupplies()
	if len(g.stocks) > 0 {
		doc["date"] = genToday
		g.sometimes(70, doc, "purchases", func() any { return g.drawPurchases() })
	}
	g.sometimes(30, doc, "machines", func() any { return g.drawMachines() })
	if stages := g.drawStages(); len(stages) > 0 {
		doc["stages"] = stages
	}
	g.sometimes(40, doc, "contingency", func() any { return g.rate("contingency", 100, 1500) })
	if g.mixed || g.chance(35, "classes of tax") {
		g.classes = []string{"prints", "frames"}
	}
	products := g.drawProducts()
	doc["products"] = products
	doc["channels"] = g.drawChannels(products)
	g.sometimes(50, doc, "overhead", func() any { return g.spread("overhead", 300) })
	g.sometimes(50, doc, "income_tax", func() any { return g.rate("income tax", 0, 4500) })
	if !g.boundedBelow {
		g.sometimes(90, doc, "comparables", func() any { return g.drawComparables() })
		g.sometimes(75, doc, "choose", func() any { return g.oneOf("choose", "least", "greatest", "nearest") })
	}
	doc["rules"] = g.drawRules()
	return g.withinBounds(doc)
}

// withinBounds writes the document. A channel whose terms would fall into more pieces than one may
// have taxes shipping at one rate instead, which is what breaks them into the most.
func (g *docGen) withinBounds(doc genFields) []byte {
	text, err := json.Marshal(doc)
	if err != nil {
		g.t.Fatalf("a generated document cannot be written: %v", err)
	}
	var problems quoin.Problems
	var changed bool
	if _, err := pricelist.Decode(text); !errors.As(err, &problems) {
		return text
	}
	for i, c := range doc["channels"].([]genFields) {
		tooMany := func(p quoin.Problem) bool {
			return p.Code == quoin.TooMany && p.Path == fmt.Sprintf("channels[%d]", i)
		}
		if tax, _ := c["tax"].(genFields); tax != nil && tax["shipping_rate"] != "highest" && slices.ContainsFunc(problems, tooMany) {
			tax["shipping_rate"], changed = "highest", true
		}
	}
	if !changed {
		return text
	}
	return g.withinBounds(doc)
}

func (g *docGen) drawGrid(doc genFields) {
	currency := g.oneOf("currency", "EUR", "JPY", "KWD")
	g.digits = map[string]int{"EUR": 2, "JPY": 0, "KWD": 3}[currency]
	g.step = rapid.SampledFrom([]int{1, 5, 10, 50, 100, 25, 3}).Draw(g.t, "step")
	g.top = g.step * g.number("prices", 60, 400)
	doc["currency"], g.currency = currency, currency
	doc["price_limit"] = g.written(g.top + g.number("over the grid", 0, g.step-1))
	if g.step > 1 || g.chance(30, "the step is written") {
		doc["price_step"] = g.written(g.step)
	}
}

// spread is a cost shared by items, up to so many hundredths of a per cent of
// the highest price each.
func (g *docGen) spread(label string, atMost int) genFields {
	items := rapid.SampledFrom([]int{30, 3, 7, 60, 900}).Draw(g.t, label+" items")
	s := genFields{"cost": g.written(g.number(label+" cost", 0, g.share(items*atMost))), "items": items}
	if g.chance(40, "items as text") {
		s["items"] = fmt.Sprint(items)
	}
	return s
}

func (g *docGen) drawComparables() []genFields {
	var list []genFields
	for range g.number("comparables", 1, 12) {
		list = append(list, genFields{
			"product": g.oneOf("compared with", g.products...),
			"venue":   g.oneOf("venue", "north market", "gallery", "harbour"),
			"price":   g.written(g.comparablePrice()),
			"sold":    rapid.SampledFrom([]int{1, 0, 3, 12, 40}).Draw(g.t, "sold"),
		})
	}
	return list
}

// comparablePrice is on the grid more often than not, or a lone comparable
// would allow no price at all.
func (g *docGen) comparablePrice() int {
	price := g.part("comparable price", 1500, 10_000)
	if g.chance(75, "on the grid") {
		price -= price % g.step
	}
	return price
}

// number draws evenly enough that large values are as common as small ones,
// which a plain draw from a range is not.
func (g *docGen) number(label string, from, to int) int {
	if to-from < 4 {
		return rapid.IntRange(from, to).Draw(g.t, label)
	}
	place := 0
	for range 3 {
		place = place*16 + rapid.IntRange(0, 15).Draw(g.t, label)
	}
	return from + (to-from+1)*place/4096
}

func (g *docGen) chance(percent int, label string) bool {
	return g.number(label, 0, 99) >= 100-percent
}

func (g *docGen) oneOf(label string, words ...string) string {
	return rapid.SampledFrom(words).Draw(g.t, label)
}

// anyOf draws the last words as often as the first.
func (g *docGen) anyOf(label string, words ...string) string {
	return words[g.number(label, 0, 8*len(words)-1)/8]
}

// sometimes sets a field in so many documents of a hundred.
func (g *docGen) sometimes(percent int, of genFields, name string, draw func() any) {
	if g.chance(percent, "has "+name) {
		of[name] = draw()
	}
}

// share is so many hundredths of a per cent of the highest price.
func (g *docGen) share(basis int) int { return g.top * basis / 10_000 }

func (g *docGen) part(label string, from, to int) int {
	return g.number(label, g.share(from), g.share(to))
}

// written writes minor units as text, with all digits or only those needed, or
// as a number.
func (g *docGen) written(minor int) any {
	return g.writtenDecimal(minor, g.digits)
}

// fine draws an amount that may be finer than the minor unit.
func (g *docGen) fine(label string, from, to int) any {
	if g.chance(60, "in minor units") {
		return g.written(g.number(label, from, to))
	}
	return g.writtenDecimal(g.number(label, from*100, to*100), g.digits+2)
}

func (g *docGen) writtenDecimal(coefficient, places int) any {
	text := genDecimal(coefficient, places)
	switch g.oneOf("written as", "all digits", "digits needed", "number") {
	case "all digits":
		return text
	case "digits needed":
		return genTrimmed(text)
	default:
		return json.Number(genTrimmed(text))
	}
}

func (g *docGen) rate(label string, from, to int) string {
	return g.writtenRate(g.number(label, from, to))
}

// writtenRate writes hundredths of a per cent in either of the two ways.
func (g *docGen) writtenRate(basis int) string {
	if g.chance(50, "rate as a fraction") {
		return genTrimmed(genDecimal(basis, 4))
	}
	return genTrimmed(genDecimal(basis, 2)) + "%"
}

func genDecimal(coefficient, places int) string {
	if places == 0 {
		return fmt.Sprint(coefficient)
	}
	digits := fmt.Sprintf("%0*d", places+1, coefficient)
	point := len(digits) - places
	return digits[:point] + "." + digits[point:]
}

func genTrimmed(text string) string {
	if !strings.Contains(text, ".") {
		return text
	}
	return strings.TrimSuffix(strings.TrimRight(text, "0"), ".")
}

func TestOracleAcceptsGeneratedDocuments(t *testing.T) {
	t.Run("any", func(t *testing.T) { countAnswers(t, genDocument) })
	t.Run("bounded below", func(t *testing.T) { countAnswers(t, genBoundedBelow) })
}

func countAnswers(t *testing.T, gen func(*rapid.T) []byte) {
	var decided, conflicts, dropping int
	rapid.Check(t, func(t *rapid.T) {
		doc := gen(t)
		answer, err := oracle(doc)
		switch {
		case err != nil:
			t.Fatalf("%v\n%s", err, doc)
		case len(answer.Conflict) > 0:
			conflicts++
		default:
			decided++
		}
		if len(answer.Dropped) > 0 {
			dropping++
		}
	})
	t.Logf("%d decided, %d of them with dropped rules; %d conflicts", decided, dropping, conflicts)
}
