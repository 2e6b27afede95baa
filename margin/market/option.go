package market

import (
	"example.com/quoin"
	"example.com/quoin/internal/estimate"
	"example.com/quoin/internal/form"
)

// Options are the thresholds that records are judged by. What is not given is
// common practice where no source is named.
type Options struct {
	// MinSold is how many must have been sold for a record to count; none means
	// 1. An asking price never counts.
	MinSold quoin.Optional[int64] `json:"min_sold,omitzero" range:"[1,"`
	// MinSales and MinVenues are below how many records that count, and from how
	// many venues, nothing is said; none means 5 from 2.
	MinSales  quoin.Optional[int64] `json:"min_sales,omitzero" range:"[1,"`
	MinVenues quoin.Optional[int64] `json:"min_venues,omitzero" range:"[1,"`
	// MinSizes is of how many sizes there must be records for an exponent to be
	// fitted; none means 3.
	MinSizes quoin.Optional[int64] `json:"min_sizes,omitzero" range:"[2,"`
	// Exponent is an exponent of area to be used as it is.
	Exponent quoin.Optional[quoin.Factor] `json:"exponent,omitzero" range:"[-10,10]"`
	// DefaultExponent is what a fitted exponent is drawn to; none means 0.5, the
	// price growing with the sides of the print. ExponentSpread is how far, as a
	// standard deviation, the market may well be from it; none means 0.25, which
	// takes in both "all sizes cost the same" and "priced by area".
	DefaultExponent quoin.Optional[quoin.Factor] `json:"default_exponent,omitzero" range:"[-10,10]"`
	ExponentSpread  quoin.Optional[quoin.Factor] `json:"exponent_spread,omitzero" range:"(0,10]"`
	// Confidence is that of all intervals; none means 95%.
	Confidence quoin.Optional[quoin.Rate] `json:"confidence,omitzero" range:"[0.5,0.999]"`
	// OutlierSpreads is beyond how many spreads from the centre, on the
	// logarithmic scale, a price is named an outlier; none means 3.5 (Iglewicz and
	// Hoaglin, How to Detect and Handle Outliers, 1993; from memory).
	OutlierSpreads quoin.Optional[quoin.Factor] `json:"outlier_spreads,omitzero" range:"(0,1000]"`
	// Quantiles are the shares whose prices a summary gives; none means 10%, 25%,
	// 50%, 75% and 90%.
	Quantiles []quoin.Rate `json:"quantiles,omitempty" range:"[0,1]" most:"100"`
	// Signed and Limited leave out what is not, or is, signed or of a limited
	// edition; none takes both.
	Signed  quoin.Optional[bool] `json:"signed,omitzero"`
	Limited quoin.Optional[bool] `json:"limited,omitzero"`
	// Without is records that the caller leaves out, by their number in the list,
	// counted from 0.
	Without []int `json:"without,omitempty" most:"100000"`
	// Today is the day that the age of a record is counted to; none lists no old
	// ones. MaxDays is from how many days on a record is called old; none means
	// 730.
	Today   quoin.Date            `json:"today,omitzero"`
	MaxDays quoin.Optional[int64] `json:"max_days,omitzero" range:"[0,"`
}

func (o Options) minSold() int64   { return o.MinSold.Or(1) }
func (o Options) minSales() int64  { return o.MinSales.Or(5) }
func (o Options) minVenues() int64 { return o.MinVenues.Or(2) }
func (o Options) minSizes() int64  { return o.MinSizes.Or(3) }
func (o Options) maxDays() int64   { return o.MaxDays.Or(730) }

func (o Options) confidence() quoin.Rate        { return o.Confidence.Or(percent(95)) }
func (o Options) defaultExponent() quoin.Factor { return o.DefaultExponent.Or(half()) }
func (o Options) exponentSpread() quoin.Factor  { return o.ExponentSpread.Or(percent(25).Factor()) }
func (o Options) outlierSpreads() quoin.Factor  { return o.OutlierSpreads.Or(percent(350).Factor()) }
func (o Options) within() float64               { return estimate.Float(o.confidence().Factor()) }

func (o Options) quantiles() []quoin.Rate {
	if len(o.Quantiles) > 0 {
		return o.Quantiles
	}
	return []quoin.Rate{percent(10), percent(25), percent(50), percent(75), percent(90)}
}

func half() quoin.Factor { return quoin.FactorOf(1).Over(quoin.FactorOf(2)) }

func percent(n int64) quoin.Rate { return quoin.AmountOf(n, 2).Share(quoin.AmountOf(1, 0)) }

// Check reports, all at once, options out of their ranges. The error is
// Problems.
func (o Options) Check() error { return form.Computed(o).All().Err() }
