package frame

import "example.com/quoin/internal/form"

// Texts for a person who reads a log or a test: what is given, under its names.

// String writes what is given of the mat.
func (m Mat) String() string { return form.String(m) }

// String writes what is given of the moulding.
func (m Moulding) String() string { return form.String(m) }

// String writes what is given of the united.
func (u United) String() string { return form.String(u) }
