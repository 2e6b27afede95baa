// Package parcel computes what sending prints costs: which packing they go into, into how many
// parcels, and what the carrier charges.
//
// A Packing is a tube, a stiff envelope or a box. A Tariff is a carrier's price list: zones, and
// in each zone steps of mass, sides and stiffness with their prices. ShippingTerms hold both.
// Their method Cheapest takes a Load, which is what one print is like, and a number of prints. It
// returns the Shipment with the lowest cost of postage and packing, and the reason why each other
// packing was not taken.
//
// Postage is paid for a parcel, not for a print. The first print pays most of it; the next ones
// often pay nothing, until one of them is too much for a step or for the packing. Next says what
// one more print costs. Rise says from which number of prints on the cost rises.
//
// Lengths are compared exactly in millimetres and masses in grams, whatever their units. Prices
// are those of the tariff; nothing here rounds money. The caller knows whether they contain tax.
package parcel
