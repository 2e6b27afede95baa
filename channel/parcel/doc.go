// Package parcel answers what sending prints costs: which packing they go
// into, into how many parcels, and what the carrier takes for them.
//
// A shop describes its ways of packing (Packing: a tube, a stiff envelope, a
// box) and the prices of a carrier (Tariff: zones, and in each the steps of
// mass, sides and stiffness with their prices). A Plan is both. Its Cheapest
// takes a Load, what one print is like, and a number of prints, and answers
// with the Shipment for which postage and packing cost least, and with the
// reason why each other packing does not do.
//
// Postage belongs to a parcel, not to a print. The first print pays for most
// of it, the next ones often nothing, until one of them is too much for a step
// or for the packing. Next says what one more print costs, and Rise which number
// of prints is the next that costs more.
//
// Lengths are compared exactly in millimetres and masses in grams, whatever
// units they are given in. Prices are the tariff's own and nothing here rounds
// money. Whether tax is in them is for the caller to know.
package parcel
