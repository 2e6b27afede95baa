package pricelist

import (
	"fmt"
	"slices"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin/rule"
)

func (k checker) selling() {
	root := (*path)(nil)
	k.period(root.Field("overhead"), k.doc.Overhead)
	for i, c := range k.doc.Channels {
		at := root.Field("channels").At(i)
		k.period(at.Field("period"), c.Period)
		k.shares(at.Field("orders"), c.Orders)
		for j, f := range c.Fees {
			k.fee(at.Field("fees").At(j), f)
		}
		if k.Under(at) {
			continue
		}
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
	k.comparables(k.doc.Comparables)
}

func (k checker) comparables(of []rule.Comparable) {
	for i, c := range of {
		at := (*path)(nil).Field("comparables").At(i)
		if c.Product != "" {
			k.known(at.Field("product"), "products", c.Product)
		}
		if _, given := c.FrameWorth.Get(); given && !c.Framed {
			k.Stray(at.Field("frame_worth"), "what a frame is worth, of a print without one", "framed set to true beside it, or no frame_worth")
		}
	}
}

// mostBreaks bounds in how many pieces a channel's terms may fall.
const mostBreaks = 10_000

func (k checker) period(at *path, p channel.Period) {
	if k.Under(at) {
		return
	}
	_, err := p.PerItem()
	k.AddAll(at, err)
}

func (k checker) shares(at *path, orders []channel.Order) {
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

func (k checker) fee(at *path, f channel.Fee) {
	for i, part := range f.Of {
		if slices.Contains(f.Of[:i], part) {
			k.Add(at.Field("of").At(i), quoin.Problem{Code: RepeatedPart, Found: quoin.Quoted(string(part)) + " again", Wanted: "each part once"})
		}
	}
	if len(f.Tiers) > 0 && !f.Rate.IsZero() {
		k.Add(at.Field("rate"), quoin.Problem{
			Code: RateAndTiers, Found: f.Rate.String() + " beside tiers", Wanted: "a rate or tiers", Remedy: "make the rate the first tier, from 0",
		})
	}
	for i := 1; i < len(f.Tiers); i++ {
		if f.Tiers[i].From.Cmp(f.Tiers[i-1].From) > 0 {
			continue
		}
		k.Add(at.Field("tiers").At(i).Field("from"), quoin.Problem{
			Code: UnsortedTiers, Found: f.Tiers[i].From.String() + " after " + f.Tiers[i-1].From.String(), Wanted: "tiers in rising order",
		})
	}
}
