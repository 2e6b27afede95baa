package channel

import "example.com/quoin"

// ForeignCurrency is selling in another currency. Buyers' payments and the channel's charges
// are in it. The list price, postage (also of returns) and all costs are in the shop's
// currency.
type ForeignCurrency struct {
	Currency quoin.Currency `json:"currency" need:"yes"`
	// Rate is what one unit of it costs in the shop's currency, on Date.
	Rate quoin.Factor `json:"rate" need:"yes" range:"(0,"`
	Date quoin.Date   `json:"date,omitzero"`
	// Conversion is the share of what buyers pay that changing it back takes.
	Conversion quoin.Rate `json:"conversion,omitzero" range:"[0,1)"`
}

// Home returns what one unit of the currency that buyers pay in is in the shop's:
// the rate, 1 for a channel in the shop's own currency.
func (c Channel) Home() quoin.Factor {
	if c.ForeignCurrency == nil || c.ForeignCurrency.Rate.IsZero() {
		return quoin.FactorOf(1)
	}
	return c.ForeignCurrency.Rate
}

// Money returns the currency that buyers pay in. It is the shop's currency unless the channel
// has another.
func (c Channel) Money(shop quoin.Currency) quoin.Currency {
	if c.ForeignCurrency == nil {
		return shop
	}
	return c.ForeignCurrency.Currency
}

// conversion is the fee of changing money back.
func (c Channel) conversion() []compiledFee {
	if c.ForeignCurrency == nil || c.ForeignCurrency.Conversion.IsZero() {
		return nil
	}
	return []compiledFee{{
		Fee: Fee{Name: "conversion", Rate: c.ForeignCurrency.Conversion, Of: []Part{Items, Shipping, SalesTax}},
		way: "abroad", rate: given("conversion", c.ForeignCurrency.Conversion.Figure()),
	}}
}
