package margin

import (
	"example.com/quoin"
	"example.com/quoin/channel"
)

// Sale is one product sold through one channel: everything a statement needs
// but the price.
type Sale struct {
	Terms channel.Terms
	// Goods is what the goods of one order of each kind cost.
	Goods []quoin.Amount
	// Made is what making the items of one order of each kind costs, without packing.
	Made []quoin.Amount
	// Own and Paid are the working time in the goods, for each kind of order;
	// empty where there is none.
	Own, Paid []quoin.Amount
	// Hours is the maker's own working time in one order of each kind, as far as it
	// is bought by a unit of time, each hour counted as one.
	Hours []quoin.Amount
	// Selling and Overhead are what the channel's period and the shop's add to
	// each item; IncomeTax is taken of what operating leaves above zero.
	Selling, Overhead quoin.Amount
	IncomeTax         quoin.Rate
}

// NewSale puts a product's goods and a channel's terms together: the same goods
// for every kind of order. What periods add, and income tax, are none until they
// are set.
func NewSale(terms channel.Terms, goods Goods) Sale {
	return NewPackedSale(terms, func(int) Goods { return goods })
}

// NewPackedSale is NewSale where kinds of order are packed differently: goods are
// what one of kind i takes.
func NewPackedSale(terms channel.Terms, goods func(kind int) Goods) Sale {
	n := terms.Orders()
	s := Sale{Terms: terms, Goods: make([]quoin.Amount, n), Made: make([]quoin.Amount, n), Own: make([]quoin.Amount, n), Paid: make([]quoin.Amount, n), Hours: make([]quoin.Amount, n)}
	own, paid := false, false
	for i := range n {
		g, items := goods(i), terms.Items(i)
		s.Goods[i], s.Own[i], s.Paid[i], s.Hours[i] = g.Order(items), g.time(g.Own, items), g.time(g.Paid, items), g.time(g.Hours, items)
		s.Made[i] = g.Made.Times(quoin.FactorOf(items)).Times(g.Allowance.Contingency.OnePlus())
		own, paid = own || !g.Own.none(), paid || !g.Paid.none()
	}
	if !own {
		s.Own = nil
	}
	if !paid {
		s.Paid = nil
	}
	return s
}

// GoodsPerItem returns what the goods of one item cost, averaged over the
// kinds of order. It does not depend on the price.
func (s Sale) GoodsPerItem() quoin.Amount { return s.average(s.Goods) }

// OwnHours returns the maker's own working time in an item, in hours, averaged
// over the kinds of order, with what is lost and set aside as in goods.
func (s Sale) OwnHours() quoin.Factor { return s.average(s.Hours).Ratio(quoin.AmountOf(1, 0)) }

func (s Sale) average(ofKind []quoin.Amount) quoin.Amount {
	if len(ofKind) == 0 {
		return quoin.Amount{}
	}
	return s.Terms.Average(func(kind int) quoin.Amount { return ofKind[kind] })
}

// Relieved returns the sale with goods that cost so much less for each item.
func (s Sale) Relieved(perItem quoin.Amount) Sale {
	goods := make([]quoin.Amount, len(s.Goods))
	for i, g := range s.Goods {
		goods[i] = g.Sub(perItem.Times(quoin.FactorOf(s.Terms.Items(i))))
	}
	s.Goods = goods
	return s
}

// At returns the statement of one item at a list price.
func (s Sale) At(list quoin.Amount) Statement {
	t, places := s.Terms.Takings(list), s.Terms.ListPlaces()
	st := Statement{
		Revenue: t.Revenue, Tax: t.Tax, Goods: s.GoodsPerItem(), Fees: t.Fees, Fulfilment: t.Fulfilment, IncomeTax: quoin.AmountOf(0, places),
		Selling: s.Selling.WithPlaces(places), Overhead: s.Overhead.WithPlaces(places), OwnTime: s.average(s.Own), PaidTime: s.average(s.Paid),
	}
	st.Gross = st.Revenue.Sub(st.Goods)
	st.Contribution = st.Gross.Sub(st.Fees).Sub(st.Fulfilment).Sub(st.Selling)
	st.Operating = st.Contribution.Sub(st.Overhead)
	if st.Operating.Sign() > 0 {
		st.IncomeTax = st.Operating.Part(s.IncomeTax)
	}
	st.Net = st.Operating.Sub(st.IncomeTax)
	return st
}

// Worst returns the sale of each kind of order by itself, with every fee that
// is charged only sometimes charged in full.
func (s Sale) Worst() []Sale { return s.WorstBy(s.Terms.Worst()) }

// WorstBy is Worst with what Terms.Worst returned of the sale's terms, which many
// sales may share.
func (s Sale) WorstBy(worst []channel.Terms) []Sale {
	out := make([]Sale, len(worst))
	for i, terms := range worst {
		out[i] = s
		out[i].Terms = terms
		if len(s.Goods) > 0 {
			out[i].Goods = s.Goods[i : i+1 : i+1]
		}
		out[i].Own, out[i].Paid, out[i].Hours, out[i].Made = nil, nil, nil, nil // of the average only
	}
	return out
}
