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
	// Price list, EUR                today       price      change
	// Bittern, A4                        -       10.12           -
	//     May be 10.12 and up; held from below by "leaves nine"
	//
	// What needs a look:
	// - No bill holds working time: the 9.00 that a sale of
	//   Bittern, A4 contributes in Own shop also has to pay for
	//   making and packing it; add an hour of your time as a
	//   supply with "labour": "own", and the minutes of each print
	//   to its bill (supplies).
	//
	// Bittern, A4: 10.12 EUR
	//   Not below 10.12: at 10.11 a print keeps 8.99 in Own shop,
	//     not 9.00 ("leaves nine").
	//   One print, on average       Own shop
	//     price of one print           10.12
	//   - materials and packing         0.64
	//   - selling fees                  0.48
	//   = stays with you                9.00
	//   you may discount                none
	//
	// Averages over the kinds of order of each channel. Each
	// column adds up as it is printed.
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
	fmt.Println(strings.Join(lines[3:15], "\n"))
	// Output:
	// true
	// Why not lower?
	//   10.11 is forbidden:
	//     at 10.11 a print keeps 8.99 in Own shop, not 9.00 ("leaves nine")
	// Why not higher?
	//   No rule forbids it. 10.12 was taken because without a price today the
	//   least is taken.
	//
	//   One print, on average       Own shop
	//     price of one print           10.12
	//   - materials and packing         0.64
	//   - selling fees                  0.48
	//   = stays with you                9.00
}

func ExampleMarkdown() {
	table, _, _ := strings.Cut(sheet.Markdown(answer()), "## ")
	fmt.Print(table)
	// Output:
	// # Price list
	//
	// | product | today | price, EUR | change | may be | held from below by | from above by |
	// |---|--:|--:|--:|---|---|---|
	// | Bittern, A4 | - | 10.12 | - | 10.12 and up | "leaves nine" |  |
}
