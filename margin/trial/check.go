package trial

import (
	"fmt"
	"strconv"

	"example.com/quoin"
)

// Codes of trials that cannot be reckoned.
const (
	OutOfRange     quoin.Code = "trial_out_of_range"      // a number that its field does not take
	NoPeriods      quoin.Code = "no_periods"              // a side without any
	TooManyPeriods quoin.Code = "too_many_periods"        // above 100,000 on one side, or too much in all
	Backwards      quoin.Code = "period_backwards"        // to is not after from, or one of them is missing
	RepeatedPeriod quoin.Code = "repeated_period"         // an id that an earlier period has
	MixedProducts  quoin.Code = "mixed_products"          // periods of several products
	MixedPrices    quoin.Code = "mixed_prices"            // a side with several prices
	MixedKept      quoin.Code = "mixed_kept"              // one price keeps several amounts in one channel and kind of occasion
	UnlikePeriods  quoin.Code = "unlike_periods"          // a slope through channels, kinds or occasions that differ
	TooManyAllowed quoin.Code = "too_many_allowed_prices" // above 100,000 allowed prices
)

const (
	mostPeriods = 100_000
	mostUnits   = 10_000_000
	mostFound   = 1_000
)

type checker struct {
	found quoin.Problems
	ids   map[string]string
}

func (c *checker) fault(code quoin.Code, at, found, wanted string) {
	c.add(quoin.Problem{Code: code, Severity: quoin.Fault, Path: at, Found: found, Wanted: wanted})
}

// add keeps a problem; past a thousand they tell nothing new.
func (c *checker) add(p quoin.Problem) {
	if len(c.found) < mostFound {
		c.found = append(c.found, p)
	}
}

func checking() *checker { return &checker{ids: map[string]string{}} }

// list checks each period of a list, and that there are not too many.
func (c *checker) list(name string, ps []Period) {
	if len(ps) == 0 {
		c.fault(NoPeriods, name, "no period", "at least one")
	}
	if len(ps) > mostPeriods {
		c.fault(TooManyPeriods, name, fmt.Sprintf("%d periods", len(ps)), fmt.Sprintf("at most %d", mostPeriods))
		return
	}
	var units int64
	var exposure quoin.Factor
	for i, p := range ps {
		at := name + "[" + strconv.Itoa(i) + "]"
		c.period(at, p)
		units += min(max(p.Units, 0), mostUnits)
		exposure = exposure.Add(p.Exposure.Number)
	}
	if exposure.Cmp(quoin.FactorOf(100_000_000_000)) > 0 {
		c.fault(TooManyPeriods, name, "an exposure of "+exposure.String()+" in all", "at most 100000000000")
	}
	if units > mostUnits {
		c.fault(TooManyPeriods, name, fmt.Sprintf("%d units in all", units), fmt.Sprintf("at most %d", mostUnits))
	}
}

func (c *checker) period(at string, p Period) {
	if first, twice := c.ids[p.ID]; twice {
		c.fault(RepeatedPeriod, at+".id", quoin.Quoted(p.ID), "an id of its own, and "+first+" has this one")
	} else {
		c.ids[p.ID] = at
	}
	if p.Price.Sign() < 0 {
		c.fault(OutOfRange, at+".price", p.Price.String(), "zero or more")
	}
	if p.From.IsZero() || p.To.IsZero() || p.From.Cmp(p.To) >= 0 {
		c.fault(Backwards, at+".to", quoin.Quoted(p.To.String()), "a day after from, "+quoin.Quoted(p.From.String()))
	}
	c.exposure(at+".exposure", p.Exposure)
	if p.Units < 0 || p.Units > mostUnits {
		c.fault(OutOfRange, at+".units", strconv.FormatInt(p.Units, 10), fmt.Sprintf("0 to %d", mostUnits))
	}
}

func (c *checker) exposure(at string, e Exposure) {
	if !plausible(e.Number) {
		c.fault(OutOfRange, at+".number", e.Number.String(), "0.001 to 1000000000")
	}
	if _, err := ParseKind(string(e.Kind)); err != nil {
		p := err.(quoin.Problem)
		p.Path = at + ".kind"
		c.add(p)
	}
}

func plausible(exposure quoin.Factor) bool {
	return exposure.Cmp(quoin.FactorOf(1).Over(quoin.FactorOf(1000))) >= 0 && exposure.Cmp(quoin.FactorOf(1_000_000_000)) <= 0
}

// side checks that a list is of one product and price, with one amount kept in
// each group.
func (c *checker) side(name string, ps []Period, product string) {
	kept := map[likeness]quoin.Amount{}
	for i, p := range ps {
		at := name + "[" + strconv.Itoa(i) + "]"
		if p.Product != product {
			c.fault(MixedProducts, at+".product", quoin.Quoted(p.Product), "one product throughout, "+quoin.Quoted(product))
		}
		if !p.Price.Equal(ps[0].Price) {
			c.fault(MixedPrices, at+".price", p.Price.String(), "one price on a side, "+ps[0].Price.String())
		}
		first, seen := kept[like(p)]
		if !seen {
			kept[like(p)] = p.Kept
		} else if !first.Equal(p.Kept) {
			c.fault(MixedKept, at+".kept", p.Kept.String(), "the "+first.String()+" of the periods before it: what a sale is to keep from now on")
		}
	}
}

func (c *checker) confidence(r quoin.Optional[quoin.Rate]) {
	v, given := r.Get()
	if given && !within(v, "0.5", "0.9999") {
		c.fault(OutOfRange, "confidence", v.String(), "50% to 99.99%")
	}
}

func (c *checker) power(r quoin.Optional[quoin.Rate]) {
	v, given := r.Get()
	if given && !within(v, "0.5", "0.9999") {
		c.fault(OutOfRange, "power", v.String(), "50% to 99.99%")
	}
}

func within(r quoin.Rate, low, high string) bool {
	return r.Cmp(quoin.MustRate(low)) >= 0 && r.Cmp(quoin.MustRate(high)) <= 0
}
