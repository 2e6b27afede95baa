package channel

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/channel/promo"
	"example.com/quoin/internal/form"
)

// Consignment is giving prints to a shop that pays for those it sells.
type Consignment struct {
	// The shop's share of the price.
	Commission quoin.Optional[quoin.Rate] `json:"commission,omitzero" range:"[0,1]" need:"yes" or:"on_maker"`
	// In its place: the shop's mark-up on what the maker gets. 100% on it is a share of 50%.
	OnMaker quoin.Optional[quoin.Rate] `json:"on_maker,omitzero" range:"[0,"`
	// Whether it is taken of the price without the tax in it.
	WithoutTax bool `json:"without_tax,omitzero" was:"net"`
	// What the maker gets of each item before the rest is shared, such as the cost of a frame.
	CostsFirst quoin.Amount `json:"costs_first,omitzero" range:"[0,"`
	// What the shop takes off the price of some.
	Discount Reduction `json:"discount,omitzero"`
	// Who is registered for the tax; nobody where it is not given. Where the maker is not, the
	// sale has none; where the shop is and the maker is not, the tax on the commission stays
	// with the maker.
	Registered []Party `json:"registered,omitempty" most:"2"`
	// How long the shop takes to pay.
	Days int64 `json:"days,omitzero" range:"[1,1000]"`
	// What money costs in a year.
	Interest quoin.Rate `json:"interest,omitzero" was:"money" range:"[0,1]"`
	// Share of the pieces given that the shop loses or spoils and does not pay for; below 1.
	LostPieces quoin.Rate `json:"lost_pieces,omitzero" was:"loss" range:"[0,1)"`
}

// Reduction is a discount that the seller gives on some of the sales.
type Reduction struct {
	// The discount; below 1.
	Rate quoin.Rate `json:"rate,omitzero" range:"[0,1)"`
	// Share of sales on which it is given; all of them where it is not given.
	Share quoin.Optional[quoin.Rate] `json:"share,omitzero" range:"[0,1]"`
	// Who bears it: both, by their shares of the price sold at (also where it is not given); the
	// shop; the maker, who pays the commission of the price before it; or nobody, since it may
	// not be given.
	Borne DiscountBearer `json:"borne,omitempty"`
}

// DiscountBearer says who pays for a discount.
type DiscountBearer string

const (
	Shared    DiscountBearer = "shared"    // both: shares are of the price sold at; also when empty
	ByShop    DiscountBearer = "shop"      // the shop: the maker gets the share of the full price
	ByMaker   DiscountBearer = "maker"     // the maker: the shop keeps its share of the price before it
	Forbidden DiscountBearer = "forbidden" // nobody: it may not be given
)

// UnmarshalText reads shared, shop, maker or forbidden.
func (b *DiscountBearer) UnmarshalText(text []byte) error {
	return form.SetWord(b, text, Shared, ByShop, ByMaker, Forbidden)
}

// Party is one of the two sides of a consignment: the maker or the shop.
type Party string

const (
	Maker Party = "maker" // who made the prints and gives them
	Shop  Party = "shop"  // who sells them
)

// UnmarshalText reads maker or shop.
func (p *Party) UnmarshalText(text []byte) error { return form.SetWord(p, text, Maker, Shop) }

// Takes returns the shop's share of the price: the commission, or mark-up ÷ (1 + mark-up). A
// mark-up of 50% is a share of a third.
func (w Consignment) Takes() quoin.Rate {
	if on, given := w.OnMaker.Get(); given {
		return on.Factor().Over(nonZero(on.OnePlus(), "a mark-up of -100%")).Rate()
	}
	return w.Commission.Or(quoin.Rate{})
}

// discounted reports whether the maker feels a discount.
func (w *Consignment) discounted() bool {
	return !w.Discount.Rate.IsZero() && w.Discount.Borne != ByShop && w.Discount.Borne != Forbidden
}

// orders splits each kind of order into those sold at the full price and those
// at the discount, and takes the tax off where the maker has none.
func (w *Consignment) orders(kinds []kind) []kind {
	if !slices.Contains(w.Registered, Maker) {
		for i := range kinds {
			kinds[i].TaxRate = quoin.Some(quoin.Rate{})
			kinds[i].why.tax = constant("tax rate", quoin.Rate{}.Figure())
		}
	}
	if !w.discounted() {
		return kinds
	}
	off := w.Discount.Share.Or(whole)
	var out []kind
	for _, k := range kinds {
		full, less := k, k
		full.Name, less.Name = among(k.Name, "at the full price"), among(k.Name, "at the discount")
		full.share, less.share = k.share.Times(off.Complement()), k.share.Times(off.Factor())
		full.why.share, less.why.share = w.explainShare(quoin.OneMinus), w.explainShare(quoin.Plain)
		less.reduced = true
		less.offers = append(slices.Clone(k.offers), kindOffer{
			Offer: promo.Offer{ID: "discount", Rate: w.Discount.Rate},
			at:    func(c quoin.Path) quoin.Path { return c.Sub("consignment", -1).Inside("discount") },
		})
		if !off.Equal(whole) {
			out = append(out, full)
		}
		if !off.IsZero() {
			out = append(out, less)
		}
	}
	return out
}

// among is the name of a part of the orders of one kind.
func among(kind, part string) string {
	if kind == "" {
		return part
	}
	return kind + ", " + part
}

func (w *Consignment) fees(tax quoin.Rate) []compiledFee {
	commission := Fee{Name: "commission", Rate: w.Takes(), WithoutTax: w.WithoutTax}
	if w.discounted() && w.Discount.Borne == ByMaker {
		commission.Of = []Part{unreduced}
	}
	if slices.Contains(w.Registered, Shop) && !slices.Contains(w.Registered, Maker) {
		commission.Tax = tax
	}
	out := []compiledFee{beyond(compiledFee{Fee: commission, way: "consignment", rate: w.explainTakes, feeTax: (*order).channelTax}, w.CostsFirst,
		func(e *order, at quoin.Path) quoin.Operand {
			return quoin.Given("costs first", at.Field("costs_first"), w.CostsFirst.Figure())
		})}
	if !w.Interest.IsZero() {
		// Waiting costs a share of the maker's part of the price.
		share := carrying(w.Interest, quoin.FactorOf(w.Days)).Factor().Times(w.Takes().Complement()).Rate()
		waiting := Fee{Name: "waiting for the money", Rate: share, Expected: true}
		out = append(out, compiledFee{Fee: waiting, way: "consignment", rate: w.explainWaiting})
	}
	return out
}

// beyond is a fee whose rate is taken only of what is beyond an amount for each item.
func beyond(l compiledFee, each quoin.Amount, why reason) compiledFee {
	if each.IsZero() {
		return l
	}
	l.Tiers, l.Per, l.tier = []Tier{{}, {From: each, Rate: l.Rate}}, quoin.PerItem, why
	l.Rate = quoin.Rate{}
	return l
}
