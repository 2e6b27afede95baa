package pricelist_test

import "fmt"

// genToday is the day on which stocks are looked at, in the middle of what happens to
// them: few days, so that much happens on one.
const genToday = "2026-03-02"

func (g *docGen) day(label string) string {
	return g.oneOf(label, "2026-03-02", "2026-03-02", "2026-03-01", "2026-03-03")
}

// drawStock takes a supply out of a stock, in place of its quantity and price. More is
// there than is used.
func (g *docGen) drawStock(s genFields) {
	g.stocks = append(g.stocks, s["id"].(string))
	delete(s, "quantity")
	delete(s, "price")
	delete(s, "discount")
	cost := func() any { return g.fine("received for", 1, g.share(20_000)+1) }
	stock := genFields{"unit": "sheet", "basis": g.anyOf("basis", "last", "replacement", "average", "first_in")}
	if stock["basis"] == "replacement" {
		stock["replacement"] = g.fine("again", 1, g.share(1000)+1)
	}
	g.sometimes(40, stock, "worth", func() any { return g.oneOf("worth", "first_in", "average") })
	received := []genFields{{"date": "2026-03-01", "quantity": "40 sheet", "cost": cost()}}
	for range g.number("more received", 0, 3) {
		received = append(received, genFields{"date": g.day("received on"), "quantity": g.oneOf("received", "10 sheet", "25 sheet", "7 sheet"), "cost": cost()})
	}
	stock["received"] = received
	var used []genFields
	for range g.number("times used", 0, 3) {
		used = append(used, genFields{"date": g.day("used on"), "quantity": g.oneOf("used up", "5 sheet", "12 sheet", "0.5 sheet")})
	}
	if used != nil {
		stock["used"] = used
	}
	s["stock"] = stock
}

// drawPurchases draws invoices for what is in stock, beside what no bill knows.
func (g *docGen) drawPurchases() []genFields {
	var list []genFields
	for i := range g.number("purchases", 1, 3) {
		p := genFields{"id": fmt.Sprintf("invoice-%d", i+1), "date": g.day("bought on")}
		var lines []genFields
		for range g.number("lines of an invoice", 1, 4) {
			lines = append(lines, genFields{
				"supply": g.oneOf("bought", append(g.stocks, "tape")...), "quantity": g.oneOf("bought", "10 sheet", "3 sheet", "25 sheet"),
				"price": g.written(g.number("line", 1, g.share(20_000)+1)),
			})
		}
		p["lines"] = lines
		g.sometimes(60, p, "shared", func() any {
			shared := []genFields{{"name": "freight", "amount": g.written(g.number("freight", 0, g.share(3000)))}}
			if g.chance(30, "borne by a line") {
				shared[0]["line"] = lines[0]["supply"]
			} else {
				shared[0]["by"] = g.oneOf("by", "value", "count", "equally")
			}
			if g.chance(40, "a discount of the invoice") {
				shared = append(shared, genFields{"name": "discount", "amount": g.written(1), "discount": true, "by": "value"})
			}
			return shared
		})
		g.sometimes(60, p, "tax", func() any { return g.oneOf("tax of the invoice", "20%", "0.055", "7%") })
		list = append(list, p)
	}
	return list
}

// genSizes are the sizes of a product, its base's where it gives none.
type genSizes struct{ image, sheet string }

func (s genSizes) given() []string {
	var out []string
	if s.image != "" {
		out = append(out, "image")
	}
	if s.sheet != "" {
		out = append(out, "sheet")
	}
	return out
}

// drawSizes draws sizes of a product; any image fits any sheet.
func (g *docGen) drawSizes(p genFields) {
	if g.sizeless {
		return
	}
	base, _ := p["extends"].(string)
	s := g.sizes[base]
	g.sometimes(40, p, "image", func() any { s.image = g.oneOf("image", "9 x 13 cm", "17 x 12 cm"); return s.image })
	g.sometimes(40, p, "sheet", func() any { s.sheet = g.oneOf("sheet", "12 x 17 cm", "20 x 31 cm"); return s.sheet })
	g.sizes[p["id"].(string)] = s
}
