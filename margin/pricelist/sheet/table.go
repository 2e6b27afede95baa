package sheet

import (
	"slices"

	"example.com/quoin"
	"example.com/quoin/margin"
	"example.com/quoin/margin/pricelist"
)

// The table of where the price goes begins with what the buyer pays. Each line adds to the ones
// above it, or takes from them, and after some lines stands what is left.

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
		{"- fixed cost of channel", func(c pricelist.ChannelResult) quoin.Amount { return c.Statement.Selling.Neg() }},
	}, "= stays with you", func(s margin.Statement) quoin.Amount { return s.Contribution }},
	{[]line{
		{"- part of yearly costs", func(c pricelist.ChannelResult) quoin.Amount { return c.Statement.Overhead.Neg() }},
		{"- income tax", func(c pricelist.ChannelResult) quoin.Amount { return c.Statement.IncomeTax.Neg() }},
	}, "= yours in the end", func(s margin.Statement) quoin.Amount { return s.Net }},
}

// column is the table of one channel as it is printed: each group's lines, and what is left. What
// is left after a group is what was left before it with its lines added, to the last digit.
type column struct {
	lines [][]quoin.Amount
	left  []quoin.Amount
}

// added is the column of a channel. What is left is rounded first, each by itself, halves up. The
// lines between two of them are each rounded down or up, so that they make the difference: those
// with the largest remainders go up. Since a difference of two rounded figures is that of the
// exact ones rounded down or up, no line is ever off by a whole unit.
func (p wording) added(c pricelist.ChannelResult) column {
	var out column
	before := quoin.Amount{}
	for _, g := range whereItGoes {
		left := p.nearest(g.of(c.Statement))
		exact := make([]quoin.Amount, len(g.lines))
		for i, l := range g.lines {
			exact[i] = l.adds(c).Round(calculated, quoin.HalfUp)
		}
		out.lines = append(out.lines, p.allocate(exact, left.Sub(before)))
		out.left, before = append(out.left, left), left
	}
	return out
}

// calculated is to how many places a figure is known before it is rounded to money.
const calculated = 12

// allocate rounds lines so that they come to a total: down, and as many up as it takes, those with
// the largest remainders first, of equal ones the first.
func (p wording) allocate(exact []quoin.Amount, total quoin.Amount) []quoin.Amount {
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

func (p wording) unit() quoin.Amount { return quoin.AmountOf(1, p.currency.Digits()) }

// below is the greatest amount of money that is not above a figure.
func (p wording) below(a quoin.Amount) quoin.Amount {
	down := a.Round(p.currency.Digits(), quoin.Down)
	if down.Cmp(a) > 0 {
		down = down.Sub(p.unit())
	}
	return down
}

// nearest rounds to money, halves up, also below zero.
func (p wording) nearest(a quoin.Amount) quoin.Amount {
	return p.below(a.Round(calculated, quoin.HalfUp).Add(quoin.AmountOf(5, p.currency.Digits()+1)))
}

// row is a line of a table: its label and a cell for each channel.
type row struct {
	label string
	cells []string
	total bool
}

// where is the table of where the price goes: a cell for each channel, without lines that are 0 in
// all of them, and without what is left after nothing.
func (p wording) where(channels []pricelist.ChannelResult) []row {
	columns := make([]column, len(channels))
	for j, c := range channels {
		columns[j] = p.added(c)
	}
	var out []row
	for i, g := range whereItGoes {
		shown := 0
		for k, l := range g.lines {
			signs := l.label[:1]
			r, some := p.row(l.label, columns, func(c column) quoin.Amount {
				if signs == "-" {
					return c.lines[i][k].Neg()
				}
				return c.lines[i][k]
			})
			if some || i+k == 0 {
				out = append(out, r)
				shown++
			}
		}
		if shown > 1 || shown > 0 && i > 0 {
			r, _ := p.row(g.left, columns, func(c column) quoin.Amount { return c.left[i] })
			r.total = true
			for k, c := range columns {
				r.cells[k] = p.money(c.left[i])
			}
			out = append(out, r)
		}
	}
	return out
}

// row has a dash where a figure is 0, and says whether any is not.
func (p wording) row(label string, columns []column, figure func(column) quoin.Amount) (r row, some bool) {
	r.label = label
	for _, c := range columns {
		a := figure(c)
		if a.IsZero() {
			r.cells = append(r.cells, "-")
			continue
		}
		r.cells, some = append(r.cells, p.money(a)), true
	}
	return r, some
}

// margins are shares of what is received, and between what figures lie where something is unsure.
func (p wording) margins(channels []pricelist.ChannelResult) []row {
	out := []row{
		cells("gross margin", channels, func(c pricelist.ChannelResult) string { return share(c.Statement.GrossMargin()) }),
		cells("net margin", channels, func(c pricelist.ChannelResult) string { return share(c.Statement.NetMargin()) }),
	}
	if len(channels) == 0 || channels[0].Range == nil {
		return out
	}
	for _, r := range []struct {
		label string
		of    func(*pricelist.StatementRange) quoin.Amount
	}{
		{"making it: at least", func(r *pricelist.StatementRange) quoin.Amount { return r.Goods.Low }},
		{"making it: at most", func(r *pricelist.StatementRange) quoin.Amount { return r.Goods.High }},
		{"in the end: at least", func(r *pricelist.StatementRange) quoin.Amount { return r.Net.Low }},
		{"in the end: at most", func(r *pricelist.StatementRange) quoin.Amount { return r.Net.High }},
	} {
		out = append(out, cells(r.label, channels, func(c pricelist.ChannelResult) string {
			if c.Range == nil {
				return "-"
			}
			return p.money(r.of(c.Range))
		}))
	}
	return out
}

func cells[T any](label string, all []T, cell func(T) string) row {
	r := row{label: label}
	for _, one := range all {
		r.cells = append(r.cells, cell(one))
	}
	return r
}
