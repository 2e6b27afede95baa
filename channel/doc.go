// Package channel computes what one order brings in and takes away.
//
// A Channel has the terms of one way of selling:
//
//   - how its price follows from the list price: uplift, trade discounts, promotion;
//   - which tax the price holds;
//   - which kinds of order come in, and how often;
//   - what the buyer pays for shipping, and what postage costs;
//   - which fees are charged, and on what base.
//
// Channel.Terms compiles it. Terms settle an order at any list price, line by line. They also give
// the exact pieces of revenue and fees between the prices where the terms change.
//
// Every way of selling becomes kinds of order and fees. Trade, Consignment and OnDemand use the
// words of shops, galleries and print houses. Promotions, refunds, another currency and prices
// that a till can charge are separate parts. Explain says where each rate comes from. A fee may be
// charged over many orders, such as a subscription of 20.00 over 40 orders: 0.50 an order. It may
// also be only expected, such as bad debts.
//
// Four packages do what does not belong to one price: baskets of several products (promo), money
// given back (refund), parcels (parcel), and whether a fair pays (fair).
//
// Money is rounded to the currency's minor unit where it changes hands: the unit price, the items
// total, the tax and each fee. Nothing else is rounded.
package channel
