package pricelist

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/rule"
)

// MarketPosition is what the comparables of a product say, and where its prices stand among
// them.
type MarketPosition struct {
	// Id of the market rule whose options are used: of several that speak of the product, the
	// first by the alphabet. Not given without one. Then every comparable counts that was sold, at
	// its price as it is.
	Rule string `json:"rule,omitempty"`
	// How many comparables count.
	Counted int64 `json:"counted"`
	// From how many venues they are.
	Venues int64 `json:"venues"`
	// From how many sellers. Those of a venue without one count as one seller.
	Sellers int64 `json:"sellers"`
	// How many have to count for quartiles to be given, and for the rule to speak.
	NeedsCounted int64 `json:"needs_counted"`
	// From how many venues.
	NeedsVenues int64 `json:"needs_venues"`
	// The lowest price that counts, on the basis of the rule; not given if none counts.
	Low quoin.Optional[quoin.Amount] `json:"low,omitzero"`
	// The highest.
	High quoin.Optional[quoin.Amount] `json:"high,omitzero"`
	// A quarter of the weight lies below it; not given, as the next two, if too few count.
	LowerQuartile quoin.Optional[quoin.Amount] `json:"lower_quartile,omitzero"`
	// Half of the weight lies below it.
	Median quoin.Optional[quoin.Amount] `json:"median,omitzero"`
	// Three quarters of the weight lie below it.
	UpperQuartile quoin.Optional[quoin.Amount] `json:"upper_quartile,omitzero"`
	// Share of the weight below today's price, and half of that at it; not given without one, or
	// if too few count.
	TodayAbove quoin.Optional[quoin.Rate] `json:"today_above,omitzero"`
	// Share of the weight below the decided price, and half of that at it; not given if too few
	// count.
	PriceAbove quoin.Optional[quoin.Rate] `json:"price_above,omitzero"`
	// How many comparables do not count, by reason; not there without any.
	LeftOut []comparables.LeftOut `json:"left_out,omitempty"`
	// The first 200 comparables one by one; only after Answer.WithCurves.
	Seen []comparables.Seen `json:"seen,omitempty"`
}

// String says how many count, from where, and what they say.
func (m MarketPosition) String() string {
	text := fmt.Sprintf("%d comparables from %d venues and %d sellers", m.Counted, m.Venues, m.Sellers)
	if low, ok := m.Low.Get(); ok {
		text += fmt.Sprintf(", %v to %v", low, m.High.Or(low))
	}
	return text
}

// asking is the market rule that speaks of an item, with its place; one without options, at −1,
// if there is none. Of several it is the first by the alphabet, so that their order changes nothing.
func (d *decidedList) asking(i int) (asked rule.Market, at int) {
	at = -1
	for _, r := range d.dec.Speaking(i) {
		if k, ok := d.Rules[r].Kind.(rule.Market); ok && (at < 0 || d.Rules[r].ID < d.Rules[at].ID) {
			asked, at = k, r
		}
	}
	return asked, at
}

// market is what the comparables of a product say; nothing without any.
func (d *decidedList) market(i int) *MarketPosition {
	it := d.items[i]
	if len(it.Comparables) == 0 {
		return nil
	}
	k, at := d.asking(i)
	list := comparables.NewList(it.Comparables, it.Size)
	r := list.Rank(k.Choice())
	m := &MarketPosition{Counted: int64(r.Counting), Venues: int64(r.Venues)}
	m.NeedsCounted, m.NeedsVenues = k.Needs()
	if at >= 0 {
		m.Rule = d.Rules[at].ID
	}
	if r.Counting < len(it.Comparables) {
		m.LeftOut = list.LeftOut(k.Choice())
	}
	if r.Counting == 0 {
		return m
	}
	sellers, _ := r.PeopleSelling()
	m.Sellers = int64(sellers)
	quantile := func(percent int64) quoin.Optional[quoin.Amount] {
		p, _ := r.PriceAt(perCent(percent))
		return quoin.Some(d.Currency.Round(p, quoin.HalfUp))
	}
	m.Low, m.High = quantile(0), quantile(100)
	if !k.Enough(r.Counts) {
		return m
	}
	m.LowerQuartile, m.Median, m.UpperQuartile = quantile(25), quantile(50), quantile(75)
	if today, ok := it.Today.Get(); ok {
		m.TodayAbove = quoin.Some(r.Below(today).Round(2))
	}
	m.PriceAbove = quoin.Some(r.Below(d.dec.Prices[i]).Round(2))
	return m
}
