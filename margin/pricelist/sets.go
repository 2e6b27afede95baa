package pricelist

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
	"example.com/quoin/margin/rule"
)

// SetPrice is what a set may cost so that it keeps no less than the orders that
// it stands in for.
type SetPrice struct {
	ID      string `json:"id"`
	Name    string `json:"name,omitempty"`
	Channel string `json:"channel"`
	// Apart is what its products cost by themselves. Expected is what the shop keeps of
	// an average buyer without the set: each product in an order of its own, of one item.
	Apart    quoin.Amount `json:"apart"`
	Expected quoin.Amount `json:"expected"`
	// Least is the least price at which one set, in one order, keeps at least as
	// much, and Keeps what it keeps; none where no price up to the limit does.
	Least quoin.Optional[quoin.Amount] `json:"least,omitzero"`
	Keeps quoin.Optional[quoin.Amount] `json:"keeps,omitzero"`
	// Saves is what a buyer saves at that price as a share of Apart; below zero
	// where the set would have to cost more.
	Saves quoin.Optional[quoin.Rate] `json:"saves,omitzero"`
	// Explanation is where Expected comes from, step by step.
	Explanation Reasons `json:"steps,omitzero"`
}

// StepExpected is the code of the step that adds up what buyers of a set would
// have kept the shop without it: Σ share × what an order of each keeps.
const StepExpected quoin.StepCode = "expected_apart"

// sets finds the least price of each set.
func (d worked) sets(prices []quoin.Amount, m *maker) ([]SetPrice, error) {
	var out []SetPrice
	alone := make(map[place]quoin.Amount) // what an order of one product by itself keeps
	for n, s := range d.Sets {
		j := d.channelIndex(s.Channel)
		one := SetPrice{ID: s.ID, Name: s.Name, Channel: s.Channel}
		for _, p := range s.Products {
			one.Apart = one.Apart.Add(prices[d.index[p]])
		}
		one.Apart = d.Currency.Round(one.Apart, quoin.HalfUp)
		kept, err := d.keptApart(s, j, prices, m, alone)
		if err != nil {
			return nil, err
		}
		one.expects(s, quoin.InList("sets", n), kept)
		// Promotions that name products do not speak of the set.
		sale, err := d.inOneOrder(d.Channels[j].For(s.ID), m, s.Products...)
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

// channelIndex is where a channel stands, by its id.
func (d Document) channelIndex(id string) int {
	return slices.IndexFunc(d.Channels, func(c channel.Channel) bool { return c.ID == id })
}

// gridOf is the prices considered for so many products together: up to as many
// times the limit as there are prices for.
func (d worked) gridOf(n int) (quoin.Grid, error) {
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
func (s *SetPrice) expects(set Set, at quoin.Path, kept map[string]quoin.Amount) {
	var pairs []quoin.Operand
	for k, a := range set.apart() {
		for _, p := range a.Products {
			s.Expected = s.Expected.Add(kept[p].Part(a.Share))
			share := quoin.GivenOr("share", at.FieldAt("apart", k), a.Share.Figure(), len(set.Apart) > 0)
			pairs = append(pairs, quoin.Given(p+" keeps", quoin.Path{}, kept[p].Figure()), share)
		}
	}
	s.Explanation = because(func(t *quoin.Trail) { t.On(set.ID).Weighted(StepExpected, at, pairs...) })
}

// keptApart is what an order of one of each product that buyers would take without the set
// keeps in channel j.
func (d worked) keptApart(s Set, j int, prices []quoin.Amount, m *maker, alone map[place]quoin.Amount) (map[string]quoin.Amount, error) {
	kept := make(map[string]quoin.Amount)
	for _, a := range s.apart() {
		for _, p := range a.Products {
			if _, known := kept[p]; known {
				continue
			}
			amount, known := alone[place{p, j}]
			if !known {
				sale, err := d.inOneOrder(d.Channels[j].For(p), m, p)
				if err != nil {
					return nil, err
				}
				amount = sale.At(prices[d.index[p]]).Contribution
				alone[place{p, j}] = amount
			}
			kept[p] = amount
		}
	}
	return kept, nil
}

// inOneOrder is the sale of one of each product together: one order of one item, in each
// kind of order of the channel, whose goods are those of an order of each added up. What
// the channel's period costs, and the shop's overhead, are left out.
func (d worked) inOneOrder(c channel.Channel, m *maker, products ...string) (margin.Sale, error) {
	c.Orders = slices.Clone(c.Orders)
	for i := range c.Orders {
		c.Orders[i].Items = 1
	}
	terms := c.Terms(d.Currency)
	sum := margin.Sale{Terms: terms, Goods: make([]quoin.Amount, terms.Orders()), IncomeTax: d.IncomeTax}
	for _, id := range products {
		p := d.Products[d.index[id]]
		goods, err := m.goods(p, c, margin.Packed{Bill: p.Packing[c.Packing]})
		if err != nil {
			return sum, err
		}
		for k := range sum.Goods {
			sum.Goods[k] = sum.Goods[k].Add(goods.Order(1))
		}
	}
	return sum, nil
}

// apart is what buyers would buy without the set.
func (s Set) apart() []Apart {
	if len(s.Apart) > 0 {
		return s.Apart
	}
	return []Apart{{Share: quoin.FactorOf(1).Rate(), Products: s.Products}}
}

// price finds the least price at which the set keeps what is expected without it.
func (s *SetPrice) price(sale margin.Sale, g quoin.Grid) error {
	it := rule.Item{ID: s.ID, Grid: g, Offers: []rule.Offer{rule.NewShelf(sale.Terms, g).Offer(sale)}}
	allowed, err := rule.Rule{Kind: rule.Contribution{AtLeast: s.Expected}}.Allowed(it)
	if err != nil {
		return err
	}
	least, ok := allowed.Least()
	if !ok {
		return nil
	}
	s.Least, s.Keeps = quoin.Some(least), quoin.Some(sale.At(least).Contribution)
	if s.Apart.Sign() > 0 {
		s.Saves = quoin.Some(s.Apart.Sub(least).Share(s.Apart))
	}
	return nil
}
