package channel

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/channel/promo"
	"example.com/quoin/internal/form"
)

// OnDemand is selling through a house that prints each item when it is ordered, sells it, and
// pays the maker.
type OnDemand struct {
	// What the maker gets: the price less the base, a rate of the price, a rate of the price
	// less the base, or the same for each sale.
	Pays Payout `json:"pays" need:"yes"`
	// The royalty, or the share of what is left.
	Rate quoin.Rate `json:"rate,omitzero" range:"[0,1]"`
	// Whether it is taken of the price without the tax in it. Otherwise the maker gets it of the
	// whole price, at most what the house has left after the tax.
	WithoutTax bool `json:"without_tax,omitzero" was:"net"`
	// Whether promotions are paid from the maker's part alone: the house keeps what it keeps of
	// the full price.
	CodesFromMaker bool `json:"codes_from_maker,omitzero"`
	// What the house asks, or pays, for each product that it prints.
	Sizes []OnDemandProduct `json:"sizes,omitempty" most:"1000"`
}

// OnDemandProduct is one product printed on demand.
type OnDemandProduct struct {
	// Id of the product.
	Product string `json:"product" need:"yes"`
	// What the house asks for printing it.
	Base quoin.Amount `json:"base,omitzero" range:"[0,"`
	// What it pays for each sale, where it pays a flat fee.
	Flat quoin.Amount `json:"flat,omitzero" range:"[0,"`
}

// Payout says how a house that prints on demand pays the maker for each sale.
type Payout string

const (
	// AboveBase pays the price less the base: a margin put on it, or a mark-up.
	AboveBase Payout = "above_base"
	// Royalty pays a rate of the price.
	Royalty Payout = "royalty"
	// ShareOfRest pays a rate of the price less the base.
	ShareOfRest Payout = "share_of_rest"
	// FlatFee pays the same whatever the price.
	FlatFee Payout = "flat_fee"
)

// UnmarshalText reads above_base, royalty, share_of_rest or flat_fee.
func (p *Payout) UnmarshalText(text []byte) error {
	return form.SetWord(p, text, AboveBase, Royalty, ShareOfRest, FlatFee)
}

// size is the entry of a product and its place in the list.
func (w *OnDemand) size(product string) (OnDemandProduct, int) {
	i := slices.IndexFunc(w.Sizes, func(s OnDemandProduct) bool { return s.Product == product })
	if i < 0 {
		return OnDemandProduct{}, -1
	}
	return w.Sizes[i], i
}

// fees is what the house keeps of the price. It sells, and owes the tax that
// prices hold: what it pays of the whole price it pays out of what is left.
func (w *OnDemand) fees(product string, inPrice bool) []compiledFee {
	s, place := w.size(product)
	l := compiledFee{owes: inPrice && !w.WithoutTax, Fee: Fee{Name: "the house keeps", Rate: w.Rate.Complement().Rate(), WithoutTax: w.WithoutTax}, way: "on_demand", rate: w.explainKeeps}
	if w.CodesFromMaker {
		l.Of = []Part{Items, Discount}
	}
	size := func(name string, a quoin.Amount) reason {
		return func(_ *order, at quoin.Path) quoin.Operand {
			return quoin.GivenOr(name, at.Sub("sizes", place).Field(name), a.Figure(), place >= 0)
		}
	}
	switch w.Pays {
	case Royalty:
		return []compiledFee{l}
	case ShareOfRest:
		return []compiledFee{beyond(l, s.Base, size("base", s.Base))}
	case FlatFee:
		l.Rate, l.rate, l.WithoutTax, l.owes = whole, constant("all of it", whole.Figure()), true, false
		return []compiledFee{beyond(l, s.Flat, size("flat", s.Flat))}
	}
	return nil
}

// Prints reports whether a house prints this channel's items, and returns what it charges for
// printing the channel's product, in the shop's currency. Nothing else is then spent on making
// it.
func (c Channel) Prints() (quoin.Amount, bool) {
	if c.OnDemand == nil {
		return quoin.Amount{}, false
	}
	s, _ := c.OnDemand.size(c.Product)
	if c.OnDemand.Pays == AboveBase || c.OnDemand.Pays == ShareOfRest {
		return s.Base.Times(c.Home()), true
	}
	return quoin.Amount{}, true
}

// ByProduct reports whether the channel's terms differ from product to product.
func (c Channel) ByProduct() bool {
	byProduct := func(o promo.Offer) bool { return len(o.Products) > 0 || !o.Sale.IsZero() }
	return c.OnDemand != nil || c.Tariff != "" || c.byClass() || slices.ContainsFunc(c.Promotions, byProduct)
}

// For returns the channel for one product: with what an on-demand house charges for it, and
// with the promotions that apply to it.
func (c Channel) For(product string) Channel {
	c.Product = product
	return c
}

// PaysMoreThanLeft reports whether an on-demand house must pay the maker more of every price
// than is left after tax. Then the house would lose money by each sale. Left is the share of a
// price that is left at the highest tax of any order. This is so if a royalty is above 1 ÷ (1 +
// tax). A share of the rest may not even reach that, because the base is subtracted before the
// tax. With 20% tax the limit is 83.33%.
func (c Channel) PaysMoreThanLeft() (left quoin.Rate, more bool) {
	w := c.OnDemand
	if w == nil || w.WithoutTax || !c.Tax.InPrice || w.Pays != Royalty && w.Pays != ShareOfRest {
		return whole, false
	}
	var tax quoin.Rate
	for _, class := range append(c.TaxClasses(), c.TaxClass) {
		for _, k := range c.TaxedAs(class).kinds(0) {
			if k.tax.Cmp(tax) > 0 {
				tax = k.tax
			}
		}
	}
	over := w.Rate.Factor().Times(tax.OnePlus()).Cmp(quoin.FactorOf(1))
	more = over > 0 || over == 0 && w.Pays == ShareOfRest && !tax.IsZero()
	return quoin.FactorOf(1).Over(tax.OnePlus()).Rate(), more
}
