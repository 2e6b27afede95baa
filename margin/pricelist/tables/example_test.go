package tables_test

import (
	"errors"
	"fmt"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/tables"
)

func ExampleRead() {
	shop := tables.Example() // a program has it from a workbook, or from CSV files
	doc, err := tables.Read(shop)
	if err != nil {
		fmt.Println(err)
		return
	}
	answer, err := pricelist.Decide(doc)
	if err != nil {
		fmt.Println(err)
		return
	}
	for _, p := range answer.Products {
		fmt.Println(p.Name, p.Price)
	}

	shop["Materials"][1][3] = "62,00"
	shop["Fees"][1][0] = "wbe"
	_, err = tables.Read(shop)
	var problems quoin.Problems
	if errors.As(err, &problems) {
		fmt.Println(problems.InFile("shop.xlsx"))
	}
	// Output:
	// Heron, A4 22.00
	// Heron, A3 31.00
	// shop.xlsx: Fees!A2: found "wbe", wanted what stands in the first column of the sheet Ways of selling; did you mean web? [unknown_id]
	// shop.xlsx: Materials!D2: found "62,00", wanted an amount such as 17.50; write a point, not a comma, before the fraction [not_a_number]
}

func ExampleLayout() {
	for _, s := range tables.Layout()[:2] {
		fmt.Println(s)
		for _, c := range s.Columns[:3] {
			fmt.Printf("  %s (%s): %s\n", c, c.Kind, c.Comment)
		}
	}
	// Output:
	// Settings
	//   Currency (text): The currency of all amounts, in three letters: EUR
	//   Price step (number): Every price is a multiple of this: 0.50
	//   Highest price (number): No price above this is considered: 100.00
	// Materials
	//   Material (text): A short name that the sheet Bill uses: paper
	//   Name (text): What people call it: Cotton rag paper
	//   Quantity (text): How much the price buys, with a unit: 50 sheet, 1 h, 500 ml
}
