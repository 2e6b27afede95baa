package trial

import (
	"example.com/quoin"
	"example.com/quoin/internal/form"
)

// Period is a stretch of time at one price.
type Period struct {
	ID      string `json:"id" need:"yes"`
	Product string `json:"product" need:"yes"`
	Channel string `json:"channel" need:"yes"`
	// Price is what buyers paid. Kept is what one sale at it leaves after all costs of that sale;
	// it may be negative.
	Price quoin.Amount `json:"price" need:"yes" range:"[0,"`
	Kept  quoin.Amount `json:"kept" need:"yes"`
	// From is the first day, To the day after the last.
	From     quoin.Date `json:"from" need:"yes"`
	To       quoin.Date `json:"to" need:"yes"`
	Exposure Exposure   `json:"exposure" need:"yes"`
	// Units is how many were sold.
	Units int64 `json:"units" range:"[0,10000000]"`
	// Occasion is a plain word for what kind of time it was: fair, web, or a
	// season such as christmas. Only like occasions are compared.
	Occasion string `json:"occasion,omitempty"`
}

// Exposure is how much chance to sell there was.
type Exposure struct {
	Number quoin.Factor `json:"number" need:"yes" range:"[0.001,1000000000]"`
	Kind   Kind         `json:"kind" need:"yes"`
}

// Kind says what exposure is counted in.
type Kind string

const (
	Visits    Kind = "visits"      // of a page or a stand, each time
	Visitors  Kind = "visitors"    // people, each once
	StandDays Kind = "stand_days"  // days at a fair or market
	Online    Kind = "days_online" // days on line
)

// UnmarshalText reads visits, visitors, stand_days or days_online. The error is a Problem.
func (k *Kind) UnmarshalText(text []byte) error {
	return form.SetWord(k, text, Visits, Visitors, StandDays, Online)
}
