// Package promo computes what promotions take off an order, and what they cost.
//
// An Offer is one promotion: a share off, an amount off, some free of every few, a set of products
// at one price, or a sale price. Apply takes offers off a basket of lines in their order. Each is
// taken off what the ones before it have left. The result says for every line and every offer what
// came off, to the cent. So a later refund knows what was paid for each line.
//
// Each discount is rounded to money once, halves away from zero. A discount on several lines
// together, such as an amount or a set, is spread over them by largest remainder, and the parts
// add up exactly. No line goes below zero.
//
// A single price is a basket with one line. OnOne is what an offer takes off it, and Explain shows
// it step by step.
//
// VolumeNeeded says how many more sales a discount needs to earn what was earned without it.
package promo
