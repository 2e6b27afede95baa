package edition

import "example.com/quoin/internal/form"

// Texts for a person who reads a log or a test: what is given, under its names.

// String writes what is given of the edition.
func (e Edition) String() string { return form.String(e) }

// String writes what is given of the step.
func (s PriceStep) String() string { return form.String(s) }

// String writes what is given of the priced.
func (p PricedStep) String() string { return form.String(p) }

// String writes what is given of the entry.
func (e Entry) String() string { return form.String(e) }

// String writes what is given of the limit.
func (l Limit) String() string { return form.String(l) }

// String writes what is given of the expected proceeds.
func (t ExpectedProceeds) String() string { return form.String(t) }

// String writes what is given of the numbering.
func (n Numbering) String() string { return form.String(n) }

// String writes what is given of the tally.
func (t Tally) String() string { return form.String(t) }
