package waste

import (
	"fmt"

	"example.com/quoin/internal/form"
)

// Texts for a person who reads a log or a test: what is given, under its names.

// String writes what is given of the allowance.
func (a Allowance) String() string { return form.String(a) }

// String writes what is given of the delivery.
func (d Delivery) String() string { return form.String(d) }

// String writes what is given of the stage.
func (s Stage) String() string { return form.String(s) }

// String writes what is given of the seconds.
func (s Seconds) String() string { return form.String(s) }

// String writes what is given of the salvage.
func (s Salvage) String() string { return form.String(s) }

// String writes what is given of the starts.
func (s Starts) String() string { return form.String(s) }

// String says how many stages the course has.
func (c CompiledRoute) String() string { return fmt.Sprintf("course of %d stages", len(c.route)) }
