package channel

import (
	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Trade is selling to shops at a trade price: the list price less the channel's trade
// discounts.
type Trade struct {
	// How many of an item are sold together; 1 where it is not given.
	Case int64 `json:"case,omitzero" range:"[1,1000000]"`
	// What a first order has to come to after promotions. It bounds no price.
	Opening quoin.Amount `json:"opening,omitzero" range:"[0,"`
	// What a later order has to come to after promotions. It bounds no price.
	Reorder quoin.Amount `json:"reorder,omitzero" range:"[0,"`
	// Who pays for sending: the shop, to the carrier; the shop, on the invoice; the maker; or
	// the shop with an allowance from the maker. Then orders give postage, and neither shipping
	// nor free_from.
	Freight Freight `json:"freight,omitempty"`
	// What items have to come to for added freight to be free; never free where it is not given.
	FreeFrom quoin.Optional[quoin.Amount] `json:"free_from,omitzero" range:"[0,"`
	// Share of items that is given towards freight, at most the freight.
	Allowance quoin.Rate `json:"allowance,omitzero" range:"[0,1]"`
	// What waiting for the money costs.
	Credit Credit `json:"credit,omitzero"`
	// Commission of an agent on items.
	Agent quoin.Rate `json:"agent,omitzero" range:"[0,1]"`
	// The same on reorders; agent where it is not given.
	AgentReorder quoin.Optional[quoin.Rate] `json:"agent_reorder,omitzero" range:"[0,1]"`
	// Share of items that is taken off for faults.
	Defects quoin.Rate `json:"defects,omitzero" range:"[0,1]"`
	// What the line sheet says beside prices and terms. It changes no price.
	LineSheet LineSheetHead `json:"line_sheet,omitzero"`
}

// LineSheetHead is what a line sheet says of who sells, and when.
type LineSheetHead struct {
	// Who sells: the name that buyers know.
	Seller string `json:"seller,omitempty"`
	// How to order: an address, a telephone number, as it is to be printed.
	Contact string `json:"contact,omitempty"`
	// The first day on which the prices hold.
	ValidFrom quoin.Date `json:"valid_from,omitzero"`
	// The last day on which they hold.
	ValidUntil quoin.Date `json:"valid_until,omitzero"`
	// Within how many days after the order it is sent.
	LeadDays int64 `json:"lead_days,omitzero" range:"[1,1000]"`
	// Anything else that buyers are to know.
	Note string `json:"note,omitempty"`
}

// Freight says who pays for sending an order to a shop.
type Freight string

const (
	Collect   Freight = "collect"   // the shop, to the carrier: it is nobody's here
	Added     Freight = "added"     // prepaid and added: the shop is charged the postage
	Prepaid   Freight = "prepaid"   // the maker
	Allowance Freight = "allowance" // the shop, and the maker gives an allowance towards it
)

// UnmarshalText reads collect, added, prepaid or allowance.
func (f *Freight) UnmarshalText(text []byte) error {
	return form.SetWord(f, text, Collect, Added, Prepaid, Allowance)
}

// orders puts freight where it belongs.
func (w *Trade) orders(kinds []kind, home quoin.Factor, places int) []kind {
	for i := range kinds {
		k := &kinds[i]
		switch w.Freight {
		case Collect, Allowance:
			k.freight, k.Postage = k.Postage, quoin.Amount{}
			k.why.postage = constant("postage", quoin.Amount{}.Figure())
		case Added:
			k.Shipping, k.FreeFrom = k.Postage.Over(home).Round(places, quoin.HalfUp), w.FreeFrom
			k.why.shipping = (*order).freight
			k.freeAt = "trade"
		}
	}
	return kinds
}

func (w *Trade) fees(kinds []kind, home quoin.Factor, places int) []compiledFee {
	out := w.allowances(kinds, home, places)
	invoice := []Part{Items, Shipping, Surcharged, SalesTax}
	add := func(l compiledFee) {
		l.way = "trade"
		out = append(out, l)
	}
	if c := w.Credit; !c.Early.IsZero() {
		add(compiledFee{
			Fee: Fee{Name: "early payment", Rate: c.Early, Of: invoice, Share: quoin.Some(c.Taken.Or(whole)), Rounding: c.EarlyRounded.rounding()}, in: "credit",
			rate: given("early", c.Early.Figure()), share: givenOr("taken", c.Taken.Or(whole).Figure(), !c.Taken.IsZero()),
		})
	}
	if c := w.Credit; !c.Interest.IsZero() {
		add(compiledFee{Fee: Fee{Name: "waiting for the money", Rate: c.Carries(), Of: invoice, Expected: true}, in: "credit", rate: c.explainCarries})
	}
	if c := w.Credit; !c.Bad.IsZero() {
		add(compiledFee{Fee: Fee{Name: "bad debts", Rate: c.Bad, Of: invoice, Expected: true}, in: "credit", rate: given("bad", c.Bad.Figure())})
	}
	if first, again := w.Agent, w.AgentReorder.Or(w.Agent); !first.IsZero() || !again.IsZero() {
		add(compiledFee{Fee: Fee{Name: "agent", Rate: first}, only: func(k *kind) bool { return !k.Reorder }, rate: givenOr("agent", first.Figure(), !first.IsZero())})
		name := "agent"
		if !w.AgentReorder.IsZero() {
			name = "agent_reorder"
		}
		add(compiledFee{Fee: Fee{Name: "agent", Rate: again}, only: func(k *kind) bool { return k.Reorder }, rate: givenOr(name, again.Figure(), !again.IsZero())})
	}
	if !w.Defects.IsZero() {
		add(compiledFee{Fee: Fee{Name: "defects", Rate: w.Defects}, rate: given("defects", w.Defects.Figure())})
	}
	return out
}

// allowances are what is given towards the freight of each kind of order.
func (w *Trade) allowances(kinds []kind, home quoin.Factor, places int) []compiledFee {
	if w.Freight != Allowance {
		return nil
	}
	var out []compiledFee
	for i, k := range kinds {
		most := k.freight.Over(home).Round(places, quoin.HalfUp)
		out = append(out, compiledFee{
			Fee: Fee{Name: "freight allowance", Rate: w.Allowance, AtMost: quoin.Some(most)}, way: "trade",
			only: func(k *kind) bool { return k.place == i }, rate: given("allowance", w.Allowance.Figure()),
			most: (*order).freight,
		})
	}
	return out
}

// Makes returns how many of one item, in whole cases, make up a minimum order by themselves at
// a unit price. A minimum of 150.00 at 8.75 takes 18 singles, or 20 in cases of 5. It returns
// false if there is no minimum, the item costs nothing, or it would take more than a million.
func (w Trade) Makes(minimum, unit quoin.Amount) (int64, bool) {
	if minimum.Sign() <= 0 || unit.Sign() <= 0 {
		return 0, false
	}
	cases, ok := minimum.Ratio(unit.Times(quoin.FactorOf(max(w.Case, 1)))).Round(0, quoin.Up).Units(0)
	if !ok || cases > 1_000_000 {
		return 0, false
	}
	return cases * max(w.Case, 1), true
}
