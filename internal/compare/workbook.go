package compare

import (
	"fmt"
	"math"
	"strconv"

	"github.com/xuri/excelize/v2"
)

const (
	settleTab = "Settlement"
	sheetTab  = "Prices"
)

// workbook is a workbook with real formulas, recalculated by excelize: prices are
// set in their cells, then the cells of the results are asked for. Numbers in it
// are floats, as in any workbook; excelize's ROUND counts what is a
// thousand-millionth short of half a cent as half a cent.
func workbook() Peer {
	book := excelize.NewFile()
	writeSettlement(book)
	writeSheet(book)
	raw := excelize.Options{RawCellValue: true}
	cents := func(tab, cell string) int64 {
		value := have(book.CalcCellValue(tab, cell, raw))
		return int64(math.Round(have(strconv.ParseFloat(value, 64)) * 100))
	}
	return Peer{
		Name: "workbook",
		Settle: func(price int64) int64 {
			must(book.SetCellValue(settleTab, "A1", float64(price)/100))
			return cents(settleTab, "D4")
		},
		Sheet: func(list [Sizes]int64) (out [Results]int64) {
			for s, price := range list {
				must(book.SetCellValue(sheetTab, listCell(s), float64(price)/100))
			}
			for i := range out {
				out[i] = cents(sheetTab, fmt.Sprint("H", firstResult+i))
			}
			return out
		},
	}
}

// writeSettlement writes the price in A1, a fee in each of rows 1 to 3 (rate in
// B, fixed in C, fee in D) and the net in D4.
func writeSettlement(book *excelize.File) {
	have(book.NewSheet(settleTab))
	for i, f := range Settlement() {
		row := fmt.Sprint(i + 1)
		must(book.SetCellValue(settleTab, "B"+row, float64(f.PerMille)/1000))
		must(book.SetCellValue(settleTab, "C"+row, float64(f.Fixed)/100))
		must(book.SetCellFormula(settleTab, "D"+row, "ROUND($A$1*B"+row+"+C"+row+",2)"))
	}
	must(book.SetCellFormula(settleTab, "D4", "ROUND(A1-SUM(D1:D3),2)"))
}

// Rows of the price sheet: sizes first, then channels, then results.
const (
	firstSize    = 1
	firstChannel = firstSize + Sizes
	firstResult  = firstChannel + Channels
)

func listCell(size int) string { return fmt.Sprint("A", firstSize+size) }

func writeSheet(book *excelize.File) {
	have(book.NewSheet(sheetTab))
	for s, cost := range Costs() {
		must(book.SetCellValue(sheetTab, fmt.Sprint("B", firstSize+s), float64(cost)/100))
	}
	for c, terms := range Table() {
		must(book.SetSheetRow(sheetTab, fmt.Sprint("A", firstChannel+c), terms.row()))
	}
	for i := range Results {
		size, terms, row := firstSize+i/Channels, firstChannel+i%Channels, firstResult+i
		for column, formula := range results(size, terms, row) {
			must(book.SetCellFormula(sheetTab, fmt.Sprint(column, row), formula))
		}
	}
}

// row is a channel in columns A to I: what is kept of the list price, tax, 1 where
// it is in the price, commission, payment's rate and fixed, shipping, free from,
// postage.
func (c *Channel) row() *[]any {
	inPrice := 0
	if c.InPrice {
		inPrice = 1
	}
	return &[]any{
		1 - float64(c.Discount)/1000, float64(c.Tax) / 1000, inPrice, float64(c.Commission) / 1000,
		float64(c.Payment.PerMille) / 1000, float64(c.Payment.Fixed) / 100,
		float64(c.Shipping) / 100, float64(c.FreeFrom) / 100, float64(c.Postage) / 100,
	}
}

// results are the formulas of one result, by column.
func results(size, terms, row int) map[string]string {
	of := func(format string) string { return fmt.Sprintf(format, size, terms, row) }
	return map[string]string{
		"A": of("ROUND($A$%[1]d*$A$%[2]d,2)"),                             // items
		"B": of("IF(A%[3]d<$H$%[2]d,$G$%[2]d,0)"),                         // shipping
		"C": of("A%[3]d+B%[3]d"),                                          // both
		"D": of("ROUND(C%[3]d*$B$%[2]d/IF($C$%[2]d=1,1+$B$%[2]d,1),2)"),   // tax
		"E": of("IF($C$%[2]d=1,C%[3]d,C%[3]d+D%[3]d)"),                    // paid
		"F": of("ROUND(A%[3]d*$D$%[2]d,2)"),                               // commission
		"G": of("ROUND(E%[3]d*$E$%[2]d+$F$%[2]d,2)"),                      // payment
		"H": of("ROUND(E%[3]d-D%[3]d-F%[3]d-G%[3]d-$I$%[2]d-$B$%[1]d,2)"), // contribution
	}
}
