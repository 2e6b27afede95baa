package pricelist_test

import (
	"fmt"
	"strings"

	"pgregory.net/rapid"
)

// genMaterial is something bought in one unit and used in several; what is
// used is a small part of what is bought, and thirds and sevenths are common.
type genMaterial struct {
	id           string
	bought, used []string
}

var genMaterials = []genMaterial{
	{"sheets", []string{"50 sheet", "30 sheets", "100 sheet"}, []string{"1 sheet", "0.5 sheet", "3 sheets", "0.7 sheet", "2/3 sheet", "1 1/4 sheets"}},
	{"roll", []string{"15 metres", "50 ft", "1800 cm"}, []string{"14 in", "36 cm", "297 mm", "1 ft", "0.3 m", "3 2/3 in", "1 1/6 feet", "1/2 m"}},
	{"ink", []string{"80 ml", "0.07 l"}, []string{"0.9 ml", "3 ml", "0.0017 l"}},
	{"time", []string{"1 h", "3 h", "90 min"}, []string{"4 min", "390 s", "0.07 h"}},
	{"clay", []string{"1 kg", "2 lb", "700 g"}, []string{"30 g", "1 oz", "0.07 lb", "0.007 kg"}},
	{"year", []string{"900 prints", "412 print", "66 m2"}, nil}, // known by the year
	{"canvas", []string{"3 m2", "4650 in2"}, []string{"623.7 cm2", "93.5 in2", "0.07 m2"}},
}

func (g *docGen) drawSupplies() []genFields {
	var list []genFields
	for i := range g.number("supplies", 1, 4) {
		m := rapid.SampledFrom(genMaterials).Draw(g.t, "material")
		m.id = fmt.Sprintf("%s-%d", m.id, i+1)
		s := g.drawSupply(m)
		if y, of := s["yearly"].(genFields); of {
			if m.used = []string{"1 print", "2 prints"}; y["printed"] == "66 m2" {
				m.used = []string{"0.06 m2", "623.7 cm2"}
			}
		}
		g.supplies = append(g.supplies, m)
		list = append(list, s)
	}
	return list
}

func (g *docGen) drawSupply(m genMaterial) genFields {
	price := g.number("supply price", g.share(2000)+1, g.share(25_000)+1)
	s := genFields{"id": m.id, "name": "Material " + m.id, "price": g.written(price)}
	s["quantity"] = g.oneOf("bought", m.bought...)
	if strings.HasPrefix(m.id, "year") {
		s["yearly"] = genFields{"spent": s["price"], "printed": s["quantity"]}
		delete(s, "price")
		delete(s, "quantity")
		return s
	}
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
	} else if s["sheet"] != nil && g.chance(45, "out of a stock") {
		g.drawStock(s)
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
	g.designs, g.sizes, g.turned = make(map[string]int), make(map[string]genSizes), g.number("sizes turned", 0, 2)
	var list []genFields
	for i := range g.number("products", 1, 3) {
		id := fmt.Sprintf("print-%d", i+1)
		g.products = append(g.products, id)
		p := genFields{"id": id, "name": "Print " + id}
		g.sometimes(40, p, "run", func() any { return g.drawRun() })
		if i > 0 {
			g.sometimes(30, p, "extends", func() any { return g.oneOf("base", g.products[:i]...) })
		}
		if len(g.classes) > 0 {
			g.sometimes(75, p, "tax_class", func() any { return g.oneOf("class of tax", g.classes...) })
		}
		g.drawDesign(p, i)
		if p["design"] == nil {
			g.drawSizes(p)
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
		cut := genFields{}
		if of := g.sizes[g.products[len(g.products)-1]].given(); len(of) > 0 && g.chance(60, "of the product") {
			cut["of"] = g.oneOf("of", of...)
		} else {
			cut["piece"] = g.oneOf("piece", "12 x 17 cm", "9 x 13 cm", "20 x 31 cm", "7 x 7 cm")
		}
		g.sometimes(20, cut, "bleed", func() any { return "1 cm" })
		g.sometimes(25, cut, "grip", func() any { return g.oneOf("grip", "1 cm", "4 cm") })
		g.sometimes(40, cut, "gutter", func() any { return g.oneOf("gutter", "1 cm", "2 cm") })
		g.sometimes(30, cut, "layout", func() any { return g.oneOf("layout", "grid", "guillotine") })
		line["cut"] = cut
	case "ink":
		ink := genFields{"per_m2": g.oneOf("per m2", "12 ml", "0.009 l", "7.3 ml")}
		if g.sizes[g.products[len(g.products)-1]].image == "" || g.chance(40, "an image of its own") {
			ink["image"] = g.oneOf("image", "12 x 17 cm", "20 x 31 cm")
		}
		g.sometimes(50, ink, "upkeep", func() any {
			return genFields{"share": g.oneOf("upkeep", "30%", "0.45"), "per_month": "20 ml", "prints_per_month": g.oneOf("prints", "40", "7")}
		})
		line["ink"] = ink
	case "year", "canvas":
		size := g.sizes[g.products[len(g.products)-1]]
		if size.image == "" || m.used[0] == "1 print" {
			return false
		}
		line["area"] = "image"
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
		line["shared_by"] = g.oneOf("a batch", "8", "3", "0.5", "60")
	case "design", "listing", "period":
		line["shared_by"] = g.oneOf("over", "60", "7", "1", "2.5")
	}
	return per
}

func (g *docGen) drawRun() genFields {
	run := genFields{"good": rapid.SampledFrom([]int{25, 3, 7, 12, 30}).Draw(g.t, "good")}
	g.sometimes(80, run, "tests", func() any { return g.number("tests", 0, 3) })
	g.sometimes(50, run, "setup", func() any { return g.fine("setup", 0, g.share(800)) })
	return run
}
