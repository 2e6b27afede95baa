package pricelist_test

import (
	"cmp"
	"slices"
	"strings"

	"example.com/quoin/margin/pricelist"
)

// standings is how the price stands with each channel, in a fixed order and
// without places in the document.
func standings(p pricelist.ProductResult) []pricelist.InChannel {
	out := p.ByChannel.Channels()
	slices.SortFunc(out, func(a, b pricelist.InChannel) int { return strings.Compare(a.Channel, b.Channel) })
	for i := range out {
		if d := out[i].Discount; d != nil {
			slices.Sort(d.Rules)
		}
		for j := range out[i].BreakEven {
			out[i].BreakEven[j].Path = ""
		}
		slices.SortFunc(out[i].BreakEven, func(a, b pricelist.BreakEven) int {
			return cmp.Or(strings.Compare(a.What, b.What), a.Cost.Cmp(b.Cost))
		})
	}
	return out
}
