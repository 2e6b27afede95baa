package review

import "example.com/quoin/internal/form"

// Texts for a person who reads a log or a test: what is given, under its names.

// String writes what is given of the broken.
func (b BrokenRule) String() string { return form.String(b) }

// String writes what is given of the change.
func (c InputChange) String() string { return form.String(c) }

// String writes what is given of the floor.
func (f Floor) String() string { return form.String(f) }

// String writes what is given of the channel floor.
func (c ChannelFloor) String() string { return form.String(c) }

// String writes what is given of the reason.
func (r Reason) String() string { return form.String(r) }

// String writes what is given of the move.
func (m Proposal) String() string { return form.String(m) }

// String writes what is given of the review.
func (r Review) String() string { return form.String(r) }

// String writes what is given of the influence.
func (f InputEffect) String() string { return form.String(f) }

// String writes what is given of the swing.
func (s Swing) String() string { return form.String(s) }

// String writes what is given of the share.
func (s Share) String() string { return form.String(s) }

// String writes what is given of the volume.
func (v Volume) String() string { return form.String(v) }
