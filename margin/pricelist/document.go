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
	Version  int64          `json:"version" need:"yes" range:"[1,1]"`
	Currency quoin.Currency `json:"currency" need:"yes"` // of every amount
	// PriceStep is what prices are multiples of, itself one of the currency's
	// minor unit; none means one minor unit.
	PriceStep quoin.Optional[quoin.Amount] `json:"price_step,omitzero" range:"(0,"`
	// PriceLimit is the highest price considered; none means 100000.00.
	PriceLimit quoin.Optional[quoin.Amount] `json:"price_limit,omitzero" range:"(0,"`

	Supplies []cost.Supply `json:"supplies,omitempty"`
	// Purchases are invoices that stocks take what came in from, and Date the day
	// on which stocks are looked at.
	Purchases []buy.Purchase `json:"purchases,omitempty" most:"1000"`
	Date      quoin.Date     `json:"date,omitzero"`
	// Machines are counted on bills as supplies are, by their id.
	Machines []machine.Machine `json:"machines,omitempty" most:"100"`
	Stages   []waste.Stage     `json:"stages,omitempty" most:"50"` // in order
	// Contingency is added on the cost of all goods.
	Contingency quoin.Rate        `json:"contingency,omitzero" range:"[0,"`
	Products    []Product         `json:"products" need:"yes"`
	Channels    []channel.Channel `json:"channels" need:"yes" most:"100"`
	// Packings are what parcels may be packed in, each of them a packing list of
	// products too; Tariffs are what carriers ask for sending them.
	Packings []parcel.Packing `json:"packings,omitempty" most:"100"`
	Tariffs  []parcel.Tariff  `json:"tariffs,omitempty" most:"20"`
	// Board is what might be put into parcels to stiffen them: the answer says what
	// sending it would cost.
	WhatIfBoard *parcel.Board `json:"what_if_board,omitempty" was:"board"`
	// Sets are products sold together, Fairs where to go or stay away from,
	// Editions what is limited, and EditionLimits the bounds on its size that the
	// shop knows to matter.
	Sets          []Set             `json:"sets,omitempty"`
	Fairs         []fair.Fair       `json:"fairs,omitempty" most:"100"`
	Editions      []edition.Edition `json:"editions,omitempty" most:"100"`
	EditionLimits []edition.Limit   `json:"edition_limits,omitempty" most:"100"`
	// Overhead is what the shop costs whatever is sold.
	Overhead channel.FixedCost `json:"overhead,omitzero"`
	// IncomeTax is taken of operating income, where it is above zero.
	IncomeTax   quoin.Rate           `json:"income_tax,omitzero" range:"[0,1]"`
	Comparables []comparables.Record `json:"comparables,omitempty"`
	Rules       []rule.Rule          `json:"rules,omitempty"`
	Choose      rule.Choice          `json:"choose,omitempty"`
}

// Product is one thing on the price list: a print in one size.
type Product struct {
	ID   string `json:"id" need:"yes"`
	Name string `json:"name,omitempty"`
	// Design is what it shows. Prints of one design in several sizes can have a ladder
	// between them without being named.
	Design string `json:"design,omitempty"`
	// Price is today's price.
	Price quoin.Optional[quoin.Amount] `json:"price,omitzero" range:"[0,"`
	// Image is what is printed, Sheet the trimmed paper around it, Mat the outside
	// of the mat board, Frame the glass and backing, by which frames are sold, and
	// Parcel what it is sent in.
	Image  quoin.Size `json:"image,omitzero"`
	Sheet  quoin.Size `json:"sheet,omitzero"`
	Mat    quoin.Size `json:"mat,omitzero"`
	Frame  quoin.Size `json:"frame,omitzero"`
	Parcel quoin.Size `json:"parcel,omitzero"`
	// Mass is what it weighs, for parcels; where it is not given, what its lines
	// weigh. Thickness is that of one.
	Mass      quoin.Quantity `json:"mass,omitzero" range:"(0," dim:"mass"`
	Thickness quoin.Quantity `json:"thickness,omitzero" range:"(0," dim:"length"`
	// Base is the id of a product before it whose bill this one shares: a framed
	// print has all that the print has, and its own bill on top. Run, sizes and
	// packing lists are the base's too where it gives none.
	Extends string    `json:"extends,omitempty" was:"base"`
	Bill    cost.Bill `json:"bill,omitempty"`
	// Packing is packing lists by name; a channel names the one it uses.
	Packing map[string]cost.Bill `json:"packing,omitempty"`
	Run     cost.Run             `json:"run,omitzero"`
	// Quotes are what print houses ask for the prints, to be compared with making
	// them; Demand is how many may be asked for, and Volume how many prints the
	// comparison goes up to, zero meaning ten runs.
	Quotes []source.Quote `json:"quotes,omitempty" most:"10"`
	Demand source.Demand  `json:"demand,omitzero"`
	Volume int64          `json:"volume,omitzero" range:"[1,1000000]"`
}

// Set is several products that are sold together in a channel, in one order.
type Set struct {
	ID   string `json:"id" need:"yes"`
	Name string `json:"name,omitempty"`
	// Channel is where, Products what is in it, one of each.
	Channel  string   `json:"channel" need:"yes"`
	Products []string `json:"products" need:"yes" most:"20"`
	// Alternative is what the buyer of a set would buy without it, by share of buyers;
	// those left buy nothing. None means all products, in an order of each.
	Alternatives []Alternative `json:"alternatives,omitempty" was:"apart" most:"100"`
}

// Alternative is what a share of the buyers of a set would buy without the set: each of these
// products, in an order of its own.
type Alternative struct {
	Share    quoin.Rate `json:"share" need:"yes" range:"(0,1]"`
	Products []string   `json:"products" need:"yes" most:"20"`
}

// Grid returns the prices that are considered. The error is a Problem, as from quoin.NewGrid.
func (d Document) Grid() (quoin.Grid, error) {
	limit := quoin.AmountOf(100_000, 0)
	return quoin.NewGrid(d.PriceStep.Or(d.Currency.Minor()).WithPlaces(d.Currency.Digits()), d.PriceLimit.Or(limit))
}
