package pricelist

import (
	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin/rule"
)

// LineSheet is the price list for shops that buy at trade price.
type LineSheet struct {
	// Id of the channel.
	Channel string `json:"channel"`
	// What people call it, where the document says so.
	Name string `json:"name,omitempty"`
	// ISO 4217 code of the currency of trade prices, opening, reorder and free_from.
	Currency quoin.Currency `json:"currency"`
	// Who sells, how to order, when prices hold, and within how many days an order is sent, where
	// the document says so.
	Head channel.LineSheetHead `json:"head,omitzero"`
	// The products that the channel sells, in the order of the document.
	Lines []LineSheetLine `json:"lines"`
	// What a first order has to come to; not given where nothing is asked.
	Opening quoin.Amount `json:"opening,omitzero"`
	// What a later order has to come to; not given where nothing is asked.
	Reorder quoin.Amount `json:"reorder,omitzero"`
	// Rate of the tax on trade prices; not given where it is none. Lines may have their own.
	Tax quoin.Rate `json:"tax,omitzero"`
	// Given, and true, where trade prices hold the tax.
	TaxInPrice bool `json:"tax_in_price,omitzero"`
	// Who pays for sending, as the document says.
	Freight channel.Freight `json:"freight,omitempty"`
	// What items have to come to for added freight to be free.
	FreeFrom quoin.Optional[quoin.Amount] `json:"free_from,omitzero"`
	// The terms of paying, as the document gives them.
	Credit channel.Credit `json:"credit,omitzero"`
	// Says that retail prices are recommended only.
	Note string `json:"note"`
}

// LineSheetLine is one product on a line sheet.
type LineSheetLine struct {
	// Id of the product.
	Product string `json:"product"`
	// What people call it, where the document says so.
	Name string `json:"name,omitempty"`
	// The size that it is sent with.
	Size quoin.Size `json:"size,omitzero"`
	// What the shop pays for one, without tax that is added on top.
	Trade quoin.Amount `json:"trade"`
	// What the shop may ask for it: the price of the list, in the currency of the sheet at the
	// channel's rate.
	Recommended quoin.Amount `json:"recommended" range:"[0,"`
	// Its rate of tax, where it is not that of the sheet.
	Tax quoin.Optional[quoin.Rate] `json:"tax,omitzero"`
	// How many are sold together.
	Case int64 `json:"case"`
	// How many of it, in whole cases, make up a first order by themselves, with the channel's
	// promotion off; not given where nothing is asked, or where it costs nothing.
	Opening quoin.Optional[int64] `json:"opening,omitzero"`
}

// Recommended stands on every line sheet: nobody may be told what to ask.
const Recommended = "Retail prices are recommendations only: each shop sets its own."

// lineSheets are those of all channels that sell to shops.
func (d derivedDocument) lineSheets(items []rule.Item, prices []quoin.Amount) []LineSheet {
	var out []LineSheet
	for _, c := range d.Channels {
		if c.Trade == nil {
			continue
		}
		t := c.Trade
		s := LineSheet{
			Channel: c.ID, Name: c.Name, Currency: c.Money(d.Currency), Head: t.LineSheet, Opening: t.Opening, Reorder: t.Reorder,
			Tax: c.Tax.Rate, TaxInPrice: c.Tax.InPrice, Freight: t.Freight, FreeFrom: t.FreeFrom, Credit: t.Credit, Note: Recommended,
		}
		for i, price := range prices {
			offer, sold := items[i].Offer(c.ID)
			if !sold {
				continue
			}
			unit := offer.Sale.Terms.Settle(0, price).Unit
			l := LineSheetLine{
				Product: d.Products[i].ID, Name: d.Products[i].Name, Size: d.Products[i].outermost(),
				Trade: unit, Recommended: s.Currency.Round(price.Over(c.Home()), quoin.HalfUp), Case: max(t.Case, 1),
			}
			if own := c.TaxRate(channel.Order{}, d.Products[i].TaxClass); !own.Equal(c.Tax.Rate) {
				l.Tax = quoin.Some(own)
			}
			l.Opening = opens(c, unit, s.Currency.Digits())
			s.Lines = append(s.Lines, l)
		}
		if len(s.Lines) > 0 {
			out = append(out, s)
		}
	}
	return out
}

// opens is how many of an item at a unit price come to a first order's minimum, in
// whole cases, with the channel's promotion off: so many that what they come to,
// rounded to money, reaches it.
func opens(c channel.Channel, unit quoin.Amount, places int) (none quoin.Optional[int64]) {
	if c.Trade.Opening.Sign() <= 0 {
		return none
	}
	reaches := c.Trade.Opening.Round(places, quoin.Up).Sub(quoin.AmountOf(5, places+1)) // which is rounded up to it
	if n, ok := c.Trade.Makes(reaches, unit.Times(c.Promotion.Complement())); ok {
		return quoin.Some(n)
	}
	return none
}

// EarlyPayment is what a discount for paying early costs in a year of 365 days, compared with
// what money costs. 2% within 10 of 30 days costs 37.24% a year.
type EarlyPayment struct {
	// Id of the channel.
	Channel string `json:"channel"`
	// Without interest on interest.
	Simple quoin.Rate `json:"simple"`
	// With interest on interest.
	Compound quoin.Rate `json:"compound"`
	// What money costs in a year, where the document says so.
	Money quoin.Rate `json:"money,omitzero"`
}

func (d derivedDocument) credits() []EarlyPayment {
	var out []EarlyPayment
	for _, c := range d.Channels {
		if c.Trade == nil {
			continue
		}
		credit := c.Trade.Credit
		simple, ok := credit.EarlyCost(365)
		compound, _ := credit.EarlyYield(365)
		if ok {
			out = append(out, EarlyPayment{c.ID, simple.Round(4), compound.Round(4), credit.Interest})
		}
	}
	return out
}
