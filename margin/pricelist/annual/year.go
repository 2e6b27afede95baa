// Package annual is the yearly review of a price list. It says what has changed, what to do with
// each price, what the trials of the year show, which price to try next, and where the prices
// stand among similar prints that sold.
//
//	found, err := annual.Review(annual.Year{Last: last, Now: now, History: asked, Market: sold, Terms: terms})
//	fmt.Print(annual.Text(found, 79))
//
// Review puts together what packages review, history, trial and market say. Text and Markdown
// write it for people. A year needs both documents and its terms. History and market may be
// missing: the parts that rest on them are then left out.
package annual

import (
	"fmt"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/history"
	"example.com/quoin/margin/pricelist"
)

// Year is all that a review looks at.
type Year struct {
	// Last is the document that the prices in force were decided from, and Now the document
	// with what things cost today.
	Last, Now pricelist.Document
	// History is what was asked, tried, reduced and sold.
	History history.History
	// Market is what prints like these sold for.
	Market []comparables.Record
	Terms
}

// Terms are the day of a review, and the bounds of what it may propose.
type Terms struct {
	Today quoin.Date `json:"today" need:"yes"`
	// Move is how far a price may go at once, as a share of it: above 0%, at most 50%. With 10%, a
	// price of 20.00 goes to at most 22.00.
	Move quoin.Rate `json:"move" need:"yes" range:"(0,0.5]"`
	// Tax is the rate of tax that the prices of the list include. Prices of others are compared at
	// the same rate.
	Tax quoin.Rate `json:"tax,omitzero" range:"[0,"`
	// ToCome is the exposure that is expected in each channel from now on. It is how long a trial
	// can pay for what it costs. In channels that are not listed, no price to try is proposed.
	ToCome []Exposure `json:"to_come,omitempty"`
}

// Exposure is the number of visits, visitors or days that are expected in a channel. It is counted
// as the trials of that channel are.
type Exposure struct {
	Channel  string       `json:"channel" need:"yes"`
	Exposure quoin.Factor `json:"exposure" need:"yes" range:"[0.001,1000000000]"`
}

// String writes what is given of the terms.
func (t Terms) String() string { return form.String(t) }

// String writes what is given of the exposure.
func (e Exposure) String() string { return form.String(e) }

// String says when the year is reviewed, and how many products it has.
func (y Year) String() string {
	return fmt.Sprintf("year of %d products until %v", len(y.Now.Products), y.Today)
}

// DecodeTerms reads terms from JSON. The error is quoin.Problems: what is wrong with them, all at once,
// each with its line and column.
func DecodeTerms(data []byte) (Terms, error) {
	var t Terms
	err := decode(data, &t, func(*form.Collector) {})
	return t, err
}

// DecodeMarket reads what prints sold for elsewhere from JSON, a list of records. The error is
// quoin.Problems: what is wrong with all of them, each with its line and column.
func DecodeMarket(data []byte) ([]comparables.Record, error) {
	var all []comparables.Record
	err := decode(data, &all, func(c *form.Collector) {
		for i, r := range all {
			r.CheckIn(c, (*form.Path)(nil).At(i))
		}
	})
	return all, err
}

// decode reads JSON, and then checks what fields mean together.
func decode(data []byte, to any, check func(*form.Collector)) error {
	var c form.Collector
	if c.Read(data, to) {
		check(&c)
	}
	found := c.All()
	form.Locate(data, found)
	return found.Err()
}

// check reports what is wrong with the terms.
func (y Year) check() error {
	c := form.Check(y.Terms)
	var channels []string
	for _, ch := range y.Now.Channels {
		channels = append(channels, ch.ID)
	}
	seen := map[string]bool{}
	for i, e := range y.ToCome {
		at := form.In("to_come").At(i).Field("channel")
		switch {
		case !slices.Contains(channels, e.Channel):
			c.Add(at, quoin.Problem{Code: quoin.UnknownID, Found: prose.Quoted(e.Channel), Wanted: "the id of a channel of the new document", Near: c.Near(e.Channel, channels)})
		case seen[e.Channel]:
			c.Fault(at, quoin.DuplicateID, prose.Quoted(e.Channel)+" again", "each channel once", "")
		}
		seen[e.Channel] = true
	}
	return c.All().Err()
}

// toCome is the exposure to come in a channel; zero where the terms say none.
func (t Terms) toCome(channel string) quoin.Factor {
	for _, e := range t.ToCome {
		if e.Channel == channel {
			return e.Exposure
		}
	}
	return quoin.Factor{}
}
