// Package channel answers what selling one order brings in and takes away.
//
// A Channel is the terms of one way of selling: how its price follows from the
// list price (uplift, trade discounts, promotion), which tax the price holds,
// which kinds of order come in and how often, what of the postage the buyer
// pays, and which fees are taken on what base. Compiled to Terms, it settles an
// order at any list price, line by line, and gives the exact pieces of the
// staircase that revenue and fees are as the price moves.
//
// Everything is rounded to the currency's minor unit where money changes
// hands: the unit price, the items total, the tax, each fee. Nowhere else.
package channel
