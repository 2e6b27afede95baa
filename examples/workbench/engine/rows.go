package main

import (
	"strings"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/sheet"
)

// row is one line of where a price goes, with a cell for each channel.
type row struct {
	Label string   `json:"label"`
	Total bool     `json:"total,omitempty"`
	Loss  []bool   `json:"loss,omitempty"` // of a total, which cells are below zero
	Cells []string `json:"cells"`
}

// rows is where a price goes in each channel. Each column adds up to the last digit that is
// shown. Lines that are nothing in all channels are left out, and what is left after none.
func (d *desk) rows(i int, price quoin.Amount) []row {
	offers := d.items[i].Offers
	columns := make([][]sheet.Line, len(offers))
	for n, o := range offers {
		sold := pricelist.ChannelResult{Buyer: o.Sale.Terms.BuyerPays(price), Statement: o.Sale.At(price)}
		columns[n] = sheet.WhereItGoes(sold, d.doc.Currency)
	}
	if len(columns) == 0 {
		return nil
	}
	var out []row
	shown := 0 // since the last total
	for k, l := range columns[0] {
		r, some := rowOf(l.Label), l.Total && shown > 0
		for _, column := range columns {
			a := column[k].Amount
			if l.Total {
				r.Total, r.Loss = true, append(r.Loss, a.Sign() < 0)
			}
			some = some || !l.Total && !a.IsZero()
			r.Cells = append(r.Cells, cell(l, a))
		}
		if some {
			out = append(out, r)
			shown++
		}
		if l.Total {
			shown = 0
		}
	}
	return out
}

// rowOf is a row without cells, whose label has a minus sign that reads as one.
func rowOf(label string) row {
	sign, name := label[:1], label[2:]
	switch sign {
	case "-":
		return row{Label: "− " + name}
	case "+":
		return row{Label: "+ " + name}
	}
	return row{Label: name}
}

// cell writes a line's figure without the sign that its label has.
func cell(l sheet.Line, a quoin.Amount) string {
	switch {
	case a.IsZero() && !l.Total:
		return "–"
	case strings.HasPrefix(l.Label, "-"):
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
