package pricelist

import (
	"slices"
	"strings"

	"example.com/quoin/channel"
)

// Cautions returns the sentences that stand under every printed result.
func Cautions() []string {
	return []string{
		"These are estimates from the figures in the document, and only as good as they are.",
		"This is not tax, legal or accounting advice.",
		"Fees, taxes and the law on resale prices differ by place and change; ask the authority or a licensed professional.",
	}
}

// lawful are matters of law that a document can touch, beside those that every price touches.
var lawful = []struct {
	matter  string
	touched func(Document) bool
}{
	{"how discounts, codes and former prices are announced", func(d Document) bool {
		return d.anyChannel(func(c channel.Channel) bool { return len(c.Promotions) > 0 || !c.Promotion.IsZero() })
	}},
	{"whether buyers may be charged extra for paying by card or otherwise, and how much", func(d Document) bool {
		return d.anyChannel(func(c channel.Channel) bool {
			return slices.ContainsFunc(c.Orders, func(o channel.Order) bool { return o.Surcharge != nil })
		})
	}},
	{"what buyers may give back, until when, and who pays the way", func(d Document) bool {
		return d.anyChannel(func(c channel.Channel) bool { return c.Returns != nil })
	}},
	{"whether a shop may be told what to ask", func(d Document) bool {
		return d.anyChannel(func(c channel.Channel) bool { return c.Trade != nil })
	}},
	{"whether a gallery may be forbidden a discount of its own", func(d Document) bool {
		return d.anyChannel(func(c channel.Channel) bool { return c.Consignment != nil })
	}},
	{"what a limited edition is", func(d Document) bool { return len(d.Editions) > 0 }},
}

// Cautions returns the sentences that stand under every result of the document: the function
// Cautions, and one more on the matters of law that it touches.
func (d Document) Cautions() []string {
	var matters []string
	for _, l := range lawful {
		if l.touched(d) {
			matters = append(matters, l.matter)
		}
	}
	if len(matters) == 0 {
		return Cautions()
	}
	return append(Cautions(), "The law of the place also decides "+strings.Join(matters, "; ")+".")
}

// Cautions returns the sentences that stand under every result of the shop, as those of a document
// do. Where there are very many answers, they can be shown once.
func (s *Shop) Cautions() []string {
	if s == nil {
		return Cautions()
	}
	return s.doc.Cautions()
}

func (d Document) anyChannel(is func(channel.Channel) bool) bool {
	return slices.ContainsFunc(d.Channels, is)
}
