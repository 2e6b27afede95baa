package pricelist

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/fair"
	"example.com/quoin/margin"
	"example.com/quoin/margin/edition"
	"example.com/quoin/margin/rule"
)

// SetPrice is the lowest price of a set that keeps as much as its buyers would otherwise have
// brought.
type SetPrice struct {
	// Id of the set.
	ID string `json:"id"`
	// What people call it, where the document says so.
	Name string `json:"name,omitempty"`
	// Id of the channel.
	Channel string `json:"channel"`
	// What its products cost by themselves.
	SumOfPrices quoin.Amount `json:"sum_of_prices" range:"[0,"`
	// What the shop would have kept of an average buyer without it: each product in an order of
	// its own, of one item.
	Expected quoin.Amount `json:"expected"`
	// The least price at which one set, in one order, keeps at least as much; not given where no
	// price up to the limit does.
	Least quoin.Optional[quoin.Amount] `json:"least,omitzero"`
	// What it keeps at that price.
	Contribution quoin.Optional[quoin.Amount] `json:"contribution,omitzero"`
	// What a buyer saves at that price, as a share of apart; negative where it would have to
	// cost more.
	Saves quoin.Optional[quoin.Rate] `json:"saves,omitzero"`
	// Where expected comes from; not there in an answer without steps.
	Steps Reasons `json:"steps,omitzero"`
}

// StepExpected is the code of the step that adds up what buyers of a set would
// have kept the shop without it: Σ share × what an order of each keeps.
const StepExpected quoin.StepCode = "expected_alternatives"

// sets finds the least price of each set.
func (d derivedDocument) sets(prices []quoin.Amount, m *sharedCosts) ([]SetPrice, error) {
	var out []SetPrice
	alone := make(map[place]quoin.Amount) // what an order of one product by itself keeps
	for n, s := range d.Sets {
		j := d.channelIndex(s.Channel)
		one := SetPrice{ID: s.ID, Name: s.Name, Channel: s.Channel}
		for _, p := range s.Products {
			one.SumOfPrices = one.SumOfPrices.Add(prices[d.index[p]])
		}
		one.SumOfPrices = d.Currency.Round(one.SumOfPrices, quoin.HalfUp)
		if err := d.keepApart(s, j, prices, m, alone); err != nil {
			return nil, err
		}
		one.expects(s, quoin.InList("sets", n), func(p string) quoin.Amount { return alone[place{p, j}] })
		// Promotions that name products do not speak of the set.
		sale, err := d.inOneOrder(d.Channels[j].OfParts(d.taxedParts(s, prices)...).For(s.ID), m, s.Products...)
		if err != nil {
			return nil, err
		}
		grid, err := d.gridOf(len(s.Products))
		if err != nil {
			return nil, err
		}
		if err := one.price(sale, grid); err != nil {
			return nil, err
		}
		out = append(out, one)
	}
	return out, nil
}

// taxedParts are the products of a set with their classes of tax, at the decided prices: where no
// product has a class, it is one thing.
func (d derivedDocument) taxedParts(s Set, prices []quoin.Amount) []channel.TaxedPart {
	var out []channel.TaxedPart
	classes := false
	for _, id := range s.Products {
		p := d.Products[d.index[id]]
		out = append(out, channel.TaxedPart{Name: p.ID, Class: p.TaxClass, Price: prices[d.index[id]]})
		classes = classes || p.TaxClass != ""
	}
	if !classes {
		return nil
	}
	return out
}

// channelIndex is where a channel stands, by its id.
func (d Document) channelIndex(id string) int {
	return slices.IndexFunc(d.Channels, func(c channel.Channel) bool { return c.ID == id })
}

// gridOf is the prices considered for so many products together: up to as many
// times the limit as there are prices for.
func (d derivedDocument) gridOf(n int) (quoin.Grid, error) {
	one, err := d.Grid()
	if err != nil {
		return one, err
	}
	if many, err := quoin.NewGrid(one.Step(), one.Price(one.Len()).Times(quoin.FactorOf(int64(n)))); err == nil {
		return many, nil
	}
	return one, nil
}

// expects adds up what buyers of the set would have kept the shop without it.
func (s *SetPrice) expects(set Set, at quoin.Path, kept func(product string) quoin.Amount) {
	var pairs []quoin.Operand
	for k, a := range set.soldApart() {
		for _, p := range a.Products {
			s.Expected = s.Expected.Add(kept(p).Part(a.Share))
			share := quoin.GivenOr("share", at.Sub("alternatives", k).Field("share"), a.Share.Figure(), len(set.Alternatives) > 0)
			pairs = append(pairs, quoin.Given(p+" keeps", quoin.Path{}, kept(p).Figure()), share)
		}
	}
	s.Steps = because(func(t *quoin.Trail) { t.On(set.ID).Weighted(StepExpected, at, pairs...) })
}

// keepApart works out what an order of one of each product that buyers would take without the set
// keeps in channel j.
func (d derivedDocument) keepApart(s Set, j int, prices []quoin.Amount, m *sharedCosts, alone map[place]quoin.Amount) error {
	for _, a := range s.soldApart() {
		for _, p := range a.Products {
			if _, known := alone[place{p, j}]; known {
				continue
			}
			sale, err := d.inOneOrder(d.Channels[j].TaxedAs(d.Products[d.index[p]].TaxClass).For(p), m, p)
			if err != nil {
				return err
			}
			alone[place{p, j}] = sale.At(prices[d.index[p]]).Contribution
		}
	}
	return nil
}

// inOneOrder is the sale of one of each product together: one order of one item, in each
// kind of order of the channel, whose goods are those of an order of each added up. What
// the channel's period costs, and the shop's overhead, are left out.
func (d derivedDocument) inOneOrder(c channel.Channel, m *sharedCosts, products ...string) (margin.Sale, error) {
	c.Orders = slices.Clone(c.Orders)
	for i := range c.Orders {
		c.Orders[i].Items = 1
	}
	terms := c.Terms(d.Currency)
	sum := margin.Sale{Terms: terms, Goods: make([]margin.OrderGoods, terms.Orders()), IncomeTax: d.IncomeTax}
	for _, id := range products {
		p := &d.Products[d.index[id]]
		goods, err := m.goods(p, &c, margin.PackingList{Bill: p.Packing[c.Packing]})
		if err != nil {
			return sum, err
		}
		for k := range sum.Goods {
			o, _ := terms.Order(k)
			o.Items = 1
			sum.Goods[k].Cost = sum.Goods[k].Cost.Add(goods.OrderOf(o))
		}
	}
	return sum, nil
}

// soldApart is what buyers would buy without the set.
func (s Set) soldApart() []Alternative {
	if len(s.Alternatives) > 0 {
		return s.Alternatives
	}
	return []Alternative{{Share: quoin.FactorOf(1).Rate(), Products: s.Products}}
}

// price finds the least price at which the set keeps what is expected without it.
func (s *SetPrice) price(sale margin.Sale, g quoin.Grid) error {
	it := rule.Item{ID: s.ID, Grid: g, Offers: []rule.Offer{rule.CompileChannel(sale.Terms, g).Offer(sale)}}
	allowed, err := rule.Rule{Kind: rule.Contribution{AtLeast: s.Expected}}.Allowed(it)
	if err != nil {
		return err
	}
	least, ok := allowed.Least()
	if !ok {
		return nil
	}
	s.Least, s.Contribution = quoin.Some(least), quoin.Some(sale.At(least).Contribution)
	if s.SumOfPrices.Sign() > 0 {
		s.Saves = quoin.Some(s.SumOfPrices.Sub(least).Share(s.SumOfPrices))
	}
	return nil
}

// FairResult is what a fair brings at the decided prices.
type FairResult struct {
	// Id of the fair.
	ID string `json:"id"`
	// What people call it, where the document says so.
	Name string `json:"name,omitempty"`
	// Id of the channel in whose terms prints are sold there.
	Channel string `json:"channel"`
	fair.Outcome
	// How the result comes about, from what a print of each product keeps there; not there in an
	// answer without steps.
	Steps Reasons `json:"steps,omitzero"`
}

// fairs plans every fair. What a print keeps there is its contribution, with what
// the channel's period adds left out: going to the fair is what is decided.
func (d derivedDocument) fairs(products []ProductResult) ([]FairResult, error) {
	var out []FairResult
	for i, f := range d.Fairs {
		var prints []fair.Print
		for _, share := range f.Mix { // each product once, which was checked
			p := &products[d.index[share.Product]]
			s := p.in(f.Channel).Statement
			prints = append(prints, fair.Print{Product: p.ID, Price: s.Revenue.Add(s.Tax), Revenue: s.Revenue, Kept: s.BeforeFixedCost(), Goods: s.Goods, OwnTime: s.OwnTime})
		}
		outcome, err := f.Outcome(prints)
		if err != nil {
			return nil, under(quoin.InList("fairs", i), err)
		}
		out = append(out, FairResult{f.ID, f.Name, f.Channel, outcome, because(func(t *quoin.Trail) {
			given := make([]fair.PrintOperands, len(prints))
			for k, p := range prints {
				given[k] = p.Given(quoin.Path{})
			}
			f.Explain(t, quoin.InList("fairs", i), given)
		})})
	}
	return out, nil
}

// in is the product in a channel that sells it, which was checked.
func (p *ProductResult) in(channel string) *ChannelResult {
	return &p.Channels[slices.IndexFunc(p.Channels, func(c ChannelResult) bool { return c.ID == channel })]
}

// under puts the path of what problems are about before theirs.
func under(at quoin.Path, err error) error {
	ps, ok := err.(quoin.Problems)
	if !ok {
		return at.Locate(err)
	}
	out := make(quoin.Problems, len(ps))
	for i, p := range ps {
		out[i], _ = at.Locate(p).(quoin.Problem)
	}
	return out
}

// EditionStatus is how an edition stands, and what it is expected to bring.
type EditionStatus struct {
	// Id of the edition.
	ID string `json:"id"`
	// What people call it, where the document says so.
	Name string `json:"name,omitempty"`
	// How each numbering stands.
	Numberings []edition.Numbering `json:"numberings"`
	// The steps of each product.
	Products []EditionPrices `json:"products"`
	// Whether it is within each bound of the document.
	Limits []LimitStatus `json:"limits,omitempty"`
}

// EditionPrices are the price steps of one product of an edition.
type EditionPrices struct {
	// Id of the product.
	Product string `json:"product"`
	// Its steps, in the order in which they are reached.
	Steps []EditionStep `json:"steps"`
	// How many are still to be sold, all in this size.
	Count int64 `json:"count"`
	// What those come to.
	Proceeds quoin.Amount `json:"proceeds"`
	// What is left after all but income tax and overhead if all of them are sold in the channel.
	Contribution quoin.Amount `json:"contribution"`
	// Id of the channel that keeps least of them all together.
	Channel string `json:"channel,omitempty"`
	// How long selling them takes; not given where no pace is.
	Months quoin.Optional[quoin.Factor] `json:"months,omitzero"`
	// Where proceeds, contribution and months come from, step by step; not there in an answer without steps.
	Reasons Reasons `json:"reasons,omitzero"`
}

// EditionStep is one price step: its price from so many sold on, and whether all rules allow
// it.
type EditionStep struct {
	// How many are sold before it.
	Sold int64 `json:"sold"`
	// The price.
	Price quoin.Amount `json:"price" range:"[0,"`
	// How many are still to be sold at it.
	Count int64 `json:"count"`
	// Ids of the rules that do not allow it.
	Refused []string `json:"refused,omitempty"`
}

// LimitStatus is a limit on editions, and how many prints of one edition it counts.
type LimitStatus struct {
	// What people call it.
	Name string `json:"name"`
	// How many prints it counts.
	Counts int64 `json:"counts"`
	// How many it may be.
	AtMost int64 `json:"at_most"`
	// Whether the edition is within it.
	Within bool `json:"within"`
	// Where the shop has it from.
	Source string `json:"source,omitempty"`
}

// editions says how every edition stands.
func (d derivedDocument) editions(items []rule.Item, dec rule.Decision) []EditionStatus {
	var out []EditionStatus
	for k, e := range d.Editions {
		numberings, _ := e.Audit() // whose faults were told when it was checked
		l := EditionStatus{ID: e.ID, Name: e.Name, Numberings: numberings}
		for _, b := range d.EditionLimits {
			l.Limits = append(l.Limits, LimitStatus{b.Name, b.Count(e), b.AtMost, b.Within(e), b.Source})
		}
		for _, id := range e.Products {
			at := quoin.InList("editions", k)
			i := d.index[id]
			n, _ := edition.NumberingOf(numberings, id)
			l.Products = append(l.Products, d.pricesOf(e, at, n.Numbers, i, items[i], dec))
		}
		out = append(out, l)
	}
	return out
}

// rising prices the steps of a product: times its decided price, raised to the
// next price that its endings allow.
func (d derivedDocument) pricesOf(e edition.Edition, at quoin.Path, of edition.Tally, i int, it rule.Item, dec rule.Decision) EditionPrices {
	steps := e.Ladder(of, dec.Prices[i], func(p quoin.Amount) quoin.Amount { return dec.Asked(i, p) })
	proceeds, kept, in := leastContribution(steps, it)
	r := EditionPrices{Product: it.ID, Count: proceeds.Count, Proceeds: proceeds.Gross, Contribution: proceeds.Kept, Channel: in, Months: proceeds.Months}
	r.Reasons = because(func(t *quoin.Trail) {
		e.Explain(t, at, of, steps, nil)
		e.Explain(t, at, of, steps, kept)
		e.ExplainMonths(t, at, of, steps)
	})
	for _, s := range steps {
		r.Steps = append(r.Steps, EditionStep{
			Sold: s.From - 1, Price: d.Currency.Round(s.Price, quoin.HalfUp), Count: s.Count, Refused: dec.Refuse(i, s.Price),
		})
	}
	return r
}

// leastContribution is what the prints still to be sold bring in the channel that keeps least of
// all of them, of equals the first, with what it keeps of a price.
func leastContribution(steps []edition.PricedStep, it rule.Item) (least edition.ExpectedProceeds, kept func(quoin.Amount) quoin.Amount, channel string) {
	for j, o := range it.Offers {
		keeps := func(price quoin.Amount) quoin.Amount { return o.Sale.At(price).Contribution }
		if t := edition.Expected(steps, keeps); j == 0 || t.Kept.Cmp(least.Kept) < 0 {
			least, kept, channel = t, keeps, o.Channel
		}
	}
	return least, kept, channel
}
