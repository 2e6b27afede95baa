package annual_test

import (
	"fmt"
	"strings"

	"example.com/quoin"
	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/annual"
)

// A print takes a sheet, and a sale is to leave 5.00 after a fee of 10%; all figures are invented.
const small = `{
  "version": 1, "currency": "EUR", "price_limit": "200.00", "choose": "least",
  "supplies": [{"id": "paper", "quantity": "1 sheet", "price": "4.00"}],
  "products": [{"id": "heron", "bill": [{"supply": "paper", "quantity": "1 sheet"}]}],
  "channels": [{"id": "web", "fees": [{"name": "commission", "rate": "10%"}]}],
  "rules": [{"id": "keeps", "rule": "contribution", "at_least": "5.00"}]
}`

// reviewed is the shop a year later: a sheet costs 4.90 instead of 4.00. The price was 10.00, of
// which 10.00 − 4.00 − 1.00 = 5.00 was left; now 11.00 − 4.90 − 1.10 = 5.00 is.
func reviewed() annual.Results {
	last, _ := pricelist.Decode([]byte(small))
	now, _ := pricelist.Decode([]byte(strings.Replace(small, "4.00", "4.90", 1)))
	found, err := annual.Review(annual.Year{
		Last: last, Now: now,
		Terms: annual.Terms{Today: quoin.MustDate("2026-11-21"), Move: quoin.MustRate("10%")},
	})
	if err != nil {
		fmt.Println(err)
	}
	return found
}

func ExampleReview() {
	for _, m := range reviewed().Review.Moves {
		fmt.Println(m.Product, m.Advice, "from", m.Last, "to", m.Now)
	}
	// Output:
	// heron raise from 10.00 to 11.00
}

func ExampleText() {
	text, _, _ := strings.Cut(annual.Text(reviewed(), 72), "\nHOW MUCH VOLUME")
	fmt.Print(text)
	// Output:
	// Review of the price list on 2026-11-21, amounts in EUR
	//
	// WHAT TO DO WITH EACH PRICE, at most 10% at once
	//
	//                                                           last       now
	//   heron                                                  10.00     11.00
	//     raise it to 11.00 now (10.0%)
	//     since: the last price breaks a rule; the whole step may be taken at
	//       once
	//
	// WHICH LAST PRICES BREAK A RULE NOW
	//
	//   heron at 10.00 breaks "keeps" in web: it asks at least 5.00, and gets
	//     4.10
	//
	// WHAT CHANGED
	//
	//                                                            was        is
	//   supply paper, price                                     4.00      4.90
	//
	// WHAT EACH CHANGE DID to the lowest price that costs and fees allow
	//
	//                                                  was        is     moved
	//   heron                                        10.00     11.00     +1.00
	//     by supply paper, price                                         +1.00
	//     web alone (sets it, as before)             10.00     11.00     +1.00
	//
	// HOW MANY SALES YOU MAY LOSE AFTER EACH RISE (subscriptions and stands
	//   not counted)
	//
	//   heron, a sale leaves                      at 10.00  at 11.00  may lose
	//     web                                         4.10      5.00       18%
	//
	// WHICH FIGURES MATTER MOST: lowest prices if one is 10% lower or higher
	//
	//                                      lower       now    higher  moves by
	//   supply paper, quantity: 0.9 sheet, 1 sheet or 1.1 sheet
	//     heron                            11.61     11.00     10.51      1.10
	//   product heron, bill paper, quantity: 0.9 sheet, 1 sheet or 1.1 sheet
	//     heron                            10.46     11.00     11.54      1.08
	//   supply paper, price: 4.41, 4.90 or 5.39
	//     heron                            10.46     11.00     11.54      1.08
	//
	// These are estimates from the figures in the document, and only as good
	//   as they are.
	// This is not tax, legal or accounting advice.
	// Fees, taxes and the law on resale prices differ by place and change; ask
	//   the authority or a licensed professional.
}

func ExampleMarkdown() {
	text, _, _ := strings.Cut(annual.Markdown(reviewed()), "\n## Which last")
	fmt.Print(text)
	// Output:
	// # Review of the price list on 2026-11-21, amounts in EUR
	//
	// ## What to do with each price, at most 10% at once
	//
	// |  | last | now |
	// |---|--:|--:|
	// | **heron** | **10.00** | **11.00** |
	// | raise it to 11.00 now \(10.0%\) |  |  |
	// | since: the last price breaks a rule; the whole step may be taken at once |  |  |
}
