package pricelist

import (
	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/channel/fair"
	"example.com/quoin/channel/parcel"
	"example.com/quoin/cost"
	"example.com/quoin/cost/buy"
	"example.com/quoin/cost/machine"
	"example.com/quoin/cost/source"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/edition"
	"example.com/quoin/margin/rule"
	"example.com/quoin/waste"
)

// Version is the version of the shop document that this package reads.
const Version = 1

// Document is a shop: what it buys, makes and sells, and the rules that its prices must
// satisfy. It can be written in Go or decoded from JSON. If the zero value of a field cannot be
// meant, it stands for the default.
type Document struct {
	// Version of the shop document: 1.
	Version int64 `json:"version" need:"yes" range:"[1,1]"`
	// What somebody reading the document should know, such as where a figure comes from. It is read,
	// and has no part in any sum.
	Note string `json:"note,omitempty"`
	// ISO 4217 code of the currency that every amount is in.
	Currency quoin.Currency `json:"currency" need:"yes"`
	// Prices are multiples of this amount, itself a multiple of the currency's minor unit; one
	// minor unit where it is not given.
	PriceStep quoin.Optional[quoin.Amount] `json:"price_step,omitzero" range:"(0,"`
	// No price above this amount is considered; 100000.00 where it is not given.
	PriceLimit quoin.Optional[quoin.Amount] `json:"price_limit,omitzero" range:"(0,"`

	// What is bought to make, pack and send the products.
	Supplies []cost.Supply `json:"supplies,omitempty"`
	// Invoices from which stocks of supplies take what came in.
	Purchases []buy.Purchase `json:"purchases,omitempty" most:"1000"`
	// The day on which stocks are looked at; needed where there is one.
	Date quoin.Date `json:"date,omitzero"`
	// What machines cost and how long they last. Bills count started prints on them as they
	// count supplies, by their id.
	Machines []machine.Machine `json:"machines,omitempty" most:"100"`
	// Steps of making at which pieces can fail, in the order they are gone through.
	Stages []waste.Stage `json:"stages,omitempty" most:"50"`
	// Added on the cost of all goods, for what nobody counted; none where it is not given. It is
	// no substitute for a yield.
	Contingency quoin.Rate `json:"contingency,omitzero" range:"[0,"`
	// What is on the price list, one entry for each print in each size.
	Products []Product `json:"products" need:"yes"`
	// The ways of selling, each with its terms.
	Channels []channel.Channel `json:"channels" need:"yes" most:"100"`
	// What parcels are packed in. Each has the id of a packing list of the products that go into
	// it.
	Packings []parcel.Packing `json:"packings,omitempty" most:"100"`
	// What carriers ask for sending parcels.
	Tariffs []parcel.Tariff `json:"tariffs,omitempty" most:"20"`
	// What might be put into parcels to stiffen them: the answer says what sending it would
	// cost.
	WhatIfBoard *parcel.Board `json:"what_if_board,omitempty" was:"board"`
	// Products that are sold together, of which the least price is worked out.
	Sets []Set `json:"sets,omitempty"`
	// Where to go, or to stay away from. Their costs are in no statement.
	Fairs []fair.Fair `json:"fairs,omitempty" most:"100"`
	// What is limited, and how its price rises.
	Editions []edition.Edition `json:"editions,omitempty" most:"100"`
	// Bounds on the size of editions that the shop knows to matter. None is built in.
	EditionLimits []edition.Limit `json:"edition_limits,omitempty" most:"100"`
	// What the shop costs whatever is sold, spread over all items expected to be sold.
	Overhead channel.FixedCost `json:"overhead,omitzero"`
	// Share of operating income that is taken as tax, where that income is above zero.
	IncomeTax quoin.Rate `json:"income_tax,omitzero" range:"[0,1]"`
	// Prices at which prints like the products are offered elsewhere, for market rules.
	Comparables []comparables.Record `json:"comparables,omitempty"`
	// What prices have to keep. Order matters only among rules that are preferred: they join in
	// this order.
	Rules []rule.Rule `json:"rules,omitempty"`
	// Which of the allowed prices is taken: the nearest to today's price (also where it is not
	// given), the least, or the greatest. A product without a price today takes the least where
	// it is the nearest.
	Choose rule.Choice `json:"choose,omitempty"`
}

// Product is one thing on the price list: a print in one size.
type Product struct {
	// What rules and comparables refer to the product by.
	ID string `json:"id" need:"yes"`
	// What people call it.
	Name string `json:"name,omitempty"`
	// What somebody reading the document should know, such as where a figure comes from. It is read,
	// and has no part in any sum.
	Note string `json:"note,omitempty"`
	// What it shows. A size_ratio rule can go from size to size of each design.
	Design string `json:"design,omitempty"`
	// Ids of the channels that sell it; all of them where it is not given. In the others it
	// does not exist: not on a line sheet, in no rule, in no packing list that is asked for.
	Channels []string `json:"channels,omitempty" least:"1" most:"100"`
	// Today's price, where there is one.
	Price quoin.Optional[quoin.Amount] `json:"price,omitzero" range:"[0,"`
	// Its class of tax, for which channels and orders may give a rate of their own; the plain rate
	// where it is not given. It is not taken over from a product that it extends: a framed print
	// may be taxed otherwise than the print.
	TaxClass string `json:"tax_class,omitempty"`
	// What is printed.
	Image quoin.Size `json:"image,omitzero"`
	// The trimmed paper around the image.
	Sheet quoin.Size `json:"sheet,omitzero"`
	// The outside of the mat board.
	Mat quoin.Size `json:"mat,omitzero"`
	// The glass and backing, by which frames are sold.
	Frame quoin.Size `json:"frame,omitzero"`
	// What it is sent in.
	Parcel quoin.Size `json:"parcel,omitzero"`
	// What one weighs, for parcels; where it is not given, what its lines weigh.
	Mass quoin.Quantity `json:"mass,omitzero" range:"(0," dim:"mass"`
	// How thick one is, for parcels that have a depth.
	Thickness quoin.Quantity `json:"thickness,omitzero" range:"(0," dim:"length"`
	// Id of a product before it whose bill this one has too: a framed print has all that the
	// print has, and its own bill on top. Run, packing lists and sizes are the other's too where
	// it gives none; the channels that sell it are not.
	Extends string `json:"extends,omitempty" was:"base"`
	// What goes into it, however it is sold.
	Bill cost.Bill `json:"bill,omitempty"`
	// Packing lists by name; a channel names the one that it uses.
	Packing map[string]cost.Bill `json:"packing,omitempty"`
	// The print run it is made in; none where it is not given.
	Run cost.Run `json:"run,omitzero"`
	// What print houses ask for the prints, to be compared with making them.
	Quotes []source.Quote `json:"quotes,omitempty" most:"10"`
	// How many prints may be asked for.
	Demand source.Demand `json:"demand,omitzero"`
	// How many prints the comparison goes up to; ten runs where it is not given.
	Volume int64 `json:"volume,omitzero" range:"[1,1000000]"`
}

// Set is several products that are sold together in a channel, in one order.
type Set struct {
	// What the answer names it by.
	ID string `json:"id" need:"yes"`
	// What people call it.
	Name string `json:"name,omitempty"`
	// Id of the channel in which it is sold.
	Channel string `json:"channel" need:"yes"`
	// Ids of its products, one of each.
	Products []string `json:"products" need:"yes" most:"20"`
	// What its buyers would buy without it; all of its products where it is not given. Buyers
	// left buy nothing.
	Alternatives []Alternative `json:"alternatives,omitempty" was:"apart" most:"100"`
}

// Alternative is what a share of the buyers of a set would buy without the set: each of these
// products, in an order of its own.
type Alternative struct {
	// Share of the buyers.
	Share quoin.Rate `json:"share" need:"yes" range:"(0,1]"`
	// Ids of what they would buy.
	Products []string `json:"products" need:"yes" most:"20"`
}

// Grid returns the prices that are considered. The error is a Problem, as from quoin.NewGrid.
func (d Document) Grid() (quoin.Grid, error) {
	limit := quoin.AmountOf(100_000, 0)
	return quoin.NewGrid(d.PriceStep.Or(d.Currency.Minor()).WithPlaces(d.Currency.Digits()), d.PriceLimit.Or(limit))
}
