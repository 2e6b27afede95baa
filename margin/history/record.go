package history

import (
	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Kind is the word in the field record that says what a line is.
type Kind string

// The kinds of record.
const (
	PriceRecord     Kind = "price"
	SaleRecord      Kind = "sale"
	TrialRecord     Kind = "trial"
	ReductionRecord Kind = "reduction"
)

// Entry is what a line says: a Price, a Sale, a Trial or a Reduction, as a
// value. There are no others.
type Entry interface {
	// Kind returns the word in the field record.
	Kind() Kind
	// Check reports, all at once, what cannot be meant in the entry. The error
	// is Problems.
	Check() error
	// period reports an end that is not after the beginning.
	period(c *form.Collector, at *form.Path)
}

// Record is an entry and where it stands.
type Record struct {
	// Line is counted from 1; 0 where the entry was not read from lines.
	Line int
	// What kind of record it is.
	Entry Entry `kind:"record"`
}

var _ = form.Kinds[Entry](quoin.UnknownWord, quoin.WrongType, nil, func(e Entry) string { return string(e.Kind()) }, Price{}, Sale{}, Trial{}, Reduction{})

// Price is what a product is offered at from a day on: until the next price of
// the same product and channel begins, or until a day that is given.
type Price struct {
	// Id of the product.
	Product string `json:"product" need:"yes"`
	// Id of the channel; without one it holds wherever no price of a channel does.
	Channel string `json:"channel,omitempty"`
	// What one is offered at.
	Price quoin.Amount `json:"price" need:"yes" range:"(0,"`
	// The first day on which it holds.
	From quoin.Date `json:"from" need:"yes"`
	// First day on which it no longer holds.
	Until quoin.Date `json:"until,omitzero"`
}

// Reduction is what a product is offered at for a time, in place of its price.
type Reduction struct {
	// Id of the product.
	Product string `json:"product" need:"yes"`
	// Id of the channel; without one it holds in all channels, unless one has a reduction of its
	// own.
	Channel string `json:"channel,omitempty"`
	// The reduced price.
	Price quoin.Amount `json:"price" need:"yes" range:"(0,"`
	// First day on which it holds.
	From quoin.Date `json:"from" need:"yes"`
	// First day on which it no longer holds.
	Until quoin.Date `json:"until" need:"yes"`
}

// Sale is a print of a limited edition that was sold: its number, or which
// artist's proof it is. A numbering of its own has an edition of its own, so
// the sizes of an image that are each numbered from 1 are two editions here.
type Sale struct {
	// Id of the edition; a numbering of its own has an edition of its own.
	Edition string `json:"edition" need:"yes"`
	// Its number.
	Number int64 `json:"number,omitzero" need:"yes" range:"[1,100000]" or:"proof"`
	// Which artist's proof it is, in place of a number.
	Proof int64 `json:"proof,omitzero" range:"[1,100000]"`
	// The day on which it was sold.
	Date quoin.Date `json:"date" need:"yes"`
	// Id of the channel it was sold in.
	Channel string `json:"channel,omitempty"`
	// What it sold at, where that is known.
	Price quoin.Optional[quoin.Amount] `json:"price,omitzero" range:"[0,"`
}

// Trial is a time at a price, with how many could have bought and how many
// were sold.
type Trial struct {
	// Id of the trial, its own.
	ID string `json:"id" need:"yes"`
	// Id of the product.
	Product string `json:"product" need:"yes"`
	// Id of the channel.
	Channel string `json:"channel" need:"yes"`
	// What one was offered at.
	Price quoin.Amount `json:"price" need:"yes" range:"(0,"`
	// First day of it.
	From quoin.Date `json:"from" need:"yes"`
	// The first day after it.
	Until quoin.Date `json:"until" need:"yes"`
	// How much of the unit of exposure there was.
	Exposure quoin.Factor `json:"exposure" need:"yes" range:"(0,"`
	// What exposure is counted in.
	ExposureUnit ExposureUnit `json:"exposure_unit" need:"yes"`
	// How many were sold in that time, also where it is 0.
	Sold quoin.Optional[int64] `json:"sold" need:"yes" range:"[0,1000000000]"`
	// What else was special: a fair, a season.
	Occasion string `json:"occasion,omitempty"`
}

// ExposureUnit is what exposure is counted in.
type ExposureUnit string

// Units of exposure.
const (
	Visits     ExposureUnit = "visits"      // of a page; one person may visit often
	Visitors   ExposureUnit = "visitors"    // people, each once
	StandDays  ExposureUnit = "stand_days"  // days at a fair or a market
	DaysOnline ExposureUnit = "days_online" // days that it was offered on line
)

// UnmarshalText reads visits, visitors, stand_days or days_online.
func (u *ExposureUnit) UnmarshalText(text []byte) error {
	return form.SetWord(u, text, Visits, Visitors, StandDays, DaysOnline)
}

// Kind returns PriceRecord.
func (Price) Kind() Kind { return PriceRecord }

// Kind returns ReductionRecord.
func (Reduction) Kind() Kind { return ReductionRecord }

// Kind returns SaleRecord.
func (Sale) Kind() Kind { return SaleRecord }

// Kind returns TrialRecord.
func (Trial) Kind() Kind { return TrialRecord }

// Check reports a field that is missing or out of its range, and an end that is
// not after the beginning.
func (p Price) Check() error { return checked(p) }

// Check reports a field that is missing or out of its range, and an end that is
// not after the beginning.
func (r Reduction) Check() error { return checked(r) }

// Check reports a field that is missing or out of its range, and a number
// beside a proof.
func (s Sale) Check() error { return checked(s) }

// Check reports a field that is missing or out of its range, and an end that is
// not after the beginning.
func (t Trial) Check() error { return checked(t) }

// checked looks at an entry that was not read.
func checked[E Entry](e E) error {
	c := form.CheckRecord(e)
	e.period(c, nil)
	return c.All().Err()
}

func (p Price) period(c *form.Collector, at *form.Path)     { ends(c, at, p.From, p.Until) }
func (r Reduction) period(c *form.Collector, at *form.Path) { ends(c, at, r.From, r.Until) }
func (Sale) period(*form.Collector, *form.Path)             {}
func (t Trial) period(c *form.Collector, at *form.Path)     { ends(c, at, t.From, t.Until) }

// ends checks that a period ends after it begins.
func ends(c *form.Collector, at *form.Path, from, until quoin.Date) {
	if from.IsZero() || until.IsZero() || until.Cmp(from) > 0 || c.Under(at.Field("from")) {
		return
	}
	c.Fault(at.Field("until"), quoin.EmptyPeriod, until.String(), "a day after "+from.String(), "until is the first day on which it no longer holds")
}

func (p Price) span() span     { return span{dayOf(p.From), dayOf(p.Until)} }
func (r Reduction) span() span { return span{dayOf(r.From), dayOf(r.Until)} }
func (t Trial) span() span     { return span{dayOf(t.From), dayOf(t.Until)} }
