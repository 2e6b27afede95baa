package margin

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/channel"
)

// Sale is one product sold through one channel: everything that a statement needs except the
// price.
type Sale struct {
	Terms channel.Terms
	// Goods are the goods of one order, for each kind of order of the terms.
	Goods []OrderGoods
	// FixedCost is that of the channel for each item, and Overhead that of the
	// shop. IncomeTax is a share of operating income, if that is above zero.
	FixedCost, Overhead quoin.Amount
	IncomeTax           quoin.Rate
}

// OrderGoods is what the goods of one order cost, with its parts.
type OrderGoods struct {
	Cost quoin.Amount // in all
	// Making is what making the items costs, without packing.
	Making quoin.Amount
	// OwnTime and PaidTime are the working time in Cost. Hours is the maker's own time in
	// hours, each counted as 1, of supplies that are bought by a unit of time.
	OwnTime, PaidTime, Hours quoin.Amount
}

// NewSale combines a product's goods and a channel's terms, with the same goods for every kind
// of order. Fixed costs and income tax are 0 until they are set.
func NewSale(terms channel.Terms, goods Goods) Sale {
	return NewPackedSale(terms, func(int) Goods { return goods })
}

// NewPackedSale is NewSale for kinds of order that are packed differently. Goods returns what
// kind i takes.
func NewPackedSale(terms channel.Terms, goods func(kind int) Goods) Sale {
	s := Sale{Terms: terms, Goods: make([]OrderGoods, terms.Orders())}
	for i := range s.Goods {
		g, items := goods(i), terms.Items(i)
		o, _ := terms.Order(i)
		o.Items = items
		s.Goods[i] = OrderGoods{
			Cost: g.OrderOf(o), OwnTime: g.time(g.Own, o), PaidTime: g.time(g.Paid, o), Hours: g.time(g.Hours, o),
			Making: g.Made.Times(quoin.FactorOf(items)).Times(g.Allowance.Contingency.OnePlus()),
		}
	}
	return s
}

// GoodsPerItem returns the cost of goods of one item, averaged over the kinds of order. It does
// not depend on the price.
func (s Sale) GoodsPerItem() quoin.Amount {
	return s.average(func(g *OrderGoods) quoin.Amount { return g.Cost })
}

// OwnHours returns the maker's own working time in an item, in hours, averaged over the kinds
// of order. It includes spoiled pieces, contingency and lost parcels, as the goods do.
func (s Sale) OwnHours() quoin.Factor {
	return s.average(func(g *OrderGoods) quoin.Amount { return g.Hours }).Ratio(quoin.AmountOf(1, 0))
}

func (s Sale) average(figure func(*OrderGoods) quoin.Amount) quoin.Amount {
	if len(s.Goods) == 0 {
		return quoin.Amount{}
	}
	return s.Terms.Average(func(kind int) quoin.Amount { return figure(&s.Goods[kind]) })
}

// WithCheaperGoods returns the sale with goods that cost so much less for each item.
func (s Sale) WithCheaperGoods(perItem quoin.Amount) Sale {
	s.Goods = slices.Clone(s.Goods)
	for i := range s.Goods {
		g := &s.Goods[i]
		g.Cost = g.Cost.Sub(perItem.Times(quoin.FactorOf(s.Terms.Items(i))))
	}
	return s
}

// ItemGoods is what the goods of one item cost, averaged over the kinds of order, and the working
// time in it. It does not depend on the price.
type ItemGoods struct{ Cost, OwnTime, PaidTime quoin.Amount }

// ItemGoods returns the goods of one item.
func (s *Sale) ItemGoods() ItemGoods {
	return ItemGoods{
		Cost:     s.GoodsPerItem(),
		OwnTime:  s.average(func(g *OrderGoods) quoin.Amount { return g.OwnTime }),
		PaidTime: s.average(func(g *OrderGoods) quoin.Amount { return g.PaidTime }),
	}
}

// At returns the statement of one item at a list price.
func (s Sale) At(list quoin.Amount) Statement { return s.Statement(list, s.ItemGoods()) }

// Statement is At for goods that are known, such as those that many prices share. The goods of
// the sale are not looked at.
func (s *Sale) Statement(list quoin.Amount, goods ItemGoods) Statement {
	t, places := s.Terms.Proceeds(list), s.Terms.ListPlaces()
	st := Statement{
		Revenue: t.Revenue, Tax: t.Tax, Goods: goods.Cost, Fees: t.Fees, Fulfilment: t.Fulfilment, IncomeTax: quoin.AmountOf(0, places),
		FixedCost: s.FixedCost.WithPlaces(places), Overhead: s.Overhead.WithPlaces(places), OwnTime: goods.OwnTime, PaidTime: goods.PaidTime,
	}
	st.Gross = st.Revenue.Sub(st.Goods)
	st.Contribution = st.Gross.Sub(st.Fees).Sub(st.Fulfilment).Sub(st.FixedCost)
	st.Operating = st.Contribution.Sub(st.Overhead)
	if st.Operating.Sign() > 0 {
		st.IncomeTax = st.Operating.Part(s.IncomeTax)
	}
	st.Net = st.Operating.Sub(st.IncomeTax)
	return st
}

// Worst returns the sale of each kind of order by itself. Every fee that only some sales pay is
// counted in full.
func (s Sale) Worst() []Sale { return s.WorstBy(s.Terms.Worst()) }

// WorstBy is Worst with the result of Terms.Worst for the sale's terms, which many sales can
// share.
func (s Sale) WorstBy(worst []channel.Terms) []Sale {
	out, goods := make([]Sale, len(worst)), make([]OrderGoods, len(s.Goods))
	for i, g := range s.Goods {
		goods[i].Cost = g.Cost // what it is made of is of the average only
	}
	for i, terms := range worst {
		out[i] = s
		out[i].Terms, out[i].Goods = terms, nil
		if len(goods) > 0 {
			out[i].Goods = goods[i : i+1 : i+1]
		}
	}
	return out
}
