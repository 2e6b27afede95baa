package market

import "example.com/quoin/internal/form"

// Texts for a person who reads a log or a test: what is given, under its names.

// String writes what is given of the basis.
func (b Basis) String() string { return form.String(b) }

// String writes what is given of the adjusted.
func (a AdjustedPrice) String() string { return form.String(a) }

// String writes what is given of the left out.
func (l LeftOut) String() string { return form.String(l) }

// String writes what is given of the collect.
func (c Missing) String() string { return form.String(c) }

// String writes what is given of the alone.
func (a LoneSeller) String() string { return form.String(a) }

// String writes what is given of the exponent.
func (x Exponent) String() string { return form.String(x) }

// String writes what is given of the fit.
func (f Fit) String() string { return form.String(f) }

// String writes what is given of the options.
func (o Options) String() string { return form.String(o) }

// String writes what is given of the bounds.
func (b Bounds) String() string { return form.String(b) }

// String writes what is given of the quantile.
func (q Quantile) String() string { return form.String(q) }

// String writes what is given of the position.
func (p Position) String() string { return form.String(p) }

// String writes what is given of the spread.
func (s Spread) String() string { return form.String(s) }

// String writes what is given of the outlier.
func (o Outlier) String() string { return form.String(o) }

// String writes what is given of the summary.
func (s Summary) String() string { return form.String(s) }

// String writes what is given of the used.
func (u WeightedRecord) String() string { return form.String(u) }

// String writes what is given of the venue.
func (v Venue) String() string { return form.String(v) }
