package sheet_test

import (
	"encoding/json"
	"testing"

	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/sheet"
)

// clashing is a conflict written by hand: 12.50 − 10.00 is 2.50 too much. Prices go from 0.01 to
// 90.00, so what one rule allows may have no end.
const clashing = `{"currency": "EUR", "price_step": "0.01", "price_limit": "90.00", "choose": "least", "products": [], "dropped": [], "cautions": ["Estimates only."],
"conflict": ["leaves ten", "market", "ladder"],
"clashes": [
  {"product": "a5", "name": "Heron, A5", "rule": "leaves ten", "least": "12.50", "greatest": "90.00"},
  {"product": "a5", "name": "Heron, A5", "rule": "market", "least": "0.01", "greatest": "10.00"},
  {"product": "a4", "rule": "ladder", "least": "0.01", "greatest": "90.00"},
  {"product": "a4", "rule": "market", "least": "0.02", "greatest": "89.99"},
  {"product": "a4", "rule": "ends", "least": "15.00", "greatest": "15.00"},
  {"product": "a4", "rule": "leaves ten"}],
"gaps": [{"product": "a5", "floor": "12.50", "floor_by": ["leaves ten", "ladder"], "ceiling": "10.00", "ceiling_by": ["market"]}],
"remedies": [
  {"change": "trade_discount", "path": "channels[0].trade_discount[0]", "name": "shops", "from": "50%", "to": "42.5%", "place": "Shops at half, trade discount"},
  {"change": "goods", "path": "products[0]", "name": "a5", "from": "4.00", "to": "1.50"},
  {"change": "goods", "path": "products[1]", "name": "a4", "from": "6.00", "to": "3.25"},
  {"change": "fee", "path": "channels[1].fees[0].rate", "name": "card", "from": "9%", "to": "2%", "place": "Marketplace, card, rate"},
  {"change": "fee", "path": "channels[1].fees[1].fixed", "name": "listing", "from": "3.00", "to": "0.50"},
  {"change": "rule", "path": "rules[0].at_least", "name": "leaves ten", "from": "10.00", "to": "7.50"},
  {"change": "rule", "path": "rules[1].to_quantile", "name": "market", "from": "0.5x", "to": "0.75x"},
  {"change": "rule", "path": "rules[2].from_quantile", "name": "floor of it", "from": "0.3x", "to": "0.2x"}]}`

func TestConflict(t *testing.T) {
	var a pricelist.Answer
	if err := json.Unmarshal([]byte(clashing), &a); err != nil {
		t.Fatal(err)
	}
	same(t, sheet.Text(a, 90), `No price list: "leaves ten", "market" and "ladder" cannot hold together. Drop or change
any one of them and the rest can.

Heron, A5
  "leaves ten" allows 12.50 and up
  "market" allows up to 10.00
a4
  "ladder" allows any price
  "market" allows 0.02–89.99
  "ends" allows 15.00
  "leaves ten" allows no price

Heron, A5: "leaves ten" and "ladder" asks at least 12.50, "market" at most 10.00: 2.50 too
much

Any one of these ends the conflict:
- making Heron, A5 costs 1.50 instead of 4.00, and making a4 costs 3.25 instead of 6.00
- the trade discount of Shops at half is 42.5% instead of 50%
- the fee "card" of Marketplace is 2% instead of 9%
- the fee "listing" of listing is 0.50 instead of 3.00
- the rule "leaves ten" asks 7.50 instead of 10.00
- in rule "market" write "to_quantile": "0.75" instead of 0.5
- in rule "floor of it" write "from_quantile": "0.2" instead of 0.3

Estimates only.
`)
	same(t, plain(sheet.Markdown(a)), `# No price list

"leaves ten", "market" and "ladder" cannot hold together. Drop or change any one of them and the rest can.

| product | rule | allows |
|---|---|---|
| Heron, A5 | leaves ten | 12.50 and up |
| Heron, A5 | market | up to 10.00 |
| a4 | ladder | any price |
| a4 | market | 0.02–89.99 |
| a4 | ends | 15.00 |
| a4 | leaves ten | no price |

- Heron, A5: "leaves ten" and "ladder" asks at least 12.50, "market" at most 10.00: 2.50 too much

Any one of these ends the conflict:

- making Heron, A5 costs 1.50 instead of 4.00, and making a4 costs 3.25 instead of 6.00
- the trade discount of Shops at half is 42.5% instead of 50%
- the fee "card" of Marketplace is 2% instead of 9%
- the fee "listing" of listing is 0.50 instead of 3.00
- the rule "leaves ten" asks 7.50 instead of 10.00
- in rule "market" write "to_quantile": "0.75" instead of 0.5
- in rule "floor of it" write "from_quantile": "0.2" instead of 0.3

## Cautions

- Estimates only.
`)
}
