// Package sheet writes an answer of package pricelist for people: as plain text or Markdown, as
// the step by step story of one price, and as a line sheet for shops.
//
//	answer, err := pricelist.Price(document)
//	fmt.Print(sheet.Text(answer, 79))
//
// It computes no prices. Every figure that it prints stands in the answer, and is rounded for
// reading only. Things are called by their names, or by their ids where they have none. A name
// can do nothing to a terminal, a table or a spreadsheet.
package sheet
