package refund

import "example.com/quoin/internal/form"

// Texts for a person who reads a log or a test: what is given, under its names.

// String writes what is given of the order.
func (o Order) String() string { return form.String(o) }

// String writes what is given of the line.
func (l OrderLine) String() string { return form.String(l) }

// String writes what is given of the fee.
func (f Fee) String() string { return form.String(f) }

// String writes what is given of the back.
func (b Refund) String() string { return form.String(b) }

// String writes what is given of the item.
func (i Item) String() string { return form.String(i) }

// String writes what is given of the rates.
func (r Rates) String() string { return form.String(r) }

// String writes what is given of the settlement.
func (s Settlement) String() string { return form.String(s) }
