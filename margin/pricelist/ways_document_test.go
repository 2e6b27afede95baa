package pricelist_test

import (
	"fmt"
	"slices"

	"pgregory.net/rapid"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/fair"
	"example.com/quoin/channel/promo"
	"example.com/quoin/channel/refund"
	"example.com/quoin/margin/edition"
	"example.com/quoin/margin/pricelist"
)

// drawnWays is a drawn document whose channels sell in all ways, with sets, fairs
// and editions.
func drawnWays(t *rapid.T) pricelist.Document {
	g := waysGen{t, drawn(t)}
	g.sell()
	for i := range g.doc.Channels {
		g.channel(&g.doc.Channels[i])
	}
	if err := g.doc.Check(); err != nil {
		t.Skip(err) // what does not go together, such as fees that take everything
	}
	return g.doc
}

type waysGen struct {
	t   *rapid.T
	doc pricelist.Document
}

func (g waysGen) chance(percent int, label string) bool {
	return rapid.IntRange(1, 100).Draw(g.t, label) <= percent
}

func (g waysGen) rate(label string, texts ...string) quoin.Rate {
	return quoin.MustRate(rapid.SampledFrom(texts).Draw(g.t, label))
}

// money is so many thousandths of the highest price, in minor units.
func (g waysGen) money(label string, from, to int64) quoin.Amount {
	n := rapid.Int64Range(from, to).Draw(g.t, label)
	return g.doc.Currency.Round(g.doc.PriceLimit.Or(quoin.Amount{}).Times(quoin.FactorOf(n)).Over(quoin.FactorOf(1000)), quoin.HalfUp)
}

// products are those that a channel sells, or all.
func (g waysGen) products(channel string) []string {
	var ids []string
	for _, p := range g.doc.Products {
		if channel == "" || len(p.Channels) == 0 || slices.Contains(p.Channels, channel) {
			ids = append(ids, p.ID)
		}
	}
	return ids
}

func (g waysGen) channel(c *channel.Channel) {
	if g.chance(30, "after") {
		c.Returns = g.after()
	}
	if g.chance(25, "abroad") {
		c.ForeignCurrency = &channel.ForeignCurrency{Currency: quoin.MustCurrency("USD"), Rate: quoin.MustFactor(rapid.SampledFrom([]string{"0.8", "1.17", "0.0067"}).Draw(g.t, "rate")), Conversion: g.rate("conversion", "0%", "2%")}
	}
	if g.chance(25, "tag") && c.ForeignCurrency == nil {
		c.PricePoints = &channel.PricePoints{Step: g.doc.Currency.Minor().Times(quoin.FactorOf(rapid.Int64Range(1, 9).Draw(g.t, "tag")))}
	}
	g.promotions(c)
	for i := range c.Fees {
		if g.chance(25, "over") {
			c.Fees[i].OrdersTogether = quoin.FactorOf(rapid.Int64Range(2, 30).Draw(g.t, "orders charged together"))
		}
		c.Fees[i].Expected = g.chance(20, "expected")
	}
	switch rapid.IntRange(0, 4).Draw(g.t, "way") {
	case 0:
		g.trade(c)
	case 1:
		g.consignment(c)
	case 2:
		g.onDemand(c)
	}
}

func (g waysGen) after() *refund.Rates {
	r := &refund.Rates{Returned: g.rate("returned", "3%", "10%", "33.3%"), Postage: g.money("return", 0, 30), Resold: g.rate("resold", "0%", "50%", "100%"), Fees: g.rate("fees back", "0%", "40%", "100%")}
	if g.chance(40, "part") {
		r.Part = quoin.Some(g.rate("part", "50%", "0%", "33%"))
	}
	r.Shipping = g.chance(50, "shipping too")
	if g.chance(40, "disputed") {
		r.Disputed, r.Fee = g.rate("disputed", "1%", "0.7%"), g.money("dispute", 0, 100)
	}
	return r
}

func (g waysGen) promotions(c *channel.Channel) {
	if len(c.Orders) == 0 || !g.chance(35, "promotions") {
		return
	}
	c.Promotions = []promo.Offer{{ID: "rate", Rate: g.rate("off", "10%", "33%")}}
	if g.chance(50, "an amount") {
		c.Promotions = append(c.Promotions, promo.Offer{ID: "amount", Amount: g.money("amount off", 1, 100), From: g.money("from", 100, 600)})
	}
	if g.chance(30, "of some products") {
		c.Promotions[0].Products = g.products(c.ID)[:1]
	}
	for i := range c.Orders {
		for _, p := range c.Promotions {
			if g.chance(50, "code") {
				c.Orders[i].Codes = append(c.Orders[i].Codes, p.ID)
			}
		}
	}
}

func (g waysGen) trade(c *channel.Channel) {
	c.TradeDiscount = []quoin.Rate{g.rate("trade discount", "50%", "40%")}
	c.Trade = &channel.Trade{
		Case: rapid.Int64Range(1, 12).Draw(g.t, "case"), Opening: g.money("opening", 0, 3000), Agent: g.rate("agent", "0%", "12%"), Defects: g.rate("defects", "0%", "1%"),
		Credit: channel.Credit{Days: 30, Interest: g.rate("money", "0%", "8%"), Bad: g.rate("bad", "0%", "1.5%")},
	}
	if g.chance(50, "early") {
		c.Trade.Credit.Early, c.Trade.Credit.EarlyDays, c.Trade.Credit.Taken = quoin.MustRate("2%"), 10, quoin.Some(g.rate("taken", "40%", "0%"))
	}
	if !g.chance(60, "freight") {
		return
	}
	c.Trade.Freight = rapid.SampledFrom([]channel.Freight{channel.Collect, channel.Added, channel.Prepaid, channel.Allowance}).Draw(g.t, "paid by")
	if c.Trade.Freight == channel.Allowance {
		c.Trade.Allowance = g.rate("allowance", "5%", "10%")
	}
	if c.Trade.Freight == channel.Added && g.chance(50, "free freight") {
		c.Trade.FreeFrom = quoin.Some(g.money("freight free from", 300, 3000))
	}
	for i := range c.Orders {
		c.Orders[i].Shipping, c.Orders[i].FreeFrom, c.Orders[i].FreeTest = quoin.Amount{}, quoin.Optional[quoin.Amount]{}, ""
	}
}

func (g waysGen) consignment(c *channel.Channel) {
	c.Consignment = &channel.Consignment{Commission: quoin.Some(g.rate("commission", "30%", "45%")), WithoutTax: g.chance(30, "net"), CostsFirst: g.money("costs first", 0, 60), LostPieces: g.rate("lost there", "0%", "3%")}
	if g.chance(50, "discount") {
		c.Consignment.Discount = channel.Reduction{Rate: g.rate("shop's discount", "10%"), Borne: rapid.SampledFrom([]channel.DiscountBearer{channel.Shared, channel.ByShop, channel.ByMaker}).Draw(g.t, "borne"), Share: quoin.Some(g.rate("on", "30%", "100%"))}
	}
	if g.chance(50, "registered") {
		c.Consignment.Registered = []channel.Party{rapid.SampledFrom([]channel.Party{channel.Maker, channel.Shop}).Draw(g.t, "who")}
	}
	if g.chance(40, "pays late") {
		c.Consignment.Days, c.Consignment.Interest = 45, quoin.MustRate("9%")
	}
}

func (g waysGen) onDemand(c *channel.Channel) {
	if c.Returns != nil {
		c.Returns.Resold = quoin.Rate{}
	}
	w := &channel.OnDemand{Pays: rapid.SampledFrom([]channel.Payout{channel.AboveBase, channel.Royalty, channel.ShareOfRest}).Draw(g.t, "pays"), CodesFromMaker: g.chance(30, "codes from maker")}
	if w.Pays != channel.AboveBase {
		w.Rate, w.WithoutTax = g.rate("the maker's rate", "60%", "80%"), g.chance(40, "of net")
	}
	for _, id := range g.products(c.ID) {
		w.Sizes = append(w.Sizes, channel.OnDemandProduct{Product: id, Base: g.money("base", 0, 200)})
	}
	c.OnDemand = w
}

// sell adds sets, fairs and editions.
func (g *waysGen) sell() {
	at := rapid.IntRange(0, len(g.doc.Channels)-1).Draw(g.t, "where")
	there := g.doc.Channels[at].ID
	ids := g.products(there)
	if len(ids) > 1 {
		s := pricelist.Set{ID: "set", Channel: there, Products: ids[:rapid.IntRange(2, len(ids)).Draw(g.t, "set")]}
		if g.chance(50, "apart") {
			s.Alternatives = []pricelist.Alternative{{Share: g.rate("all", "50%", "33.3%"), Products: s.Products}, {Share: g.rate("one", "10%", "50%"), Products: s.Products[:1]}}
		}
		g.doc.Sets = []pricelist.Set{s}
	}
	f := fair.Fair{ID: "fair", Channel: there, Stand: g.money("stand", 0, 9000), Jury: g.money("jury", 0, 900), Chance: quoin.Some(g.rate("chance", "30%", "100%")), Prints: quoin.FactorOf(rapid.Int64Range(1, 90).Draw(g.t, "prints"))}
	f.Commission, f.Mix = g.rate("organiser", "0%", "12%"), []fair.Share{{Product: ids[0], Share: quoin.MustRate("100%")}}
	if len(ids) > 1 {
		f.Mix = []fair.Share{{Product: ids[0], Share: quoin.MustRate("35%")}, {Product: ids[1], Share: quoin.MustRate("65%")}}
	}
	if g.chance(50, "at least") && !f.Commission.IsZero() {
		f.CommissionAtLeast = g.money("least commission", 0, 9000)
	}
	g.doc.Fairs = []fair.Fair{f}
	e := edition.Edition{ID: "edition", Products: g.products(""), Size: 30, Sold: rapid.Int64Range(0, 30).Draw(g.t, "sold"), PerMonth: quoin.FactorOf(2), Steps: []edition.PriceStep{{Times: quoin.FactorOf(1)}}}
	for i := range rapid.Int64Range(0, 3).Draw(g.t, "steps") {
		step := edition.PriceStep{Sold: 5*i + 4, Times: quoin.MustFactor(fmt.Sprintf("1.%d", rapid.IntRange(1, 99).Draw(g.t, "times")))}
		if g.chance(25, "a price of its own") {
			step = edition.PriceStep{Sold: 5*i + 4, Price: quoin.Some(g.money("step's price", 1, 1000))}
		}
		e.Steps = append(e.Steps, step)
	}
	g.doc.Editions = []edition.Edition{e}
}
