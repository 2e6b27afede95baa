package buy

import (
	"fmt"

	"example.com/quoin/internal/form"
)

// Texts for a person who reads a log or a test: what is given, under its names.

// String lists the fields that are given.
func (o Offer) String() string { return form.String(o) }

// String lists the fields that are given.
func (o Order) String() string { return form.String(o) }

// String lists the fields that are given.
func (d DominatedQuantities) String() string { return form.String(d) }

// String lists the fields that are given.
func (e EconomicOrder) String() string { return form.String(e) }

// String lists the fields that are given.
func (p Purchase) String() string { return form.String(p) }

// String lists the fields that are given.
func (l PurchaseLine) String() string { return form.String(l) }

// String lists the fields that are given.
func (s SharedCost) String() string { return form.String(s) }

// String lists the fields that are given.
func (l LandedLine) String() string { return form.String(l) }

// String lists the fields that are given.
func (s Scale) String() string { return form.String(s) }

// String lists the fields that are given.
func (s PriceBreak) String() string { return form.String(s) }

// String lists the fields that are given.
func (s Stock) String() string { return form.String(s) }

// String lists the fields that are given.
func (r Receipt) String() string { return form.String(r) }

// String lists the fields that are given.
func (u Use) String() string { return form.String(u) }

// String lists the fields that are given.
func (s StockLevel) String() string { return form.String(s) }

// String says of how many quantities it knows the cheapest.
func (c Cover) String() string { return fmt.Sprintf("cover of a scale with %d turns", len(c.turns)) }
