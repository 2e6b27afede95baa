package sheet

import (
	"fmt"
	"strings"

	"example.com/quoin"
	"example.com/quoin/internal/prose"
	"example.com/quoin/margin/comparables"
	"example.com/quoin/margin/pricelist"
)

// markets says of each product what others sell its like for, and where its prices stand.
func (p wording) markets(a pricelist.Answer) []string {
	var out []string
	for _, it := range a.Products {
		if it.Market != nil {
			out = append(out, named(it.Name, it.ID)+": "+p.market(it))
		}
	}
	return out
}

func (p wording) market(it pricelist.ProductResult) string {
	m := *it.Market
	low, counted := m.Low.Get()
	if !counted {
		return "no comparable counts." + leftOut(m.LeftOut)
	}
	text := fmt.Sprintf("%s from %s and %s, from %s to %s.", prose.Count(m.Counted, "comparable"), prose.Count(m.Venues, "venue"), prose.Count(m.Sellers, "seller"),
		p.money(low), p.money(m.High.Or(low)))
	median, enough := m.Median.Get()
	if !enough {
		return text + fmt.Sprintf(" That is too few to go by: it takes %d from %d venues.", m.NeedsCounted, m.NeedsVenues) + leftOut(m.LeftOut)
	}
	text += fmt.Sprintf(" The middle half lies from %s to %s, the middle is %s.", p.money(m.LowerQuartile.Or(median)), p.money(m.UpperQuartile.Or(median)), p.money(median))
	if above, ok := m.PriceAbove.Get(); ok {
		text += fmt.Sprintf(" %s is dearer than %s of them", p.money(it.Price), whole(above))
		if today, given := m.TodayAbove.Get(); given && !today.Equal(above) {
			text += fmt.Sprintf(", today's price dearer than %s", whole(today))
		}
		text += "."
	}
	return text + leftOut(m.LeftOut)
}

// whole is a share in whole per cent.
func whole(r quoin.Rate) string {
	if r.IsZero() {
		return "none"
	}
	return r.Round(0).String()
}

func leftOut(all []comparables.LeftOut) string {
	var texts []string
	for _, l := range all {
		texts = append(texts, fmt.Sprintf("%d %s", l.Count, map[quoin.Code]string{
			comparables.AskedOnly: "only asked for", comparables.SoldTooFew: "sold too seldom", comparables.FrameUnknown: "with a frame of unknown worth",
			comparables.SizeUnknown: "without a size", comparables.NothingLeft: "worth no more than postage and frame",
		}[l.Code]))
	}
	if len(texts) == 0 {
		return ""
	}
	return " Left out: " + strings.Join(texts, ", ") + "."
}
