package fair

import (
	"cmp"

	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Fair is what going to one fair costs and what it is expected to bring.
type Fair struct {
	ID   string `json:"id" need:"yes"`
	Name string `json:"name,omitempty"`
	// Channel is the id of the channel in whose terms prints are sold there.
	Channel string `json:"channel" need:"yes"`

	// Stand is the fee for the stand, with what must be taken with it.
	Stand quoin.Amount `json:"stand,omitzero" range:"[0,"`
	// Jury is the fee for applying, paid whether accepted or not. Chance is the
	// share of applications that are accepted, all where it is not given: a
	// fair attended bears jury ÷ chance, the fees of the applications that it
	// takes on average.
	Jury   quoin.Amount               `json:"jury,omitzero" range:"[0,"`
	Chance quoin.Optional[quoin.Rate] `json:"chance,omitzero" range:"(0,1]"`
	// Travel is there and back with the stock. Nights are paid at Night each.
	Travel quoin.Amount `json:"travel,omitzero" range:"[0,"`
	Nights int64        `json:"nights,omitzero" range:"[0,365]"`
	Night  quoin.Amount `json:"night,omitzero" range:"[0,"`
	// Helper is paid help, in all.
	Helper quoin.Amount `json:"helper,omitzero" range:"[0,"`
	// Display is what walls, racks and lights cost, and DisplayFairs how many
	// fairs they serve; one fair bears its share.
	Display      quoin.Amount `json:"display,omitzero" range:"[0,"`
	DisplayFairs quoin.Factor `json:"display_fairs,omitzero" range:"(0,"`
	Other        []Cost       `json:"other,omitempty" most:"100"`

	// Commission is what the organiser takes of the sales, and at least
	// CommissionAtLeast. CommissionOf says what sales are: sales, also when
	// empty, or net.
	Commission        quoin.Rate   `json:"commission,omitzero" range:"[0,1]"`
	CommissionOf      Base         `json:"commission_of,omitempty"`
	CommissionAtLeast quoin.Amount `json:"commission_at_least,omitzero" range:"[0,"`

	// Mix is what is sold, by share of the prints; shares sum to 1.
	Mix []Share `json:"mix" need:"yes" most:"100"`
	// Prints is how many are expected to be sold in all. It may be a fraction,
	// being an average.
	Prints quoin.Factor `json:"prints" need:"yes" range:"(0,"`
	// Cash is the share of sales that is paid in cash. It sizes the till and
	// changes no cost: card fees belong to the channel.
	Cash quoin.Optional[quoin.Rate] `json:"cash,omitzero" range:"[0,1]"`

	// Hours are the artist's own, in all: packing, the way, setting up, selling.
	Hours quoin.Factor `json:"hours,omitzero" range:"(0,"`
	// HourWorth is what an own hour is to bring at least, and Instead what the
	// days would bring if they were not spent on the fair.
	HourWorth quoin.Amount `json:"hour_worth,omitzero" range:"[0,"`
	Instead   quoin.Amount `json:"instead,omitzero" range:"[0,"`
}

// Cost is one more fixed cost of going.
type Cost struct {
	Name   string       `json:"name" need:"yes"`
	Amount quoin.Amount `json:"amount" need:"yes" range:"[0,"`
}

// Share is one product's share of the prints sold.
type Share struct {
	Product string     `json:"product" need:"yes"` // id of a product
	Share   quoin.Rate `json:"share" need:"yes" range:"(0,1]"`
}

// Base says what a commission is a share of.
type Base string

const (
	// Sales is what buyers pay: shelf prices, with the tax that they hold. Also
	// when empty.
	Sales Base = "sales"
	// Net is sales without tax.
	Net Base = "net"
)

// UnmarshalText reads sales or net. The error is a Problem.
func (b *Base) UnmarshalText(text []byte) error { return form.SetWord(b, text, Sales, Net) }

// Print is what one print of a product brings at the fair. The caller computes it from the
// terms of selling there.
type Print struct {
	Product string
	// Price is what the buyer pays, with the tax that a shelf price holds.
	Price quoin.Amount
	// Revenue is the price without tax.
	Revenue quoin.Amount
	// Kept is revenue less the goods and the card fee: what the print
	// contributes before anything of the fair. It may be negative.
	Kept quoin.Amount
}

// name is what explanations and problems call the fair.
func (f Fair) name() string { return cmp.Or(f.Name, f.ID) }
