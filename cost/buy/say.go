package buy

import (
	"fmt"

	"example.com/quoin/internal/form"
)

// Texts for a person who reads a log or a test: what is given, under its names.

// String writes what is given of the offer.
func (o Offer) String() string { return form.String(o) }

// String writes what is given of the order.
func (o Order) String() string { return form.String(o) }

// String writes what is given of the dominated.
func (d DominatedQuantities) String() string { return form.String(d) }

// String writes what is given of the economic order.
func (e EconomicOrder) String() string { return form.String(e) }

// String writes what is given of the purchase.
func (p Purchase) String() string { return form.String(p) }

// String writes what is given of the line.
func (l PurchaseLine) String() string { return form.String(l) }

// String writes what is given of the shared.
func (s SharedCost) String() string { return form.String(s) }

// String writes what is given of the landed.
func (l LandedLine) String() string { return form.String(l) }

// String writes what is given of the scale.
func (s Scale) String() string { return form.String(s) }

// String writes what is given of the step.
func (s PriceBreak) String() string { return form.String(s) }

// String writes what is given of the stock.
func (s Stock) String() string { return form.String(s) }

// String writes what is given of the receipt.
func (r Receipt) String() string { return form.String(r) }

// String writes what is given of the use.
func (u Use) String() string { return form.String(u) }

// String writes what is given of the standing.
func (s StockLevel) String() string { return form.String(s) }

// String says of how many quantities it knows the cheapest.
func (c Cover) String() string { return fmt.Sprintf("cover of a scale with %d turns", len(c.turns)) }
