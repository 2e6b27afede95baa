package pricelist_test

import (
	"encoding/json"
	"fmt"
	"slices"
	"strings"
	"testing"

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

type genFields = map[string]any

// docGen draws one document. Money is counted in minor units until written.
type docGen struct {
	t            *rapid.T
	boundedBelow bool
	digits       int // of the minor unit
	step, top    int // the grid's step and the price limit
	supplies     []genMaterial
	stages       []string
	packings     []string
	products     []string
	channels     []string
	hasRun       bool // the product that lines are drawn for
}

// genMaterial is something bought in one unit and used in several; what is
// used is a small part of what is bought, and thirds and sevenths are common.
type genMaterial struct {
	id           string
	bought, used []string
}

var genMaterials = []genMaterial{
	{"sheets", []string{"50 sheet", "30 sheet", "100 sheet"}, []string{"1 sheet", "0.5 sheet", "3 sheet", "0.7 sheet"}},
	{"roll", []string{"15 m", "50 ft", "1800 cm"}, []string{"14 in", "36 cm", "297 mm", "1 ft", "0.3 m"}},
	{"ink", []string{"80 ml", "0.07 l"}, []string{"0.9 ml", "3 ml", "0.0017 l"}},
	{"time", []string{"1 h", "3 h", "90 min"}, []string{"4 min", "390 s", "0.07 h"}},
	{"clay", []string{"1 kg", "2 lb", "700 g"}, []string{"30 g", "1 oz", "0.07 lb", "0.007 kg"}},
	{"canvas", []string{"3 m2", "4650 in2"}, []string{"623.7 cm2", "93.5 in2", "0.07 m2"}},
}

func (g *docGen) document() []byte {
	doc := genFields{"version": 1}
	g.drawGrid(doc)
	doc["supplies"] = g.drawSupplies()
	g.sometimes(30, doc, "machines", func() any { return g.drawMachines() })
	if stages := g.drawStages(); len(stages) > 0 {
		doc["stages"] = stages
	}
	g.sometimes(40, doc, "contingency", func() any { return g.rate("contingency", 100, 1500) })
	doc["products"] = g.drawProducts()
	doc["channels"] = g.drawChannels()
	g.sometimes(50, doc, "overhead", func() any { return g.spread("overhead", 300) })
	g.sometimes(50, doc, "income_tax", func() any { return g.rate("income tax", 0, 4500) })
	if !g.boundedBelow {
		g.sometimes(90, doc, "comparables", func() any { return g.drawComparables() })
		g.sometimes(75, doc, "choose", func() any { return g.oneOf("choose", "least", "greatest", "nearest") })
	}
	doc["rules"] = g.drawRules()
	text, err := json.Marshal(doc)
	if err != nil {
		g.t.Fatalf("a generated document cannot be written: %v", err)
	}
	return text
}

func (g *docGen) drawGrid(doc genFields) {
	currency := g.oneOf("currency", "EUR", "JPY", "KWD")
	g.digits = map[string]int{"EUR": 2, "JPY": 0, "KWD": 3}[currency]
	g.step = rapid.SampledFrom([]int{1, 5, 10, 50, 100, 25, 3}).Draw(g.t, "step")
	g.top = g.step * g.number("prices", 60, 400)
	doc["currency"] = currency
	doc["price_limit"] = g.written(g.top + g.number("over the grid", 0, g.step-1))
	if g.step > 1 || g.chance(30, "the step is written") {
		doc["price_step"] = g.written(g.step)
	}
}

func (g *docGen) drawSupplies() []genFields {
	var list []genFields
	for i := range g.number("supplies", 1, 4) {
		m := rapid.SampledFrom(genMaterials).Draw(g.t, "material")
		m.id = fmt.Sprintf("%s-%d", m.id, i+1)
		g.supplies = append(g.supplies, m)
		list = append(list, g.drawSupply(m))
	}
	return list
}

func (g *docGen) drawSupply(m genMaterial) genFields {
	price := g.number("supply price", g.share(2000)+1, g.share(25_000)+1)
	s := genFields{"id": m.id, "name": "Material " + m.id, "price": g.written(price)}
	s["quantity"] = g.oneOf("bought", m.bought...)
	if strings.HasPrefix(m.id, "sheets") {
		s["sheet"] = genFields{"size": "50 x 70 cm", "border": g.oneOf("border", "0 cm", "1 cm", "2 cm")}
	}
	g.sometimes(20, s, "labour", func() any { return g.oneOf("labour", "own", "paid") })
	g.sometimes(25, s, "discount", func() any { return g.written(g.number("discount", 0, price/2)) })
	g.sometimes(25, s, "freight", func() any { return g.fine("freight", 0, price/5) })
	g.sometimes(25, s, "duty", func() any { return g.fine("duty", 0, price/5) })
	g.sometimes(25, s, "exchange", func() any { return g.oneOf("exchange", "1.08", "0.92", "1.1733", "0.7", "1") })
	if s["sheet"] != nil && g.chance(25, "of an offer") {
		g.drawOffer(s)
	}
	return s
}

// drawOffer buys a supply by the step in place of its quantity and price.
func (g *docGen) drawOffer(s genFields) {
	delete(s, "quantity")
	delete(s, "price")
	delete(s, "discount")
	each := g.number("each", 2, g.share(3000)+2)
	steps := []genFields{{"from": 1, "each": g.written(each)}}
	steps = append(steps, genFields{"from": g.number("step", 2, 20), "each": g.written(each - each/rapid.SampledFrom([]int{3, 5, 9}).Draw(g.t, "off"))})
	scale := genFields{"steps": steps, "mode": g.oneOf("mode", "all_units", "incremental"), "freight": g.written(g.number("freight", 0, each))}
	g.sometimes(40, scale, "free_from", func() any { return g.written(8 * each) })
	g.sometimes(30, scale, "multiple", func() any { return 3 })
	s["offer"] = genFields{"pack": g.oneOf("pack", "1 sheet", "5 sheet"), "need": g.number("need", 1, 20), "scale": scale}
}

func (g *docGen) drawStages() []genFields {
	var list []genFields
	for i := range g.number("stages", 0, 3) {
		id := fmt.Sprintf("stage-%d", i+1)
		g.stages = append(g.stages, id)
		s := genFields{"id": id}
		lost := g.oneOf("what is lost", "yield", "yield", "lost_of_started", "lost_of_good")
		g.sometimes(85, s, lost, func() any {
			if lost == "yield" {
				return g.oneOf("yield", "92%", "87%", "0.99", "0.85", "93.3%", "75%", "100%", "1")
			}
			return g.oneOf(lost, "8%", "0.13", "15%", "33.3%", "0%")
		})
		if !g.boundedBelow {
			g.sometimes(30, s, "recovery", func() any { return g.drawRecovery() })
			g.sometimes(20, s, "seconds", func() any {
				return genFields{"share": g.oneOf("seconds", "40%", "0.075", "1"), "price": g.drawRecovery()}
			})
		}
		list = append(list, s)
	}
	return list
}

// drawRecovery stays so small that goods cost something however little goes
// into them. A shop bounded from below has none: where nothing is used up before
// the loss, recovery would make a lower yield the cheaper one.
func (g *docGen) drawRecovery() any {
	return g.writtenDecimal(g.number("recovery", 0, g.top/50+1), g.digits+2)
}

func (g *docGen) drawProducts() []genFields {
	g.packings = []string{"parcel", "shelf"}[:g.number("packings", 0, 2)]
	var list []genFields
	for i := range g.number("products", 1, 3) {
		id := fmt.Sprintf("print-%d", i+1)
		g.products = append(g.products, id)
		p := genFields{"id": id, "name": "Print " + id}
		g.sometimes(40, p, "run", func() any { return g.drawRun() })
		if i > 0 {
			g.sometimes(30, p, "base", func() any { return g.oneOf("base", g.products[:i]...) })
		}
		g.hasRun = p["run"] != nil
		p["bill"] = g.drawLines(3)
		g.sometimes(85, p, "price", func() any { return g.written(g.part("today's price", 1500, 8000)) })
		if len(g.packings) > 0 {
			packing := map[string][]genFields{}
			for _, name := range g.packings {
				packing[name] = g.drawLines(2)
			}
			p["packing"] = packing
		}
		list = append(list, p)
	}
	return list
}

func (g *docGen) drawLines(atMost int) []genFields {
	var lines []genFields
	for range g.number("lines", 1, atMost) {
		m := rapid.SampledFrom(g.supplies).Draw(g.t, "of material")
		l := genFields{"supply": m.id}
		if !g.chance(35, "follows") || !g.drawFollows(m, l) {
			l["quantity"] = g.oneOf("used", m.used...)
		}
		if len(g.stages) > 0 {
			g.sometimes(70, l, "stage", func() any { return g.oneOf("stage", g.stages...) })
		}
		g.sometimes(45, l, "per", func() any { return g.drawDriver(l) })
		lines = append(lines, l)
	}
	return lines
}

// drawFollows draws what the quantity of a line follows from; false where its
// material has nothing of the kind.
func (g *docGen) drawFollows(m genMaterial, line genFields) bool {
	kind, _, _ := strings.Cut(m.id, "-")
	switch kind {
	case "sheets":
		cut := genFields{"piece": g.oneOf("piece", "12 x 17 cm", "9 x 13 cm", "20 x 31 cm", "7 x 7 cm")}
		g.sometimes(40, cut, "gutter", func() any { return g.oneOf("gutter", "1 cm", "2 cm") })
		g.sometimes(30, cut, "layout", func() any { return g.oneOf("layout", "grid", "guillotine") })
		line["cut"] = cut
	case "ink":
		ink := genFields{"per_m2": g.oneOf("per m2", "12 ml", "0.009 l", "7.3 ml"), "image": g.oneOf("image", "12 x 17 cm", "20 x 31 cm")}
		g.sometimes(50, ink, "upkeep", func() any {
			return genFields{"share": g.oneOf("upkeep", "30%", "0.45"), "per_month": "20 ml", "prints_per_month": g.oneOf("prints", "40", "7")}
		})
		line["ink"] = ink
	case "roll":
		line["moulding"] = genFields{"width": g.oneOf("width", "2 cm", "35 mm"), "allowance": "1 cm", "glass": g.oneOf("glass", "20 x 31 cm", "9 x 13 cm")}
	default:
		return false
	}
	return true
}

func (g *docGen) drawMachines() []genFields {
	m := genFields{
		"id": "machine", "unit": "print", "price": g.written(g.number("machine", g.share(5000)+1, g.share(90_000)+1)),
		"life_months": 36, "prints_per_month": g.oneOf("prints per month", "40", "7", "12.5"),
	}
	g.sometimes(50, m, "life_prints", func() any { return g.oneOf("life", "100", "1000", "333") })
	g.sometimes(40, m, "service", func() any {
		return []genFields{{"name": "part", "price": g.written(g.number("part", 0, g.share(2000))), "every": g.oneOf("every", "30", "7")}}
	})
	g.supplies = append(g.supplies, genMaterial{"machine", nil, []string{"1 print", "2 print"}})
	return []genFields{m}
}

// drawDriver draws what a line is counted by, and sets what that asks for.
func (g *docGen) drawDriver(line genFields) string {
	drivers := []string{"order", "item", "design", "listing", "period"}
	if g.hasRun {
		drivers = append(drivers, "run", "batch")
	}
	per := g.oneOf("per", drivers...)
	if per == "run" || per == "design" || per == "listing" || per == "period" {
		delete(line, "stage")
	}
	switch per {
	case "batch":
		line["over"] = g.oneOf("a batch", "8", "3", "0.5", "60")
	case "design", "listing", "period":
		line["over"] = g.oneOf("over", "60", "7", "1", "2.5")
	}
	return per
}

func (g *docGen) drawRun() genFields {
	run := genFields{"good": rapid.SampledFrom([]int{25, 3, 7, 12, 30}).Draw(g.t, "good")}
	g.sometimes(80, run, "tests", func() any { return g.number("tests", 0, 3) })
	g.sometimes(50, run, "setup", func() any { return g.fine("setup", 0, g.share(800)) })
	return run
}

func (g *docGen) drawChannels() []genFields {
	var list []genFields
	for i := range g.number("channels", 1, 3) {
		id := fmt.Sprintf("channel-%d", i+1)
		g.channels = append(g.channels, id)
		list = append(list, g.drawChannel(id))
	}
	return list
}

func (g *docGen) drawChannel(id string) genFields {
	c := genFields{"id": id}
	g.sometimes(50, c, "name", func() any { return "Channel " + id })
	if len(g.packings) > 0 {
		g.sometimes(75, c, "packing", func() any { return g.oneOf("packing", g.packings...) })
	}
	g.sometimes(35, c, "loss", func() any { return g.rate("loss", 50, 1000) })
	g.sometimes(20, c, "uplift", func() any { return g.rate("uplift", 0, 3000) })
	g.sometimes(20, c, "trade_discount", func() any { return g.drawDiscounts() })
	g.sometimes(20, c, "promotion", func() any { return g.rate("promotion", 0, 3000) })
	g.sometimes(70, c, "tax", func() any { return g.drawTax() })
	g.sometimes(80, c, "orders", func() any { return g.drawOrders() })
	g.sometimes(75, c, "fees", func() any { return g.drawFees() })
	g.sometimes(35, c, "period", func() any { return g.spread("period", 400) })
	return c
}

func (g *docGen) drawDiscounts() []string {
	var chain []string
	for range g.number("discounts", 1, 3) {
		chain = append(chain, g.oneOf("trade discount", "10%", "0.05", "33.33%", "25%", "2.5%", "50%"))
	}
	return chain
}

func (g *docGen) drawTax() genFields {
	tax := genFields{"rate": g.oneOf("tax rate", "20%", "0.19", "7%", "8.25%", "0.055", "21%", "0%")}
	g.sometimes(75, tax, "in_price", func() any { return g.chance(60, "tax in price") })
	g.sometimes(75, tax, "on_shipping", func() any { return g.chance(60, "tax on shipping") })
	return tax
}

func (g *docGen) drawOrders() []genFields {
	var list []genFields
	for _, share := range g.drawShares() {
		o := genFields{}
		if share < 10_000 || g.chance(30, "the share is written") {
			o["share"] = g.writtenRate(share)
		}
		g.sometimes(70, o, "items", func() any { return rapid.SampledFrom([]int{1, 2, 3, 7, 12}).Draw(g.t, "items") })
		g.sometimes(60, o, "shipping", func() any { return g.written(g.part("shipping", 0, 800)) })
		if !g.boundedBelow {
			g.sometimes(35, o, "free_from", func() any { return g.written(g.part("free from", 500, 12_000)) })
		}
		g.sometimes(60, o, "postage", func() any { return g.fine("postage", 0, g.share(800)) })
		g.sometimes(20, o, "tax_rate", func() any { return g.oneOf("order's tax rate", "10%", "0%", "0.21", "5.5%") })
		list = append(list, o)
	}
	return list
}

// drawShares splits one into the shares of one to three kinds of order, in
// hundredths of a per cent.
func (g *docGen) drawShares() []int {
	switch g.number("kinds of order", 1, 3) {
	case 1:
		return []int{10_000}
	case 2:
		first := 50 * g.number("first share", 1, 199)
		return []int{first, 10_000 - first}
	}
	if g.chance(30, "thirds") {
		return []int{3333, 3333, 3334}
	}
	first, second := 50*g.number("first share", 1, 99), 50*g.number("second share", 1, 99)
	return []int{first, second, 10_000 - first - second}
}

func (g *docGen) drawFees() []genFields {
	var list []genFields
	for i := range g.number("fees", 1, 3) {
		list = append(list, g.drawFee(fmt.Sprintf("fee %d", i+1)))
	}
	return list
}

func (g *docGen) drawFee(name string) genFields {
	f := genFields{"name": name}
	parts := []string{"items", "items shipping", "items shipping tax", "items tax", "shipping", "tax", "shipping tax"}
	g.sometimes(60, f, "of", func() any { return strings.Fields(g.oneOf("of", parts...)) })
	if !g.boundedBelow && g.chance(30, "in tiers") {
		f["tiers"] = g.drawTiers()
		f["tier_mode"] = g.oneOf("tier mode", "marginal", "whole")
	} else {
		g.sometimes(75, f, "rate", func() any { return g.drawFeeRate() })
	}
	if charged := f["rate"] != nil || f["tiers"] != nil; !charged || g.chance(40, "has fixed") {
		f["fixed"] = g.fine("fixed", 0, g.share(200))
	}
	g.sometimes(35, f, "per", func() any { return g.oneOf("per", "order", "item") })
	if !g.boundedBelow {
		g.sometimes(20, f, "at_least", func() any { return g.fine("fee at least", 0, g.share(300)) })
		g.sometimes(20, f, "at_most", func() any { return g.fine("fee at most", g.share(300), g.share(1500)) })
	}
	g.sometimes(30, f, "share", func() any { return g.rate("fee share", 500, 10_000) })
	g.sometimes(30, f, "tax", func() any { return g.rate("tax on the fee", 500, 2500) })
	g.sometimes(50, f, "rounding", func() any { return g.oneOf("rounding", "half_up", "half_even", "up", "down") })
	return f
}

// drawFeeRate prefers rates that come to half a minor unit, where the ways of
// rounding part.
func (g *docGen) drawFeeRate() string {
	if g.chance(40, "a round rate") {
		return g.oneOf("round rate", "2.5%", "0.05", "10%", "12.5%", "1.25%", "0.15")
	}
	return g.rate("fee rate", 50, 1600)
}

func (g *docGen) drawTiers() []genFields {
	from := 0
	if g.chance(20, "nothing below the first tier") {
		from = g.part("first tier", 200, 3000)
	}
	var list []genFields
	var rates []int
	for range g.number("tiers", 1, 3) {
		list = append(list, genFields{"from": g.written(from)})
		rates = append(rates, g.number("tier rate", 100, 1600))
		from += 1 + g.part("next tier", 300, 6000)
	}
	slices.Sort(rates)
	if g.chance(50, "falling tiers") {
		slices.Reverse(rates)
	}
	for i, r := range rates {
		list[i]["rate"] = g.writtenRate(r)
	}
	return list
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
