package ink

import "example.com/quoin/internal/form"

// Texts for a person who reads a log or a test: what is given, under its names.

// String writes what is given of the job.
func (j Job) String() string { return form.String(j) }

// String writes what is given of the period.
func (p Period) String() string { return form.String(p) }

// String writes what is given of the use.
func (u Use) String() string { return form.String(u) }

// String writes what is given of the upkeep.
func (u Upkeep) String() string { return form.String(u) }
