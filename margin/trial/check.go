package trial

import (
	"fmt"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
)

// Codes of trials that cannot be reckoned, beside those of what fields do not take.
const (
	MixedProducts quoin.Code = "mixed_products" // periods of several products
	MixedPrices   quoin.Code = "mixed_prices"   // a side with several prices
	MixedKept     quoin.Code = "mixed_kept"     // one price keeps several amounts in one channel and kind of occasion
	UnlikePeriods quoin.Code = "unlike_periods" // a slope through channels, kinds or occasions that differ
)

const (
	mostPeriods = 100_000
	mostUnits   = 10_000_000
)

// Check returns all that is wrong with the period, at once: what its fields do not take, and
// an end that is not after the beginning. The error is quoin.Problems.
func (p Period) Check() error {
	k := form.Computed(p)
	if !p.From.IsZero() && !p.To.IsZero() && p.To.Cmp(p.From) <= 0 {
		k.Add(form.In("to"), quoin.Problem{Code: quoin.EmptyPeriod, Found: p.To.String(), Wanted: "a day after " + p.From.String(), Remedy: "to is the day after the last"})
	}
	return k.All().Err()
}

// Check returns all that is wrong with the options, at once, as quoin.Problems.
func (o Options) Check() error { return form.Computed(o).All().Err() }

// Check returns all that is wrong with the plan, at once, as quoin.Problems.
func (p Certainty) Check() error { return form.Computed(p).All().Err() }

type checker struct {
	form.Collector
	ids map[string]*form.Path
}

func checking() *checker { return &checker{ids: map[string]*form.Path{}} }

func (c *checker) err() error { return c.All().Err() }

func (c *checker) fault(code quoin.Code, at *form.Path, found, wanted string) {
	c.Add(at, quoin.Problem{Code: code, Found: found, Wanted: wanted})
}

// outOf reports a figure that is out of its range.
func (c *checker) outOf(name, found, wanted string) {
	c.fault(quoin.OutOfRange, form.In(name), found, wanted)
}

// fields reports what the fields of a value that stands at a path do not take.
func (c *checker) fields(at *form.Path, v any) { c.AddAll(at, form.Computed(v).All()) }

// list checks each period of a list, and that there are not too many.
func (c *checker) list(name string, ps []Period) {
	at := form.In(name)
	if len(ps) == 0 {
		c.fault(quoin.EmptyList, at, "no period", "at least one")
	}
	if len(ps) > mostPeriods {
		c.TooMany(at, len(ps), mostPeriods)
		return
	}
	var units int64
	var exposure quoin.Factor
	for i, p := range ps {
		c.period(at.At(i), p)
		units += min(max(p.Units, 0), mostUnits)
		exposure = exposure.Add(p.Exposure.Number)
	}
	if exposure.Cmp(quoin.FactorOf(100_000_000_000)) > 0 {
		c.fault(quoin.TooMany, at, "an exposure of "+exposure.String()+" in all", "at most 100000000000")
	}
	if units > mostUnits {
		c.fault(quoin.TooMany, at, fmt.Sprintf("%d units in all", units), fmt.Sprintf("at most %d", mostUnits))
	}
}

func (c *checker) period(at *form.Path, p Period) {
	if c.Full {
		return
	}
	c.AddAll(at, p.Check())
	if first, twice := c.ids[p.ID]; !twice {
		c.ids[p.ID] = at
	} else if p.ID != "" {
		c.fault(quoin.DuplicateID, at.Field("id"), prose.Quoted(p.ID)+" again", "an id of its own, and "+first.String()+" has this one")
	}
}

// side checks that a list is of one product and price, with one amount kept in
// each group.
func (c *checker) side(name string, ps []Period, product string) {
	kept := map[likeness]quoin.Amount{}
	for i, p := range ps {
		at := form.In(name).At(i)
		if p.Product != product {
			c.fault(MixedProducts, at.Field("product"), prose.Quoted(p.Product), "one product throughout, "+prose.Quoted(product))
		}
		if !p.Price.Equal(ps[0].Price) {
			c.fault(MixedPrices, at.Field("price"), p.Price.String(), "one price on a side, "+ps[0].Price.String())
		}
		first, seen := kept[like(p)]
		if !seen {
			kept[like(p)] = p.Kept
		} else if !first.Equal(p.Kept) {
			c.fault(MixedKept, at.Field("kept"), p.Kept.String(), "the "+first.String()+" of the periods before it: what a sale is to keep from now on")
		}
	}
}

// confidence checks one by the field that has it.
func (c *checker) confidence(r quoin.Optional[quoin.Rate]) { c.fields(nil, Certainty{Confidence: r}) }
