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
	// Own and Paid are the working time in the goods, for each kind of order;
	// empty where there is none.
	Own, Paid []quoin.Amount
	// Selling and Overhead are what the channel's period and the shop's add to
	// each item; IncomeTax is taken of what operating leaves above zero.
	Selling, Overhead quoin.Amount
	IncomeTax         quoin.Rate
}

// NewSale puts a product's goods and a channel's terms together. What periods
// add, and income tax, are none until they are set.
func NewSale(terms channel.Terms, goods Goods) Sale {
	s := Sale{Terms: terms}
	for i := range terms.Orders() {
		items := terms.Items(i)
		s.Goods = append(s.Goods, goods.Order(items))
		if !goods.Own.none() {
			s.Own = append(s.Own, goods.whole(goods.Own, items))
		}
		if !goods.Paid.none() {
			s.Paid = append(s.Paid, goods.whole(goods.Paid, items))
		}
	}
	return s
}

// GoodsPerItem returns what the goods of one item cost, averaged over the
// kinds of order. It does not depend on the price.
func (s Sale) GoodsPerItem() quoin.Amount { return s.average(s.Goods) }

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
	t := s.Terms.Takings(list)
	st := Statement{
		Revenue: t.Revenue, Tax: t.Tax, Goods: s.GoodsPerItem(), Fees: t.Fees, Fulfilment: t.Fulfilment,
		Selling: s.Selling, Overhead: s.Overhead, OwnTime: s.average(s.Own), PaidTime: s.average(s.Paid),
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
func (s Sale) Worst() []Sale {
	out := make([]Sale, len(s.Goods))
	for i, terms := range s.Terms.Worst() {
		out[i] = s
		out[i].Terms = terms
		out[i].Goods = s.Goods[i : i+1 : i+1]
		out[i].Own, out[i].Paid = nil, nil // of the average only
	}
	return out
}
