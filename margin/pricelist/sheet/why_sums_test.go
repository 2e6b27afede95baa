package sheet_test

import (
	"strings"
	"testing"

	"example.com/quoin/margin/pricelist"
	"example.com/quoin/margin/pricelist/sheet"
)

// A print at half price in two kinds of order, one of three quarters of them. Every second sum is easy
// to follow: 10.00 + 4.00 of shipping − 10.00 × 25% ÷ 1.25 is 12.00, and 20.00 of two; so three quarters of 12.00 and a
// quarter of 20.00 are 14.00, and ÷ 1.25 prints 11.20. Postage of 5.00 ÷ 0.95 is 5.26315789…, goods 64.00 ÷ 50 ÷ 0.8 are 1.60,
// ÷ 0.95 1.68421052…; the fee is 0.50 where 2% are less.
func TestSumsOfAStory(t *testing.T) {
	a, err := pricelist.Price([]byte(`{"version": 1, "currency": "EUR", "overhead": {"cost": "30.00", "items": 20}, "income_tax": "20%",
		"supplies": [{"id": "paper", "name": "Cotton rag", "quantity": "50 sheet", "price": "64.00"}], "stages": [{"id": "print", "yield": "80%"}],
		"products": [{"id": "curlew", "price": "20.00", "bill": [{"supply": "paper", "quantity": "1 sheet", "stage": "print"}]}],
		"channels": [{"id": "shops", "trade_discount": ["50%"], "tax": {"rate": "25%", "in_price": true}, "fees": [{"name": "card", "rate": "2%", "at_least": "0.50"}],
			"orders": [{"share": "75%", "shipping": "4.00", "free_from": "15.00", "postage": "5.00"}, {"share": "25%", "items": 2, "shipping": "4.00", "postage": "5.00"}], "lost_parcels": "5%"}],
		"rules": [{"id": "as today", "rule": "price", "at_least": "20.00", "at_most": "20.00"}]}`))
	if err != nil {
		t.Fatal(err)
	}
	story, _ := sheet.Why(a, "curlew", 300)
	_, sums, _ := strings.Cut(story, "Goods and overhead, step by step\n")
	sums, _, _ = strings.Cut(sums, "\n\nThese are")
	same(t, sums, `
    1  yield onward, print = yield 80% = 0.8
    2  starts, print = 1 / yield onward [1] 0.8 = 1.25
    3  landed cost, Cotton rag = price 64.00 = 64.00
    4  unit cost, Cotton rag = landed cost [3] 64.00 / quantity 50 sheet = 1.28
    5  line cost, Cotton rag = unit cost [4] 1.28 x quantity 1 sheet x starts [2] 1.25 = 1.60
    6  goods per item = line cost [5] 1.60 = 1.60
    7  overhead = cost 30.00 / items 20 = 1.50

shops: one item at 20.00, step by step
  Prices from 29.99 to 36.02 keep less than 29.98, which keeps 8.88; from 36.03 on it pays again.

    8  unit price, order 1 = list price 20.00 x (1 - trade discount 50%) = 10.00
    9  items, order 1 = unit price [8] 10.00 = 10.00
   10  shipping, order 1 = shipping 4.00 where items [9] 10.00 is below free from 15.00, else 0 = 4.00
   11  tax, order 1 = items [9] 10.00 x tax rate 25% / (1 + tax rate 25%) = 2.00
   12  order revenue, order 1 = items [9] 10.00 + shipping [10] 4.00 - tax [11] 2.00 = 12.00
   13  fee rated, card = items [9] 10.00 x rate 2% = 0.20
   14  fee charge, card = fee rated [13] 0.20 = 0.20
   15  fee at least, card = greatest of fee charge [14] 0.20, at least 0.50 = 0.50
   16  fee, card = fee at least [15] 0.50 = 0.50
   17  order fees, order 1 = card [16] 0.50 = 0.50
   18  order fulfilment, order 1 = postage 5.00 / (1 - loss 5%) = ≈5.26315789
   19  order cost, order 1 = goods per item [6] 1.60 x items 1 + goods per order 0 x 1 = 1.60
   20  order goods, order 1 = order cost [19] 1.60 / (1 - loss 5%) = ≈1.68421053
   21  unit price, order 2 = list price 20.00 x (1 - trade discount 50%) = 10.00
   22  items, order 2 = unit price [21] 10.00 x items 2 = 20.00
   23  tax, order 2 = items [22] 20.00 x tax rate 25% / (1 + tax rate 25%) = 4.00
   24  order revenue, order 2 = items [22] 20.00 + shipping 4.00 - tax [23] 4.00 = 20.00
   25  fee rated, card = items [22] 20.00 x rate 2% = 0.40
   26  fee charge, card = fee rated [25] 0.40 = 0.40
   27  fee at least, card = greatest of fee charge [26] 0.40, at least 0.50 = 0.50
   28  fee, card = fee at least [27] 0.50 = 0.50
   29  order fees, order 2 = card [28] 0.50 = 0.50
   30  order fulfilment, order 2 = postage 5.00 / (1 - loss 5%) = ≈5.26315789
   31  order cost, order 2 = goods per item [6] 1.60 x items 2 + goods per order 0 x 1 = 3.20
   32  order goods, order 2 = order cost [31] 3.20 / (1 - loss 5%) = ≈3.36842105
   33  items per order = share 75% x items 1 + share 25% x items 2 = 1.25
   34  weighted total = order revenue [12] 12.00 x share 75% + order revenue [24] 20.00 x share 25% = 14.00
   35  revenue = weighted total [34] 14.00 / items per order [33] 1.25 = 11.20
   36  weighted total = tax [11] 2.00 x share 75% + tax [23] 4.00 x share 25% = 2.50
   37  tax passed on = weighted total [36] 2.50 / items per order [33] 1.25 = 2.00
   38  weighted total = order goods [20] ≈1.68421053 x share 75% + order goods [32] ≈3.36842105 x share 25% = ≈2.10526316
   39  goods = weighted total [38] ≈2.10526316 / items per order [33] 1.25 = ≈1.68421053
   40  weighted total = order fees [17] 0.50 x share 75% + order fees [29] 0.50 x share 25% = 0.50
   41  fees = weighted total [40] 0.50 / items per order [33] 1.25 = 0.40
   42  weighted total = order fulfilment [18] ≈5.26315789 x share 75% + order fulfilment [30] ≈5.26315789 x share 25% = ≈5.26315789
   43  fulfilment = weighted total [42] ≈5.26315789 / items per order [33] 1.25 = ≈4.21052632
   44  fixed cost = nothing = 0
   45  gross = revenue [35] 11.20 - goods [39] ≈1.68421053 = ≈9.51578947
   46  contribution = gross [45] ≈9.51578947 - fees [41] 0.40 - fulfilment [43] ≈4.21052632 - fixed cost [44] 0 = ≈4.90526316
   47  operating = contribution [46] ≈4.90526316 - overhead [7] 1.50 = ≈3.40526316
   48  operating above 0 = greatest of operating [47] ≈3.40526316, nothing 0 = ≈3.40526316
   49  income tax = operating above 0 [48] ≈3.40526316 x income tax 20% = ≈0.68105263
   50  net = operating [47] ≈3.40526316 - income tax [49] ≈0.68105263 = ≈2.72421053`)
}
