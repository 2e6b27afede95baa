package refund

import "example.com/quoin/internal/form"

// Texts for a person who reads a log or a test: what is given, under its names.

// String lists the fields that are given.
func (o Order) String() string { return form.String(o) }

// String lists the fields that are given.
func (l OrderLine) String() string { return form.String(l) }

// String lists the fields that are given.
func (c Code) String() string { return form.String(c) }

// String lists the fields that are given.
func (f FreePostage) String() string { return form.String(f) }

// String lists the fields that are given.
func (f Fee) String() string { return form.String(f) }

// String lists the fields that are given.
func (b Refund) String() string { return form.String(b) }

// String lists the fields that are given.
func (i Item) String() string { return form.String(i) }

// String lists the fields that are given.
func (r Rates) String() string { return form.String(r) }

// String lists the fields that are given.
func (s Settlement) String() string { return form.String(s) }
