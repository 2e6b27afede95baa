package sheet_test

import (
	"fmt"
	"log"
	"strings"

	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/sheet"
)

// A linocut of a bittern and one shop; the fees and prices are invented.
const document = `{
  "version": 1, "currency": "EUR", "price_limit": "60.00",
  "supplies": [{"id": "paper", "quantity": "50 sheet", "price": "64.00"}],
  "products": [{"id": "bittern-a4", "name": "Bittern, A4", "bill": [{"supply": "paper", "quantity": "0.5 sheet"}]}],
  "channels": [{"id": "shop", "name": "Own shop", "fees": [{"name": "payment", "rate": "2.1%", "fixed": "0.27"}]}],
  "rules": [{"id": "leaves nine", "rule": "contribution", "at_least": "9.00"}]
}`

func answer() pricelist.Answer {
	a, err := pricelist.Price([]byte(document))
	if err != nil {
		log.Fatal(err)
	}
	return a
}

// Goods cost 64.00 ÷ 50 × 0.5 = 0.64. At 10.12 the fee is 0.21252 + 0.27,
// so 0.48, and 9.00 is left.
func ExampleText() {
	fmt.Print(sheet.Text(answer(), 60))
	// Output:
	// Bittern, A4                                        10.12 EUR
	//   Allowed: 10.12 to 60.00. "leaves nine" forbids less.
	//
	//                       Own shop
	//   revenue                10.12
	//   - goods                 0.64
	//   = gross                 9.48
	//   - fees                  0.48
	//   - fulfilment            0.00
	//   - selling               0.00
	//   = contribution          9.00
	//   - overhead              0.00
	//   = operating             9.00
	//   - income tax            0.00
	//   = net                   9.00
	//   gross margin           93.7%
	//   net margin             88.9%
	//
	//   One price for all:
	//   - Alone, Own shop would need 10.12. 9.00 of each sale
	//     stays with you, before yearly costs and income tax.
	//
	// Worth a look:
	// - no bill holds working time: the 9.00 that a sale of
	//   Bittern, A4 contributes in Own shop also has to pay for
	//   making and packing it; add an hour of your time as a
	//   supply with "labour": "own", and the minutes of each print
	//   to its bill (supplies)
	//
	// Figures are per item, averaged over the kinds of order, and
	// rounded for display only.
	// These are estimates from the figures in the document, and
	// only as good as they are.
	// This is not tax, legal or accounting advice.
	// Fees, taxes and the law on resale prices differ by place and
	// change; ask the authority or a licensed professional.
}

func ExampleWhy() {
	story, ok := sheet.Why(answer(), "bittern-a4", 72)
	fmt.Println(ok)
	lines := strings.Split(story, "\n")
	fmt.Println(strings.Join(lines[3:16], "\n"))
	// Output:
	// true
	// Why not lower?
	//   10.11 is refused:
	//     "leaves nine": it would keep 8.99 for each print in shop, at least
	//     9.00 asked
	// Why not higher?
	//   Up to 60.00 is allowed; 10.12 was taken, as "choose" says.
	//   Nothing refuses it up to the end of the prices considered.
	//
	// Goods and overhead, step by step
	//
	//     1  landed cost, paper (supplies[0]) = price 64.00 = 64.00
	//     2  unit cost, paper (supplies[0]) = landed cost [1] 64.00 / quantity
	//        50 sheet = 1.28
}

func ExampleMarkdown() {
	table, _, _ := strings.Cut(sheet.Markdown(answer()), "## ")
	fmt.Print(table)
	// Output:
	// # Price list
	//
	// | product | price, EUR | from | to | forbids less | forbids more |
	// |---|--:|--:|--:|---|---|
	// | Bittern, A4 | 10.12 | 10.12 | 60.00 | "leaves nine" |  |
}
