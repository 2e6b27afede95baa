package comparables

import (
	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Record is a price at which a print like one of the shop's is offered elsewhere, as it was
// seen, in the shop's currency, and how many were sold at it.
type Record struct {
	// Id of the product of the shop that it is like.
	Product string `json:"product" need:"yes"`
	// Where it is offered. Each venue weighs the same in total.
	Venue string `json:"venue" need:"yes"`
	// Who sells it there. Those of a venue without one count as those of a single seller, who is
	// in no other venue.
	Seller string `json:"seller,omitempty"`
	// At what price, above 0.
	Price quoin.Amount `json:"price" need:"yes" range:"(0,"`
	// When it was sold, or seen. For the reader: no rule asks for it.
	Date quoin.Date `json:"date,omitzero"`
	// Size of the print, without mat and frame.
	Size quoin.Size `json:"size,omitzero"`
	// How many are known to have been sold at the price; none where it is only asked.
	Sold int64 `json:"sold,omitzero" range:"[0,"`
	// The rate of tax that the price holds, and postage and frame, which are given as the buyer
	// sees them, with it; none where it is not given.
	Tax quoin.Rate `json:"tax,omitzero" range:"[0,1]"`
	// What sending it costs.
	Postage quoin.Amount `json:"postage,omitzero" range:"[0,"`
	// How much of postage the buyer pays beside the price: nothing where postage is in the
	// price, all of it where it is on top, or something between. What is paid beyond postage is
	// paid for the print.
	PostageOnTop quoin.Amount `json:"postage_on_top,omitzero" range:"[0,"`
	// How many there are of a limited edition; an open one where it is not given. For the
	// reader: no rule asks for it.
	Edition int64 `json:"edition,omitzero" range:"[0,"`
	// Whether it is signed. For the reader: no rule asks for it.
	Signed bool `json:"signed,omitzero"`
	// Whether a frame is sold with it.
	Framed bool `json:"framed,omitzero"`
	// What the frame is worth.
	FrameWorth quoin.Optional[quoin.Amount] `json:"frame_worth,omitzero" range:"[0,"`
}

// mostMoney is the most money in a record, below which an amount as it is read
// from text always stays.
func mostMoney() quoin.Amount { return quoin.AmountOf(1_000_000_000_000, 0) }

// Check returns, all at once: values that the fields do not take, such as a missing product or
// venue; money of 10^12 or more; and a frame's worth for a print without a frame. The error is
// Problems.
func (r Record) Check() error {
	k := form.Computed(r)
	money := func(name string, a quoin.Amount) {
		if a.Cmp(mostMoney()) >= 0 {
			k.Add((*form.Path)(nil).Field(name), quoin.Problem{Code: quoin.OutOfRange, Found: a.String(), Wanted: "a value below 10^12"})
		}
	}
	money("price", r.Price)
	money("postage", r.Postage)
	money("postage_on_top", r.PostageOnTop)
	money("frame_worth", r.FrameWorth.Or(quoin.Amount{}))
	r.CheckIn(k, nil)
	return k.All().Err()
}

// CheckIn adds contradictions in the record, which stands at a path, to the problems found so
// far. Only packages of this module need it.
func (r Record) CheckIn(found *form.Collector, at *form.Path) {
	if _, given := r.FrameWorth.Get(); given && !r.Framed {
		found.Stray(at.Field("frame_worth"), "what a frame is worth, of a print without one", "framed set to true beside it, or no frame_worth")
	}
}

// String lists the fields that are given.
func (r Record) String() string { return form.String(r) }

// Bare returns the price of the print alone, with its tax: price + postage on top − postage −
// frame. It returns false if the worth of its frame is unknown, or nothing above zero is left.
func (r *Record) Bare() (quoin.Amount, bool) {
	frame, known := r.FrameWorth.Get()
	if r.Framed && !known {
		return quoin.Amount{}, false
	}
	bare := r.Price.Add(r.PostageOnTop).Sub(r.Postage).Sub(frame)
	return bare, bare.Sign() > 0
}

// At returns Bare at another rate of tax: bare × (1 + tax) ÷ (1 + tax of the record), a
// quotient of 34 digits. 18.00 with 20% tax is 16.50 at 10%. It returns false if Bare does.
func (r *Record) At(tax quoin.Rate) (quoin.Amount, bool) {
	bare, ok := r.Bare()
	if !ok {
		return quoin.Amount{}, false
	}
	return bare.Times(tax.OnePlus()).Over(r.Tax.OnePlus()), true
}
