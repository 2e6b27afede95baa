package fair

import (
	"cmp"

	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Fair is what going to one fair costs and what it is expected to bring.
type Fair struct {
	// What the answer names it by.
	ID string `json:"id" need:"yes"`
	// What people call it.
	Name string `json:"name,omitempty"`
	// Id of the channel in whose terms prints are sold there.
	Channel string `json:"channel" need:"yes"`

	// Fee for the stand, with what must be taken with it.
	Stand quoin.Amount `json:"stand,omitzero" range:"[0,"`
	// Fee for applying, paid whether accepted or not.
	Jury quoin.Amount `json:"jury,omitzero" range:"[0,"`
	// Share of applications that are accepted; all of them where it is not given. A fair
	// attended bears jury ÷ chance, the fees of the applications that it takes on average.
	Chance quoin.Optional[quoin.Rate] `json:"chance,omitzero" range:"(0,1]"`
	// There and back, with the stock.
	Travel quoin.Amount `json:"travel,omitzero" range:"[0,"`
	// How many nights are paid for, 0 to 365.
	Nights int64 `json:"nights,omitzero" range:"[0,365]"`
	// What each night costs.
	Night quoin.Amount `json:"night,omitzero" range:"[0,"`
	// Paid help, in all.
	Helper quoin.Amount `json:"helper,omitzero" range:"[0,"`
	// What walls, racks and lights cost.
	Display quoin.Amount `json:"display,omitzero" range:"[0,"`
	// How many fairs the display serves; one fair bears its share. Needed where there is a
	// display.
	DisplayFairs quoin.Factor `json:"display_fairs,omitzero" range:"(0,"`
	// More that going costs, whatever is sold.
	Other []Cost `json:"other,omitempty" most:"100"`

	// Share of the sales that the organiser takes.
	Commission quoin.Rate `json:"commission,omitzero" range:"[0,1]"`
	// What sales are: what buyers pay (also where it is not given), or that without tax.
	CommissionOf Base `json:"commission_of,omitempty"`
	// The least that the organiser takes.
	CommissionAtLeast quoin.Amount `json:"commission_at_least,omitzero" range:"[0,"`

	// What is sold, by shares of the prints, which sum to 1.
	Mix []Share `json:"mix" need:"yes" most:"100"`
	// How many are expected to be sold in all; a fraction can be an average.
	Prints quoin.Factor `json:"prints" need:"yes" range:"(0,"`
	// How many prints are made, or bought, for the fair and taken along; as many as are sold where
	// it is not given.
	Taken quoin.Factor `json:"taken,omitzero" range:"(0,"`
	// Share of sales that is paid in cash. It sizes the till and changes no cost: card fees
	// belong to the channel.
	Cash quoin.Optional[quoin.Rate] `json:"cash,omitzero" range:"[0,1]"`

	// The maker's own hours, in all: packing, the way, setting up, selling.
	Hours quoin.Factor `json:"hours,omitzero" range:"(0,"`
	// What each of them is to bring at least.
	HourWorth quoin.Amount `json:"hour_worth,omitzero" range:"[0,"`
	// What the days would bring if they were not spent on the fair.
	OpportunityCost quoin.Amount `json:"opportunity_cost,omitzero" was:"instead" range:"[0,"`
}

// Cost is one more fixed cost of going.
type Cost struct {
	// What it is for.
	Name string `json:"name" need:"yes"`
	// How much it is.
	Amount quoin.Amount `json:"amount" need:"yes" range:"[0,"`
}

// Share is one product's share of the prints sold.
type Share struct {
	// Id of the product.
	Product string `json:"product" need:"yes"`
	// Its share, above 0.
	Share quoin.Rate `json:"share" need:"yes" range:"(0,1]"`
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
	// Goods is what one costs to make and pack, and OwnTime how much of that is the maker's own
	// time, which nobody is paid for.
	Goods, OwnTime quoin.Amount
}

// name is what explanations and problems call the fair.
func (f Fair) name() string { return cmp.Or(f.Name, f.ID) }
