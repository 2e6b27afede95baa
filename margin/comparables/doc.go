// Package comparables holds prices at which prints like one's own are offered and sold elsewhere.
//
// A Record is one such price as it was seen: at a venue, by a seller, for a print of some size,
// with or without tax, postage and a frame in it. Record.At subtracts postage and frame and
// converts the price to another rate of tax, exactly. 30.00 with 5.00 of postage and 25% tax in it
// is 24.00 at 20% tax.
//
// Weights says how much each record weighs, so that every venue counts the same. Quantile is the
// price at a share of the weight. The market rule of package rule and the summaries of package
// market both use them.
package comparables
