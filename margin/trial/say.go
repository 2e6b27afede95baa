package trial

import "example.com/quoin/internal/form"

// Texts for a person who reads a log or a test: what is given, under its names.

// String writes what is given of the options.
func (o Options) String() string { return form.String(o) }

// String writes what is given of the comparison.
func (c Comparison) String() string { return form.String(c) }

// String writes what is given of the left out.
func (l LeftOut) String() string { return form.String(l) }

// String writes what is given of the needed.
func (n SampleSize) String() string { return form.String(n) }

// String writes what is given of the point.
func (p Point) String() string { return form.String(p) }

// String writes what is given of the slope options.
func (s SlopeOptions) String() string { return form.String(s) }

// String writes what is given of the slope.
func (s Slope) String() string { return form.String(s) }

// String writes what is given of the at price.
func (a AtPrice) String() string { return form.String(a) }

// String writes what is given of the group.
func (g Group) String() string { return form.String(g) }

// String writes what is given of the side.
func (s Side) String() string { return form.String(s) }

// String writes what is given of the once.
func (o SingleLook) String() string { return form.String(o) }

// String writes what is given of the one.
func (o LookPrice) String() string { return form.String(o) }

// String writes what is given of the choice.
func (c Choice) String() string { return form.String(c) }

// String writes what is given of the belief.
func (b Belief) String() string { return form.String(b) }

// String writes what is given of the proposal.
func (p Proposal) String() string { return form.String(p) }

// String writes what is given of the candidate.
func (c Candidate) String() string { return form.String(c) }

// String writes what is given of the trial.
func (t TrialValue) String() string { return form.String(t) }

// String writes what is given of the period.
func (p Period) String() string { return form.String(p) }

// String writes what is given of the exposure.
func (e Exposure) String() string { return form.String(e) }

// String writes what is given of the plan.
func (p Certainty) String() string { return form.String(p) }

// String writes what is given of the sold.
func (s SalesCount) String() string { return form.String(s) }

// String writes what is given of the rate.
func (r Rate) String() string { return form.String(r) }

// String writes what is given of the share.
func (s Share) String() string { return form.String(s) }

// String writes what is given of the ratio.
func (r Ratio) String() string { return form.String(r) }

// String writes what is given of the rates.
func (r Rates) String() string { return form.String(r) }
