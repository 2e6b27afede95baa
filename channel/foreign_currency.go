package channel

import "example.com/quoin"

// ForeignCurrency is selling in another currency. Buyers' payments and the channel's charges
// are in it. The list price, postage (also of returns) and all costs are in the shop's
// currency.
type ForeignCurrency struct {
	// ISO 4217 code of that currency.
	Currency quoin.Currency `json:"currency" need:"yes"`
	// What one unit of it costs in the shop's currency, on that date.
	Rate quoin.Factor `json:"rate" need:"yes" range:"(0,"`
	// The day of that rate.
	Date quoin.Date `json:"date,omitzero"`
	// Share of what buyers pay that changing it back takes; below 1.
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
