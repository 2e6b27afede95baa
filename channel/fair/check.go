package fair

import (
	"cmp"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
)

// Codes of fairs that cannot be reckoned, beside those of what fields do not take.
const (
	MixNotOne     quoin.Code = "mix_not_one"                     // the shares of the mix do not sum to 1
	StrayMinimum  quoin.Code = "commission_minimum_without_rate" // a least commission without a commission
	MissingFairs  quoin.Code = "display_without_fairs"           // a display that serves no number of fairs
	MissingNights quoin.Code = "night_without_nights"            // the price of a night, and none is spent
	MissingHours  quoin.Code = "hour_worth_without_hours"        // an hour's worth, and no hours
)

// Check returns everything that prevents a plan of the fair, at once: values that its fields do
// not take, a mix whose shares do not add up to 1 or that names a product twice, and fields
// that mean nothing without another. The error is quoin.Problems.
func (f Fair) Check() error { return f.check().All().Err() }

func (f Fair) check() *form.Collector {
	c := form.Check(f)
	f.pairs(c)
	f.mix(c)
	return c
}

func (f Fair) pairs(c *form.Collector) {
	if f.CommissionAtLeast.Sign() > 0 && f.Commission.IsZero() {
		c.Fault(form.In("commission_at_least"), StrayMinimum, f.CommissionAtLeast.String()+" without a commission",
			"a commission beside it", "put a charge that is due whatever is sold under other")
	}
	if f.Display.Sign() > 0 && f.DisplayFairs.IsZero() {
		c.Fault(form.In("display_fairs"), MissingFairs, "nothing", "how many fairs the display of "+f.Display.String()+" serves", "")
	}
	if f.Night.Sign() > 0 && f.Nights == 0 {
		c.Fault(form.In("nights"), MissingNights, "nothing", "how many nights are paid at "+f.Night.String(), "")
	}
	if f.Taken.Sign() > 0 && f.Taken.Cmp(f.Prints) < 0 {
		c.Fault(form.In("taken"), quoin.OutOfRange, f.Taken.String(), "at least the "+f.Prints.String()+" prints that are sold", "")
	}
	if f.HourWorth.Sign() > 0 && f.Hours.IsZero() {
		c.Fault(form.In("hours"), MissingHours, "nothing", "how many own hours are to bring "+f.HourWorth.String()+" each", "")
	}
}

func (f Fair) mix(c *form.Collector) {
	var sum quoin.Rate
	seen := make(map[string]bool, len(f.Mix))
	for i, s := range f.Mix {
		if seen[s.Product] && s.Product != "" {
			c.Fault(form.In("mix").At(i).Field("product"), quoin.DuplicateID, prose.Quoted(s.Product)+" again", "each product once", "")
		}
		seen[s.Product] = true
		sum = sum.Add(s.Share)
	}
	if !sum.Equal(whole()) {
		c.Fault(form.In("mix"), MixNotOne, "shares that sum to "+sum.String(), "shares that sum to 100%", "")
	}
}

// pick returns what is given for each product of the mix, in its order.
func (f Fair) pick(prints []Print) ([]Print, error) {
	f.ID, f.Channel = cmp.Or(f.ID, "fair"), cmp.Or(f.Channel, "fair") // neither is needed for it
	c := f.check()
	names, byName := make([]string, len(prints)), make(map[string]Print, len(prints))
	for i, p := range prints {
		if _, twice := byName[p.Product]; twice {
			c.Add(nil, quoin.Problem{Code: quoin.DuplicateID, Found: "prints of " + prose.Quoted(p.Product) + " given twice", Wanted: "each product once"})
		}
		names[i], byName[p.Product] = p.Product, p
	}
	picked := make([]Print, len(f.Mix))
	for i, s := range f.Mix {
		p, known := byName[s.Product]
		switch at := form.In("mix").At(i).Field("product"); {
		case !known && s.Product != "":
			c.Add(at, quoin.Problem{Code: quoin.UnknownID, Found: prose.Quoted(s.Product), Wanted: "a product that is priced for the fair", Near: c.Near(s.Product, names)})
		case p.Price.Sign() < 0 || p.Revenue.Sign() < 0:
			c.Add(at, quoin.Problem{Code: quoin.OutOfRange, Found: "a price of " + p.Price.String() + ", revenue " + p.Revenue.String(), Wanted: "values of at least 0"})
		}
		picked[i] = p
	}
	return picked, c.All().Err()
}

func whole() quoin.Rate { return quoin.FactorOf(1).Rate() }
