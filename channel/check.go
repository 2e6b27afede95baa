package channel

import (
	"fmt"
	"slices"

	"example.com/quoin"
	"example.com/quoin/internal/form"
	"example.com/quoin/internal/prose"
)

// Codes of terms that cannot be meant as they are written.
const (
	SharesNotOne  quoin.Code = "shares_not_one"       // kinds of order that are more, or fewer, than all
	UnsortedTiers quoin.Code = "unsorted_tiers"       // tiers that do not rise
	RateAndTiers  quoin.Code = "rate_and_tiers"       // a fee with both
	FeesTakeAll   quoin.Code = "fees_take_everything" // fees that leave nothing of a higher price
	RepeatedPart  quoin.Code = "repeated_part"        // a part of the base, or a side, twice
	DoesNotStack  quoin.Code = "does_not_stack"       // a code that stands alone, with others
	PaysTooMuch   quoin.Code = "pays_more_than_left"  // a house that pays more than tax leaves it of any price
	StrayFreight  quoin.Code = "stray_freight"        // an order that charges freight which the trade terms charge
)

// Check returns everything that is wrong with the channel in a shop of this currency, at once.
// It finds what reading a document would find. The error is quoin.Problems, with paths in the
// channel, such as fees[0].rate. Products, packing lists and tariffs that it names are not
// looked at.
func (c Channel) Check(currency quoin.Currency) error {
	k := form.Check(c)
	c.CheckIn(k, nil, currency)
	return k.All().Err()
}

// CheckIn adds contradictions in the channel, which stands at a path, to the problems found so
// far. Only packages of this module need it.
func (c Channel) CheckIn(found *form.Collector, at *form.Path, currency quoin.Currency) {
	k := &checker{found, currency}
	if !k.Under(at) {
		k.named(at, c)
		k.offered(at, c)
		k.tagged(at, c)
		k.traded(at, c)
		k.consigned(at, c)
		k.printed(at, c)
		k.strays(at, c)
		if c.Returns != nil {
			k.AddAll(at.Field("returns"), c.Returns.Check())
		}
	}
	c.FixedCost.CheckIn(found, at.Field("fixed_cost"))
	k.shares(at.Field("orders"), c.Orders)
	for j, f := range c.Fees {
		k.fee(at.Field("fees").At(j), f)
	}
	if !k.Under(at) {
		k.whole(at, c)
	}
}

// CheckIn adds a problem if the cost, which stands at a path, has no items to be divided by.
// Only packages of this module need it.
func (p FixedCost) CheckIn(found *form.Collector, at *form.Path) {
	if found.Under(at) {
		return
	}
	_, err := p.PerItem()
	found.AddAll(at, err)
}

// checker adds what cannot be meant together to what was found so far.
type checker struct {
	*form.Collector
	currency quoin.Currency
}

// mostBreaks bounds in how many pieces a channel's terms may fall.
const mostBreaks = 10_000

// whole checks what the terms come to.
func (k *checker) whole(at *form.Path, c Channel) {
	if n := c.Breaks(); n > mostBreaks {
		k.Add(at, quoin.Problem{
			Code: quoin.TooMany, Found: fmt.Sprintf("%d kinds of order times tiers and bounds of fees", n), Wanted: fmt.Sprintf("at most %d", mostBreaks),
		})
	}
	if c.TakesEverything() {
		k.Add(at.Field("fees"), quoin.Problem{
			Code: FeesTakeAll, Found: "fees that grow at least as fast as what the shop keeps of the price",
			Wanted: "fees that leave something of a higher price", Remedy: "check the rates, their tax and their base",
		})
	}
}

func (k *checker) fee(at *form.Path, f Fee) {
	for i, part := range f.Of {
		if slices.Contains(f.Of[:i], part) {
			k.Add(at.Field("of").At(i), quoin.Problem{Code: RepeatedPart, Found: prose.Quoted(string(part)) + " again", Wanted: "each part once"})
		}
	}
	if len(f.Tiers) > 0 && !f.Rate.IsZero() {
		k.Add(at.Field("rate"), quoin.Problem{
			Code: RateAndTiers, Found: f.Rate.String() + " beside tiers", Wanted: "a rate or tiers", Remedy: "make the rate the first tier, from 0",
		})
	}
	for i := range f.Tiers {
		k.tier(at.Field("tiers").At(i), f.Tiers[:i+1])
	}
}

// tier checks the last of some tiers.
func (k *checker) tier(at *form.Path, tiers []Tier) {
	i := len(tiers) - 1
	tier := &tiers[i]
	if !tier.Rate.IsGiven() && !tier.Fixed.IsGiven() && !k.Under(at) {
		k.Add(at.Field("rate"), quoin.Problem{
			Code: quoin.MissingField, Found: "nothing", Wanted: "the field rate or fixed, or both", Remedy: `write "fixed": 0 if nothing is charged there`,
		})
	}
	if i > 0 && tier.From.Cmp(tiers[i-1].From) <= 0 {
		k.Add(at.Field("from"), quoin.Problem{
			Code: UnsortedTiers, Found: tier.From.String() + " after " + tiers[i-1].From.String(), Wanted: "tiers in rising order",
		})
	}
}

func (k *checker) shares(at *form.Path, orders []Order) {
	if len(orders) == 0 || k.Under(at) {
		return
	}
	var sum quoin.Rate
	for _, o := range orders {
		sum = sum.Add(o.ShareOr1())
	}
	if !sum.Equal(quoin.MustRate("100%")) {
		k.Add(at, quoin.Problem{Code: SharesNotOne, Found: "shares that sum to " + sum.String(), Wanted: "shares that sum to 100%"})
	}
}
