// Package promo answers what promotions take off an order, and what they cost.
//
// An Offer is one promotion: a share off, an amount off, so many free of each
// so many, a set of products at one price, or a sale price. Apply takes offers
// off a basket of lines in their order, each off what the ones before it have
// left, and says for every line and every offer what came off, to the cent: so
// that a later refund knows what was paid for each line.
//
// Each discount is rounded to money once, halves away from zero. What belongs
// to several lines together, an amount or a set, is spread over them by largest
// remainder and sums exactly. No line is brought below zero.
//
// A basket of one line is the case that a price is reckoned with: OnOne is what
// an offer takes off it, and Explain says so step by step.
//
// The functions on volume say what a discount has to bring: how many more have
// to be sold, and what it costs the one who pays for it out of a share.
package promo
