package edition

import "example.com/quoin/internal/form"

// Texts for a person who reads a log or a test: what is given, under its names.

// String lists the fields that are given.
func (e Edition) String() string { return form.String(e) }

// String lists the fields that are given.
func (s PriceStep) String() string { return form.String(s) }

// String lists the fields that are given.
func (s PricedStep) String() string { return form.String(s) }

// String lists the fields that are given.
func (e Entry) String() string { return form.String(e) }

// String lists the fields that are given.
func (l Limit) String() string { return form.String(l) }

// String lists the fields that are given.
func (t ExpectedProceeds) String() string { return form.String(t) }

// String lists the fields that are given.
func (n Numbering) String() string { return form.String(n) }

// String lists the fields that are given.
func (t Tally) String() string { return form.String(t) }
