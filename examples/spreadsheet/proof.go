package main

import (
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/proof"
)

// prove writes the proof of all statements as sheets of formulas.
func (b *book) prove(doc pricelist.Document) {
	widths := [][]float64{{34, 24, 18, 18, 18, 10}, {46, 18, 18, 40}, {24, 34, 50, 18, 18, 18, 10}}
	for i, s := range proof.Of(doc, b.answer) {
		b.page(s.Name, widths[i]...)
		for r, row := range s.Rows {
			cells := make([]any, len(row))
			for c, cell := range row {
				cells[c] = contents(cell)
			}
			if len(row) > 0 && row[0].Head {
				b.head(s.Name, r+1, cells...)
			} else {
				b.row(s.Name, r+1, cells...)
			}
		}
	}
}

func contents(c proof.Cell) any {
	if c.Formula != "" {
		return formula(c.Formula)
	}
	if n, ok := c.Number.Get(); ok {
		return n
	}
	return c.Text
}
