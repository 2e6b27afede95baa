package pricelist_test

import (
	"fmt"
	"slices"
	"strings"

	"pgregory.net/rapid"
)

func (g *docGen) drawChannels(products []genFields) []genFields {
	for i := range g.number("channels", 1, 3) {
		g.channels = append(g.channels, fmt.Sprintf("channel-%d", i+1))
	}
	g.drawSoldIn(products)
	var list []genFields
	for _, id := range g.channels {
		list = append(list, g.drawChannel(id))
	}
	return list
}

// drawSoldIn says of some products where they are sold. Each channel sells one at least.
func (g *docGen) drawSoldIn(products []genFields) {
	all := g.products
	g.sold = make(map[string][]string)
	for i, p := range products {
		sold := g.channels
		if i > 0 && len(g.channels) > 1 && g.chance(35, "sold in some channels") {
			sold = g.someOf("sold in", g.channels)
			p["channels"] = sold
		}
		for _, c := range sold {
			g.sold[c] = append(g.sold[c], all[i])
		}
	}
}

// genOutlet is what is known so far of the channel that is drawn.
type genOutlet struct {
	home    struct{ digits, top int } // of the shop, where buyers pay in other money
	way     string
	sells   []string // the products that it sells
	feeRate int      // the highest of a fee, or nothing would be left of a price
	fees    int      // at most so many
	ids     bool     // its kinds of order have ids
	codes   []genCode
}

func (g *docGen) drawChannel(id string) genFields {
	c := genFields{"id": id}
	g.outlet = genOutlet{sells: g.sold[id], way: g.drawWay(), feeRate: 1600, fees: 3}
	g.outlet.home.digits, g.outlet.home.top = g.digits, g.top
	defer func() { g.digits, g.top = g.outlet.home.digits, g.outlet.home.top }()
	g.sometimes(50, c, "name", func() any { return "Channel " + id })
	if len(g.packings) > 0 {
		g.sometimes(75, c, "packing", func() any { return g.oneOf("packing", g.packings...) })
	}
	g.sometimes(35, c, "lost_parcels", func() any { return g.rate("loss", 50, 1000) })
	g.sometimes(20, c, "uplift", func() any { return g.rate("uplift", 0, 3000) })
	g.sometimes(g.ofWay("trade", 60, 20), c, "trade_discount", func() any { return g.drawDiscounts() })
	if first := id == "channel-1"; first && len(g.classes) > 0 || g.chance(85, "tax") {
		c["tax"] = g.drawTax(first)
	}
	g.sometimes(25, c, "foreign_currency", func() any { return g.drawAbroad() })
	g.sometimes(25, c, "price_points", func() any { return g.drawTag() })
	g.sometimes(g.ofWay("", 25, 10), c, "promotion", func() any { return g.rate("promotion", 0, 2000) })
	g.sometimes(50, c, "promotions", func() any { return g.drawPromotions() })
	g.outlet.ids = g.chance(40, "orders have ids")
	g.sometimes(80, c, "orders", func() any { return g.drawOrders() })
	g.drawTheWay(c)
	g.sometimes(30, c, "returns", func() any { return g.drawAfter() })
	orders, _ := c["orders"].([]genFields)
	g.sometimes(75, c, "fees", func() any { return g.drawFees(orders) })
	g.sometimes(35, c, "fixed_cost", func() any { return g.atHome(func() any { return g.spread("period", 400) }) })
	return c
}

// ofWay is one chance for channels of a way, another for the others.
func (g *docGen) ofWay(way string, percent, others int) int {
	if g.outlet.way == way {
		return percent
	}
	return others
}

// atHome draws in the shop's money what a channel abroad has of it.
func (g *docGen) atHome(draw func() any) any {
	digits, top := g.digits, g.top
	g.digits, g.top = g.outlet.home.digits, g.outlet.home.top
	defer func() { g.digits, g.top = digits, top }()
	return draw()
}

func (g *docGen) drawDiscounts() []string {
	var chain []string
	for range g.number("discounts", 1, 3) {
		chain = append(chain, g.oneOf("trade discount", "10%", "0.05", "33.33%", "25%", "2.5%", "50%"))
	}
	return chain
}

func (g *docGen) drawTax(all bool) genFields {
	tax := genFields{"rate": g.oneOf("tax rate", "20%", "0.19", "7%", "8.25%", "0.055", "21%", "0%")}
	g.sometimes(95, tax, "in_price", func() any { return g.chance(80, "tax in price") })
	g.sometimes(85, tax, "on_shipping", func() any { return g.mixed || g.chance(75, "tax on shipping") })
	g.sometimes(60, tax, "constant", func() any { return g.oneOf("constant", "net", "net", "gross") })
	if len(g.classes) > 0 && (all || g.chance(50, "rates of classes")) { // the first channel knows every class
		tax["classes"] = g.drawClasses(all)
	}
	if tax["on_shipping"] == true {
		g.sometimes(40, tax, "shipping_rate", func() any { return g.oneOf("rate of shipping", "highest", "main", "proportion") })
	}
	if g.chance(50, "rounded plainly") {
		return tax
	}
	g.sometimes(70, tax, "per", func() any { return g.oneOf("tax per", "order", "line", "unit", "unit") })
	g.sometimes(60, tax, "rounding", func() any { return g.oneOf("tax rounding", "half_even", "half_down", "up", "down") })
	if tax["in_price"] == true {
		g.sometimes(50, tax, "rounded", func() any { return g.oneOf("rounded figure", "net", "net", "tax") })
	}
	if sells := g.outlet.way == "" || g.outlet.way == "trade"; sells && !g.boundedBelow {
		g.sometimes(30, tax, "of", func() any { return g.oneOf("tax of", "full_price", "full_price", "paid") })
	}
	return tax
}

// drawClasses gives classes of tax their rates.
func (g *docGen) drawClasses(all bool) []genFields {
	classes := g.classes
	if !all {
		classes = g.someOf("classes", g.classes)
	}
	var list []genFields
	for _, class := range classes {
		list = append(list, genFields{"class": class, "rate": g.oneOf("rate of class", "5.5%", "0", "0.21", "7%", "12%")})
	}
	return list
}

func (g *docGen) drawOrders() []genFields {
	var list []genFields
	for i, share := range g.drawShares() {
		o := genFields{}
		if g.outlet.ids {
			o["id"] = fmt.Sprintf("order-%d", i+1)
		}
		if share < 10_000 || g.chance(30, "the share is written") {
			o["share"] = g.writtenRate(share)
		}
		g.sometimes(70, o, "items", func() any { return rapid.SampledFrom([]int{1, 2, 3, 7, 12}).Draw(g.t, "items") })
		g.sometimes(60, o, "shipping", func() any { return g.written(g.part("shipping", 0, 800)) })
		if !g.boundedBelow {
			g.sometimes(45, o, "free_from", func() any { return g.written(g.part("free from", 500, 12_000)) })
			g.sometimes(60, o, "free_test", func() any { return g.oneOf("free test", "before", "before", "after") })
		}
		g.sometimes(60, o, "postage", func() any { return g.atHome(func() any { return g.fine("postage", 0, g.share(800)) }) })
		g.sometimes(40, o, "tax_rate", func() any { return g.oneOf("order's tax rate", "10%", "0%", "0.21", "5.5%") })
		if len(g.classes) > 0 {
			g.sometimes(25, o, "tax_classes", func() any { return g.drawClasses(false) })
		}
		if len(g.outlet.codes) > 0 {
			g.sometimes(85, o, "codes", func() any { return g.drawCodes() })
		}
		often := 40
		if g.mixed {
			often = 80
		}
		g.sometimes(g.ofWay("", often, 0), o, "others", func() any { return g.drawOthers(o) })
		if sells := g.outlet.way == "" || g.outlet.way == "trade"; sells {
			g.sometimes(30, o, "surcharge", func() any { return g.drawSurcharge() })
		}
		g.sometimes(g.ofWay("trade", 35, 0), o, "reorder", func() any { return true })
		list = append(list, o)
	}
	return list
}

func (g *docGen) drawSurcharge() genFields {
	u := genFields{}
	g.sometimes(70, u, "rate", func() any { return g.oneOf("surcharge", "2%", "0.015", "0.8%", "3.5%") })
	if u["rate"] == nil || g.chance(40, "a fixed surcharge") {
		u["fixed"] = g.fine("fixed surcharge", 1, max(1, g.share(80)))
	}
	g.sometimes(40, u, "tax_rate", func() any { return g.oneOf("tax on the surcharge", "0%", "20%", "0.055") })
	return u
}

// drawOthers draws what else lies in an order. If it has a class of tax, shipping is charged more
// often than not, since that is what the goods share.
func (g *docGen) drawOthers(order genFields) genFields {
	others := genFields{"items": g.oneOf("other items", "1", "2.5", "0.4", "3"), "worth": g.fine("worth of others", 0, g.share(12_000))}
	if len(g.classes) == 0 || g.boundedBelow || !g.chance(80, "others have a class") {
		return others // of a class, a higher price may leave less
	}
	others["tax_class"] = g.oneOf("class of others", g.classes...)
	if g.chance(80, "shipping of several rates") {
		order["shipping"] = g.written(g.part("shipping", 1, 1500))
	}
	return others
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

func (g *docGen) drawFees(orders []genFields) []genFields {
	var list []genFields
	for i := range g.number("fees", 1, g.outlet.fees) {
		f := g.drawFee(fmt.Sprintf("fee %d", i+1))
		if g.outlet.ids && len(orders) > 0 {
			g.sometimes(40, f, "orders", func() any {
				var ids []string
				for _, o := range orders {
					ids = append(ids, o["id"].(string))
				}
				return g.someOf("fee's orders", ids)
			})
		}
		list = append(list, f)
	}
	return list
}

func (g *docGen) drawFee(name string) genFields {
	f := genFields{"name": name}
	parts := []string{
		"items", "items shipping", "items shipping tax", "items tax", "shipping", "tax", "shipping tax",
		"items discount", "discount", "items shipping discount", "discount tax",
		"items shipping surcharge", "items shipping surcharge tax", "surcharge",
	}
	g.sometimes(60, f, "of", func() any { return strings.Fields(g.anyOf("of", parts...)) })
	g.sometimes(45, f, "without_tax", func() any { return true })
	together := g.drawTogether(f)
	each := together
	g.sometimes(35, f, "per", func() any { return g.oneOf("per", "order", "item") })
	if f["per"] == "item" {
		each = func(minor int) int { return minor }
	}
	if !g.boundedBelow && g.chance(30, "in tiers") {
		f["tiers"] = g.drawTiers(each)
		f["tier_mode"] = g.oneOf("tier mode", "marginal", "whole")
	} else {
		g.sometimes(75, f, "rate", func() any { return g.drawFeeRate() })
	}
	if charged := f["rate"] != nil || f["tiers"] != nil; !charged || g.chance(40, "has fixed") {
		f["fixed"] = g.fine("fixed", 0, each(g.share(200)))
	}
	if !g.boundedBelow {
		g.sometimes(20, f, "at_least", func() any { return g.fine("fee at least", 0, together(g.share(300))) })
		g.sometimes(20, f, "at_most", func() any { return g.fine("fee at most", together(g.share(300)), together(g.share(1500))) })
	}
	g.sometimes(30, f, "share", func() any { return g.rate("fee share", 500, 10_000) })
	g.sometimes(30, f, "tax", func() any { return g.rate("tax on the fee", 500, 2500) })
	g.sometimes(50, f, "rounding", func() any { return g.oneOf("rounding", "half_up", "half_even", "half_down", "up", "down") })
	g.sometimes(25, f, "expected", func() any { return true })
	return f
}

// drawTogether now and then charges orders together, and says how much of an
// amount of one order they make.
func (g *docGen) drawTogether(fee genFields) func(int) int {
	if !g.chance(30, "charged together") {
		return func(minor int) int { return minor }
	}
	over := rapid.SampledFrom([]int{300, 2, 1200, 50, 700, 1250}).Draw(g.t, "over") // hundredths
	fee["orders_together"] = genTrimmed(genDecimal(over, 2))
	return func(minor int) int { return minor * over / 100 }
}

// drawFeeRate prefers rates that come to half a minor unit, where the ways of
// rounding part.
func (g *docGen) drawFeeRate() string {
	if g.outlet.feeRate == 1600 && g.chance(40, "a round rate") {
		return g.oneOf("round rate", "2.5%", "0.05", "10%", "12.5%", "1.25%", "0.15")
	}
	return g.rate("fee rate", 50, g.outlet.feeRate)
}

func (g *docGen) drawTiers(each func(int) int) []genFields {
	from := 0
	if g.chance(20, "nothing below the first tier") {
		from = each(g.part("first tier", 200, 3000))
	}
	var list []genFields
	var rates []int
	for range g.number("tiers", 1, 3) {
		list = append(list, genFields{"from": g.written(from)})
		rates = append(rates, g.number("tier rate", 50, g.outlet.feeRate))
		from += 1 + each(g.part("next tier", 300, 6000))
	}
	slices.Sort(rates)
	if g.chance(50, "falling tiers") {
		slices.Reverse(rates)
	}
	for i, r := range rates {
		if g.chance(40, "a fixed tier") {
			list[i]["fixed"] = g.fine("fixed of a tier", 0, each(g.share(600)))
			if g.chance(50, "and no rate") {
				continue
			}
		}
		list[i]["rate"] = g.writtenRate(r)
	}
	return list
}
