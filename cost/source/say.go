package source

import "example.com/quoin/internal/form"

// Texts for a person who reads a log or a test: what is given, under its names.

// String writes what is given of the stretch.
func (s Stretch) String() string { return form.String(s) }

// String writes what is given of the demand.
func (d Demand) String() string { return form.String(d) }

// String writes what is given of the case.
func (c Case) String() string { return form.String(c) }

// String writes what is given of the home.
func (h HomeRun) String() string { return form.String(h) }

// String writes what is given of the quote.
func (q Quote) String() string { return form.String(q) }
