package sheet

import (
	"cmp"
	"fmt"
	"slices"

	"example.com/quoin"
	"example.com/quoin/margin"
	"example.com/quoin/margin/pricelist"
)

// row is one line of a statement. One that is rare is left out where it is zero
// in every channel.
type row struct {
	label  string
	figure func(margin.Statement) quoin.Amount
	rare   bool
}

var statement = []row{
	{"revenue", func(s margin.Statement) quoin.Amount { return s.Revenue }, false},
	{"- goods", func(s margin.Statement) quoin.Amount { return s.Goods }, false},
	{"  own time", func(s margin.Statement) quoin.Amount { return s.OwnTime }, true},
	{"  paid time", func(s margin.Statement) quoin.Amount { return s.PaidTime }, true},
	{"= gross", func(s margin.Statement) quoin.Amount { return s.Gross }, false},
	{"- fees", func(s margin.Statement) quoin.Amount { return s.Fees }, false},
	{"- fulfilment", func(s margin.Statement) quoin.Amount { return s.Fulfilment }, false},
	{"- selling", func(s margin.Statement) quoin.Amount { return s.Selling }, false},
	{"= contribution", func(s margin.Statement) quoin.Amount { return s.Contribution }, false},
	{"- overhead", func(s margin.Statement) quoin.Amount { return s.Overhead }, false},
	{"= operating", func(s margin.Statement) quoin.Amount { return s.Operating }, false},
	{"- income tax", func(s margin.Statement) quoin.Amount { return s.IncomeTax }, false},
	{"= net", func(s margin.Statement) quoin.Amount { return s.Net }, false},
}

func (p *text) statements(all, shown []pricelist.ChannelResult) {
	p.columns("", shown, func(c pricelist.ChannelResult) string { return short(named(c.Name, c.ID), columnWidth-1) })
	p.rows(all, func(label string, cell func(pricelist.ChannelResult) string) { p.columns(label, shown, cell) })
}

// rows goes through the lines of the statements of some channels, then both
// margins and, where something is unsure, what goods and net lie between.
func (p wording) rows(channels []pricelist.ChannelResult, write func(label string, cell func(pricelist.ChannelResult) string)) {
	for _, r := range statement {
		if r.rare && !slices.ContainsFunc(channels, func(c pricelist.ChannelResult) bool { return r.figure(c.Statement).Sign() != 0 }) {
			continue
		}
		write(r.label, func(c pricelist.ChannelResult) string { return p.money(r.figure(c.Statement)) })
	}
	write("gross margin", func(c pricelist.ChannelResult) string { return share(c.Statement.GrossMargin()) })
	write("net margin", func(c pricelist.ChannelResult) string { return share(c.Statement.NetMargin()) })
	if len(channels) > 0 && channels[0].Range != nil {
		write("goods, least", func(c pricelist.ChannelResult) string { return p.money(c.Range.Goods.Low) })
		write("goods, most", func(c pricelist.ChannelResult) string { return p.money(c.Range.Goods.High) })
		write("net, least", func(c pricelist.ChannelResult) string { return p.money(c.Range.Net.Low) })
		write("net, most", func(c pricelist.ChannelResult) string { return p.money(c.Range.Net.High) })
	}
}

func share(r quoin.Rate, ok bool) string {
	if !ok {
		return "none"
	}
	return fmt.Sprintf("%.1f%%", r)
}

// spread says in a sentence or two what is unsure and whether it matters.
func (p wording) spread(s pricelist.Uncertainty) string {
	text := "If your unsure figures turn out well, the price would be " + p.end(s.Cheapest) + "; if badly, " + p.end(s.Dearest)
	if !s.Matters {
		text = "Your unsure figures do not change the price"
		low, high := s.Cheapest.Least.Or(quoin.Amount{}), s.Dearest.Least.Or(quoin.Amount{})
		if !low.Equal(high) {
			text += fmt.Sprintf(", only the lowest that is allowed: %s to %s", p.money(low), p.money(high))
		}
	}
	if len(s.Inputs) > 0 {
		in := s.Inputs[0]
		text += fmt.Sprintf(". What matters most: %s (%s to %s): %s a print", cmp.Or(in.Name, in.Path), in.Low, in.High, p.money(in.Goods.High.Sub(in.Goods.Low)))
	}
	return text + "."
}

func (p wording) end(c pricelist.RangeResult) string {
	if price, ok := c.Price.Get(); ok {
		return p.money(price)
	}
	return "none, by " + list(c.Conflict)
}
