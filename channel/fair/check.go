package fair

import (
	"strconv"

	"example.com/quoin"
)

// Codes of fairs that cannot be reckoned.
const (
	MixNotOne       quoin.Code = "mix_not_one"                     // the shares of the mix do not sum to 1
	RepeatedInMix   quoin.Code = "repeated_in_mix"                 // a product stands in the mix, or among the prints, twice
	NotAmongPrints  quoin.Code = "not_among_prints"                // a product of the mix has no price
	StrayMinimum    quoin.Code = "commission_minimum_without_rate" // a least commission without a commission
	MissingFairs    quoin.Code = "display_without_fairs"           // a display that serves no number of fairs
	MissingNights   quoin.Code = "night_without_nights"            // the price of a night, and none is spent
	MissingHours    quoin.Code = "hour_worth_without_hours"        // an hour's worth, and no hours
	FairOutOfRange  quoin.Code = "fair_out_of_range"               // a number that its field does not take
	PrintOutOfRange quoin.Code = "fair_print_out_of_range"         // a negative price or revenue of a print
)

// Check returns all that keeps the fair from being reckoned: numbers out of the
// ranges of their fields, a mix whose shares do not sum to 1 or that names a
// product twice, and fields that are nothing without another.
func (f Fair) Check() quoin.Problems {
	var c checker
	c.amounts(f)
	c.shares(f)
	c.pairs(f)
	c.mix(f.Mix)
	return c.found
}

type checker struct{ found quoin.Problems }

func (c *checker) fault(code quoin.Code, at, found, wanted, remedy string) {
	c.found = append(c.found, quoin.Problem{Code: code, Severity: quoin.Fault, Path: at, Found: found, Wanted: wanted, Remedy: remedy})
}

func (c *checker) notBelow(at string, f quoin.Figure) {
	if f.Factor().Sign() < 0 {
		c.fault(FairOutOfRange, at, f.String(), "zero or more", "")
	}
}

func (c *checker) amounts(f Fair) {
	c.notBelow("stand", f.Stand.Figure())
	c.notBelow("jury", f.Jury.Figure())
	c.notBelow("travel", f.Travel.Figure())
	c.notBelow("nights", quoin.FactorOf(f.Nights).Figure())
	c.notBelow("night", f.Night.Figure())
	c.notBelow("helper", f.Helper.Figure())
	c.notBelow("display", f.Display.Figure())
	for i, o := range f.Other {
		c.notBelow(entry("other", i, "amount"), o.Amount.Figure())
	}
	c.notBelow("commission_at_least", f.CommissionAtLeast.Figure())
	c.notBelow("hours", f.Hours.Figure())
	c.notBelow("hour_worth", f.HourWorth.Figure())
	c.notBelow("instead", f.Instead.Figure())
	if f.Prints.Sign() <= 0 {
		c.fault(FairOutOfRange, "prints", f.Prints.String(), "how many prints are expected to be sold, above zero", "")
	}
}

func (c *checker) shares(f Fair) {
	if chance, given := f.Chance.Get(); given && (chance.Sign() <= 0 || aboveOne(chance)) {
		c.fault(FairOutOfRange, "chance", chance.String(), "above 0%, to 100%", "leave it out where every application is accepted")
	}
	if f.Commission.Sign() < 0 || aboveOne(f.Commission) {
		c.fault(FairOutOfRange, "commission", f.Commission.String(), "0% to 100%", "")
	}
	if cash, given := f.Cash.Get(); given && (cash.Sign() < 0 || aboveOne(cash)) {
		c.fault(FairOutOfRange, "cash", cash.String(), "0% to 100%", "")
	}
}

func (c *checker) pairs(f Fair) {
	if f.CommissionAtLeast.Sign() > 0 && f.Commission.IsZero() {
		c.fault(StrayMinimum, "commission_at_least", f.CommissionAtLeast.String()+" without a commission",
			"a commission beside it", "put a charge that is due whatever is sold under other")
	}
	if f.Display.Sign() > 0 && f.DisplayFairs.IsZero() {
		c.fault(MissingFairs, "display_fairs", "nothing", "how many fairs the display of "+f.Display.String()+" serves", "")
	} else if f.DisplayFairs.Sign() < 0 {
		c.fault(FairOutOfRange, "display_fairs", f.DisplayFairs.String(), "above zero", "")
	}
	if f.Night.Sign() > 0 && f.Nights == 0 {
		c.fault(MissingNights, "nights", "nothing", "how many nights are paid at "+f.Night.String(), "")
	}
	if f.HourWorth.Sign() > 0 && f.Hours.IsZero() {
		c.fault(MissingHours, "hours", "nothing", "how many own hours are to bring "+f.HourWorth.String()+" each", "")
	}
}

func (c *checker) mix(mix []Share) {
	var sum quoin.Rate
	seen := make(map[string]bool, len(mix))
	for i, s := range mix {
		if seen[s.Product] {
			c.fault(RepeatedInMix, entry("mix", i, "product"), quoin.Quoted(s.Product)+" again", "each product once", "")
		}
		seen[s.Product] = true
		if s.Share.Sign() <= 0 || aboveOne(s.Share) {
			c.fault(FairOutOfRange, entry("mix", i, "share"), s.Share.String(), "above 0%, to 100%", "")
		}
		sum = sum.Add(s.Share)
	}
	if !sum.Equal(whole()) {
		c.fault(MixNotOne, "mix", "shares that sum to "+sum.String(), "shares that sum to 100%", "")
	}
}

// pick returns what is given for each product of the mix, in its order.
func (f Fair) pick(prints []Print) ([]Print, quoin.Problems) {
	c := checker{found: f.Check()}
	names, byName := make([]string, len(prints)), make(map[string]Print, len(prints))
	for i, p := range prints {
		if _, twice := byName[p.Product]; twice {
			c.fault(RepeatedInMix, "", "prints of "+quoin.Quoted(p.Product)+" given twice", "each product once", "")
		}
		names[i], byName[p.Product] = p.Product, p
	}
	picked := make([]Print, len(f.Mix))
	for i, s := range f.Mix {
		p, known := byName[s.Product]
		switch at := entry("mix", i, "product"); {
		case !known:
			c.fault(NotAmongPrints, at, quoin.Quoted(s.Product), "a product that is priced for the fair", "")
			c.found[len(c.found)-1].Near = quoin.Near(s.Product, names)
		case p.Price.Sign() < 0 || p.Revenue.Sign() < 0:
			c.fault(PrintOutOfRange, at, "a price of "+p.Price.String()+", revenue "+p.Revenue.String(), "zero or more", "")
		}
		picked[i] = p
	}
	return picked, c.found
}

func entry(list string, i int, field string) string {
	return list + "[" + strconv.Itoa(i) + "]." + field
}

func whole() quoin.Rate { return quoin.FactorOf(1).Rate() }

func aboveOne(r quoin.Rate) bool { return r.Cmp(whole()) > 0 }
