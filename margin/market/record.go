package market

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/cost/buy"
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
	Date buy.Date   `json:"date,omitzero"`
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

// Codes of records, bases and options that cannot be meant as they are written.
const (
	Unnamed        quoin.Code = "unnamed_comparable"        // no product or no venue
	OutOfRange     quoin.Code = "comparable_out_of_range"   // a number that its field does not take
	FrameUnframed  quoin.Code = "frame_worth_without_frame" // a frame's worth of a print without one
	TooManyRecords quoin.Code = "too_many_comparables"      // more than MostRecords
	NoSuchRecord   quoin.Code = "no_such_comparable"        // a number of a record that there is not
)

// MostRecords is how many records are looked at together.
const MostRecords = 100_000

// mostFound is how many problems are listed.
const mostFound = 1000

// mostMoney is the most money in a record, below which an amount as it is read
// from text always stays.
func mostMoney() quoin.Amount { return quoin.AmountOf(1_000_000_000_000, 0) }

// Check reports, all at once, a record without product or venue, a number that
// its field does not take, money of 10^12 or more, and a frame's worth of a
// print without a frame. The error is Problems.
func (r Record) Check() error {
	var c checker
	c.record(quoin.Path{}, r)
	return c.found.Err()
}

// Check is Record.Check for a list, with where each record stands. More than
// MostRecords are refused.
func Check(records []Record) error {
	var c checker
	c.records(records)
	return c.found.Err()
}

type checker struct{ found quoin.Problems }

func (c *checker) fault(code quoin.Code, at quoin.Path, found, wanted string) {
	if len(c.found) < mostFound {
		c.found = append(c.found, quoin.Problem{Code: code, Severity: quoin.Fault, Path: at.String(), Found: found, Wanted: wanted})
	}
}

func (c *checker) records(records []Record) {
	if len(records) > MostRecords {
		c.fault(TooManyRecords, quoin.InField("records"), fmt.Sprint(len(records)), fmt.Sprintf("at most %d", MostRecords))
		return
	}
	for i, r := range records {
		c.record(quoin.InList("records", i), r)
	}
}

func (c *checker) record(at quoin.Path, r Record) {
	c.name(at.Field("product"), r.Product)
	c.name(at.Field("venue"), r.Venue)
	if c.money(at.Field("price"), r.Price); r.Price.IsZero() {
		c.fault(OutOfRange, at.Field("price"), r.Price.String(), "a price above 0")
	}
	c.count(at.Field("sold"), r.Sold, 0)
	c.share(at.Field("tax"), r.Tax)
	c.money(at.Field("postage"), r.Postage)
	c.money(at.Field("postage_on_top"), r.PostageOnTop)
	c.count(at.Field("edition"), r.Edition, 0)
	worth, given := r.FrameWorth.Get()
	c.money(at.Field("frame_worth"), worth)
	if given && !r.Framed {
		c.fault(FrameUnframed, at.Field("frame_worth"), worth.String(), "framed beside it, or no worth of a frame")
	}
}

func (c *checker) name(at quoin.Path, s string) {
	if s == "" {
		c.fault(Unnamed, at, "", "a name")
	}
}

func (c *checker) money(at quoin.Path, a quoin.Amount) {
	if a.Sign() < 0 || a.Cmp(mostMoney()) >= 0 {
		c.fault(OutOfRange, at, a.String(), "an amount of at least 0 and below 10^12")
	}
}

func (c *checker) count(at quoin.Path, n, least int64) {
	if n < least {
		c.fault(OutOfRange, at, fmt.Sprint(n), fmt.Sprintf("at least %d", least))
	}
}

func (c *checker) share(at quoin.Path, r quoin.Rate) {
	if r.Sign() < 0 || r.Factor().Cmp(quoin.FactorOf(1)) > 0 {
		c.fault(OutOfRange, at, r.String(), "a rate from 0% to 100%")
	}
}
