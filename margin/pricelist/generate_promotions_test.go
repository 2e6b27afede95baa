package pricelist_test

import (
	"fmt"
	"slices"

	"pgregory.net/rapid"
)

// genCode is a promotion that orders may take.
type genCode struct {
	id    string
	alone bool
}

func (g *docGen) drawPromotions() []genFields {
	var list []genFields
	for i := range g.number("promotions", 1, 4) {
		code := genCode{id: fmt.Sprintf("code-%d", i+1), alone: g.chance(20, "alone")}
		p := genFields{"id": code.id}
		g.drawOff(p)
		if p["price"] == nil {
			g.sometimes(25, p, "products", func() any { return g.someOf("code's products", g.outlet.sells) })
		}
		g.sometimes(55, p, "from", func() any {
			items := rapid.SampledFrom([]int{1, 2, 3, 7}).Draw(g.t, "from items")
			return g.fine("code from", g.share(300*items), g.share(9000*items))
		})
		g.sometimes(70, p, "test", func() any { return g.oneOf("code's test", "before", "before", "after") })
		if code.alone {
			p["alone"] = true
		}
		g.sometimes(30, p, "rounding", func() any { return g.oneOf("code's rounding", "half_even", "half_down", "up", "down") })
		g.outlet.codes = append(g.outlet.codes, code)
		list = append(list, p)
	}
	g.outlet.feeRate = min(g.outlet.feeRate, 800)
	return list
}

// drawOff draws what a promotion takes off.
func (g *docGen) drawOff(p genFields) {
	kinds := []string{"rate", "amount", "buy", "sale"}
	if len(g.outlet.sells) > 1 {
		kinds = append(kinds, "price")
	}
	switch kind := g.anyOf("takes off", kinds...); kind {
	case "rate":
		p["rate"] = g.rate("code's rate", 500, 2000)
	case "amount":
		p["amount"] = g.fine("code's amount", 1, 1+g.share(1500))
	case "buy":
		buy := g.number("buy", 2, 5)
		p["buy"], p["free"] = buy, max(1, g.number("free", buy-4, buy/2))
	case "sale":
		p["sale"] = g.fine("sale", g.share(500), g.share(9000))
	case "price":
		p["price"] = g.written(g.part("set", 1000, 9000))
		p["products"] = rapid.Permutation(g.outlet.sells).Draw(g.t, "set of")[:g.number("of a set", 2, len(g.outlet.sells))]
	}
}

// drawCodes draws the codes of an order, in any order: several that stack, or
// one that does not.
func (g *docGen) drawCodes() []string {
	var stacking, alone []string
	for _, code := range g.outlet.codes {
		if code.alone {
			alone = append(alone, code.id)
		} else {
			stacking = append(stacking, code.id)
		}
	}
	if len(stacking) == 0 || len(alone) > 0 && g.chance(30, "a code alone") {
		return []string{g.oneOf("code alone", alone...)}
	}
	order := rapid.Permutation(stacking).Draw(g.t, "codes")
	return order[:g.number("number of codes", min(2, len(order)), len(order))]
}

// drawAbroad draws another currency, and from there on all money is in it: so
// that a price has about as many minor units there.
func (g *docGen) drawAbroad() genFields {
	digits := map[string]int{"EUR": 2, "JPY": 0, "KWD": 3, "USD": 2}
	currencies := slices.DeleteFunc([]string{"USD", "JPY", "EUR", "KWD"}, func(c string) bool { return c == g.currency })
	currency := g.oneOf("abroad", currencies...)
	hundredths := rapid.SampledFrom([]int{108, 92, 70, 31, 117, 260}).Draw(g.t, "exchange")
	places := 2 + g.digits - digits[currency]
	rate := fmt.Sprint(hundredths)
	if places > 0 {
		rate = genDecimal(hundredths, places)
	}
	for ; places < 0; places++ {
		rate += "0"
	}
	a := genFields{"currency": currency, "rate": rate}
	g.sometimes(30, a, "date", func() any { return "2026-03-01" })
	g.sometimes(60, a, "conversion", func() any { return g.rate("conversion", 50, 300) })
	g.digits, g.top = digits[currency], g.top*100/hundredths
	return a
}

// drawTag draws what can be asked, a small part of the highest price apart.
func (g *docGen) drawTag() genFields {
	apart := 2 + g.number("apart", 0, g.share(600))
	if g.chance(50, "in steps") {
		return genFields{"step": g.written(apart)}
	}
	modulus := apart
	one := 1
	for range g.digits {
		one *= 10
	}
	tag := genFields{}
	if 10*one <= g.top && g.chance(40, "the tag's modulus is left out") {
		modulus = one
	} else {
		tag["every"] = g.written(modulus)
	}
	var endings []any
	for _, ending := range g.distinct("tag of", 3, modulus-1) {
		endings = append(endings, g.written(ending))
	}
	tag["ends_in"] = endings
	return tag
}
