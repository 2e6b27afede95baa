package pricelist

import (
	"math/big"
	"slices"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin/rule"
)

// Remedy is one change that by itself would end a conflict of rules. It is the smallest such
// change, in hundredths of a per cent for rates, hundredths for factors and minor units for
// money.
type Remedy struct {
	// What would change: the cost of a product's goods, one trade discount, the rate of a fee,
	// or the figure of a rule.
	Change RemedyChange `json:"change"`
	// Where that stands.
	Path string `json:"path"`
	// Id of the product, channel or rule, or name of the fee.
	Name string `json:"name"`
	// What it is.
	From quoin.Figure `json:"from"`
	// What it would be.
	To quoin.Figure `json:"to"`
	// Where that stands, in words: Marketplace, commission, rate.
	Place string `json:"place,omitempty"`
}

// RemedyChange says what a Remedy changes.
type RemedyChange string

const (
	// GoodsTo is what the goods of one item of a product may cost, where they
	// cost most. It is for the product alone, unless a ladder is in the conflict.
	GoodsTo         RemedyChange = "goods"
	TradeDiscountTo RemedyChange = "trade_discount" // one discount of a channel's chain
	FeeTo           RemedyChange = "fee"            // the rate of a fee
	RuleTo          RemedyChange = "rule"           // the figure of a rule
)

// mostInvolved bounds the products that remedies are sought for.
const mostInvolved = 12

// remedies seeks every single change that ends a conflict, by deciding the
// group's rules again with more and more of the change.
func (d Document) remedies(dec rule.Decision, items []rule.Item) []Remedy {
	d.Rules = slices.DeleteFunc(slices.Clone(d.Rules), func(r rule.Rule) bool { return !slices.Contains(dec.Conflict, r.ID) })
	original := d.Products
	d.Products = nil
	for _, i := range dec.Involved() {
		d.Products = append(d.Products, original[i])
	}
	if len(d.Products) == 0 || len(d.Products) > mostInvolved {
		return nil
	}
	s := search{doc: d, minor: d.Currency.Minor(), posts: d.posts()}
	var out []Remedy
	for _, i := range dec.Involved() {
		out = append(out, s.goods(items[i], quoin.InList("products", i))...)
	}
	for j := range d.Channels {
		out = append(out, s.discounts(j)...)
		out = append(out, s.fees(j)...)
	}
	for i, r := range d.Rules {
		at := slices.IndexFunc(dec.Rules(), func(all rule.Rule) bool { return all.ID == r.ID })
		out = append(out, s.rule(i, quoin.InList("rules", at))...)
	}
	return out
}

// search looks for the least change of one number that makes a document's rules
// fit.
type search struct {
	doc   Document
	minor quoin.Amount
	posts posts
}

func (s search) fits(doc Document, relief map[string]quoin.Amount) bool {
	m, err := derivedDocument{Document: doc, memory: &memory{posts: s.posts}}.open()
	if err != nil {
		return false
	}
	items, err := m.items(rule.Likely)
	if err != nil {
		return false
	}
	for i, it := range items {
		items[i] = relieved(it, relief[it.ID])
	}
	ok, err := rule.CheckedItems{Items: items, Rules: doc.Rules}.Fit()
	return err == nil && ok
}

// relieved is an item whose goods cost less.
func relieved(it rule.Item, by quoin.Amount) rule.Item {
	if by.IsZero() {
		return it
	}
	it.Offers = slices.Clone(it.Offers)
	for i, o := range it.Offers {
		it.Offers[i] = o.With(o.Sale.WithCheaperGoods(by))
	}
	return it
}

// down returns the greatest multiple of unit below from that fits, and up the
// least above it, at most most; both false where none does. What fits is taken
// to go on fitting beyond.
func down(from, unit *big.Rat, fits func(n int64) bool) (int64, bool) {
	n := new(big.Rat).Quo(from, unit)
	top := new(big.Int).Sub(new(big.Int).Add(n.Num(), n.Denom()), big.NewInt(1))
	top.Quo(top, n.Denom())
	if !top.IsInt64() || top.Int64() < 1 || !fits(0) {
		return 0, false
	}
	return halved(0, top.Int64(), fits), true
}

func up(from, unit *big.Rat, most int64, fits func(n int64) bool) (int64, bool) {
	n := new(big.Rat).Quo(from, unit)
	bottom := new(big.Int).Quo(n.Num(), n.Denom())
	if !bottom.IsInt64() || bottom.Int64() >= most || !fits(most) {
		return 0, false
	}
	return halved(most, bottom.Int64(), fits), true
}

// halved returns the number nearest to not, which does not fit, that fits, as is does; either
// may be the greater.
func halved(is, not int64, fits func(n int64) bool) int64 {
	for max(is-not, not-is) > 1 {
		if middle := min(is, not) + max(is-not, not-is)/2; fits(middle) {
			is = middle
		} else {
			not = middle
		}
	}
	return is
}

func basisPoints(n int64) quoin.Rate { return quoin.AmountOf(n, 4).Share(quoin.AmountOf(1, 0)) }

func hundredths(n int64) quoin.Factor       { return quoin.AmountOf(n, 2).Ratio(quoin.AmountOf(1, 0)) }
func (s search) money(n int64) quoin.Amount { return quoin.AmountOf(n, s.doc.Currency.Digits()) }

var (
	basisPoint = big.NewRat(1, 10_000)
	hundredth  = big.NewRat(1, 100)
)

// goods seeks how little the goods of one product may cost.
func (s search) goods(it rule.Item, at quoin.Path) []Remedy {
	var most quoin.Amount
	for _, o := range it.Offers {
		if g := o.Sale.GoodsPerItem(); g.Cmp(most) > 0 {
			most = g
		}
	}
	doc := s.doc
	if !slices.ContainsFunc(doc.Rules, isKind[rule.SizeRatio]) {
		doc.Products = slices.DeleteFunc(slices.Clone(doc.Products), func(p Product) bool { return p.ID != it.ID })
	}
	to, ok := down(most.Snap().Rat(), s.minor.Rat(), func(n int64) bool {
		return s.fits(doc, map[string]quoin.Amount{it.ID: most.Sub(s.money(n))})
	})
	if !ok {
		return nil
	}
	return []Remedy{{GoodsTo, at.String(), it.ID, most.Figure(), s.money(to).Figure(), ""}}
}

func (s search) discounts(j int) []Remedy {
	var out []Remedy
	for i, from := range s.doc.Channels[j].TradeDiscount {
		to, ok := s.rate(j, from, func(c *channel.Channel, r quoin.Rate) {
			c.TradeDiscount = slices.Clone(c.TradeDiscount)
			c.TradeDiscount[i] = r
		})
		if ok {
			at := quoin.InList("channels", j).FieldAt("trade_discount", i)
			out = append(out, Remedy{TradeDiscountTo, at.String(), s.doc.Channels[j].ID, from.Figure(), to.Figure(), ""})
		}
	}
	return out
}

func (s search) fees(j int) []Remedy {
	var out []Remedy
	for i, fee := range s.doc.Channels[j].Fees {
		to, ok := s.rate(j, fee.Rate, func(c *channel.Channel, r quoin.Rate) {
			c.Fees = slices.Clone(c.Fees)
			c.Fees[i].Rate = r
		})
		if ok {
			at := quoin.InList("channels", j).Sub("fees", i).Field("rate")
			out = append(out, Remedy{FeeTo, at.String(), fee.Name, fee.Rate.Figure(), to.Figure(), ""})
		}
	}
	return out
}

// rate seeks how low a rate of channel j would have to go.
func (s search) rate(j int, from quoin.Rate, set func(*channel.Channel, quoin.Rate)) (quoin.Rate, bool) {
	to, ok := down(from.Rat(), basisPoint, func(n int64) bool {
		doc := s.doc
		doc.Channels = slices.Clone(doc.Channels)
		set(&doc.Channels[j], basisPoints(n))
		return s.fits(doc, nil)
	})
	return basisPoints(to), ok
}

// dial is one figure of a rule that loosens it when it is turned: by which
// unit, up to what, and the rule with another figure.
type dial struct {
	field string
	from  quoin.Figure
	unit  *big.Rat
	most  int64 // 0 where it is turned down
	with  func(n int64) (rule.Kind, quoin.Figure)
}

func rateDial(field string, from quoin.Rate, most int64, with func(quoin.Rate) rule.Kind) dial {
	return dial{field, from.Figure(), basisPoint, most, func(n int64) (rule.Kind, quoin.Figure) {
		return with(basisPoints(n)), basisPoints(n).Figure()
	}}
}

func factorDial(field string, from quoin.Factor, most int64, with func(quoin.Factor) rule.Kind) dial {
	return dial{field, from.Figure(), hundredth, most, func(n int64) (rule.Kind, quoin.Figure) {
		return with(hundredths(n)), hundredths(n).Figure()
	}}
}

func (s search) moneyDial(field string, from quoin.Amount, most int64, with func(quoin.Amount) rule.Kind) dial {
	return dial{field, from.Figure(), s.minor.Rat(), most, func(n int64) (rule.Kind, quoin.Figure) {
		return with(s.money(n)), s.money(n).Figure()
	}}
}

// rule seeks to what figure rule i would have to go.
func (s search) rule(i int, at quoin.Path) []Remedy {
	var out []Remedy
	for _, d := range s.dials(s.doc.Rules[i].Kind) {
		fits := func(n int64) bool {
			doc := s.doc
			doc.Rules = slices.Clone(doc.Rules)
			doc.Rules[i].Kind, _ = d.with(n)
			return s.fits(doc, nil)
		}
		to, ok := down(d.from.Rat(), d.unit, fits)
		if d.most > 0 {
			to, ok = up(d.from.Rat(), d.unit, d.most, fits)
		}
		if ok {
			_, f := d.with(to)
			out = append(out, Remedy{RuleTo, at.Field(d.field).String(), s.doc.Rules[i].ID, d.from, f, ""})
		}
	}
	return out
}

const (
	mostMove = 1_000_000 // a hundred times today's price, in basis points
	mostStep = 1_000_000 // ten thousand times the size before, in hundredths
	allOfIt  = 10_000    // the whole, in basis points
)

// dials are the figures of a rule that loosen it. Each sets its own copy.
func (s search) dials(k rule.Kind) []dial {
	switch k := k.(type) {
	case rule.CostMultiple:
		return []dial{factorDial("at_least", k.AtLeast, 0, func(f quoin.Factor) rule.Kind { return rule.CostMultiple{AtLeast: f} })}
	case rule.GrossMargin:
		return []dial{rateDial("at_least", k.AtLeast, 0, func(r quoin.Rate) rule.Kind { return rule.GrossMargin{AtLeast: r, AskedOf: k.AskedOf} })}
	case rule.NetMargin:
		return []dial{rateDial("at_least", k.AtLeast, 0, func(r quoin.Rate) rule.Kind { return rule.NetMargin{AtLeast: r, AskedOf: k.AskedOf} })}
	case rule.Contribution:
		return []dial{s.moneyDial("at_least", k.AtLeast, 0, func(a quoin.Amount) rule.Kind { return rule.Contribution{AtLeast: a, AskedOf: k.AskedOf} })}
	case rule.MaxChange:
		return []dial{rateDial("at_most", k.AtMost, mostMove, func(r quoin.Rate) rule.Kind { return rule.MaxChange{AtMost: r} })}
	case rule.Market:
		return []dial{
			rateDial("from_quantile", k.FromQuantile, 0, func(r quoin.Rate) rule.Kind { k := k; k.FromQuantile = r; return k }),
			rateDial("to_quantile", k.ToQuantile, allOfIt, func(r quoin.Rate) rule.Kind { k := k; k.ToQuantile = r; return k }),
		}
	case rule.Price:
		return s.priceDials(k)
	case rule.SizeRatio:
		return stepDials(k)
	}
	return nil
}

func (s search) priceDials(k rule.Price) []dial {
	var out []dial
	if least, given := k.AtLeast.Get(); given {
		out = append(out, s.moneyDial("at_least", least, 0, func(a quoin.Amount) rule.Kind {
			return rule.Price{AtLeast: quoin.Some(a), AtMost: k.AtMost}
		}))
	}
	grid, err := s.doc.Grid()
	if most, given := k.AtMost.Get(); given && err == nil {
		top := new(big.Rat).Quo(grid.Price(grid.Len()).Rat(), s.minor.Rat())
		out = append(out, s.moneyDial("at_most", most, top.Num().Int64(), func(a quoin.Amount) rule.Kind {
			return rule.Price{AtLeast: k.AtLeast, AtMost: quoin.Some(a)}
		}))
	}
	return out
}

func stepDials(k rule.SizeRatio) []dial {
	var out []dial
	if least, given := k.AtLeast.Get(); given {
		out = append(out, factorDial("at_least", least, 0, func(f quoin.Factor) rule.Kind {
			return rule.SizeRatio{AtLeast: quoin.Some(f), AtMost: k.AtMost, Order: k.Order}
		}))
	}
	if most, given := k.AtMost.Get(); given {
		out = append(out, factorDial("at_most", most, mostStep, func(f quoin.Factor) rule.Kind {
			return rule.SizeRatio{AtLeast: k.AtLeast, AtMost: quoin.Some(f), Order: k.Order}
		}))
	}
	return out
}
