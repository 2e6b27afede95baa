package promo

import "example.com/quoin/internal/form"

// Texts for a person who reads a log or a test: what is given, under its names.

// String writes what is given of the line.
func (l BasketLine) String() string { return form.String(l) }

// String writes what is given of the reduced.
func (r ReducedLine) String() string { return form.String(r) }

// String writes what is given of the basket.
func (b Basket) String() string { return form.String(b) }

// String writes what is given of the offer.
func (o Offer) String() string { return form.String(o) }
