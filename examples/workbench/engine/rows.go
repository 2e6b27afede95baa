package main

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/channel"
	"example.com/quoin/margin"
)

// row is one line of where a price goes, with a cell for each channel.
type row struct {
	Label string   `json:"label"`
	Total bool     `json:"total,omitempty"`
	Loss  []bool   `json:"loss,omitempty"` // of a total, which cells are below zero
	Cells []string `json:"cells"`
}

// part is a line of a statement: what it adds to what is left, below zero where it takes away.
type part struct {
	label string
	adds  func(channel.BuyerPays, margin.Statement) quoin.Amount
}

// section is lines, and what is left after them.
type section struct {
	parts []part
	total string
	left  func(margin.Statement) quoin.Amount
}

// sections are the lines from what a buyer pays to what stays in the end.
func sections() []section {
	return []section{
		{[]part{
			{"price of one print", func(b channel.BuyerPays, _ margin.Statement) quoin.Amount { return b.Item }},
			{"+ postage the buyer pays", func(b channel.BuyerPays, _ margin.Statement) quoin.Amount { return b.Postage }},
			{"+ surcharge the buyer pays", func(b channel.BuyerPays, _ margin.Statement) quoin.Amount { return b.Surcharge }},
			{"+ tax on top", func(b channel.BuyerPays, _ margin.Statement) quoin.Amount { return b.TaxOnTop }},
			{"− tax, passed on", func(_ channel.BuyerPays, s margin.Statement) quoin.Amount { return s.Tax.Neg() }},
		}, "you receive", func(s margin.Statement) quoin.Amount { return s.Revenue }},
		{[]part{
			{"− materials and packing", func(_ channel.BuyerPays, s margin.Statement) quoin.Amount {
				return s.OwnTime.Add(s.PaidTime).Sub(s.Goods)
			}},
			{"− your own time", func(_ channel.BuyerPays, s margin.Statement) quoin.Amount { return s.OwnTime.Neg() }},
			{"− paid time", func(_ channel.BuyerPays, s margin.Statement) quoin.Amount { return s.PaidTime.Neg() }},
			{"− selling fees", func(_ channel.BuyerPays, s margin.Statement) quoin.Amount { return s.Fees.Neg() }},
			{"− postage you pay", func(_ channel.BuyerPays, s margin.Statement) quoin.Amount { return s.Fulfilment.Neg() }},
			{"− fixed cost of the channel", func(_ channel.BuyerPays, s margin.Statement) quoin.Amount { return s.FixedCost.Neg() }},
		}, "stays with you", func(s margin.Statement) quoin.Amount { return s.Contribution }},
		{[]part{
			{"− part of yearly costs", func(_ channel.BuyerPays, s margin.Statement) quoin.Amount { return s.Overhead.Neg() }},
			{"− income tax", func(_ channel.BuyerPays, s margin.Statement) quoin.Amount { return s.IncomeTax.Neg() }},
		}, "yours in the end", func(s margin.Statement) quoin.Amount { return s.Net }},
	}
}

// rows is where a price goes in each channel. Each column adds up to the last digit that is
// shown. Lines that are nothing in all channels are left out, and what is left after none.
func (d *desk) rows(i int, price quoin.Amount) []row {
	offers := d.items[i].Offers
	buyers, statements := make([]channel.BuyerPays, len(offers)), make([]margin.Statement, len(offers))
	for n, o := range offers {
		buyers[n], statements[n] = o.Sale.Terms.BuyerPays(price), o.Sale.At(price)
	}
	var out []row
	before := make([]quoin.Amount, len(offers))
	for _, s := range sections() {
		lines, total := make([]row, len(s.parts)), row{Label: s.total, Total: true}
		for k, p := range s.parts {
			lines[k].Label = p.label
		}
		some := make([]bool, len(s.parts))
		for n := range offers {
			left := d.nearest(s.left(statements[n]))
			exact := make([]quoin.Amount, len(s.parts))
			for k, p := range s.parts {
				exact[k] = p.adds(buyers[n], statements[n])
			}
			for k, a := range d.allocate(exact, left.Sub(before[n])) {
				some[k] = some[k] || !a.IsZero()
				lines[k].Cells = append(lines[k].Cells, d.cell(lines[k].Label, a))
			}
			total.Cells, total.Loss = append(total.Cells, minus(left)), append(total.Loss, left.Sign() < 0)
			before[n] = left
		}
		shown := len(out)
		for k := range lines {
			if some[k] {
				out = append(out, lines[k])
			}
		}
		if len(out) > shown {
			out = append(out, total)
		}
	}
	return out
}

// cell writes a line's figure without the sign that its label has.
func (d *desk) cell(label string, a quoin.Amount) string {
	switch {
	case a.IsZero():
		return "–"
	case label[0] != 'p' && label[0] != '+':
		a = a.Neg()
	}
	return minus(a)
}

// minus writes an amount with a minus sign that reads as one.
func minus(a quoin.Amount) string {
	if a.Sign() < 0 {
		return "−" + a.Neg().String()
	}
	return a.String()
}

// allocate rounds lines so that they come to a total: down, and as many up as it takes, those with
// the largest remainders first, of equal ones the first.
func (d *desk) allocate(exact []quoin.Amount, total quoin.Amount) []quoin.Amount {
	out, order := make([]quoin.Amount, len(exact)), make([]int, len(exact))
	rest := total
	for i, a := range exact {
		out[i], order[i] = d.below(a), i
		rest = rest.Sub(out[i])
	}
	left := func(i int) quoin.Amount { return exact[i].Sub(out[i]) }
	slices.SortStableFunc(order, func(i, j int) int { return left(j).Cmp(left(i)) })
	unit := d.doc.Currency.Minor()
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

// below is the greatest amount of whole minor units that is not above a figure.
func (d *desk) below(a quoin.Amount) quoin.Amount {
	down := d.doc.Currency.Round(a.Round(places, quoin.HalfUp), quoin.Down)
	if down.Cmp(a.Round(places, quoin.HalfUp)) > 0 {
		down = down.Sub(d.doc.Currency.Minor())
	}
	return down
}

// nearest rounds to whole minor units, halves up, also below zero.
func (d *desk) nearest(a quoin.Amount) quoin.Amount {
	return d.below(a.Round(places, quoin.HalfUp).Add(quoin.AmountOf(5, d.doc.Currency.Digits()+1)))
}

// places is to how many digits a figure is known before it is rounded to money.
const places = 12
