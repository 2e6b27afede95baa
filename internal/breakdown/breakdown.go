// Package breakdown says where the price of a print goes in a channel, line by line, in figures that
// add up as they are printed.
package breakdown

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/margin"
	"example.com/quoin/margin/pricelist"
)

// The table begins with what the buyer pays. Each line adds to the ones above it, or takes from
// them, and after some lines stands what is left.

// line is one line of the table: what it adds.
type line struct {
	label string
	adds  func(pricelist.ChannelResult) quoin.Amount
}

// group is some lines, and what is left after them.
type group struct {
	lines []line
	left  string
	of    func(margin.Statement) quoin.Amount
}

var whereItGoes = []group{
	{[]line{
		{"  price of one print", func(c pricelist.ChannelResult) quoin.Amount { return c.Buyer.Item }},
		{"+ postage buyer pays", func(c pricelist.ChannelResult) quoin.Amount { return c.Buyer.Postage }},
		{"+ surcharge buyer pays", func(c pricelist.ChannelResult) quoin.Amount { return c.Buyer.Surcharge }},
		{"+ tax on top", func(c pricelist.ChannelResult) quoin.Amount { return c.Buyer.TaxOnTop }},
		{"- tax, passed on", func(c pricelist.ChannelResult) quoin.Amount { return c.Statement.Tax.Neg() }},
	}, "= you receive", func(s margin.Statement) quoin.Amount { return s.Revenue }},
	{[]line{
		{"- materials and packing", func(c pricelist.ChannelResult) quoin.Amount {
			return c.Statement.OwnTime.Add(c.Statement.PaidTime).Sub(c.Statement.Goods)
		}},
		{"- your own time", func(c pricelist.ChannelResult) quoin.Amount { return c.Statement.OwnTime.Neg() }},
		{"- paid time", func(c pricelist.ChannelResult) quoin.Amount { return c.Statement.PaidTime.Neg() }},
		{"- selling fees", func(c pricelist.ChannelResult) quoin.Amount { return c.Statement.Fees.Neg() }},
		{"- postage you pay", func(c pricelist.ChannelResult) quoin.Amount { return c.Statement.Fulfilment.Neg() }},
		{"- fixed cost of channel", func(c pricelist.ChannelResult) quoin.Amount { return c.Statement.FixedCost.Neg() }},
	}, "= stays with you", func(s margin.Statement) quoin.Amount { return s.Contribution }},
	{[]line{
		{"- part of yearly costs", func(c pricelist.ChannelResult) quoin.Amount { return c.Statement.Overhead.Neg() }},
		{"- income tax", func(c pricelist.ChannelResult) quoin.Amount { return c.Statement.IncomeTax.Neg() }},
	}, "= yours in the end", func(s margin.Statement) quoin.Amount { return s.Net }},
}

// Column is the table of one channel as it is printed: the lines of each group, and what is left
// after it. That is what was left before it with its lines added, to the last digit.
type Column []Group

// Group is some lines, and what is left after them.
type Group struct {
	Lines []Line
	Left  Line
}

// Line is a figure with its label, which begins with a sign: "+ tax on top", "= you receive". A
// line that is taken off has an amount below zero.
type Line struct {
	Label  string
	Amount quoin.Amount
}

// Name returns the label without its sign.
func (l Line) Name() string { return l.Label[2:] }

// money is amounts with so many places.
type money struct{ places int }

// Of is the column of a channel, in the currency of the answer. What is left is rounded first, each by itself, halves up. The
// lines between two of them are each rounded down or up, so that they make the difference: those
// with the largest remainders go up. Since a difference of two rounded figures is that of the
// exact ones rounded down or up, no line is ever off by a whole unit.
func Of(c pricelist.ChannelResult, currency quoin.Currency) Column {
	p := money{currency.Digits()}
	var out Column
	before := quoin.Amount{}
	for _, g := range whereItGoes {
		left := p.nearest(g.of(c.Statement))
		exact := make([]quoin.Amount, len(g.lines))
		for i, l := range g.lines {
			exact[i] = l.adds(c).Round(calculated, quoin.HalfUp)
		}
		lines := make([]Line, len(g.lines))
		for i, a := range p.allocate(exact, left.Sub(before)) {
			lines[i] = Line{g.lines[i].label, a}
		}
		out, before = append(out, Group{lines, Line{g.left, left}}), left
	}
	return out
}

// calculated is to how many places a figure is known before it is rounded to money.
const calculated = 12

// allocate rounds lines so that they come to a total: down, and as many up as it takes, those with
// the largest remainders first, of equal ones the first.
func (p money) allocate(exact []quoin.Amount, total quoin.Amount) []quoin.Amount {
	out, order := make([]quoin.Amount, len(exact)), make([]int, len(exact))
	rest := total
	for i, a := range exact {
		out[i], order[i] = p.below(a), i
		rest = rest.Sub(out[i])
	}
	remainder := func(i int) quoin.Amount { return exact[i].Sub(out[i]) }
	slices.SortStableFunc(order, func(i, j int) int { return remainder(j).Cmp(remainder(i)) })
	unit := p.unit()
	if rest.Sign() < 0 {
		unit = unit.Neg()
		slices.Reverse(order)
	}
	for n := 0; rest.Sign()*unit.Sign() > 0 && n < 2*len(order); n++ {
		i := order[n%len(order)]
		out[i], rest = out[i].Add(unit), rest.Sub(unit)
	}
	return out
}

func (p money) unit() quoin.Amount { return quoin.AmountOf(1, p.places) }

// below is the greatest amount of money that is not above a figure.
func (p money) below(a quoin.Amount) quoin.Amount {
	down := a.Round(p.places, quoin.Down)
	if down.Cmp(a) > 0 {
		down = down.Sub(p.unit())
	}
	return down
}

// nearest rounds to money, halves up, also below zero.
func (p money) nearest(a quoin.Amount) quoin.Amount {
	return p.below(a.Round(calculated, quoin.HalfUp).Add(quoin.AmountOf(5, p.places+1)))
}
