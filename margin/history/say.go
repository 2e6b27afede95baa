package history

import (
	"fmt"

	"example.com/quoin/internal/form"
)

// Texts for a person who reads a log or a test: what is given, under its names.

// String writes what is given of the placed.
func (p Placed[E]) String() string { return form.String(p) }

// String writes what is given of the lowest.
func (l Lowest) String() string { return form.String(l) }

// String writes what is given of the record.
func (r Record) String() string { return form.String(r) }

// String writes what is given of the price.
func (p Price) String() string { return form.String(p) }

// String writes what is given of the reduction.
func (r Reduction) String() string { return form.String(r) }

// String writes what is given of the sale.
func (s Sale) String() string { return form.String(s) }

// String writes what is given of the trial.
func (t Trial) String() string { return form.String(t) }

// String writes what is given of the sold.
func (s EditionSales) String() string { return form.String(s) }

// String writes what is given of the month.
func (m Month) String() string { return form.String(m) }

// String writes what is given of the left.
func (l Unsold) String() string { return form.String(l) }

// String writes what is given of the timeline.
func (t Timeline) String() string { return form.String(t) }

// String writes what is given of the stretch.
func (s Stretch) String() string { return form.String(s) }

// String writes what is given of the change.
func (c Change) String() string { return form.String(c) }

// String writes what is given of the trials in.
func (t TrialsIn) String() string { return form.String(t) }

// String says of how much the history is.
func (h History) String() string {
	return fmt.Sprintf("history of %d products and %d editions", len(h.products), len(h.sales))
}
