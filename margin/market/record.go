package market

import (
	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Record is a comparable as it was observed, in the shop's currency.
type Record struct {
	// Product is the product of the shop that it is like.
	Product string `json:"product" need:"yes"`
	Venue   string `json:"venue" need:"yes"`
	// Seller is who sells it there. Records of a venue without one count as
	// those of a single seller, who is in no other venue.
	Seller string       `json:"seller,omitempty"`
	Price  quoin.Amount `json:"price" need:"yes" range:"(0,"`
	// Date is when it was sold, or seen.
	Date quoin.Date `json:"date,omitzero"`
	Size quoin.Size `json:"size,omitzero"`
	// Sold is how many are known to have been sold at the price; 0 where it is
	// only asked.
	Sold int64 `json:"sold,omitzero" range:"[0,"`
	// Tax is the rate of tax that the price holds, 0 where it holds none.
	// Postage and frame are given as the buyer sees them, with the same tax.
	Tax quoin.Rate `json:"tax,omitzero" range:"[0,1]"`
	// Postage is what sending it costs, PostageOnTop how much of that the buyer
	// pays beside the price: nothing where postage is in the price, all of it
	// where it is on top, or something between. What is paid beyond postage is
	// paid for the print.
	Postage      quoin.Amount `json:"postage,omitzero" range:"[0,"`
	PostageOnTop quoin.Amount `json:"postage_on_top,omitzero" range:"[0,"`
	// Edition is how many there are of a limited edition, 0 where it is open.
	Edition int64 `json:"edition,omitzero" range:"[0,"`
	Signed  bool  `json:"signed,omitzero"`
	// Framed says that a frame is sold with it, FrameWorth what that is worth.
	Framed     bool                         `json:"framed,omitzero"`
	FrameWorth quoin.Optional[quoin.Amount] `json:"frame_worth,omitzero" range:"[0,"`
}

// MostRecords is how many records are looked at together.
const MostRecords = 100_000

// mostMoney is the most money in a record, below which an amount as it is read
// from text always stays.
func mostMoney() quoin.Amount { return quoin.AmountOf(1_000_000_000_000, 0) }

// Check reports, all at once, what the fields do not take, a record without product or
// venue among it, money of 10^12 or more, and a frame's worth of a print without a frame.
// The error is Problems.
func (r Record) Check() error {
	k := form.Computed(r)
	money := func(name string, a quoin.Amount) {
		if a.Cmp(mostMoney()) >= 0 {
			k.Add(field(name), quoin.Problem{Code: quoin.OutOfRange, Found: a.String(), Wanted: "a value below 10^12"})
		}
	}
	money("price", r.Price)
	money("postage", r.Postage)
	money("postage_on_top", r.PostageOnTop)
	worth, given := r.FrameWorth.Get()
	money("frame_worth", worth)
	if given && !r.Framed {
		k.Stray(field("frame_worth"), worth.String()+" of a print without a frame", "framed beside it, or no worth of a frame")
	}
	return k.All().Err()
}

// Check is Record.Check for a list, with where each record stands. More than
// MostRecords are refused. The error is Problems.
func Check(records []Record) error {
	var k form.Collector
	checkRecords(&k, records)
	return k.All().Err()
}

func checkRecords(k *form.Collector, records []Record) {
	at := field("records")
	if len(records) > MostRecords {
		k.TooMany(at, len(records), MostRecords)
		return
	}
	for i, r := range records {
		if k.Full {
			return
		}
		k.AddAll(at.At(i), r.Check())
	}
}

func field(name string) *form.Path { return (*form.Path)(nil).Field(name) }
