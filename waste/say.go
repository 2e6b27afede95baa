package waste

import (
	"fmt"

	"example.com/quoin/internal/form"
)

// Texts for a person who reads a log or a test: what is given, under its names.

// String lists the fields that are given.
func (a Allowance) String() string { return form.String(a) }

// String lists the fields that are given.
func (d Delivery) String() string { return form.String(d) }

// String lists the fields that are given.
func (s Stage) String() string { return form.String(s) }

// String lists the fields that are given.
func (s Seconds) String() string { return form.String(s) }

// String lists the fields that are given.
func (s Salvage) String() string { return form.String(s) }

// String lists the fields that are given.
func (s Starts) String() string { return form.String(s) }

// String says how many stages the course has.
func (c CompiledRoute) String() string { return fmt.Sprintf("course of %d stages", len(c.route)) }
