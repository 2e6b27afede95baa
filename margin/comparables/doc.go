// Package comparables holds what prints like one's own are offered and sold for elsewhere.
//
// A Record is one such price as it was observed: at a venue, by a seller, for a print of some
// size, with or without tax, postage and a frame in it. Record.At takes postage and frame off
// and brings the price to another rate of tax, exactly.
//
// Weights says how much each record weighs, so that each venue counts the same, and Quantile
// what price stands at a share of the weight. The rule about a market in package rule and the
// summaries of package market both go by them.
package comparables
