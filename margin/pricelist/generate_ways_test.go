package pricelist_test

func (g *docGen) drawWay() string {
	if g.mixed {
		return ""
	}
	return g.anyOf("way", "", "", "trade", "consignment", "on_demand")
}

// drawTheWay draws the terms of the channel's way, with rates that leave
// something of a price beside its tax and its fees.
func (g *docGen) drawTheWay(c genFields) {
	switch g.outlet.way {
	case "trade":
		g.outlet.feeRate, g.outlet.fees = min(g.outlet.feeRate, 500), 2
		c["trade"] = g.drawTrade(c)
	case "consignment":
		g.outlet.feeRate, g.outlet.fees = min(g.outlet.feeRate, 300), 2
		c["consignment"] = g.drawConsignment()
	case "on_demand":
		g.outlet.feeRate, g.outlet.fees = 150, 1
		c["on_demand"] = g.drawOnDemand(c)
	}
}

func (g *docGen) drawTrade(c genFields) genFields {
	t := genFields{}
	orders, _ := c["orders"].([]genFields)
	g.sometimes(30, t, "case", func() any { return max(1, genCommon(orders)) })
	g.sometimes(30, t, "opening", func() any { return g.written(g.part("opening", 500, 9000)) })
	g.sometimes(30, t, "reorder", func() any { return g.written(g.part("reorder", 500, 9000)) })
	if !g.boundedBelow { // freight that shops pay makes dearer postage earn something
		g.sometimes(65, t, "freight", func() any { return g.drawFreight(t, orders) })
	}
	g.sometimes(60, t, "credit", func() any { return g.drawCredit() })
	g.sometimes(40, t, "agent", func() any { return g.rate("agent", 300, 1200) })
	g.sometimes(30, t, "agent_reorder", func() any { return g.rate("agent on reorders", 0, 800) })
	g.sometimes(30, t, "defects", func() any { return g.rate("defects", 50, 400) })
	g.sometimes(20, t, "line_sheet", func() any { return genFields{"seller": "Marsh prints", "valid_from": "2026-03-01", "lead_days": 10} })
	return t
}

// genCommon is the largest case that all orders are whole cases of.
func genCommon(orders []genFields) int {
	common := 0
	for _, o := range orders {
		n, given := o["items"].(int)
		if !given {
			n = 1
		}
		for n != 0 {
			common, n = n, common%n
		}
	}
	return common
}

// drawFreight draws who pays for sending, and gives orders what goes with it.
func (g *docGen) drawFreight(t genFields, orders []genFields) string {
	for _, o := range orders {
		delete(o, "shipping")
		delete(o, "free_from")
		delete(o, "postage")
		g.sometimes(80, o, "postage", func() any {
			return g.atHome(func() any { return g.fine("freight", 0, g.share(900)) })
		})
	}
	freight := g.anyOf("freight", "added", "collect", "prepaid", "allowance")
	switch freight {
	case "added":
		g.sometimes(60, t, "free_from", func() any { return g.written(g.part("freight free from", 500, 12_000)) })
	case "allowance":
		t["allowance"] = g.rate("allowance", 100, 1200)
	}
	return freight
}

func (g *docGen) drawCredit() genFields {
	credit := genFields{"days": g.number("days", 10, 90)}
	g.sometimes(60, credit, "interest", func() any { return g.rate("money", 200, 1800) })
	g.sometimes(40, credit, "bad", func() any { return g.rate("bad", 10, 300) })
	g.sometimes(60, credit, "early", func() any {
		credit["early_days"] = g.number("early days", 1, 10)
		g.sometimes(40, credit, "early_rounded", func() any { return g.oneOf("early rounded", "due", "discount", "discount") })
		g.sometimes(60, credit, "taken", func() any { return g.rate("taken", 500, 10_000) })
		return g.rate("early", 50, 500)
	})
	return credit
}

func (g *docGen) drawConsignment() genFields {
	c := genFields{}
	most := 4000
	g.sometimes(75, c, "discount", func() any {
		d := genFields{}
		g.sometimes(90, d, "borne", func() any { return g.anyOf("borne", "shared", "maker", "maker", "shop", "forbidden") })
		if d["borne"] == "forbidden" {
			return d
		}
		if d["borne"] == "maker" {
			most = 2000
		}
		d["rate"] = g.rate("shop's discount", 300, 2000)
		g.sometimes(75, d, "share", func() any { return g.rate("discounted", 300, 10_000) })
		return d
	})
	if g.chance(60, "a commission") {
		c["commission"] = g.rate("commission", 500, most)
	} else {
		c["on_maker"] = g.rate("on the maker's price", 500, most)
	}
	g.sometimes(40, c, "without_tax", func() any { return true })
	g.sometimes(40, c, "costs_first", func() any { return g.fine("costs first", 0, g.share(1500)) })
	g.sometimes(75, c, "registered", func() any { return g.someOf("registered", []string{"maker", "shop"}) })
	g.sometimes(60, c, "days", func() any {
		g.sometimes(75, c, "interest", func() any { return g.rate("money", 200, 1500) })
		return g.number("days to pay", 10, 120)
	})
	g.sometimes(40, c, "lost_pieces", func() any { return g.rate("pieces lost", 50, 900) })
	return c
}

func (g *docGen) drawOnDemand(c genFields) genFields {
	pays := g.anyOf("pays", "above_base", "royalty", "share_of_rest", "flat_fee")
	d := genFields{"pays": pays}
	least := 4500
	if g.chance(35, "codes from the maker") {
		d["codes_from_maker"] = true
		least = 8000
	}
	if pays == "royalty" || pays == "share_of_rest" {
		most := 8200 // below what 21% of tax leaves
		if g.chance(50, "of net prices") {
			d["without_tax"], most = true, 9500
		} else if least == 4500 && g.chance(40, "a small rate") {
			least, most = 1000, 3000
		}
		d["rate"] = g.rate("maker's rate", least, most)
	}
	var sizes []genFields
	for _, id := range g.outlet.sells {
		s := genFields{"product": id}
		if pays == "above_base" || pays == "share_of_rest" || g.chance(10, "a stray base") {
			s["base"] = g.fine("base", g.share(200), g.share(2500))
		}
		if pays == "flat_fee" || g.chance(10, "a stray flat fee") {
			s["flat"] = g.fine("flat", g.share(200), g.share(2500))
		}
		sizes = append(sizes, s)
	}
	d["sizes"] = sizes
	return d
}

func (g *docGen) drawAfter() genFields {
	a := genFields{}
	g.outlet.feeRate = min(g.outlet.feeRate, 800)
	a["returned"] = g.rate("returned", 0, 900)
	g.sometimes(40, a, "part", func() any { return g.oneOf("part", "50%", "0.8", "33.3%", "100%") })
	g.sometimes(50, a, "shipping", func() any { return true })
	g.sometimes(40, a, "surcharge", func() any { return true })
	g.sometimes(50, a, "postage", func() any {
		return g.atHome(func() any { return g.fine("return postage", 0, g.share(800)) })
	})
	// What a house printed cannot be sold again.
	g.sometimes(g.ofWay("on_demand", 0, 50), a, "resold", func() any { return g.rate("resold", 500, 10_000) })
	g.sometimes(50, a, "fees", func() any { return g.rate("fees back", 500, 10_000) })
	g.sometimes(40, a, "disputed", func() any { return g.rate("disputed", 10, 200) })
	g.sometimes(50, a, "lost", func() any { return g.oneOf("disputes lost", "60%", "0.45", "1") })
	g.sometimes(60, a, "fee", func() any { return g.fine("dispute fee", 0, g.share(2000)) })
	return a
}
