package promo

import "example.com/quoin/internal/form"

// Texts for a person who reads a log or a test: what is given, under its names.

// String lists the fields that are given.
func (l BasketLine) String() string { return form.String(l) }

// String lists the fields that are given.
func (r ReducedLine) String() string { return form.String(r) }

// String lists the fields that are given.
func (b Basket) String() string { return form.String(b) }

// String lists the fields that are given.
func (o Offer) String() string { return form.String(o) }
