package sheet

import (
	"example.com/quoin"
	"example.com/quoin/internal/breakdown"
	"example.com/quoin/margin/pricelist"
)

// Line is a line of where a price goes, as it is printed. Its label begins with a sign and a space:
// "+ tax on top", "- selling fees", "= you receive"; the first has two spaces. A line that is taken
// off has an amount below zero.
type Line struct {
	Label  string
	Amount quoin.Amount
	Total  bool // what is left after the lines before it
}

// WhereItGoes returns where the price of one print goes in a channel: what the buyer pays, what is
// taken off, and what is left after each of three groups of lines. All amounts are money of the
// currency, and add up as they are printed: a total is the one before it with the lines between
// them added, to the last digit. Each total is rounded by itself, halves up; the lines are rounded
// down or up so that they make the difference. Of the channel only what the buyer pays and the
// statement are looked at, so it can be asked of any price.
func WhereItGoes(c pricelist.ChannelResult, currency quoin.Currency) []Line {
	var out []Line
	for _, g := range breakdown.Of(c, currency) {
		for _, l := range g.Lines {
			out = append(out, Line{l.Label, l.Amount, false})
		}
		out = append(out, Line{g.Left.Label, g.Left.Amount, true})
	}
	return out
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
	columns := make([]breakdown.Column, len(channels))
	for j, c := range channels {
		columns[j] = breakdown.Of(c, p.currency)
	}
	var out []row
	for i, g := range breakdown.Of(pricelist.ChannelResult{}, p.currency) {
		shown := 0
		for k, l := range g.Lines {
			r, some := p.row(l.Label, columns, func(c breakdown.Column) quoin.Amount {
				if l.Label[0] == '-' {
					return c[i].Lines[k].Amount.Neg()
				}
				return c[i].Lines[k].Amount
			})
			if some || i+k == 0 {
				out = append(out, r)
				shown++
			}
		}
		if shown > 1 || shown > 0 && i > 0 {
			r, _ := p.row(g.Left.Label, columns, func(c breakdown.Column) quoin.Amount { return c[i].Left.Amount })
			r.total = true
			for k, c := range columns {
				r.cells[k] = p.money(c[i].Left.Amount)
			}
			out = append(out, r)
		}
	}
	return out
}

// row has a dash where a figure is 0, and says whether any is not.
func (p wording) row(label string, columns []breakdown.Column, figure func(breakdown.Column) quoin.Amount) (r row, some bool) {
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
