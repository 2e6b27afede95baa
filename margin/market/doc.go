// Package market looks at what prints like one's own really sold for.
//
// Costs say what a price may not fall below; only buyers say what it may be.
// What is seen of them are records: a print like this one, of some size, sold
// at a venue by a seller, at a price that may hold tax, postage and a frame. A
// Record holds that as it was observed.
//
// Three things lead astray. Asking prices are what sellers hope for: only
// records with a proven sale count. A seller with forty listings would speak
// forty times: each venue weighs the same in total, within it each seller, and
// within the seller each record. The records of one seller at one venue and price
// are one point among the others; a seller at two venues has two. And unlike
// things are compared: a Basis says with or without tax, and at what size, and
// Record.On brings a record there, always without postage and frame. Between
// sizes it goes by a power of the area, which FitExponent takes from the records
// themselves as far as they can carry it, and from a stated default as far as
// they can not.
//
// Summarize puts it together: what was used and what was left out, and why; the
// centre and the spread, which a few strange prices cannot move far; those
// strange prices by name, for the caller to look at; and what each venue says.
// Summary.Position says where a price stands among the comparables and
// Summary.PriceAt what price stands at a percentile, each with how uncertain
// that is. Below five sales from two venues there is no number at all, but
// Collect, which counts what to look for next.
//
// Sums of money are exact. What is estimated, such as a logarithm, a power, an
// interval, is rounded to six significant digits, so that it is the same on
// every machine. It has no zeros at its end, and at most 16 places after the
// point: so 0.5 is written with one digit, what is below 10^−11 with fewer than
// six, and what is not above half of 10^−16 is 0.
package market
