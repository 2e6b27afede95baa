// Package channel answers what selling one order brings in and takes away.
//
// A Channel is the terms of one way of selling: how its price follows from the
// list price (uplift, trade discounts, promotion), which tax the price holds,
// which kinds of order come in and how often, what of the postage the buyer
// pays, and which fees are taken on what base. Compiled to Terms, it settles an
// order at any list price, line by line, and gives the exact pieces of the
// staircase that revenue and fees are as the price moves.
//
// Every way of selling comes down to kinds of order and fees. Trade, Consignment
// and OnDemand say in the words of each what shops, galleries and printing houses
// agree on; promotions, refunds, another currency and prices that a till can take
// stand beside them; Terms puts them all into the same orders and fees, and
// Explain says where each rate comes from. A fee may be charged over many orders,
// as subscriptions and caps are, or be expected only, as bad debts are.
//
// What has to be reckoned apart from prices has packages of its own: baskets of
// several products (promo), money given back (refund), parcels (parcel), and
// whether a fair pays (fair).
//
// Everything is rounded to the currency's minor unit where money changes
// hands: the unit price, the items total, the tax, each fee. Nowhere else.
package channel
