package market

import (
	"example.com/quoin"
	"example.com/quoin/internal/estimate"
	"example.com/quoin/internal/form"
)

// Options are the thresholds by which records are used or left out. Each has a default, which is
// common practice unless a source is named.
type Options struct {
	// MinSold is how many prints must have been sold for a record to count. The default is 1. An
	// asking price never counts.
	MinSold quoin.Optional[int64] `json:"min_sold,omitzero" range:"[1,"`
	// MinSales and MinVenues are how many records, from how many venues, it takes for a summary
	// to give figures. The default is 5 records from 2 venues.
	MinSales  quoin.Optional[int64] `json:"min_sales,omitzero" range:"[1,"`
	MinVenues quoin.Optional[int64] `json:"min_venues,omitzero" range:"[1,"`
	// MinSizes is how many sizes there must be for an exponent to be fitted. The default is 3.
	MinSizes quoin.Optional[int64] `json:"min_sizes,omitzero" range:"[2,"`
	// Exponent is the exponent of area to use. Without one it is fitted.
	Exponent quoin.Optional[quoin.Factor] `json:"exponent,omitzero" range:"[-10,10]"`
	// DefaultExponent is what a fitted exponent is drawn to. The default is 0.5: prices grow with
	// the sides of the print. ExponentSpread is how far the market may well be from it, as a
	// standard deviation. The default is 0.25, which covers both "all sizes cost the same" (0)
	// and "priced by area" (1) within two of them.
	DefaultExponent quoin.Optional[quoin.Factor] `json:"default_exponent,omitzero" range:"[-10,10]"`
	ExponentSpread  quoin.Optional[quoin.Factor] `json:"exponent_spread,omitzero" range:"(0,10]"`
	// Confidence is that of all intervals. The default is 95%.
	Confidence quoin.Optional[quoin.Rate] `json:"confidence,omitzero" range:"[0.5,0.999]"`
	// OutlierSpreads is how many spreads from the centre, in logarithms, a price has to be to be
	// called an outlier. The default is 3.5 (Iglewicz and Hoaglin, How to Detect and Handle
	// Outliers, 1993; from memory).
	OutlierSpreads quoin.Optional[quoin.Factor] `json:"outlier_spreads,omitzero" range:"(0,1000]"`
	// Quantiles are the shares whose prices a summary gives. The default is 10%, 25%, 50%, 75% and
	// 90%.
	Quantiles []quoin.Rate `json:"quantiles,omitempty" range:"[0,1]" most:"100"`
	// Signed and Limited, if given, use only prints that are signed, or of a limited edition
	// (true), or only those that are not (false).
	Signed  quoin.Optional[bool] `json:"signed,omitzero"`
	Limited quoin.Optional[bool] `json:"limited,omitzero"`
	// Without are records to leave out, by their number in the list, counted from 0.
	Without []int `json:"without,omitempty" most:"100000"`
	// Today is the day of the summary. Without it no record is called old. MaxDays is the age in
	// days from which a record is called old. The default is 730.
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
